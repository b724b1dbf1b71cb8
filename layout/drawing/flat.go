package drawing

import (
	"errors"
	"fmt"
	"image/color"

	"ellwand/geometry"
	"ellwand/paper"
)

// FlatSheet is a garment drawn flat: its views at one scale, and the order in
// which it is sewn. Places are in cm, x to the right, y up.
type FlatSheet struct {
	Title, Date string
	Unit        Unit
	Views       []FlatView
	Steps       []FlatStep
}

// FlatView is one side of the garment.
type FlatView struct {
	Name  string
	Parts []FlatPart // from below to above
	Seams []FlatSeam
}

// FlatPart is what is seen of one piece.
type FlatPart struct {
	Name    string
	Through bool       // inside, seen through the cloth: its line only
	Edges   []FlatLine // the outline, once round
	Holes   []FlatLine
	Lines   []FlatLine
}

// FlatLine is a stretch of outline or a line on a piece.
type FlatLine struct {
	Style LineStyle
	Line  []geometry.Point
}

// LineStyle says how a line of a flat drawing is drawn.
type LineStyle int

const (
	StyleEdge LineStyle = iota // hemmed or left: a thick line
	StyleSeam                  // dashed
	StyleFold                  // thin
	StyleCut                   // a slit or an opening: solid
)

// FlatSeam is a seam with its number in the order of sewing; 0 for one that has
// none.
type FlatSeam struct {
	Number int
	Line   []geometry.Point
}

// FlatStep is a step of sewing: a heading and its numbered lines.
type FlatStep struct {
	Head  string
	Lines []string
}

// maxFlatPoints is the most points that a flat drawing may have.
const maxFlatPoints = 200000

func (s FlatSheet) validate() error {
	n := 0
	for _, v := range s.Views {
		for _, p := range v.Parts {
			for _, list := range [][]FlatLine{p.Edges, p.Holes, p.Lines} {
				for _, l := range list {
					n += len(l.Line)
					if err := drawable(l.Line); err != nil {
						return fmt.Errorf("piece %q of the garment laid flat %w", p.Name, err)
					}
				}
			}
		}
	}
	switch {
	case n == 0:
		return errors.New("there is no garment to draw flat: the plan has no pieces")
	case n > maxFlatPoints:
		return fmt.Errorf("the garment laid flat has %d corners; accepted is at most %d", n, maxFlatPoints)
	}
	return nil
}

// flatPlate is a flat drawing being drawn: the views, then the order of sewing.
type flatPlate struct {
	*diagram
	s      FlatSheet
	at     []geometry.Point // in px, of each view's upper left corner
	tall   float64          // px of the views
	cols   int
	bare   bool // without heading and list, for a view beside other things
	colour map[string]color.RGBA
}

func newFlatPlate(s FlatSheet, o Options, list bool) (*flatPlate, error) {
	o, err := o.settled()
	if err != nil {
		return nil, err
	}
	if err := s.validate(); err != nil {
		return nil, err
	}
	d, err := blank(Sheet{Title: s.Title, Unit: s.Unit, Date: s.Date}, o)
	if err != nil {
		return nil, err
	}
	d.margin = 120 * d.unit
	f := &flatPlate{diagram: d, s: s, cols: 3, colour: map[string]color.RGBA{}}
	if !list {
		f.s.Steps, f.bare = nil, true
		d.margin = 40 * d.unit
	}
	f.arrange()
	return f, nil
}

const flatGapCM = 12

// arrange puts the views beside each other, or one under the other where that
// makes them larger, and the sewing below.
func (f *flatPlate) arrange() {
	wide, high, sumWide, sumHigh := 0.0, 0.0, 0.0, 0.0
	for _, v := range f.s.Views {
		b := v.bounds()
		wide, high = max(wide, b.Width()), max(high, b.Height())
		sumWide, sumHigh = sumWide+b.Width(), sumHigh+b.Height()
	}
	gaps := float64(len(f.s.Views)-1) * flatGapCM
	room, most := f.px-2*f.margin, 2300*f.unit
	beside := min(room/(sumWide+gaps), most/high)
	under := min(room/wide, most/(sumHigh+2*gaps))
	d := f.diagram
	besides := beside >= 0.75*under
	d.scale = under
	if besides {
		d.scale = beside
	}
	top := d.margin + (titleSize*1.5+textSize*lineHeight*1.3)*d.unit
	if f.bare {
		top = d.margin
	}
	x, y := d.margin, top+60*d.unit
	for _, v := range f.s.Views {
		b := v.bounds()
		f.at = append(f.at, geometry.Point{X: x, Y: y})
		if besides {
			x += (b.Width() + flatGapCM) * d.scale
		} else {
			y += b.Height()*d.scale + 130*d.unit
		}
	}
	if besides {
		y += high*d.scale + 70*d.unit
	}
	f.tall = y
	d.tableY = y + 60*d.unit
	d.height = d.tableY
	if len(f.s.Steps) > 0 {
		d.height += f.listHeight() + d.margin*0.7
	}
}

