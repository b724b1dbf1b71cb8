package plan

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/hours"
	"ellwand/layout"
)

// ferryman is a making with invented figures: a tall man, a grey fleece and a
// loom of 100 cm with reeds of 40, 50 and 60 dents in 10 cm.
func ferryman(draft string) *Plan {
	return &Plan{
		Version: 1, Title: "Ferryman's " + draft, ShowUnits: "cm", Draft: draft,
		Body: garment.Body{Name: "ferryman", Table: "men", CM: map[garment.Measure]float64{
			garment.Stature: 176, garment.BustGirth: 98,
		}},
		Allowances: garment.DefaultAllowances(),
		Hours:      hours.DefaultSettings(),
		Cloth: cloth.Setting{
			Weave: "2/2 twill", FinishedWidthCM: 75, FinishedEndsPerCM: 9, FinishedPicksPerCM: 8,
			TakeUp: 0.08, DrawIn: 0.07, ShrinkLength: 0.12, ShrinkWidth: 0.14, WeftCrimp: 0.04,
		},
		WarpYarn: "grey-warp", WeftYarn: "grey-weft",
		GapCM: 0.2,
		Loom:  cloth.Loom{Name: "floor loom", MaxReedWidthCM: 100, WasteCM: 65, MaxWarpM: 12, ReedsDentsPer10CM: []float64{40, 50, 60}},
		Yarns: []cloth.Yarn{
			{Name: "grey-warp", Tex: 110, Plies: 1, Twist: "Z", Fleece: "grey", Coat: cloth.CoatOuter, SpinLoss: 0.05},
			{Name: "grey-weft", Tex: 130, Plies: 1, Twist: "S", Fleece: "grey", Coat: cloth.CoatInner, SpinLoss: 0.05},
		},
		Fleeces: []cloth.Fleece{{Name: "grey", RawG: 6000, SkirtingLoss: 0.15, ScouredYield: 0.8, SeparationLoss: 0.05,
			OuterShare: 0.4, OuterYield: 0.7, InnerYield: 0.8, WholeYield: 0.75}},
	}
}

// planks is a plan of two belts of one's own, 100 × 20 cm finished, hemmed.
func planks() *Plan {
	p := ferryman("")
	p.Title = "Belts"
	two := 2
	p.Allowances = garment.Allowances{SeamCM: 1, HemCM: 2.5, MaxTipCM: 2}
	p.GapCM = 0
	p.Cloth.FinishedWidthCM = 50
	p.Pieces = []PieceSpec{{Name: "belt", Shape: "rectangle", Copies: &two,
		Dims: map[string]float64{"length_cm": 100, "width_cm": 20}}}
	return p
}

func prepared(t testing.TB, p *Plan) *Prepared {
	t.Helper()
	pr, err := Prepare(p)
	if err != nil {
		t.Fatal(err)
	}
	return pr
}

func TestCutSizeIsFinishedSizeWithAllowances(t *testing.T) {
	pr := prepared(t, planks())
	p := pr.Pieces[0]
	if p.CutLengthCM != 105 || p.CutWidthCM != 25 || p.CutAreaCM2 != 105*25 {
		t.Errorf("cut %g × %g cm, %g cm²; want 105 × 25 cm, 2625 cm²", p.CutLengthCM, p.CutWidthCM, p.CutAreaCM2)
	}
	var ids []string
	for _, it := range pr.Problem.Items {
		ids = append(ids, it.ID)
	}
	if !slices.Equal(ids, []string{"belt/1", "belt/2"}) || pr.Problem.WidthCM != 50 {
		t.Errorf("items %v on %g cm", ids, pr.Problem.WidthCM)
	}
}

func TestOneEdgeHasItsOwnFinishAndAllowance(t *testing.T) {
	p := planks()
	p.Pieces[0].Finish = map[string]garment.Finish{"left side": garment.FinishRaw}
	p.Pieces[0].AllowanceCM = map[string]float64{"top": 7}
	if r := prepared(t, p).Pieces[0]; r.CutWidthCM != 22.5 || r.CutLengthCM != 109.5 {
		t.Errorf("cut %g × %g cm; want 109.5 × 22.5", r.CutLengthCM, r.CutWidthCM)
	}
}

func TestOverridesOfADraftedPiece(t *testing.T) {
	p := ferryman("tunic")
	before := prepared(t, p)
	none, four := 0, 4
	p.Pieces = []PieceSpec{{Name: "neck facing", Copies: &none}, {Name: "side gore", Copies: &four, Grain: garment.GrainFree}}
	after := prepared(t, p)
	if len(after.Pieces) != len(before.Pieces)-1 {
		t.Errorf("%d pieces, before %d", len(after.Pieces), len(before.Pieces))
	}
	for _, r := range after.Pieces {
		if r.Piece.Name == "neck facing" || r.Piece.Name == "side gore" && (r.Piece.Copies != 4 || r.Piece.Grain != garment.GrainFree) {
			t.Errorf("%s: %d copies, grain %s", r.Piece.Name, r.Piece.Copies, r.Piece.Grain)
		}
	}
	if !slices.ContainsFunc(after.Notes, func(n string) bool { return strings.HasPrefix(n, "neck facing is left out") }) {
		t.Error("no word on the seams of the piece left out")
	}
	if again := prepared(t, ferryman("tunic")); len(again.Pieces) != len(before.Pieces) {
		t.Error("an override changed the draft itself")
	}
}

