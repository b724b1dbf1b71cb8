package ui

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"ellwand/geometry"
	"ellwand/layout"
	"ellwand/plan"
)

// stripGuides lies over the strip while pieces are dragged: the lines they have
// come to, and how far it is to what lies on each side.
type stripGuides struct {
	s     *strip
	lines [2]*canvas.Line
	ways  [4]*wayMark
}

// wayMark is a distance: a line and its figure on a patch of ground.
type wayMark struct {
	line   *canvas.Line
	ground *canvas.Rectangle
	word   *canvas.Text
}

func newStripGuides(s *strip) *stripGuides {
	g := &stripGuides{s: s}
	for i := range g.lines {
		g.lines[i] = canvas.NewLine(color.Black)
	}
	for i := range g.ways {
		g.ways[i] = &wayMark{canvas.NewLine(color.Black), canvas.NewRectangle(color.Black), canvas.NewText("", color.Black)}
	}
	g.hide()
	return g
}

func (g *stripGuides) objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, l := range g.lines {
		out = append(out, l)
	}
	for _, w := range g.ways {
		out = append(out, w.line, w.ground, w.word)
	}
	return out
}

func (g *stripGuides) hide() {
	for _, o := range g.objects() {
		o.Hide()
	}
}

// show draws the lines reached and the ways left from what is held.
func (g *stripGuides) show(reached []guide, ways []way) {
	c := colours()
	for i, l := range g.lines {
		if i >= len(reached) {
			l.Hide()
			continue
		}
		l.StrokeColor, l.StrokeWidth = c.woad, 2
		l.Position1, l.Position2 = g.s.onView(reached[i].from), g.s.onView(reached[i].to)
		l.Show()
		l.Refresh()
	}
	for i, m := range g.ways {
		if i < len(ways) && ways[i].cm > 0.05 {
			g.mark(m, ways[i], c)
		} else {
			m.line.Hide()
			m.ground.Hide()
			m.word.Hide()
		}
	}
}

func (g *stripGuides) mark(m *wayMark, w way, c palette) {
	from, to := g.s.onView(w.from), g.s.onView(w.to)
	m.line.StrokeColor, m.line.StrokeWidth = c.text, 1
	m.line.Position1, m.line.Position2 = from, to
	m.word.Text, m.word.Color, m.word.TextSize = length(w.cm, g.s.b.plan().ShowUnits), c.text, theme.CaptionTextSize()
	m.ground.FillColor, m.ground.StrokeColor, m.ground.StrokeWidth = c.field, c.border, 1
	size := m.word.MinSize()
	middle := fyne.NewPos((from.X+to.X)/2, (from.Y+to.Y)/2)
	at := middle.SubtractXY(size.Width/2, size.Height/2)
	at.X = clamp(at.X, 0, max(0, g.s.Size().Width-size.Width))
	at.Y = clamp(at.Y, 0, max(0, g.s.Size().Height-size.Height))
	m.word.Move(at)
	m.word.Resize(size)
	m.ground.Move(at.SubtractXY(3, 0))
	m.ground.Resize(size.AddWidthHeight(6, 0))
	for _, o := range []fyne.CanvasObject{m.line, m.ground, m.word} {
		o.Show()
		o.Refresh()
	}
}

// way is a distance on the cloth, in cm.
type way struct {
	from, to geometry.Point
	cm       float64
}

// waysFrom are the distances from pieces held to the nearest thing on each side:
// another piece, a selvedge, the cut end. Towards the far end there may be none.
func waysFrom(r *plan.Result, held places) []way {
	p := r.Prepared.Problem
	box := nothing()
	for i, at := range held {
		box = joined(box, layout.Placed(p.Items[i], at).Bounds())
	}
	left, right, up, down := 0.0, math.Inf(1), 0.0, p.WidthCM
	for j, it := range p.Items {
		if _, own := held[j]; own {
			continue
		}
		o := layout.Placed(it, r.Lay.Placements[j]).Bounds()
		if o.MinY < box.MaxY-0.05 && o.MaxY > box.MinY+0.05 {
			if o.MaxX <= box.MinX+1e-3 {
				left = max(left, o.MaxX)
			}
			if o.MinX >= box.MaxX-1e-3 {
				right = min(right, o.MinX)
			}
		}
		if o.MinX < box.MaxX-0.05 && o.MaxX > box.MinX+0.05 {
			if o.MaxY <= box.MinY+1e-3 {
				up = max(up, o.MaxY)
			}
			if o.MinY >= box.MaxY-1e-3 {
				down = min(down, o.MinY)
			}
		}
	}
	middle := middleOf(box)
	flat := func(a, b float64) way {
		return way{geometry.Point{X: a, Y: middle.Y}, geometry.Point{X: b, Y: middle.Y}, b - a}
	}
	high := func(a, b float64) way {
		return way{geometry.Point{X: middle.X, Y: a}, geometry.Point{X: middle.X, Y: b}, b - a}
	}
	ways := []way{flat(left, box.MinX), high(up, box.MinY), high(box.MaxY, down)}
	if !math.IsInf(right, 1) {
		ways = append(ways, flat(box.MaxX, right))
	}
	return ways
}
