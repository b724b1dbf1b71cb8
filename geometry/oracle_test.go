package geometry

import (
	"math"
	"math/big"
	"math/rand"
	"slices"
	"testing"
)

// The oracle cuts the plane into upright slabs at every corner and crossing of
// two polygons; within a slab no edges cross, so the order of the edges along
// its middle line decides. All in rationals, nothing shared with Overlap.

type exactPoint struct{ x, y *big.Rat }

func exactPolygon(p Polygon) []exactPoint {
	var out []exactPoint
	for _, v := range p {
		out = append(out, exactPoint{new(big.Rat).SetFloat64(v.X), new(big.Rat).SetFloat64(v.Y)})
	}
	return out
}

func minus(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func times(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

// heights are where the upright line at x cuts p, from below.
func heights(p []exactPoint, x *big.Rat) []*big.Rat {
	var ys []*big.Rat
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.x.Cmp(x) < 0) != (b.x.Cmp(x) < 0) {
			t := new(big.Rat).Quo(minus(x, a.x), minus(b.x, a.x))
			ys = append(ys, t.Add(times(t, minus(b.y, a.y)), a.y))
		}
	}
	slices.SortFunc(ys, (*big.Rat).Cmp)
	return ys
}

// slabEdges are the x of all corners of p and q and of all their crossings.
func slabEdges(p, q []exactPoint) []*big.Rat {
	var xs []*big.Rat
	for _, v := range slices.Concat(p, q) {
		xs = append(xs, v.x)
	}
	for i, a := range p {
		b := p[(i+1)%len(p)]
		for j, c := range q {
			d := q[(j+1)%len(q)]
			x1, y1, x2, y2 := minus(b.x, a.x), minus(b.y, a.y), minus(d.x, c.x), minus(d.y, c.y)
			den := minus(times(x1, y2), times(y1, x2))
			if den.Sign() == 0 {
				continue
			}
			k := minus(times(minus(c.x, a.x), y2), times(minus(c.y, a.y), x2))
			k.Quo(k, den)
			if k.Sign() > 0 && k.Cmp(big.NewRat(1, 1)) < 0 {
				xs = append(xs, k.Add(times(k, x1), a.x))
			}
		}
	}
	slices.SortFunc(xs, (*big.Rat).Cmp)
	return xs
}

// bySlabs says whether p and q overlap and whether p contains q.
func bySlabs(p, q Polygon) (overlap, contains bool) {
	a, b := exactPolygon(p), exactPolygon(q)
	xs := slabEdges(a, b)
	contains = true
	for i := 1; i < len(xs); i++ {
		if xs[i].Cmp(xs[i-1]) == 0 {
			continue
		}
		middle := new(big.Rat).Add(xs[i], xs[i-1])
		middle.Quo(middle, big.NewRat(2, 1))
		ya, yb := heights(a, middle), heights(b, middle)
		for k := 0; k+1 < len(yb); k += 2 {
			held := false
			for l := 0; l+1 < len(ya); l += 2 {
				overlap = overlap || ya[l].Cmp(yb[k+1]) < 0 && yb[k].Cmp(ya[l+1]) < 0
				held = held || ya[l].Cmp(yb[k]) <= 0 && yb[k+1].Cmp(ya[l+1]) <= 0
			}
			contains = contains && held
		}
	}
	return overlap, contains
}

// gridPolygon has 3 to 7 corners on a small grid, each up to one jitter off.
func gridPolygon(r *rand.Rand, grid int, jitter float64) Polygon {
	for {
		pts := make([]Point, 3+r.Intn(5))
		for i := range pts {
			pts[i] = Point{float64(r.Intn(grid)) + jitter*float64(r.Intn(3)-1), float64(r.Intn(grid)) + jitter*float64(r.Intn(3)-1)}
		}
		if p, err := New(pts); err == nil {
			return p
		}
	}
}

func TestNearlyTouchingPiecesAgreeWithSlabs(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	overlaps, contained := 0, 0
	for k := range 10000 {
		jitter := []float64{0, 1e-15, 1e-12, 0.1}[k%4]
		p, q := gridPolygon(r, 4+k%5, jitter), gridPolygon(r, 3+k%4, jitter)
		if k%7 == 0 {
			q = p.Translate(float64(r.Intn(3)-1), float64(r.Intn(3)-1))
		}
		if k%11 == 0 {
			deg := r.Float64() * 360
			p, q = p.Turn(deg), q.Turn(deg)
		}
		if Validate(p) != nil || Validate(q) != nil {
			continue
		}
		overlap, contains := bySlabs(p, q)
		if Overlap(p, q) != overlap || Overlap(q, p) != overlap {
			t.Fatalf("%v and %v: overlap %v, want %v", p, q, !overlap, overlap)
		}
		if Contains(p, q) != contains {
			t.Fatalf("%v contains %v: %v, want %v", p, q, !contains, contains)
		}
		if overlap {
			overlaps++
		}
		if contains {
			contained++
		}
	}
	// Else the cases would try little.
	if overlaps < 2000 || overlaps > 9000 || contained < 100 {
		t.Errorf("%d overlap and %d are contained, of 10000", overlaps, contained)
	}
}

func TestOrientIsExactAtAnyScale(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 20000 {
		scale := math.Ldexp(1, r.Intn(2000)-1000)
		at := func() Point { return Point{scale * float64(r.Intn(9)-4), scale * float64(r.Intn(9)-4)} }
		a, b, c := at(), at(), at()
		if r.Intn(2) == 0 {
			c = Point{math.Nextafter((a.X+b.X)/2, scale), (a.Y + b.Y) / 2}
		}
		if got, want := Orient(a, b, c), orientExact(a, b, c); got != want {
			t.Fatalf("%v %v %v: %d, want %d", a, b, c, got, want)
		}
	}
}

func TestTurningPointsThatAreNoNumbers(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		p := Polygon{{bad, 0}, {1, 0}, {1, 1}}
		if Orient(p[0], p[1], p[2]) != 0 || Overlap(p, p) || Contains(p, p) || Locate(square(0, 0, 1), p[0]) != Outside {
			t.Errorf("a corner at %v is taken for a place", bad)
		}
	}
	if Contains(square(0, 0, 1), nil) || Overlap(nil, nil) {
		t.Error("no polygon is taken for one")
	}
}

func BenchmarkOverlapOfTouchingGores(b *testing.B) {
	g, _ := IsoscelesGore(80, 20)
	h := g.Turn(180).Translate(80, 30)
	for b.Loop() {
		Overlap(g, h)
	}
}
