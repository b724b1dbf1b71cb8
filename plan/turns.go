package plan

import "ellwand/garment"

// Turns are the turns, in degrees, that a piece may have on the cloth. Where
// the nap runs one way, every piece points the same way along it.
func Turns(grain garment.Grain, nap bool) []float64 {
	switch {
	case grain == garment.GrainWeft && nap:
		return []float64{90}
	case grain == garment.GrainWeft:
		return []float64{90, 270}
	case nap:
		return []float64{0}
	case grain == garment.GrainFree:
		return []float64{0, 90, 180, 270}
	default:
		return []float64{0, 180}
	}
}
