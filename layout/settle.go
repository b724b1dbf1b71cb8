package layout

import (
	"math"

	"ellwand/geometry"
)

// placeGridCM is the grid of positions in lays that are given out, so that a
// position written with three decimals is the position itself.
const placeGridCM = 0.001

// settle puts bodies that hardly overlap on the grid without any overlap: from
// left to right each goes to the nearest grid place that is free, or as far
// right as it must. It fails when the exact check still finds a fault.
func (m *model) settle(all []body) (Lay, bool) {
	if l := m.rounded(all); Check(m.p, l) == nil {
		return l, true
	}
	s := m.fixed()
	l := Lay{WidthCM: m.p.WidthCM, Placements: make([]Placement, len(all))}
	for i, it := range m.p.Items {
		if it.Pinned != nil {
			l.Placements[i] = *it.Pinned
		}
	}
	for _, i := range sortedBy(len(all), func(i int) float64 { return all[i].box.MinX }) {
		if m.p.Items[i].Pinned != nil {
			continue
		}
		b, ok := s.nearest(all[i])
		if !ok || m.cancelled() && m.heavy() {
			return Lay{}, false
		}
		s.bodies = append(s.bodies, b)
		f := &m.forms[b.form]
		l.Placements[i] = Placement{f.turn, f.flip, b.x, b.y}
	}
	l.LengthCM = ReachCM(m.p, l.Placements)
	return l, Check(m.p, l) == nil
}

// rounded is bodies each at the nearest grid place.
func (m *model) rounded(all []body) Lay {
	s := sheet{m: m}
	l := Lay{WidthCM: m.p.WidthCM, Placements: make([]Placement, len(all))}
	for i, it := range m.p.Items {
		if it.Pinned != nil {
			l.Placements[i] = *it.Pinned
			continue
		}
		b := s.onGrid(all[i], all[i].x, all[i].y)
		f := &m.forms[b.form]
		l.Placements[i] = Placement{f.turn, f.flip, b.x, b.y}
	}
	l.LengthCM = ReachCM(m.p, l.Placements)
	return l
}

// nearest is b at the nearest grid place that is free of the sheet's bodies.
func (s *sheet) nearest(b body) (body, bool) {
	for _, k := range [][2]float64{{0, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, 0}, {-1, -1}, {-1, 1}, {1, -1}, {1, 1}} {
		if c := s.onGrid(b, b.x+k[0]*placeGridCM, b.y+k[1]*placeGridCM); s.free(c) {
			return c, true
		}
	}
	best, found := body{}, false
	for _, dy := range []float64{0, -1, 1, -2, 2} {
		c := s.onGrid(b, b.x, b.y+dy*placeGridCM)
		for range 4 {
			x := s.firstX(c.form, c.x, c.y)
			c = s.onGrid(c, math.Ceil(x/placeGridCM-1e-6)*placeGridCM, c.y)
			if s.free(c) {
				if !found || c.x < best.x {
					best, found = c, true
				}
				break
			}
			c = s.onGrid(c, s.m.nextX(c.form, c.x+placeGridCM), c.y)
		}
	}
	return best, found
}

// onGrid is b at the grid place nearest to (x, y), but never off the cloth.
func (s *sheet) onGrid(b body, x, y float64) body {
	box := s.m.forms[b.form].box
	lo, hi := s.m.room(b.form)
	if l, h := upToGrid(lo), downToGrid(hi); l <= h { // else only a place off the grid fits
		lo, hi = l, h
	}
	return s.m.body(b.form, math.Max(upToGrid(-box.MinX), toGrid(x)), min(hi, max(lo, toGrid(y))))
}

// upToGrid and downToGrid are the grid places next to v; what the check rounds
// away counts for nothing.
func upToGrid(v float64) float64 {
	if g := toGrid(v); g >= v-checkGridCM/4 {
		return g
	}
	return toGrid(v + placeGridCM/2)
}

func downToGrid(v float64) float64 { return -upToGrid(-v) }

// toGrid divides by a whole number, so that the result is the float that three
// written decimals are read as.
func toGrid(v float64) float64 { return math.Round(v/placeGridCM) / math.Round(1/placeGridCM) }

// manyCorners is the product of two outlines' corners above which they are kept
// clearly apart rather than touching.
const manyCorners = 900

// free says whether c keeps clear of every body: by the half-planes where they
// leave no doubt, by the check's own tests where they do.
func (s *sheet) free(c body) bool {
	const doubt = 3 * checkGridCM
	gap := s.m.p.GapCM
	var q geometry.Polygon
	for i := range s.bodies {
		o := &s.bodies[i]
		if o.box.MaxX+gap <= c.box.MinX-doubt || c.box.MaxX+gap <= o.box.MinX-doubt ||
			o.box.MaxY+gap <= c.box.MinY-doubt || c.box.MaxY+gap <= o.box.MinY-doubt {
			continue
		}
		room := s.m.pair(o.form, c.form).clearance(c.x-o.x, c.y-o.y)
		if room >= doubt {
			continue
		}
		// Exact tests of touching outlines of many corners take long: a grid
		// step further on there is no doubt.
		if room < -doubt || len(s.m.forms[o.form].poly)*len(s.m.forms[c.form].poly) > manyCorners {
			return false
		}
		if q == nil {
			q = gridded(s.m.forms[c.form].poly.Translate(c.x, c.y))
		}
		if s.m.clash(o, q) {
			return false
		}
	}
	return true
}

// clash says, by the check's own tests, whether an outline in grid units is
// nearer to a body than may be.
func (m *model) clash(o *body, q geometry.Polygon) bool {
	at := gridded(m.forms[o.form].poly.Translate(o.x, o.y))
	if m.forms[o.form].ground {
		return overlaps(at, q)
	}
	return m.p.faultBetween(0, 0, at, q) != nil
}

// bodiesOf is a lay's placements as bodies.
func (m *model) bodiesOf(l Lay) []body {
	all := make([]body, len(l.Placements))
	for i, pl := range l.Placements {
		if m.p.Items[i].Pinned != nil {
			all[i] = m.pin(i)
			continue
		}
		q := Placed(m.p.Items[i], pl)
		key := shapeKey(q)
		f := m.ofItem[i][0]
		for _, g := range m.ofItem[i] {
			if shapeKey(m.forms[g].poly) == key {
				f = g
			}
		}
		b, c := q.Bounds(), m.forms[f].box
		all[i] = m.body(f, b.MinX-c.MinX, b.MinY-c.MinY)
	}
	return all
}
