package drawing

import (
	"bytes"
	"encoding/binary"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ellwand/geometry"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

func rect(x, y, l, w float64) geometry.Polygon {
	return geometry.Polygon{{X: x, Y: y}, {X: x + l, Y: y}, {X: x + l, Y: y + w}, {X: x, Y: y + w}}
}

func piece(n int, name string, x, y, l, w float64) Piece {
	return Piece{Name: name, Copy: 1, Copies: 2, Number: n, Cut: rect(x, y, l, w), Seam: rect(x+l*0.05, y+w*0.05, l*0.9, w*0.9)}
}

// sheets are strips of several kinds: few pieces, many, tiny ones, one alone.
func sheets() map[string]Sheet {
	few := Sheet{Title: "Belt and bag", WidthCM: 40, LengthCM: 120, UsePercent: 80, Warp: "grey, 110 tex", Weft: "grey, 140 tex", Date: "2026-06-01",
		Pieces: []Piece{piece(1, "panel", 0, 0, 70, 38), piece(2, "belt", 70, 0, 50, 8), piece(3, "bag", 72, 10, 40, 25)}}
	few.Pieces[0].Marks = [][]geometry.Point{{{X: 20, Y: 0}, {X: 20, Y: 38}}}
	tiny := Sheet{Title: "Tabs", WidthCM: 60, LengthCM: 300, UsePercent: 10}
	many := Sheet{Title: "Sixty patches", WidthCM: 60, LengthCM: 300, UsePercent: 70, Unit: Inches}
	for i := range 60 {
		x, y := float64(i/4)*20, float64(i%4)*15
		tiny.Pieces = append(tiny.Pieces, piece(i+1, "tab", x, y, 1.5, 1.5))
		many.Pieces = append(many.Pieces, piece(i+1, "patch for the elbow", x, y, 18, 13))
	}
	long := Sheet{Title: strings.Repeat("A very long title ", 40), WidthCM: 60, LengthCM: 450, UsePercent: 50, Warp: strings.Repeat("w", 400),
		Pieces: []Piece{piece(1, strings.Repeat("name\x07 ", 60), 0, 0, 450, 55)}}
	return map[string]Sheet{"few": few, "tiny": tiny, "many": many, "long": long}
}

func TestSamePictureSameBytes(t *testing.T) {
	var a, b bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		if err := PNG(w, sheets()["few"], Options{PixelWidth: 900}); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two pictures of one sheet differ")
	}
}

func TestPictureStatesItsResolution(t *testing.T) {
	var buf bytes.Buffer
	if err := PNG(&buf, sheets()["few"], Options{PixelWidth: 900, DPI: 300}); err != nil {
		t.Fatal(err)
	}
	i := bytes.Index(buf.Bytes(), []byte("pHYs"))
	if i < 0 {
		t.Fatal("no pHYs")
	}
	if got := binary.BigEndian.Uint32(buf.Bytes()[i+4:]); got != 11811 { // 300 / 0.0254
		t.Errorf("%d pixels per metre, want 11811", got)
	}
	if c, err := png.DecodeConfig(&buf); err != nil || c.Width != 900 {
		t.Errorf("width %d, %v", c.Width, err)
	}
}

// Golden pictures may differ by a little from machine to machine: at most one
// pixel in two hundred by more than an eighth of the range.
func TestGoldenPictures(t *testing.T) {
	for _, dark := range []bool{false, true} {
		name := filepath.Join("testdata", fmt.Sprintf("few-dark-%v.png", dark))
		img, err := Draw(sheets()["few"], Options{PixelWidth: 900, Dark: dark})
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			writePicture(t, name, img)
		}
		want := readPicture(t, name)
		if want.Bounds() != img.Bounds() {
			t.Errorf("%s is %v, drawn %v", name, want.Bounds(), img.Bounds())
			continue
		}
		differ, all := 0, img.Bounds().Dx()*img.Bounds().Dy()
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				r1, g1, b1, _ := img.At(x, y).RGBA()
				r2, g2, b2, _ := want.At(x, y).RGBA()
				if off(r1, r2) || off(g1, g2) || off(b1, b2) {
					differ++
				}
			}
		}
		if differ > all/200 {
			got := filepath.Join(os.TempDir(), "ellwand-"+filepath.Base(name))
			writePicture(t, got, img)
			t.Errorf("%d of %d pixels differ from %s; what was drawn is in %s", differ, all, name, got)
		}
	}
}

