package ui

import (
	"math"

	"ellwand/geometry"
	"ellwand/layout"
	"ellwand/plan"
)

// clearCM is left between a snapped piece and its neighbour, so that rounding
// never makes them overlap; it is a ten-thousandth of what shears can follow.
const clearCM = 1e-5

// pull is a move that lays an edge of what is dragged against something: by
// `by` cm along the unit normal (NX, NY). An aligning one only brings an edge in
// line with another piece's, far off perhaps.
type pull struct {
	nx, ny, by float64
	guide      guide
	aligning   bool
}

// guide is the line that a dragged piece has come to, on the cloth in cm.
type guide struct{ from, to geometry.Point }

// snap lays item i, wanted at a place, against selvedge, cut end and
// neighbours within reach, and says where it then lies.
func snap(r *plan.Result, i int, want layout.Placement, reachCM float64) layout.Placement {
	to, _ := snapAll(r, places{i: want}, reachCM)
	return to[i]
}

// snapAll is snap for several pieces that keep to each other, with the lines
// they have come to. Two pulls in different directions are followed at most.
func snapAll(r *plan.Result, want places, reachCM float64) (places, []guide) {
	first, ok := strongest(pulls(r, want, reachCM), nil, reachCM)
	if !ok {
		return want, nil
	}
	at := moved(want, first.nx*first.by, first.ny*first.by)
	second, ok := strongest(pulls(r, at, reachCM), &first, reachCM)
	if !ok {
		return at, []guide{first.guide}
	}
	// Slide along the edge already reached until the second is reached too.
	tx, ty := -first.ny, first.nx
	s := second.by / (tx*second.nx + ty*second.ny)
	return moved(at, tx*s, ty*s), []guide{first.guide, second.guide}
}

func moved(to places, dx, dy float64) places {
	out := places{}
	for i, at := range to {
		at.X, at.Y = at.X+dx, at.Y+dy
		out[i] = at
	}
	return out
}

// strongest is the shortest pull; with a first one, the shortest slide along it.
// One that aligns is followed only where there is no other.
func strongest(all []pull, first *pull, reachCM float64) (pull, bool) {
	best, least := pull{}, math.Inf(1)
	for _, u := range all {
		way := math.Abs(u.by)
		if first != nil {
			across := -first.ny*u.nx + first.nx*u.ny
			if math.Abs(across) < 0.2 {
				continue
			}
			way = math.Abs(u.by / across)
		}
		if way > reachCM*1.5 {
			continue
		}
		if u.aligning {
			way += 10 * reachCM
		}
		if way < least {
			best, least = u, way
		}
	}
	return best, !math.IsInf(least, 1)
}

// pulls are the moves within reach for pieces held at `at`.
func pulls(r *plan.Result, at places, reachCM float64) []pull {
	p := r.Prepared.Problem
	var out []pull
	add := func(u pull) {
		if math.Abs(u.by) <= reachCM {
			out = append(out, u)
		}
	}
	held := map[int]geometry.Polygon{}
	all := nothing()
	for i, pl := range at {
		held[i] = layout.Placed(p.Items[i], pl)
		all = joined(all, held[i].Bounds())
	}
	along := func(y float64) guide {
		return guide{geometry.Point{X: all.MinX - 20, Y: y}, geometry.Point{X: all.MaxX + 20, Y: y}}
	}
	add(pull{nx: 1, by: -all.MinX, guide: guide{geometry.Point{}, geometry.Point{Y: p.WidthCM}}})
	add(pull{ny: 1, by: -all.MinY, guide: along(0)})
	add(pull{ny: 1, by: p.WidthCM - all.MaxY, guide: along(p.WidthCM)})
	far := reachCM + p.GapCM
	for j, it := range p.Items {
		if _, own := held[j]; own {
			continue
		}
		other := layout.Placed(it, r.Lay.Placements[j])
		o := other.Bounds()
		for _, u := range alignPulls(all, o) {
			add(u)
		}
		for _, q := range held {
			if box := q.Bounds(); o.MinX > box.MaxX+far || o.MaxX < box.MinX-far || o.MinY > box.MaxY+far || o.MaxY < box.MinY-far {
				continue
			}
			for _, u := range edgePulls(q, other, p.GapCM+clearCM) {
				add(u)
			}
		}
	}
	return out
}

// alignPulls bring the ends and sides of a box in line with those of another.
func alignPulls(a, o geometry.Rect) []pull {
	var out []pull
	upright := func(from, to float64) pull {
		return pull{nx: 1, by: to - from, aligning: true,
			guide: guide{geometry.Point{X: to, Y: min(a.MinY, o.MinY)}, geometry.Point{X: to, Y: max(a.MaxY, o.MaxY)}}}
	}
	level := func(from, to float64) pull {
		return pull{ny: 1, by: to - from, aligning: true,
			guide: guide{geometry.Point{X: min(a.MinX, o.MinX), Y: to}, geometry.Point{X: max(a.MaxX, o.MaxX), Y: to}}}
	}
	for _, from := range []float64{a.MinX, a.MaxX} {
		out = append(out, upright(from, o.MinX), upright(from, o.MaxX))
	}
	for _, from := range []float64{a.MinY, a.MaxY} {
		out = append(out, level(from, o.MinY), level(from, o.MaxY))
	}
	return out
}

// edgePulls are the moves that lay an edge of q along an edge of other, gap
// apart. Both outlines run counter-clockwise, so edges that face each other run
// opposite ways.
func edgePulls(q, other geometry.Polygon, gap float64) []pull {
	var out []pull
	for k, a := range q {
		b := q[(k+1)%len(q)]
		ux, uy, length := direction(a, b)
		if length < 1 {
			continue
		}
		for m, c := range other {
			d := other[(m+1)%len(other)]
			vx, vy, l := direction(c, d)
			if l < 1 || ux*vx+uy*vy > -0.99996 {
				continue
			}
			// The outward normal of edge c-d, and how far a-b lies from it.
			nx, ny := vy, -vx
			off := math.Min((a.X-c.X)*nx+(a.Y-c.Y)*ny, (b.X-c.X)*nx+(b.Y-c.Y)*ny)
			from, to := (b.X-c.X)*vx+(b.Y-c.Y)*vy, (a.X-c.X)*vx+(a.Y-c.Y)*vy
			if math.Min(to, l)-math.Max(from, 0) < 0.5 {
				continue
			}
			out = append(out, pull{nx: nx, ny: ny, by: gap - off, guide: guide{c, d}})
		}
	}
	return out
}

func direction(a, b geometry.Point) (ux, uy, length float64) {
	length = math.Hypot(b.X-a.X, b.Y-a.Y)
	if length == 0 {
		return 0, 0, 0
	}
	return (b.X - a.X) / length, (b.Y - a.Y) / length, length
}
