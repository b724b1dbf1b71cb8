package layout

import (
	"math"
	"math/rand/v2"

	"ellwand/geometry"
)

// skyline packs rectangles by the best fit on the outline of what lies already,
// for problems of axis-parallel rectangles on clear cloth. Lengths are with the
// gap added to every rectangle and to the width.
type skyline struct {
	m     *model
	width float64
	kinds []rectKind
	of    [][]int // items of each kind
	segs  []segment
	left  []int   // how many of each kind are still to be laid
	rank  []int   // place of each kind in the order that breaks ties
	unit  float64 // all lengths along are whole numbers of it; 0 when there is none
	// unitAcross is the same for the widths and the cloth's.
	unitAcross float64
}

type rectKind struct {
	ways []rectWay
	n    int
}

// rectWay is a form with its length along and width across, with the gap.
type rectWay struct {
	form int32
	l, w float64
}

// segment is a stretch across the cloth, from y on, laid up to x along.
type segment struct{ x, y, w float64 }

// newSkyline is nil where the problem is not of loose rectangles only.
func newSkyline(m *model) *skyline {
	if len(m.flaws) > 0 {
		return nil
	}
	s := &skyline{m: m, width: m.p.WidthCM + m.p.GapCM}
	known := map[[4]float64]int{}
	for i, it := range m.p.Items {
		k := rectKind{}
		for _, f := range m.ofItem[i] {
			if it.Pinned != nil || it.tied() || !isBox(m.forms[f].poly) {
				return nil
			}
			b := m.forms[f].box
			k.ways = append(k.ways, rectWay{f, b.Width() + m.p.GapCM, b.Height() + m.p.GapCM})
		}
		last := k.ways[len(k.ways)-1]
		key := [4]float64{k.ways[0].l, k.ways[0].w, last.l, last.w}
		at, ok := known[key]
		if !ok {
			at = len(s.kinds)
			known[key] = at
			s.kinds = append(s.kinds, k)
			s.of = append(s.of, nil)
		}
		s.kinds[at].n++
		s.of[at] = append(s.of[at], i)
	}
	s.unit = commonUnit(s.measures(func(w rectWay) float64 { return w.l }))
	s.unitAcross = commonUnit(append(s.measures(func(w rectWay) float64 { return w.w }), s.width))
	s.left = make([]int, len(s.kinds))
	s.rank = make([]int, len(s.kinds))
	return s
}

// commonUnit is the greatest length on the grid of places of which all lengths
// are whole numbers, or 0. Pushed together, rectangles end at sums of their
// lengths, so the shortest lay is a whole number of it long too.
func commonUnit(lengths []float64) float64 {
	var unit int64
	for _, l := range lengths {
		v := math.Round(l / placeGridCM)
		if math.Abs(v*placeGridCM-l) > 1e-9 {
			return 0
		}
		for a := int64(v); a != 0; {
			unit, a = a, unit%a
		}
	}
	return float64(unit) * placeGridCM
}

func (s *skyline) measures(of func(rectWay) float64) []float64 {
	var out []float64
	for _, k := range s.kinds {
		for _, w := range k.ways {
			out = append(out, of(w))
		}
	}
	return out
}

// bound is the least length that a lay may have which is no shorter than low.
// With a gap, which may be kept slantwise, lengths do not add up so.
func (s *skyline) bound(low float64) float64 {
	if s == nil || s.unit == 0 || s.m.p.GapCM > 0 {
		return low
	}
	return max(low, math.Ceil(low/s.unit-1e-6)*s.unit-2*exactCM)
}

func isBox(q geometry.Polygon) bool {
	if len(q) != 4 {
		return false
	}
	b := q.Bounds()
	for _, v := range q {
		if v.X != b.MinX && v.X != b.MaxX || v.Y != b.MinY && v.Y != b.MaxY {
			return false
		}
	}
	return true
}

// laid is a rectangle of kind laid at (x, y).
type laid struct {
	kind, way int
	x, y      float64
}

const sameCM = 1e-7 // lengths nearer than this are the same

