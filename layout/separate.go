package layout

import (
	"math"
	"math/rand/v2"
)

// separation is a strip of set length on which items may overlap, and what it
// takes to drive the overlap out: a weight for every pair, growing while the
// pair keeps colliding, so that the search leaves places it was stuck in.
type separation struct {
	m      *model
	rng    *rand.Rand
	clock  *clock
	length float64
	slack  float64 // overlap, in cm, that counts as none; below 0 the room asked for
	all    []body  // items, then flaws, which never move
	loose  []int   // items that may move
	weight []float32
	scale  []float64   // how much an item's overlap counts: big items more
	rows   [][]reading // by form and form, as far as asked for
	fast   []extent    // of every form
	widest float64     // along, of all forms
	hits   []int
	order  []int // all, by where their boxes begin along

	// Of the item that is being moved:
	item    int
	views   []view
	local   []neighbour // those near where it is being refined
	borders []line
	best    [refined]trial
}

// extent is a form's box about its place, and the places across the cloth.
type extent struct{ minX, maxX, minY, maxY, lo, hi, size float64 }

// trial is a place tried for an item, in its k-th form, and its weighted overlap there.
type trial struct {
	k    int
	x, y float64
	cost float64
}

func newSeparation(m *model, rng *rand.Rand, c *clock) *separation {
	s := &separation{m: m, rng: rng, clock: c, slack: m.slack}
	mean := math.Sqrt(m.area / float64(len(m.p.Items)))
	for i, it := range m.p.Items {
		s.scale = append(s.scale, math.Sqrt(m.forms[m.ofItem[i][0]].size/mean))
		if it.Pinned == nil {
			s.loose = append(s.loose, i)
		}
	}
	for _, f := range m.flaws {
		s.scale = append(s.scale, math.Sqrt(m.forms[f].size/mean))
	}
	s.rows = make([][]reading, len(m.forms))
	for i, f := range m.forms {
		s.widest = max(s.widest, f.box.Width()+2*m.p.GapCM)
		lo, hi := m.room(int32(i))
		s.fast = append(s.fast, extent{f.box.MinX, f.box.MaxX, f.box.MinY, f.box.MaxY, lo, hi, f.size})
	}
	return s
}

// load takes over bodies and a length; weights start afresh. Items past the
// end are pushed in.
func (s *separation) load(items []body, length float64) {
	s.all = append(s.all[:0], items...)
	for _, f := range s.m.flaws {
		s.all = append(s.all, s.m.body(f, 0, 0))
	}
	s.length = length
	for _, i := range s.loose {
		s.all[i] = s.within(s.all[i])
	}
	s.forget()
}

func (s *separation) forget() {
	n := len(s.all)
	if len(s.weight) != n*n {
		s.weight = make([]float32, n*n)
	}
	for k := range s.weight {
		s.weight[k] = 1
	}
}

// within is b moved by as little as brings it onto the strip.
func (s *separation) within(b body) body {
	x, y := s.clamp(b.form, b.x, b.y)
	return s.m.body(b.form, x, y)
}

// clamp is the place on the strip nearest to (x, y) for a form.
func (s *separation) clamp(f int32, x, y float64) (float64, float64) {
	e := &s.fast[f]
	x, y = max(-e.minX, min(x, s.length-e.maxX)), max(e.lo, min(y, e.hi))
	if s.m.forms[f].tie == nil {
		return x, y
	}
	return s.m.snappedWithin(f, x, y, s.length)
}

// overlap of two bodies in cm, scaled by their sizes.
func (s *separation) overlap(i, j int) float64 {
	a, b := &s.all[i], &s.all[j]
	r := &s.row(a.form)[b.form]
	if r.pr == nil {
		*r = s.m.reading(a.form, b.form)
	}
	dx, dy := b.x-a.x, b.y-a.y
	dx, dy = r.a*dx+r.b*dy, r.c*dx+r.d*dy
	if r.f == nil {
		return r.pr.depth(dx, dy, s.slack) * s.scale[i] * s.scale[j]
	}
	if !r.pr.boxed(dx, dy, s.slack) {
		return 0
	}
	return r.f.depth(dx, dy, s.slack) * s.scale[i] * s.scale[j]
}

