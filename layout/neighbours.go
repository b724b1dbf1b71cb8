package layout

import "math"

// neighbour is a body that the item being moved may collide with, seen from one
// of the item's forms: the box of places at which their boxes overlap, and where
// to look the depth up. A place (x, y) of the item is (a·x + b·y + e, c·x + d·y + g)
// to the pair's regions.
type neighbour struct {
	x0, x1, y0, y1   float64
	a, b, c, d, e, g float64
	counts           float64 // what a cm of overlap with it counts
	pr               *pair
	f                *field
}

// reading says how to read the depth of a pair of forms at (dx, dy) from each
// other: in the pair's regions at (a·dx + b·dy, c·dx + d·dy).
type reading struct {
	pr         *pair
	f          *field // nil where the pair has one region, or too many
	a, b, c, d float64
}

// view is the neighbours of the item being moved, seen from one form, by where
// their boxes begin.
type view struct {
	form   int32
	ready  bool
	widest float64 // the longest box along
	all    []neighbour
}

// gather makes ready for questions about item i.
func (s *separation) gather(i int) {
	s.sortBodies()
	s.item = i
	for k := range s.views {
		s.views[k].ready = false
	}
	for len(s.views) < len(s.m.ofItem[i]) {
		s.views = append(s.views, view{})
	}
}

// seen is the neighbours seen from the k-th form of the item gathered for; not
// all of them once the search is cancelled.
func (s *separation) seen(k int) *view {
	v := &s.views[k]
	if v.ready {
		return v
	}
	i := s.item
	f := s.m.ofItem[i][k]
	fast := &s.fast[f]
	v.form, v.ready, v.widest, v.all = f, true, s.widest+fast.maxX-fast.minX, v.all[:0]
	n, gap := len(s.all), s.m.p.GapCM-s.slack
	weight := s.weight[i*n : (i+1)*n]
	row := s.row(f)
	for _, j := range s.order {
		if j == i {
			continue
		}
		o := &s.all[j]
		r := &row[o.form]
		if r.pr == nil {
			if s.m.cancelled() { // regions of many parts take their time
				break
			}
			*r = s.m.reading(f, o.form)
		}
		v.all = append(v.all, neighbour{
			o.box.MinX - gap - fast.maxX, o.box.MaxX + gap - fast.minX,
			o.box.MinY - gap - fast.maxY, o.box.MaxY + gap - fast.minY,
			-r.a, -r.b, -r.c, -r.d, r.a*o.x + r.b*o.y, r.c*o.x + r.d*o.y,
			float64(weight[j]) * s.scale[i] * s.scale[j], r.pr, r.f,
		})
	}
	return v
}

func (s *separation) row(f int32) []reading {
	if s.rows[f] == nil {
		s.rows[f] = make([]reading, len(s.m.forms))
	}
	return s.rows[f]
}

// cost is the weighted overlap at (x, y); past limit it stops counting.
func (v *view) cost(x, y, limit, slack float64) float64 {
	lo, hi := 0, len(v.all)
	// Those that begin too far left to reach are skipped by halving.
	if hi > 24 {
		for from := x - v.widest; lo < hi; {
			if mid := (lo + hi) / 2; v.all[mid].x0 < from {
				lo = mid + 1
			} else {
				hi = mid
			}
		}
	}
	return costAmong(v.all[lo:], x, y, limit, slack)
}

func costAmong(all []neighbour, x, y, limit, slack float64) float64 {
	sum := 0.0
	for k := range all {
		o := &all[k]
		if o.x0 >= x {
			break
		}
		if o.x1 <= x || o.y1 <= y || o.y0 >= y {
			continue
		}
		u, w := o.a*x+o.b*y+o.e, o.c*x+o.d*y+o.g
		var d float64
		if o.f != nil {
			d = o.f.depth(u, w, slack)
		} else {
			d = o.pr.inside(u, w, slack)
		}
		if d > 0 {
			if sum += d * o.counts; sum >= limit {
				return sum
			}
		}
	}
	return sum
}

