package flat

import (
	"math"
	"slices"

	"ellwand/garment"
)

// gorePlace is where a gore is set into a piece: a slit, or an edge down the
// middle that its mirror image faces across the gore.
type gorePlace struct {
	seams []garment.Seam // the seams to the gore
	gore  garment.Piece
}

// open spreads the cloth on both sides of a slit into which a gore is set, as
// wide as the gore. A slit on a fold is an edge like any other.
func (l *layer) open(s *sheet) {
	for _, m := range s.piece.Marks {
		if m.Kind != garment.MarkCut || m.Closed || len(m.Line) != 2 {
			continue
		}
		left, right := m.Lips()
		at := l.goreAt(s.piece.Name, left, right)
		if at == nil || !l.inView(s.piece, m.Line) {
			continue
		}
		s.spread = newSpread(m.Name, m.Line[1], m.Line[0], at.gore, 0)
		s.notch(m.Line[0], m.Line[1], left, right)
		return
	}
	const edge = "centre gore seam"
	line, ok := edgeLine(s.piece, edge)
	at := l.goreAt(s.piece.Name, edge, edge)
	if !ok || at == nil || len(line) != 2 {
		return
	}
	hem, end := line[0], line[1]
	if !l.atHem(s.piece, hem) {
		hem, end = end, hem
	}
	s.spread = newSpread(edge, end, hem, at.gore, 1)
	if dot(minus(s.piece.Outline.Centroid(), end), s.spread.across) < 0 {
		s.spread.only = -1
	}
}

// inView says whether a line inside a piece is seen, and not on a fold, with
// the view's own face.
func (l *layer) inView(p garment.Piece, line []point) bool {
	h, ok := twoSides(p, l.plan.face, l.plan.behind)
	if !ok || l.plan.face == "" || hasWord(p.Name, "half") {
		return true
	}
	return h.side(middle(line)) > 1e-6
}

func (l *layer) goreAt(piece, left, right string) *gorePlace {
	var at gorePlace
	for _, seam := range l.g.Seams {
		a, b := seam.A, seam.B
		if b.Piece == piece && (slices.Contains(b.Edges, left) || slices.Contains(b.Edges, right)) {
			a, b = b, a
		}
		if a.Piece != piece || !slices.Contains(a.Edges, left) && !slices.Contains(a.Edges, right) {
			continue
		}
		gore, ok := l.g.Piece(b.Piece)
		if !ok || gore.Name == piece || !hasWord(gore.Name, "gore") {
			continue
		}
		at.gore = gore
		at.seams = append(at.seams, garment.Seam{Name: seam.Name, A: a, B: b, Times: seam.Times})
	}
	if at.gore.Name == "" {
		return nil
	}
	return &at
}

func (l *layer) atHem(p garment.Piece, v point) bool {
	for i, e := range p.Edges {
		if e.Finish != garment.FinishSeam && (between(p.Outline[i], v) < 1e-6 || between(p.Outline[(i+1)%len(p.Edges)], v) < 1e-6) {
			return true
		}
	}
	return false
}

// newSpread opens by the angle at the gore's point.
func newSpread(name string, end, hem point, gore garment.Piece, only float64) *spread {
	down := unit(minus(hem, end))
	_, half := gorePoint(gore)
	sin, cos := math.Sincos(half)
	return &spread{name: name, end: end, down: down, across: toLeft(down), sin: sin, cos: cos, only: only}
}

// gorePoint is the corner of a gore where its left and its right side meet, and
// half the angle there.
func gorePoint(gore garment.Piece) (corner point, halfAngle float64) {
	left, ok := edgeLine(gore, "left side")
	right, ok2 := edgeLine(gore, "right side")
	if !ok || !ok2 {
		return point{}, 0
	}
	a, b := left[0], right[len(right)-1]
	corner = left[len(left)-1]
	if between(left[0], right[len(right)-1]) < 1e-6 { // right side first
		corner, a, b = left[0], left[len(left)-1], right[0]
	}
	u, v := unit(minus(a, corner)), unit(minus(b, corner))
	return corner, math.Acos(max(-1, min(1, dot(u, v)))) / 2
}

