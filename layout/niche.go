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
	at := s.lowest()
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
