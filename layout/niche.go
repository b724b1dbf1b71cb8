package layout

import "math"

// niches fills the lowest niche of the skyline again and again, taking back
// what cannot lead to a lay of the length sought: by how much more cloth would
// stay bare than that length has to spare. Where nothing may stay bare it meets
// every lay there is.
type niches struct {
	sky    *skyline
	order  []int
	limit  float64
	nodes  int // still to be spent
	levels [][]segment
	now    []laid
	whole  bool // nothing may stay bare and all is whole units: sums must come out
	sums   []uint64
	across [][2]int // the first and the last way of every kind in units
	along  [][2]int
}

// fill looks for a lay no longer than limit, with the gap.
func (s *skyline) fill(order []int, limit float64, nodes int) ([]laid, bool) {
	f := &niches{sky: s, order: order, limit: limit, nodes: nodes}
	area, n := 0.0, 0
	for k := range s.kinds {
		s.left[k] = s.kinds[k].n
		n += s.kinds[k].n
		w := s.kinds[k].ways[0]
		area += w.l * w.w * float64(s.kinds[k].n)
	}
	bare := s.width*limit - area
	if bare < -exactCM*limit {
		return nil, false
	}
	f.levels = make([][]segment, 0, 2*n)
	f.whole = s.unitAcross > 0 && s.unit > 0 && bare < s.unitAcross*s.unit/2 &&
		max(s.width/s.unitAcross, limit/s.unit) < mostUnits
	if f.whole {
		for _, k := range s.kinds {
			a, b := k.ways[0], k.ways[len(k.ways)-1]
			f.across = append(f.across, [2]int{int(math.Round(a.w / s.unitAcross)), int(math.Round(b.w / s.unitAcross))})
			f.along = append(f.along, [2]int{int(math.Round(a.l / s.unit)), int(math.Round(b.l / s.unit))})
		}
	}
	ok := f.lay(0, n, []segment{{0, 0, s.width}}, bare+exactCM*limit)
	return f.now, ok
}

// lay fills the skyline of segs with the n left, with so much to stay bare.
func (f *niches) lay(depth, n int, segs []segment, bare float64) bool {
	if n == 0 {
		return true
	}
	if f.nodes--; f.nodes < 0 {
		return false
	}
	if depth == len(f.levels) {
		f.levels = append(f.levels, nil)
	}
	s := f.sky
	s.segs = segs
	at := 0
	if !f.whole {
		at = s.lowest()
	} else if at = f.narrowest(); at < 0 || !f.comesOut(segs, at) {
		return false
	}
	lo, hi := s.walls(at)
	seg, least := segs[at], f.least()
	if seg.w < least-sameCM { // nothing fits
		return f.raise(depth, n, segs, at, min(lo, hi), bare)
	}
	for round := range 2 { // what fills the niche comes first
		for _, k := range f.order {
			if s.left[k] == 0 {
				continue
			}
			for w, r := range s.kinds[k].ways {
				rest := seg.w - r.w
				if rest < -sameCM || seg.x+r.l > f.limit+sameCM || (round == 0) != (rest < sameCM) {
					continue
				}
				if rest >= sameCM && rest < least-sameCM && rest*min(r.l, hi) > bare {
					continue
				}
				s.left[k]--
				s.segs = append(f.levels[depth][:0], segs...)
				f.now = append(f.now, s.lay(at, k, w, false))
				f.levels[depth] = s.segs
				if f.lay(depth+1, n-1, s.segs, bare) {
					return true
				}
				f.now = f.now[:len(f.now)-1]
				s.left[k]++
				if f.nodes < 0 {
					return false
				}
			}
		}
	}
	return f.raise(depth, n, segs, at, min(lo, hi), bare)
}

// raise leaves the niche bare up to its lower wall.
func (f *niches) raise(depth, n int, segs []segment, at int, wall, bare float64) bool {
	if bare -= segs[at].w * wall; bare < 0 || math.IsInf(wall, 1) {
		return false
	}
	s := f.sky
	s.segs = append(f.levels[depth][:0], segs...)
	s.raise(at)
	f.levels[depth] = s.segs
	return f.lay(depth+1, n, s.segs, bare)
}

