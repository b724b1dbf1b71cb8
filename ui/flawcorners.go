package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"ellwand/geometry"
	"ellwand/plan"
)

// mostFlawCorners is how many corners a flaw may be given by clicks: as many as the
// strip has lines for.
const mostFlawCorners = 40

// cornerReach is how near, in units of the window, a click counts as on the
// first corner.
const cornerReach = 8

// flawOutline is the corners of a flaw that is being drawn by clicks, and the
// lines between them.
type flawOutline struct {
	corners []geometry.Point
	lines   []*canvas.Line
}

func newFlawOutline() *flawOutline {
	o := &flawOutline{}
	for range mostFlawCorners {
		l := canvas.NewLine(nil)
		l.StrokeWidth = 2
		l.Hide()
		o.lines = append(o.lines, l)
	}
	return o
}

// show draws the lines from corner to corner; a first one alone as a cross stroke.
func (o *flawOutline) show(s *strip) {
	for k, l := range o.lines {
		if k >= len(o.corners) {
			l.Hide()
			continue
		}
		l.StrokeColor = colours().madder
		l.Position1 = s.onView(o.corners[k])
		l.Position2 = l.Position1.AddXY(5, 5)
		if k > 0 {
			l.Position2 = s.onView(o.corners[k-1])
		}
		l.Show()
		l.Refresh()
	}
}

// corner takes a click while a flaw is marked: on the first corner it closes the
// outline, on a flaw it takes that away, elsewhere it is one more corner.
func (s *strip) corner(at geometry.Point) {
	o := s.outline
	if len(o.corners) == 0 && s.b.unmarkFlaw(at) {
		s.useTool(toolPick)
		return
	}
	if len(o.corners) >= 3 {
		first, here := s.onView(o.corners[0]), s.onView(at)
		if math.Hypot(float64(first.X-here.X), float64(first.Y-here.Y)) <= cornerReach {
			s.closeOutline()
			return
		}
	}
	if len(o.corners) == mostFlawCorners {
		s.closeOutline()
		return
	}
	o.corners = append(o.corners, at)
	o.show(s)
	switch n := len(o.corners); {
	case n < 3:
		s.say(words("Corner %d of the flaw. Click its other corners one after the other; Escape gives up.", n), false)
	default:
		s.say(words("%d corners. A click on the first one, or Enter, closes the flaw; Escape gives up.", n), false)
	}
}

// closeOutline marks the flaw within the corners clicked.
func (s *strip) closeOutline() {
	corners := s.outline.corners
	if len(corners) < 3 {
		s.say(words("A flaw has at least three corners: click them one after the other, or drag a frame round it."), true)
		return
	}
	s.useTool(toolPick)
	if err := s.b.markOutline(corners); err != nil {
		s.say(err.Error(), true)
	}
}

// markOutline keeps a flaw with corners on the strip, rounded to a millimetre and
// within the cloth; on cloth in several lengths it belongs to the one it begins on.
func (b *bench) markOutline(corners []geometry.Point) error {
	if b.shown == nil {
		return errNotLaid
	}
	on, start := b.lengthAt(geometry.Polygon(corners).Bounds().MinX)
	var outline [][2]float64
	for _, v := range corners {
		x, y := max(0, v.X-start), min(b.shown.Lay.WidthCM, max(0, v.Y))
		outline = append(outline, [2]float64{math.Round(x*10) / 10, math.Round(y*10) / 10})
	}
	return b.addFlaw(plan.Flaw{On: on, OutlineCM: outline})
}

// lengthAt is the length of cloth that lies at x along the strip, and where it
// begins.
func (b *bench) lengthAt(x float64) (name string, startCM float64) {
	for _, l := range b.shown.Prepared.Problem.Lengths {
		if x >= l.FromCM {
			name, startCM = l.Name, l.FromCM
		}
	}
	return name, startCM
}

// cornersText is a flaw's corners as they are typed: "40 20; 52 22; 46 31".
func cornersText(corners [][2]float64, units string) string {
	number := func(cm float64) string {
		if units == "inch" {
			cm = math.Round(cm/cmPerInch*1000) / 1000
		}
		return strconv.FormatFloat(cm, 'f', -1, 64)
	}
	var parts []string
	for _, v := range corners {
		parts = append(parts, number(v[0])+" "+number(v[1]))
	}
	return strings.Join(parts, "; ")
}

// readCorners reads what cornersText writes.
func readCorners(text, units string) ([][2]float64, error) {
	var out [][2]float64
	for _, part := range strings.Split(strings.TrimSuffix(strings.TrimSpace(text), ";"), ";") {
		pair := strings.Fields(part)
		if len(pair) != 2 {
			return nil, fmt.Errorf(words("%q is no corner; accepted are two numbers each, along and across, and a semicolon between corners: 40 20; 52 22; 46 31"), strings.TrimSpace(part))
		}
		var v [2]float64
		for k, w := range pair {
			n, ok := readNumber(w)
			if !ok || math.Abs(n) > 1e5 {
				return nil, fmt.Errorf(words("%q is no number of a corner; accepted is one up to 100000"), w)
			}
			if units == "inch" {
				n = cmOfInches(n)
			}
			v[k] = n
		}
		out = append(out, v)
	}
	return out, nil
}

// flawCorners is the field of a flaw's corners.
func (f *form) flawCorners(name string) {
	change := func(p *plan.Plan, text string) error {
		corners, err := readCorners(text, p.ShowUnits)
		if err != nil {
			return err
		}
		if _, err := outlineOf(corners); err != nil {
			return err
		}
		for i := range p.Real.Flaws {
			if p.Real.Flaws[i].Name == name {
				p.Real.Flaws[i].OutlineCM = corners
			}
		}
		return nil
	}
	f.put(fieldSpec{path: "real_cloth.flaws[" + name + "].outline_cm", long: true,
		label: "Corners, each along and across, with ; between",
		get: func() string {
			for _, flaw := range f.b.plan().Real.Flaws {
				if flaw.Name == name {
					return cornersText(flaw.OutlineCM, f.b.plan().ShowUnits)
				}
			}
			return ""
		},
		try: func(text string) error { return change(f.b.plan().Clone(), text) },
		set: func(text string) error {
			return f.b.do("corners of "+name, func(p *plan.Plan) error { return change(p, text) })
		},
	})
}

// outlineOf says whether corners make an outline.
func outlineOf(corners [][2]float64) (geometry.Polygon, error) {
	var q []geometry.Point
	for _, v := range corners {
		q = append(q, geometry.Point{X: v[0], Y: v[1]})
	}
	made, err := geometry.New(q)
	if err != nil {
		return nil, fmt.Errorf(words("these corners make no outline: %w; accepted are at least three, in the order round it, whose sides do not cross"), err)
	}
	return made, nil
}

// objects are the lines of the flaw being drawn, for the strip.
func (o *flawOutline) objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, l := range o.lines {
		out = append(out, l)
	}
	return out
}
