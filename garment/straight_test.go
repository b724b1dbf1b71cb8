package garment

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// handBody is the ferryman of invented size with whom the examples are worked.
func handBody() Body {
	return Body{Table: "men", CM: map[Measure]float64{Stature: 176, BackNeckHeight: 151, KneeHeight: 49, BustGirth: 98,
		WaistGirth: 86, HipGirth: 98, NeckBaseGirth: 42, HeadGirth: 57, BackNeckToWaist: 46, ScyeDepth: 19,
		BackNeckToWrist: 89, UpperArmGirth: 33, HandGirth: 21, InsideLeg: 84, ThighGirth: 59, WaistHeight: 105,
		CalfGirth: 38, AnkleGirth: 22, AcrossBack: 42}}
}

func sizesAre(t *testing.T, g Garment, want map[string]float64) {
	t.Helper()
	for key, cm := range want {
		if got, ok := g.SizeCM(key); !ok || math.Abs(got-cm) > 0.005 {
			t.Errorf("%s: %s is %.3f cm, want %g", g.Draft, key, got, cm)
		}
	}
}

// box is a piece's copies, length and width.
type box struct {
	copies       int
	length, wide float64
}

// piecesAre checks all pieces; of those named last only that they are there.
func piecesAre(t *testing.T, g Garment, want map[string]box, sizeFree ...string) {
	t.Helper()
	if len(g.Pieces) != len(want) {
		t.Errorf("%s has %d pieces, want %d", g.Draft, len(g.Pieces), len(want))
	}
	for name, w := range want {
		p, ok := g.Piece(name)
		if ok && slices.Contains(sizeFree, name) {
			continue
		}
		b := p.Outline.Bounds()
		if !ok || p.Copies != w.copies || math.Abs(b.Width()-w.length) > 0.06 || math.Abs(b.Height()-w.wide) > 0.06 {
			t.Errorf("%s: %q is %d of %.2f × %.2f cm, want %v", g.Draft, name, p.Copies, b.Width(), b.Height(), w)
		}
	}
}

func draftOf(t *testing.T, key string, params map[string]float64) Garment {
	t.Helper()
	g, err := Draft(key, handBody(), params)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Mismatch(g) {
		t.Errorf("%s: %s", key, f.Text)
	}
	return g
}

// Worked by hand. Round chest and arms 98 + 4 × 33 ÷ π = 140.02, lap 25; nape to
// hem 151 − 49 + 5 = 107, in two widths.
func TestRectangularCloakByHand(t *testing.T) {
	g := draftOf(t, "rectangular_cloak", nil)
	sizesAre(t, g, map[string]float64{"cloak_round_cm": 165.017, "cloak_length_cm": 107, "cloak_width_cm": 53.5})
	piecesAre(t, g, map[string]box{"lower width": {1, 165.017, 53.5}, "upper width": {1, 165.017, 53.5}})
	g = draftOf(t, "rectangular_cloak", map[string]float64{"cloak_widths": 4})
	piecesAre(t, g, map[string]box{"lower width": {1, 165.017, 26.75}, "middle width": {2, 165.017, 26.75}, "upper width": {1, 165.017, 26.75}})
}

