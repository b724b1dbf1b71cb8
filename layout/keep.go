package layout

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// Kept is a lay as near to an earlier one as was found.
type Kept struct {
	Lay   Lay
	Must  []Fault // why pieces could not stay: ItemA moves for it
	Moved []int   // all that lie elsewhere than before, in the order of the items
	Fits  bool    // all lie within the length asked for
}

// Keep lays p as near as it can to the lay was, within limitCM of strip: as few
// pieces as can be found move, and those as little as can be found. Pieces that
// lie off the cloth, on a flaw or on each other must move; others move only to
// make room. Where not everything finds room it fits not, and lies as near as
// it was found. Pinned pieces stay. Until ctx is done, or the search is
// through; the same seed gives the same lay when it is through.
func Keep(ctx context.Context, p Problem, was Lay, limitCM float64, s Settings) (Kept, error) {
	if err := p.Validate(); err != nil {
		return Kept{}, err
	}
	if len(was.Placements) != len(p.Items) {
		return Kept{}, fmt.Errorf("the lay places %d pieces; there are %d", len(was.Placements), len(p.Items))
	}
	if p.matched() {
		p = p.withPhases(was.Placements)
	}
	k := &keeper{ctx: ctx, p: p, m: newModel(context.Background(), p), was: was, limit: limitCM, s: s}
	k.was.WidthCM = p.WidthCM
	k.mustMove()
	k.search()
	if len(k.best.Placements) == 0 {
		return Kept{}, errNoLay
	}
	out := Kept{Lay: k.best, Must: k.faults, Fits: k.best.LengthCM <= limitCM+fitCM}
	for i, at := range k.best.Placements {
		if at != was.Placements[i] {
			out.Moved = append(out.Moved, i)
		}
	}
	return out, Check(p, out.Lay)
}

type keeper struct {
	ctx    context.Context
	p      Problem
	m      *model
	was    Lay
	limit  float64
	s      Settings
	faults []Fault
	must   []int // items that cannot stay
	best   Lay
	moved  int     // pieces that best moves
	far    float64 // and how far in all
}

// mustMove finds the pieces that cannot stay. Of two that overlap the smaller
// goes, unless it is pinned.
func (k *keeper) mustMove() {
	gone := make([]bool, len(k.p.Items))
	lay := k.was
	lay.LengthCM = k.limit
	if math.IsInf(k.limit, 1) {
		lay.LengthCM = ReachCM(k.p, k.was.Placements)
	}
	pairs := []Fault{}
	for _, f := range Faults(k.p, lay) {
		switch {
		case f.ItemA < 0:
		case f.ItemB >= 0:
			pairs = append(pairs, f)
		case !gone[f.ItemA]:
			gone[f.ItemA] = true
			k.faults = append(k.faults, f)
		}
	}
	for _, f := range pairs {
		if gone[f.ItemA] || gone[f.ItemB] {
			continue
		}
		a, b := k.p.Items[f.ItemA], k.p.Items[f.ItemB]
		if b.Pinned == nil && (a.Pinned != nil || b.Outline.Area() <= a.Outline.Area()) {
			f.ItemA, f.ItemB = f.ItemB, f.ItemA
		}
		gone[f.ItemA] = true
		k.faults = append(k.faults, f)
	}
	for i, g := range gone {
		if g && k.p.Items[i].Pinned == nil {
			k.must = append(k.must, i)
		}
	}
}

// Effort of the searches for room.
const (
	keepSteps = 120 // passes of one search for room
	keepLong  = 600 // where everything may move
)

// search frees more pieces, the nearest first, until those that must move find
// room; then it takes back what need not have moved.
func (k *keeper) search() {
	if k.try(k.must, keepSteps); len(k.must) == 0 || k.fits() {
		return
	}
	near := k.nearest()
	for _, i := range near { // one alone may do
		if k.over() {
			break
		}
		if k.try(append(slices.Clone(k.must), i), keepSteps/2); k.fits() {
			return
		}
	}
	for round := range keepRounds {
		for _, order := range k.orders(near) {
			k.grow(order)
			k.prune()
		}
		if k.over() || !k.fits() && round > 0 {
			return
		}
		k.s.Seed++
	}
}

