package layout

import (
	"context"
	"math"
	"testing"
	"time"

	"ellwand/geometry"

	"pgregory.net/rapid"
)

// shortestByTrying is the least whole length at which whole-numbered rectangles
// fit, by trying every place for each: nothing in common with the search.
func shortestByTrying(width int, sides [][2]int, turn bool) int {
	area := 0
	for _, s := range sides {
		area += s[0] * s[1]
	}
	for length := 1; ; length++ {
		if area <= length*width && fitsByTrying(make([]bool, length*width), length, width, sides, turn) {
			return length
		}
	}
}

func fitsByTrying(used []bool, length, width int, sides [][2]int, turn bool) bool {
	if len(sides) == 0 {
		return true
	}
	ways := [][2]int{sides[0]}
	if turn {
		ways = append(ways, [2]int{sides[0][1], sides[0][0]})
	}
	for _, s := range ways {
		for x := 0; x+s[0] <= length; x++ {
			for y := 0; y+s[1] <= width; y++ {
				if !paint(used, width, x, y, s, false) {
					continue
				}
				paint(used, width, x, y, s, true)
				ok := fitsByTrying(used, length, width, sides[1:], turn)
				for i := x; i < x+s[0]; i++ {
					for j := y; j < y+s[1]; j++ {
						used[i*width+j] = false
					}
				}
				if ok {
					return true
				}
			}
		}
	}
	return false
}

// paint says whether the ground is free, or takes it.
func paint(used []bool, width, x, y int, s [2]int, take bool) bool {
	for i := x; i < x+s[0]; i++ {
		for j := y; j < y+s[1]; j++ {
			if used[i*width+j] && !take {
				return false
			}
			used[i*width+j] = used[i*width+j] || take
		}
	}
	return true
}

func TestShortestLayOfFewRectanglesIsProved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(3, 8).Draw(t, "width")
		turn := rapid.Bool().Draw(t, "turn")
		p := Problem{WidthCM: float64(width)}
		var sides [][2]int
		for range rapid.IntRange(1, 5).Draw(t, "n") {
			s := [2]int{rapid.IntRange(1, 6).Draw(t, "long"), rapid.IntRange(1, width).Draw(t, "wide")}
			if turn {
				s[0] = min(s[0], width)
			}
			it := rect("", float64(s[0]), float64(s[1]))
			if turn {
				it.TurnsDeg = []float64{0, 90}
			}
			p.Items, sides = append(p.Items, it), append(sides, s)
		}
		want := float64(shortestByTrying(width, sides, turn))
		l, proved, err := Optimum(context.Background(), p)
		if err != nil || !proved {
			t.Fatalf("proved %v, error %v", proved, err)
		}
		mustCheck(t, p, l)
		if math.Abs(l.LengthCM-want) > 1e-6 {
			t.Fatalf("%g cm; trying every place gives %g", l.LengthCM, want)
		}
		if low := LowerBound(p); math.Abs(low-want) > 1e-4 {
			t.Fatalf("bound %g cm; the shortest is %g", low, want)
		}
		if l, err = Improve(context.Background(), p, Lay{}, steps(20), nil); err != nil || math.Abs(l.LengthCM-want) > 1e-6 {
			t.Fatalf("improved to %g cm, error %v; the shortest is %g", l.LengthCM, err, want)
		}
	})
}

// eightPieces is a tunic without gores, its lengths in no simple ratio.
func eightPieces(gap float64) Problem {
	p := Problem{WidthCM: 61.3, GapCM: gap}
	for _, s := range [][2]float64{{112, 58.2}, {111.4, 57.9}, {63.1, 44.3}, {62.7, 21.6}, {34.9, 19.3}, {33.7, 17.9}, {27.2, 23.3}, {15.3, 14.7}} {
		p.Items = append(p.Items, rect("", s[0], s[1]))
	}
	return p
}

