package geometry

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// cutBeside says whether q has an edge along finished edge i of p, allowance a
// outside it, right beside the point at share t of the edge.
func cutBeside(p, q Polygon, i int, a, t float64) bool {
	u, v := p[i], p[(i+1)%len(p)]
	d := unit(u, v)
	at := Point{u.X + t*(v.X-u.X) + a*d.Y, u.Y + t*(v.Y-u.Y) - a*d.X}
	for j := range q {
		e := unit(q[j], q[(j+1)%len(q)])
		if d.X*e.X+d.Y*e.Y > 1-1e-9 && q.edgeDistance(j, at) < 1e-6 {
			return true
		}
	}
	return false
}

func TestSlightlyBentSideKeepsBothAllowances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bend := rapid.Float64Range(-3, 3).Draw(t, "bend")
		p, err := New([]Point{{0, 0}, {40, bend}, {80, 0}, {80, 30}, {0, 30}})
		if err != nil {
			t.Fatal(err)
		}
		a := rapid.SliceOfN(rapid.SampledFrom([]float64{0, 0.8, 1.5, 3}), 5, 5).Draw(t, "allowances")
		q, err := CutOutline(p, a, 2)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p {
			if !cutBeside(p, q, i, a[i], 0.5) {
				t.Fatalf("edge %d has no cut line %g cm outside its middle: %v", i+1, a[i], q)
			}
		}
		if q.Bounds().MinX < -3.3 || q.Bounds().MaxX > 83.3 {
			t.Fatalf("the outline runs away: %v", q)
		}
	})
}

func TestOutlineHoldsAnyPieceOrNamesAnEdge(t *testing.T) {
	fitted := 0
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Custom(func(t *rapid.T) Point {
			c := rapid.IntRange(0, 9)
			return Point{10 * float64(c.Draw(t, "x")), 10 * float64(c.Draw(t, "y"))}
		})
		p, err := New(rapid.SliceOfN(at, 3, 7).Draw(t, "corners"))
		if err != nil {
			t.Skip("no piece")
		}
		a := rapid.SliceOfN(rapid.Float64Range(0.5, 6), len(p), len(p)).Draw(t, "allowances")
		q, err := CutOutline(p, a, 2)
		if err != nil {
			if !strings.Contains(err.Error(), "edge ") {
				t.Fatal(err)
			}
			return
		}
		fitted++
		if _, holds := bySlabs(q, p); !holds {
			t.Fatalf("%v does not hold %v", q, p)
		}
		for _, v := range q {
			if d := p.distance(v); Locate(p, v) != Outside || d < 0.5-1e-6 {
				t.Fatalf("corner %v of the outline is %g cm from the piece; the least allowance is 0.5", v, d)
			}
		}
	})
	if fitted == 0 {
		t.Error("no outline was ever made")
	}
}

func TestStepWhereEdgesInLineDiffer(t *testing.T) {
	p, _ := New([]Point{{0, 0}, {40, 0}, {80, 0}, {80, 30}, {0, 30}})
	q, err := CutOutline(p, []float64{1, 3, 1, 1, 1}, 2)
	if err != nil {
		t.Fatal(err)
	}
	want := 82.0*32 + 2*41 // the second edge's strip is 2 cm wider, to the cut end
	if math.Abs(q.Area()-want) > 1e-9 {
		t.Errorf("area %g cm², want %g", q.Area(), want)
	}
}

func TestNarrowNotchIsRefused(t *testing.T) {
	p, _ := New([]Point{{0, 0}, {30, 0}, {30, 20}, {16, 20}, {16, 5}, {15, 5}, {15, 20}, {0, 20}})
	_, err := CutOutline(p, []float64{1, 1, 1, 1, 1, 1, 1, 1}, 2)
	if err == nil || !strings.Contains(err.Error(), "edge 5") {
		t.Errorf("error %v; want one that names edge 5, the floor of the notch", err)
	}
}

func TestFaultIsCountedAsGiven(t *testing.T) {
	// Clockwise; the sixth corner touches the second edge.
	p, err := New([]Point{{0, 0}, {0, 4}, {4, 4}, {4, 0}, {3, 0}, {2, 4}, {1, 0}})
	if p != nil || err == nil || !strings.Contains(err.Error(), "corner 2 at (0, 4)") {
		t.Errorf("polygon %v, error %v; want none, and corner 2 named", p, err)
	}
}

func TestArcEdgeKeepsItsRiseAndTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chord := rapid.Float64Range(5, 200).Draw(t, "chord")
		bulge := chord * rapid.Float64Range(-1, 1).Draw(t, "bulge")
		tol := rapid.Float64Range(0.01, 0.5).Draw(t, "tolerance")
		pts, err := ArcEdge(Point{0, 0}, Point{chord, 0}, bulge, tol)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(bulge) <= tol {
			return
		}
		r := (chord*chord/4 + bulge*bulge) / (2 * math.Abs(bulge))
		c := Point{chord / 2, math.Copysign(r, bulge) - bulge}
		for i, v := range pts {
			if d := math.Hypot(v.X-c.X, v.Y-c.Y); math.Abs(d-r) > 1e-6*r {
				t.Fatalf("point %d is %g cm from the centre, want %g", i+1, d, r)
			}
			if i == 0 {
				continue
			}
			m := Point{(v.X + pts[i-1].X) / 2, (v.Y + pts[i-1].Y) / 2}
			if sag := r - math.Hypot(m.X-c.X, m.Y-c.Y); sag > tol+1e-6 {
				t.Fatalf("chord %d lies %g cm inside the arc, tolerance %g", i, sag, tol)
			}
		}
	})
}

func TestArcRefusesWhatIsNoArc(t *testing.T) {
	for _, to := range []float64{math.NaN(), math.Inf(1), 1e300, 361} {
		if _, err := Arc(Point{}, 10, 0, to, 0.1); err == nil {
			t.Errorf("an arc to %v degrees is accepted", to)
		}
	}
	for _, bulge := range []float64{math.NaN(), math.Inf(-1), 11} {
		if _, err := ArcEdge(Point{}, Point{10, 0}, bulge, 0.1); err == nil {
			t.Errorf("a bulge of %v cm is accepted", bulge)
		}
	}
}