// keepRounds is how often all is tried again with other luck.
const keepRounds = 4

// orders is the sequences in which pieces are freed: the nearest first, those
// further along the cloth, those before, the smallest.
func (k *keeper) orders(near []int) [][]int {
	by := func(key func(i int) float64) []int {
		var out []int
		for _, n := range sortedBy(len(near), func(n int) float64 { return key(near[n]) }) {
			out = append(out, near[n])
		}
		return out
	}
	x := func(i int) float64 { return Placed(k.p.Items[i], k.was.Placements[i]).Bounds().MinX }
	start := math.Inf(1)
	for _, i := range k.must {
		start = min(start, x(i))
	}
	onwards := func(i int) float64 {
		if d := x(i) - start; d >= 0 {
			return d
		}
		return 1e6 + start - x(i)
	}
	return [][]int{near, by(onwards), by(func(i int) float64 { return k.p.Items[i].Outline.Area() }), by(func(i int) float64 { return -x(i) })}
}

// grow frees piece after piece until there is room, or as many are free as the
// best lay moves already.
func (k *keeper) grow(order []int) {
	free := slices.Clone(k.must)
	for n, i := range order {
		if k.over() || k.fits() && len(free)+1 >= k.moved {
			return
		}
		free = append(free, i)
		steps := keepSteps
		if n == len(order)-1 {
			steps = keepLong
		}
		if k.try(free, steps); k.fits() && k.moved <= len(free) {
			return
		}
	}
}

// prune takes back, one by one, pieces that need not have moved.
func (k *keeper) prune() {
	for again := k.fits(); again && !k.over(); {
		again = false
		moved := k.extra()
		for _, i := range moved {
			less := slices.DeleteFunc(slices.Clone(moved), func(j int) bool { return j == i })
			before := k.moved
			if k.try(append(slices.Clone(k.must), less...), keepSteps); k.moved < before {
				again = true
				break
			}
			if k.over() {
				return
			}
		}
	}
}

// extra is the pieces that the best lay moves though they need not.
func (k *keeper) extra() []int {
	var out []int
	for i, at := range k.best.Placements {
		if at != k.was.Placements[i] && !slices.Contains(k.must, i) {
			out = append(out, i)
		}
	}
	return out
}

func (k *keeper) fits() bool {
	return len(k.best.Placements) > 0 && k.best.LengthCM <= k.limit+fitCM
}

func (k *keeper) over() bool { return k.ctx.Err() != nil }

// nearest is the pieces that may move but need not, those nearest along the
// strip to what must move first.
func (k *keeper) nearest() []int {
	mid := func(i int) float64 {
		b := Placed(k.p.Items[i], k.was.Placements[i]).Bounds()
		return (b.MinX + b.MaxX) / 2
	}
	var out []int
	for i, it := range k.p.Items {
		if it.Pinned == nil && !slices.Contains(k.must, i) {
			out = append(out, i)
		}
	}
	apart := func(i int) float64 {
		d := math.Inf(1)
		for _, j := range k.must {
			d = min(d, math.Abs(mid(i)-mid(j)))
		}
		return d
	}
	order := sortedBy(len(out), func(n int) float64 { return apart(out[n]) })
	sorted := make([]int, len(out))
	for n, o := range order {
		sorted[n] = out[o]
	}
	return sorted
}

