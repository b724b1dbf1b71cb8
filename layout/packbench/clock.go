package main

import (
	"context"
	"time"

	"ellwand/layout"
)

// within is a context for one search of so many seconds on so many threads, by
// the clock asked for.
func (o options) within(seconds float64) (context.Context, context.CancelFunc) {
	ctx := context.Background()
	if o.clock == "processor" {
		ctx = layout.Timed(ctx, processorTime(o.threads))
	}
	return layout.Within(ctx, time.Duration(seconds*float64(time.Second)))
}
