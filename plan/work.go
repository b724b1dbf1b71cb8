package plan

import (
	"context"
	"fmt"
	"time"

	"ellwand/layout"
)

// Options say how a plan is worked out.
type Options struct {
	Seed    uint64
	Threads int     // searches side by side; 0 counts as 1
	Seconds float64 // time for packing; 0 leaves it at the first lay
	KeepLay bool    // use the lay kept in the plan, unchanged, when it is sound
	// Found, when not nil, is given every better lay as it is found, one at a
	// time, from the goroutine that found it.
	Found func(*Result)
}

// Work works a plan out. Every lay it gives has passed layout.Check. When ctx
// is done it gives the best lay so far.
func Work(ctx context.Context, p *Plan, o Options) (*Result, error) {
	pr, err := Prepare(p)
	if err != nil {
		return nil, err
	}
	if o.KeepLay {
		if lay, ok := SavedLayFits(p, pr); ok {
			return ReckonLay(p, pr, lay)
		}
	}
	ctx, cancel := context.WithTimeout(ctx, seconds(o.Seconds))
	defer cancel()
	on, lay, err := pr.fewestLengths(ctx, o)
	if err != nil {
		return nil, err
	}
	r, err := ReckonLay(p, pr, lay)
	if err != nil || !(o.Seconds > 0) {
		return r, err
	}
	if lay, err = pack(ctx, p, pr, on, r, o); err != nil {
		return nil, err
	}
	return ReckonLay(p, pr, lay)
}

// pack shortens the first result's lay, on the lengths of cloth that on leaves
// open, until ctx is done.
func pack(ctx context.Context, p *Plan, pr *Prepared, on layout.Problem, first *Result, o Options) (layout.Lay, error) {
	var found func(layout.Lay)
	if o.Found != nil {
		o.Found(first)
		found = func(l layout.Lay) {
			if r, err := ReckonLay(p, pr, l); err == nil {
				o.Found(r)
			}
		}
	}
	lay, err := layout.Improve(ctx, on, first.Lay, layout.Settings{Seed: o.Seed, Threads: o.Threads}, found)
	if err != nil {
		return lay, fmt.Errorf("the pieces cannot be laid: %w", err)
	}
	return lay, checked(pr, lay)
}

// FirstLay is a legal lay, quickly.
func FirstLay(pr *Prepared) (layout.Lay, error) {
	lay, err := layout.First(pr.Problem)
	if err != nil {
		return layout.Lay{}, &Unmakeable{"the pieces cannot be laid: " + err.Error() + "."}
	}
	return lay, checked(pr, lay)
}

func checked(pr *Prepared, lay layout.Lay) error {
	if err := layout.Check(pr.Problem, lay); err != nil {
		return fmt.Errorf("the lay that was found is not sound: %w", err)
	}
	return nil
}

// maxSeconds keeps a slip of the pen from overflowing a duration: a year.
const maxSeconds = 365 * 24 * 3600

func seconds(s float64) time.Duration {
	return time.Duration(min(s, maxSeconds) * float64(time.Second))
}
