package garment

import (
	"strings"
	"testing"
)

// Worked by hand. Stature 176, nape at 151: the knee at 0.277 × 176 = 48.752, a
// gown's hem there is 151 − 48.752 = 102.248 below the nape; a tunic's is 10 cm
// longer to be bloused; the calf at 0.18 × 176 = 31.68.
func TestHemsFromStatureByHand(t *testing.T) {
	sizesAre(t, draftOf(t, "gown", map[string]float64{"hem_at": 2}), map[string]float64{"hem_height_cm": 48.752, "length_cm": 102.248})
	sizesAre(t, draftOf(t, "tunic", map[string]float64{"hem_at": 2}), map[string]float64{"hem_height_cm": 48.752, "length_cm": 112.248})
	sizesAre(t, draftOf(t, "shift", map[string]float64{"hem_at": 3}), map[string]float64{"hem_height_cm": 31.68, "length_cm": 119.32})
}

// The survey's medians have their knees where the option puts the hem.
func TestKneeIsWhereTheSurveyHasIt(t *testing.T) {
	for _, table := range []string{"women", "men"} {
		b := middle(table)
		if share := b.CM[KneeHeight] / b.CM[Stature]; share < 0.275 || share > 0.279 {
			t.Errorf("%s: the knee is at %.4f of the stature", table, share)
		}
	}
}

// A short gown's gores are no wider than they can be cut, and it is said.
func TestGoresOfAShortGownAreNarrower(t *testing.T) {
	b := handBody()
	b.CM[BackNeckHeight], b.CM[BackNeckToWaist] = 146, 52
	g, err := Draft("gown", b, map[string]float64{"hem_at": 1})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.Join(g.Notes, " "), "for they are only 27.1 cm long") {
		t.Errorf("notes %q", g.Notes)
	}
}

// An overdress too short for gores of its full width has narrower ones.
func TestGoresOfAShortOverdressAreNarrower(t *testing.T) {
	b := handBody()
	b.CM[BackNeckHeight], b.CM[BackNeckToWaist] = 142, 52
	if _, err := Draft("overdress", b, map[string]float64{"hem_at": 1, "centre_gores": 2}); err != nil {
		t.Error(err)
	}
}
