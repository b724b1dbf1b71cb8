package layout

import (
	"context"
	"fmt"
	"time"
)

// Widths lays base at each of the widths, in cm, and gives the lays in the
// order asked. It works from the narrowest up and starts each width from the
// lay before, which is legal there too, so that length never grows with width.
// Each width gets perWidth of time (none bounds it by s.MaxSteps alone). A
// width at which some item does not fit gets a lay without placements and of
// no length. progress (may be nil) is told the place in widthsCM of each lay
// done. When ctx is done, the lays so far are given with ctx's error; the
// others have no placements.
func Widths(ctx context.Context, base Problem, widthsCM []float64, s Settings, perWidth time.Duration, progress func(i int, l Lay)) ([]Lay, error) {
	if perWidth <= 0 && s.MaxSteps <= 0 {
		return nil, fmt.Errorf("the time for each width is %v and the steps are %d; one must be more than 0", perWidth, s.MaxSteps)
	}
	lays := make([]Lay, len(widthsCM))
	for i, w := range widthsCM {
		if !(w > 0 && w <= maxCM) {
			return nil, fmt.Errorf("width %d is %v cm; accepted is more than 0 to %d cm", i+1, w, int(maxCM))
		}
		lays[i].WidthCM = w
	}
	least := NarrowestCM(base)
	var last Lay
	for _, i := range sortedBy(len(widthsCM), func(i int) float64 { return widthsCM[i] }) {
		if err := ctx.Err(); err != nil {
			return lays, err
		}
		if widthsCM[i] >= least-fitCM {
			p := base
			p.WidthCM = widthsCM[i]
			l, err := atWidth(ctx, p, last, s, perWidth)
			if err != nil {
				return lays, err
			}
			lays[i], last = l, l
		}
		if progress != nil {
			progress(i, lays[i])
		}
	}
	return lays, nil
}

// atWidth starts from the better of the narrower lay and a fresh first one.
func atWidth(ctx context.Context, p Problem, narrower Lay, s Settings, perWidth time.Duration) (Lay, error) {
	start, err := FirstContext(ctx, p)
	if len(narrower.Placements) > 0 && (err != nil || narrower.LengthCM <= start.LengthCM) {
		start, err = narrower, nil
		start.WidthCM = p.WidthCM
	}
	if err != nil {
		return Lay{}, err
	}
	if perWidth > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, perWidth)
		defer cancel()
	}
	return Improve(ctx, p, start, s, nil)
}