// try lays the free pieces anew, all others where they were, and keeps the
// outcome if it is better; false when nothing was found.
func (k *keeper) try(free []int, steps int) bool {
	if all, ok := k.greedy(free); ok && k.offer(all) && k.fits() {
		return true
	}
	if len(free) == 0 {
		return false
	}
	sub := k.p
	sub.Items = slices.Clone(sub.Items)
	for i := range sub.Items {
		if !slices.Contains(free, i) {
			at := k.was.Placements[i]
			sub.Items[i].Pinned = &at
		}
	}
	ctx, cancel := context.WithCancel(k.ctx)
	defer cancel()
	s := k.s
	s.MaxSteps, s.Threads = steps, 1
	l, err := Improve(ctx, sub, Lay{}, s, func(l Lay) {
		if l.LengthCM <= k.limit+fitCM {
			cancel()
		}
	})
	if err != nil {
		return false
	}
	return k.offer(k.closer(k.m.bodiesOf(l), free))
}

// greedy puts the free pieces, the largest first, where each lies nearest to
// where it was.
func (k *keeper) greedy(free []int) ([]body, bool) {
	all := k.m.bodiesOf(k.was)
	s := k.sheet(all, free)
	for _, n := range sortedBy(len(free), func(n int) float64 { return -k.p.Items[free[n]].Outline.Area() }) {
		i := free[n]
		b, ok := k.nearestPlace(s, i)
		if !ok {
			return nil, false
		}
		all[i] = b
		s.bodies = append(s.bodies, b)
	}
	return k.closer(all, free), true
}

// sheet is the ground and all bodies but those of the free pieces.
func (k *keeper) sheet(all []body, free []int) *sheet {
	s := &sheet{m: k.m}
	for _, f := range k.m.flaws {
		s.bodies = append(s.bodies, k.m.body(f, 0, 0))
	}
	for i, b := range all {
		if !slices.Contains(free, i) {
			s.bodies = append(s.bodies, b)
		}
	}
	return s
}

// closer moves each free piece nearer to where it was while that can be done.
func (k *keeper) closer(all []body, free []int) []body {
	for range 4 {
		moved := false
		for _, i := range free {
			s := k.sheet(all, nil)
			at := len(k.m.flaws) + i
			s.bodies = append(s.bodies[:at], s.bodies[at+1:]...)
			if b, ok := k.nearestPlace(s, i); ok && k.distance(i, b) < k.distance(i, all[i])-1e-6 {
				all[i], moved = b, true
			}
		}
		if !moved {
			break
		}
	}
	return all
}

// turnedCM is how far a piece counts as moved for being turned.
const turnedCM = 10

// distance is how far b's middle is from where the item's was.
func (k *keeper) distance(i int, b body) float64 {
	q := Placed(k.p.Items[i], k.was.Placements[i])
	o := q.Bounds()
	d := math.Hypot((b.box.MinX+b.box.MaxX-o.MinX-o.MaxX)/2, (b.box.MinY+b.box.MaxY-o.MinY-o.MaxY)/2)
	if shapeKey(q) != shapeKey(k.m.forms[b.form].poly) {
		d += turnedCM
	}
	return d
}

// nearestPlace is the free place within the limit at which the item lies
// nearest to where it was: at its old height or place along, or flush with
// something.
func (k *keeper) nearestPlace(s *sheet, i int) (body, bool) {
	o := Placed(k.p.Items[i], k.was.Placements[i]).Bounds()
	best, least := body{}, math.Inf(1)
	for _, f := range k.m.ofItem[i] {
		box := k.m.forms[f].box
		lo, hi := k.m.room(f)
		x0, x1 := -box.MinX, k.limit-box.MaxX
		wantX, wantY := (o.MinX+o.MaxX-box.MinX-box.MaxX)/2, (o.MinY+o.MaxY-box.MinY-box.MaxY)/2
		wantX, wantY = min(max(wantX, x0), x1), min(max(wantY, lo), hi)
		try := func(x, y float64) {
			b := k.m.body(f, x, y)
			if x < x0-fitCM || x > x1+fitCM || y < lo-fitCM || y > hi+fitCM || k.distance(i, b) >= least {
				return
			}
			if b, ok := s.nearest(b); ok && b.box.MaxX <= k.limit+fitCM {
				if d := k.distance(i, b); d < least {
					best, least = b, d
				}
			}
		}
		for _, y := range append(s.heights(f, lo, hi), wantY) {
			for _, x := range ends(s.spansAlong(f, y), wantX) {
				try(x, y)
			}
		}
		for _, x := range append(s.alongs(f, x0), wantX) {
			for _, y := range ends(s.spansAcross(f, x), wantY) {
				try(x, y)
			}
		}
	}
	return best, !math.IsInf(least, 1)
}

