package garment

import "math"

// sideVent is the edge of a side that is left open above the hem.
const sideVent = "vent"

// ventForStep is how far up the sides of a body without side gores are left
// open, so that its hem does not hold back a step: up to where the cloth goes
// round both legs, in whole cm; 0 when the hem is wide enough. goreCM is the
// length of centre gores, mostCM the highest that a vent can reach. Worked: see
// the step in fit.go; a body of 104 cm with the hem 25 cm above the floor.
func (w *worked) ventForStep(hemCM, goreCM, mostCM float64) float64 {
	low, ok := w.g.SizeCM("hem_height_cm")
	if !ok || hemCM >= w.stepGirthCM(low) {
		return 0
	}
	narrow, _ := w.g.SizeCM("chest_cm")
	for up := 1.0; up < mostCM; up++ {
		girth := narrow
		if goreCM > up {
			girth += (hemCM - narrow) * (1 - up/goreCM)
		}
		if girth >= w.stepGirthCM(low+up) {
			w.size("vent_cm", "Sides left open above the hem", up, "up to where %.1f cm of cloth go round both legs in a step", girth)
			w.size("vent_girth_cm", "Girth where the sides open", girth, "body and centre gores %.0f cm above the hem", up)
			w.note("Without side gores the hem would hold back a step, so the sides are left open for %.0f cm above it.", up)
			return up
		}
	}
	return 0
}

func (w *worked) stepGirthCM(heightCM float64) float64 {
	f := &fitter{b: w.body}
	need, _ := f.stepGirthCM(heightCM)
	return need
}

// widenForStep makes the side gores as much wider as a step needs; plainCM is
// the hem without them.
func (w *worked) widenForStep(plainCM float64) {
	low, ok := w.g.SizeCM("hem_height_cm")
	n, wide := w.v["side_gores"], w.v["side_gore_width_cm"]
	need := w.stepGirthCM(low)
	if !ok || plainCM+n*wide >= need {
		return
	}
	w.v["side_gore_width_cm"] = math.Ceil((need-plainCM)/n*2) / 2
	w.note("The side gores are %.1f cm wide instead of %g cm, so that the hem lets a step through.", w.v["side_gore_width_cm"], wide)
}

// narrowForLength makes gores no wider than their length allows, when a short
// garment leaves less than the width wanted; key is the width's parameter.
func (w *worked) narrowForLength(key string, lengthCM, most float64) {
	wide := w.v[key]
	if wide < most*lengthCM {
		return
	}
	w.v[key] = math.Floor(0.95*most*lengthCM*2) / 2
	w.note("The gores are %.1f cm wide instead of %g cm, for they are only %.1f cm long.", w.v[key], wide, lengthCM)
}