// notch cuts a slit into the outline, so that its lips can part.
func (s *sheet) notch(foot, end point, left, right string) {
	for i, c := range s.corners {
		next := s.corners[(i+1)%len(s.corners)]
		d := minus(next.p, c.p)
		t := dot(minus(foot, c.p), d) / dot(d, d)
		if t <= 0 || t >= 1 || between(mix(c.p, next.p, t), foot) > 1e-6 {
			continue
		}
		const gap = 1e-6
		u := times(unit(d), gap)
		first, second := left, right
		if !s.leftIs(c.p) {
			first, second = right, left
		}
		more := []corner{{minus(foot, u), first, garment.FinishSeam}, {end, second, garment.FinishSeam}, {add(foot, u), c.name, c.finish}}
		s.corners = slices.Insert(s.corners, i+1, more...)
		return
	}
}

// leftIs says whether a point lies on the side of the piece whose edges are
// called left rather than right.
func (s *sheet) leftIs(p point) bool {
	var left, right []point
	for i, e := range s.piece.Edges {
		m := mix(s.piece.Outline[i], s.piece.Outline[(i+1)%len(s.piece.Edges)], 0.5)
		if hasWord(e.Name, "left") {
			left = append(left, m)
		} else if hasWord(e.Name, "right") {
			right = append(right, m)
		}
	}
	if len(left) == 0 || len(right) == 0 {
		return true
	}
	return between(p, middle(left)) < between(p, middle(right))
}

// setGores puts the gores into what has been spread for them.
func (l *layer) setGores() {
	for _, s := range slices.Clone(l.sheets) {
		if s.spread == nil || s.used[s.spread.name] {
			continue
		}
		left, right := garment.Mark{Name: s.spread.name}.Lips()
		if s.spread.only != 0 {
			left, right = s.spread.name, s.spread.name
		}
		at := l.goreAt(s.piece.Name, left, right)
		if at == nil {
			continue
		}
		l.setGore(s, *at)
	}
}

func (l *layer) setGore(s *sheet, at gorePlace) {
	corner, _ := gorePoint(at.gore)
	axis := unit(minus(at.gore.Outline.Centroid(), corner))
	tip := s.to.at(s.spread.end)
	down := unit(minus(s.to.at(add(s.spread.end, s.spread.down)), tip))
	for _, o := range l.sheets { // the mirror image may have brought it already
		if o.piece.Name == at.gore.Name && between(o.place(corner), tip) < 1 {
			return
		}
	}
	g := newSheet(at.gore, false)
	g.to = rigid(corner, add(corner, axis), tip, add(tip, down), false)
	// The gore's left side goes to the wearer's left.
	leftLine, _ := edgeLine(at.gore, "left side")
	wearersLeft := 1.0
	if l.plan.face == "back" {
		wearersLeft = -1
	}
	if l.plan.face == "front" || l.plan.face == "back" {
		if (g.place(middle(leftLine)).X-tip.X)*wearersLeft < 0 {
			g.mirrored = true
			g.to = rigid(corner, add(corner, axis), tip, add(tip, down), true)
		}
	}
	g.to.origin = add(g.to.origin, minus(tip, g.to.at(corner)))
	l.sheets = append(l.sheets, g)
	for _, seam := range at.seams {
		if line, ok := sideLine(at.gore, seam.B); ok && l.seamOfView(seam.Name) {
			l.note(seam.Name, g.placed(line))
		}
	}
	g.used["left side"], g.used["right side"] = true, true
}

// seamOfView says whether a seam's name speaks of the other face.
func (l *layer) seamOfView(name string) bool {
	return l.plan.behind == "" || !hasWord(name, l.plan.behind) || hasWord(name, l.plan.face)
}
