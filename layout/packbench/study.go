package main

import (
	"fmt"
	"io"
	"math"
	"time"

	"ellwand/layout"
	"ellwand/layout/instance"
)

// stepCM is how far apart the widths of a study are: about a dent.
const stepCM = 0.8

// studyTable works a width study out for every instance and prints, for some of
// its widths, how much longer its lay is than a long search of that width alone.
func (o options) studyTable(ins []instance.Instance, out io.Writer) error {
	known, err := readLongSearches(o.known)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%-26s %6s %8s %10s %10s %10s %10s\n", "name", "items", "width", "bound", "study", "alone", "longer by")
	var sum, worst, n float64
	for _, in := range ins {
		p, widths := in.Problem, []float64(nil)
		for k := range o.study {
			widths = append(widths, math.Ceil(10*layout.NarrowestCM(p))/10+stepCM*float64(k))
		}
		ctx, cancel := o.within(3 * o.seconds)
		found, err := layout.Widths(ctx, p, widths, nil, layout.Settings{Seed: o.seed, Threads: o.threads}, time.Duration(o.seconds*float64(time.Second)), nil)
		cancel()
		if err != nil {
			return fmt.Errorf("%s: %w", in.Name, err)
		}
		lays := found.Lays
		for k := range 5 {
			i := k * (o.study - 1) / 4
			p.WidthCM = widths[i]
			if err := layout.Check(p, lays[i]); err != nil {
				return fmt.Errorf("%s at %g cm: %w", in.Name, widths[i], err)
			}
			alone, err := known.length(o, in.Name, p, o.against)
			if err != nil {
				return err
			}
			by := 100 * (lays[i].LengthCM/alone - 1)
			sum, worst, n = sum+by, math.Max(worst, by), n+1
			fmt.Fprintf(out, "%-26s %6d %8.1f %10.3f %10.3f %10.3f %+9.2f%%\n", in.Name, len(p.Items), widths[i], layout.LowerBound(p), lays[i].LengthCM, alone, by)
		}
	}
	fmt.Fprintf(out, "studies of %d widths in %g s: at %.0f widths on average %+.2f %%, at most %+.2f %% longer than %g s on that width alone\n",
		o.study, o.seconds, n, sum/n, worst, o.against)
	return nil
}
