package garment

import "math"

// Checks of movement: pulling a garment on, raising an arm, sitting down.

// overShouldersCM is the girth of a loop that goes over the shoulders with the
// arms raised: as wide as both shoulders and the neck between them, as deep as
// an arm is thick, round at both ends. Worked: shoulders 15 cm, neck base
// 43.3 cm, arm 35.7 cm: wide 2 × 15 + 43.3 ÷ π = 43.78, deep 11.36:
// 2 × (43.78 − 11.36) + π × 11.36 = 100.5 cm.
func overShouldersCM(shoulderCM, neckBaseCM, upperArmCM float64) float64 {
	wide, deep := 2*shoulderCM+neckBaseCM/math.Pi, upperArmCM/math.Pi
	return 2*max(0, wide-deep) + math.Pi*deep
}

// shoulders: a body that is pulled on over the head goes over the shoulders.
func (f *fitter) shoulders() {
	chest, shoulder, ok := f.have("chest_cm", ShoulderLength)
	neck, ok2 := f.b.CM[NeckBaseGirth]
	arm, ok3 := f.b.CM[UpperArmGirth]
	if !ok || !ok2 || !ok3 || f.open() {
		return
	}
	f.check("shoulders through the body", chest, overShouldersCM(shoulder, neck, arm), "girth of the garment", "loop over the shoulders",
		"pulled on with raised arms the body goes over both shoulders and the neck, one arm's thickness deep", "geometry of a loop")
}

// open says whether the garment opens down the front.
func (f *fitter) open() bool {
	for _, p := range f.g.Pieces {
		if p.Name == "front" && p.Copies == 2 && EdgeLengthsCM(p)["front edge"] > 0 {
			return true
		}
		for _, m := range p.Marks {
			if m.Name == "front opening" {
				return true
			}
		}
	}
	return false
}

// mostPulledUpCM is how far a raised arm may pull the body up and draw the cuff
// back together: what is bloused over a belt is 5 to 20 cm (S. Thursfield,
// 2001), so 10 cm, and 5 cm at the wrist (common practice).
const mostPulledUpCM = 15

// raisedArm: with the arm straight up, the cloth under it has to reach from the
// waist to the wrist: up the side, along the gusset's fold, along the underarm.
// The body's way is waist to armpit and armpit to wrist, which is the arm's
// length less its thickness. Worked: back 47, scye 19, arm 59, upper arm 35:
// 28 + 59 − 11.1 = 75.9 cm.
func (f *fitter) raisedArm() {
	cloth, ok := f.g.SizeCM("underarm_way_cm")
	short, ok2 := f.g.SizeCM("sleeve_short_cm")
	way, ok3 := f.raisedWayCM(short)
	if !ok || !ok2 || !ok3 {
		return
	}
	f.check("arm raised", cloth, way-mostPulledUpCM, "waist to cuff under the arm", "body's way less 15 cm",
		"up the side, over the gusset and along the underarm the cloth reaches from the waist to the sleeve's end of an arm raised straight up, the body pulled up and the cuff drawn back by at most 15 cm", "geometry of a raised arm")
}

// raisedWayCM is the body's way from the waist under a raised arm to the end of
// a sleeve that ends so much before the wrist.
func (f *fitter) raisedWayCM(shortCM float64) (float64, bool) {
	arm, ok := f.b.CM[ArmLength]
	back, ok2 := f.b.CM[BackNeckToWaist]
	scye, ok3 := f.b.CM[ScyeDepth]
	upper, ok4 := f.b.CM[UpperArmGirth]
	return back - scye + arm - upper/math.Pi - shortCM, ok && ok2 && ok3 && ok4
}

// seatShare is how much of the hip girth lies between the legs from front to
// back, below the rise.
const seatShare = 0.2

// seat: front rise, gusset and back rise go from the waist in front between the
// legs to the waist behind, with 4 cm to sit down. Worked: rise 27, gusset 22: 76 cm;
// body rise 21, hips 102: 42 + 20.4 + 4 = 66.4 cm.
func (f *fitter) seat() {
	rise, body, ok := f.have("rise_cm", BodyRise)
	gusset, hip, ok2 := f.have("gusset_length_cm", HipGirth)
	if !ok || !ok2 {
		return
	}
	f.check("seat", 2*rise+gusset, 2*body+seatShare*hip+4, "rises and gusset, waist to waist", "waist to waist between the legs",
		"both rises and the gusset's length are at least twice the body rise, a fifth of the hip girth and 4 cm to sit", "common practice; the fifth from memory")
}
