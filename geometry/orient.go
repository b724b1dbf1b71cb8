package geometry

import (
	"cmp"
	"math"
	"math/big"
)

// Orient is +1 when a, b, c turn left, -1 when they turn right, 0 when they lie
// on one line; exact for all finite coordinates, 0 when one is not finite. The
// float result is trusted when it exceeds the rounding error it may carry,
// (3+16ε)ε times the sum of the products' sizes (J. R. Shewchuk's bound, from
// memory); otherwise the determinant is worked out exactly.
func Orient(a, b, c Point) int {
	l := (a.X - c.X) * (b.Y - c.Y)
	r := (a.Y - c.Y) * (b.X - c.X)
	det := l - r
	if bound := 3.4e-16 * (math.Abs(l) + math.Abs(r)); math.IsInf(bound, 0) {
		// Overflown: the signs say nothing.
	} else if det > bound {
		return 1
	} else if det < -bound {
		return -1
	}
	if !finite(a) || !finite(b) || !finite(c) {
		return 0
	}
	if sign, known := orientByFMA(a, b, c); known {
		return sign
	}
	return orientExact(a, b, c)
}

// orientByFMA works the sign out exactly where the four differences round to
// themselves, as between points on one grid, and no product nears underflow or
// overflow. Then l and r are right to one rounding: where they differ they are
// in the right order, and where they are equal the rounding errors, which a
// fused multiply-add gives exactly, decide.
func orientByFMA(a, b, c Point) (sign int, known bool) {
	x1, y1 := a.X-c.X, b.Y-c.Y
	y2, x2 := a.Y-c.Y, b.X-c.X
	if !exactDifference(a.X, c.X, x1) || !exactDifference(b.Y, c.Y, y1) ||
		!exactDifference(a.Y, c.Y, y2) || !exactDifference(b.X, c.X, x2) {
		return 0, false
	}
	l, r := x1*y1, y2*x2
	extreme := func(p, u, v float64) bool {
		return u != 0 && v != 0 && !(math.Abs(p) > 1e-200 && math.Abs(p) < 1e300)
	}
	if extreme(l, x1, y1) || extreme(r, y2, x2) {
		return 0, false
	}
	if l != r {
		return cmp.Compare(l, r), true
	}
	return cmp.Compare(math.FMA(x1, y1, -l), math.FMA(y2, x2, -r)), true
}

// exactDifference says whether d, the rounded u−v, is u−v (D. E. Knuth's
// two-sum, from memory).
func exactDifference(u, v, d float64) bool {
	w := d - u
	return (u-(d-w))-(v+w) == 0
}

func finite(points ...Point) bool {
	for _, v := range points {
		// A difference is NaN unless both are finite.
		if v.X-v.X != 0 || v.Y-v.Y != 0 {
			return false
		}
	}
	return true
}

func orientExact(a, b, c Point) int {
	rat := func(f float64) *big.Rat { return new(big.Rat).SetFloat64(f) }
	sub := func(u, v float64) *big.Rat { return new(big.Rat).Sub(rat(u), rat(v)) }
	l := new(big.Rat).Mul(sub(a.X, c.X), sub(b.Y, c.Y))
	r := new(big.Rat).Mul(sub(a.Y, c.Y), sub(b.X, c.X))
	return l.Cmp(r)
}

// onSegment says whether v, known to lie on the line a-b, lies between them.
func onSegment(a, b, v Point) bool {
	return math.Min(a.X, b.X) <= v.X && v.X <= math.Max(a.X, b.X) &&
		math.Min(a.Y, b.Y) <= v.Y && v.Y <= math.Max(a.Y, b.Y)
}

// segmentsTouch says whether two closed segments share a point.
func segmentsTouch(a, b, c, d Point) bool {
	// Comparing is exact, and most segments are far apart.
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) ||
		max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	o1, o2, o3, o4 := Orient(a, b, c), Orient(a, b, d), Orient(c, d, a), Orient(c, d, b)
	if o1*o2 < 0 && o3*o4 < 0 {
		return true
	}
	return o1 == 0 && onSegment(a, b, c) || o2 == 0 && onSegment(a, b, d) ||
		o3 == 0 && onSegment(c, d, a) || o4 == 0 && onSegment(c, d, b)
}

// segmentsCross says whether each segment runs from strictly one side of the
// other to strictly the other side.
func segmentsCross(a, b, c, d Point) bool {
	return Orient(a, b, c)*Orient(a, b, d) < 0 && Orient(c, d, a)*Orient(c, d, b) < 0
}

// Side says where a point lies.
type Side int

const (
	Outside Side = iota
	OnEdge
	Inside
)

// Locate says whether v lies outside p, on its edge or inside it; exact. A
// place that is not finite lies outside.
func Locate(p Polygon, v Point) Side {
	if !finite(v) {
		return Outside
	}
	inside := false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		o := Orient(a, b, v)
		if o == 0 && onSegment(a, b, v) {
			return OnEdge
		}
		if (a.Y > v.Y) != (b.Y > v.Y) && (o > 0) == (b.Y > a.Y) {
			inside = !inside
		}
	}
	if inside {
		return Inside
	}
	return Outside
}
