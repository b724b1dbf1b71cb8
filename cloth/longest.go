package cloth

import (
	"math"
	"slices"
)

// MaxFinishedLengthCM is the longest finished cloth of one warp that the loom's
// beam holds and the yarns in hand, in warp and in weft, stretch to; +Inf for
// no limit. For an input that Validate accepts. Worked: 10 m beam, 75 cm not
// woven as cloth, take-up 0.08, shrinkage 0.12: (1000 − 75) × 0.92 × 0.88 = 748.88 cm.
func MaxFinishedLengthCM(in Input) float64 {
	s := in.Setting
	waste, _ := in.Loom.LoomWasteCM()
	extra := s.SampleCM + s.HeadingCM + waste
	woven := math.Inf(1)
	if in.Loom.MaxWarpM > 0 {
		woven = in.Loom.MaxWarpM*100 - extra
	}
	k := chooseSley(s, in.Loom)
	dents := s.dentsFor(in.widthCM(), k.dentsPer10CM)
	u := usage{in: in, ends: in.endsOf(k.endsIn(dents)), extraCM: extra,
		picksPerCM: s.OnLoomPicksPerCM(), pickCM: s.pickCM(float64(dents) / k.dentsPer10CM * 10)}
	of := map[string][]string{}
	for _, y := range in.Yarns() {
		of[y.Root()] = append(of[y.Root()], y.Name)
	}
	for _, y := range in.Yarns() {
		if y.HaveInHand {
			woven = math.Min(woven, u.wovenOf(of[y.Root()], y.InHandM*100))
		}
	}
	return math.Max(0, woven*(1-s.TakeUp)*(1-s.ShrinkLength))
}

// pickCM is the weft of one pick across reedWidthCM, with its turn.
func (s Setting) pickCM(reedWidthCM float64) float64 {
	return reedWidthCM*(1+s.WeftCrimp) + s.WeftTurnCM
}

// usage is what a cm woven takes of warp and weft.
type usage struct {
	in                          Input
	ends                        map[string]int
	extraCM, picksPerCM, pickCM float64
}

// wovenOf is the length that yarnCM of one yarn, under all the names it is dyed
// to, weaves; +Inf when the cloth takes none of it. The yarn used grows with the length and jumps at each pick
// that is of it; so the last pick that can be begun is found by halving, and
// then how far into that pick's length the warp reaches.
func (u usage) wovenOf(names []string, yarnCM float64) float64 {
	ends, fixed := 0.0, 0.0
	for _, name := range names {
		ends += float64(u.ends[name])
	}
	if slices.Contains(names, u.in.Setting.HeadingYarn) {
		fixed = (u.in.Setting.SampleCM + u.in.Setting.HeadingCM) * u.picksPerCM * u.pickCM
	}
	left := yarnCM - fixed - ends*u.extraCM
	weft := func(picks int) float64 {
		of, n := u.in.picksOf(picks), 0
		for _, name := range names {
			n += of[name]
		}
		return float64(n) * u.pickCM
	}
	begun := func(picks int) float64 { return weft(picks) + ends*float64(picks-1)/u.picksPerCM }
	const most = 1 << 40
	if left < 0 {
		return 0
	}
	if ends == 0 && weft(most) == 0 {
		return math.Inf(1)
	}
	if begun(1) > left+1e-9 {
		return 0
	}
	low, high := 1, most
	for low < high {
		if mid := (low + high + 1) / 2; begun(mid) <= left+1e-9 {
			low = mid
		} else {
			high = mid - 1
		}
	}
	woven := float64(low) / u.picksPerCM
	if ends > 0 {
		woven = math.Min(woven, (left-weft(low))/ends)
	}
	return woven
}
