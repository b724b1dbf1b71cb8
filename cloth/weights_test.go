package cloth

import (
	"strings"
	"testing"
)

// ribe is the set-up of the flax report of Ribe (issuu maritimearchaeology.dk, 70
// and 71): 22 linen ends per cm, 116 weights of 300 to 400 g with 20 threads
// each; planned 95 cm wide, 2090 ends.
func ribe() Input {
	in := simple()
	in.Setting.FinishedEndsPerCM, in.LayWidthCM = 22, 95
	in.Loom.Kind, in.Loom.ReedsDentsPer10CM, in.Loom.MaxReedWidthCM = WarpWeighted, nil, 120
	in.Loom.Weights = Weights{Count: 116, MassG: 350, LightestG: 300, HeaviestG: 400, ThreadsEach: 20}
	return in
}

func TestRibeLoomAsReported(t *testing.T) {
	h := reckon(t, ribe()).Hanging
	if h == nil {
		t.Fatal("the weights are not worked out")
	}
	near(t, "ends held", float64(h.EndsHeld), 2320, 0)
	near(t, "width held", h.WidthHeldCM, 105.5, 0.1)
	near(t, "tension, lightest", h.TensionLowG, 15, 1e-9)
	near(t, "tension, heaviest", h.TensionHighG, 20, 1e-9)
	near(t, "weights for the 2090 ends planned", float64(h.WeightsNeeded), 105, 0)
}

// 275 g at 18 g a thread: 15 threads; 2 cm thick in two rows: 15 ends per cm, 30
// weights a row across 60 cm; 4 cm thick: 7.5 (derived from the rule of
// Mårtensson, Nosch and Andersson Strand 2009). 60 cm at 15 per cm: 900 ends, 60 weights.
func TestWeightsByTheRule(t *testing.T) {
	in := ribe()
	in.Setting.FinishedEndsPerCM, in.LayWidthCM = 15, 60
	in.Loom.Weights = Weights{MassG: 275, TensionG: 18, ThicknessCM: 2}
	h := reckon(t, in).Hanging
	near(t, "threads", float64(h.ThreadsPerWeight), 15, 0)
	near(t, "ends per cm", h.RuleEndsPerCM, 15, 1e-9)
	near(t, "in a row", float64(h.RuleWeightsPerRow), 30, 0)
	near(t, "in all", float64(h.RuleWeights), 60, 0)
	near(t, "needed", float64(h.WeightsNeeded), 60, 0)
	near(t, "row", h.RowWidthCM, 60, 1e-9)
	in.Loom.Weights.ThicknessCM, in.Loom.Weights.Count = 4, 40
	h = reckon(t, in).Hanging
	near(t, "ends per cm of thick ones", h.RuleEndsPerCM, 7.5, 1e-9)
	near(t, "row of thick ones", h.RowWidthCM, 120, 1e-9)
	near(t, "tension when 40 share 900 ends", h.TensionOfAllG, 275*40.0/900, 1e-9)
	said := strings.Join(h.Remarks, "\n")
	for _, words := range []string{"20 too few", "splay out", "only 40 cm of warp"} {
		if !strings.Contains(said, words) {
			t.Errorf("%q is not said in: %s", words, said)
		}
	}
}

func TestWeightTooLightForOneThread(t *testing.T) {
	in := ribe()
	in.Loom.Weights = Weights{MassG: 10, TensionG: 18}
	if h := reckon(t, in).Hanging; h == nil || len(h.Remarks) != 1 || !strings.Contains(h.Remarks[0], "heavier weights") {
		t.Errorf("hanging %+v", h)
	}
}

func TestLoomWasteUsualForTheKind(t *testing.T) {
	in := simple()
	in.Loom.Kind = RigidFrame
	near(t, "warp with 17 in of waste", reckon(t, in).WarpLengthCM, 100+17*cmPerInch, 1e-9)
	in.Loom.WasteGiven = true
	near(t, "warp with no waste, as given", reckon(t, in).WarpLengthCM, 100, 1e-9)
	for _, k := range LoomKinds() {
		if k.WasteCM < 30 || k.WasteSource == "" || k.About == "" {
			t.Errorf("%+v", k)
		}
	}
}
