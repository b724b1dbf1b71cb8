package layout

import "math"

// Places tried for a colliding item: anywhere, near where it is, and how many
// of the best are refined.
const (
	triesAnywhere = 40
	triesNear     = 25
	refined       = 3
)

// moveItem takes item i to the place of least weighted overlap among those
// sampled and refined, if it is better than where it is.
func (s *separation) moveItem(i int) {
	s.gather(i)
	here := trial{b: s.all[i]}
	here.cost = s.cost(&here.b, math.Inf(1))
	if here.cost == 0 {
		return
	}
	top := s.best[:0]
	forms := s.m.ofItem[i]
	for k := 0; k < triesAnywhere+triesNear; k++ {
		if k%8 == 0 && s.clock.over() {
			return
		}
		limit := math.Inf(1)
		if len(top) == refined {
			limit = top[refined-1].cost
		}
		var b body
		if k < triesNear {
			b = s.near(here.b, forms)
		} else {
			b = s.anywhere(forms[s.rng.IntN(len(forms))])
		}
		if c := s.cost(&b, limit); c < limit {
			top = insert(top, trial{b, c})
		}
	}
	best := s.refine(here, 0.05, 0.001)
	for _, t := range top {
		if s.clock.over() {
			return
		}
		if t := s.refine(t, 0.05, 0.005); t.cost < best.cost {
			best = t
		}
	}
	if best.cost > 0 {
		best = s.refine(best, 0.004, 1e-5)
	}
	best = s.snug(best)
	if best.cost < here.cost {
		s.all[i] = best.b
	}
}

// insert keeps the refined best trials in rising order of cost.
func insert(top []trial, t trial) []trial {
	if len(top) < refined {
		top = append(top, t)
	} else {
		top[refined-1] = t
	}
	for k := len(top) - 1; k > 0 && top[k].cost < top[k-1].cost; k-- {
		top[k], top[k-1] = top[k-1], top[k]
	}
	return top
}

func (s *separation) anywhere(f int32) body {
	box := s.m.forms[f].box
	lo, hi := s.m.room(f)
	x := -box.MinX + s.rng.Float64()*max(0, s.length-box.Width())
	return s.m.body(f, x, lo+s.rng.Float64()*(hi-lo))
}

// near is a place within half the item's size, in a form that shares the
// centre of its box.
func (s *separation) near(b body, forms []int32) body {
	f := b.form
	if len(forms) > 1 && s.rng.IntN(2) == 0 {
		f = forms[s.rng.IntN(len(forms))]
	}
	box := s.m.forms[f].box
	cx, cy := (b.box.MinX+b.box.MaxX)/2, (b.box.MinY+b.box.MaxY)/2
	r := s.m.forms[f].size
	x := cx - (box.MinX+box.MaxX)/2 + (s.rng.Float64()-0.5)*r
	y := cy - (box.MinY+box.MaxY)/2 + (s.rng.Float64()-0.5)*r
	return s.within(s.m.body(f, x, y))
}

// refine walks t downhill along the axes and diagonals, in steps that begin and
// end as shares of the item's size.
func (s *separation) refine(t trial, from, to float64) trial {
	size := s.m.forms[t.b.form].size
	sx, sy, end := from*size, from*size, to*size
	const reach = 0.15 // of the size: so far round about the others are at hand
	at := t.b
	s.around(&at, reach*size)
	for (sx > end || sy > end) && t.cost > 0 {
		var dx, dy float64
		switch s.rng.IntN(4) {
		case 0:
			dx = sx
		case 1:
			dy = sy
		case 2:
			dx, dy = sx, sy
		default:
			dx, dy = sx, -sy
		}
		better := false
		for range 2 {
			b := s.within(s.m.body(t.b.form, t.b.x+dx, t.b.y+dy))
			if math.Abs(b.x-at.x) > reach*size || math.Abs(b.y-at.y) > reach*size {
				at = b
				s.around(&at, reach*size)
			}
			if c := s.costOf(s.local, &b, t.cost); c < t.cost {
				t, better = trial{b, c}, true
				break
			}
			dx, dy = -dx, -dy
		}
		grow := 0.5
		if better {
			grow = 1.2
		}
		if dx != 0 {
			sx *= grow
		}
		if dy != 0 {
			sy *= grow
		}
	}
	return t
}

// snug moves t along each axis to where overlap ends exactly. Along a line the
// depth of a convex pair is a hill on a span, so the least sum is at the end of
// a span or of the strip; those nearest on either side are tried.
func (s *separation) snug(t trial) trial {
	for round := 0; round < 2 && t.cost > 0; round++ {
		before := t.cost
		box := s.m.forms[t.b.form].box
		lo, hi := s.m.room(t.b.form)
		for _, x := range s.ends(&t.b, true) {
			x = max(-box.MinX, min(x, s.length-box.MaxX))
			b := s.m.body(t.b.form, x, t.b.y)
			if c := s.cost(&b, t.cost); c < t.cost {
				t = trial{b, c}
			}
		}
		for _, y := range s.ends(&t.b, false) {
			b := s.m.body(t.b.form, t.b.x, max(lo, min(y, hi)))
			if c := s.cost(&b, t.cost); c < t.cost {
				t = trial{b, c}
			}
		}
		if t.cost >= before {
			break
		}
	}
	return t
}

// ends is the two nearest ends of spans on either side of b along an axis.
func (s *separation) ends(b *body, alongX bool) [4]float64 {
	at := b.y
	if alongX {
		at = b.x
	}
	inf := math.Inf(1)
	r0, r1, l0, l1 := inf, inf, -inf, -inf
	add := func(v float64) {
		switch {
		case v > at && v < r0:
			r0, r1 = v, r0
		case v > at && v < r1:
			r1 = v
		case v < at && v > l0:
			l0, l1 = v, l0
		case v < at && v > l1:
			l1 = v
		}
	}
	margin := s.m.forms[b.form].size / 2
	for j := range s.others {
		o := &s.others[j]
		if o.x0 >= b.box.MaxX+margin {
			break
		}
		if o.x1+margin <= b.box.MinX || o.y1+margin <= b.box.MinY || o.y0 >= b.box.MaxY+margin {
			continue
		}
		pr := s.m.pair(o.form, b.form)
		for k := range pr.parts {
			if alongX {
				if lo, hi, ok := pr.parts[k].alongX(b.y - o.y); ok {
					add(lo + o.x)
					add(hi + o.x)
				}
			} else if lo, hi, ok := pr.parts[k].alongY(b.x - o.x); ok {
				add(lo + o.y)
				add(hi + o.y)
			}
		}
	}
	return [4]float64{l0, r0, l1, r1}
}
