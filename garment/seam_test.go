package garment

import (
	"strings"
	"testing"

	"ellwand/geometry"
)

// Each kind of fault put into a sound tunic is found.
func TestSeamFaultsAreFound(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(g *Garment)
		want  string
	}{
		{"a seam left out", func(g *Garment) { g.Seams = g.Seams[1:] }, "is sewn 0 times"},
		{"a seam twice", func(g *Garment) { g.Seams = append(g.Seams, g.Seams[0]) }, "is sewn 2 times"},
		{"half a seam", func(g *Garment) { g.Seams[0].A.To = 0.5 }, "they may differ by 0.1 cm"},
		{"one sleeve more", func(g *Garment) { piece(g, "sleeve").Copies = 3 }, "it is cut 3 times"},
		{"a longer gore", func(g *Garment) { piece(g, "side gore").Outline[1] = geometry.Point{X: 80, Y: 12} }, `"side gore" is`},
		{"an unknown edge", func(g *Garment) { g.Seams[0].B.Edges = []string{"nowhere"} }, `no edge "nowhere"`},
		{"an unknown piece", func(g *Garment) { g.Seams[0].B.Piece = "hood" }, `no piece "hood"`},
		{"a hem sewn to a seam", func(g *Garment) {
			g.Seams = append(g.Seams, Seam{Name: "odd", A: whole("sleeve", "cuff"), B: whole("sleeve", "cuff"), Times: 1})
		}, "is not finished as one"},
		{"a slit not filled", func(g *Garment) {
			var kept []Seam
			for _, s := range g.Seams {
				if !strings.HasPrefix(s.Name, "centre front gore, left") {
					kept = append(kept, s)
				}
			}
			g.Seams = kept
		}, `"front gore slit, left lip" of piece "body" is sewn 0 times`},
	} {
		g, err := Draft("tunic", middle("men"), nil)
		if err != nil {
			t.Fatal(err)
		}
		c.spoil(&g)
		var all []string
		for _, f := range Mismatch(g) {
			all = append(all, f.Text)
		}
		if !strings.Contains(strings.Join(all, "\n"), c.want) {
			t.Errorf("%s: faults %q, want one with %q", c.name, all, c.want)
		}
	}
}

func piece(g *Garment, name string) *Piece {
	for i := range g.Pieces {
		if g.Pieces[i].Name == name {
			return &g.Pieces[i]
		}
	}
	return nil
}

// A millimetre is let pass, two are not.
func TestSeamToleranceIsAMillimetre(t *testing.T) {
	for _, c := range []struct {
		more float64
		want int
	}{{0.09, 0}, {0.2, 1}} {
		a, _, _ := FromShape("rectangle", map[string]float64{"length_cm": 50, "width_cm": 10})
		b, _, _ := FromShape("rectangle", map[string]float64{"length_cm": 50 + c.more, "width_cm": 10})
		edges := []Edge{{Name: "long", Finish: FinishSeam}, {Name: "x", Finish: FinishHem}, {Name: "y", Finish: FinishHem}, {Name: "z", Finish: FinishHem}}
		g := Garment{Draft: "test", Pieces: []Piece{{Name: "a", Copies: 1, Outline: a, Edges: edges}, {Name: "b", Copies: 1, Outline: b, Edges: edges}},
			Seams: []Seam{{Name: "s", A: whole("a", "long"), B: whole("b", "long"), Times: 1}}}
		if got := len(Mismatch(g)); got != c.want {
			t.Errorf("%g cm longer: %d faults, want %d", c.more, got, c.want)
		}
	}
}

