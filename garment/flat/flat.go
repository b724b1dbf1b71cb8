// Package flat lays a garment out flat, front and back, from its own pieces and
// seams: a root piece is put down right side out, and every other piece is put
// to the edge that it is sewn to. What a garment looks like is never drawn, it
// follows. It knows nothing of cloth, allowances or pictures.
//
// Places are in cm, x to the reader's right, y up.
package flat

import (
	"ellwand/garment"
	"ellwand/geometry"
)

// Drawing is a garment laid flat, seen from its two sides.
type Drawing struct{ Views []View }

// View is one side of a garment.
type View struct {
	Name  string // "front", "back", "left side", …
	Parts []Part // from below to above
	Seams []Seam
}

// Part is what is seen of one copy of a piece.
type Part struct {
	Piece   string
	Edges   []Edge // the outline, walked once round
	Holes   []Edge // closed cuts: what lies inside is cut away
	Lines   []Edge // open cuts, and folds that are only marked
	Inside  bool   // it lies inside the garment
	Through bool   // … and on what is drawn below it, so that only its line is shown
}

// Kind is what an edge of the drawing is.
type Kind string

const (
	KindSeam Kind = "seam"
	KindHem  Kind = "hem" // any edge that is not sewn to another
	KindFold Kind = "fold"
	KindCut  Kind = "cut"
)

// Edge is a stretch of outline, or a line, with the piece's own name for it.
type Edge struct {
	Name string
	Kind Kind
	Line []geometry.Point
}

// Seam is one of the garment's seams where it is seen.
type Seam struct {
	Name string
	Line []geometry.Point
}

// Outline is a part's outline as one polygon.
func (p Part) Outline() geometry.Polygon {
	var out geometry.Polygon
	for _, e := range p.Edges {
		out = append(out, e.Line[:len(e.Line)-1]...)
	}
	return out
}

// Bounds is the box round a view.
func (v View) Bounds() geometry.Rect {
	var all geometry.Polygon
	for _, p := range v.Parts {
		all = append(all, p.Outline()...)
	}
	return all.Bounds()
}

// Lay lays a garment flat. Pieces that are sewn to nothing lie beside the first
// view.
func Lay(g garment.Garment) Drawing {
	var d Drawing
	for _, p := range plans(g) {
		l := &layer{g: g, plan: p, sewn: map[string]bool{}}
		l.lay()
		if len(l.sheets) > 0 {
			d.Views = append(d.Views, l.view())
		}
	}
	if loose := looseView(g, d); len(loose.Parts) > 0 {
		d.Views = append(d.Views, loose)
	}
	return d
}

// looseView is the pieces that no view shows, side by side.
func looseView(g garment.Garment, d Drawing) View {
	shown := map[string]bool{}
	for _, v := range d.Views {
		for _, p := range v.Parts {
			shown[p.Piece] = true
		}
	}
	v := View{Name: "other pieces"}
	x := 0.0
	for _, p := range g.Pieces {
		if shown[p.Name] {
			continue
		}
		l := &layer{g: garment.Garment{Pieces: g.Pieces, Seams: ownSeams(g)}, plan: viewPlan{roots: []root{{piece: p.Name}}}, sewn: map[string]bool{}}
		l.lay()
		w := l.view()
		box := w.Bounds()
		for _, q := range w.Parts {
			shown[q.Piece] = true
			v.Parts = append(v.Parts, q.moved(x-box.MinX, -box.MinY))
		}
		for _, s := range w.Seams {
			v.Seams = append(v.Seams, Seam{s.Name, movedLine(s.Line, x-box.MinX, -box.MinY)})
		}
		x += box.Width() + 8
	}
	return v
}

// ownSeams are the seams that the plan, not the draft, gives.
func ownSeams(g garment.Garment) []garment.Seam {
	var out []garment.Seam
	for _, s := range g.Seams {
		if s.Own {
			out = append(out, s)
		}
	}
	return out
}

func (p Part) moved(dx, dy float64) Part {
	move := func(list []Edge) []Edge {
		var out []Edge
		for _, e := range list {
			out = append(out, Edge{e.Name, e.Kind, movedLine(e.Line, dx, dy)})
		}
		return out
	}
	return Part{p.Piece, move(p.Edges), move(p.Holes), move(p.Lines), p.Inside, p.Through}
}

func movedLine(line []geometry.Point, dx, dy float64) []geometry.Point {
	out := make([]geometry.Point, len(line))
	for i, v := range line {
		out[i] = geometry.Point{X: v.X + dx, Y: v.Y + dy}
	}
	return out
}
