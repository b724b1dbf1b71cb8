package layout

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func bars1(p Problem) float64 { return barsOf(context.Background(), p) }

// One strip of 4 cm lies beside the three panels of 6 cm on cloth of 10 cm; of
// the other two widths, 5 and 5 cm, two lie side by side: 3 × 8 + 12 cm.
func TestBarsThatFitSideBySideAreCountedOnce(t *testing.T) {
	p := Problem{WidthCM: 10}
	for range 3 {
		p.Items = append(p.Items, rect("panel", 8, 6))
	}
	p.Items = append(p.Items, rect("strip", 24, 4), rect("half", 12, 5), rect("half", 12, 5))
	if got := bars1(p); got > 36 || got < 35.99 {
		t.Errorf("bound %g cm, want 36 cm", got)
	}
	// A strip of 4 cm as long as all three panels leaves the halves as they were;
	// one twice as long lies alone for the rest: halves do not go beside it twice.
	p.Items[3] = rect("strip", 60, 4)
	if got := bars1(p); got > 60 || got < 47.9 {
		t.Errorf("bound %g cm, want 48 cm at least", got)
	}
}

// Of one piece no two bars lie side by side, however narrow it is.
func TestBarsOfOnePieceDoNotLieSideBySide(t *testing.T) {
	p := Problem{WidthCM: 50, Items: []Item{rect("tape", 90, 5)}}
	if got := bars1(p); got > 90 || got < 89.99 {
		t.Errorf("bound %g cm, want 90 cm", got)
	}
	p.WidthCM, p.Items[0].TurnsDeg = 80, []float64{0, 45}
	if got := bars1(p); got > 90/math.Sqrt2+4 || got < 60 {
		t.Errorf("turned: bound %g cm", got)
	}
}

func TestNoLayIsShorterThanItsBars(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{WidthCM: rapid.Float64Range(20, 60).Draw(t, "width"), GapCM: rapid.SampledFrom([]float64{0, 0.5}).Draw(t, "gap")}
		for range rapid.IntRange(1, 4).Draw(t, "kinds") {
			l, w := rapid.Float64Range(2, 60).Draw(t, "long"), rapid.Float64Range(1, 20).Draw(t, "wide")
			it := gore("", l, w)
			if rapid.Bool().Draw(t, "straight") {
				it = rect("", l, w)
			}
			if rapid.Bool().Draw(t, "turns") && l < p.WidthCM {
				it.TurnsDeg = []float64{0, 90}
			}
			for range rapid.IntRange(1, 5).Draw(t, "copies") {
				p.Items = append(p.Items, it)
			}
		}
		l, err := Improve(context.Background(), p, Lay{}, steps(20), nil)
		if err != nil {
			t.Fatal(err)
		}
		if low := bars1(p); low > l.LengthCM+1e-6 {
			t.Fatalf("a lay of %g cm, the bound %g cm", l.LengthCM, low)
		}
	})
}

func BenchmarkLowerBound(b *testing.B) {
	p := twentyPieces()
	for b.Loop() {
		LowerBound(p)
	}
}