// around keeps in local the neighbours within reach of (x, y).
func (s *separation) around(v *view, x, y, reach float64) {
	s.local = s.local[:0]
	for k := range v.all {
		o := &v.all[k]
		if o.x0 >= x+reach {
			break
		}
		if o.x1 > x-reach && o.y1 > y-reach && o.y0 < y+reach {
			s.local = append(s.local, *o)
		}
	}
}

// line is a half-plane of places of the item: inside, at so many cm, where
// nx·x + ny·y < c.
type line struct{ nx, ny, c, depth float64 }

// lines collects the borders nearest to (x, y) of the neighbours in local that
// are overlapped or nearer than reach, the deepest first.
func (s *separation) lines(x, y, reach float64) []line {
	out := s.borders[:0]
	for k := range s.local {
		o := &s.local[k]
		u, w := o.a*x+o.b*y+o.e, o.c*x+o.d*y+o.g
		if o.f != nil {
			a, b, in := o.f.nearest(u, w)
			for _, p := range []*piece{a, b} {
				if p == nil {
					continue
				}
				h := half{p.uy, -p.ux, p.uy*p.x - p.ux*p.y}
				depth := h.c - h.nx*u - h.ny*w
				if d := math.Sqrt(p.squared(u, w)); d > reach && !in {
					continue
				}
				out = insertLine(out, line{h.nx*o.a + h.ny*o.c, h.nx*o.b + h.ny*o.d, h.c - h.nx*o.e - h.ny*o.g, depth})
			}
			continue
		}
		for j := range o.pr.parts {
			q := &o.pr.parts[j]
			h, depth := q.border(u, w)
			if depth < -reach {
				continue
			}
			out = insertLine(out, line{h.nx*o.a + h.ny*o.c, h.nx*o.b + h.ny*o.d, h.c - h.nx*o.e - h.ny*o.g, depth})
		}
	}
	s.borders = out
	return out
}

const mostLines = 8

func insertLine(out []line, l line) []line {
	if len(out) < mostLines {
		out = append(out, l)
	} else if l.depth <= out[mostLines-1].depth {
		return out
	} else {
		out[mostLines-1] = l
	}
	for k := len(out) - 1; k > 0 && out[k].depth > out[k-1].depth; k-- {
		out[k], out[k-1] = out[k-1], out[k]
	}
	return out
}

// border is the half-plane whose edge is nearest, and the depth inside it.
func (q *nofit) border(u, w float64) (half, float64) {
	best, d := half{-1, 0, -q.x0}, u-q.x0
	for _, h := range [3]half{{1, 0, q.x1}, {0, -1, -q.y0}, {0, 1, q.y1}} {
		if v := h.c - h.nx*u - h.ny*w; v < d {
			best, d = h, v
		}
	}
	for i := range q.halves {
		h := &q.halves[i]
		if v := h.c - h.nx*u - h.ny*w; v < d {
			best, d = *h, v
		}
	}
	return best, d
}

// reading of the pair of form a and form b at (dx, dy) from it. Forms that are
// quarter turns of one another share the regions of the pair turned back so
// that a lies as it was given.
func (m *model) reading(a, b int32) reading {
	fa, fb := &m.forms[a], &m.forms[b]
	if fa.base < 0 || fb.base < 0 {
		return m.readingOf(m.pair(a, b), 1, 0)
	}
	// Turned back by a's turn, b is the form that is turned by the difference.
	k := (fb.quarter - fa.quarter + 4) % 4
	a0, b0 := m.turned[fa.base][0], m.turned[fb.base][k]
	if a0 < 0 || b0 < 0 {
		return m.readingOf(m.pair(a, b), 1, 0)
	}
	sin, cos := [4]float64{0, 1, 0, -1}[fa.quarter], [4]float64{1, 0, -1, 0}[fa.quarter]
	return m.readingOf(m.pair(a0, b0), cos, sin)
}

func (m *model) readingOf(pr *pair, cos, sin float64) reading {
	pr.once.Do(func() {
		if m.fieldCells > 0 {
			pr.field = newField(pr, m.fieldCells)
		}
	})
	return reading{pr, pr.field, cos, sin, -sin, cos}
}
