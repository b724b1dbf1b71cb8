package layout

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"

	"ellwand/geometry"
)

// field answers how deep two forms overlap where a pair has several convex
// regions: the distance to the border of all of them together. A grid over the
// pair's box keeps, for each cell, what border and which regions can matter there.
type field struct {
	x0, y0 float64
	perX   float64 // cells in a cm
	perY   float64
	nx, ny int
	cells  []cell
	border []piece
	lists  []uint16 // of what matters in cells: so many stretches, so many regions, then which
	parts  []nofit
}

// cell says what can matter in one cell of the grid. It is small, since which
// cell is read next is anyone's guess and memory is slow: its kind in the two
// low bits, then which stretch of border of an edged cell, or where its list
// begins.
type cell uint32

const (
	mixed  cell = iota
	bare        // outside every region
	edged       // one stretch of border alone matters, and the foot of every place lies on it
	inside      // inside one region as a whole
)

// piece is a stretch of border: from (x, y) along (ux, uy) of length 1 for so
// many cm; (uy, -ux) points out of the region, which ends where uy·x − ux·y is c.
type piece struct{ x, y, ux, uy, long, c float64 }

func newPiece(x, y, ux, uy, long float64) piece { return piece{x, y, ux, uy, long, uy*x - ux*y} }

// mostBorder bounds the stretches of border of a field.
const mostBorder = 4000

// newField is nil where a pair has one region, or too much border.
func newField(pr *pair, cells int) *field {
	if len(pr.parts) < 2 || len(pr.parts) > 1000 {
		return nil
	}
	f := &field{x0: pr.x0, y0: pr.y0, parts: pr.parts}
	f.border = borderOf(pr.parts)
	if len(f.border) == 0 || len(f.border) > mostBorder {
		return nil
	}
	w, h := pr.x1-pr.x0, pr.y1-pr.y0
	side := math.Sqrt(w * h / float64(cells))
	f.nx, f.ny = max(1, min(cells, int(w/side))), max(1, min(cells, int(h/side)))
	f.perX, f.perY = float64(f.nx)/w, float64(f.ny)/h
	f.fill()
	return f
}

// fill works out what matters in each cell.
func (f *field) fill() {
	dx, dy := 1/f.perX, 1/f.perY
	r := math.Hypot(dx, dy)/2 + 1e-3 // places a little off the box are read from the cells at its rim
	away := make([]float64, len(f.border))
	known := map[string]int{}
	var key []byte
	f.cells = make([]cell, 0, f.nx*f.ny)
	for j := range f.ny {
		for i := range f.nx {
			kind, list := f.cellAt(f.x0+(float64(i)+0.5)*dx, f.y0+(float64(j)+0.5)*dy, r, away)
			if kind == edged {
				f.cells = append(f.cells, edged|cell(list[2])<<2)
				continue
			}
			key = key[:0]
			for _, v := range list {
				key = binary.LittleEndian.AppendUint16(key, v)
			}
			at, ok := known[string(key)]
			if !ok {
				at = len(f.lists)
				known[string(key)] = at
				f.lists = append(f.lists, list...)
			}
			f.cells = append(f.cells, kind|cell(at)<<2)
		}
	}
}

// cellAt is the kind and the list of the cell about (x, y) of half its diagonal r.
func (f *field) cellAt(x, y, r float64, away []float64) (cell, []uint16) {
	least := math.Inf(1)
	for k := range f.border {
		away[k] = math.Sqrt(f.border[k].squared(x, y))
		least = min(least, away[k])
	}
	list := []uint16{0, 0}
	for k, d := range away {
		if d <= least+2*r {
			list = append(list, uint16(k))
			list[0]++
		}
	}
	kind := mixed
	for k := range f.parts {
		switch d := f.parts[k].signed(x, y); {
		case d >= r:
			kind = inside
		case d > -r:
			list = append(list, uint16(k))
			list[1]++
		}
	}
	if kind == mixed && list[1] == 0 {
		return bare, list
	}
	if list[0] == 1 {
		p := &f.border[list[2]]
		if t := (x-p.x)*p.ux + (y-p.y)*p.uy; t >= r && t <= p.long-r {
			return edged, list
		}
	}
	return kind, list
}

