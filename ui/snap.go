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

// pull is a move that lays an edge of the dragged piece against something: by
// `by` cm along the unit normal (NX, NY).
type pull struct{ nx, ny, by float64 }

// snap lays item i, wanted at a place, against selvedge, cut end and
// neighbours within reach, and says where it then lies. Two pulls in different
// directions are followed at most.
func snap(r *plan.Result, i int, want layout.Placement, reachCM float64) layout.Placement {
	p := r.Prepared.Problem
	q := layout.Placed(p.Items[i], want)
	first, ok := strongest(pulls(r, i, q, reachCM), nil, reachCM)
	if !ok {
		return want
	}
	want.X, want.Y = want.X+first.nx*first.by, want.Y+first.ny*first.by
	q = q.Translate(first.nx*first.by, first.ny*first.by)
	if second, ok := strongest(pulls(r, i, q, reachCM), &first, reachCM); ok {
		// Slide along the edge already reached until the second is reached too.
		tx, ty := -first.ny, first.nx
		s := second.by / (tx*second.nx + ty*second.ny)
		want.X, want.Y = want.X+tx*s, want.Y+ty*s
	}
	return want
}

// strongest is the shortest pull; with a first one, the shortest slide along it.
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
		if way < least && way <= reachCM*1.5 {
			best, least = u, way
		}
	}
	return best, !math.IsInf(least, 1)
}

func pulls(r *plan.Result, i int, q geometry.Polygon, reachCM float64) []pull {
	p, box := r.Prepared.Problem, q.Bounds()
	var out []pull
	add := func(u pull) {
		if math.Abs(u.by) <= reachCM {
			out = append(out, u)
		}
	}
	add(pull{1, 0, -box.MinX})
	add(pull{0, 1, -box.MinY})
	add(pull{0, 1, p.WidthCM - box.MaxY})
	far := reachCM + p.GapCM
	for j, it := range p.Items {
		if j == i {
			continue
		}
		other := layout.Placed(it, r.Lay.Placements[j])
		o := other.Bounds()
		if o.MinX > box.MaxX+far || o.MaxX < box.MinX-far || o.MinY > box.MaxY+far || o.MaxY < box.MinY-far {
			continue
		}
		for _, u := range edgePulls(q, other, p.GapCM+clearCM) {
			add(u)
		}
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
			out = append(out, pull{nx, ny, gap - off})
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
