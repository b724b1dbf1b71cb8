package garment

import "math"

// gussetFoldCM is the length of the fold of an underarm gusset that lies flat,
// from the sleeve to the body; 0 without one.
func (b *bodied) gussetFoldCM() float64 {
	if b.v["underarm_gusset"] == 2 {
		wide := b.v["pointed_gusset_wide_cm"]
		return 2 * math.Sqrt(max(0, b.gussetCM*b.gussetCM-wide*wide/4))
	}
	return b.gussetCM * math.Sqrt2
}

// sideAboveWaistCM is the side's length from the waist up to the gusset.
func (b *bodied) sideAboveWaistCM() float64 {
	return max(0, b.cm(BackNeckToWaist)-b.armholeCM-b.gussetCM)
}

// lengthenForReach makes the sleeve as much longer as an arm raised straight up
// needs, taking it for straight, as the shortest underarm.
func (b *bodied) lengthenForReach(toWristCM float64) {
	f := &fitter{b: b.body}
	way, ok := f.raisedWayCM(max(0, toWristCM-b.sleeveCM))
	have := b.sideAboveWaistCM() + b.gussetFoldCM() + b.sleeveCM - b.gussetCM
	if !ok || have >= way-mostPulledUpCM {
		return
	}
	longer := way - mostPulledUpCM - have
	b.note("The sleeve is %.1f cm long instead of %.1f cm, so that an arm can be raised.", b.sleeveCM+longer, b.sleeveCM)
	b.sleeveCM += longer
}

// measureUnderarm: the cloth's way from the waist under the arm to the sleeve's
// end, over the fold of the gusset.
func (b *bodied) measureUnderarm(toWristCM float64) {
	side, fold := b.sideAboveWaistCM(), b.gussetFoldCM()
	under := math.Hypot(b.sleeveCM, (b.topCM-b.cuffCM)/2) - b.gussetCM
	b.size("underarm_way_cm", "Waist to cuff under the arm", side+fold+under, "side %.1f cm + gusset's fold %.1f cm + underarm %.1f cm", side, fold, under)
	b.size("sleeve_short_cm", "Sleeve ends before the wrist", max(0, toWristCM-b.sleeveCM), "%.1f cm to the wrist − sleeve %.1f cm", toWristCM, b.sleeveCM)
}
