package geometry

import (
	"math"
	"math/big"
)

// Orient is +1 when a, b, c turn left, -1 when they turn right, 0 when they lie
// on one line; exact for all finite coordinates. The float result is trusted
// when it exceeds the rounding error it may carry, (3+16ε)ε times the sum of
// the products' sizes (J. R. Shewchuk's bound, from memory); otherwise the
// determinant is worked out in rationals.
func Orient(a, b, c Point) int {
	l := (a.X - c.X) * (b.Y - c.Y)
	r := (a.Y - c.Y) * (b.X - c.X)
	det := l - r
	if bound := 3.4e-16 * (math.Abs(l) + math.Abs(r)); det > bound {
		return 1
	} else if det < -bound {
		return -1
	}
	return orientExact(a, b, c)
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

// Locate says whether v lies outside p, on its edge or inside it; exact.
func Locate(p Polygon, v Point) Side {
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
