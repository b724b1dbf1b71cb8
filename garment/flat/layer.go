package flat

import (
	"math"
	"strings"

	"ellwand/garment"
)

// layer lays one view.
type layer struct {
	g      garment.Garment
	plan   viewPlan
	sheets []*sheet
	seams  []Seam
	sewn   map[string]bool // seams recorded, by name and place
}

func (l *layer) lay() {
	for _, r := range l.plan.roots {
		p, ok := l.g.Piece(r.piece)
		if !ok {
			return
		}
		s := newSheet(p, false)
		if l.plan.face == "left" || l.plan.face == "right" {
			s.side = l.plan.face
		}
		l.open(s)
		for _, h := range r.parts {
			s.show(h, false)
		}
		if h, ok := twoSides(p, l.plan.face, l.plan.behind); ok && len(r.parts) == 0 && l.plan.face != "" && !hasWord(p.Name, "half") && p.Name != "side" {
			s.show(h, true)
		}
		up := r.up
		if up == (point{}) {
			up = upX
		}
		// Right side out: a turn that brings the way up to (0, 1).
		s.to = affine{along: point{X: up.Y, Y: up.X}, across: point{X: -up.X, Y: up.Y}}
		s.to.origin = minus(s.to.origin, s.to.at(r.origin))
		s.level = r.level
		l.sheets = append(l.sheets, s)
	}
	l.joinMiddles()
	if l.plan.lap {
		l.lapFronts()
	}
	for l.joinOne(false) || l.joinOne(true) {
	}
	l.overlayFacings()
	l.noteSeams()
}

// other says whether a piece is seen only from the other face.
func (l *layer) other(piece string) bool {
	return l.plan.behind != "" && hasWord(piece, l.plan.behind) && !hasWord(piece, l.plan.face)
}

func (l *layer) count(piece string) int {
	n := 0
	for _, s := range l.sheets {
		if s.piece.Name == piece {
			n++
		}
	}
	return n
}

// joinMiddles puts the mirror image of a root to it, along the seam in the
// middle, and turns both so that this seam stands upright.
func (l *layer) joinMiddles() {
	for _, a := range l.sheets {
		for _, seam := range l.g.Seams {
			if seam.A.Piece != a.piece.Name || !middleSeam(seam) || l.count(a.piece.Name) >= a.piece.Copies {
				continue
			}
			line, ok := sideLine(a.piece, seam.A)
			if !ok || !a.sees(line) {
				continue
			}
			b := newSheet(a.piece, !a.mirrored)
			l.open(b)
			for i, h := range a.halves {
				b.show(h, a.fold != nil && i == len(a.halves)-1)
			}
			l.upright(a, line)
			on := a.placed(line)
			b.to = rigid(line[0], line[len(line)-1], on[0], on[len(on)-1], b.mirrored)
			l.sheets = append(l.sheets, b)
			l.note(seam.Name, on)
			a.used[sideKey(seam.A)], b.used[sideKey(seam.A)] = true, true
			l.nameSides(a, b)
			return
		}
	}
}

// upright turns a so that a line of it stands upright.
func (l *layer) upright(a *sheet, line []point) {
	on := a.placed(line)
	d := minus(on[len(on)-1], on[0])
	if d.Y < 0 {
		d = times(d, -1)
	}
	d = unit(d)
	turn := func(p point) point { return point{X: d.Y*p.X - d.X*p.Y, Y: d.X*p.X + d.Y*p.Y} }
	a.to = affine{turn(a.to.along), turn(a.to.across), turn(a.to.origin)}
}

// nameSides says which of two mirrored sheets is the wearer's left.
func (l *layer) nameSides(a, b *sheet) {
	ax, bx := a.place(a.middleOf()).X, b.place(b.middleOf()).X
	leftIsRight := l.plan.face != "back" && !l.plan.lap // a back that fronts are to be put over is seen from behind // from in front the wearer's left is to the reader's right
	if (ax > bx) == leftIsRight {
		a.side, b.side = "left", "right"
	} else {
		a.side, b.side = "right", "left"
	}
}

