package flat

import (
	"math"
	"strings"

	"ellwand/garment"
	"ellwand/geometry"
)

// joinOne puts one more piece to what is laid, gussets only when asked; false
// when there is none to put.
func (l *layer) joinOne(gussets bool) bool {
	l.setGores()
	for pass := range 2 { // a piece's own copies first: a chain goes on before it ends
		for _, a := range l.sheets {
			for _, seam := range l.g.Seams {
				if (seam.A.Piece == seam.B.Piece) != (pass == 0) || gussets != (strings.Contains(seam.A.Piece, "gusset") || strings.Contains(seam.B.Piece, "gusset")) {
					continue
				}
				if l.join(a, seam, seam.A, seam.B) || l.join(a, seam, seam.B, seam.A) {
					return true
				}
			}
		}
	}
	return false
}

// join puts the piece of side b to side a of a sheet, if it belongs there.
func (l *layer) join(a *sheet, seam garment.Seam, sa, sb garment.Side) bool {
	if sa.Piece != a.piece.Name || a.used[sideKey(sa)] || !a.rightSide(seam.Name) || a.inside && !seam.Own && !hasWord(seam.Name, "bib") {
		return false
	}
	piece, ok := l.g.Piece(sb.Piece)
	if !ok || l.other(sb.Piece) || strings.Contains(sb.Piece, "facing") || strings.Contains(sa.Piece, "facing") {
		return false
	}
	if sa.Piece == sb.Piece && sideKey(sa) == sideKey(sb) {
		return false // closes the garment, or is a middle that is joined already
	}
	la, ok := sideLine(a.piece, sa)
	lb, ok2 := sideLine(piece, sb)
	behind := a.fold != nil && isPlace(a.piece, sa.Edges[0])
	if !ok || !ok2 || !a.sees(la) && !behind || a.spread != nil && a.spread.owns(sa.Edges) {
		return false
	}
	if !behind {
		la = a.seenOf(la)
	}
	partial := sb.From > 0 || sb.To < 1
	if l.meets(a, la, sb, lb) {
		a.used[sideKey(sa)] = true
		l.note(seam.Name, a.placed(la))
		return false
	}
	if !partial && l.count(sb.Piece) >= piece.Copies {
		return false
	}
	if strings.Contains(sb.Piece, "strap") && !isPlace(a.piece, sa.Edges[0]) {
		return l.loopOver(a, seam, sa, sb, piece)
	}
	b := l.best(a, seam, sa, sb, la, lb, piece)
	if b == nil {
		return false
	}
	a.used[sideKey(sa)], b.used[sideKey(sb)] = true, true
	l.sheets = append(l.sheets, b)
	l.note(seam.Name, a.placed(la))
	return true
}

func (s *spread) owns(edges []string) bool {
	left, right := garment.Mark{Name: s.name}.Lips()
	for _, e := range edges {
		if e == s.name || e == left || e == right {
			return true
		}
	}
	return false
}

// meets says whether a sheet of b's piece lies at a's line already.
func (l *layer) meets(a *sheet, la []point, sb garment.Side, lb []point) bool {
	on := middle(a.placed(la))
	for _, s := range l.sheets {
		if s != a && s.piece.Name == sb.Piece && s.sees(lb) && between(middle(s.placed(lb)), on) < 4 {
			s.used[sideKey(sb)] = true
			return true
		}
	}
	return false
}

// best is the sheet of the piece that fits best: turned over or not, whichever
// brings hem to hem, fold to fold and its other seams closest.
func (l *layer) best(a *sheet, seam garment.Seam, sa, sb garment.Side, la, lb []point, piece garment.Piece) *sheet {
	place, low := isPlace(a.piece, sa.Edges[0]), math.Inf(1)
	var found *sheet
	for _, mirrored := range []bool{a.mirrored, !a.mirrored} {
		for _, back := range []bool{false, true} {
			if back && !place {
				continue
			}
			b := newSheet(piece, mirrored)
			if piece.Copies > 1 {
				b.side = a.side
			}
			l.open(b)
			if !l.dress(a, b, sb, lb) {
				return nil
			}
			l.put(a, b, la, lb, back)
			cost := l.misfit(a, b, seam, sa, sb, la, lb)
			if place {
				b.level, b.inside = a.level-1, true
				cost = -between(b.place(b.middleOf()), l.sheets[0].place(l.sheets[0].middleOf()))
			}
			if cost < low-1e-9 {
				low, found = cost, b
			}
		}
	}
	if found != nil {
		if place {
			l.archOver(a, found, sa, sb)
		}
		if strings.Contains(piece.Name, "gusset") {
			l.stretch(a, found, sa, sb, la, lb)
		}
	}
	return found
}

func isPlace(p garment.Piece, edge string) bool {
	for _, m := range p.Marks {
		if m.Name == edge && m.Kind == garment.MarkPlace {
			return true
		}
	}
	return false
}

