package drawing

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"ellwand/paper"
	"unicode/utf16"

	"pgregory.net/rapid"
)

func pdfOf(t interface{ Fatal(...any) }, s Sheet, o Options) []byte {
	var buf bytes.Buffer
	if err := PDF(&buf, s, o); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// page is what a page of a PDF draws and says, in points from its lower left.
type page struct {
	outlines [][][2]float64
	said     []string
}

func pagesOf(t *testing.T, pdf []byte) []page {
	t.Helper()
	var out []page
	for _, m := range regexp.MustCompile(`(?s)/FlateDecode /Length \d+>>\nstream\n(.*?)\nendstream`).FindAllSubmatch(pdf, -1) {
		r, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue
		}
		data, err := io.ReadAll(r)
		if err != nil || !bytes.Contains(data, []byte(" Tj ET")) {
			continue
		}
		out = append(out, page{outlinesIn(string(data)), saidIn(data)})
	}
	return out
}

func outlinesIn(ops string) [][][2]float64 {
	var all [][][2]float64
	for _, line := range strings.Split(ops, "\n") {
		var x, y float64
		var op string
		if n, _ := fmt.Sscanf(line, "%g %g %s", &x, &y, &op); n != 3 {
			continue
		}
		switch {
		case op == "m":
			all = append(all, [][2]float64{{x, y}})
		case op == "l" && len(all) > 0:
			all[len(all)-1] = append(all[len(all)-1], [2]float64{x, y})
		}
	}
	return all
}

func saidIn(ops []byte) []string {
	var out []string
	for _, m := range regexp.MustCompile(`(?s)Td \((.*?)\) Tj ET`).FindAllSubmatch(ops, -1) {
		raw := regexp.MustCompile(`(?s)\\(.)`).ReplaceAll(m[1], []byte("$1"))
		var units []uint16
		for i := 0; i+1 < len(raw); i += 2 {
			units = append(units, uint16(raw[i])<<8|uint16(raw[i+1]))
		}
		out = append(out, string(utf16.Decode(units)))
	}
	return out
}

func (p page) scale(t *testing.T) float64 {
	t.Helper()
	var ratio float64
	if n, _ := fmt.Sscanf(p.said[len(p.said)-1], "Scale 1 : %g when printed", &ratio); n != 1 {
		t.Fatalf("no scale in %q", p.said[len(p.said)-1])
	}
	return ratio
}

// find is the lower left corner of the first outline of so many points' size.
func (p page) find(wide, high float64) (x, y float64, ok bool) {
	for _, o := range p.outlines {
		if len(o) != 4 {
			continue
		}
		x0, x1 := min(o[0][0], o[1][0], o[2][0]), max(o[0][0], o[1][0], o[2][0])
		y0, y1 := min(o[0][1], o[1][1], o[2][1]), max(o[0][1], o[1][1], o[2][1])
		if math.Abs(x1-x0-wide) < 0.02 && math.Abs(y1-y0-high) < 0.02 {
			return x0, y0, true
		}
	}
	return 0, 0, false
}

// A maker may lay a ruler on the page: at the scale it states, every piece is as
// large and lies as far from the others as on the cloth.
func TestPDFIsTrueToTheScaleItStates(t *testing.T) {
	s := sheets()["few"]
	for _, on := range []paper.Size{paper.A4, paper.Letter} {
		pages := pagesOf(t, pdfOf(t, s, Options{Paper: on}))
		if len(pages) != 1 {
			t.Fatalf("%d pages", len(pages))
		}
		point := 72 / 2.54 / pages[0].scale(t) // points per cm of cloth
		x0, y0, ok := pages[0].find(120*point, 40*point)
		if !ok {
			t.Fatal("the cloth is not there at its size")
		}
		for _, p := range s.Pieces {
			m := p.Cut.Bounds()
			x, y, ok := pages[0].find(m.Width()*point, m.Height()*point)
			if !ok || math.Abs(x-x0-m.MinX*point) > 0.02 || math.Abs(y-y0-(40-m.MaxY)*point) > 0.02 {
				t.Errorf("%s on %s lies at (%.2f, %.2f) from the cloth's corner, want (%.2f, %.2f)", p.Name, on, x-x0, y-y0, m.MinX*point, (40-m.MaxY)*point)
			}
		}
	}
}

func TestPDFSaysWhatThePictureSays(t *testing.T) {
	for name, s := range sheets() {
		if len(s.Pieces) > 0 {
			s.Pieces[0].Name = `panel (left) \ måne`
		}
		_, pen := drawn(t, s, 3000)
		var said []string
		for _, p := range pagesOf(t, pdfOf(t, s, Options{})) {
			said = append(said, p.said[:len(p.said)-1]...)
		}
		var want []string
		for _, w := range pen.texts {
			want = append(want, w.line)
		}
		if strings.Join(said, "\n") != strings.Join(want, "\n") {
			t.Errorf("%s: the PDF says\n%q\nthe picture\n%q", name, said, want)
		}
	}
}

