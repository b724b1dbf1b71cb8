package cloth

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Flax at Ribe 2010 (bertas-flachs.at, viborg-shirt): 54 kg pulled give 2.0 kg
// of line and 2.25 kg of tow.
func TestFlaxOfRibe(t *testing.T) {
	f := UsualPlant(Fleece{Name: "flax", Kind: LotPlant, RawG: 54000})
	n := f.need(map[Coat]float64{CoatLine: 2000}, nil)
	near(t, "raw for the line", n.RawNeededG, 54000, 1e-6)
	if n.ShortCoat != CoatLine || len(n.Parts) != 2 {
		t.Fatalf("short of %s, parts %+v", n.ShortCoat, n.Parts)
	}
	near(t, "line left", n.Parts[0].LeftG, 0, 1e-6)
	near(t, "tow, the by-product", n.Parts[1].LeftG, 2250, 1e-6)
	for i, want := range []float64{54000, 25000, 25000, 4250, 2000, 2250} {
		near(t, n.Stages[i].Name, n.Stages[i].G, want, 1e-6)
	}
}

// Worked by hand: 2000 g raw, skirting 0.1, scoured 0.7, separation 0.05:
// 1800, 1260, 1197 g. Outer 0.4 = 478.8 g, of it 0.7 top = 335.16, 0.2 noil =
// 95.76. Inner 718.2 g, 0.9 carded = 646.38. For 300 g of outer: raw 300 ÷
// (0.9 × 0.7 × 0.95 × 0.4 × 0.7) = 1790.19; for 500 g of inner 500 ÷ 0.32319 =
// 1547.08: the outer coat runs out first, and 35.16 and 146.38 g are left.
func TestFleeceWorkedByHand(t *testing.T) {
	f := Fleece{Name: "lot", RawG: 2000, SkirtingLoss: 0.1, ScouredYield: 0.7, SeparationLoss: 0.05, OuterShare: 0.4,
		OuterYield: 0.7, InnerYield: 0.9, WholeYield: 1, OuterNoil: 0.2}
	n := f.need(map[Coat]float64{CoatOuter: 300, CoatInner: 500}, nil)
	near(t, "raw needed", n.RawNeededG, 1790.19, 0.01)
	near(t, "raw for the inner coat", n.Parts[1].RawNeededG, 1547.08, 0.01)
	near(t, "outer left", n.Parts[0].LeftG, 35.16, 0.001)
	near(t, "inner left", n.Parts[1].LeftG, 146.38, 0.001)
	near(t, "noil", n.Parts[0].NoilG, 95.76, 0.001)
	if n.ShortCoat != CoatOuter || len(n.Stages) != 8 {
		t.Fatalf("%s runs out first; stages %+v", n.ShortCoat, n.Stages)
	}
	for i, want := range []float64{2000, 1800, 1260, 1197, 478.8, 335.16, 718.2, 646.38} {
		near(t, n.Stages[i].Name, n.Stages[i].G, want, 0.01)
	}
}

// A yarn of 600 g of half white fleece and half flax tow: 600 ÷ 0.95 × 0.5 =
// 315.789 g of each prepared; of the wool at 14 % regain where the yarn's grist
// holds at 18.25 %: 315.789 ÷ 1.1825 × 1.14 = 304.440 g.
func TestBlendDrawsOnEachLot(t *testing.T) {
	in := simple()
	in.Warp.Name, in.Weft = "blend", Yarn{}
	in.Warp.Blend = []FibrePart{{"white", CoatWhole, 0.5}, {"flax", CoatTow, 0.5}}
	in.Warp.SpinLoss, in.Warp.Regain = 0.05, 0.1825
	in.Weft = in.Warp
	in.Fleeces = []Fleece{{Name: "white", RawG: 1000, ScouredYield: 0.5, OuterShare: 0.5, OuterYield: 1, InnerYield: 1, WholeYield: 0.9, Regain: 0.14},
		UsualPlant(Fleece{Name: "flax", Kind: LotPlant, RawG: 1e5})}
	r := reckon(t, in)
	scale := 600 / r.Yarns[0].MassG
	near(t, "wool prepared", r.Fleeces[0].Parts[0].NeededG*scale, 304.440, 0.001)
	near(t, "wool raw", r.Fleeces[0].RawNeededG*scale, 304.440/0.45, 0.01)
	near(t, "tow", r.Fleeces[1].Parts[1].NeededG*scale, 315.789, 0.001)
	if r.Fleeces[1].ShortCoat != CoatTow {
		t.Errorf("of the flax the %s runs out first", r.Fleeces[1].ShortCoat)
	}
	in.Warp.Blend = []FibrePart{{"white", CoatWhole, 0.5}, {"flax", CoatTow, 0.4}}
	in.Weft = in.Warp
	if err := in.Validate(); err == nil || !strings.Contains(err.Error(), "shares of the blend") {
		t.Errorf("shares of 0.9: %v", err)
	}
	in.Warp.Blend = []FibrePart{{"white", CoatTow, 1}}
	in.Weft = in.Warp
	if err := in.Validate(); err == nil || !strings.Contains(err.Error(), "outer, inner, whole") {
		t.Errorf("tow of a fleece: %v", err)
	}
}

// What goes in comes out: prepared fibre, noil and what is left make no more
// than the clean lot, and what is needed is covered just when nothing is short.
func TestLotKeepsItsMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		f := Fleece{Name: "lot", RawG: unit("raw", 100, 5000), SkirtingLoss: unit("skirting", 0, 0.5), ScouredYield: unit("scoured", 0.3, 1),
			SeparationLoss: unit("separation", 0, 0.3), OuterShare: unit("outer", 0.05, 0.95), OuterYield: unit("top", 0.3, 0.8), InnerYield: unit("carded", 0.3, 1)}
		f.OuterNoil = unit("noil", 0, 1) * (1 - f.OuterYield)
		outer, inner := unit("outer g", 1, 2000), unit("inner g", 1, 2000)
		n := f.need(map[Coat]float64{CoatOuter: outer, CoatInner: inner}, nil)
		clean := f.RawG * (1 - f.SkirtingLoss) * f.ScouredYield
		if sum := n.Parts[0].HaveG + n.Parts[0].NoilG + n.Parts[1].HaveG; sum > clean*(1+1e-9) {
			t.Fatalf("%g g out of %g g clean", sum, clean)
		}
		enough := n.Parts[0].HaveG >= outer && n.Parts[1].HaveG >= inner
		if math.Abs(n.RawNeededG-f.RawG) > 1e-6 && enough != (n.RawNeededG <= f.RawG) {
			t.Fatalf("enough is %v, but %g g are needed of %g", enough, n.RawNeededG, f.RawG)
		}
	})
}
