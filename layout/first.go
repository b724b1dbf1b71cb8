package layout

import (
	"context"
	"math"
	"sort"
)

// First is a legal lay, quickly: the items in several orders, each at the
// furthest left, then lowest, place where it touches what lies already.
func First(p Problem) (Lay, error) { return FirstContext(context.Background(), p) }

// FirstContext is First, answering soon after ctx is done with the shortest lay
// until then; at the least the pieces' boxes in rows across the cloth.
func FirstContext(ctx context.Context, p Problem) (Lay, error) {
	if err := p.Validate(); err != nil {
		return Lay{}, err
	}
	return first(newModel(ctx, p.phased(ctx, Lay{})))
}

func first(m *model) (Lay, error) {
	best, found := Lay{}, false
	var orders [][]int
	if !m.cancelled() && m.heavy() {
		m = newModelOf(m.ctx, m.p, coarseSpread)
	}
	if !m.cancelled() { // then m may be unfinished
		orders = m.orders()
	}
	for _, order := range orders {
		all, ok := m.construct(order)
		if !ok {
			break
		}
		if l, ok := m.settle(all); ok && (!found || l.LengthCM < best.LengthCM) {
			best, found = l, true
		}
	}
	if l, ok := m.firstBlocks(); ok && (!found || l.LengthCM < best.LengthCM) {
		best, found = l, true
	}
	if found {
		return best, nil
	}
	if l := rowsOfBoxes(m.p); Check(m.p, l) == nil {
		return l, nil
	}
	return Lay{}, errNoLay
}

// manyItems is the number from which one order and a narrower look must do.
const manyItems = 200

// orders is the sequences worth trying: falling area, length, width and box.
func (m *model) orders() [][]int {
	var loose []int
	for i, it := range m.p.Items {
		if it.Pinned == nil {
			loose = append(loose, i)
		}
	}
	box := func(i int) (w, h float64) {
		b := m.forms[m.ofItem[i][0]].box
		return b.Width(), b.Height()
	}
	keys := []func(i int) float64{
		func(i int) float64 { return m.forms[m.ofItem[i][0]].size },
		func(i int) float64 { w, _ := box(i); return w },
		func(i int) float64 { _, h := box(i); return h },
		func(i int) float64 { w, h := box(i); return w * h },
		func(i int) float64 { w, h := box(i); return math.Max(w, h) },
	}
	if len(loose) > manyItems || m.work() > 5e5 {
		keys = keys[1:2]
	}
	var out [][]int
	for _, key := range keys {
		order := append([]int(nil), loose...)
		sort.SliceStable(order, func(a, b int) bool { return key(order[a]) > key(order[b]) })
		out = append(out, order)
	}
	return out
}

// work is about how many pairs of parts one question to a full sheet looks at.
func (m *model) work() float64 {
	parts, forms := 0.0, 0.0
	for _, fs := range m.ofItem {
		for _, f := range fs {
			parts += float64(len(m.forms[f].parts))
			forms++
		}
	}
	return parts * parts / forms * float64(len(m.ofItem))
}

// construct places the items in order and gives the bodies by item; false when
// the search was cancelled before all lay.
func (m *model) construct(order []int) ([]body, bool) {
	if m.cancelled() {
		return nil, false
	}
	s := m.fixed()
	all := make([]body, len(m.p.Items))
	for i, it := range m.p.Items {
		if it.Pinned != nil {
			all[i] = m.pin(i)
		}
	}
	closed := 0.0 // left of this nothing is looked at any more
	for k, i := range order {
		if all[i] = s.leftmost(m.ofItem[i], closed); m.cancelled() {
			return nil, false
		}
		s.bodies = append(s.bodies, all[i])
		if len(order) > manyItems && k%16 == 15 {
			closed = s.close(closed)
		}
	}
	return all, true
}

// close forgets the bodies furthest left when there are many, and gives the x
// from which on the rest may be placed.
func (s *sheet) close(closed float64) float64 {
	const keep = 90
	if len(s.bodies) <= keep {
		return closed
	}
	sort.Slice(s.bodies, func(a, b int) bool { return s.bodies[a].box.MaxX > s.bodies[b].box.MaxX })
	closed = math.Max(closed, s.bodies[keep].box.MaxX+s.m.p.GapCM)
	s.bodies = s.bodies[:keep]
	return closed
}

// leftmost is the place, over the forms, whose right end is least; then the
// lowest. Places tried: as far left as can be at heights where the item would
// lie flush with something, and as low as can be at such places along.
func (s *sheet) leftmost(forms []int32, closed float64) body {
	best, bestEnd, bestY := body{}, math.Inf(1), math.Inf(1)
	for _, f := range forms {
		b := s.m.forms[f].box
		lo, hi := s.m.room(f)
		start := closed - b.MinX
		try := func(x, y float64) {
			end, low := x+b.MaxX, y+b.MinY
			if end < bestEnd-1e-6 || end < bestEnd+1e-6 && low < bestY {
				best, bestEnd, bestY = s.m.body(f, x, y), end, low
			}
		}
		for _, y := range s.heights(f, lo, hi) {
			if s.m.cancelled() {
				return best
			}
			_, y = s.m.snapped(f, start, y)
			try(s.firstX(f, start, y), y)
		}
		for _, x := range s.alongs(f, start) {
			if x+b.MaxX > bestEnd+1e-6 || s.m.cancelled() {
				break
			}
			x = s.m.nextX(f, x)
			if y := s.firstY(f, x, lo); y <= hi {
				try(x, y)
			}
		}
	}
	return best
}

// fewPlaces bounds the places tried when bodies are many.
const fewPlaces = 40

// heights is where form f would be flush with a selvedge or a body across.
func (s *sheet) heights(f int32, lo, hi float64) []float64 {
	b, gap := s.m.forms[f].box, s.m.p.GapCM
	out := []float64{lo, hi}
	for i := range s.bodies {
		o := &s.bodies[i]
		out = append(out, o.box.MaxY+gap-b.MinY, o.box.MinY-gap-b.MaxY, o.box.MinY-b.MinY, o.box.MaxY-b.MaxY)
	}
	return thinned(out, lo, hi)
}

// alongs is where form f would be flush with a body along, or with the cut end.
func (s *sheet) alongs(f int32, start float64) []float64 {
	b, gap := s.m.forms[f].box, s.m.p.GapCM
	out := []float64{start}
	for i := range s.bodies {
		o := &s.bodies[i]
		out = append(out, o.box.MaxX+gap-b.MinX, o.box.MinX-b.MinX, o.box.MaxX-b.MaxX)
	}
	return thinned(out, start, math.Inf(1))
}

// thinned is the values within lo..hi in rising order, without repeats, and
// evenly fewer when there are too many.
func thinned(v []float64, lo, hi float64) []float64 {
	sort.Float64s(v)
	out := v[:0]
	for _, x := range v {
		if x >= lo && x <= hi && (len(out) == 0 || x-out[len(out)-1] > 1e-6) {
			out = append(out, x)
		}
	}
	if step := (len(out) + fewPlaces - 1) / fewPlaces; step > 1 {
		k := 0
		for i := 0; i < len(out); i += step {
			out[k] = out[i]
			k++
		}
		out = out[:k]
	}
	return out
}

// heavy says that one question to a full sheet takes long enough for cancel to
// be looked at within it.
func (m *model) heavy() bool { return m.work() > 1e5 }