func TestPDFIsTheSameEachTimeAndOnThePaperAskedFor(t *testing.T) {
	s := sheets()["many"]
	a, b := pdfOf(t, s, Options{}), pdfOf(t, s, Options{})
	if !bytes.Equal(a, b) {
		t.Error("two files of one sheet differ")
	}
	box := regexp.MustCompile(`MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	for on, want := range map[paper.Size][2]string{paper.A4: {"595.28", "841.89"}, paper.Letter: {"612.00", "792.00"}} {
		m := box.FindSubmatch(pdfOf(t, s, Options{Paper: on}))
		if m == nil || !(string(m[1]) == want[0] && string(m[2]) == want[1] || string(m[1]) == want[1] && string(m[2]) == want[0]) {
			t.Errorf("%s: the page is %q", on, m)
		}
	}
	if _, err := paper.Named("a3"); err == nil || !strings.Contains(err.Error(), "a4 or letter") {
		t.Errorf("a3: %v", err)
	}
	if p, err := paper.Named("LETTER"); p != paper.Letter || err != nil {
		t.Errorf("LETTER: %v, %v", p, err)
	}
}

func TestLongTableGoesOnOverleafWithNoLineParted(t *testing.T) {
	s := Sheet{Title: "Four hundred tabs", WidthCM: 60, LengthCM: 300, UsePercent: 10}
	for i := range 400 {
		s.Pieces = append(s.Pieces, piece(i+1, "tab", float64(i/10)*7, float64(i%10)*6, 5, 5))
	}
	d, _ := drawn(t, s, 3000)
	l := d.pages(paper.A4)
	if len(l.breaks) < 4 || l.breaks[1] != d.tableY {
		t.Errorf("pages part at %v; the first should end where the table begins, %v", l.breaks, d.tableY)
	}
	room := (l.high - pageEdge - pageFoot) / l.perPx
	for i, from := range l.breaks[:len(l.breaks)-1] {
		if to := l.breaks[i+1]; to <= from || to-from > room+1e-6 {
			t.Errorf("page %d shows %v to %v; there is room for %v", i+1, from, to, room)
		}
	}
	for _, at := range l.breaks {
		for _, b := range d.labels {
			if b.y < at-1e-6 && b.y+b.h > at+1e-6 {
				t.Errorf("the break at %v parts writing at %+v", at, b)
			}
		}
	}
}

// Halves to 10, whole numbers to 30, fives and tens above; never below the ratio.
func TestScaleIsRound(t *testing.T) {
	for ratio, want := range map[float64]float64{0.03: 0.1, 0.71: 0.8, 1: 1, 1.01: 1.5, 4.6: 5, 9.9: 10, 10.2: 11, 17: 17, 29.5: 30, 31: 35, 101: 110} {
		if got := roundScale(ratio); got != want {
			t.Errorf("1 : %v is rounded to 1 : %v, want 1 : %v", ratio, got, want)
		}
	}
}

func TestPDFOfAnyClothFitsItsPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Sheet{
			Title:   rapid.StringN(0, 60, -1).Draw(t, "title"),
			WidthCM: rapid.Float64Range(0.5, 1000).Draw(t, "width"), LengthCM: rapid.Float64Range(0.5, 20000).Draw(t, "length"),
			Notes: []string{rapid.StringN(0, 400, -1).Draw(t, "note")},
		}
		s.Pieces = []Piece{piece(1, rapid.StringN(1, 60, -1).Draw(t, "name"), 0, 0, s.LengthCM*0.7, s.WidthCM*0.8)}
		d, _ := drawn(t, s, 1200)
		l := d.pages(paper.Size(rapid.IntRange(0, 1).Draw(t, "paper")))
		if d.px*l.perPx > l.wide-2*pageEdge+1e-6 {
			t.Errorf("%.1f points wide on a page of %.1f", d.px*l.perPx, l.wide)
		}
		for i := range l.breaks[1:] {
			if h := (l.breaks[i+1] - l.breaks[i]) * l.perPx; h > l.high-pageEdge-pageFoot+1e-3 || h <= 0 {
				t.Errorf("page %d is %.1f points high, of %.1f", i+1, h, l.high)
			}
		}
		pdfOf(t, s, Options{PixelWidth: 1200})
	})
}

func TestPDFIsReadByAnotherProgram(t *testing.T) {
	render, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("no pdftoppm on this machine")
	}
	file := filepath.Join(t.TempDir(), "few.pdf")
	if err := os.WriteFile(file, pdfOf(t, sheets()["few"], Options{}), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(render, "-r", "72", "-png", "-singlefile", file, strings.TrimSuffix(file, ".pdf")).CombinedOutput()
	if err != nil || len(out) > 0 {
		t.Fatalf("%v: %s", err, out)
	}
	img := readPicture(t, strings.TrimSuffix(file, ".pdf")+".png")
	woad, fill, all := 0, Palette(false).Woad, img.Bounds().Dx()*img.Bounds().Dy()
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			r, g, b, _ := img.At(x, y).RGBA()
			if uint8(r>>8) == fill.R && uint8(g>>8) == fill.G && uint8(b>>8) == fill.B {
				woad++
			}
		}
	}
	// The belt, 50 × 8 cm at 1 : 5, covers 16 of the page's 624 cm² beside its lines and name.
	if share := float64(woad) / float64(all); share < 0.015 || share > 16.0/624 {
		t.Errorf("the belt covers %.4f of the page", share)
	}
}
