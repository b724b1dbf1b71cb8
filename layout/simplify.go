package layout

import (
	"context"
	"math"

	"ellwand/geometry"
)

// simpler is a polygon with fewer corners that holds q: hollow corners are
// filled and blunt outward corners sharpened, least added area first, until
// the given share of the area is added in all. Shapes of few corners stay as they are.
// What is laid clear of it is clear of q. Once ctx is done it stops short.
func simpler(ctx context.Context, q geometry.Polygon, share float64) geometry.Polygon {
	const few = 16
	out := withoutFlatCorners(q)
	if len(out) <= few {
		return out
	}
	left := share * q.Area()
	for len(out) > few && ctx.Err() == nil {
		best, cost, at := -1, left, geometry.Point{}
		for i := range out {
			if c, v := dropCost(out, i); c < cost && growsClear(out, i, v) {
				best, cost, at = i, c, v
			}
		}
		if best < 0 {
			return out
		}
		left -= cost
		out = dropEdge(out, best, at)
	}
	return out
}

// dropCost is the area added when the edge after corner i is dropped, and the
// corner that stands for its two ends; infinite where it cannot be.
func dropCost(q geometry.Polygon, i int) (float64, geometry.Point) {
	n := len(q)
	a, b, c, d := q[(i+n-1)%n], q[i], q[(i+1)%n], q[(i+2)%n]
	never := math.Inf(1)
	if x := cross(a, b, c); x <= 0 { // b is hollow: fill it, c stays
		return -x / 2, c
	}
	if cross(b, c, d) <= 0 {
		return never, c
	}
	// Both ends point outward: lengthen the edges before and after to meet.
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, c.X-d.X, c.Y-d.Y
	det := vx*uy - ux*vy
	if det >= -1e-9*(math.Hypot(ux, uy)*math.Hypot(vx, vy)) && det <= 1e-9*(math.Hypot(ux, uy)*math.Hypot(vx, vy)) {
		return never, c
	}
	t := (vx*(c.Y-b.Y) - vy*(c.X-b.X)) / det
	s := (ux*(c.Y-b.Y) - uy*(c.X-b.X)) / det
	if t <= 0 || s <= 0 {
		return never, c
	}
	at := geometry.Point{X: b.X + t*ux, Y: b.Y + t*uy}
	return math.Abs(cross(b, at, c)) / 2, at
}

// growsClear says whether the triangle added over the edge after corner i, with
// its tip at v, or over the hollow corner i, meets nothing else of q.
func growsClear(q geometry.Polygon, i int, v geometry.Point) bool {
	n := len(q)
	a, b, c := q[i], v, q[(i+1)%n]
	if before := q[(i+n-1)%n]; cross(before, a, c) <= 0 {
		b = before
	}
	if cross(a, b, c) < 0 {
		b, c = c, b
	}
	for k, u := range q {
		w := q[(k+1)%n]
		if u != a && u != b && u != c && cross(a, b, u) >= 0 && cross(b, c, u) >= 0 && cross(c, a, u) >= 0 {
			return false
		}
		for _, e := range [3][2]geometry.Point{{a, b}, {b, c}, {c, a}} {
			if cross(e[0], e[1], u)*cross(e[0], e[1], w) < 0 && cross(u, w, e[0])*cross(u, w, e[1]) < 0 {
				return false
			}
		}
	}
	return true
}

func dropEdge(q geometry.Polygon, i int, at geometry.Point) geometry.Polygon {
	next := make(geometry.Polygon, 0, len(q)-1)
	j := (i + 1) % len(q)
	for k, v := range q {
		switch k {
		case i:
		case j:
			next = append(next, at)
		default:
			next = append(next, v)
		}
	}
	return next
}
