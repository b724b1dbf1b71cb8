package layout

import (
	"context"
	"time"
)

// clock says when a search is over: the context is done, or its steps are used
// up. A step is one pass over the colliding items, so that a search bounded by
// steps does the same on any machine.
type clock struct {
	ctx      context.Context
	now      func() time.Time
	began    time.Time
	deadline time.Time // zero when there is none
	steps    int
	maxSteps int // 0: no bound
}

func newClock(ctx context.Context, maxSteps int) *clock {
	c := &clock{ctx: ctx, now: nowOf(ctx), maxSteps: maxSteps}
	c.began = c.now()
	c.deadline, _ = ctx.Deadline()
	return c
}

// tick counts a step; false when the search is over.
func (c *clock) tick() bool {
	c.steps++
	return !c.over()
}

func (c *clock) over() bool {
	return c.maxSteps > 0 && c.steps > c.maxSteps || c.ctx.Err() != nil
}

// spent is the share of the search's time or steps used up, 0 to 1; without a
// bound it is always 0. Steps count alone where they are bounded.
func (c *clock) spent() float64 {
	switch {
	case c.maxSteps > 0:
		return float64(c.steps) / float64(c.maxSteps)
	case !c.deadline.IsZero():
		if whole := c.deadline.Sub(c.began); whole > 0 {
			return float64(c.now().Sub(c.began)) / float64(whole)
		}
		return 1
	}
	return 0
}

// timeKey is the context's value for the clock that its searches are timed by.
type timeKey struct{}

// Timed is ctx in which all searches are timed by now instead of the system's
// clock, as comparisons on a machine that others use too time them by the
// processor. now is asked from several threads.
func Timed(ctx context.Context, now func() time.Time) context.Context {
	return context.WithValue(ctx, timeKey{}, now)
}

// nowOf is the clock of the context; the system's where it has none of its own.
func nowOf(ctx context.Context) func() time.Time {
	if now, ok := ctx.Value(timeKey{}).(func() time.Time); ok {
		return now
	}
	return time.Now
}

// Within is ctx done after d by the clock of the context; see Timed.
func Within(ctx context.Context, d time.Duration) (context.Context, context.CancelFunc) {
	now, ok := ctx.Value(timeKey{}).(func() time.Time)
	if !ok {
		return context.WithTimeout(ctx, d)
	}
	inner, cancel := context.WithCancel(ctx)
	w := &within{inner, now().Add(d), cancel}
	go w.watch(now)
	return w, cancel
}

// within is a context whose deadline is told by another clock than the system's.
type within struct {
	context.Context
	deadline time.Time
	cancel   context.CancelFunc
}

func (w *within) Deadline() (time.Time, bool) {
	if d, ok := w.Context.Deadline(); ok && d.Before(w.deadline) {
		return d, true
	}
	return w.deadline, true
}

// watch ends the context once its deadline is past.
func (w *within) watch(now func() time.Time) {
	const every = 2 * time.Millisecond
	t := time.NewTicker(every)
	defer t.Stop()
	for {
		select {
		case <-w.Done():
			return
		case <-t.C:
			if now().After(w.deadline) {
				w.cancel()
				return
			}
		}
	}
}