// Worked by hand. Neck (42 + 4) ÷ π = 14.642; nape to hem 112; radius 126.642;
// hem π × 126.642 = 397.86. Three widths of 42.214; the second is as long as the
// chord 42.214 from the centre, 2 √(126.642² − 42.214²) = 238.80; the third
// 2 √(126.642² − 84.428²) = 188.78.
func TestHalfCircleCloakByHand(t *testing.T) {
	g := draftOf(t, "half_circle_cloak", nil)
	sizesAre(t, g, map[string]float64{"cloak_neck_cm": 46, "cloak_neck_radius_cm": 14.642, "cloak_radius_cm": 126.642, "cloak_hem_cm": 397.858})
	piecesAre(t, g, map[string]box{"width 1 from the neck": {1, 253.284, 42.214}, "width 2 from the neck": {1, 238.799, 42.214}, "width 3 from the neck": {1, 188.786, 42.214}})
	hem := 0.0
	for _, p := range g.Pieces {
		for name, cm := range EdgeLengthsCM(p) {
			if strings.HasSuffix(name, "hem") {
				hem += cm
			}
		}
	}
	if math.Abs(hem-397.858) > 0.3 {
		t.Errorf("the hem's chords are %.2f cm, want 397.86", hem)
	}
	g = draftOf(t, "half_circle_cloak", map[string]float64{"cloak_widths": 1})
	piecesAre(t, g, map[string]box{"cloak": {1, 253.284, 126.642}})
	whole, pieced := g.Pieces[0].Outline.Area(), 0.0
	for _, p := range draftOf(t, "half_circle_cloak", nil).Pieces {
		pieced += p.Outline.Area()
	}
	if math.Abs(whole-pieced) > 20 || math.Abs(whole-math.Pi/2*(126.642*126.642-14.642*14.642)) > 20 {
		t.Errorf("whole %.0f cm², pieced %.0f cm²", whole, pieced)
	}
}

// Worked by hand. Mean girth 30, from 8 to 44 cm above the floor: 30 × 36 = 1080
// cm² ÷ 5 cm = 216, and 40 to tuck in.
func TestLegWrapsByHand(t *testing.T) {
	g := draftOf(t, "leg_wraps", nil)
	sizesAre(t, g, map[string]float64{"wrap_length_cm": 256, "wrap_gain_cm": 5, "wrap_cover_cm": 36})
	piecesAre(t, g, map[string]box{"wrap": {2, 256, 10}})
	piecesAre(t, draftOf(t, "leg_wraps", map[string]float64{"wrap_lengths": 2}), map[string]box{"lower wrap": {2, 128, 10}, "upper wrap": {2, 128, 10}})
}

// Worked by hand. 46 + 4 = 50 down, 98 ÷ 4 = 24.5 across: 2 × 55.680 + 8 =
// 119.359; flat with 3 cm sewn on at both ends; as sides 2 × 32 longer.
func TestBagByHand(t *testing.T) {
	g := draftOf(t, "bag", nil)
	sizesAre(t, g, map[string]float64{"strap_length_cm": 119.359, "bag_mouth_cm": 60})
	piecesAre(t, g, map[string]box{"bag": {1, 82, 30}, "strap": {1, 125.359, 6}})
	g = draftOf(t, "bag", map[string]float64{"bag_sides": 1})
	sizesAre(t, g, map[string]float64{"strap_length_cm": 119.359, "bag_mouth_cm": 72})
	piecesAre(t, g, map[string]box{"bag": {1, 88, 30}, "strap": {1, 183.359, 6}})
}

// Worked by hand. Half the hips 49 wide; hem 49 − 15 = 34; 105 − 34 = 71 long
// with a band of 4; ties (86 − 49) ÷ 2 + 40 = 58.5, band 49 + 117 = 166. Bib of
// 26: 20 cm from the neck, loop 21 + 40 + 24 = 85.
func TestApronByHand(t *testing.T) {
	g := draftOf(t, "apron", nil)
	sizesAre(t, g, map[string]float64{"apron_width_cm": 49, "length_cm": 71, "hem_height_cm": 34, "apron_band_cm": 166})
	piecesAre(t, g, map[string]box{"panel": {1, 67, 49}, "band": {1, 166, 8}})
	g = draftOf(t, "apron", map[string]float64{"bib": 1, "apron_gores": 1})
	sizesAre(t, g, map[string]float64{"bib_loop_cm": 85, "bib_passage_cm": 111})
	piecesAre(t, g, map[string]box{"panel": {1, 67, 49}, "band": {1, 166, 8}, "side gore": {2, 67, 15}, "bib": {1, 26, 26}, "neck loop": {1, 85, 3}})
}
