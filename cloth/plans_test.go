package cloth

import (
	"errors"
	"strings"
	"testing"
)

// shift is worked by hand: 72 × 500 cm of one yarn both ways, whole fleece, tabby.
// Width: 72/0.95 = 75.789 off loom; /0.94 = 80.627 in the reed × 6.5 = 524.08, so
// 525 dents = 80.769 cm; sett wanted 14·0.95·0.94 = 12.502, had 6.5·2 = 13; ends
// 1050 + 8 = 1058; finished ends 13/0.893 = 14.558. Length: 500/0.92 = 543.478;
// /0.9 = 603.865 woven. Not woven as cloth 12 + 40 = 52 a warp; one warp holds
// 400 − 52 = 348, so two: 603.865 + 104 = 707.865. Picks 12 × 500 = 6000.
// Warp 1058 × 7.07865 = 7489.21 m; a pick 80.769 × 1.06 + 0.8 = 86.4154 cm, weft
// 5184.92 m; together 12674.13 m × 70 tex = 887.189 g. Prepared 887.189/0.95 =
// 933.883; raw 933.883/(0.9·0.6·0.92 = 0.4968) = 1879.80 g.
func TestShiftWorkedByHand(t *testing.T) {
	one := Yarn{Name: "white", Tex: 70, Fleece: "white", Coat: CoatWhole, SpinLoss: 0.05}
	r := reckon(t, Input{LayWidthCM: 72, LayLengthCM: 500,
		Setting: Setting{Weave: "tabby", FinishedEndsPerCM: 14, FinishedPicksPerCM: 12, TakeUp: 0.1, DrawIn: 0.06,
			ShrinkLength: 0.08, ShrinkWidth: 0.05, WeftCrimp: 0.06, WeftTurnCM: 0.8, SelvedgeExtraEnds: 8, HeadingCM: 12, DentOrder: []int{2}},
		Loom: Loom{MaxReedWidthCM: 100, WasteCM: 40, MaxWarpM: 4, ReedsDentsPer10CM: []float64{45, 65, 80}},
		Warp: one, Weft: one,
		Fleeces: []Fleece{{Name: "white", RawG: 2000, SkirtingLoss: 0.1, ScouredYield: 0.6, OuterShare: 0.5, OuterYield: 0.7, InnerYield: 0.8, WholeYield: 0.92}}})
	near(t, "off loom width", r.OffLoomWidthCM, 75.789, 0.001)
	near(t, "reed", r.ReedDentsPer10CM, 65, 0)
	near(t, "dents", float64(r.Dents), 525, 0)
	near(t, "reed width", r.ReedWidthCM, 80.769, 0.001)
	near(t, "ends", float64(r.Ends), 1058, 0)
	near(t, "ends per cm finished", r.EndsPerCMFinished, 14.558, 0.001)
	near(t, "off loom length", r.OffLoomLengthCM, 543.478, 0.001)
	near(t, "woven", r.WovenLengthCM, 603.865, 0.001)
	near(t, "warps", float64(r.Warps), 2, 0)
	near(t, "warp length", r.WarpLengthCM, 707.865, 0.001)
	near(t, "picks", float64(r.Picks), 6000, 0)
	if len(r.Yarns) != 1 || len(r.Shortfalls) != 0 {
		t.Fatalf("%d yarns, shortfalls %v; want one and none", len(r.Yarns), r.Shortfalls)
	}
	near(t, "yarn", r.Yarns[0].LengthM, 12674.13, 0.02)
	near(t, "mass", r.Yarns[0].MassG, 887.189, 0.002)
	near(t, "raw", r.Fleeces[0].RawNeededG, 1879.80, 0.02)
	if r.Fleeces[0].ShortCoat != CoatWhole || !strings.Contains(strings.Join(r.Cautions, "\n"), "no piece can run across the end of a warp") {
		t.Errorf("coat %s, cautions %q", r.Fleeces[0].ShortCoat, r.Cautions)
	}
}

