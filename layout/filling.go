package layout

import "math"

// fillWhole looks for a lay that leaves no cloth bare at all, where the
// rectangles' area is that of a strip of a whole number of units: filling
// niches in many orders, each given up soon, along the cloth or across it. It
// ends when share of the time is used.
func (s *search) fillWhole(sky *skyline, share float64) {
	target, ok := sky.wholeLength(s.floor)
	if !ok {
		return
	}
	ways := [2]*skyline{sky, sky.turned(target)}
	ends := [2]float64{target, sky.width}
	for !s.done() && s.clock.spent() < share && s.clock.tick() {
		k := s.rng.IntN(2)
		nodes := int(300 * math.Pow(100, s.rng.Float64())) // most give up soon, some go deep
		ls, ok := ways[k].fill(s.randomOrder(sky), ends[k]+sameCM, nodes)
		if !ok {
			continue
		}
		if k == 1 {
			for i, l := range ls {
				ls[i].x, ls[i].y = l.y, l.x
			}
		}
		if l, ok := s.m.settle(sky.bodies(ls)); ok {
			s.best.offer(l)
		}
		return
	}
}

// wholeLength is the least length from low on, with the gap, at which the
// rectangles would leave nothing bare; false when none would.
func (s *skyline) wholeLength(low float64) (float64, bool) {
	if s.unit == 0 || s.unitAcross == 0 {
		return 0, false
	}
	area := 0.0
	for _, k := range s.kinds {
		area += k.ways[0].l * k.ways[0].w * float64(k.n)
	}
	length := math.Ceil((low+s.m.p.GapCM)/s.unit-0.01) * s.unit
	bare := s.width*length - area
	return length, math.Abs(bare) < s.unit*s.unitAcross/2
}

// turned is the strip of so much length with along and across exchanged.
func (s *skyline) turned(length float64) *skyline {
	t := &skyline{m: s.m, width: length, of: s.of, unit: s.unitAcross, unitAcross: s.unit}
	for _, k := range s.kinds {
		u := rectKind{n: k.n}
		for _, w := range k.ways {
			u.ways = append(u.ways, rectWay{w.form, w.w, w.l})
		}
		t.kinds = append(t.kinds, u)
	}
	t.left, t.rank = make([]int, len(t.kinds)), make([]int, len(t.kinds))
	return t
}

// randomOrder is the kinds by one of their measures, falling, made uncertain.
func (s *search) randomOrder(sky *skyline) []int {
	measure, noise := s.rng.IntN(4), 0.6*s.rng.Float64()
	return sortedBy(len(sky.kinds), func(k int) float64 {
		w := sky.kinds[k].ways[0]
		v := [4]float64{w.w, w.l, w.l * w.w, max(w.w, w.l)}[measure]
		return -math.Log(v) + noise*s.rng.NormFloat64()
	})
}
