package cloth

import "math"

// OnLoomEndsPerCM is the sett that the reed must give for the finished count
// wanted: the cloth narrows from reed to finished, so threads close up.
// Worked: 9.4 per cm finished, 15 % shrinkage, no draw-in: 7.99 in the reed.
func (s Setting) OnLoomEndsPerCM() float64 {
	return s.FinishedEndsPerCM * (1 - s.ShrinkWidth) * (1 - s.DrawIn)
}

// OnLoomPicksPerCM is the picks per cm to beat under tension.
func (s Setting) OnLoomPicksPerCM() float64 {
	return s.FinishedPicksPerCM * (1 - s.ShrinkLength) * (1 - s.TakeUp)
}

// finishedWidthCM is the finished width that so many whole dents become.
func (s Setting) finishedWidthCM(dents int, dentsPer10CM float64) float64 {
	return float64(dents) / (dentsPer10CM / 10) * (1 - s.DrawIn) * (1 - s.ShrinkWidth)
}

// dentsFor is the whole dents that a finished width needs, rounded up.
func (s Setting) dentsFor(finishedCM, dentsPer10CM float64) int {
	reed := finishedCM / ((1 - s.ShrinkWidth) * (1 - s.DrawIn))
	return whole(math.Ceil(reed*dentsPer10CM/10 - 1e-6))
}

// whole is a count of v, kept within what any loom could mean by one: losses a
// hair below 1 ask for more than an integer holds.
func whole(v float64) int { return int(math.Max(0, math.Min(v, 1e12))) }

// MaxFinishedWidthCM is the widest finished cloth that the loom's reed allows;
// 0 for a loom without a reed.
func MaxFinishedWidthCM(s Setting, l Loom) float64 {
	r := chooseSley(s, l).dentsPer10CM
	if !(r > 0) {
		return 0
	}
	return s.finishedWidthCM(maxDents(l, r), r)
}

func maxDents(l Loom, dentsPer10CM float64) int {
	return whole(math.Floor(l.MaxReedWidthCM*dentsPer10CM/10 + 1e-6))
}

// WidthSteps are the finished widths in cm of all whole dents of the reed
// chosen, from the least that is not narrower than minFinishedCM to the widest
// that the loom weaves, ascending; none when even that is too narrow, or when
// the reed would have more than a million dents.
func WidthSteps(s Setting, l Loom, minFinishedCM float64) []float64 {
	r := chooseSley(s, l).dentsPer10CM
	if !(r > 0) || math.IsNaN(minFinishedCM) || maxDents(l, r) > 1e6 {
		return nil
	}
	var out []float64
	for d := max(1, s.dentsFor(minFinishedCM, r)); d <= maxDents(l, r); d++ {
		out = append(out, s.finishedWidthCM(d, r))
	}
	return out
}

// wovenCM is the length on the loom under tension that becomes finishedCM.
func (s Setting) wovenCM(finishedCM float64) float64 {
	return finishedCM / (1 - s.ShrinkLength) / (1 - s.TakeUp)
}

// widthCM is the finished width to weave: the one wanted, or else the lay's.
func (in Input) widthCM() float64 {
	if in.Setting.FinishedWidthCM > 0 {
		return in.Setting.FinishedWidthCM
	}
	return in.LayWidthCM
}