// Checks of fit can fail: each is made to, once.
func TestTightGarmentsAreFound(t *testing.T) {
	for _, c := range []struct {
		draft  string
		params map[string]float64
		m      Measure
		cm     float64
		key    string
	}{
		{"tunic", map[string]float64{"neck_slit_cm": 0}, "", 0, "head through neck"},
		{"tunic", map[string]float64{"cuff_ease_cm": 0.5}, "", 0, "hand through cuff"},
		{"tunic", nil, BustGirth, 150, "chest in the body"},
		{"tunic", nil, HipGirth, 140, "hips in the body"},
		{"tunic", nil, UpperArmGirth, 60, "upper arm in the sleeve"},
		{"tunic", nil, ScyeDepth, 40, "armpit above the gusset's point"},
		{"overdress", map[string]float64{"side_gores": 0}, Stature, 230, "a step in the hem"},
		{"overdress", nil, NeckBaseGirth, 160, "shoulders through the body"},
		{"tunic", nil, ShoulderLength, 45, "shoulders through the body"},
		{"tunic", nil, ArmLength, 90, "arm raised"},
		{"coat", map[string]float64{"sleeve_shape": 0}, ArmLength, 80, "arm raised"},
		{"trousers", map[string]float64{"gusset_long_cm": 8, "rise_ease_cm": 0}, "", 0, "seat"},
		{"trousers", nil, FootGirth, 50, "foot through the leg"},
		{"trousers", nil, ThighGirth, 90, "thigh in the leg"},
		{"trousers", nil, CalfGirth, 60, "calf in the leg"},
		{"trousers", nil, HipGirth, 140, "waist opening over the hips"},
		{"gown", nil, BustGirth, 140, "chest in the body"},
		{"gown", map[string]float64{"neck_shape": 1, "neck_slit_cm": 0}, "", 0, "head through neck"},
		{"gown", map[string]float64{"centre_gores": 0, "side_gores": 0}, CalfGirth, 150, "a step in the hem"},
		{"coat", nil, BustGirth, 150, "chest in the body"},
		{"coat", map[string]float64{"underarm_gusset": 0, "upper_arm_ease_cm": 4, "no_gusset_extra_cm": 0}, ScyeDepth, 25, "armpit above the gusset's point"},
		{"hood", map[string]float64{"head_ease_cm": 0}, "", 0, "head through the hood"},
		{"hood", nil, NeckGirth, 64, "neck in the hood"},
		{"hood", nil, BustGirth, 140, "shoulders in the hem"},
		{"hood", nil, Stature, 190, "crown in the hood"},
		{"hood", map[string]float64{"chin_seam_cm": 16, "crown_ease_cm": 8}, HeadGirth, 70, "face in its opening"},
		{"coif", map[string]float64{"front_share": 0.75}, "", 0, "jaw to jaw over the crown"},
		{"coif", map[string]float64{"depth_share": 0.24}, "", 0, "temple to temple behind"},
		{"coif", nil, HeadGirth, 85, "brow to nape"},
		{"coif", map[string]float64{"tie_length_cm": 15}, NeckGirth, 60, "ties under the chin"},
		{"rectangular_cloak", nil, BustGirth, 150, "cloak round chest and arms"},
		{"rectangular_cloak", nil, AcrossBack, 59, "cloak over both shoulders"},
		{"rectangular_cloak", nil, BackNeckHeight, 95, "cloak clear of the floor"},
		{"rectangular_cloak", map[string]float64{"hem_below_knee_cm": -55}, BackNeckToWaist, 64, "cloak over the waist"},
		{"half_circle_cloak", nil, NeckBaseGirth, 60, "neck in the cloak"},
		{"half_circle_cloak", nil, BustGirth, 175, "half circle round chest and arms"},
		{"leg_wraps", nil, CalfGirth, 60, "wraps up the leg"},
		{"leg_wraps", map[string]float64{"wrap_width_cm": 20}, CalfGirth, 30, "wrap lies flat"},
		{"leg_wraps", map[string]float64{"wrap_width_cm": 20, "overlap_share": 0.1, "tuck_cm": 0}, "", 0, "turns of a wrap"},
		{"leg_wraps", map[string]float64{"ends_below_knee_cm": 0, "starts_above_floor_cm": 0}, KneeHeight, 31, "wraps end below the knee"},
		{"bag", map[string]float64{"bag_width_cm": 12}, "", 0, "hand into the bag"},
		{"bag", map[string]float64{"mouth_below_waist_cm": -20}, HeadGirth, 80, "strap over head and arm"},
		{"bag", nil, BackNeckToWaist, 90, "mouth within reach"},
		{"apron", map[string]float64{"tie_length_cm": 15}, WaistGirth, 150, "ties round the waist"},
		{"apron", nil, HipGirth, 250, "apron over the thighs"},
		{"apron", map[string]float64{"bib": 1, "neck_loop_ease_cm": 0, "bib_width_cm": 12, "bib_height_cm": 34}, HeadGirth, 85, "head through the bib's loop"},
	} {
		g, err := Draft(c.draft, middle("women"), c.params)
		if err != nil {
			t.Fatal(err)
		}
		b := middle("women")
		if c.m != "" {
			b.CM[c.m] = c.cm
		}
		found := false
		for _, n := range FitNotes(g, b) {
			found = found || n.Key == c.key && !n.OK && strings.Contains(n.String(), "does not fit")
		}
		if !found {
			t.Errorf("%s %v with %s %g: %q does not fail", c.draft, c.params, c.m, c.cm, c.key)
		}
	}
}
