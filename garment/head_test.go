package garment

import (
	"math"
	"testing"
)

// Worked by hand. Round 57 + 3 = 60; crown to gore 176 − 151 + 8 = 33; hem 98 +
// 30 = 128: gores (128 − 60) ÷ 2 = 34 across, squares of 34 ÷ √2 = 24.042.
func TestHoodByHand(t *testing.T) {
	g := draftOf(t, "hood", nil)
	sizesAre(t, g, map[string]float64{"hood_round_cm": 60, "hood_head_cm": 33, "hood_face_cm": 27, "hood_gore_cm": 24.042, "hood_length_cm": 57.042, "hood_hem_cm": 128})
	piecesAre(t, g, map[string]box{"hood": {1, 57.042, 60}, "gore": {2, 24.042, 24.042}})
	// Four triangles: 17 across, cape of 30: √(30² − 8.5²) = 28.771 high.
	g = draftOf(t, "hood", map[string]float64{"gores_at": 2, "gore_shape": 1})
	piecesAre(t, g, map[string]box{"hood": {1, 63, 60}, "gore": {4, 28.771, 17}})
	for _, at := range []float64{0, 1, 2} {
		g = draftOf(t, "hood", map[string]float64{"hood_in_one": 0, "gores_at": at, "gore_shape": 1})
		if p, ok := g.Piece("hood half"); !ok || p.Copies != 2 || math.Abs(p.Outline.Bounds().Height()-30) > 1e-9 {
			t.Errorf("gores at %g: halves of %v", at, p.Outline.Bounds())
		}
	}
}

// The median man's hood beside the one from Skjoldehamn: main piece 58 × 60.3 cm,
// gore 28.4 × 23.5 cm, hem about 138 cm; the median woman's gores beside those of
// copies with a main piece of 55 × 55 and gores of 22 × 22 cm.
func TestMedianHoodIsLikeSkjoldehamn(t *testing.T) {
	for _, c := range []struct {
		table  string
		want   map[string]float64
		within float64
	}{
		{"men", map[string]float64{"hood_length_cm": 58, "hood_round_cm": 60.3, "hood_gore_cm": (28.4 + 23.5) / 2, "hood_hem_cm": 138}, 0.05},
		{"women", map[string]float64{"hood_length_cm": 55, "hood_round_cm": 55, "hood_gore_cm": 22}, 0.1},
	} {
		g, err := Draft("hood", middle(c.table), nil)
		if err != nil {
			t.Fatal(err)
		}
		for key, want := range c.want {
			if got, _ := g.SizeCM(key); math.Abs(got-want) > c.within*want {
				t.Errorf("%s: %s is %.1f cm, the survivor's %.1f", c.table, key, got, want)
			}
		}
	}
}

// Worked by hand. Front 0.88 × 57 = 50.16; sides (50.16 − 9) ÷ 2 = 20.58 by 0.34 ×
// 57 = 19.38; seam 8.38 + 17.279 + 9.58 = 35.239; neck 47.76, band 117.76.
func TestCoifByHand(t *testing.T) {
	g := draftOf(t, "coif", nil)
	sizesAre(t, g, map[string]float64{"coif_front_cm": 50.16, "coif_round_cm": 47.76, "coif_band_cm": 117.76})
	if s, _ := g.SizeCM("coif_seam_cm"); math.Abs(s-35.239) > 0.1 {
		t.Errorf("the crown seam is %.3f cm, want 35.239", s)
	}
	piecesAre(t, g, map[string]box{"side": {2, 20.58, 19.38}, "middle strip": {1, 35.2, 9}, "neck band": {1, 117.76, 3}})
	// Without the strip each side is 25.08 high.
	piecesAre(t, draftOf(t, "coif", map[string]float64{"coif_sides": 0}), map[string]box{"side": {2, 25.08, 19.38}, "neck band": {1, 108.76, 3}})
}
