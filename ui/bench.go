package ui

import (
	"context"
	"runtime"
	"slices"

	"ellwand/layout"
	"ellwand/plan"
)

// topic is what a listener is told has changed.
type topic int

const (
	planChanged   topic = iota // the plan, or which plan it is
	resultChanged              // what is shown on the strip and in the figures
	pickChanged                // which piece is picked
	packChanged                // packing started, went on or ended
	boundChanged               // more is known of how short a lay can be
)

// bench is what the window works on: a plan with its history, the lay shown,
// the piece picked, and the packing that goes on. All its methods are called
// from the window's own goroutine; work of its own comes back through onWindow.
type bench struct {
	history *plan.History
	path    string     // where the plan is kept; "" when it has no file yet
	held    plan.Stamp // what that file held when it was last read or written

	shown   *plan.Result            // the last that could be worked out; nil for none
	of      *plan.Plan              // the plan that shown belongs to
	trouble error                   // why the plan as it stands gives no lay
	picked  string                  // item ID, "" for none
	also    []string                // further pieces picked together with it
	kept    map[string]*plan.Result // lays to be compared, by letter

	packing  *packing
	asked    *question    // nil: nothing is asked
	bounding bool         // the bound of what is shown, or was, is being worked out
	entry    *plan.Plan   // the entry of the log being filled in; nil before the first
	back     *lookingBack // nil until it is asked what is in hand makes
	onBack   func()       // told when back has changed
	moment   float64      // seconds packed after a change that needs a new lay
	long     float64      // seconds packed when asked to
	study    float64      // seconds for a width table
	known    *remembered  // what the states of the history looked like
	listen   []*func(topic)

	spawn    func(func()) // runs work beside the window
	onWindow func(func()) // brings work back onto the window's goroutine
}

func newBench(p *plan.Plan, path string, spawn, onWindow func(func())) *bench {
	b := &bench{spawn: spawn, onWindow: onWindow, moment: momentSeconds, long: packSeconds, study: widthSeconds}
	b.start(p, path)
	return b
}

// start puts another plan on the bench.
func (b *bench) start(p *plan.Plan, path string) {
	b.cancelPacking()
	b.stopBack()
	b.back, b.entry = nil, nil
	b.history = plan.NewHistory(p)
	b.history.Check = changeable
	b.held = p.ReadFrom()
	b.path, b.shown, b.of, b.trouble, b.picked, b.also, b.kept = path, nil, nil, nil, "", nil, nil
	b.known = newRemembered()
	b.tell(planChanged)
}

// onChange has f told of every change, until the function that it gives is
// called: whatever goes before the window does must call it, or is held for good.
func (b *bench) onChange(f func(topic)) (deaf func()) {
	l := &f
	b.listen = append(b.listen, l)
	return func() {
		b.listen = slices.DeleteFunc(slices.Clone(b.listen), func(k *func(topic)) bool { return k == l })
	}
}

func (b *bench) tell(t topic) {
	if t == planChanged {
		b.dropQuestion()
	}
	for _, f := range b.listen {
		(*f)(t)
	}
}

func (b *bench) plan() *plan.Plan { return b.history.Current() }

// do changes the plan under a name that undo shows, and works it out anew.
func (b *bench) do(name string, change func(*plan.Plan) error) error {
	none := b.leave()
	if err := b.history.Do(name, change); err != nil {
		if none {
			b.startPacking(false, b.moment)
		}
		return err
	}
	b.workOut()
	b.tell(planChanged)
	return nil
}

// set is do for one field of a form.
func (b *bench) set(path, label, text string) error {
	if plan.GetField(b.plan(), path) == text {
		return nil
	}
	return b.do(label, func(p *plan.Plan) error { return plan.SetField(p, path, text) })
}

// undo goes a step back; redo a step forward.
func (b *bench) undo() { b.travel(b.history.Undo) }
func (b *bench) redo() { b.travel(b.history.Redo) }

func (b *bench) travel(step func() (string, bool)) {
	none := b.leave()
	if _, ok := step(); !ok {
		if none {
			b.startPacking(false, b.moment)
		}
		return
	}
	if r, ok := b.known.result(b.plan()); ok {
		b.show(r, nil)
	} else {
		b.workOut()
	}
	b.tell(planChanged)
}

// show puts a result of the present plan in the window, or why there is none.
func (b *bench) show(r *plan.Result, trouble error) {
	b.trouble = trouble
	if r != nil {
		if b.shown != nil {
			r.TakeBound(b.shown)
		}
		b.shown, b.of = r, b.plan()
		if b.packing == nil || !b.packing.asked {
			b.known.keep(b.of, r, b.history)
		}
	}
	b.dropLost()
	b.tell(resultChanged)
	b.seekBound()
}

// current says whether what is shown belongs to the plan as it stands.
func (b *bench) current() bool { return b.shown != nil && b.of == b.plan() && b.trouble == nil }

// workOut works the plan out: with the lay that is shown or kept while that
// still serves, else with a new one that is packed for a moment.
func (b *bench) workOut() {
	p, before := b.plan(), b.shown
	pr, err := plan.Prepare(p)
	if err != nil {
		b.cancelPacking()
		b.show(nil, err)
		return
	}
	if lay, ok := layThatServes(p, pr, before); ok {
		r, err := plan.ReckonLay(p, pr, lay)
		b.show(r, err)
		return
	}
	b.startPacking(false, b.moment)
}

// layThatServes is the lay shown before, when the pieces and the cloth are the
// same, or else the lay kept in the plan: as it was left when the plan was just
// opened, later only while it is sound.
func layThatServes(p *plan.Plan, pr *plan.Prepared, before *plan.Result) (layout.Lay, bool) {
	if before != nil {
		if sameGround(before.Prepared.Problem, pr.Problem) {
			return before.Lay, true
		}
		return plan.SavedLayFits(p, pr)
	}
	return plan.LayAsLeft(p, pr)
}

// sameGround says whether the same pieces lie on the same cloth; pins may differ.
func sameGround(a, b layout.Problem) bool {
	ends := func(x, y layout.Length) bool { return x.FromCM == y.FromCM && x.ToCM == y.ToCM }
	return a.WidthCM == b.WidthCM && a.GapCM == b.GapCM && slices.EqualFunc(a.Lengths, b.Lengths, ends) &&
		slices.EqualFunc(a.Items, b.Items, samePiece)
}

// threads leaves one core to the window.
func threads() int { return max(1, runtime.NumCPU()-1) }

// begin is the first working out, beside the window so that it opens at once.
func (b *bench) begin() {
	p := b.plan()
	b.spawn(func() {
		pr, err := plan.Prepare(p)
		var r *plan.Result
		if err == nil {
			if lay, ok := layThatServes(p, pr, nil); ok {
				r, err = plan.ReckonLay(p, pr, lay)
			}
		}
		b.onWindow(func() {
			switch {
			case b.plan() != p || b.shown != nil:
			case err != nil || r != nil:
				b.show(r, err)
			default:
				b.startPacking(false, b.moment)
			}
		})
	})
}

// widths works the width table out beside the window, from the lay shown on.
func (b *bench) widths(ctx context.Context, progress func(done, all int), done func([]plan.WidthRow, error)) {
	p := b.plan().Clone()
	var shown *plan.Result
	if b.current() {
		shown = b.shown
	}
	b.spawn(func() {
		rows, err := plan.Widths(ctx, p, shown, plan.Options{Seed: 1, Threads: threads(), Seconds: b.study},
			func(n, all int) { b.onWindow(func() { progress(n, all) }) })
		b.onWindow(func() { done(rows, err) })
	})
}
