package cloth

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// Draws are the trial cloths of a simulation: how many standard deviations each
// keeps more than its centre, in width and in length. They hang on the seed, on
// their number and on the degrees alone, so one set serves every lay.
type Draws struct {
	width, length []float64
	sorted        []float64 // width, ascending
	byLength      []int32   // from the longest cloth to the shortest
}

// DrawKey is all that a set of draws hangs on.
type DrawKey struct{ Seed, Trials, WidthDF, LengthDF int }

// DrawKeyOf is the key of the draws that Hold needs.
func DrawKeyOf(in HoldInput, sim Simulation) DrawKey {
	return DrawKey{sim.Seed, sim.Trials, in.Width.DF, in.Length.DF}
}

// NewDraws draws, width and length independently.
func NewDraws(k DrawKey) *Draws {
	r := rand.New(rand.NewPCG(uint64(k.Seed), 0x656c6c77616e64))
	d := &Draws{width: make([]float64, k.Trials), length: make([]float64, k.Trials), byLength: make([]int32, k.Trials)}
	for i := range d.width {
		d.width[i], d.length[i], d.byLength[i] = student(r, k.WidthDF), student(r, k.LengthDF), int32(i)
	}
	d.sorted = slices.Sorted(slices.Values(d.width))
	slices.SortFunc(d.byLength, func(a, b int32) int { return cmp.Compare(d.length[b], d.length[a]) })
	return d
}

// student is one of Student's variates; of no degrees, a normal one.
func student(r *rand.Rand, degrees int) float64 {
	t := r.NormFloat64()
	if degrees <= 0 {
		return t
	}
	sum := 0.0
	for range degrees {
		z := r.NormFloat64()
		sum += z * z
	}
	return t / math.Sqrt(sum/float64(degrees))
}

// share counts the cloths that are wide enough, long enough, and both.
func (d *Draws) share(leastWidth, leastLength float64) (w, l, both float64) {
	var wide, long, well int
	for i, t := range d.width {
		isWide, isLong := t >= leastWidth, d.length[i] >= leastLength
		if isWide {
			wide++
		}
		if isLong {
			long++
		}
		if isWide && isLong {
			well++
		}
	}
	n := float64(len(d.width))
	return float64(wide) / n, float64(long) / n, float64(well) / n
}
