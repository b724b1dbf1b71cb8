package cloth

import (
	"fmt"
	"math"
)

// sley is a reed with the order in which its dents are filled.
type sley struct {
	dentsPer10CM float64
	order        []int
}

// endsPerDent is the mean over the dent order.
func (s sley) endsPerDent() float64 {
	sum := 0
	for _, n := range s.order {
		sum += n
	}
	return float64(sum) / float64(len(s.order))
}

// endsPerCM is the sett in the reed.
func (s sley) endsPerCM() float64 { return s.dentsPer10CM / 10 * s.endsPerDent() }

// endsIn is how many ends that many dents hold, filled in order from the first.
func (s sley) endsIn(dents int) int {
	ends, whole := 0, 0
	for _, n := range s.order {
		whole += n
	}
	ends = dents / len(s.order) * whole
	for i := range dents % len(s.order) {
		ends += s.order[i]
	}
	return ends
}

// dentOrders are the orders tried when the plan names none: common practice.
func dentOrders() [][]int {
	return [][]int{{1}, {2}, {3}, {4}, {1, 2}, {2, 3}, {1, 1, 2}, {1, 2, 2}}
}

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

// chooseSley takes the reed and dent order that come nearest to the sett
// wanted; among equals the plainer order, then the coarser reed.
func chooseSley(s Setting, l Loom) sley {
	reeds, orders := l.ReedsDentsPer10CM, dentOrders()
	if s.ReedDentsPer10CM > 0 {
		reeds = []float64{s.ReedDentsPer10CM}
	}
	if len(s.DentOrder) > 0 {
		orders = [][]int{s.DentOrder}
	}
	want, best, off := s.OnLoomEndsPerCM(), sley{}, math.Inf(1)
	for _, o := range orders {
		for _, r := range reeds {
			try := sley{r, o}
			if d := math.Abs(try.endsPerCM() - want); d < off-1e-9 {
				best, off = try, d
			}
		}
	}
	return best
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

func orderText(order []int) string {
	text := ""
	for i, n := range order {
		if i > 0 {
			text += "-"
		}
		text += fmt.Sprint(n)
	}
	return text
}
