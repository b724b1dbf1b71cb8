package layout

import "math"

// Places tried for a colliding item: near where it is, anywhere, and how many
// of the best are refined.
const (
	triesNear     = 9
	triesAnywhere = 15
	refined       = 3
)

// moveItem takes item i to the place of least weighted overlap among those
// sampled and refined, if it is better than where it is.
func (s *separation) moveItem(i int) {
	s.gather(i)
	at := s.all[i]
	forms := s.m.ofItem[i]
	here := trial{x: at.x, y: at.y}
	for forms[here.k] != at.form {
		here.k++
	}
	slack := s.slack
	here.cost = s.seen(here.k).cost(at.x, at.y, math.Inf(1), slack)
	if here.cost == 0 || s.m.cancelled() {
		return
	}
	top := s.best[:0]
	limit := math.Inf(1)
	near := triesNear + 3*len(forms)
	for n := range near + triesAnywhere + 5*len(forms) {
		if n%8 == 0 && s.clock.over() {
			return
		}
		t := trial{k: here.k}
		if n < near {
			s.near(&t, &here, forms)
		} else {
			s.anywhere(&t, forms)
		}
		if t.cost = s.seen(t.k).cost(t.x, t.y, limit, slack); t.cost < limit {
			if top = insert(top, t); len(top) == refined {
				limit = top[refined-1].cost
			}
		}
	}
	best := s.refine(here, 0.05, 0.01)
	for _, t := range top {
		if s.clock.over() {
			return
		}
		if t := s.refine(t, 0.05, 0.01); t.cost < best.cost {
			best = t
		}
	}
	if best = s.snug(best); best.cost < here.cost && !s.m.cancelled() {
		s.all[i] = s.m.body(forms[best.k], best.x, best.y)
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

// anywhere is any place on the strip, in any form.
func (s *separation) anywhere(t *trial, forms []int32) {
	if len(forms) > 1 {
		t.k = s.rng.IntN(len(forms))
	}
	e := &s.fast[forms[t.k]]
	t.x = -e.minX + s.rng.Float64()*max(0, s.length-e.maxX+e.minX)
	t.y = e.lo + s.rng.Float64()*(e.hi-e.lo)
	if f := forms[t.k]; s.m.forms[f].tie != nil {
		t.x, t.y = s.clamp(f, t.x, t.y)
	}
}

// near is a place within half the item's size, in a form that shares the
// centre of its box.
func (s *separation) near(t *trial, here *trial, forms []int32) {
	if len(forms) > 1 && s.rng.IntN(2) == 0 {
		t.k = s.rng.IntN(len(forms))
	}
	a, b := &s.fast[forms[here.k]], &s.fast[forms[t.k]]
	t.x = here.x + (a.minX+a.maxX-b.minX-b.maxX)/2 + (s.rng.Float64()-0.5)*b.size
	t.y = here.y + (a.minY+a.maxY-b.minY-b.maxY)/2 + (s.rng.Float64()-0.5)*b.size
	t.x, t.y = s.clamp(forms[t.k], t.x, t.y)
}

const nearby = 0.15 // of an item's size: so far round about the others are at hand

// refine walks t downhill along the axes and diagonals, in steps that begin and
// end as shares of the item's size.
func (s *separation) refine(t trial, from, to float64) trial {
	v := s.seen(t.k)
	size, slack := s.fast[v.form].size, s.slack
	sx, sy, end := from*size, from*size, to*size
	atX, atY := t.x, t.y
	s.around(v, atX, atY, nearby*size)
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
			x, y := s.clamp(v.form, t.x+dx, t.y+dy)
			if math.Abs(x-atX) > nearby*size || math.Abs(y-atY) > nearby*size {
				atX, atY = x, y
				s.around(v, atX, atY, nearby*size)
			}
			if c := costAmong(s.local, x, y, t.cost, slack); c < t.cost {
				t.x, t.y, t.cost, better = x, y, c, true
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

// snug moves t to where it just touches others. The weighted overlap is made of
// planes, so it is least at a corner between them: those where two of the
// borders nearby cross, or straight out of an overlap, are tried.
func (s *separation) snug(t trial) trial {
	v := s.seen(t.k)
	size, slack := s.fast[v.form].size, s.slack
	far := 0.25 * size
	for round := 0; round < 4 && t.cost > 0; round++ {
		s.around(v, t.x, t.y, 0.3*size)
		lines := s.lines(t.x, t.y, 0.03*size)
		x0, y0, before := t.x, t.y, t.cost
		try := func(x, y float64) {
			if math.Abs(x-x0) > far || math.Abs(y-y0) > far {
				return
			}
			x, y = s.clamp(v.form, x, y)
			if c := costAmong(s.local, x, y, t.cost, slack); c < t.cost {
				t.x, t.y, t.cost = x, y, c
			}
		}
		for i := range lines {
			a := &lines[i]
			if a.depth > 0 {
				try(x0+a.nx*a.depth, y0+a.ny*a.depth)
				if math.Abs(a.nx) > 0.05 {
					try(x0+a.depth/a.nx, y0)
				}
				if math.Abs(a.ny) > 0.05 {
					try(x0, y0+a.depth/a.ny)
				}
			}
			for j := range lines[:i] {
				b := &lines[j]
				det := a.nx*b.ny - a.ny*b.nx
				if math.Abs(det) < 0.02 {
					continue
				}
				try((a.c*b.ny-b.c*a.ny)/det, (a.nx*b.c-b.nx*a.c)/det)
			}
		}
		if t.cost > 0.999*before {
			break
		}
	}
	return t
}