// pack lays all rectangles by the order of kinds; it stops as soon as one
// reaches past limit.
func (s *skyline) pack(order []int, limit float64, out []laid) ([]laid, float64) {
	out = out[:0]
	total := 0
	for r, k := range order {
		s.left[k], s.rank[k] = s.kinds[k].n, r
		total += s.kinds[k].n
	}
	s.segs = append(s.segs[:0], segment{0, 0, s.width})
	far := 0.0
	for len(out) < total {
		at := s.lowest()
		k, w, high := s.bestFit(order, at)
		if k < 0 {
			s.raise(at)
			continue
		}
		l := s.lay(at, k, w, high)
		far = max(far, l.x+s.kinds[k].ways[w].l)
		if far > limit {
			return out, math.Inf(1)
		}
		out = append(out, l)
		s.left[k]--
	}
	return out, far
}

func (s *skyline) lowest() int {
	at := 0
	for i := range s.segs {
		if s.segs[i].x < s.segs[at].x-sameCM {
			at = i
		}
	}
	return at
}

// walls is how far the neighbours of segment at stand above it.
func (s *skyline) walls(at int) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(1)
	if at > 0 {
		lo = s.segs[at-1].x - s.segs[at].x
	}
	if at+1 < len(s.segs) {
		hi = s.segs[at+1].x - s.segs[at].x
	}
	return lo, hi
}

// bestFit is the kind and way that fits segment at best: filling it across and
// flush with a wall along counts most; ties go to the earlier in order. high
// says that it goes against the wall at the segment's far end.
func (s *skyline) bestFit(order []int, at int) (kind, way int, high bool) {
	seg := s.segs[at]
	lo, hi := s.walls(at)
	kind, best := -1, -1
	for _, k := range order {
		if s.left[k] == 0 {
			continue
		}
		for w := range s.kinds[k].ways {
			r := &s.kinds[k].ways[w]
			if r.w > seg.w+sameCM {
				continue
			}
			score := 0
			full := r.w > seg.w-sameCM
			flushLo, flushHi := math.Abs(r.l-lo) < sameCM, math.Abs(r.l-hi) < sameCM
			if full {
				score += 3
			}
			if flushLo {
				score++
			}
			if flushHi {
				score++
			}
			if !full && flushLo && flushHi {
				score-- // only one of the walls can be met
			}
			if score > best {
				kind, way, best = k, w, score
				high = flushHi && !flushLo || flushHi == flushLo && hi > lo && !full
			}
		}
		if best == 5 {
			break
		}
	}
	return kind, way, high
}

// raise gives up segment at: it goes level with its lower neighbour.
func (s *skyline) raise(at int) {
	lo, hi := s.walls(at)
	s.segs[at].x += min(lo, hi)
	s.merge(at)
}

// merge joins segment at with neighbours on its level.
func (s *skyline) merge(at int) {
	if at+1 < len(s.segs) && math.Abs(s.segs[at+1].x-s.segs[at].x) < sameCM {
		s.segs[at].w += s.segs[at+1].w
		s.segs = append(s.segs[:at+1], s.segs[at+2:]...)
	}
	if at > 0 && math.Abs(s.segs[at-1].x-s.segs[at].x) < sameCM {
		s.segs[at-1].w += s.segs[at].w
		s.segs = append(s.segs[:at], s.segs[at+1:]...)
	}
}

func (s *skyline) lay(at, k, w int, high bool) laid {
	r, seg := s.kinds[k].ways[w], s.segs[at]
	l := laid{k, w, seg.x, seg.y}
	rest := seg.w - r.w
	if rest < sameCM {
		s.segs[at].x += r.l
		s.merge(at)
		return l
	}
	s.segs = append(s.segs, segment{})
	copy(s.segs[at+1:], s.segs[at:])
	if high {
		l.y = seg.y + rest
		s.segs[at] = segment{seg.x, seg.y, rest}
		s.segs[at+1] = segment{seg.x + r.l, l.y, r.w}
		s.merge(at + 1)
	} else {
		s.segs[at] = segment{seg.x + r.l, seg.y, r.w}
		s.segs[at+1] = segment{seg.x, seg.y + r.w, rest}
		s.merge(at)
	}
	return l
}

// bodies is the rectangles laid as bodies by item.
func (s *skyline) bodies(ls []laid) []body {
	all := make([]body, len(s.m.p.Items))
	next := make([]int, len(s.kinds))
	for _, l := range ls {
		f := s.kinds[l.kind].ways[l.way].form
		b := s.m.forms[f].box
		all[s.of[l.kind][next[l.kind]]] = s.m.body(f, l.x-b.MinX, l.y-b.MinY)
		next[l.kind]++
	}
	return all
}

