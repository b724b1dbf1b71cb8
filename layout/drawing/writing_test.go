package drawing

import (
	"fmt"
	"image/color"
	"math"
	"strings"
	"testing"

	"ellwand/geometry"

	"pgregory.net/rapid"
)

// notingPen draws nothing and notes what is written.
type notingPen struct{ texts []text }

func (p *notingPen) fill([]geometry.Point, color.RGBA) {}
func (p *notingPen) stroke([]geometry.Point, stroke)   {}
func (p *notingPen) text(t text)                       { p.texts = append(p.texts, t) }
func (p *notingPen) clip(box)                          {}
func (p *notingPen) unclip()                           {}

func (p *notingPen) wrote(part string) bool {
	for _, t := range p.texts {
		if strings.Contains(t.line, part) {
			return true
		}
	}
	return false
}

func drawn(t interface{ Fatal(...any) }, s Sheet, px int) (*diagram, *notingPen) {
	d, err := newDiagram(s, Options{PixelWidth: px})
	if err != nil {
		t.Fatal(err)
	}
	p := &notingPen{}
	d.paint(p)
	return d, p
}

func writingKeepsApart(t interface{ Errorf(string, ...any) }, name string, d *diagram) {
	for i, b := range d.labels {
		if b.x < 0 || b.y < 0 || b.x+b.w > d.px || b.y+b.h > d.height {
			t.Errorf("%s: writing at %+v leaves the picture of %.0f × %.0f", name, b, d.px, d.height)
		}
		for _, c := range d.labels[:i] {
			if b.meets(c) {
				t.Errorf("%s: writing at %+v and %+v", name, b, c)
			}
		}
	}
}

func TestNoWritingStandsOnOtherWritingOrIsCutOff(t *testing.T) {
	for name, s := range sheets() {
		for _, px := range []int{600, 1500, 3000} {
			d, _ := drawn(t, s, px)
			if len(d.labels) < 8 {
				t.Errorf("%s: only %d pieces of writing", name, len(d.labels))
			}
			writingKeepsApart(t, fmt.Sprintf("%s, %d px", name, px), d)
		}
	}
}

func TestWritingKeepsApartOnAnyCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Sheet{
			Title:   rapid.StringN(0, 80, -1).Draw(t, "title"),
			WidthCM: rapid.Float64Range(0.5, 1000).Draw(t, "width"), LengthCM: rapid.Float64Range(0.5, 20000).Draw(t, "length"),
			Warp: rapid.StringN(0, 80, -1).Draw(t, "warp"), Notes: []string{rapid.StringN(0, 400, -1).Draw(t, "note")},
			Unit: Unit(rapid.IntRange(0, 1).Draw(t, "unit")),
		}
		for i := range rapid.IntRange(0, 12).Draw(t, "pieces") {
			l, w := rapid.Float64Range(0.1, 1).Draw(t, "l")*s.LengthCM, rapid.Float64Range(0.1, 1).Draw(t, "w")*s.WidthCM
			x, y := rapid.Float64Range(0, 1).Draw(t, "x")*(s.LengthCM-l), rapid.Float64Range(0, 1).Draw(t, "y")*(s.WidthCM-w)
			p := piece(i+1, rapid.StringN(1, 60, -1).Draw(t, "name"), x, y, l, w)
			p.Fault, p.Pinned = rapid.Bool().Draw(t, "fault"), rapid.Bool().Draw(t, "pinned")
			s.Pieces = append(s.Pieces, p)
		}
		d, _ := drawn(t, s, 1200)
		writingKeepsApart(t, "any cloth", d)
		if d.rows[0].from != 0 || d.rows[len(d.rows)-1].to != s.LengthCM {
			t.Errorf("rows %+v do not show all of %v cm", d.rows, s.LengthCM)
		}
		for i := 1; i < len(d.rows); i++ {
			if d.rows[i].from != d.rows[i-1].to || d.rows[i].to <= d.rows[i].from {
				t.Errorf("row %d follows on wrongly: %+v", i+1, d.rows)
			}
		}
	})
}

// The number of each piece stands once in the table and again on the cloth.
func TestEveryPieceIsNumberedOnTheClothAndInTheTable(t *testing.T) {
	for name, s := range sheets() {
		d, p := drawn(t, s, 3000)
		for _, q := range s.Pieces {
			cloth, table := 0, 0
			for _, w := range p.texts {
				if w.line != fmt.Sprint(q.Number) && !strings.HasPrefix(w.line, fmt.Sprintf("%d  ", q.Number)) {
					continue
				}
				if w.baseline > d.tableY {
					table++
				} else {
					cloth++
				}
			}
			if cloth == 0 || table == 0 {
				t.Errorf("%s: piece %d stands %d times on the cloth and %d times in the table", name, q.Number, cloth, table)
			}
		}
	}
}

