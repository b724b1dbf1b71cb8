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
func ClothCover(warpCover, weftCover float64) float64 {
	return warpCover + weftCover - warpCover*weftCover
}

// DimensionalChangePercent is 100·(after − before) ÷ before, shrinkage negative (ISO 5077).
func DimensionalChangePercent(beforeCM, afterCM float64) float64 {
	return 100 * (afterCM - beforeCM) / beforeCM
}
