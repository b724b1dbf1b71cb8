package cloth

import "math"

// PeirceJam is Peirce's square plain weave at its closest, both yarns alike:
// the spacing of threads as a fraction of D, the sum of the two diameters, and
// the crimp. From p = (l − Dθ)cosθ + D sinθ with no straight part left, l = Dθ,
// and displacements that share D, D(1 − cosθ) = D/2, so θ = 60°.
// (F. T. Peirce, J. Text. Inst. 28, 1937, T45.)
func PeirceJam() (spacingOverD, crimp float64) {
	theta := math.Acos(0.5)
	spacingOverD = math.Sin(theta)
	return spacingOverD, theta/spacingOverD - 1
}

// PeirceExactCrimp is the crimp of a square plain cloth of one yarn both ways:
// d the yarn's diameter and p the threads' spacing, in mm. It solves Peirce's
// equations for the weave angle by halving; NaN when the cloth is closer than
// the jam. Worked: 8 per cm of 100 tex (d 0.3733, p 1.25): 4.64 %.
func PeirceExactCrimp(dMM, pMM float64) float64 {
	d := 2 * dMM // sum of the diameters; each thread is displaced by half of it
	height := func(theta, l float64) float64 {
		return (l-d*theta)*math.Sin(theta) + d*(1-math.Cos(theta))
	}
	length := func(theta float64) float64 {
		return d*theta + (pMM-d*math.Sin(theta))/math.Cos(theta)
	}
	jam, _ := PeirceJam()
	if pMM < jam*d*(1-1e-12) {
		return math.NaN()
	}
	low, high := 0.0, math.Pi/3
	for range 200 {
		mid := (low + high) / 2
		if height(mid, length(mid)) < d/2 {
			low = mid
		} else {
			high = mid
		}
	}
	return length((low+high)/2)/pMM - 1
}

// SICover is threads per cm × √tex ÷ 10, the cover factor in SI units.
func SICover(threadsPerCM, tex float64) float64 { return threadsPerCM * math.Sqrt(tex) / 10 }

// PeirceCover is threads per inch ÷ √Ne: 28 means that threads touch.
func PeirceCover(threadsPerCM, tex float64) float64 {
	return threadsPerCM * cmPerInch / math.Sqrt(CottonCount(tex))
}

// MassGPerM2 is the mass of a cloth from its counts per cm, tex and crimps.
func MassGPerM2(endsPerCM, warpTex, warpCrimp, picksPerCM, weftTex, weftCrimp float64) float64 {
	return (endsPerCM*warpTex*(1+warpCrimp) + picksPerCM*weftTex*(1+weftCrimp)) / 10
}

// ClothCover is the part of the surface that two sets of threads cover, from
// each set's own cover, diameter ÷ spacing (from memory).
func ClothCover(warp, weft float64) float64 { return warp + weft - warp*weft }

// DimensionalChangePercent is 100·(after − before) ÷ before, shrinkage negative (ISO 5077).
func DimensionalChangePercent(before, after float64) float64 { return 100 * (after - before) / before }

// WeightedWarp is a set of loom weights on a warp-weighted loom.
type WeightedWarp struct {
	Ends           int
	TensionG       float64 // on each thread
	ThreadsPerEach int
}

// HangWeights is what that many weights of one mass, with so many threads each,
// make of a warp: the rule that mass sets the threads a weight can hold is of
// Mårtensson, Nosch and Andersson Strand, Oxford J. Archaeol. 28(4), 2009.
func HangWeights(weights int, massG float64, threadsPerWeight int) WeightedWarp {
	return WeightedWarp{Ends: weights * threadsPerWeight, TensionG: massG / float64(threadsPerWeight), ThreadsPerEach: threadsPerWeight}
}

// WeightRows is a warp hung with weights in rows, worked from one weight's size.
type WeightRows struct {
	EndsPerCM      float64
	WeightsPerRow  int
	Weights        int // in all rows
	ThreadsPerEach int
}

// HangRows is the warp that weights of one mass in g and one thickness in cm
// make across widthCM at a tension in g a thread: mass gives threads, thickness
// gives width. Tabby hangs in 2 rows, 2/2 twill in 2 or 4. The rule's source is
// that of HangWeights; the error is a *FieldError.
// Worked: 275 g, 18 g a thread, 2 cm thick, 2 rows, 60 cm: 15 per cm, 30 weights a row.
func HangRows(massG, tensionG, thicknessCM, widthCM float64, rows int) (WeightRows, error) {
	for _, err := range []error{positive("a weight's mass in g", massG), positive("the tension in g a thread", tensionG),
		positive("a weight's thickness in cm", thicknessCM), positive("the warp's width in cm", widthCM), positive("the rows of weights", float64(rows))} {
		if err != nil {
			return WeightRows{}, err
		}
	}
	threads, perRow := ThreadsPerWeight(massG, tensionG), whole(math.Ceil(widthCM/thicknessCM-1e-9))
	return WeightRows{EndsPerCM: float64(rows*threads) / thicknessCM, WeightsPerRow: perRow, Weights: rows * perRow, ThreadsPerEach: threads}, nil
}

// ThreadsPerWeight is the whole threads that a weight holds at a tension in g a thread.
func ThreadsPerWeight(massG, tensionG float64) int { return whole(math.Floor(massG/tensionG + 1e-9)) }