// lapFronts puts the fronts over the back, shoulder on shoulder, and drops the
// back: what is then seen from behind through the cloth is turned round.
func (l *layer) lapFronts() {
	backs := l.sheets
	l.sheets, l.seams, l.sewn = nil, nil, map[string]bool{}
	front, _ := l.g.Piece("front")
	level, centre := 0, 0.0
	for _, k := range backs {
		for _, c := range k.corners {
			centre -= k.place(c.p).X / float64(len(k.corners)*len(backs))
		}
	}
	for _, seam := range l.g.Seams {
		if seam.A.Piece != "front" || seam.B.Piece != "back" || !hasWord(seam.Name, "shoulder") {
			continue
		}
		for _, k := range backs {
			line, ok := sideLine(k.piece, seam.B)
			own, ok2 := sideLine(front, seam.A)
			if !ok || !ok2 || k.side != "" && !hasWord(seam.Name, k.side) {
				continue
			}
			on := k.placed(line)
			for i := range on {
				on[i].X = -on[i].X // seen from in front
			}
			s := newSheet(front, len(l.sheets) > 0)
			l.open(s)
			// The armhole's end of one shoulder lies on the armhole's end of the other.
			if outer := math.Abs(on[0].X-centre) > math.Abs(on[len(on)-1].X-centre); outer != (own[0].Y < own[len(own)-1].Y) {
				on = turned(on)
			}
			s.to = rigid(own[0], own[len(own)-1], on[0], on[len(on)-1], s.mirrored)
			s.side, s.level = "left", level
			if hasWord(seam.Name, "right") {
				s.side = "right"
			}
			level++
			l.sheets = append(l.sheets, s)
			break
		}
	}
}

func turned(line []point) []point {
	out := make([]point, len(line))
	for i, p := range line {
		out[len(line)-1-i] = p
	}
	return out
}

func sideKey(s garment.Side) string {
	key := s.Piece + "|" + strings.Join(s.Edges, "|")
	if s.From > 0 || s.To < 1 {
		key += "|" + string(rune('a'+int(s.From*20))) + string(rune('a'+int(s.To*20)))
	}
	return key
}

func (l *layer) note(name string, line []point) {
	m := middle(line)
	for _, s := range l.seams {
		if s.Name == name && between(middle(s.Line), m) < 1 {
			return
		}
	}
	l.sewn[name] = true
	l.seams = append(l.seams, Seam{name, line})
}

// noted says whether a seam lies along a line already.
func (l *layer) noted(line []point) bool {
	m := middle(line)
	for _, s := range l.seams {
		if between(middle(s.Line), m) < 0.6 {
			return true
		}
	}
	return false
}

// noteSeams records the seams that lie along what is seen without having been
// needed to put a piece down.
func (l *layer) noteSeams() {
	for _, seam := range l.g.Seams {
		for _, s := range l.sheets {
			for _, side := range []garment.Side{seam.A, seam.B} {
				if side.Piece != s.piece.Name || l.sewn[seam.Name] && !twice(seam) || !s.rightSide(seam.Name) {
					continue
				}
				line, ok := sideLine(s.piece, side)
				if ok && l.seamOfView(seam.Name) && s.sees(line) && !s.hides(line) && !l.noted(s.placed(line)) {
					l.note(seam.Name, s.placed(line))
				}
			}
		}
	}
}

func twice(s garment.Seam) bool { return s.Times > 1 }

// rightSide says whether a seam called left or right may be one of this sheet.
func (s *sheet) rightSide(seam string) bool {
	if s.side == "" || !hasWord(seam, "left") && !hasWord(seam, "right") {
		return true
	}
	return hasWord(seam, s.side)
}