// ends is the value wanted and all ends of spans: what lies nearest to it and
// inside none is among them.
func ends(spans []span, want float64) []float64 {
	out := []float64{want}
	for _, s := range spans {
		out = append(out, s.lo, s.hi)
	}
	inside := func(v float64) bool {
		for _, s := range spans {
			if v > s.lo+1e-9 && v < s.hi-1e-9 {
				return true
			}
		}
		return false
	}
	return slices.DeleteFunc(out, inside)
}

// spansAlong is where form f at height y would lie on a body of the sheet.
func (s *sheet) spansAlong(f int32, y float64) []span {
	s.firstX(f, math.Inf(-1), y)
	return slices.Clone(s.spans)
}

// spansAcross is spansAlong for heights, at x along.
func (s *sheet) spansAcross(f int32, x float64) []span {
	s.firstY(f, x, math.Inf(-1))
	return slices.Clone(s.spans)
}

// offer takes a lay that moves fewer pieces, or as many less far; one that fits
// before one that does not.
func (k *keeper) offer(all []body) bool {
	l := Lay{WidthCM: k.p.WidthCM, Placements: make([]Placement, len(all))}
	moved, far := 0, 0.0
	for i, b := range all {
		l.Placements[i] = k.placement(i, b)
		if l.Placements[i] != k.was.Placements[i] {
			moved++
			far += k.distance(i, b)
		}
	}
	l.LengthCM = ReachCM(k.p, l.Placements)
	if Check(k.p, l) != nil {
		return false
	}
	fits := l.LengthCM <= k.limit+fitCM
	switch {
	case len(k.best.Placements) == 0, fits && !k.fits():
	case !fits && k.fits():
		return false
	case !fits && l.LengthCM >= k.best.LengthCM-1e-9:
		return false
	case fits && (moved > k.moved || moved == k.moved && far >= k.far-1e-9):
		return false
	}
	k.best, k.moved, k.far = l, moved, far
	return true
}

// placement is where body b puts item i: exactly as before where it has not
// moved, and turned as before where its shape says no other.
func (k *keeper) placement(i int, b body) Placement {
	old := k.was.Placements[i]
	if k.p.Items[i].Pinned != nil {
		return *k.p.Items[i].Pinned
	}
	q := Placed(k.p.Items[i], Placement{TurnDeg: old.TurnDeg, Flip: old.Flip})
	if turnAllowed(k.p.Items[i], old.TurnDeg) && shapeKey(q) == shapeKey(k.m.forms[b.form].poly) {
		o := q.Bounds()
		at := Placement{old.TurnDeg, old.Flip, b.box.MinX - o.MinX, b.box.MinY - o.MinY}
		same := 1e-9
		if k.p.Items[i].tied() {
			same = tiedCM // what is tied may have been drawn to its very place
		}
		if math.Abs(at.X-old.X) < same && math.Abs(at.Y-old.Y) < same {
			return old
		}
		if x, y := toGrid(at.X), toGrid(at.Y); math.Abs(x-at.X)+math.Abs(y-at.Y) < 1e-9 {
			at.X, at.Y = x, y
		}
		return at
	}
	f := k.m.forms[b.form]
	return Placement{f.turn, f.flip, b.x, b.y}
}
