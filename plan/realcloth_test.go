package plan

import (
	"bytes"
	"context"
	"math"
	"strings"
	"testing"

	"ellwand/assets"
	"ellwand/layout"
)

const twoLengths = `real_cloth:
  lengths:
    # the first web
    - {name: first, length_cm: 260, width_cm: 64}
    - {name: second, length_cm: 300}
  widths:
    - {on: second, at_cm: 0, width_cm: 63.5}
    - {on: second, at_cm: 300, width_cm: 62, left_cm: 0.5}
  flaws:
    - {name: broken pick, from_cm: 120, to_cm: 121}
    - name: stain
      on: second
      outline_cm: [[40, 20], [52, 22], [46, 31]]
`

func TestRealClothIsReadAndSaved(t *testing.T) {
	p := starterWith(t, twoLengths)
	if len(p.Real.Lengths) != 2 || p.Real.Widths[1].LeftCM != 0.5 || p.Real.Flaws[1].OutlineCM[2] != [2]float64{46, 31} {
		t.Fatalf("%+v", p.Real)
	}
	if err := SetField(p, "real_cloth.flaws[broken pick].to_cm", "122"); err != nil {
		t.Fatal(err)
	}
	data, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	for _, kept := range []string{"# the first web", "{name: broken pick, from_cm: 120, to_cm: 122}", "{on: second, at_cm: 300, width_cm: 62, left_cm: 0.5}"} {
		if !bytes.Contains(data, []byte(kept)) {
			t.Errorf("saved without %q:\n%s", kept, data[bytes.Index(data, []byte("real_cloth")):])
		}
	}
	if again, err := Parse(data, "plan.yaml"); err != nil || again.Real.Flaws[0].ToCM != 122 {
		t.Errorf("read again: %v", err)
	}
}

func TestRealClothThatCannotBeIsRefusedByName(t *testing.T) {
	for _, c := range []struct{ is, says string }{
		{"flaws: [{name: a, from_cm: 5, to_cm: 5}]", "real_cloth.flaws[a].to_cm is 5, not beyond from_cm"},
		{"flaws: [{name: a, outline_cm: [[0, 0], [5, 5]]}]", "at least 3 are needed"},
		{"flaws: [{name: a, to_cm: 4, outline_cm: [[0, 0], [5, 5], [0, 5]]}]", "stands beside to_cm"},
		{"flaws: [{name: a, on: third, to_cm: 4}]", "names no lengths of cloth"},
		{"flaws: [{name: a, to_cm: 4}, {name: a, to_cm: 4}]", "given twice"},
		{"lengths: [{name: a}, {name: b}]", "real_cloth.lengths[a].length_cm is missing"},
		{"lengths: [{name: a}]\n  flaws: [{name: f, on: b, to_cm: 4}]", "none of the lengths"},
		{"widths: [{at_cm: 0, width_cm: 60}]", "the only place measured"},
		{"widths: [{at_cm: 9, width_cm: 60}, {at_cm: 9, width_cm: 60}]", "not beyond the place before"},
		{"lengths: [{name: a, length_cm: 9}]\n  widths: [{at_cm: 10, width_cm: 60}]", "beyond the length's end"},
		{"flaw: []", "did you mean flaws"},
	} {
		_, err := Parse(append(bytes.Clone(assets.StarterPlan()), "real_cloth:\n  "+c.is+"\n"...), "plan.yaml")
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; want %q", c.is, err, c.says)
		}
	}
}

func TestWhatLiesOnWhichLengthIsSaid(t *testing.T) {
	p := starterWith(t, twoLengths)
	r := laid(t, p)
	pieces, used := 0, 0.0
	for _, u := range r.Lengths {
		pieces += len(u.Pieces)
		used += u.UsedCM
		if u.LengthCM > 0 && u.UsedCM > u.LengthCM+1e-6 {
			t.Errorf("%s is %g cm, and %g are used", u.Name, u.LengthCM, u.UsedCM)
		}
	}
	if pieces != len(r.Prepared.Problem.Items) || math.Abs(used-r.ClothCM()) > 1e-6 || math.Abs(r.Reckoning.FinishedLengthCM-used-p.Cloth.ExtraLengthCM) > 1e-6 {
		t.Errorf("%d pieces on %g cm; %g cm are reckoned", pieces, used, r.Reckoning.FinishedLengthCM)
	}
	if text := r.Text("cm"); !strings.Contains(text, "On first, ") || !strings.Contains(text, "Flaws kept clear of: broken pick, stain") {
		t.Error("the reckoning says nothing of the lengths and flaws")
	}
}

