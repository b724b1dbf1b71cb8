package plan

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ellwand/garment"
	"ellwand/layout"
)

func worked(t testing.TB, p *Plan, o Options) *Result {
	t.Helper()
	r, err := Work(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestEveryDraftIsLaidWhole(t *testing.T) {
	for _, d := range garment.Drafts() {
		for _, nap := range []bool{false, true} {
			p := ferryman(d.Key)
			p.Nap, p.TwoFaced = nap, !nap
			r := worked(t, p, Options{})
			copies := 0
			for _, piece := range r.Garment.Pieces {
				copies += piece.Copies
			}
			if err := layout.Check(r.Prepared.Problem, r.Lay); err != nil || len(r.Lay.Placements) != copies || len(r.Faults) != 0 {
				t.Errorf("%s: %d of %d pieces laid, %v", d.Key, len(r.Lay.Placements), copies, err)
			}
			least := 40.0
			if d.Key == "leg_wraps" || d.Key == "coif" { // little more than narrow strips on wide cloth
				least = 20
			}
			if r.Lay.LengthCM < r.LowerBoundCM() || r.UsePercent < least || r.UsePercent > 100 {
				t.Errorf("%s: %g cm long, bound %g cm, %g %% used", d.Key, r.Lay.LengthCM, r.LowerBoundCM(), r.UsePercent)
			}
		}
	}
}

// A whole half circle of 130 cm does not lie on cloth of 75 cm, which is told.
func TestHalfCircleWiderThanTheClothIsTold(t *testing.T) {
	p := ferryman("half_circle_cloak")
	p.Params = map[string]float64{"cloak_widths": 1}
	_, err := Work(context.Background(), p, Options{})
	if err == nil || !strings.Contains(err.Error(), "cloak") || !strings.Contains(err.Error(), "wide") {
		t.Errorf("a cloak wider than the cloth: %v", err)
	}
}

// Two belts of 105 × 25 cm fill 50 cm of width for 105 cm. Off the loom
// 105 ÷ 0.88 = 119.318 cm, woven 119.318 ÷ 0.92 = 129.694 cm, warp 194.694 cm
// with 65 cm of waste; 50 ÷ 0.86 ÷ 0.93 = 62.516 cm in the reed before it is
// made up to whole dents.
func TestBeltsWorkedByHand(t *testing.T) {
	r := worked(t, planks(), Options{})
	c := r.Reckoning
	near := func(what string, got, want, within float64) {
		if math.Abs(got-want) > within {
			t.Errorf("%s is %g, want %g", what, got, want)
		}
	}
	near("lay", r.Lay.LengthCM, 105, 1e-6)
	near("use", r.UsePercent, 100, 1e-6)
	near("bound", r.LowerBoundCM(), 105, 1e-6)
	near("off loom", c.OffLoomLengthCM, 119.318, 0.001)
	near("woven", c.WovenLengthCM, 129.694, 0.001)
	near("warp", c.WarpLengthCM, 194.694, 0.001)
	near("reed", c.ReedWidthCM, 62.516, 0.5)
	if c.ReedWidthCM < 62.51 {
		t.Error("the reed is narrower than the cloth needs")
	}
}

func TestSamePlanSameResult(t *testing.T) {
	a, b := worked(t, ferryman("tunic"), Options{Seed: 3}), worked(t, ferryman("tunic"), Options{Seed: 3})
	x, _ := a.JSON()
	y, _ := b.JSON()
	if !reflect.DeepEqual(a.Lay, b.Lay) || string(x) != string(y) || a.Text("cm") != b.Text("cm") {
		t.Error("the same plan gave two results")
	}
}

func TestPackingShortensAndTellsWhatItFinds(t *testing.T) {
	p := ferryman("tunic")
	first := worked(t, p, Options{})
	var lengths []float64
	r := worked(t, p, Options{Seed: 1, Threads: 1, Seconds: 0.5, Found: func(r *Result) { lengths = append(lengths, r.Lay.LengthCM) }})
	if r.Lay.LengthCM > first.Lay.LengthCM || len(lengths) == 0 || lengths[0] != first.Lay.LengthCM || lengths[len(lengths)-1] != r.Lay.LengthCM {
		t.Errorf("first %g cm, told %v, in the end %g cm", first.Lay.LengthCM, lengths, r.Lay.LengthCM)
	}
	cancelled, stop := context.WithCancel(context.Background())
	stop()
	if r, err := Work(cancelled, p, Options{Seconds: 60}); err != nil || len(r.Lay.Placements) == 0 {
		t.Errorf("stopped at once: %v", err)
	}
}

func TestKeptLayIsUsedUnchanged(t *testing.T) {
	p := planks()
	r := worked(t, p, Options{})
	for i := range r.Lay.Placements {
		r.Lay.Placements[i].X += 30
	}
	r.Lay.LengthCM += 30
	p.KeepLay(r)
	p.Lay.Placements[0].Pinned = true
	again := worked(t, p, Options{KeepLay: true, Seconds: 5})
	if !reflect.DeepEqual(again.Lay, r.Lay) || p.LayFaults(again) != nil {
		t.Errorf("kept %v, got %v, faults %v", r.Lay, again.Lay, p.LayFaults(again))
	}
	fresh := worked(t, p, Options{})
	if fresh.Lay.Placements[0] != r.Lay.Placements[0] {
		t.Error("the pinned piece was moved")
	}
	p.KeepLay(fresh)
	if !p.Lay.Placements[0].Pinned || p.Lay.Placements[1].Pinned {
		t.Error("the pin was not kept")
	}
}

func TestFaultsOfAKeptLayInWords(t *testing.T) {
	p := planks()
	r := worked(t, p, Options{})
	p.KeepLay(r)
	sound := p.Lay
	for name, c := range map[string]struct {
		change func(*SavedLay)
		want   string
	}{
		"overlap": {func(l *SavedLay) { l.Placements[1].Placement = l.Placements[0].Placement }, "overlap"},
		"missing": {func(l *SavedLay) { l.Placements = l.Placements[:1] }, "does not place belt/2"},
		"extra":   {func(l *SavedLay) { l.Placements = append(l.Placements, SavedPlacement{ID: "hood/1"}) }, "hood/1, which the plan does not have"},
		"twice":   {func(l *SavedLay) { l.Placements = append(l.Placements, l.Placements[0]) }, "belt/1 more than once"},
		"outside": {func(l *SavedLay) { l.Placements[0].X -= 400 }, "past the first cut end"},
	} {
		p.Lay = sound
		p.Lay = p.Clone().Lay
		c.change(p.Lay)
		again := worked(t, p, Options{KeepLay: true})
		if faults := strings.Join(p.LayFaults(again), " "); !strings.Contains(faults, c.want) {
			t.Errorf("%s: %q", name, faults)
		}
		if layout.Check(again.Prepared.Problem, again.Lay) != nil {
			t.Errorf("%s: the faulty lay was used", name)
		}
	}
}

func TestDraggedOverlapIsShown(t *testing.T) {
	p := planks()
	r := worked(t, p, Options{})
	lay := r.Lay
	lay.Placements = slices.Clone(lay.Placements)
	lay.Placements[1] = lay.Placements[0]
	dragged, err := ReckonLay(p, r.Prepared, lay)
	if err != nil || len(dragged.Faults) == 0 {
		t.Fatalf("faults %v, %v", dragged.Faults, err)
	}
	for _, piece := range dragged.Sheet("").Pieces {
		if !piece.Fault {
			t.Errorf("%s %d is not marked", piece.Name, piece.Copy)
		}
	}
}

// keysOf is the sorted keys of a JSON object.
func keysOf(t *testing.T, v any) string {
	t.Helper()
	m, ok := v.(map[string]any)
	if !ok {
		t.Fatalf("%v is no object", v)
	}
	return strings.Join(sortedKeys(m), " ")
}

func TestKeysOfTheJSON(t *testing.T) {
	r := worked(t, ferryman("tunic"), Options{})
	data, err := r.JSON()
	if err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	first := func(key string) any {
		list, _ := got[key].([]any)
		if len(list) == 0 {
			t.Fatalf("%s is empty or null", key)
		}
		return list[0]
	}
	for _, c := range []struct {
		v    any
		want string
	}{
		{got, "cannot_be_made cautions cloth figures flaws fleeces hours lay lengths notes pieces piecing reed samples sewing yarns"},
		{first("figures"), "from key label of unit value"},
		{got["reed"], "dent_order dents_per_10cm"},
		{first("pieces"), "copies cut_area_cm2 cut_length_cm cut_width_cm name"},
		{got["lay"], "length_cm lower_bound_cm use_percent width_cm"},
		{got["cloth"], "dents ends finished_length_cm finished_width_cm off_loom_length_cm off_loom_width_cm picks reed_width_cm warp_length_cm woven_length_cm"},
		{first("yarns"), "length_m mass_g name"},
		{got["hours"], "budget_h finish_earliest finish_latest finish_likely high_h likely_h low_h tasks verdict"},
		{got["hours"].(map[string]any)["tasks"].([]any)[0], "from high_h likely_h low_h name quantity unit"},
		{first("fleeces"), "in_hand_of_need kind name parts raw_have_g raw_needed_g runs_out_first stages"},
	} {
		keys := strings.Fields(keysOf(t, c.v))
		for _, want := range strings.Fields(c.want) { // keys may be added, none go
			if !slices.Contains(keys, want) {
				t.Errorf("keys %q, want %q among them", keys, want)
			}
		}
	}
	p := planks()
	p.Fleeces = nil
	for i := range p.Yarns {
		p.Yarns[i].Fleece = ""
	}
	if data, _ := worked(t, p, Options{}).JSON(); strings.Contains(string(data), "null") {
		t.Errorf("a list is null:\n%s", data)
	}
}

func TestPrintedReckoning(t *testing.T) {
	r := worked(t, ferryman("tunic"), Options{})
	text := r.Text("cm")
	for _, want := range []string{"Ferryman's tunic", "2 × sleeve", "from: ", "Yarn grey-warp", "Fleece grey: ", "No lay at this width can be shorter than"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the printed reckoning", want)
		}
	}
	for _, y := range r.Reckoning.Yarns {
		if !strings.Contains(text, fmt.Sprintf("%.0f m, %.0f g", y.LengthM, y.MassG)) {
			t.Errorf("%s's metres and grams are not printed", y.Name)
		}
	}
	if inches := r.Text("inch"); !strings.Contains(inches, fmt.Sprintf("%.2f in", r.Lay.WidthCM/2.54)) {
		t.Error("the width is not printed in inches")
	}
}

func TestUnknownYarnIsNamed(t *testing.T) {
	p := ferryman("tunic")
	p.WarpYarn = "grey-wrap"
	_, err := Work(context.Background(), p, Options{})
	if err == nil || !strings.Contains(err.Error(), "cloth.warp") || !strings.Contains(err.Error(), `did you mean "grey-warp"?`) {
		t.Errorf("%v", err)
	}
}

func TestSheetHoldsEveryPieceInCuttingOrder(t *testing.T) {
	r := worked(t, ferryman("tunic"), Options{})
	s := r.Sheet("2026-03-01")
	var numbers []int
	marks := 0
	for i, piece := range s.Pieces {
		numbers = append(numbers, piece.Number)
		marks += len(piece.Marks)
		box := piece.Cut.Bounds()
		if box.MinX < -1e-6 || box.MinY < -1e-6 || box.MaxX > s.LengthCM+1e-6 || box.MaxY > s.WidthCM+1e-6 {
			t.Errorf("%s lies beside the cloth", piece.Name)
		}
		if want := layout.Placed(r.Prepared.Problem.Items[i], r.Lay.Placements[i]); !reflect.DeepEqual(piece.Cut, want) {
			t.Errorf("%s is drawn where it does not lie", piece.Name)
		}
		for _, line := range append(piece.Marks, piece.Seam) {
			for _, v := range line {
				if v.X < box.MinX-1e-6 || v.X > box.MaxX+1e-6 || v.Y < box.MinY-1e-6 || v.Y > box.MaxY+1e-6 {
					t.Fatalf("%s: a line lies outside its piece", piece.Name)
				}
			}
		}
	}
	slices.Sort(numbers)
	for i, n := range numbers {
		if n != i+1 {
			t.Fatalf("numbers %v", numbers)
		}
	}
	if marks == 0 || s.Date != "2026-03-01" || !strings.Contains(s.Warp, "grey-warp 110 tex Z, ") {
		t.Errorf("%d marks, date %q, warp %q", marks, s.Date, s.Warp)
	}
}

func BenchmarkFirstLayOfTheTunic(b *testing.B) {
	p := ferryman("tunic")
	for b.Loop() {
		pr, err := Prepare(p)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := FirstLay(pr); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReckoningOfADraggedLay(b *testing.B) {
	p := ferryman("tunic")
	r := worked(b, p, Options{})
	for b.Loop() {
		if _, err := ReckonLay(p, r.Prepared, r.Lay); err != nil {
			b.Fatal(err)
		}
	}
}
