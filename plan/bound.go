package plan

import (
	"context"
	"fmt"

	"ellwand/layout"
)

// ProvedShortest says whether the lay is as short as can be at its width, to
// within 0.001 cm, because the lower bound proves it.
func (r *Result) ProvedShortest() bool {
	return len(r.Faults) == 0 && layout.Shortest(r.ClothCM(), r.LowerBoundCM)
}

// BoundText is the lower bound as a sentence, the length in cm or inches.
func (r *Result) BoundText(units string) string {
	if r.ProvedShortest() {
		return "This lay is proved: no lay at this width can be shorter."
	}
	return fmt.Sprintf("No lay at this width can be shorter than %s.", lengthText(r.LowerBoundCM, units))
}

// ProvedShortest says the same of a row of the width study.
func (r WidthRow) ProvedShortest() bool { return layout.Shortest(r.LengthCM, r.LowerBoundCM) }

// boundsAtOnce is the number of pieces up to which the whole bound of a width is
// quickly worked out; with more it takes some hundredths of a second each.
const boundsAtOnce = 24

// bound is the length that no lay at the width of row i can be below.
func (st *widthStudy) bound(i int, p layout.Problem) float64 {
	if known, ok := st.bounds[i]; ok {
		return known
	}
	if len(p.Items) > boundsAtOnce || st.ctx.Err() != nil && st.ctx.Err() == context.Canceled {
		return layout.QuickBound(p)
	}
	st.bounds[i] = layout.LowerBound(p)
	return st.bounds[i]
}