// trousers are worked by hand: 55 × 420 cm, bought warp, weft of the inner coat.
// Width: 55/0.75 = 73.333; /0.96 = 76.389 × 2.5 = 190.97, so 191 dents = 76.4 cm;
// filled 1-2: 95 × 3 + 1 = 286, + 6 = 292 ends; sett 3.75, finished 3.75/0.72 =
// 5.208. Length: 420/0.8 = 525; /0.94 = 558.511; + 25 + 10 + 70 = 663.511. Picks
// 5.5 × 420 = 2310. Warp 292 × 6.63511 = 1937.45 m × 240 tex = 464.988 g. Weft
// 2310 × (76.4 × 1.03 + 1.2 = 79.892) = 1845.51 m × 300 = 553.652 g. Prepared
// 553.652/0.92 = 601.795; kept 0.88·0.7·0.96·0.65·0.9 = 0.345946; raw 1739.56 g.
// In hand 1800 m: short by 137.45. Left of outer coat: 2500 × 0.88·0.7·0.96·0.35
// ·0.75 = 388.08; of inner 2500 × 0.345946 − 601.795 = 263.07 g. Finished cloth:
// 76.4·0.96·0.75 = 55.008 cm × 4.2 m = 2.31034 m²; (292 × 5.58511 m × 240 tex
// + 553652)/1000 = 945.056 g, 409.06 g/m².
func TestTrousersWorkedByHand(t *testing.T) {
	r := reckon(t, Input{LayWidthCM: 55, LayLengthCM: 420,
		Setting: Setting{Weave: "2/2 twill", FinishedEndsPerCM: 6, FinishedPicksPerCM: 5.5, TakeUp: 0.06, DrawIn: 0.04,
			ShrinkLength: 0.2, ShrinkWidth: 0.25, WeftCrimp: 0.03, WeftTurnCM: 1.2, SelvedgeExtraEnds: 6, SampleCM: 25, HeadingCM: 10,
			ReedDentsPer10CM: 25, DentOrder: []int{1, 2}},
		Loom:    Loom{MaxReedWidthCM: 80, WasteCM: 70},
		Warp:    Yarn{Name: "bought", Tex: 240, InHandM: 1800, HaveInHand: true},
		Weft:    Yarn{Name: "soft", Tex: 300, Fleece: "brown", Coat: CoatInner, SpinLoss: 0.08},
		Fleeces: []Fleece{{Name: "brown", RawG: 2500, SkirtingLoss: 0.12, ScouredYield: 0.7, SeparationLoss: 0.04, OuterShare: 0.35, OuterYield: 0.75, InnerYield: 0.9, WholeYield: 0.9}}})
	near(t, "dents", float64(r.Dents), 191, 0)
	near(t, "reed width", r.ReedWidthCM, 76.4, 1e-9)
	near(t, "ends", float64(r.Ends), 292, 0)
	near(t, "ends per cm finished", r.EndsPerCMFinished, 5.208, 0.001)
	near(t, "woven", r.WovenLengthCM, 558.511, 0.001)
	near(t, "warp length", r.WarpLengthCM, 663.511, 0.001)
	near(t, "picks", float64(r.Picks), 2310, 0)
	near(t, "warp yarn", r.Yarns[0].LengthM, 1937.45, 0.01)
	near(t, "warp mass", r.Yarns[0].MassG, 464.988, 0.002)
	near(t, "weft yarn", r.Yarns[1].LengthM, 1845.51, 0.01)
	near(t, "weft mass", r.Yarns[1].MassG, 553.652, 0.002)
	near(t, "g per m²", r.MassGPerM2, 409.056, 0.01)
	near(t, "raw", r.Fleeces[0].RawNeededG, 1739.56, 0.05)
	near(t, "outer coat left", r.Fleeces[0].LeftOuterG, 388.08, 0.01)
	near(t, "inner coat left", r.Fleeces[0].LeftInnerG, 263.07, 0.01)
	if len(r.Shortfalls) != 1 || !strings.Contains(r.Shortfalls[0].Text, "short by 137.451 m") {
		t.Errorf("shortfalls %v; want 137.451 m of the bought yarn", r.Shortfalls)
	}
	if !strings.Contains(strings.Join(r.Cautions, "\n"), "5.21 ends per cm finished, 13.2 % fewer than the 6 wanted") {
		t.Errorf("no caution that 5.21 per cm is far from the 6 wanted: %q", r.Cautions)
	}
}

func TestYarnOfNoLotOrCoatIsRefused(t *testing.T) {
	for name, spoil := range map[string]func(*Input){
		"warp yarn's fleece": func(in *Input) { in.Warp.Fleece = "lost" }, "weft yarn's coat": func(in *Input) { in.Weft.Coat = "middle" },
		"metres in hand": func(in *Input) { in.Warp.HaveInHand, in.Warp.InHandM = true, -1 }, "dent order": func(in *Input) { in.Setting.DentOrder = []int{0, 0} },
		"end count": func(in *Input) { in.Setting.DentOrder = []int{2, -1} }, "loom's reeds": func(in *Input) { in.Loom.ReedsDentsPer10CM = nil },
		"reed's dents": func(in *Input) { in.Setting.ReedDentsPer10CM = -4 },
	} {
		in := boatCloak()
		spoil(&in)
		var fault *FieldError
		if _, err := Reckon(in); !errors.As(err, &fault) || !strings.Contains(fault.Field, name) || fault.Accepted == "" {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// Losses a hair below 1 ask for more dents than an integer holds; the answer is
// still that the reed is too narrow.
func TestLossesNearOneAreAShortfall(t *testing.T) {
	in := boatCloak()
	in.Setting.DrawIn, in.Setting.ShrinkWidth = 1-1e-16, 1-1e-16
	r := reckon(t, in)
	if r.Dents <= 0 || len(r.Shortfalls) == 0 || r.Shortfalls[0].Key != "reed_width_cm" {
		t.Errorf("%d dents, shortfalls %v", r.Dents, r.Shortfalls)
	}
	if w := WidthSteps(in.Setting, Loom{MaxReedWidthCM: 1e15, ReedsDentsPer10CM: []float64{40}}, 1); w != nil {
		t.Errorf("%d widths of an endless reed", len(w))
	}
}

func TestWeightedLoomHasItsCaution(t *testing.T) {
	in := boatCloak()
	for _, weighted := range []bool{false, true} {
		in.Loom.Kind = map[bool]LoomKind{true: WarpWeighted}[weighted]
		if got := strings.Contains(strings.Join(Cautions(in), "\n"), "weights swing"); got != weighted {
			t.Errorf("weighted %v, caution %v", weighted, got)
		}
	}
}
