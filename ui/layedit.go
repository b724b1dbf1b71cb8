package ui

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"ellwand/geometry"
	"ellwand/layout"
	"ellwand/plan"
)

// errNotLaid is said when pieces are to be moved that do not lie yet.
var errNotLaid = errors.New("the pieces are not laid yet")

// places is where pieces are to go, by number of the item.
type places map[int]layout.Placement

// place puts item i somewhere else, as one step of the history. Faults are
// allowed: they are shown and said.
func (b *bench) place(name string, i int, at layout.Placement) error {
	return b.placeAll(name, places{i: at})
}

// placeAll puts several pieces somewhere else, as one step.
func (b *bench) placeAll(name string, to places) error {
	var items []int
	for i, at := range to {
		if _, err := b.movable(i); err != nil {
			return err
		}
		if at != b.shown.Lay.Placements[i] {
			items = append(items, i)
		}
	}
	if len(items) == 0 {
		return nil
	}
	return b.editLay(name+" "+b.calledAll(items), func(l *plan.SavedLay) {
		for _, i := range items {
			l.Placements[i].Placement = to[i]
		}
	})
}

// movable is item i, when it may be moved now.
func (b *bench) movable(i int) (layout.Item, error) {
	if !b.current() || i < 0 || i >= len(b.shown.Prepared.Problem.Items) {
		return layout.Item{}, errNotLaid
	}
	it := b.shown.Prepared.Problem.Items[i]
	if it.Pinned != nil {
		return it, fmt.Errorf(words("%s is pinned; press P to let it go"), it.ID)
	}
	return it, nil
}

// movables are the pieces picked, when all of them may be moved now.
func (b *bench) movables() ([]int, error) {
	items := b.chosen()
	if len(items) == 0 {
		return nil, errNotLaid
	}
	for _, i := range items {
		if _, err := b.movable(i); err != nil {
			return nil, err
		}
	}
	return items, nil
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
	return b.showKept()
}

// showKept shows the lay that the plan keeps, as it was left.
func (b *bench) showKept() error {
	p := b.plan()
	pr, err := plan.Prepare(p)
	if err != nil {
		b.show(nil, err)
		b.tell(planChanged)
		return err
	}
	lay, ok := plan.LayAsLeft(p, pr)
	if !ok {
		return errNotLaid
	}
	r, err := plan.ReckonLay(p, pr, lay)
	b.show(r, err)
	b.tell(planChanged)
	return err
}

// turn gives the picked piece its next allowed turn, about its middle; several
// are turned together, as one.
func (b *bench) turn() error {
	items, err := b.movables()
	if err != nil {
		return err
	}
	if len(items) > 1 {
		return b.turnTogether(items)
	}
	i := items[0]
	it := b.shown.Prepared.Problem.Items[i]
	if len(it.TurnsDeg) < 2 {
		return fmt.Errorf(words("%s lies one way only: the nap or its grain forbids another"), it.ID)
	}
	at := b.shown.Lay.Placements[i]
	next := it.TurnsDeg[0]
	for k, t := range it.TurnsDeg {
		if sameTurn(t, at.TurnDeg) {
			next = it.TurnsDeg[(k+1)%len(it.TurnsDeg)]
		}
	}
	return b.place("turn", i, aboutMiddle(b.shown.Prepared.Problem, it, at, layout.Placement{TurnDeg: next, Flip: at.Flip}))
}

func sameTurn(a, b float64) bool { return math.Abs(math.Remainder(a-b, 360)) < 1e-9 }

// allowedTurn is the item's own way of writing a turn; false when it has none.
func allowedTurn(it layout.Item, deg float64) (float64, bool) {
	k := slices.IndexFunc(it.TurnsDeg, func(t float64) bool { return sameTurn(t, deg) })
	if k < 0 {
		return 0, false
	}
	return it.TurnsDeg[k], true
}

// turnTogether turns pieces as one, about the middle of them all, by the least
// turn that each of them may take.
func (b *bench) turnTogether(items []int) error {
	r := b.shown
	for _, by := range []float64{90, 180, 270} {
		to, ok := places{}, true
		for _, i := range items {
			at := r.Lay.Placements[i]
			var deg float64
			if deg, ok = allowedTurn(r.Prepared.Problem.Items[i], at.TurnDeg+by); !ok {
				break
			}
			to[i] = layout.Placement{TurnDeg: deg, Flip: at.Flip}
		}
		if !ok {
			continue
		}
		middle := middleOf(boxOf(r, items))
		s, c := math.Sincos(by * math.Pi / 180)
		return b.placeAll("turn", b.carried(items, to, func(p geometry.Point) geometry.Point {
			dx, dy := p.X-middle.X, p.Y-middle.Y
			return geometry.Point{X: middle.X + c*dx - s*dy, Y: middle.Y + s*dx + c*dy}
		}))
	}
	return errors.New(words("these pieces cannot be turned together: the nap or their grain forbids it"))
}

// carried puts the middle of each piece, turned as `to` says, where `where`
// takes the middle it has now, and pushes them all back onto the cloth.
func (b *bench) carried(items []int, to places, where func(geometry.Point) geometry.Point) places {
	p := b.shown.Prepared.Problem
	for _, i := range items {
		it, at := p.Items[i], to[i]
		was := layout.Placed(it, b.shown.Lay.Placements[i]).Bounds()
		is := layout.Placed(it, at).Bounds()
		want, have := where(middleOf(was)), middleOf(is)
		at.X, at.Y = at.X+want.X-have.X, at.Y+want.Y-have.Y
		to[i] = at
	}
	return withinTogether(p, to)
}