func TestEightRectanglesAreProvedInSeconds(t *testing.T) {
	for _, gap := range []float64{0, 0.4} {
		p := eightPieces(gap)
		began := time.Now()
		l, proved, err := Optimum(context.Background(), p)
		if err != nil || proved != (gap == 0) {
			t.Fatalf("gap %g: proved %v, error %v", gap, proved, err)
		}
		mustCheck(t, p, l)
		if low := LowerBound(p); low < l.LengthCM-float64(len(p.Items))*gap*0.3-0.001 {
			t.Errorf("gap %g: bound %g cm, lay %g cm", gap, low, l.LengthCM)
		}
		t.Logf("gap %g: %g cm, %v; without proof no shorter than %g cm", gap, l.LengthCM, time.Since(began), quickBound(context.Background(), p))
		if took := time.Since(began); took > 60*time.Second { // an end at all; how soon is for benchmarks
			t.Errorf("the proof took %v", took)
		}
	}
}

// Two squares past each other's corner keep a gap of 1 cm slantwise at 0.71 cm
// along and across, so that 20.75 cm of length does where 20.71 cm of width is
// there; along or across alone it takes 21 cm.
func TestBoundKnowsThatTheGapMayBeKeptSlantwise(t *testing.T) {
	p := Problem{WidthCM: 20.75, GapCM: 1, Items: []Item{rect("a", 10, 10), rect("b", 10, 10)}}
	l := Lay{WidthCM: p.WidthCM, LengthCM: 20.72, Placements: []Placement{{}, {X: 10.72, Y: 10.72}}}
	mustCheck(t, p, l)
	if low := LowerBound(p); low < 20-1e-6 {
		t.Errorf("bound %g cm, want 20 cm at least", low)
	}
	if o, proved, err := Optimum(context.Background(), p); err != nil || proved && o.LengthCM > l.LengthCM {
		t.Errorf("%g cm said to be proved, error %v", o.LengthCM, err)
	}
}

func TestBoundOfRectanglesHoldsWithFlawsAndPins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{WidthCM: 30, GapCM: rapid.SampledFrom([]float64{0, 0.3}).Draw(t, "gap")}
		for range rapid.IntRange(2, 6).Draw(t, "n") {
			it := rect("", rapid.Float64Range(4, 30).Draw(t, "l"), rapid.Float64Range(3, 29).Draw(t, "w"))
			if rapid.Bool().Draw(t, "turns") {
				it.TurnsDeg = []float64{0, 90}
			}
			p.Items = append(p.Items, it)
		}
		x := rapid.Float64Range(5, 60).Draw(t, "flaw")
		p.Flaws = []Flaw{{Name: "stain", Outline: geometry.Polygon{{X: x, Y: 5}, {X: x + 6, Y: 5}, {X: x + 6, Y: 12}, {X: x, Y: 12}}}}
		l, err := Improve(context.Background(), p, Lay{}, steps(30), nil)
		if err != nil {
			t.Fatal(err)
		}
		mustCheck(t, p, l)
		p.Items[0].Pinned = &l.Placements[0]
		mustCheck(t, p, l)
	})
}

func TestProofStopsWhenCancelled(t *testing.T) {
	p := Problem{WidthCM: 100}
	for i := range 30 {
		p.Items = append(p.Items, rect("", 13+float64(i*7919%97)/7, 11+float64(i*104729%89)/9))
	}
	ctx, cancel := context.WithTimeout(context.Background(), 300*time.Millisecond)
	defer cancel()
	began := time.Now()
	l, proved, err := Optimum(ctx, p)
	if late := time.Since(began) - 300*time.Millisecond; late > 20*time.Second { // an answer at all; how soon is for benchmarks
		t.Errorf("answered %v after the cancel", late)
	}
	if err != nil || proved {
		t.Fatalf("proved %v, error %v", proved, err)
	}
	mustCheck(t, p, l)
}