func (f *field) cell(dx, dy float64) cell {
	i, j := int((dx-f.x0)*f.perX), int((dy-f.y0)*f.perY)
	return f.cells[max(0, min(j, f.ny-1))*f.nx+max(0, min(i, f.nx-1))]
}

// depth is as pair's, for places within its box.
func (f *field) depth(dx, dy, slack float64) float64 {
	c := f.cell(dx, dy)
	switch c & 3 {
	case edged:
		p := &f.border[c>>2]
		return max(0, p.c-p.uy*dx+p.ux*dy-slack)
	case bare:
		if slack >= 0 {
			return 0
		}
	}
	return f.measured(c, dx, dy, slack)
}

// measured is depth where more than one stretch of border may matter.
func (f *field) measured(c cell, dx, dy, slack float64) float64 {
	segs, regs := f.listOf(c)
	in := c&3 == inside || f.within(regs, dx, dy)
	if !in && slack >= 0 {
		return 0
	}
	least := math.Inf(1)
	for _, k := range segs {
		least = min(least, f.border[k].squared(dx, dy))
	}
	d := math.Sqrt(least)
	if !in {
		d = -d
	}
	return max(0, d-slack)
}

func (f *field) listOf(c cell) (segs, regs []uint16) {
	list := f.lists[c>>2:]
	n := 2 + int(list[0])
	return list[2:n], list[n : n+int(list[1])]
}

// within says whether a place lies inside one of the regions.
func (f *field) within(regs []uint16, dx, dy float64) bool {
	for _, k := range regs {
		if f.parts[k].contains(dx, dy) {
			return true
		}
	}
	return false
}

// nearest is the two stretches of border nearest to a place, of unlike
// directions where there are, and whether the place is inside.
func (f *field) nearest(dx, dy float64) (a, b *piece, in bool) {
	c := f.cell(dx, dy)
	if c&3 == edged {
		a = &f.border[c>>2]
		return a, nil, a.c-a.uy*dx+a.ux*dy > 0
	}
	segs, regs := f.listOf(c)
	in = c&3 == inside || f.within(regs, dx, dy)
	d1, d2 := math.Inf(1), math.Inf(1)
	for _, k := range segs {
		if d := f.border[k].squared(dx, dy); d < d1 {
			a, d1 = &f.border[k], d
		}
	}
	for _, k := range segs {
		p := &f.border[k]
		if d := p.squared(dx, dy); d < d2 && math.Abs(p.ux*a.uy-p.uy*a.ux) > 0.05 {
			b, d2 = p, d
		}
	}
	return a, b, in
}

// squared is the square of the distance from the stretch.
func (p *piece) squared(x, y float64) float64 {
	x -= p.x
	y -= p.y
	t := x*p.ux + y*p.uy
	if t <= 0 {
		return x*x + y*y
	}
	if t > p.long {
		t -= p.long
		n := x*p.uy - y*p.ux
		return t*t + n*n
	}
	n := x*p.uy - y*p.ux
	return n * n
}

func (q *nofit) contains(dx, dy float64) bool {
	if dx <= q.x0 || dx >= q.x1 || dy <= q.y0 || dy >= q.y1 {
		return false
	}
	for i := range q.halves {
		if h := &q.halves[i]; h.nx*dx+h.ny*dy >= h.c {
			return false
		}
	}
	return true
}

// signed is the depth inside the region, below 0 outside it.
func (q *nofit) signed(dx, dy float64) float64 {
	d := min(dx-q.x0, q.x1-dx, dy-q.y0, q.y1-dy)
	for i := range q.halves {
		h := &q.halves[i]
		d = min(d, h.c-h.nx*dx-h.ny*dy)
	}
	return d
}

