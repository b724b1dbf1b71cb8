package layout

import (
	"context"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Five plates 20 × 20 cm in a row on cloth 20 cm wide. Where a flaw 2 cm long
// lies on the third and there is cloth beyond, that one alone moves, to the end.
func TestOnlyThePieceOnTheFlawMoves(t *testing.T) {
	p := Problem{WidthCM: 20}
	was := Lay{WidthCM: 20, LengthCM: 100}
	for k := range 5 {
		p.Items = append(p.Items, rect("plate", 20, 20))
		was.Placements = append(was.Placements, Placement{X: 20 * float64(k)})
	}
	p.Flaws = []Flaw{{Name: "hole", Outline: box(50, 0, 52, 20)}}
	kept, err := Keep(context.Background(), p, was, 130, Settings{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(kept.Moved, []int{2}) || !kept.Fits || len(kept.Must) != 1 || kept.Must[0].Kind != OnFlaw || kept.Lay.Placements[2].X != 100 {
		t.Errorf("moved %v to %v, fits %v; want the third to 100 cm", kept.Moved, kept.Lay.Placements, kept.Fits)
	}
	// With 102 cm of cloth the third has room only where it lies, moved 12 cm on
	// past the flaw, and then the two after it move as well.
	if kept, err = Keep(context.Background(), p, was, 112, Settings{Seed: 1}); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(kept.Moved, []int{2, 3, 4}) || !kept.Fits || kept.Lay.Placements[2].X != 52 || kept.Lay.Placements[4].X != 92 {
		t.Errorf("moved %v to %v, fits %v; want the last three, 12 cm each", kept.Moved, kept.Lay.Placements, kept.Fits)
	}
	// With less there is no room at all; what can stay does not fall over that.
	if kept, err = Keep(context.Background(), p, was, 100, Settings{Seed: 1}); err != nil || kept.Fits {
		t.Errorf("fits %v (%v), though 102 cm are needed and there are 100", kept.Fits, err)
	}
}

func TestNothingMovesWhereNothingMust(t *testing.T) {
	p := tunic()
	was, err := First(p)
	if err != nil {
		t.Fatal(err)
	}
	kept, err := Keep(context.Background(), p, was, was.LengthCM, Settings{Seed: 1})
	if err != nil || len(kept.Moved) > 0 || !kept.Fits {
		t.Errorf("moved %v, fits %v, %v", kept.Moved, kept.Fits, err)
	}
	p.Flaws = []Flaw{{Outline: box(was.LengthCM+1, 0, was.LengthCM+2, p.WidthCM)}}
	if kept, err = Keep(context.Background(), p, was, math.Inf(1), Settings{Seed: 1}); err != nil || len(kept.Moved) > 0 {
		t.Errorf("a flaw beyond the lay moves %v, %v", kept.Moved, err)
	}
}

func TestKeptLaysAreLegalAndLeavePinnedAndUntouchedPieces(t *testing.T) {
	fits := 0
	rapid.Check(t, func(t *rapid.T) {
		before := Problem{WidthCM: 50, Items: somePieces(t, 8)}
		was, err := First(before)
		if err != nil {
			t.Fatal(err)
		}
		p := before
		p.Items = slices.Clone(p.Items)
		if rapid.Bool().Draw(t, "pin") {
			p.Items[0].Pinned = &was.Placements[0]
		}
		x := hundredths(t, 0, int(was.LengthCM*100), "flaw")
		p.Flaws = []Flaw{{Outline: box(x, hundredths(t, 0, 2000, "from"), x+3, 40)}}
		if p.Validate() != nil {
			t.Skip("the flaw is under the pin")
		}
		limit := was.LengthCM * rapid.Float64Range(1, 1.5).Draw(t, "room")
		kept, err := Keep(context.Background(), p, was, limit, Settings{Seed: 3})
		if err != nil {
			t.Fatal(err)
		}
		if err := clearOfAll(p, kept.Lay); err != nil {
			t.Fatal(err)
		}
		for _, f := range kept.Must {
			if !slices.Contains(kept.Moved, f.ItemA) {
				t.Fatalf("%s, but it has not moved", f.Text)
			}
		}
		if kept.Fits != (kept.Lay.LengthCM <= limit+fitCM) {
			t.Fatalf("fits is %v at %g of %g cm", kept.Fits, kept.Lay.LengthCM, limit)
		}
		if p.Items[0].Pinned != nil && kept.Lay.Placements[0] != was.Placements[0] {
			t.Fatal("the pinned piece has moved")
		}
		if kept.Fits {
			fits++
		}
	})
	if fits == 0 {
		t.Error("room was never found")
	}
}