// When the first length turns out 10 cm longer, what lies on the second stays
// where it lay on it.
func TestKeptPiecesGoWithTheirLength(t *testing.T) {
	p := starterWith(t, twoLengths)
	r := laid(t, p)
	p.KeepLay(r)
	p.Real.Lengths[0].LengthCM += 10
	pr, err := Prepare(p)
	if err != nil {
		t.Fatal(err)
	}
	lay, ok := SavedLayFits(p, pr)
	if !ok {
		t.Fatal(layout.Faults(pr.Problem, lay))
	}
	moved := 0
	for i, at := range lay.Placements {
		switch d := at.X - r.Lay.Placements[i].X; {
		case math.Abs(d-10) < 1e-6:
			moved++
		case math.Abs(d) > 0.0006:
			t.Errorf("%s lies %g cm from where it was", pr.Problem.Items[i].ID, d)
		}
	}
	if moved == 0 || moved == len(lay.Placements) {
		t.Errorf("%d pieces went with the second length", moved)
	}
}

func TestPiecesOfSeveralWarpsRunAcrossNone(t *testing.T) {
	p := Starter()
	p.Loom.MaxWarpM = 4.5
	r := laid(t, p)
	if r.Reckoning.Warps != len(r.Lengths) || r.Reckoning.Warps < 2 {
		t.Errorf("%d warps, %d lengths", r.Reckoning.Warps, len(r.Lengths))
	}
	for _, u := range r.Lengths {
		if u.UsedCM > u.LengthCM+1e-6 && u.LengthCM > 0 || len(u.Pieces) == 0 {
			t.Errorf("%+v", u)
		}
	}
	for _, c := range r.Cautions {
		if strings.Contains(c, "no piece can run across") {
			t.Errorf("cautioned of what is seen to: %s", c)
		}
	}
}

func TestWhatMustMoveOnTheFinishedClothOfTheLog(t *testing.T) {
	p := Starter()
	if _, err := KeepNear(context.Background(), p, Options{}); err == nil {
		t.Error("without a lay there is nothing to keep")
	}
	r := laid(t, p)
	p.KeepLay(r)
	p.Log.Finished = MeasuredCloth{WidthCM: 62.5, LengthCM: r.ClothCM() + 80}
	k, err := KeepNear(context.Background(), p, Options{Seed: 1, Seconds: 5})
	if err != nil {
		t.Fatal(err)
	}
	if len(k.Moves) == 0 || len(k.Stay) == 0 || !k.Fits || len(k.Result.Faults) > 0 || k.Result.Lay.WidthCM != 62.5 {
		t.Errorf("%s fits %v, faults %v", k.Text("cm"), k.Fits, k.Result.Faults)
	}
	for _, m := range k.Moves {
		if m.Why != "" && !strings.Contains(m.Why, "selvedge") {
			t.Errorf("%s moves because %s", m.ID, m.Why)
		}
	}
	pr, err := Prepare(k.Plan)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := SavedLayFits(k.Plan, pr); !ok {
		t.Error("the lay as moved is not sound when read again")
	}
}

func TestKeptPlacesAreWrittenToAThousandth(t *testing.T) {
	p := Starter()
	r, err := Work(context.Background(), p, Options{Seed: 3, Seconds: 0.3})
	if err != nil {
		t.Fatal(err)
	}
	p.KeepLay(r)
	for _, s := range p.Lay.Placements {
		if toThousandth(s.X) != s.X || toThousandth(s.Y) != s.Y {
			t.Errorf("%s is kept at (%v, %v)", s.ID, s.X, s.Y)
		}
	}
	data, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse(data, "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	pr, err := Prepare(again)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := SavedLayFits(again, pr); !ok {
		t.Error("read again it has a fault")
	}
}
