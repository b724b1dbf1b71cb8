package plan

import (
	"math"

	"ellwand/cloth"
	"ellwand/layout"
)

// withinTheWarp is the first of the widths at which the pieces, laid at once,
// fit within the warp that the loom holds or the yarn in hand stretches to.
// When none does it is the first: the shortfall is then said. A longer search
// may fit them on a cloth narrower still, which the width study shows.
func (pr *Prepared) withinTheWarp(p *Plan, widthsCM []float64) float64 {
	for _, w := range widthsCM {
		in, err := p.clothInput(w, 1)
		if err != nil {
			return widthsCM[0]
		}
		in.Setting.FinishedWidthCM = w
		limit := cloth.MaxFinishedLengthCM(in)
		if math.IsInf(limit, 1) {
			return widthsCM[0]
		}
		problem := pr.Problem
		problem.WidthCM = w
		if layout.QuickBound(problem) > limit {
			continue
		}
		if lay, err := layout.First(problem); err == nil && lay.LengthCM <= limit {
			return w
		}
	}
	return widthsCM[0]
}