func TestWrongPieceNamesTheField(t *testing.T) {
	many := 900
	for _, c := range []struct {
		spec  PieceSpec
		field string
	}{
		{PieceSpec{Name: "sleve"}, "pieces[sleve]"},
		{PieceSpec{Name: ""}, "pieces[]"},
		{PieceSpec{Name: "sleeve", Shape: "rectangle"}, "pieces[sleeve].shape"},
		{PieceSpec{Name: "belt", Shape: "rectangle"}, "pieces[belt]"},
		{PieceSpec{Name: "belt", Shape: "polygon", Points: [][2]float64{{0, 0}, {9, 9}}}, "pieces[belt]"},
		{PieceSpec{Name: "sleeve", Copies: &many}, "pieces[sleeve].copies"},
		{PieceSpec{Name: "sleeve", Grain: "bias"}, "pieces[sleeve].grain"},
		{PieceSpec{Name: "sleeve", Finish: map[string]garment.Finish{"cuf": garment.FinishRaw}}, "pieces[sleeve].edges[cuf].finish"},
		{PieceSpec{Name: "sleeve", Finish: map[string]garment.Finish{"cuff": "sewn"}}, "pieces[sleeve].edges[cuff].finish"},
		{PieceSpec{Name: "sleeve", AllowanceCM: map[string]float64{"nowhere": 1}}, "pieces[sleeve].edges[nowhere].allowance_cm"},
		{PieceSpec{Name: "sleeve", AllowanceCM: map[string]float64{"cuff": math.NaN()}}, "pieces[sleeve].edges[cuff].allowance_cm"},
	} {
		p := ferryman("tunic")
		p.Pieces = []PieceSpec{c.spec}
		_, err := Prepare(p)
		var problem *Problem
		if !errors.As(err, &problem) || problem.Field != c.field {
			t.Errorf("want a problem with %s, got %v", c.field, err)
		}
	}
}

func TestMirroredCopiesOnClothWithOneRightFace(t *testing.T) {
	p := ferryman("tunic")
	p.Params = map[string]float64{"side_gores": 4}
	count := func(p *Plan) (mirrored, turnedOver int) {
		pr := prepared(t, p)
		for i, c := range pr.Copies {
			if pr.Pieces[c.Piece].Piece.Name == "side half-gore" {
				if c.Mirrored {
					mirrored++
				}
				if pr.Problem.Items[i].MayFlip {
					turnedOver++
				}
			}
		}
		return
	}
	if m, f := count(p); m != 2 || f != 0 {
		t.Errorf("one right face: %d of 4 half-gores mirrored, %d may be turned over; want 2 and 0", m, f)
	}
	p.TwoFaced = true
	if m, f := count(p); m != 0 || f != 4 {
		t.Errorf("two right faces: %d mirrored, %d may be turned over; want 0 and 4", m, f)
	}
	p.Nap = true
	if m, f := count(p); m != 0 || f != 0 {
		t.Errorf("nap: %d mirrored, %d may be turned over; want 0 and 0", m, f)
	}
}

// A mirrored gore keeps its base at the same end of the cloth.
func TestMirrorKeepsTheWayOfTheNap(t *testing.T) {
	p := ferryman("tunic")
	p.Params = map[string]float64{"side_gores": 4}
	p.Nap = true
	pr := prepared(t, p)
	for i, c := range pr.Copies {
		if pr.Pieces[c.Piece].Piece.Name != "side half-gore" {
			continue
		}
		ends := pr.Place(i, pr.Pieces[c.Piece].Piece.Outline, layout.Placement{})
		near, far := 0, 0
		box := ends.Bounds()
		for _, v := range ends {
			if v.X < box.MinX+1e-9 {
				near++
			}
			if v.X > box.MaxX-1e-9 {
				far++
			}
		}
		if near != 2 || far != 1 {
			t.Errorf("copy %d, mirrored %v: %d corners at the near end, %d at the far", c.Number, c.Mirrored, near, far)
		}
	}
}

func TestWidthLeftToTheLay(t *testing.T) {
	p := planks()
	p.Cloth.FinishedWidthCM = 0
	pr := prepared(t, p)
	dent := 0.8*0.25 + 0.06 // a dent of 40 in 10 cm, loosely
	if w := pr.Problem.WidthCM; w < 25 || w > 25+dent {
		t.Errorf("width %g cm; want the first whole dent from 25 cm", w)
	}
}

func TestPieceWiderThanTheClothIsUnmakeable(t *testing.T) {
	for _, width := range []float64{20, 0} {
		p := planks()
		p.Cloth.FinishedWidthCM = width
		if width == 0 {
			p.Loom.MaxReedWidthCM = 15
		}
		_, err := Prepare(p)
		var u *Unmakeable
		if !errors.As(err, &u) || !strings.Contains(u.Text, "belt is 25.0 cm across") {
			t.Errorf("width %g: %v", width, err)
		}
	}
}

func TestPinThatCannotStayIsLetGo(t *testing.T) {
	p := planks()
	p.Lay = &SavedLay{Placements: []SavedPlacement{
		{ID: "belt/1", Placement: layout.Placement{X: 10, Y: 20}, Pinned: true},
		{ID: "belt/2", Placement: layout.Placement{X: 20, Y: 15}, Pinned: true},
	}}
	pr := prepared(t, p)
	if pr.Problem.Items[0].Pinned == nil || pr.Problem.Items[1].Pinned != nil || len(pr.Cautions) != 1 {
		t.Errorf("pins %v %v, cautions %q", pr.Problem.Items[0].Pinned, pr.Problem.Items[1].Pinned, pr.Cautions)
	}
}