// Worked by hand: a panel 62.3 × 41.7 laid 12.4 along and 5.5 across ends at
// 74.7 and 47.2; in inches (2.54 cm) it is 24.53 × 16.42 from 4.88 and 2.17.
func TestPieceIsChalkedByItsExtremes(t *testing.T) {
	s := Sheet{WidthCM: 60, LengthCM: 120, Pieces: []Piece{{Name: "panel", Number: 1, Cut: rect(12.4, 5.5, 62.3, 41.7)}}}
	_, p := drawn(t, s, 3000)
	for _, want := range []string{"62.3 × 41.7 cm", "12.4 to 74.7 along", "5.5 to 47.2 across", "12.4 – 74.7", "5.5 – 47.2"} {
		if !p.wrote(want) {
			t.Errorf("%q is not written", want)
		}
	}
	s.Unit = Inches
	_, p = drawn(t, s, 3000)
	for _, want := range []string{"24.53 × 16.42 in", "4.88 to 29.41 along", "2.17 to 18.58 across", "To chalk, in inches"} {
		if !p.wrote(want) {
			t.Errorf("%q is not written", want)
		}
	}
}

func TestRulerNumbersStandAtTheirPlaces(t *testing.T) {
	s := Sheet{WidthCM: 60, LengthCM: 450}
	d, p := drawn(t, s, 3000)
	if len(d.rows) < 2 {
		t.Fatalf("%d row for a strip of 450 cm", len(d.rows))
	}
	for _, r := range d.rows {
		seen := map[float64]int{}
		for _, w := range p.texts {
			var cm float64
			b := d.rowBox(r)
			if n, _ := fmt.Sscanf(w.line, "%g", &cm); n != 1 || w.x < b.x-40 || w.baseline < b.y-100 || w.baseline > b.y+b.h+100 {
				continue
			}
			seen[cm]++
			if at := (w.x+w.width/2-b.x)/d.scale + r.from; math.Abs(at-cm) > 0.05 {
				t.Errorf("%q stands at %.2f cm", w.line, at)
			}
		}
		for cm, n := range seen {
			if n != 2 {
				t.Errorf("%g stands %d times, not once along each selvedge", cm, n)
			}
		}
		if len(seen) < 8 {
			t.Errorf("only %d numbers along the row from %.0f", len(seen), r.from)
		}
	}
}

func TestRowsBreakBetweenPiecesAndNameWhatGoesOn(t *testing.T) {
	s := Sheet{WidthCM: 60, LengthCM: 400, Pieces: []Piece{piece(1, "back", 0, 0, 190, 60), piece(2, "front", 190, 0, 210, 60)}}
	if d, _ := drawn(t, s, 3000); len(d.rows) != 2 || d.rows[1].from != 190 {
		t.Errorf("rows %+v; the second should begin where the front does", d.rows)
	}
	s.Pieces = []Piece{piece(1, "whole length", 0, 0, 400, 50)}
	if _, p := drawn(t, s, 3000); !p.wrote("continued below") && !p.wrote("continued above") {
		t.Error("a piece in two rows is not said to go on")
	}
}

func TestFaultsPinsAndFlawsAreSaidInWords(t *testing.T) {
	s := sheets()["few"]
	s.Pieces[0].Fault, s.Pieces[1].Pinned = true, true
	s.Flaws = []geometry.Polygon{rect(5, 5, 4, 4)}
	_, p := drawn(t, s, 3000)
	for _, want := range []string{"! fault", "(pinned)", "flaw"} {
		if !p.wrote(want) {
			t.Errorf("%q is not written", want)
		}
	}
}

func TestLongWritingIsShortenedAndControlCharactersAreShown(t *testing.T) {
	_, p := drawn(t, sheets()["long"], 3000)
	if !p.wrote("…") || !p.wrote("name·") || p.wrote("\x07") {
		t.Error("a long name with control characters is not written as '…' and '·'")
	}
}

func TestLongNamesKeepWhichCopyTheyAre(t *testing.T) {
	s := Sheet{Title: "Patches", WidthCM: 60, LengthCM: 300, UsePercent: 70}
	for i := range 40 {
		p := piece(i+1, "patch of the old sailcloth for knees and elbows", float64(i/4)*20, float64(i%4)*15, 18, 13)
		p.Copy, p.Copies = i+1, 40
		s.Pieces = append(s.Pieces, p)
	}
	_, p := drawn(t, s, 3000)
	for i := range 40 {
		if !p.wrote(fmt.Sprintf("… %d of 40", i+1)) {
			t.Errorf("copy %d cannot be told from the others in the table", i+1)
		}
	}
}

// A band 120 × 7 cm folded in four along its length, with no waste about it:
// nowhere between the lines is there room for the name, but across them there is.
func TestNarrowPieceIsNamedAcrossItsFolds(t *testing.T) {
	band := piece(1, "waistband", 0, 30, 120, 7)
	for _, y := range []float64{32, 33.5, 35} {
		band.Marks = append(band.Marks, []geometry.Point{{X: 0, Y: y}, {X: 120, Y: y}})
	}
	_, p := drawn(t, Sheet{Title: "Band", WidthCM: 70, LengthCM: 280, UsePercent: 100, Pieces: []Piece{band, piece(2, "rest", 120, 30, 160, 7), piece(3, "front", 0, 0, 280, 30), piece(4, "back", 0, 37, 280, 33)}}, 3000)
	for _, w := range p.texts {
		if strings.HasPrefix(w.line, "1  waistband") {
			return
		}
	}
	t.Error("the band is not named on the cloth")
}
