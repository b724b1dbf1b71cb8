package ui

import (
	"context"
	"errors"
	"time"

	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// momentSeconds is packed after every change that needs a new lay; packSeconds
// when the user asks for it, unless it is stopped sooner; widthSeconds is shared
// by all the widths of one table.
const (
	momentSeconds = 2
	packSeconds   = 30
	widthSeconds  = 8
)

// packing is a search that goes on beside the window.
type packing struct {
	stretch
	asked  bool // by the user: its end is a step of the history
	cancel context.CancelFunc
	before *plan.Result // what was shown when it began; nil when that no longer serves
	better bool         // it has found something worth keeping
}

// pack searches for a shorter lay until it is stopped or the time is up.
func (b *bench) pack() {
	b.dropQuestion()
	b.leave()
	if b.trouble == nil {
		b.startPacking(true, b.long)
	}
}

func (b *bench) startPacking(asked bool, seconds float64) {
	b.cancelPacking()
	ctx, cancel := context.WithCancel(context.Background())
	k := &packing{asked: asked, stretch: stretch{time.Now(), seconds}, cancel: cancel}
	if asked && b.current() {
		k.before = b.shown
	}
	b.packing = k
	b.trouble = nil
	p := b.plan()
	o := plan.Options{Seed: uint64(k.began.UnixNano()), Threads: threads(), Seconds: seconds}
	if !asked {
		o.Seed = 1
	}
	o.Found = func(r *plan.Result) { b.onWindow(func() { b.found(k, r) }) }
	b.tell(packChanged)
	b.spawn(func() {
		if ctx.Err() != nil { // stopped before it began: nobody waits for it
			return
		}
		r, err := plan.Work(ctx, p, o)
		b.onWindow(func() { b.packed(k, r, err) })
	})
}

// found shows a lay that is better than the one shown.
func (b *bench) found(k *packing, r *plan.Result) {
	if b.packing != k || k.before != nil && !shorter(r, b.shown) {
		return
	}
	if !k.asked && k.better && !shorter(r, b.shown) {
		return
	}
	k.better = true
	b.show(r, nil)
}

// shorter says whether a's lay is worth taking for b's.
func shorter(a, b *plan.Result) bool {
	return b == nil || len(b.Faults) > 0 && len(a.Faults) == 0 || plan.Shorter(a, b)
}

// packed is the end of a search that was not stopped.
func (b *bench) packed(k *packing, r *plan.Result, err error) {
	if b.packing != k {
		return
	}
	if err != nil {
		b.packing = nil
		k.cancel()
		if !errors.Is(err, context.Canceled) {
			b.show(nil, err)
		}
		b.tell(packChanged)
		return
	}
	b.found(k, r)
	b.stop()
}

// halt is what the button Stop does. What is asked is answered with what was
// found by then. Where nothing is laid yet the first lay is still made, beside the
// window, for that may take long.
func (b *bench) halt() {
	if b.asked != nil {
		b.asked.cancel()
	}
	switch k := b.packing; {
	case k == nil, k.seconds == 0: // that is all it does
	case b.current():
		b.stop()
	default:
		b.startPacking(false, 0)
	}
}

// leave ends a search before the plan changes, and keeps the best it has shown;
// none says that there was none yet, so that one is wanting where nothing changes.
func (b *bench) leave() (none bool) {
	if b.packing == nil {
		return false
	}
	if none = !b.current(); none {
		b.cancelPacking()
	} else {
		b.stop()
	}
	return none
}

// stop ends a search and keeps the best it has shown. A plan that had no lay yet
// gets its first one at once: nobody else would ask for it again.
func (b *bench) stop() {
	k := b.packing
	if k == nil {
		return
	}
	b.cancelPacking()
	if !b.current() {
		b.show(plan.Work(context.Background(), b.plan(), plan.Options{Seed: 1, Threads: 1}))
		return
	}
	if !k.asked || !k.better {
		return
	}
	r := b.shown
	if newer := b.plan().Newer; newer != nil {
		b.show(k.before, newer)
		return
	}
	b.history.KeepLay("pack", r)
	b.show(r, nil)
	b.tell(planChanged)
}

// cancelPacking ends a search without keeping anything.
func (b *bench) cancelPacking() {
	if k := b.packing; k != nil {
		b.packing = nil
		k.cancel()
		b.tell(packChanged)
	}
}

// newProgress is a bar without figures on it: a text half on the bar's colour and
// half beside it cannot be read on both.
func newProgress() *widget.ProgressBar {
	bar := widget.NewProgressBar()
	bar.TextFormatter = func() string { return "" }
	return bar
}