// dress hides what of b is not seen here: the other face, what lies behind a
// fold, and of a band all but the stretch that is sewn on. False when the seam
// itself would not be seen.
func (l *layer) dress(a, b *sheet, sb garment.Side, lb []point) bool {
	if l.plan.face != "" {
		if h, ok := twoSides(b.piece, l.plan.face, l.plan.behind); ok {
			b.show(h, true)
		}
	}
	for _, m := range b.piece.Marks {
		if m.Kind == garment.MarkFold && len(m.Line) == 2 {
			h := half{m.Line[0], toLeft(unit(minus(m.Line[1], m.Line[0])))}
			if h.side(middle(lb)) < 0 {
				h.normal = times(h.normal, -1)
			}
			b.show(h, true)
		}
	}
	if len(b.halves) == 0 || strings.Contains(b.piece.Name, "band") {
		u := unit(minus(lb[len(lb)-1], lb[0]))
		if sb.From > 0 {
			b.show(half{lb[0], u}, false)
		}
		if sb.To < 1 {
			b.show(half{lb[len(lb)-1], times(u, -1)}, false)
		}
	}
	return b.sees(lb) && len(b.corners) > 2
}

// put lays b's line on a's. Two edges, each walked round its own piece, run
// against each other where they are sewn; a line inside a piece may run either
// way.
func (l *layer) put(a, b *sheet, la, lb []point, back bool) {
	on := a.placed(a.walked(la))
	lb = b.walked(b.seenOf(lb))
	if (a.mirrored == b.mirrored) != back {
		on = turned(on)
	}
	if !straight(on) && straight(lb) {
		flip := 1.0
		if b.mirrored {
			flip = -1
		}
		b.bent = &bend{curve: on, from: lb[0], dir: unit(minus(lb[len(lb)-1], lb[0])), flip: flip}
		return
	}
	b.to = rigid(lb[0], lb[len(lb)-1], on[0], on[len(on)-1], b.mirrored)
}

// walked is a line as the outline of what is seen is walked: a lip on a fold has
// the cloth to its left.
func (s *sheet) walked(line []point) []point {
	if !s.hides(line) {
		return line
	}
	d := minus(line[len(line)-1], line[0])
	if cross(d, minus(s.middleOf(), line[0])) < 0 {
		return turned(line)
	}
	return line
}

// misfit is how badly a sheet that has been put lies: small is well.
func (l *layer) misfit(a, b *sheet, seam garment.Seam, sa, sb garment.Side, la, lb []point) float64 {
	ends := func(s *sheet, line []point, edges []string) [2]string {
		return [2]string{s.beyond(line[0], edges), s.beyond(line[len(line)-1], edges)}
	}
	ea, eb := ends(a, la, sa.Edges), ends(b, lb, sb.Edges)
	pa, pb := a.placed(la), b.placed(lb)
	if between(pa[0], pb[0]) > between(pa[0], pb[len(pb)-1]) {
		eb[0], eb[1] = eb[1], eb[0]
	}
	cost := 0.0
	if a.over(b) {
		cost += 50
	}
	for i := range ea {
		if ea[i] == eb[i] && ea[i] != "" {
			cost -= 20
		}
	}
	for _, o := range l.g.Seams {
		for _, pair := range [][2]garment.Side{{o.A, o.B}, {o.B, o.A}} {
			if pair[0].Piece != b.piece.Name || sideKey(pair[0]) == sideKey(sb) {
				continue
			}
			own, ok := sideLine(b.piece, pair[0])
			if !ok || !b.sees(own) || !b.rightSide(o.Name) {
				continue
			}
			taken := a
			if sideKey(pair[1]) != sideKey(sa) {
				taken = nil
			}
			cost += l.nearest(b, own, pair[1], taken) / 10
		}
	}
	return cost
}

// nearest is how far an edge of b lies from the nearest edge it is sewn to, one
// that is taken left aside.
func (l *layer) nearest(b *sheet, own []point, to garment.Side, taken *sheet) float64 {
	best := math.Inf(1)
	on := middle(b.placed(own))
	for _, s := range l.sheets {
		if s.piece.Name != to.Piece || s == taken {
			continue
		}
		if line, ok := sideLine(s.piece, to); ok && s.sees(line) {
			best = min(best, between(middle(s.placed(line)), on))
		}
	}
	if math.IsInf(best, 1) {
		return 0
	}
	return best
}

// beyond is what goes on past the end of a seam: a fold or shoulder, a hem, or
// nothing in particular.
func (s *sheet) beyond(p point, edges []string) string {
	lip := false
	for _, name := range edges {
		lip = lip || strings.HasSuffix(name, " lip")
	}
	for _, h := range s.halves {
		if math.Abs(h.side(p)) < 1e-6 && !lip {
			return "top"
		}
	}
	n := len(s.piece.Edges)
	for i, e := range s.piece.Edges {
		mine := false
		for _, name := range edges {
			mine = mine || name == e.Name
		}
		if mine || distanceTo(p, s.piece.Outline[i], s.piece.Outline[(i+1)%n]) > 1e-6 {
			continue
		}
		switch {
		case e.Finish != garment.FinishSeam && (hasWord(e.Name, "hem") || e.Name == "base"):
			return "hem"
		case e.Finish != garment.FinishSeam:
			return "edge"
		case hasWord(e.Name, "shoulder"):
			return "top"
		}
	}
	return ""
}

// distanceTo is how far a point lies from a stretch a–b.
func distanceTo(p, a, b point) float64 {
	d := minus(b, a)
	if dot(d, d) == 0 {
		return between(p, a)
	}
	return between(p, mix(a, b, max(0, min(1, dot(minus(p, a), d)/dot(d, d)))))
}

// over says whether the middle of b lies on a.
func (s *sheet) over(b *sheet) bool {
	var q geometry.Polygon
	for _, c := range s.corners {
		q = append(q, s.place(c.p))
	}
	return geometry.Locate(q, b.place(b.middleOf())) != geometry.Outside
}
