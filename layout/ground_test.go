package layout

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ellwand/geometry"
)

// hundredths draws a length in whole hundredths of a cm.
func hundredths(t *rapid.T, least, most int, name string) float64 {
	return float64(rapid.IntRange(least, most).Draw(t, name)) / 100
}

// somePieces draws a few rectangles and gores.
func somePieces(t *rapid.T, most int) []Item {
	var items []Item
	for i := range rapid.IntRange(1, most).Draw(t, "pieces") {
		l, w := hundredths(t, 300, 6000, "length"), hundredths(t, 300, 3500, "width")
		q := geometry.Polygon{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l, Y: w}, {X: 0, Y: w}}
		if rapid.Bool().Draw(t, "gore") {
			q = geometry.Polygon{{X: 0, Y: 0}, {X: l, Y: w / 2}, {X: 0, Y: w}}
		}
		items = append(items, Item{ID: fmt.Sprint(i), Outline: q, TurnsDeg: []float64{0, 180}})
	}
	return items
}

// realCloth draws flaws, lengths and measured edges.
func realCloth(t *rapid.T) Problem {
	p := Problem{WidthCM: 50, Items: somePieces(t, 9), GapCM: rapid.SampledFrom([]float64{0, 0.5}).Draw(t, "gap")}
	at := 0.0
	for k := range rapid.IntRange(0, 3).Draw(t, "lengths in hand") {
		l := Length{Name: fmt.Sprint("length ", k+1), FromCM: at, ToCM: at + hundredths(t, 3000, 15000, "long")}
		if rapid.Bool().Draw(t, "measured") {
			long := l.ToCM - l.FromCM
			first := rapid.SampledFrom([]float64{0, 0.1}).Draw(t, "first measured") * long
			last := rapid.SampledFrom([]float64{0.8, 1}).Draw(t, "last measured") * long
			for _, x := range []float64{first, math.Round(long/3*100) / 100, last} {
				l.Sides = append(l.Sides, Sides{x, hundredths(t, 0, 300, "left"), 50 - hundredths(t, 0, 600, "right")})
			}
		}
		p.Lengths = append(p.Lengths, l)
		at = l.ToCM + 5
	}
	if len(p.Lengths) > 0 {
		p.Lengths = append(p.Lengths, Length{Name: "wanting", FromCM: at, ToCM: math.Inf(1)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "flaws") {
		x := hundredths(t, 0, 20000, "at")
		if rapid.Bool().Draw(t, "right across") {
			p.Flaws = append(p.Flaws, Flaw{Outline: box(x, 0, x+hundredths(t, 10, 400, "wide"), 50)})
			continue
		}
		y, r := hundredths(t, 0, 5000, "across"), hundredths(t, 50, 1200, "size")
		p.Flaws = append(p.Flaws, Flaw{Name: "hole", Outline: geometry.Polygon{{X: x, Y: y}, {X: x + r, Y: y + r/4}, {X: x + r/2, Y: y + r}}})
	}
	return p
}

// clearOfAll checks a lay in rationals: nothing shares ground with another
// piece, a flaw, what lies beyond the edges or between two lengths.
func clearOfAll(p Problem, l Lay) error {
	var placed []geometry.Polygon
	for i, it := range p.Items {
		q := Placed(it, l.Placements[i])
		b := q.Bounds()
		if b.MinX < -1e-6 || b.MinY < -1e-6 || b.MaxX > l.LengthCM+1e-6 || b.MaxY > p.WidthCM+1e-6 {
			return fmt.Errorf("piece %d is off the strip: %v", i, b)
		}
		for j, o := range placed {
			if shareGround(q, o) {
				return fmt.Errorf("pieces %d and %d share ground", i, j)
			}
		}
		for k, f := range p.Flaws {
			if shareGround(q, f.Outline) {
				return fmt.Errorf("piece %d lies on flaw %d", i, k)
			}
		}
		on := false
		for k, c := range p.Lengths {
			if b.MinX >= c.FromCM-1e-6 && b.MaxX <= c.ToCM+1e-6 {
				on = true
				for _, v := range q {
					if left, right := c.At(v.X, p.WidthCM); v.Y < left-2e-6 || v.Y > right+2e-6 {
						return fmt.Errorf("piece %d has a corner at %v, beyond the edges of length %d, %g to %g", i, v, k, left, right)
					}
				}
				for _, s := range c.Sides { // where an edge bends in between corners
					x := new(big.Rat).SetFloat64(math.Round((c.FromCM + s.AtCM) / checkGridCM))
					for _, span := range covered(rational(q), x) {
						lo, _ := span[0].Float64()
						hi, _ := span[1].Float64()
						if lo*checkGridCM < s.LeftCM-2e-6 || hi*checkGridCM > s.RightCM+2e-6 {
							return fmt.Errorf("piece %d covers %g to %g across at the bend at %g of length %d", i, lo*checkGridCM, hi*checkGridCM, s.AtCM, k)
						}
					}
				}
			}
		}
		if len(p.Lengths) > 0 && !on {
			return fmt.Errorf("piece %d lies on no one length of cloth: %v", i, b)
		}
		placed = append(placed, q)
	}
	return nil
}

func TestNothingEverLiesOnFlawsOrOffTheCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := realCloth(t)
		first, err := First(p)
		if err != nil {
			t.Fatal(err)
		}
		better, err := Improve(context.Background(), p, first, Settings{Seed: 7, MaxSteps: 60}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range []Lay{first, better} {
			if err := Check(p, l); err != nil {
				t.Fatal(err)
			}
			if err := clearOfAll(p, l); err != nil {
				t.Fatal(err)
			}
			if low := LowerBound(p); l.LengthCM < low-1e-6 {
				t.Fatalf("a lay of %g cm is below the bound of %g", l.LengthCM, low)
			}
			for i, at := range l.Placements {
				if b := p.Items[i].Outline.Bounds(); toGrid(b.MinX) == b.MinX && (toGrid(at.X) != at.X || toGrid(at.Y) != at.Y) {
					t.Fatalf("piece %d lies at (%v, %v), off the grid of places", i, at.X, at.Y)
				}
			}
		}
	})
}

