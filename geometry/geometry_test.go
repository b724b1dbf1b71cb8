package geometry

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func square(x, y, s float64) Polygon {
	return Polygon{{x, y}, {x + s, y}, {x + s, y + s}, {x, y + s}}
}

func TestTouchingIsNoOverlap(t *testing.T) {
	notch := Polygon{{0, 0}, {3, 0}, {3, 3}, {2, 3}, {2, 1}, {1, 1}, {1, 3}, {0, 3}}
	cases := []struct {
		name string
		p, q Polygon
		want bool
	}{
		{"apart", square(0, 0, 1), square(2, 0, 1), false},
		{"shared edge", square(0, 0, 1), square(1, 0, 1), false},
		{"shared corner", square(0, 0, 1), square(1, 1, 1), false},
		{"part of an edge", square(0, 0, 2), square(2, 0.5, 1), false},
		{"identical", square(0, 0, 1), square(0, 0, 1), true},
		{"one inside, touching", square(0, 0, 2), square(0, 0, 1), true},
		{"a hair over", square(0, 0, 1), square(1-1e-15, 0, 1), true},
		{"cross through corners", Polygon{{0, 0}, {2, 2}, {0, 2}}, Polygon{{0, 2}, {1, 1}, {2, 0}, {3, 3}}, true},
		{"fills a notch", notch, Polygon{{1, 1}, {2, 1}, {2, 3}, {1, 3}}, false},
		{"bridges a notch", notch, Polygon{{1, 2}, {2, 2}, {2, 3}, {1, 3}}, false},
		{"bars a notch", notch, Polygon{{0, 2}, {3, 2}, {3, 2.5}, {0, 2.5}}, true},
		{"diagonal of a square", Polygon{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, Polygon{{0, 0}, {1, 1}, {0, 1}}, true},
	}
	for _, c := range cases {
		if got := Overlap(c.p, c.q); got != c.want {
			t.Errorf("%s: overlap %v, want %v", c.name, got, c.want)
		}
		if got := Overlap(c.q, c.p); got != c.want {
			t.Errorf("%s, the other way: overlap %v, want %v", c.name, got, c.want)
		}
	}
}

// Convex polygons on a small grid touch often; the oracle is the separating
// axis theorem in whole numbers.
func TestOverlapAgreesWithSeparatingAxes(t *testing.T) {
	tri := rapid.Custom(func(t *rapid.T) Polygon {
		c := func() float64 { return float64(rapid.IntRange(0, 6).Draw(t, "c")) }
		p, err := New([]Point{{c(), c()}, {c(), c()}, {c(), c()}})
		if err != nil {
			t.Skip("no triangle")
		}
		return p
	})
	separated := func(p, q Polygon) bool {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			all := true
			for _, v := range q {
				all = all && (b.X-a.X)*(v.Y-a.Y)-(b.Y-a.Y)*(v.X-a.X) <= 0
			}
			if all {
				return true
			}
		}
		return false
	}
	rapid.Check(t, func(t *rapid.T) {
		p, q := tri.Draw(t, "p"), tri.Draw(t, "q")
		if want := !separated(p, q) && !separated(q, p); Overlap(p, q) != want {
			t.Fatalf("%v and %v: overlap %v, want %v", p, q, !want, want)
		}
	})
}

func TestGoreTipIsBlunted(t *testing.T) {
	g, _ := IsoscelesGore(80, 20)
	q, err := CutOutline(g, []float64{1.5, 1.5, 3}, 2)
	if err != nil {
		t.Fatal(err)
	}
	b := q.Bounds()
	if math.Abs(b.MaxX-(80+1.5+2)) > 1e-9 || math.Abs(b.MinX+3) > 1e-9 {
		t.Errorf("the cut gore runs from %g to %g; want -3 to 83.5", b.MinX, b.MaxX)
	}
	if !Contains(q, g) {
		t.Error("the cut outline does not hold the finished gore")
	}
}

func TestEachEdgeGetsItsOwnAllowance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		p, err := TrapezoidGore(f(40, 100, "length"), f(20, 60, "base"), f(20, 60, "top"))
		if err != nil {
			t.Fatal(err)
		}
		a := []float64{f(0, 3, "a0"), f(0, 3, "a1"), f(0, 3, "a2"), f(0, 3, "a3")}
		q, err := CutOutline(p, a, 20)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p {
			u, v := p[i], p[(i+1)%4]
			d := unit(u, v)
			far := 0.0
			for _, w := range q {
				far = max(far, (w.X-u.X)*d.Y-(w.Y-u.Y)*d.X)
			}
			if math.Abs(far-a[i]) > 1e-6 {
				t.Fatalf("edge %d: outline is %g cm outside, want %g", i+1, far, a[i])
			}
		}
	})
}

func TestUnlikeAllowancesStepAtANearlyStraightCorner(t *testing.T) {
	p := Polygon{{0, 0}, {50, -0.5}, {100, 0}, {100, 40}, {50, 40.5}, {0, 40}}
	q, err := CutOutline(p, []float64{0.2, 3, 1, 1, 0.2, 3}, 2)
	if err != nil {
		t.Fatal(err)
	}
	if !Contains(q, p) {
		t.Error("the cut outline does not hold the piece")
	}
	if b := q.Bounds(); b.MinY < -3.6 || b.MaxY > 41.6 || b.MinX < -3.1 || b.MaxX > 101.1 {
		t.Errorf("the outline runs away to %+v", b)
	}
}

func TestBadShapesNameTheirCorner(t *testing.T) {
	cases := []struct {
		pts  []Point
		want string
	}{
		{[]Point{{0, 0}, {1, 0}}, "2 corners"},
		{[]Point{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, "meets the edge"},
		{[]Point{{0, 0}, {1, 0}, {2, 0}}, "back on itself"},
		{[]Point{{0, 0}, {1, 0}, {math.NaN(), 1}}, "corner 3"},
		{[]Point{{0, 0}, {1, 0}, {1, 0}, {0, 1}}, "twice"},
		{[]Point{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}, "meets the edge"},
	}
	for _, c := range cases {
		if _, err := New(c.pts); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: error %v, want one with %q", c.pts, err, c.want)
		}
	}
}

func TestHalfCircleKeepsItsTolerance(t *testing.T) {
	p, err := HalfCircleCloak(120, 10, 0.05)
	if err != nil {
		t.Fatal(err)
	}
	if want := math.Pi / 2 * (120*120 - 10*10); math.Abs(p.Area()-want) > 0.05*math.Pi*130 {
		t.Errorf("area %g, want about %g", p.Area(), want)
	}
}

func TestTurningIsExactByRightAngles(t *testing.T) {
	p := Polygon{{0.1, 0.2}, {3.3, 0.7}, {1.9, 2.3}}
	q := p.Turn(90).Turn(90).Turn(180).MirrorX().MirrorX()
	for i := range p {
		if p[i] != q[i] {
			t.Errorf("corner %d moved from %v to %v", i+1, p[i], q[i])
		}
	}
}

func FuzzNew(f *testing.F) {
	f.Add(0.0, 0.0, 1.0, 0.0, 1.0, 1.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		p, err := New([]Point{{a, b}, {c, d}, {e, g}, {h, i}})
		if err == nil && !Overlap(p, p) {
			t.Errorf("%v does not overlap itself", p)
		}
	})
}

func BenchmarkOverlap(b *testing.B) {
	p, _ := HalfCircle(60, 0.05)
	q := p.Translate(30, 30)
	for b.Loop() {
		Overlap(p, q)
	}
}
