package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/theme"

	"ellwand/geometry"
	"ellwand/layout/drawing"
	"ellwand/plan"
)

// A gore lies at the first end of the second length: what the length is called
// stands over the cloth, and where there is no room, below the gore, not on it.
func TestNameOfALengthIsNotWrittenOnAPiece(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) geometry.Polygon {
		return geometry.Polygon{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	gore := drawing.Piece{Name: "gore", Cut: box(100, 0, 160, 20), Seam: box(101, 1, 159, 19), Number: 1}
	for _, c := range []struct {
		says   string
		corner geometry.Point
	}{{"room over the cloth", geometry.Point{Y: -20}}, {"none", geometry.Point{}}} {
		draw := func(name string) []uint8 {
			k := sketch{pieces: []drawing.Piece{gore}, fills: map[string]int{"gore": 0}, chosen: map[int]bool{}, away: map[int]bool{}, wrong: map[int]bool{},
				sheet:    drawing.Sheet{Lengths: []drawing.Length{{FromCM: 0, ToCM: 95}, {FromCM: 100, ToCM: 200, Name: name}}},
				lengthCM: 200, widthCM: 60, corner: c.corner, perCM: 2, px: 1, w: 400, h: 160, c: colours(), font: theme.DefaultTextFont().Content()}
			k.sheet.Lengths[0].Name = name[:min(len(name), 1)]
			return k.draw(&inkwell{}).Pix
		}
		with, without := draw("second"), draw("")
		onPiece, elsewhere := 0, 0
		for y := range 160 {
			for x := range 400 {
				at := 4 * (400*y + x)
				if with[at] == without[at] && with[at+1] == without[at+1] {
					continue
				}
				xCM, yCM := float64(x)/2, float64(y)/2+c.corner.Y
				switch {
				case xCM > 101 && xCM < 159 && yCM > 1 && yCM < 19:
					onPiece++
				case xCM > 100:
					elsewhere++
				}
			}
		}
		if onPiece > 0 || elsewhere == 0 {
			t.Errorf("%s: the name takes %d px of the piece, %d px beside it", c.says, onPiece, elsewhere)
		}
	}
}

// At the end of a length of 300 cm the figure 300 and the nought of the next
// length, 5 cm on, would be read as 3000.
func TestFiguresOfTwoLengthsDoNotRunTogether(t *testing.T) {
	lengths := []drawing.Length{{ToCM: 300}, {FromCM: 305, ToCM: 600}}
	half := func(figure string) float64 { return 4 * float64(len(figure)) }
	for _, c := range []struct {
		zoom float64
		want string
	}{{1, "0 100 200  0 100 200"}, {10, "0 100 200 300 0 100 200"}} {
		var figures []string
		for _, m := range marksAlong(lengths, func(cm float64) float64 { return cm * c.zoom }, 1, 100, 0, 1e5, 1, half) {
			figures = append(figures, m.figure)
		}
		if got := strings.Join(figures, " "); got != c.want {
			t.Errorf("at %g px to the cm the figures are %q; want %q", c.zoom, got, c.want)
		}
	}
}

func TestStripHasRoomForTheNamesOfLengths(t *testing.T) {
	v, l := opened(t, "light")
	bare := v.strip.seen(0).MinY
	if err := v.b.do("lengths", func(p *plan.Plan) error {
		p.Real.Lengths = []plan.ClothLength{{Name: "first", LengthCM: 310}, {Name: "second", LengthCM: 310}}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	v.strip.fit()
	if more := (bare - v.strip.seen(0).MinY) * float64(v.strip.zoom); more < 20 {
		t.Errorf("over the cloth there is room of %g more; a name is 20 high", more)
	}
}
