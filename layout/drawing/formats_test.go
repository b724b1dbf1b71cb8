package drawing

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestFileIsOfTheKindItsEndingTells(t *testing.T) {
	begins := map[string]string{"a.png": "\x89PNG", "a.SVG": "<?xml", "b/c.pdf": "%PDF-1.", "a.b.csv": "piece,copy,number,"}
	for name, want := range begins {
		write, err := ForFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var buf bytes.Buffer
		if err := write(&buf, sheets()["few"], Options{PixelWidth: 900}); err != nil {
			t.Fatal(name, err)
		}
		if !strings.HasPrefix(buf.String(), want) {
			t.Errorf("%s begins %q, want %q", name, buf.String()[:12], want)
		}
		if err := write(&buf, Sheet{}, Options{}); err == nil {
			t.Errorf("%s: drew no cloth", name)
		}
	}
	for _, name := range []string{"", "a", "a.gif", ".pdf/a", "png"} {
		if _, err := ForFile(name); err == nil || !strings.Contains(err.Error(), ".png, .svg, .pdf, .csv") {
			t.Errorf("%q: %v", name, err)
		}
	}
}

func TestSVGHasOneShapeAPieceAtItsPlace(t *testing.T) {
	s := sheets()["few"]
	var buf bytes.Buffer
	if err := SVG(&buf, s, Options{}); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Rows []struct {
			Paths []struct {
				D    string `xml:"d,attr"`
				Fill string `xml:"fill,attr"`
			} `xml:"path"`
		} `xml:"g"`
	}
	if err := xml.Unmarshal(buf.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	fills := map[string]bool{}
	for _, c := range Palette(false).PieceFills {
		fills[hex(c)] = true
	}
	var shapes [][4]float64 // x, y, length, width in px
	for _, r := range doc.Rows {
		for _, p := range r.Paths {
			if !fills[p.Fill] {
				continue
			}
			var x, y [4]float64
			if n, err := fmt.Sscanf(p.D, "M%g %gL%g %gL%g %gL%g %gZ", &x[0], &y[0], &x[1], &y[1], &x[2], &y[2], &x[3], &y[3]); n != 8 {
				t.Fatalf("%q: %v", p.D, err)
			}
			shapes = append(shapes, [4]float64{x[0], y[0], x[1] - x[0], y[2] - y[1]})
		}
	}
	if len(shapes) != len(s.Pieces) {
		t.Fatalf("%d shapes for %d pieces", len(shapes), len(s.Pieces))
	}
	// The panel lies at the first cut end and the left selvedge and is 70 cm long.
	perCM := shapes[0][2] / 70
	for i, p := range s.Pieces {
		m := p.Cut.Bounds()
		got := [4]float64{shapes[i][0] - shapes[0][0], shapes[i][1] - shapes[0][1], shapes[i][2], shapes[i][3]}
		for k, cm := range [4]float64{m.MinX, m.MinY, m.Width(), m.Height()} {
			if math.Abs(got[k]-cm*perCM) > 0.05 {
				t.Errorf("%s: %v px, want %v cm at %.3f px each", p.Name, got, m, perCM)
				break
			}
		}
	}
}

func TestChalkListIsInTheOrderOfCutting(t *testing.T) {
	s := sheets()["few"]
	s.Unit = Inches // the list stays in cm
	s.Pieces = []Piece{
		{Name: `gore, "side"`, Copy: 2, Copies: 2, Number: 3, Cut: rect(72.125, 10, 40, 25.5), TurnDeg: 180},
		{Name: "=1+1", Copy: 1, Copies: 1, Number: 1, Cut: rect(-1e-9, 0, 70, 38)},
		{Name: "-\tband", Copy: 1, Copies: 1, Number: 2, Cut: rect(70, 0, 50, 8), TurnDeg: 90, TurnedOver: true},
	}
	var buf bytes.Buffer
	if err := ChalkCSV(&buf, s); err != nil {
		t.Fatal(err)
	}
	want := "piece,copy,number,cut_length_cm,cut_width_cm,along_from_cm,along_to_cm,across_from_cm,across_to_cm,turned_deg,turned_over,corners_along_across_cm\r\n" +
		"'=1+1,1,1,70.00,38.00,0.00,70.00,0.00,38.00,0,no,0.00 0.00; 70.00 0.00; 70.00 38.00; 0.00 38.00\r\n" +
		"'-·band,1,2,50.00,8.00,70.00,120.00,0.00,8.00,90,yes,70.00 0.00; 120.00 0.00; 120.00 8.00; 70.00 8.00\r\n" +
		"\"gore, \"\"side\"\"\",2,3,40.00,25.50,72.12,112.12,10.00,35.50,180,no,72.12 10.00; 112.12 10.00; 112.12 35.50; 72.12 35.50\r\n"
	if buf.String() != want {
		t.Errorf("got\n%s\nwant\n%s", buf.String(), want)
	}
}

func TestNoNameInTheChalkListIsAFormula(t *testing.T) {
	for name, want := range map[string]string{"=A1": "'=A1", "+1": "'+1", "-1": "'-1", "@x": "'@x", "  =A1": "'  =A1", "＝A1": "'＝A1", "＠x": "'＠x", "body": "body", "half-width": "half-width"} {
		if got := notFormula(name); got != want {
			t.Errorf("%q is written %q, want %q", name, got, want)
		}
	}
}