// view is what has been laid, from below to above.
func (l *layer) view() View {
	v := View{Name: l.plan.name, Seams: l.seams}
	low, high := 0, 0
	for _, s := range l.sheets {
		low, high = min(low, s.level), max(high, s.level)
	}
	for level := low; level <= high; level++ {
		for _, s := range l.sheets {
			if s.level == level && len(s.corners) > 2 {
				v.Parts = append(v.Parts, s.part())
			}
		}
	}
	if l.plan.mirror {
		flip := func(line []point) {
			for i := range line {
				line[i].X = -line[i].X
			}
		}
		for _, p := range v.Parts {
			for _, list := range [][]Edge{p.Edges, p.Holes, p.Lines} {
				for _, e := range list {
					flip(e.Line)
				}
			}
		}
		for _, s := range v.Seams {
			flip(s.Line)
		}
	}
	return v
}

// part is what is drawn of a sheet.
func (s *sheet) part() Part {
	p := Part{Piece: s.piece.Name, Inside: s.inside, Through: s.through}
	n := len(s.corners)
	for i, c := range s.corners {
		kind := KindHem
		switch c.finish {
		case garment.FinishSeam:
			kind = KindSeam
		case "":
			kind = KindFold
		}
		line := s.placed(fine(c.p, s.corners[(i+1)%n].p, s.bent != nil))
		if k := len(p.Edges); k > 0 && p.Edges[k-1].Name == c.name && p.Edges[k-1].Kind == kind {
			p.Edges[k-1].Line = append(p.Edges[k-1].Line, line[1:]...)
			continue
		}
		p.Edges = append(p.Edges, Edge{c.name, kind, line})
	}
	for _, m := range s.piece.Marks {
		s.drawMark(&p, m)
	}
	return p
}

// fine is a straight stretch, in short steps where it is to be bent.
func fine(a, b point, bent bool) []point {
	n := 1
	if bent {
		n = max(1, int(between(a, b)/1.5))
	}
	var out []point
	for i := 0; i <= n; i++ {
		out = append(out, mix(a, b, float64(i)/float64(n)))
	}
	return out
}

// drawMark adds what is seen of a mark.
func (s *sheet) drawMark(p *Part, m garment.Mark) {
	if s.spread != nil && s.spread.name == m.Name || s.inside && m.Kind == garment.MarkFold {
		return
	}
	if m.Closed {
		cs := []corner{}
		for _, v := range m.Line {
			cs = append(cs, corner{v, m.Name, m.Finish})
		}
		for _, h := range s.halves {
			cs = clipped(cs, h)
		}
		if len(cs) < 3 {
			return
		}
		var line []point
		for _, c := range cs {
			line = append(line, s.place(c.p))
		}
		p.Holes = append(p.Holes, Edge{m.Name, KindCut, append(line, line[0])})
		return
	}
	line := m.Line
	if len(line) == 2 {
		line = s.seenPart(line[0], line[1])
	}
	if len(line) < 2 || !s.sees(line) || s.hides(line) {
		return
	}
	kind := KindCut
	if m.Kind == garment.MarkFold {
		kind = KindFold
	}
	if m.Kind == garment.MarkJoin {
		kind = KindSeam
	}
	if m.Kind != garment.MarkPlace {
		p.Lines = append(p.Lines, Edge{m.Name, kind, s.placed(line)})
	}
}

// seenPart is what is seen of a straight line.
func (s *sheet) seenPart(a, b point) []point {
	for _, h := range s.halves {
		sa, sb := h.side(a), h.side(b)
		switch {
		case sa < -1e-6 && sb < -1e-6:
			return nil
		case sa < -1e-6:
			a = mix(a, b, sa/(sa-sb))
		case sb < -1e-6:
			b = mix(a, b, sa/(sa-sb))
		}
	}
	return []point{a, b}
}

// hides says whether a line lies on a fold, where it is no line of its own.
func (s *sheet) hides(line []point) bool {
	for _, h := range s.halves {
		on := true
		for _, p := range line {
			on = on && math.Abs(h.side(p)) < 1e-6
		}
		if on {
			return true
		}
	}
	return false
}
