package cloth

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Of all reeds and all orders of up to six dents, whatever their counts, none
// comes nearer than the one taken by more than half a hundredth of the sett.
func TestNoOtherSleyComesNearer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Setting{FinishedEndsPerCM: rapid.Float64Range(2, 40).Draw(t, "wanted"), DrawIn: rapid.Float64Range(0, 0.2).Draw(t, "draw-in")}
		l := Loom{}
		for range rapid.IntRange(1, 5).Draw(t, "reeds") {
			l.ReedsDentsPer10CM = append(l.ReedsDentsPer10CM, rapid.Float64Range(20, 120).Draw(t, "reed"))
		}
		taken := chooseSley(s, l)
		off := math.Abs(taken.endsPerCM() - s.OnLoomEndsPerCM())
		for _, reed := range l.ReedsDentsPer10CM {
			for dents := 1; dents <= 6; dents++ {
				for ends := 1; ends <= 30*dents; ends++ {
					if other := math.Abs(reed/10*float64(ends)/float64(dents) - s.OnLoomEndsPerCM()); other < off-sleyNear*s.OnLoomEndsPerCM()-1e-9 {
						t.Fatalf("took %v, %g off, but %g with %d ends in %d dents is %g off", taken, off, reed, ends, dents, other)
					}
				}
			}
		}
		if all := Sleys(s, l); all[0].ReedDentsPer10CM != taken.dentsPer10CM || !slices.Equal(all[0].DentOrder, taken.order) {
			t.Fatalf("took %v, but %v stands first", taken, all[0])
		}
	})
}

// 12 ends per cm finished with a tenth lost twice want 9.72 in the reed. Reed 40:
// 2.43 a dent, 2-3-2-3-2 is 9.6; 50: 1.944, 2 is 10.0; 60: 1.62, 1-2-1-2-2 is 9.6
// and 1-2-2 is 10.0; 65: 1.495, 1-2 is 9.75, 0.3 % off and the shortest.
func TestBestOfTheReedsOwned(t *testing.T) {
	s := Setting{FinishedEndsPerCM: 12, ShrinkWidth: 0.1, DrawIn: 0.1}
	all := Sleys(s, Loom{ReedsDentsPer10CM: []float64{40, 50, 60, 65}})
	if len(all) != 4 || all[0].ReedDentsPer10CM != 65 || !slices.Equal(all[0].DentOrder, []int{1, 2}) {
		t.Fatalf("sleys %v; want the reed of 65 with 1-2 first", all)
	}
	near(t, "on the loom", all[0].EndsPerCMOnLoom, 9.75, 1e-9)
	near(t, "finished, really", all[0].EndsPerCMFinished, 9.75/0.81, 1e-9)
	near(t, "off, %", all[0].OffPercent, 100*(9.75/9.72-1), 1e-9)
}

func TestDentOrderIsSpreadEvenly(t *testing.T) {
	for _, c := range []struct {
		ends, dents int
		want        []int
	}{{3, 2, []int{1, 2}}, {5, 3, []int{1, 2, 2}}, {4, 3, []int{1, 1, 2}}, {2, 5, []int{0, 0, 1, 0, 1}}} {
		if got := evenOrder(c.ends, c.dents); !slices.Equal(got, c.want) {
			t.Errorf("%d ends in %d dents: %v, want %v", c.ends, c.dents, got, c.want)
		}
	}
}

func TestRigidHeddleTakesOneOrTwoEnds(t *testing.T) {
	in := simple() // 10 ends per cm wanted
	in.Loom.Kind, in.Loom.ReedsDentsPer10CM = RigidFrame, []float64{40, 50}
	if r := reckon(t, in); r.ReedDentsPer10CM != 50 || !slices.Equal(r.DentOrder, []int{2}) {
		t.Errorf("heddle of %g, order %v; want 50 and 2", r.ReedDentsPer10CM, r.DentOrder)
	}
	in.Loom.ReedsDentsPer10CM = []float64{40, 70}
	if r := reckon(t, in); r.ReedDentsPer10CM != 40 || !slices.Equal(r.DentOrder, []int{2}) {
		t.Errorf("heddle of %g, order %v; want 40 and 2: 8 is nearer to 10 than 7 and 14", r.ReedDentsPer10CM, r.DentOrder)
	}
}

// 10 cm at 10 per cm with no reed: 100 ends, spaced by the starting border.
func TestReedlessLoomSpacesEndsAsWanted(t *testing.T) {
	in := simple()
	in.Setting.FinishedEndsPerCM = 9.7
	in.Loom.Kind, in.Loom.ReedsDentsPer10CM = WarpWeighted, nil
	r := reckon(t, in)
	near(t, "sett", r.EndsPerCMOnLoom, 9.7, 1e-12)
	near(t, "ends", float64(r.Ends), 97, 0)
	if len(r.Sleys) != 0 {
		t.Errorf("sleys %v of no reed", r.Sleys)
	}
	in.Loom.Kind = FloorLoom
	if _, err := Reckon(in); err == nil {
		t.Error("a floor loom without a reed is accepted")
	}
}