// least is the least width of what is left.
func (f *niches) least() float64 {
	least := math.Inf(1)
	for k := range f.sky.kinds {
		if f.sky.left[k] > 0 {
			for _, w := range f.sky.kinds[k].ways {
				least = min(least, w.w)
			}
		}
	}
	return least
}

// narrowest is the niche to be filled first: where nothing may stay bare each
// must be, and the narrowest leaves least choice. It is −1 where the rectangles
// left that fit into some niche do not fill it.
func (f *niches) narrowest() int {
	segs, best := f.sky.segs, -1
	for i := range segs {
		lo, hi := f.sky.walls(i)
		if lo <= 0 || hi <= 0 {
			continue
		}
		if deep := min(lo, hi); !math.IsInf(deep, 1) && !f.canFill(segs[i].w, deep) {
			return -1
		}
		if best < 0 || segs[i].w < segs[best].w {
			best = i
		}
	}
	return best
}

// canFill says whether rectangles no wider than so much have the area of a
// niche.
func (f *niches) canFill(wide, deep float64) bool {
	need := wide*deep - sameCM
	for k := range f.sky.kinds {
		for range f.sky.left[k] {
			if r := &f.sky.kinds[k].ways[0]; r.w <= wide+sameCM || f.sky.kinds[k].ways[len(f.sky.kinds[k].ways)-1].w <= wide+sameCM {
				if need -= r.l * r.w; need <= 0 {
					return true
				}
			}
		}
	}
	return need <= 0
}

// mostUnits bounds the sums looked at.
const mostUnits = 4096

// comesOut says whether what is left has widths that sum to the lowest niche's
// and lengths that sum to what is free beyond every segment. Where nothing may
// stay bare there is no lay otherwise.
func (f *niches) comesOut(segs []segment, at int) bool {
	s := f.sky
	niche := int(math.Round(segs[at].w / s.unitAcross))
	f.sumUp(niche, f.across)
	if !f.reached(niche) {
		return false
	}
	most := 0
	for _, g := range segs {
		most = max(most, int(math.Floor((f.limit-g.x)/s.unit+0.01)))
	}
	f.sumUp(most, f.along)
	for _, g := range segs {
		if !f.reached(int(math.Floor((f.limit-g.x)/s.unit + 0.01))) {
			return false
		}
	}
	return true
}

func (f *niches) reached(n int) bool { return n >= 0 && f.sums[n/64]&(1<<(n%64)) != 0 }

// sumUp finds the sums, up to most, of one measure of each rectangle left or of
// none; a rectangle that may lie in several ways counts in each.
func (f *niches) sumUp(most int, measures [][2]int) {
	f.sums = f.sums[:0]
	for range most/64 + 1 {
		f.sums = append(f.sums, 0)
	}
	f.sums[0] = 1
	for k, m := range measures {
		for range f.sky.left[k] {
			if len(f.sums) == 1 {
				f.sums[0] |= f.sums[0]<<m[0] | f.sums[0]<<m[1]
			} else {
				f.add(m[0], m[1])
			}
		}
	}
}

// add is one rectangle more, that measures a or b. From the last word down,
// those below are still as before it.
func (f *niches) add(a, b int) {
	for w := len(f.sums) - 1; w >= 0; w-- {
		v := f.sums[w] | f.shifted(w, a)
		if b != a {
			v |= f.shifted(w, b)
		}
		f.sums[w] = v
	}
}

// shifted is word w of the sums moved up by n.
func (f *niches) shifted(w, n int) uint64 {
	at, by := w-n/64, n%64
	if at < 0 {
		return 0
	}
	v := f.sums[at] << by
	if at > 0 && by > 0 {
		v |= f.sums[at-1] >> (64 - by)
	}
	return v
}