// sortBodies brings order up to date; one body moved costs one pass.
func (s *separation) sortBodies() {
	if len(s.order) != len(s.all) {
		s.order = sortedBy(len(s.all), func(i int) float64 { return s.all[i].box.MinX })
		return
	}
	for k := 1; k < len(s.order); k++ {
		i := s.order[k]
		x := s.all[i].box.MinX
		at := k
		for ; at > 0 && s.all[s.order[at-1]].box.MinX > x; at-- {
			s.order[at] = s.order[at-1]
		}
		s.order[at] = i
	}
}

// measure is the unweighted overlap of all pairs, and collects in hits the
// loose items that collide.
func (s *separation) measure() float64 {
	total := 0.0
	hit := make([]bool, len(s.all))
	s.eachHit(func(i, j int, d float64) {
		total += d
		hit[i], hit[j] = true, true
	})
	s.hits = s.hits[:0]
	for _, i := range s.loose {
		if hit[i] {
			s.hits = append(s.hits, i)
		}
	}
	return total
}

// eachHit calls f for every colliding pair with a loose item.
func (s *separation) eachHit(f func(i, j int, d float64)) {
	gap := s.m.p.GapCM - s.slack
	s.sortBodies()
	order := s.order
	items := s.m.p.Items
	stays := func(i int) bool { return i >= len(items) || items[i].Pinned != nil }
	for k, i := range order {
		a := &s.all[i].box
		for _, j := range order[k+1:] {
			b := &s.all[j].box
			if b.MinX >= a.MaxX+gap {
				break
			}
			if b.MinY >= a.MaxY+gap || a.MinY >= b.MaxY+gap || stays(i) && stays(j) {
				continue
			}
			if d := s.overlap(i, j); d > 0 {
				f(i, j, d)
			}
		}
	}
}

// reweigh makes colliding pairs count more, the worst twice as much, and the
// others slowly less.
func (s *separation) reweigh() {
	type hit struct {
		k, l int
		d    float64
	}
	var hits []hit
	most := 0.0
	n := len(s.all)
	s.eachHit(func(i, j int, d float64) {
		hits = append(hits, hit{i*n + j, j*n + i, d})
		most = max(most, d)
	})
	const fade = 0.95
	for k, w := range s.weight {
		if w > 1 {
			s.weight[k] = max(1, w*fade)
		}
	}
	for _, h := range hits {
		w := float64(s.weight[h.k]) / fade * (1.2 + 0.8*h.d/most)
		s.weight[h.k] = float32(min(1e12, max(w, 1.2)))
		s.weight[h.l] = s.weight[h.k]
	}
}

// pass gives every colliding item, in random order, the best place found.
func (s *separation) pass() {
	s.rng.Shuffle(len(s.hits), func(a, b int) { s.hits[a], s.hits[b] = s.hits[b], s.hits[a] })
	for _, i := range s.hits {
		if s.clock.over() {
			return
		}
		s.moveItem(i)
	}
}

// separate runs until nothing overlaps (true), or until patience is out: then
// the state of least overlap is left in place, and its overlap returned.
func (s *separation) separate(strikes, patience int) (bool, float64) {
	least := s.measure()
	if least == 0 {
		return true, 0
	}
	kept := append([]body(nil), s.all...)
	for strike := 0; strike < strikes; {
		began := least
		for idle := 0; idle < patience; {
			if !s.clock.tick() {
				s.all = append(s.all[:0], kept...)
				return false, least
			}
			s.pass()
			loss := s.measure()
			if loss == 0 {
				return true, 0
			}
			if loss < least {
				if loss < 0.98*least {
					idle = 0
				}
				least = loss
				kept = append(kept[:0], s.all...)
			} else {
				idle++
			}
			s.reweigh()
		}
		s.all = append(s.all[:0], kept...)
		s.measure()
		if least < 0.98*began {
			strike = 0
		} else {
			strike++
		}
	}
	return false, least
}
