package layout

import (
	"slices"

	"ellwand/geometry"
)

func cross(o, a, b geometry.Point) float64 {
	return (a.X-o.X)*(b.Y-o.Y) - (a.Y-o.Y)*(b.X-o.X)
}

// convexParts divides a simple counter-clockwise polygon into convex ones that
// cover it: ears are clipped, then triangles joined again while the union
// stays convex.
func convexParts(q geometry.Polygon) []geometry.Polygon {
	q = withoutFlatCorners(q)
	if isConvex(q) {
		return []geometry.Polygon{q}
	}
	return joinConvex(clipEars(q))
}

func isConvex(q geometry.Polygon) bool {
	n := len(q)
	for i := range q {
		if cross(q[i], q[(i+1)%n], q[(i+2)%n]) < -flat(q[i], q[(i+1)%n], q[(i+2)%n]) {
			return false
		}
	}
	return true
}

// flat is the cross product below which three points count as on one line:
// within 1e-9 of their span.
func flat(a, b, c geometry.Point) float64 {
	dx, dy, ex, ey := b.X-a.X, b.Y-a.Y, c.X-b.X, c.Y-b.Y
	return 1e-9 * (dx*dx + dy*dy + ex*ex + ey*ey)
}

func withoutFlatCorners(q geometry.Polygon) geometry.Polygon {
	var out geometry.Polygon
	n := len(q)
	for i := range q {
		a, b, c := q[(i+n-1)%n], q[i], q[(i+1)%n]
		if x := cross(a, b, c); x > flat(a, b, c) || x < -flat(a, b, c) {
			out = append(out, b)
		}
	}
	if len(out) < 3 {
		return q
	}
	return out
}

func clipEars(q geometry.Polygon) []geometry.Polygon {
	left := append(geometry.Polygon(nil), q...)
	var tris []geometry.Polygon
	for len(left) > 3 {
		k := bestEar(left)
		n := len(left)
		a, b, c := left[(k+n-1)%n], left[k], left[(k+1)%n]
		if cross(a, b, c) > 0 {
			tris = append(tris, geometry.Polygon{a, b, c})
		}
		left = append(left[:k:k], left[k+1:]...)
	}
	if cross(left[0], left[1], left[2]) > 0 {
		tris = append(tris, left)
	}
	return tris
}

// bestEar is the ear with the fattest triangle; a flat corner comes first. If
// rounding hides every ear, the most outward corner is taken: the exact check
// still stands between this and a wrong lay.
func bestEar(q geometry.Polygon) int {
	n := len(q)
	best, bestFat, sharp, most := -1, 0.0, 0, 0.0
	for k := range q {
		a, b, c := q[(k+n-1)%n], q[k], q[(k+1)%n]
		x := cross(a, b, c)
		if x <= flat(a, b, c) && x >= -flat(a, b, c) {
			return k
		}
		if x <= 0 {
			continue
		}
		if x > most {
			sharp, most = k, x
		}
		long := max(sq(a, b), sq(b, c), sq(c, a))
		if fat := x / long; fat > bestFat && emptyEar(q, a, b, c) {
			best, bestFat = k, fat
		}
	}
	if best < 0 {
		return sharp
	}
	return best
}

func sq(a, b geometry.Point) float64 { return (a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) }

func emptyEar(q geometry.Polygon, a, b, c geometry.Point) bool {
	for _, v := range q {
		if v != a && v != b && v != c && cross(a, b, v) >= 0 && cross(b, c, v) >= 0 && cross(c, a, v) >= 0 {
			return false
		}
	}
	return true
}

// joinConvex joins parts along shared edges while the union is convex.
func joinConvex(parts []geometry.Polygon) []geometry.Polygon {
	owner := map[edge]int{} // the part that an edge belongs to, as it runs round it
	own := func(i int) {
		for k, v := range parts[i] {
			owner[edge{v, parts[i][(k+1)%len(parts[i])]}] = i
		}
	}
	for i := range parts {
		own(i)
	}
	for i := range parts {
		for k := 0; k < len(parts[i]); k++ {
			v, w := parts[i][k], parts[i][(k+1)%len(parts[i])]
			j, shared := owner[edge{w, v}]
			if !shared || j == i || parts[j] == nil {
				continue
			}
			if u := joined(parts[i], parts[j]); u != nil {
				for _, q := range []geometry.Polygon{parts[i], parts[j]} {
					for n, c := range q {
						delete(owner, edge{c, q[(n+1)%len(q)]})
					}
				}
				parts[i], parts[j] = u, nil
				own(i)
				k = -1 // the union may join others at every edge
			}
		}
	}
	return slices.DeleteFunc(parts, func(q geometry.Polygon) bool { return q == nil })
}

// joined is the union of two convex polygons with an edge in common, or nil
// when there is none or the union is not convex.
func joined(a, b geometry.Polygon) geometry.Polygon {
	for i := range a {
		for j := range b {
			if a[i] != b[(j+1)%len(b)] || a[(i+1)%len(a)] != b[j] {
				continue
			}
			var u geometry.Polygon
			for k := 0; k < len(a); k++ {
				u = append(u, a[(i+1+k)%len(a)])
			}
			for k := 2; k < len(b); k++ {
				u = append(u, b[(j+k)%len(b)])
			}
			if isConvex(u) {
				return withoutFlatCorners(u)
			}
			return nil
		}
	}
	return nil
}
