package ui

import (
	"errors"
	"fmt"
	"math"

	"ellwand/geometry"
	"ellwand/layout"
	"ellwand/plan"
)

// errNotLaid is said when pieces are to be moved that do not lie yet.
var errNotLaid = errors.New("the pieces are not laid yet")

// place puts item i somewhere else, as one step of the history. Faults are
// allowed: they are shown and said.
func (b *bench) place(name string, i int, at layout.Placement) error {
	it, err := b.movable(i)
	if err != nil {
		return err
	}
	if at == b.shown.Lay.Placements[i] {
		return nil
	}
	return b.editLay(name+" "+it.ID, func(l *plan.SavedLay) { l.Placements[i].Placement = at })
}

// movable is item i, when it may be moved now.
func (b *bench) movable(i int) (layout.Item, error) {
	if !b.current() || i < 0 || i >= len(b.shown.Prepared.Problem.Items) {
		return layout.Item{}, errNotLaid
	}
	it := b.shown.Prepared.Problem.Items[i]
	if it.Pinned != nil {
		return it, fmt.Errorf("%s is pinned; press P to let it go", it.ID)
	}
	return it, nil
}

// editLay changes the lay that is shown; entry i of the kept lay is item i.
func (b *bench) editLay(name string, change func(*plan.SavedLay)) error {
	b.stop()
	if !b.current() {
		return errNotLaid
	}
	before := b.shown
	err := b.history.Do(name, func(p *plan.Plan) error {
		p.KeepLay(before)
		change(p.Lay)
		return nil
	})
	if err != nil {
		return err
	}
	p := b.plan()
	pr, err := plan.Prepare(p)
	if err != nil {
		b.show(nil, err)
		b.tell(planChanged)
		return err
	}
	lay, ok := layAsLeft(p, pr)
	if !ok {
		return errNotLaid
	}
	r, err := plan.ReckonLay(p, pr, lay)
	b.show(r, err)
	b.tell(planChanged)
	return err
}

// turn gives the picked piece its next allowed turn, about its middle.
func (b *bench) turn() error {
	i := b.item()
	it, err := b.movable(i)
	if err != nil {
		return err
	}
	if len(it.TurnsDeg) < 2 {
		return fmt.Errorf("%s lies one way only: the nap or its grain forbids another", it.ID)
	}
	at := b.shown.Lay.Placements[i]
	next := it.TurnsDeg[0]
	for k, t := range it.TurnsDeg {
		if math.Abs(math.Remainder(t-at.TurnDeg, 360)) < 1e-9 {
			next = it.TurnsDeg[(k+1)%len(it.TurnsDeg)]
		}
	}
	return b.place("turn", i, aboutMiddle(b.shown.Prepared.Problem, it, at, layout.Placement{TurnDeg: next, Flip: at.Flip}))
}

// flip turns the picked piece over, about its middle.
func (b *bench) flip() error {
	i := b.item()
	it, err := b.movable(i)
	if err != nil {
		return err
	}
	if !it.MayFlip {
		return fmt.Errorf("%s must not be turned over: the cloth has one right face or a nap", it.ID)
	}
	at := b.shown.Lay.Placements[i]
	return b.place("turn over", i, aboutMiddle(b.shown.Prepared.Problem, it, at, layout.Placement{TurnDeg: at.TurnDeg, Flip: !at.Flip}))
}

// aboutMiddle moves `to` so that the piece keeps its middle, as far as it then
// stays between the selvedges and behind the cut end.
func aboutMiddle(p layout.Problem, it layout.Item, from, to layout.Placement) layout.Placement {
	was, is := layout.Placed(it, from).Bounds(), layout.Placed(it, to).Bounds()
	to.X += (was.MinX + was.MaxX - is.MinX - is.MaxX) / 2
	to.Y += (was.MinY + was.MaxY - is.MinY - is.MaxY) / 2
	return within(p, it, to)
}

// within pushes a placement back onto the cloth where that is possible.
func within(p layout.Problem, it layout.Item, at layout.Placement) layout.Placement {
	box := layout.Placed(it, at).Bounds()
	at.X += max(0, -box.MinX)
	if box.Height() <= p.WidthCM {
		at.Y += max(0, -box.MinY) - max(0, box.MaxY-p.WidthCM)
	}
	return at
}

// nudge moves the picked piece by so many cm.
func (b *bench) nudge(dx, dy float64) error {
	i := b.item()
	it, err := b.movable(i)
	if err != nil {
		return err
	}
	at := b.shown.Lay.Placements[i]
	at.X, at.Y = at.X+dx, at.Y+dy
	return b.place("move", i, within(b.shown.Prepared.Problem, it, at))
}

// pin pins the picked piece where it lies, or lets it go.
func (b *bench) pin() error {
	i := b.item()
	if !b.current() || i < 0 {
		return errNotLaid
	}
	it := b.shown.Prepared.Problem.Items[i]
	if it.Pinned != nil {
		return b.editLay("let go "+it.ID, func(l *plan.SavedLay) { l.Placements[i].Pinned = false })
	}
	for _, f := range b.shown.Faults {
		if f.ItemA == i || f.ItemB == i {
			return fmt.Errorf("%s cannot be pinned while it lies wrong: %s", it.ID, f.Text)
		}
	}
	return b.editLay("pin "+it.ID, func(l *plan.SavedLay) { l.Placements[i].Pinned = true })
}

// faultsOf is what is wrong with item i where it lies or would lie.
func faultsOf(r *plan.Result, i int, at layout.Placement) []layout.Fault {
	p := r.Prepared.Problem
	all := append([]layout.Placement(nil), r.Lay.Placements...)
	all[i] = at
	lay := layout.Lay{WidthCM: r.Lay.WidthCM, LengthCM: lengthOf(p, all), Placements: all}
	var out []layout.Fault
	for _, f := range layout.Faults(p, lay) {
		if f.ItemA == i || f.ItemB == i {
			out = append(out, f)
		}
	}
	return out
}

// itemAt is the piece under a place on the cloth; -1 for none. Of pieces that
// overlap, the smallest is meant.
func itemAt(r *plan.Result, at geometry.Point) int {
	best, least := -1, math.Inf(1)
	for i, it := range r.Prepared.Problem.Items {
		q := layout.Placed(it, r.Lay.Placements[i])
		if geometry.Locate(q, at) != geometry.Outside && q.Area() < least {
			best, least = i, q.Area()
		}
	}
	return best
}