// flip turns the picked piece over, about its middle; several are turned over
// together, as one.
func (b *bench) flip() error {
	items, err := b.movables()
	if err != nil {
		return err
	}
	p := b.shown.Prepared.Problem
	to := places{}
	for _, i := range items {
		it, at := p.Items[i], b.shown.Lay.Placements[i]
		if !it.MayFlip {
			return fmt.Errorf(words("%s must not be turned over: the cloth has one right face or a nap"), it.ID)
		}
		if len(items) == 1 {
			return b.place("turn over", i, aboutMiddle(p, it, at, layout.Placement{TurnDeg: at.TurnDeg, Flip: !at.Flip}))
		}
		deg, ok := allowedTurn(it, -at.TurnDeg) // a mirrored turn runs the other way
		if !ok {
			return fmt.Errorf(words("%s cannot be turned over together with the others: its grain forbids it"), it.ID)
		}
		to[i] = layout.Placement{TurnDeg: deg, Flip: !at.Flip}
	}
	middle := middleOf(boxOf(b.shown, items))
	return b.placeAll("turn over", b.carried(items, to, func(q geometry.Point) geometry.Point {
		return geometry.Point{X: 2*middle.X - q.X, Y: q.Y}
	}))
}

func middleOf(r geometry.Rect) geometry.Point {
	return geometry.Point{X: (r.MinX + r.MaxX) / 2, Y: (r.MinY + r.MaxY) / 2}
}

// boxOf is what pieces take up together where they lie.
func boxOf(r *plan.Result, items []int) geometry.Rect {
	out := nothing()
	for _, i := range items {
		out = joined(out, layout.Placed(r.Prepared.Problem.Items[i], r.Lay.Placements[i]).Bounds())
	}
	return out
}

// nothing is the box that joins to any other without changing it.
func nothing() geometry.Rect {
	return geometry.Rect{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
}

func joined(a, b geometry.Rect) geometry.Rect {
	return geometry.Rect{MinX: min(a.MinX, b.MinX), MinY: min(a.MinY, b.MinY), MaxX: max(a.MaxX, b.MaxX), MaxY: max(a.MaxY, b.MaxY)}
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
	dx, dy := pushBack(p, layout.Placed(it, at).Bounds())
	at.X, at.Y = at.X+dx, at.Y+dy
	return at
}

// withinTogether is within for several pieces that keep to each other.
func withinTogether(p layout.Problem, to places) places {
	all := nothing()
	for i, at := range to {
		all = joined(all, layout.Placed(p.Items[i], at).Bounds())
	}
	dx, dy := pushBack(p, all)
	for i, at := range to {
		at.X, at.Y = at.X+dx, at.Y+dy
		to[i] = at
	}
	return to
}

// pushBack is the way back onto the cloth from where a box lies.
func pushBack(p layout.Problem, r geometry.Rect) (dx, dy float64) {
	dx = max(0, -r.MinX)
	if r.Height() <= p.WidthCM {
		dy = max(0, -r.MinY) - max(0, r.MaxY-p.WidthCM)
	}
	return dx, dy
}

// nudge moves the picked pieces by so many cm.
func (b *bench) nudge(dx, dy float64) error {
	items, err := b.movables()
	if err != nil {
		return err
	}
	return b.placeAll("move", withinTogether(b.shown.Prepared.Problem, b.shifted(items, dx, dy)))
}

// shifted is where pieces lie when they are moved by so many cm.
func (b *bench) shifted(items []int, dx, dy float64) places {
	to := places{}
	for _, i := range items {
		at := b.shown.Lay.Placements[i]
		at.X, at.Y = at.X+dx, at.Y+dy
		to[i] = at
	}
	return to
}

// pin pins the picked pieces where they lie; when all of them are pinned, it
// lets them go.
func (b *bench) pin() error {
	items := b.chosen()
	if !b.current() || len(items) == 0 {
		return errNotLaid
	}
	pinned := func(i int) bool { return b.shown.Prepared.Problem.Items[i].Pinned != nil }
	set := func(verb string, on bool) error {
		return b.editLay(verb+" "+b.calledAll(items), func(l *plan.SavedLay) {
			for _, i := range items {
				l.Placements[i].Pinned = on
			}
		})
	}
	if !slices.ContainsFunc(items, func(i int) bool { return !pinned(i) }) {
		return set("let go", false)
	}
	for _, f := range b.shown.Faults {
		for _, i := range items {
			if f.ItemA == i || f.ItemB == i {
				return fmt.Errorf(words("%s cannot be pinned while it lies wrong: %s"), b.shown.Prepared.Problem.Items[i].ID, f.Text)
			}
		}
	}
	return set("pin", true)
}

// faultsOf is what is wrong with item i where it lies or would lie.
func faultsOf(r *plan.Result, i int, at layout.Placement) []layout.Fault {
	return faultsAt(r, places{i: at})
}

// faultsAt is what is wrong with pieces where they would lie.
func faultsAt(r *plan.Result, to places) []layout.Fault {
	p := r.Prepared.Problem
	all := slices.Clone(r.Lay.Placements)
	for i, at := range to {
		all[i] = at
	}
	lay := layout.Lay{WidthCM: r.Lay.WidthCM, LengthCM: layout.ReachCM(p, all), Placements: all}
	var out []layout.Fault
	for _, f := range layout.Faults(p, lay) {
		_, a := to[f.ItemA]
		_, b := to[f.ItemB]
		if a || b {
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

// itemsIn are the pieces that lie wholly within a rectangle.
func itemsIn(r *plan.Result, in geometry.Rect) []int {
	var out []int
	for i, it := range r.Prepared.Problem.Items {
		q := layout.Placed(it, r.Lay.Placements[i]).Bounds()
		if q.MinX >= in.MinX && q.MaxX <= in.MaxX && q.MinY >= in.MinY && q.MaxY <= in.MaxY {
			out = append(out, i)
		}
	}
	return out
}