func TestCheckAgreesWithRationalsWhereverPiecesLie(t *testing.T) {
	faulty, sound := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := realCloth(t)
		p.GapCM = 0
		l := Lay{WidthCM: p.WidthCM, LengthCM: 500}
		for range p.Items {
			l.Placements = append(l.Placements, Placement{X: hundredths(t, 0, 40000, "x"), Y: hundredths(t, 0, 1500, "y")})
		}
		fault, other := Check(p, l), clearOfAll(p, l)
		if (fault == nil) != (other == nil) {
			t.Fatalf("the check says %v; in rationals: %v", fault, other)
		}
		if fault == nil {
			sound++
		} else {
			faulty++
		}
	})
	if faulty == 0 || sound == 0 {
		t.Errorf("%d faulty and %d sound lays; both are wanted", faulty, sound)
	}
}

// Found by FuzzRealCloth: a piece lay beyond the last measured place, wider than
// the cloth is there.
func TestEdgesGoOnBeyondWhatWasMeasured(t *testing.T) {
	p := Problem{
		WidthCM: 58,
		Items:   []Item{{Outline: geometry.Polygon{{X: 43.5, Y: 0}, {X: 0.75, Y: 58}, {X: 0, Y: 0}}, TurnsDeg: []float64{0}, MayFlip: true}},
		Lengths: []Length{
			{ToCM: 48.5, Sides: []Sides{{AtCM: 2, LeftCM: 3, RightCM: 57}, {AtCM: 2.5, LeftCM: 0, RightCM: 57.75}}},
			{FromCM: 53.5, ToCM: 1053.5},
			{FromCM: 1058.5, ToCM: math.Inf(1)},
		},
	}
	left, right := 0.0, 0.0
	for _, q := range p.Lengths[0].Beyond(58) {
		switch b := q.Bounds(); b.MinY {
		case 0:
			left += q.Area()
		default:
			right += q.Area()
		}
	}
	if want := 2*3 + 0.5*1.5; math.Abs(left-want) > 1e-9 {
		t.Errorf("left of the edge lie %g cm2, expected are %g", left, want)
	}
	if want := 2*1 + 0.5*(1+0.25)/2 + 46*0.25; math.Abs(right-want) > 1e-9 {
		t.Errorf("right of the edge lie %g cm2, expected are %g", right, want)
	}
	lay, err := First(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := Check(p, lay); err != nil {
		t.Error(err)
	}
	if x := lay.Placements[0].X; x < 53.5 {
		t.Errorf("58 cm wide, the piece lies at %g cm, where the cloth is narrower", x)
	}
}

func TestGroundFaultsAreNamed(t *testing.T) {
	p := Problem{WidthCM: 20, Items: []Item{rect("a", 4, 4)},
		Flaws: []Flaw{{Name: "moth hole", Outline: box(10, 5, 11, 6)}},
		Lengths: []Length{{Name: "first", ToCM: 30, Sides: []Sides{{0, 0, 20}, {30, 2, 14}}},
			{Name: "second", FromCM: 35, ToCM: math.Inf(1)}}}
	for _, c := range []struct {
		at   Placement
		kind FaultKind
		text string
	}{
		{Placement{X: 9, Y: 4}, OnFlaw, `the flaw "moth hole"`},
		{Placement{X: 28, Y: 5}, AcrossEnds, `across the end of the cloth "first"`},
		{Placement{X: 24, Y: 12}, Outside, `past the measured edge of the cloth "first", 13.1 cm wide there`},
		{Placement{X: 20, Y: 0}, Outside, "measured edge"},
	} {
		var f *Fault
		if err := Check(p, Lay{20, 50, []Placement{c.at}}); !errors.As(err, &f) || f.Kind != c.kind || !strings.Contains(f.Text, c.text) {
			t.Errorf("at %v: %v, want %q", c.at, err, c.text)
		}
	}
	for _, at := range []Placement{{X: 11, Y: 5}, {X: 26, Y: 5}, {X: 35}, {X: 0, Y: 16}} {
		// A piece may touch a flaw, and the end of a length. The last touches the
		// selvedge where the cloth is already narrower further along.
		err := Check(p, Lay{20, 50, []Placement{at}})
		if wrong := at.Y == 16; (err != nil) != wrong {
			t.Errorf("at %v: %v", at, err)
		}
	}
}

// Six plates 40 × 20 cm on lengths of 85, 45 and any cm, 20 cm wide: two, one
// and three go on them.
func TestPiecesAreSpreadOverTheLengths(t *testing.T) {
	p := Problem{WidthCM: 20, Lengths: []Length{{ToCM: 85}, {FromCM: 90, ToCM: 135}, {FromCM: 140, ToCM: math.Inf(1)}}}
	for range 6 {
		p.Items = append(p.Items, rect("plate", 40, 20))
	}
	l, err := Improve(context.Background(), p, Lay{}, steps(50), nil)
	if err != nil {
		t.Fatal(err)
	}
	if used := UsedCM(p, l); math.Abs(used[0]-80) > 1e-6 || math.Abs(used[1]-40) > 1e-6 || math.Abs(used[2]-120) > 1e-6 {
		t.Errorf("used %v cm; want 80, 40 and 120", used)
	}
	if math.Abs(ClothCM(p, l)-240) > 1e-6 || math.Abs(UsePercent(p, l)-100) > 1e-6 {
		t.Errorf("%g cm of cloth, %g %% used; want 240 and 100", ClothCM(p, l), UsePercent(p, l))
	}
}

// A stripe flawed right across at 30 to 35 cm: of two plates 25 cm long, 20 wide,
// on cloth 20 wide, the second ends at 60 cm at the earliest.
func TestBoundCountsFlaws(t *testing.T) {
	p := Problem{WidthCM: 20, Items: []Item{rect("a", 32, 20)}, Flaws: []Flaw{{Outline: box(30, 0, 35, 20)}}}
	if low := LowerBound(p); low < 66.9 || low > 67 {
		t.Errorf("bound %g cm; the piece of 32 cm begins after the flaw at 35", low)
	}
	p.Items = []Item{rect("a", 10, 10), rect("b", 10, 10), rect("c", 10, 10), rect("d", 10, 10)}
	p.Flaws = []Flaw{{Outline: box(0, 0, 10, 20)}}
	if low := LowerBound(p); low < 29.9 || low > 30 {
		t.Errorf("bound %g cm; want 30, with 10 cm flawed", low)
	}
}
