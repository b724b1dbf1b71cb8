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
	all    []body // items, then flaws, which never move
	loose  []int  // items that may move
	weight []float32
	scale  []float64 // how much an item's overlap counts: big items more
	rows   [][]*pair // by form and form, as far as asked for
	widest float64   // along, of all forms
	best   [3]trial  // kept between moves
	hits   []int
	order  []int   // all, by where their boxes begin along
	others []other // what the item that is being moved may collide with, in that order
	local  []other // those of them near where it is being refined
}

// other is a body that the item being moved may collide with: its box with the
// gap, its place, and what a cm of overlap with it counts.
type other struct {
	x0, x1, y0, y1 float64
	x, y, counts   float64
	form           int32
}

// trial is a place tried for an item and its weighted overlap there.
type trial struct {
	b    body
	cost float64
}

func newSeparation(m *model, rng *rand.Rand, c *clock) *separation {
	s := &separation{m: m, rng: rng, clock: c}
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
	s.rows = make([][]*pair, len(m.forms))
	for _, f := range m.forms {
		s.widest = max(s.widest, f.box.Width()+2*m.p.GapCM)
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
	box := s.m.forms[b.form].box
	lo, hi := s.m.room(b.form)
	x := max(-box.MinX, min(b.x, s.length-box.MaxX))
	return s.m.body(b.form, x, max(lo, min(b.y, hi)))
}

// overlap of two bodies in cm, scaled by their sizes.
func (s *separation) overlap(i, j int) float64 {
	a, b := &s.all[i], &s.all[j]
	d := s.m.pair(a.form, b.form).depth(b.x-a.x, b.y-a.y, s.m.slack)
	return d * s.scale[i] * s.scale[j]
}

// gather makes ready for questions about item i: all others, by where they begin.
func (s *separation) gather(i int) {
	s.sortBodies()
	s.others = s.others[:0]
	n, gap := len(s.all), s.m.p.GapCM
	weight := s.weight[i*n : (i+1)*n]
	for _, j := range s.order {
		if j == i {
			continue
		}
		o := &s.all[j]
		s.others = append(s.others, other{
			o.box.MinX - gap, o.box.MaxX + gap, o.box.MinY - gap, o.box.MaxY + gap,
			o.x, o.y, float64(weight[j]) * s.scale[i] * s.scale[j], o.form,
		})
	}
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

// cost is the weighted overlap of c, an item gathered for; past limit it stops
// counting.
func (s *separation) cost(c *body, limit float64) float64 {
	// Those that begin too far left to reach c are skipped by halving.
	lo, hi := 0, len(s.others)
	for from := c.box.MinX - s.widest; lo < hi; {
		if mid := (lo + hi) / 2; s.others[mid].x0 < from {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return s.costOf(s.others[lo:], c, limit)
}

func (s *separation) costOf(others []other, c *body, limit float64) float64 {
	row := s.row(c.form)
	sum, slack := 0.0, s.m.slack
	for k := range others {
		o := &others[k]
		if o.x0 >= c.box.MaxX {
			break
		}
		if o.x1 <= c.box.MinX || o.y1 <= c.box.MinY || o.y0 >= c.box.MaxY {
			continue
		}
		pr := row[o.form]
		if pr == nil {
			pr = s.m.pair(c.form, o.form)
			row[o.form] = pr
		}
		if d := pr.depth(o.x-c.x, o.y-c.y, slack); d > 0 {
			if sum += d * o.counts; sum >= limit {
				return sum
			}
		}
	}
	return sum
}

func (s *separation) row(f int32) []*pair {
	if s.rows[f] == nil {
		s.rows[f] = make([]*pair, len(s.m.forms))
	}
	return s.rows[f]
}

// around keeps in local the others within reach of b's box.
func (s *separation) around(b *body, reach float64) {
	s.local = s.local[:0]
	x0, x1, y0, y1 := b.box.MinX-reach, b.box.MaxX+reach, b.box.MinY-reach, b.box.MaxY+reach
	for k := range s.others {
		o := &s.others[k]
		if o.x0 >= x1 {
			break
		}
		if o.x1 > x0 && o.y1 > y0 && o.y0 < y1 {
			s.local = append(s.local, *o)
		}
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
	gap := s.m.p.GapCM
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
