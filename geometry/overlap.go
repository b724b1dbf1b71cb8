package geometry

import (
	"math/big"
	"sort"
)

// Overlap says whether the insides of two simple polygons share a point.
// Touching along edges or at corners is no overlap. Exact: where edges of one
// are divided by the other, the parts' midpoints are tested in rationals.
// Cost grows with the product of the vertex numbers. Both must be polygons
// that Validate accepts; one with a coordinate that is not finite overlaps
// nothing.
func Overlap(p, q Polygon) bool {
	if !finite(p...) || !finite(q...) {
		return false
	}
	a, b := p.Bounds(), q.Bounds()
	if a.MaxX <= b.MinX || b.MaxX <= a.MinX || a.MaxY <= b.MinY || b.MaxY <= a.MinY {
		return false
	}
	for i := range p {
		for j := range q {
			if segmentsCross(p[i], p[(i+1)%len(p)], q[j], q[(j+1)%len(q)]) {
				return true
			}
		}
	}
	onQ, inside := sides(p, q)
	if inside {
		return true
	}
	onP, inside := sides(q, p)
	if inside {
		return true
	}
	// No edges cross and no corner lies inside: what is left is edges that run
	// through the other by way of its corners, and edges that coincide.
	return edgeRunsInside(p, q, onQ) || edgeRunsInside(q, p, onP) || sharesSide(p, q)
}

// sides says which corners of p lie on q's edges, and whether one lies inside q.
func sides(p, q Polygon) (on []bool, inside bool) {
	on = make([]bool, len(p))
	for i, v := range p {
		switch Locate(q, v) {
		case Inside:
			return nil, true
		case OnEdge:
			on[i] = true
		}
	}
	return on, false
}

// edgeRunsInside says whether some part of an edge of p lies inside q, when no
// edges cross. A part with an end off q's edges lies wholly on that end's side
// of q, which is outside; so only parts between two points on q are tested.
func edgeRunsInside(p, q Polygon, on []bool) bool {
	for i, a := range p {
		k := (i + 1) % len(p)
		for _, m := range midpoints(a, p[k], q, on[i], on[k]) {
			if locateRat(q, m) == Inside {
				return true
			}
		}
	}
	return false
}

// sharesSide says whether p and q lie on the same side of an edge part that
// they share: both are counter-clockwise, so it then runs the same way in both.
func sharesSide(p, q Polygon) bool {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		for j, c := range q {
			d := q[(j+1)%len(q)]
			if Orient(a, b, c) != 0 || Orient(a, b, d) != 0 {
				continue
			}
			along := func(v Point) float64 { return v.X }
			if abs(b.X-a.X) < abs(b.Y-a.Y) {
				along = func(v Point) float64 { return v.Y }
			}
			if (along(b) > along(a)) != (along(d) > along(c)) {
				continue
			}
			if min(along(a), along(b), along(c), along(d)) < max(along(a), along(b), along(c), along(d)) &&
				max(min(along(a), along(b)), min(along(c), along(d))) < min(max(along(a), along(b)), max(along(c), along(d))) {
				return true
			}
		}
	}
	return false
}

func abs(x float64) float64 { return max(x, -x) }

type ratPoint struct{ x, y *big.Rat }

// midpoints are the exact middles of the parts that q's corners divide a-b
// into; the end parts only where a, or b, lies on q.
func midpoints(a, b Point, q Polygon, aOn, bOn bool) []ratPoint {
	var cuts []Point
	if aOn {
		cuts = append(cuts, a)
	}
	if bOn {
		cuts = append(cuts, b)
	}
	for _, v := range q {
		if Orient(a, b, v) == 0 && onSegment(a, b, v) {
			cuts = append(cuts, v)
		}
	}
	sort.Slice(cuts, func(i, j int) bool {
		if cuts[i].X != cuts[j].X {
			return cuts[i].X < cuts[j].X
		}
		return cuts[i].Y < cuts[j].Y
	})
	half := big.NewRat(1, 2)
	mid := func(u, v float64) *big.Rat {
		s := new(big.Rat).Add(new(big.Rat).SetFloat64(u), new(big.Rat).SetFloat64(v))
		return s.Mul(s, half)
	}
	var out []ratPoint
	for i := 1; i < len(cuts); i++ {
		if cuts[i] != cuts[i-1] {
			out = append(out, ratPoint{mid(cuts[i-1].X, cuts[i].X), mid(cuts[i-1].Y, cuts[i].Y)})
		}
	}
	return out
}

// locateRat is Locate for a rational point.
func locateRat(p Polygon, v ratPoint) Side {
	inside := false
	rat := func(f float64) *big.Rat { return new(big.Rat).SetFloat64(f) }
	for i, a := range p {
		b := p[(i+1)%len(p)]
		ax, ay, bx, by := rat(a.X), rat(a.Y), rat(b.X), rat(b.Y)
		l := new(big.Rat).Mul(new(big.Rat).Sub(ax, v.x), new(big.Rat).Sub(by, v.y))
		r := new(big.Rat).Mul(new(big.Rat).Sub(ay, v.y), new(big.Rat).Sub(bx, v.x))
		o := l.Cmp(r)
		if o == 0 && between(ax, bx, v.x) && between(ay, by, v.y) {
			return OnEdge
		}
		if (ay.Cmp(v.y) > 0) != (by.Cmp(v.y) > 0) && (o > 0) == (b.Y > a.Y) {
			inside = !inside
		}
	}
	if inside {
		return Inside
	}
	return Outside
}

func between(a, b, v *big.Rat) bool {
	if a.Cmp(b) > 0 {
		a, b = b, a
	}
	return a.Cmp(v) <= 0 && v.Cmp(b) <= 0
}

// Contains says whether inner lies wholly in outer; shared edges are allowed.
// Both must be polygons that Validate accepts; nothing that is no polygon
// contains or is contained.
func Contains(outer, inner Polygon) bool {
	if len(outer) < 3 || len(inner) < 3 || !finite(outer...) || !finite(inner...) {
		return false
	}
	on := make([]bool, len(inner))
	for i, v := range inner {
		side := Locate(outer, v)
		if side == Outside {
			return false
		}
		on[i] = side == OnEdge
	}
	for i, a := range inner {
		k := (i + 1) % len(inner)
		for j, c := range outer {
			if segmentsCross(a, inner[k], c, outer[(j+1)%len(outer)]) {
				return false
			}
		}
		for _, m := range midpoints(a, inner[k], outer, on[i], on[k]) {
			if locateRat(outer, m) == Outside {
				return false
			}
		}
	}
	return true
}
