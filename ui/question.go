package ui

import (
	"context"
	"time"
)

// stretch is a time that work beside the window is given.
type stretch struct {
	began   time.Time
	seconds float64
}

// share is how much of the time is used, from 0 to 1; it is for a progress bar.
func (s stretch) share(now time.Time) float64 {
	if s.seconds == 0 {
		return 1
	}
	return min(1, now.Sub(s.began).Seconds()/s.seconds)
}

// question is what is asked of the plan as it stands, and worked out beside the
// window, as what must move is. A change of the plan drops it.
type question struct {
	stretch
	cancel context.CancelFunc
}

// ask has find work for so many seconds or until it is stopped, and then tell say
// in the window what was found by then. It ends whatever is packed or asked.
func (b *bench) ask(seconds float64, find func(context.Context), tell func(stopped bool)) {
	b.dropQuestion()
	b.stop()
	ctx, cancel := context.WithCancel(context.Background())
	q := &question{stretch: stretch{time.Now(), seconds}, cancel: cancel}
	b.asked = q
	b.tell(packChanged)
	b.spawn(func() {
		find(ctx)
		stopped := ctx.Err() != nil
		cancel()
		b.onWindow(func() {
			if b.asked != q {
				return // dropped: the answer would be of another plan
			}
			b.asked = nil
			b.tell(packChanged)
			tell(stopped)
		})
	})
}

// dropQuestion ends what is asked, without an answer.
func (b *bench) dropQuestion() {
	if q := b.asked; q != nil {
		b.asked = nil
		q.cancel()
		b.tell(packChanged)
	}
}

// work is the time that what goes on beside the window is given, if anything
// does: what the user asks, else a search for a lay.
func (b *bench) work() (s stretch, isGoing bool) {
	switch {
	case b.asked != nil:
		return b.asked.stretch, true
	case b.packing != nil:
		return b.packing.stretch, true
	}
	return stretch{}, false
}

// ask is the bench's, with an answer that may open something: it comes once nothing
// else is open over the window; if the plan changes before that, not at all.
func (v *window) ask(seconds float64, find func(context.Context), tell func(stopped bool)) {
	v.b.ask(seconds, find, func(stopped bool) { v.whenClear(func() { tell(stopped) }) })
}

// whenClear has show come once nothing is open over the window, while the plan is
// the same.
func (v *window) whenClear(show func()) {
	of := v.b.plan()
	var try func()
	try = func() {
		switch top := v.Canvas().Overlays().Top(); {
		case v.b.plan() != of:
		case top == nil || !top.Visible():
			show()
		default:
			v.b.spawn(func() {
				time.Sleep(200 * time.Millisecond)
				v.b.onWindow(try)
			})
		}
	}
	try()
}