// wholeShare is the share of the time for rectangles in which lays that leave
// nothing bare are looked for first, where there may be any.
const wholeShare = 0.5

// manyRectangles is the number above which such lays are seldom found.
const manyRectangles = 60

// searchRectangles looks for orders that pack shorter: from several sorted
// orders, pairs are swapped or moved and the change kept when no worse; after a
// while without gain it starts again from another. It ends when share of the
// time is used, or steps when time has no bound, or the bound is met.
func (s *search) searchRectangles(sky *skyline, share float64) {
	if sky == nil {
		return
	}
	if len(s.m.p.Items) <= manyRectangles {
		s.fillWhole(sky, share*wholeShare)
	} else {
		s.fillWhole(sky, share*wholeShare/10)
	}
	const perStep, rounds = 50, 400
	starts := sky.starts()
	var cur, try []laid
	for turn := 0; !s.done() && s.clock.spent() < share; turn++ {
		order := append([]int(nil), starts[turn%len(starts)]...)
		for range turn / len(starts) {
			changeOrder(order, s.rng)
		}
		if s.fillNiches(sky, order); s.done() {
			return
		}
		var far float64
		cur, far = sky.pack(order, math.Inf(1), cur)
		s.offerRectangles(sky, cur, far)
		for idle := 0; idle < rounds && s.clock.tick() && s.clock.spent() < share; idle++ {
			for range perStep {
				next := append([]int(nil), order...)
				changeOrder(next, s.rng)
				var end float64
				if try, end = sky.pack(next, far, try); end <= far {
					if end < far-sameCM {
						idle = 0
					}
					order, far = next, end
					s.offerRectangles(sky, try, far)
				}
			}
			if s.done() {
				return
			}
		}
		if s.clock.maxSteps == 0 && s.clock.deadline.IsZero() && turn >= 2*len(starts) {
			return
		}
	}
}

// fillNiches tries orders like the one given on strips from the shortest that
// may be to a little below what is known.
func (s *search) fillNiches(sky *skyline, order []int) {
	const tries, nodes, perStep = 24, 20_000, 4
	order = append([]int(nil), order...)
	for k := 0; k < tries && !s.done(); k++ {
		known := s.best.length()
		// The shortest of all is worth most tries: pieces may fill a sheet whole.
		share := max(0, 2*s.rng.Float64()-1)
		target := s.floor + 2*exactCM + share*share*(known-s.floor) + s.m.p.GapCM
		if sky.unit > 0 {
			steps := math.Round((known + s.m.p.GapCM) / sky.unit) // what is known; one less would do
			target = min(math.Floor((target+sameCM)/sky.unit), steps-1)*sky.unit + sameCM
		}
		if ls, ok := sky.fill(order, target, nodes); ok {
			if l, ok := s.m.settle(sky.bodies(ls)); ok {
				s.best.offer(l)
			}
		}
		changeOrder(order, s.rng)
		if k%perStep == 0 && !s.clock.tick() {
			return
		}
	}
}

func (s *search) offerRectangles(sky *skyline, ls []laid, far float64) {
	if far-s.m.p.GapCM >= s.best.length()-sameCM {
		return
	}
	if l, ok := s.m.settle(sky.bodies(ls)); ok {
		s.best.offer(l)
	}
}

// starts is the kinds by falling width, length, area and round.
func (s *skyline) starts() [][]int {
	var out [][]int
	for _, key := range []func(r rectWay) float64{
		func(r rectWay) float64 { return r.w },
		func(r rectWay) float64 { return r.l },
		func(r rectWay) float64 { return r.l * r.w },
		func(r rectWay) float64 { return r.l + r.w },
		func(r rectWay) float64 { return max(r.l, r.w) },
	} {
		out = append(out, sortedBy(len(s.kinds), func(k int) float64 { return -key(s.kinds[k].ways[0]) }))
	}
	return out
}

// changeOrder swaps two kinds or moves one elsewhere.
func changeOrder(order []int, rng *rand.Rand) {
	i, j := rng.IntN(len(order)), rng.IntN(len(order))
	if rng.IntN(2) == 0 {
		order[i], order[j] = order[j], order[i]
		return
	}
	k := order[i]
	if i < j {
		copy(order[i:j], order[i+1:j+1])
	} else {
		copy(order[j+1:i+1], order[j:i])
	}
	order[j] = k
}