func (v FlatView) bounds() geometry.Rect {
	var all geometry.Polygon
	for _, p := range v.Parts {
		for _, e := range p.Edges {
			all = append(all, e.Line...)
		}
	}
	return all.Bounds()
}

func (f *flatPlate) paint(p pen) {
	d := f.diagram
	d.pen = p
	p.fill(box{0, 0, d.px, d.height}.polygon(), d.c.Paper)
	if !f.bare {
		f.head()
	}
	for i, v := range f.s.Views {
		f.view(v, f.at[i])
	}
	f.scaleBar()
	f.list()
}

func (f *flatPlate) head() {
	d := f.diagram
	d.write(d.shorten(f.heading(), titleSize, true, d.px-2*d.margin), d.margin, 70*d.unit, titleSize, true, d.c.Ink)
	facts := "The garment laid flat, finished size. Thick line: hem or edge; dashed: seam, with its number in the order of sewing; thin: fold."
	d.write(d.shorten(facts, smallSize, false, d.px-2*d.margin), d.margin, (70+titleSize*1.4)*d.unit, smallSize, false, d.c.Faint)
}

func (f *flatPlate) heading() string {
	if t := paper.Clean(f.Title); t != "" {
		return t + ", laid flat"
	}
	return "The garment laid flat"
}

func (f *flatPlate) view(v FlatView, at geometry.Point) {
	b := v.bounds()
	onto := func(line []geometry.Point) geometry.Polygon {
		out := make(geometry.Polygon, len(line))
		for i, q := range line {
			out[i] = geometry.Point{X: at.X + (q.X-b.MinX)*f.scale, Y: at.Y + (b.MaxY-q.Y)*f.scale}
		}
		return out
	}
	f.write(v.Name, at.X, at.Y-58*f.unit, textSize, true, f.c.Ink)
	for _, p := range v.Parts {
		f.part(p, onto)
	}
	f.names(v, onto)
	f.numbers(v, onto)
}

func (f *flatPlate) fillOf(name string) color.RGBA {
	c, ok := f.colour[name]
	if !ok {
		c = f.c.PieceFills[len(f.colour)%len(f.c.PieceFills)]
		f.colour[name] = c
	}
	return c
}

func (f *flatPlate) part(p FlatPart, onto func([]geometry.Point) geometry.Polygon) {
	var outline geometry.Polygon
	for _, e := range p.Edges {
		outline = append(outline, onto(e.Line)...)
	}
	if !p.Through {
		f.pen.fill(outline, f.fillOf(p.Name))
		for _, h := range p.Holes {
			f.pen.fill(onto(h.Line), f.c.Waste)
		}
	}
	for _, list := range [][]FlatLine{p.Edges, p.Holes, p.Lines} {
		for _, e := range list {
			s := f.styleOf(e.Style)
			if p.Through {
				s = stroke{width: 2 * f.unit, dash: 5 * f.unit, gap: 9 * f.unit, c: f.c.Ink}
			}
			f.pen.stroke(onto(e.Line), s)
		}
	}
}

func (f *flatPlate) styleOf(style LineStyle) stroke {
	u := f.unit
	switch style {
	case StyleSeam:
		return stroke{width: 3 * u, dash: 16 * u, gap: 10 * u, c: f.c.Ink}
	case StyleFold:
		return stroke{width: 2 * u, c: f.c.OnPieceInk}
	case StyleCut:
		return stroke{width: 4 * u, c: f.c.Ink}
	}
	return stroke{width: 6 * u, c: f.c.Ink}
}