// borderOf is the border of convex regions together: of each one's edges, what
// is inside no other. Places where an exact fit is left between regions stay,
// as stretches of next to no length.
func borderOf(parts []nofit) []piece {
	const within = 1e-7 // nearer to a region's edge than this is not inside it
	var out []piece
	var covered []span
	for k := range parts {
		corners := parts[k].corners()
		for i, a := range corners {
			b := corners[(i+1)%len(corners)]
			long := math.Hypot(b.X-a.X, b.Y-a.Y)
			if long < 1e-12 {
				continue
			}
			e := newPiece(a.X, a.Y, (b.X-a.X)/long, (b.Y-a.Y)/long, long)
			covered = covered[:0]
			for m := range parts {
				if m == k {
					continue
				}
				if lo, hi := parts[m].alongLine(&e, within); lo < hi {
					covered = append(covered, span{lo, hi})
				}
			}
			out = appendBare(out, e, covered)
			if len(out) > mostBorder {
				return out
			}
		}
	}
	return withoutTwins(out)
}

// withoutTwins leaves out what of a stretch runs along an earlier one.
func withoutTwins(border []piece) []piece {
	const same = 1e-7
	var out []piece
	var covered []span
	for i, e := range border {
		covered = covered[:0]
		for _, o := range border[:i] {
			x, y := o.x-e.x, o.y-e.y
			if o.ux*e.ux+o.uy*e.uy < 1-1e-12 || math.Abs(x*e.uy-y*e.ux) > same {
				continue
			}
			if at := x*e.ux + y*e.uy; at < e.long && at+o.long > 0 {
				covered = append(covered, span{at, min(e.long, at+o.long)})
			}
		}
		if covered == nil {
			out = append(out, e)
		} else {
			out = appendBare(out, e, covered)
		}
	}
	return out
}

// appendBare adds what of e is not covered.
func appendBare(out []piece, e piece, covered []span) []piece {
	slices.SortFunc(covered, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	at := 0.0
	for _, s := range append(covered, span{e.long, e.long}) {
		if s.lo > at {
			out = append(out, newPiece(e.x+at*e.ux, e.y+at*e.uy, e.ux, e.uy, s.lo-at))
		}
		at = max(at, s.hi)
	}
	return out
}

// alongLine is the span of e's line, in cm from its begin, deeper inside the
// region than within.
func (q *nofit) alongLine(e *piece, within float64) (lo, hi float64) {
	lo, hi = 0, e.long
	cut := func(nx, ny, c float64) {
		n, room := nx*e.ux+ny*e.uy, c-within-nx*e.x-ny*e.y
		switch {
		case n > 1e-12:
			hi = min(hi, room/n)
		case n < -1e-12:
			lo = max(lo, room/n)
		case room <= 0:
			hi = math.Inf(-1)
		}
	}
	cut(1, 0, q.x1)
	cut(-1, 0, -q.x0)
	cut(0, 1, q.y1)
	cut(0, -1, -q.y0)
	for i := range q.halves {
		cut(q.halves[i].nx, q.halves[i].ny, q.halves[i].c)
	}
	return lo, hi
}

// corners of the region, counter-clockwise.
func (q *nofit) corners() geometry.Polygon {
	p := geometry.Polygon{{X: q.x0, Y: q.y0}, {X: q.x1, Y: q.y0}, {X: q.x1, Y: q.y1}, {X: q.x0, Y: q.y1}}
	var cut geometry.Polygon
	for i := range q.halves {
		h := &q.halves[i]
		cut = cut[:0]
		for k, a := range p {
			b := p[(k+1)%len(p)]
			u, v := h.c-h.nx*a.X-h.ny*a.Y, h.c-h.nx*b.X-h.ny*b.Y
			if u >= 0 {
				cut = append(cut, a)
			}
			if u > 0 && v < 0 || u < 0 && v > 0 {
				t := u / (u - v)
				cut = append(cut, geometry.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)})
			}
		}
		p, cut = cut, p
	}
	return p
}
