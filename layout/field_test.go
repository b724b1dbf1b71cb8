package layout

import (
	"context"
	"fmt"
	"math"
	"testing"

	"ellwand/geometry"

	"pgregory.net/rapid"
)

// The depth read from a field against its meaning: outside every region none,
// inside the distance to the nearest place that is inside no region.
func TestFieldDepthIsTheDistanceOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{WidthCM: 200, Items: []Item{
			{Outline: anyOutline(t), TurnsDeg: []float64{0}}, {Outline: anyOutline(t), TurnsDeg: []float64{0}}}}
		m := newModel(context.Background(), p)
		pr := m.pair(m.ofItem[0][0], m.ofItem[1][0])
		f := newField(pr, 100)
		if f == nil {
			t.Skip("one region")
		}
		x := pr.x0 + (pr.x1-pr.x0)*rapid.Float64Range(0, 1).Draw(t, "x")
		y := pr.y0 + (pr.y1-pr.y0)*rapid.Float64Range(0, 1).Draw(t, "y")
		in := func(x, y float64) bool {
			for k := range pr.parts {
				if pr.parts[k].signed(x, y) > 1e-6 {
					return true
				}
			}
			return false
		}
		d := f.depth(x, y, 0)
		if d > 1e-6 != in(x, y) && d > 1e-5 {
			t.Fatalf("depth %g, inside %v", d, in(x, y))
		}
		if near := nearestOf(borderOf(pr.parts), x, y); d > 1e-5 && math.Abs(d-near) > 1e-6 {
			t.Fatalf("depth %g, the border is %g away", d, near)
		}
		for k := range 64 { // nearer than the depth nothing is free
			sin, cos := math.Sincos(float64(k) * math.Pi / 32)
			if r := d - 1e-4; r > 0 && !in(x+r*cos, y+r*sin) {
				t.Fatalf("depth %g, but free %g away", d, r)
			}
		}
	})
}

func nearestOf(border []piece, x, y float64) float64 {
	least := math.Inf(1)
	for k := range border {
		least = min(least, math.Sqrt(border[k].squared(x, y)))
	}
	return least
}

func TestCrumbsAndRunnersLieTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{WidthCM: 60}
		for k := range rapid.IntRange(1, 4).Draw(t, "long") {
			p.Items = append(p.Items, rect(fmt.Sprint("runner ", k), 1000, rapid.Float64Range(0.1, 25).Draw(t, "w")))
		}
		crumb := Item{TurnsDeg: []float64{0, 90, 180, 270}, Outline: geometry.Polygon{{X: 0, Y: 0}, {X: 0.1, Y: 0}, {X: 0.05, Y: 0.1}}}
		sliver := Item{TurnsDeg: []float64{0, 180}, MayFlip: true, Outline: geometry.Polygon{{X: 0, Y: 0}, {X: 900, Y: 0}, {X: 899, Y: 0.01}}}
		for range rapid.IntRange(1, 6).Draw(t, "crumbs") {
			p.Items = append(p.Items, crumb, crumb, sliver)
		}
		l, err := Improve(context.Background(), p, Lay{}, steps(10), func(l Lay) { mustCheck(t, p, l) })
		if err != nil {
			t.Fatal(err)
		}
		mustCheck(t, p, l)
	})
}
