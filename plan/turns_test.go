package plan

import (
	"slices"
	"testing"

	"ellwand/garment"
)

func TestTurnsFollowGrainAndNap(t *testing.T) {
	for _, c := range []struct {
		grain garment.Grain
		nap   bool
		want  []float64
	}{
		{garment.GrainWarp, false, []float64{0, 180}},
		{garment.GrainWarp, true, []float64{0}},
		{garment.GrainWeft, false, []float64{90, 270}},
		{garment.GrainWeft, true, []float64{90}},
		{garment.GrainFree, false, []float64{0, 90, 180, 270}},
		{garment.GrainFree, true, []float64{0}},
	} {
		if got := Turns(c.grain, c.nap); !slices.Equal(got, c.want) {
			t.Errorf("%s, nap %v: %v, want %v", c.grain, c.nap, got, c.want)
		}
	}
}
