package garment

import "math"

// shoulderedGirthCM is about the girth round chest and both hanging arms: an arm
// of girth c is c/π thick, and two of them beside the body lengthen a tape
// drawn tight round all by less than four thicknesses.
func shoulderedGirthCM(bustCM, upperArmCM float64) float64 { return bustCM + 4*upperArmCM/math.Pi }