func off(a, b uint32) bool { return math.Abs(float64(a)-float64(b)) > 8192 }

func writePicture(t *testing.T, name string, img image.Image) {
	t.Helper()
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

func readPicture(t *testing.T, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// WCAG 2.2, relative luminance and contrast ratio.
func TestWritingStandsOutFromItsGround(t *testing.T) {
	lum := func(c color.RGBA) float64 {
		f := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
	}
	contrast := func(a, b color.RGBA) float64 {
		la, lb := lum(a), lum(b)
		return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
	}
	for _, dark := range []bool{false, true} {
		c := Palette(dark)
		for name, pair := range map[string][2]color.RGBA{"ink": {c.Ink, c.Paper}, "faint": {c.Faint, c.Paper}, "fault": {c.Fault, c.Paper}, "ink on waste": {c.Ink, c.Waste}} {
			if r := contrast(pair[0], pair[1]); r < 4.5 {
				t.Errorf("dark %v, %s: contrast %.2f", dark, name, r)
			}
		}
		for i, f := range c.PieceFills {
			if r := contrast(c.OnPieceInk, f); r < 4.5 {
				t.Errorf("dark %v, piece colour %d: contrast %.2f", dark, i, r)
			}
			// Lines that carry meaning need 3 (WCAG 2.2, 1.4.11).
			if r := contrast(c.Fault, f); r < 3 {
				t.Errorf("dark %v, fault line on piece colour %d: contrast %.2f", dark, i, r)
			}
		}
	}
}

func TestWhatCannotBeDrawnIsSaid(t *testing.T) {
	bad := sheets()["few"]
	bad.WidthCM = math.NaN()
	spot := sheets()["few"]
	spot.Pieces = []Piece{{Name: "x"}}
	share, mark, flaw, away := sheets()["few"], sheets()["few"], sheets()["few"], sheets()["few"]
	nan := geometry.Point{X: math.NaN()}
	share.UsePercent = math.Inf(1)
	mark.Pieces[0].Marks = [][]geometry.Point{{nan, nan}}
	flaw.Flaws = []geometry.Polygon{{nan, nan, nan}}
	away.Pieces[0].Cut = rect(math.Inf(1), 0, 1, 1)
	for _, s := range []Sheet{{}, bad, spot, share, mark, flaw, away} {
		if _, err := Draw(s, Options{}); err == nil {
			t.Errorf("drew %+v", s)
		}
	}
	off := sheets()["few"]
	off.Pieces[0].Cut = rect(-900, 5000, 10, 10)
	if _, err := Draw(off, Options{PixelWidth: 900}); err != nil {
		t.Error("a piece off the cloth: ", err)
	}
	if _, err := Draw(sheets()["few"], Options{PixelWidth: 5}); err == nil {
		t.Error("drew a picture of 5 px")
	}
}

func TestTitleTellsCopiesApart(t *testing.T) {
	for _, c := range []struct {
		piece Piece
		want  [2]string
	}{
		{Piece{Name: "body", Copy: 1, Copies: 1}, [2]string{"body", "body"}},
		{Piece{Name: "sleeve", Copy: 2, Copies: 2}, [2]string{"sleeve 2", "sleeve 2 of 2"}},
		{Piece{Name: "sleeve part 1", Copy: 2, Copies: 2}, [2]string{"sleeve part 1, 2", "sleeve part 1, 2 of 2"}},
		{Piece{Copy: 1, Copies: 2}, [2]string{" 1", " 1 of 2"}},
	} {
		if got := [2]string{c.piece.Title(false), c.piece.Title(true)}; got != c.want {
			t.Errorf("%+v is called %q; want %q", c.piece, got, c.want)
		}
	}
}
