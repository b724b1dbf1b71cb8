package layout

import (
	"cmp"
	"math"
	"slices"

	"ellwand/geometry"
)

// body is a form at a place on the strip: an item or a flaw.
type body struct {
	form int32
	x, y float64
	box  geometry.Rect // on the strip
}

func (m *model) body(f int32, x, y float64) body {
	b := m.forms[f].box
	x, y = m.snapped(f, x, y)
	return body{f, x, y, geometry.Rect{MinX: b.MinX + x, MinY: b.MinY + y, MaxX: b.MaxX + x, MaxY: b.MaxY + y}}
}

// room is the span of places across the width at which form f lies on the cloth.
func (m *model) room(f int32) (lo, hi float64) {
	b := m.forms[f].box
	lo, hi = -b.MinY, math.Max(-b.MinY, m.p.WidthCM-b.MaxY)
	if t := m.forms[f].tie; t != nil && t.left != t.right {
		if lo, hi = m.selvedges(f); t.left {
			return lo, lo
		}
		return hi, hi
	}
	return lo, hi
}

type span struct{ lo, hi float64 }

// sheet is cloth with bodies that stay where they are.
type sheet struct {
	m      *model
	bodies []body
	spans  []span // kept between questions
}

// fixed is the sheet with the flaws and the pinned items only.
func (m *model) fixed() *sheet {
	s := &sheet{m: m}
	for _, f := range m.flaws {
		s.bodies = append(s.bodies, m.body(f, 0, 0))
	}
	for i, it := range m.p.Items {
		if it.Pinned != nil {
			s.bodies = append(s.bodies, m.pin(i))
		}
	}
	return s
}

// pin is pinned item i as a body.
func (m *model) pin(i int) body {
	pin := m.p.Items[i].Pinned
	return m.body(m.ofItem[i][0], pin.X, pin.Y)
}

// firstX is the least x from start on at which form f is free at height y.
func (s *sheet) firstX(f int32, start, y float64) float64 {
	b := s.m.forms[f].box
	gap := s.m.p.GapCM
	s.spans = s.spans[:0]
	for i := range s.bodies {
		o := &s.bodies[i]
		if o.box.MaxX+gap <= start+b.MinX || o.box.MaxY+gap <= y+b.MinY || o.box.MinY-gap >= y+b.MaxY {
			continue
		}
		pr := s.m.pair(o.form, f)
		if y-o.y <= pr.y0 || y-o.y >= pr.y1 || o.x+pr.x1 <= start {
			continue
		}
		for k := range pr.parts {
			if lo, hi, ok := pr.parts[k].alongX(y - o.y); ok {
				s.spans = append(s.spans, span{lo + o.x, hi + o.x})
			}
		}
	}
	return firstFree(s.spans, start, func(x float64) float64 { return s.m.nextX(f, x) })
}

// firstY is the least y from start on at which form f is free at x.
func (s *sheet) firstY(f int32, x, start float64) float64 {
	b := s.m.forms[f].box
	gap := s.m.p.GapCM
	s.spans = s.spans[:0]
	for i := range s.bodies {
		o := &s.bodies[i]
		if o.box.MaxX+gap <= x+b.MinX || o.box.MinX-gap >= x+b.MaxX {
			continue
		}
		pr := s.m.pair(o.form, f)
		if x-o.x <= pr.x0 || x-o.x >= pr.x1 {
			continue
		}
		for k := range pr.parts {
			if lo, hi, ok := pr.parts[k].alongY(x - o.x); ok {
				s.spans = append(s.spans, span{lo + o.y, hi + o.y})
			}
		}
	}
	return firstFree(s.spans, start, func(y float64) float64 { return s.m.nextY(f, y) })
}

// firstFree is the least value from start on that may be, by next, and lies
// inside no span; ends are free.
func firstFree(spans []span, start float64, next func(float64) float64) float64 {
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	at := next(start)
	for _, s := range spans {
		if s.lo >= at {
			break
		}
		if s.hi > at {
			at = next(s.hi)
		}
	}
	return at
}
