package cloth

import "math"

// MaxFinishedLengthCM is the longest finished cloth of one warp that the loom's
// beam holds and the yarn in hand, of warp and of weft, stretches to; +Inf for
// no limit. For an input that Validate accepts. Worked: 10 m beam, 75 cm not woven as cloth, take-up 0.08,
// shrinkage 0.12: (1000 − 75) × 0.92 × 0.88 = 748.88 cm.
func MaxFinishedLengthCM(in Input) float64 {
	s, extra := in.Setting, in.Setting.SampleCM+in.Setting.HeadingCM+in.Loom.WasteCM
	woven := math.Inf(1)
	if in.Loom.MaxWarpM > 0 {
		woven = in.Loom.MaxWarpM*100 - extra
	}
	k := chooseSley(s, in.Loom)
	dents := s.dentsFor(in.widthCM(), k.dentsPer10CM)
	u := usage{ends: float64(k.endsIn(dents) + s.SelvedgeExtraEnds), extraCM: extra,
		picksPerCM: s.OnLoomPicksPerCM(), pickCM: s.pickCM(float64(dents) / k.dentsPer10CM * 10)}
	switch {
	case in.Warp.Name == in.Weft.Name && in.Warp.HaveInHand:
		woven = math.Min(woven, u.wovenOfBoth(in.Warp.InHandM*100))
	default:
		if in.Warp.HaveInHand {
			woven = math.Min(woven, u.wovenOfWarp(in.Warp.InHandM*100))
		}
		if in.Weft.HaveInHand {
			woven = math.Min(woven, u.wovenOfWeft(in.Weft.InHandM*100))
		}
	}
	return math.Max(0, woven*(1-s.TakeUp)*(1-s.ShrinkLength))
}

// pickCM is the weft of one pick across reedWidthCM, with its turn.
func (s Setting) pickCM(reedWidthCM float64) float64 {
	return reedWidthCM*(1+s.WeftCrimp) + s.WeftTurnCM
}

// usage is what a cm woven takes of warp and weft.
type usage struct{ ends, extraCM, picksPerCM, pickCM float64 }

// wovenOfWarp is the length that yarnCM of warp weaves, waste taken off.
func (u usage) wovenOfWarp(yarnCM float64) float64 {
	return yarnCM/math.Max(1, u.ends) - u.extraCM
}

// wovenOfWeft is the length that yarnCM of weft weaves in whole picks.
func (u usage) wovenOfWeft(yarnCM float64) float64 {
	return math.Floor(yarnCM/u.pickCM+1e-9) / u.picksPerCM
}

// wovenOfBoth is the length that yarnCM weaves when it is warp and weft alike.
// Yarn grows with the length and jumps by one pick, so the length without the
// jumps is shortened within the pick it falls in.
func (u usage) wovenOfBoth(yarnCM float64) float64 {
	ends := math.Max(1, u.ends)
	left := yarnCM - ends*u.extraCM
	if left <= 0 {
		return 0
	}
	picks := math.Ceil(left/(ends+u.picksPerCM*u.pickCM)*u.picksPerCM - 1e-9)
	return math.Max((left-picks*u.pickCM)/ends, (picks-1)/u.picksPerCM)
}
