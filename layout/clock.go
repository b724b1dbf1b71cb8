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
	began    time.Time
	deadline time.Time // zero when there is none
	steps    int
	maxSteps int // 0: no bound
}

func newClock(ctx context.Context, maxSteps int) *clock {
	c := &clock{ctx: ctx, began: time.Now(), maxSteps: maxSteps}
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
			return float64(time.Since(c.began)) / float64(whole)
		}
		return 1
	}
	return 0
}
