package flat

import (
	"math"

	"ellwand/garment"
)

// archOver lays a strap whose both ends are sewn to the same piece in an arch
// of its own length.
func (l *layer) archOver(a, b *sheet, sa, sb garment.Side) {
	for _, seam := range l.g.Seams {
		x, y := seam.A, seam.B
		if x.Piece == b.piece.Name {
			x, y = y, x
		}
		if x.Piece != a.piece.Name || y.Piece != b.piece.Name || sideKey(y) == sideKey(sb) || !isPlace(a.piece, x.Edges[0]) {
			continue
		}
		there, ok := sideLine(a.piece, x)
		here, ok2 := sideLine(a.piece, sa)
		end, ok3 := sideLine(b.piece, y)
		begin, ok4 := sideLine(b.piece, sb)
		if !ok || !ok2 || !ok3 || !ok4 || !b.sees(end) {
			continue
		}
		from, to := middle(begin), middle(end)
		curve := arch(middle(a.placed(here)), middle(a.placed(there)), between(from, to))
		b.bent = &bend{curve: curve, from: from, dir: unit(minus(to, from)), flip: 1}
		a.used[sideKey(x)], b.used[sideKey(y)] = true, true
		l.note(seam.Name, a.placed(there))
		return
	}
}

// loopOver lays a strap that runs down both sides of a as its depth: what is
// seen from in front is the loop between the sides, in an arch from side to side.
func (l *layer) loopOver(a *sheet, seam garment.Seam, sa, sb garment.Side, piece garment.Piece) bool {
	for _, o := range l.g.Seams {
		x, y := o.A, o.B
		if x.Piece == piece.Name {
			x, y = y, x
		}
		here, ok := sideLine(a.piece, sa)
		there, ok2 := sideLine(a.piece, x)
		begin, ok3 := sideLine(piece, sb)
		end, ok4 := sideLine(piece, y)
		if x.Piece != a.piece.Name || y.Piece != piece.Name || sideKey(y) == sideKey(sb) || !ok || !ok2 || !ok3 || !ok4 || !a.sees(there) ||
			math.Abs(cross(unit(minus(begin[len(begin)-1], begin[0])), minus(end[0], begin[0]))) > 1e-6 {
			continue
		}
		from, to := begin[len(begin)-1], end[0] // the loop lies between the two stretches
		if between(from, to) > between(begin[0], end[len(end)-1]) {
			from, to = begin[0], end[len(end)-1]
		}
		b := newSheet(piece, false)
		u := unit(minus(to, from))
		b.show(half{from, u}, false)
		b.show(half{to, times(u, -1)}, false)
		top := func(line []point) point {
			on := a.placed(line)
			if on[0].Y > on[len(on)-1].Y {
				return on[0]
			}
			return on[len(on)-1]
		}
		b.bent = &bend{curve: arch(top(here), top(there), between(from, to)), from: from, dir: u, flip: 1}
		b.level, b.inside = a.level-1, true
		l.sheets = append(l.sheets, b)
		a.used[sideKey(sa)], a.used[sideKey(x)] = true, true
		l.note(seam.Name, a.placed(here))
		l.note(o.Name, a.placed(there))
		return true
	}
	return false
}

// stretch draws a gusset between the two edges that it is sewn to, for laid
// flat it hangs a little askew between them.
func (l *layer) stretch(a, b *sheet, sa, sb garment.Side, la, lb []point) {
	pa := a.placed(la)
	pb := b.placed(lb)
	if between(pa[0], pb[0]) > between(pa[0], pb[len(pb)-1]) {
		pa = turned(pa)
	}
	for _, seam := range l.g.Seams {
		for _, pair := range [][2]garment.Side{{seam.A, seam.B}, {seam.B, seam.A}} {
			if pair[0].Piece != b.piece.Name || sideKey(pair[0]) == sideKey(sb) || !b.rightSide(seam.Name) {
				continue
			}
			own, ok := sideLine(b.piece, pair[0])
			if !ok || !b.sees(own) {
				continue
			}
			if l.stretchTo(b, lb, own, pa, pair[1]) {
				l.note(seam.Name, b.placed(own))
				b.used[sideKey(pair[0])] = true
				return
			}
		}
	}
}

func (l *layer) stretchTo(b *sheet, lb, own, pa []point, to garment.Side) bool {
	first, last := lb[0], lb[len(lb)-1]
	pFirst, pLast := pa[0], pa[len(pa)-1]
	shared, free := own[0], own[len(own)-1]
	if between(free, first) < 1e-6 || between(free, last) < 1e-6 {
		shared, free = free, shared
	}
	if between(shared, last) < 1e-6 {
		first, last, pFirst, pLast = last, first, pLast, pFirst
	}
	if between(shared, first) > 1e-6 {
		return false
	}
	for _, s := range l.sheets {
		line, ok := sideLine(s.piece, to)
		if s.piece.Name != to.Piece || !ok || !s.sees(line) {
			continue
		}
		on := s.placed(line)
		near, far := on[0], on[len(on)-1]
		if between(near, pFirst) > between(far, pFirst) {
			near, far = far, near
		}
		if between(near, pFirst) > 0.6*between(near, far)+1 || between(far, pLast) < 0.2*between(near, far) {
			continue // another seam, or the one it is put to
		}
		if t, ok := onto([3]point{first, last, free}, [3]point{pFirst, pLast, far}); ok {
			b.to = t
			return true
		}
	}
	return false
}
