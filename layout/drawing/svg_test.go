package drawing

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

func TestSVGIsWellFormedAndSaysWhatThePictureSays(t *testing.T) {
	s := sheets()["few"]
	s.Pieces[0].Name = `<panel> & "co"`
	var buf, again bytes.Buffer
	for _, w := range []*bytes.Buffer{&buf, &again} {
		if err := SVG(w, s, Options{}); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(buf.Bytes(), again.Bytes()) {
		t.Error("two drawings of one sheet differ")
	}
	var written []string
	in := false
	for dec := xml.NewDecoder(&buf); ; {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch v := tok.(type) {
		case xml.StartElement:
			in = v.Name.Local == "text"
			if v.Name.Local == "svg" && v.Attr[1].Value != "254mm" { // 3000 px at 300 dpi
				t.Errorf("the drawing is %s wide, want 254mm", v.Attr[1].Value)
			}
		case xml.CharData:
			if in {
				written = append(written, string(v))
			}
		case xml.EndElement:
			in = false
		}
	}
	_, p := drawn(t, s, 3000)
	var want []string
	for _, w := range p.texts {
		want = append(want, w.line)
	}
	if strings.Join(written, "\n") != strings.Join(want, "\n") {
		t.Errorf("SVG says\n%q\nthe picture\n%q", written, want)
	}
}

func TestSVGOfNothingIsRefused(t *testing.T) {
	if err := SVG(io.Discard, Sheet{}, Options{}); err == nil {
		t.Error("drew no cloth")
	}
}
