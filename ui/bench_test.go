package ui

import (
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ellwand/geometry"
	"ellwand/layout"
	"ellwand/plan"
)

// loop is the window's goroutine in tests: work that comes back is run when
// the test waits.
type loop struct {
	t     testing.TB
	queue chan func()
}

func newLoop(t testing.TB) *loop { return &loop{t, make(chan func(), 1000)} }

// inVain is how long is waited for what should come about at once: the machine may
// have much else to do, and the race detector slows all.
const inVain = 2 * time.Minute

// until runs what comes back until the condition holds.
func (l *loop) until(what string, done func() bool) {
	l.t.Helper()
	late := time.After(inVain)
	for !done() {
		select {
		case f := <-l.queue:
			f()
		case <-late:
			l.t.Fatalf("waited %v in vain for: %s", inVain, what)
		}
	}
}

// ferryman is a bench with the starter plan laid out.
func ferryman(t testing.TB) (*bench, *loop) {
	t.Helper()
	l := newLoop(t)
	b := newBench(plan.Starter(), "", func(f func()) { go f() }, func(f func()) { l.queue <- f })
	b.moment, b.long = 0.1, 0.5
	b.begin()
	l.rest(b)
	return b, l
}

// rest waits until nothing is being packed.
func (l *loop) rest(b *bench) {
	l.t.Helper()
	l.until("a lay", func() bool { return (b.shown != nil || b.trouble != nil) && b.packing == nil })
}

// find is the number of an item.
func find(t testing.TB, b *bench, id string) int {
	t.Helper()
	b.pick(id)
	if i := b.item(); i >= 0 {
		return i
	}
	t.Fatalf("there is no item %q", id)
	return -1
}

// Saving stops the search: what was typed just before must not wait for ever.
func TestStoppedBeforeItsFirstLayAChangeIsStillLaid(t *testing.T) {
	b, _ := ferryman(t)
	var held []func()
	b.spawn = func(f func()) { held = append(held, f) } // the search does not get to run
	if err := b.set("body.stature_cm", "Stature", "182"); err != nil {
		t.Fatal(err)
	}
	if b.current() || len(held) == 0 {
		t.Fatal("the change has a lay before anything was searched")
	}
	b.stop()
	if !b.current() || len(b.shown.Faults) > 0 {
		t.Errorf("no sound lay for the change: trouble %v", b.trouble)
	}
}

// The button must answer at once, and a first lay of many pieces takes a while.
func TestStopButtonDoesNotWaitForAFirstLay(t *testing.T) {
	b, l := ferryman(t)
	var held []func()
	b.spawn = func(f func()) { held = append(held, f) } // the search does not get to run
	if err := b.set("body.stature_cm", "Stature", "182"); err != nil {
		t.Fatal(err)
	}
	b.halt()
	if b.current() || b.packing == nil {
		t.Fatal("the first lay was made in the window's own time")
	}
	b.halt() // pressed again: it goes on, and nothing is begun anew
	if len(held) != 2 {
		t.Fatalf("%d searches were begun; want the one that was stopped, and the first lay", len(held))
	}
	if s := b.packing.share(time.Now()); s != 1 {
		t.Errorf("the bar stands at %v; want 1", s)
	}
	for _, f := range held {
		go f()
	}
	l.rest(b)
	if !b.current() || b.shown == nil || len(b.shown.Faults) > 0 {
		t.Errorf("no sound lay is shown: %v", b.trouble)
	}
	if b.history.CanUndo() != "Stature" {
		t.Errorf("undo would undo %q; the first lay is no step of its own", b.history.CanUndo())
	}
}

// packingWell is a bench on which a sleeve was moved far off and a search has
// found a better lay, of less than longCM, and goes on.
func packingWell(t *testing.T) (b *bench, longCM float64) {
	t.Helper()
	b, l := ferryman(t)
	i := find(t, b, "sleeve/1")
	to := b.shown.Lay.Placements[i]
	to.X += 300
	if err := b.place("move", i, to); err != nil {
		t.Fatal(err)
	}
	longCM = b.shown.Lay.LengthCM
	b.long = 60
	b.pack()
	l.until("a better lay", func() bool { return b.shown.Lay.LengthCM < longCM })
	return b, longCM
}

// Checking a plan of many pieces takes long; stopping a search changes no more
// than the lay, and that is sound.
func TestStoppingASearchChecksNothingAnew(t *testing.T) {
	b, _ := packingWell(t)
	b.history.Check = func(*plan.Plan) error {
		t.Error("the plan was checked anew")
		return nil
	}
	b.halt()
	if b.packing != nil || b.history.CanUndo() != "pack" {
		t.Errorf("packing %v; undo would undo %q", b.packing, b.history.CanUndo())
	}
}

// What is typed, or packed for, before a first lay is there needs no first lay.
func TestChangeDoesNotWaitForTheLayOfTheOneBefore(t *testing.T) {
	b, l := ferryman(t)
	var held []func()
	spawn := b.spawn
	b.spawn = func(f func()) { held = append(held, f) }
	if err := b.set("body.stature_cm", "Stature", "182"); err != nil {
		t.Fatal(err)
	}
	was := b.shown
	if err := b.set("body.stature_cm", "Stature", "183"); err != nil {
		t.Fatal(err)
	}
	if err := b.set("body.stature_cm", "Stature", "much"); err == nil {
		t.Fatal("a stature of much was taken")
	}
	b.pack()
	if b.shown != was {
		t.Error("a lay was made in between, in the window's own time")
	}
	b.spawn = spawn
	b.halt()
	l.rest(b)
	if !b.current() || len(b.shown.Faults) > 0 {
		t.Errorf("no sound lay is shown: %v", b.trouble)
	}
}

// A flaw marked under a pinned piece: the piece cannot stay, which is said, and
// packing lays it elsewhere.
func TestPieceOnAFlawIsSaidToBeLetGo(t *testing.T) {
	v, l := opened(t, "light")
	b := v.b
	i := find(t, b, "sleeve/2")
	if err := b.pin(); err != nil {
		t.Fatal(err)
	}
	if said := v.figures.troubles(); said != "" {
		t.Fatalf("before there is a flaw it says %q", said)
	}
	m := layout.Placed(b.shown.Prepared.Problem.Items[i], b.shown.Lay.Placements[i]).Bounds()
	x, y := (m.MinX+m.MaxX)/2, (m.MinY+m.MaxY)/2
	if err := b.markFlaw(geometry.Rect{MinX: x - 2, MinY: y - 2, MaxX: x + 2, MaxY: y + 2}); err != nil {
		t.Fatal(err)
	}
	if said := v.figures.troubles(); !strings.Contains(said, "lies on the flaw") || !strings.Contains(said, "let go from where it was pinned: sleeve/2") {
		t.Errorf("said is %q", said)
	}
	b.pack()
	l.rest(b)
	if said := v.figures.troubles(); said != "" || len(b.shown.Faults) > 0 {
		t.Errorf("packed anew it says %q; faults %v", said, b.shown.Faults)
	}
}

func TestOpenedPlanIsLaid(t *testing.T) {
	b, _ := ferryman(t)
	if !b.current() || len(b.shown.Faults) > 0 {
		t.Fatalf("no sound lay is shown: %v, faults %v", b.trouble, b.shown.Faults)
	}
	if b.history.Dirty() {
		t.Error("laying the pieces made the plan count as changed")
	}
}

func TestMovedPieceIsKeptAndUndone(t *testing.T) {
	b, _ := ferryman(t)
	i := find(t, b, "sleeve/1")
	was := b.shown.Lay.Placements[i]
	to := was
	to.X += 500
	if err := b.place("move", i, to); err != nil {
		t.Fatal(err)
	}
	if got := b.plan().Lay.Placements[i].Placement; got != to {
		t.Errorf("the plan keeps %v; want %v", got, to)
	}
	if b.shown.Lay.LengthCM < to.X-100 {
		t.Errorf("the cloth is %v cm long though a piece lies at %v cm", b.shown.Lay.LengthCM, to.X)
	}
	b.undo()
	if got := b.shown.Lay.Placements[i]; got != was {
		t.Errorf("after undo it lies at %v; want %v", got, was)
	}
	b.redo()
	if got := b.shown.Lay.Placements[i]; got != to {
		t.Errorf("after redo it lies at %v; want %v", got, to)
	}
}

func TestOverlapIsKeptAndSaid(t *testing.T) {
	b, _ := ferryman(t)
	i, body := find(t, b, "sleeve/1"), find(t, b, "body/1")
	at := b.shown.Lay.Placements[i]
	is := layout.Placed(b.shown.Prepared.Problem.Items[i], at).Bounds()
	want := layout.Placed(b.shown.Prepared.Problem.Items[body], b.shown.Lay.Placements[body]).Bounds()
	at.X += want.MinX + want.Width()/2 - is.MinX
	if err := b.place("move", i, at); err != nil {
		t.Fatal(err)
	}
	faults := faultsOf(b.shown, i, at)
	if len(faults) == 0 || !strings.Contains(faultWords(b.shown, i, faults), "overlaps") {
		t.Errorf("faults %v do not say that it overlaps", faults)
	}
	for _, id := range []string{"sleeve/1", "body/1"} {
		b.pick(id)
		if err := b.pin(); err == nil || !strings.Contains(err.Error(), "overlap") {
			t.Errorf("pinning %s, which overlaps: %v", id, err)
		}
	}
}

func TestPinnedPieceStays(t *testing.T) {
	b, l := ferryman(t)
	i := find(t, b, "neck facing/1")
	was := b.shown.Lay.Placements[i]
	if err := b.pin(); err != nil {
		t.Fatal(err)
	}
	if err := b.nudge(1, 0); err == nil || !strings.Contains(err.Error(), "pinned") {
		t.Errorf("moving a pinned piece: %v", err)
	}
	b.pack()
	l.rest(b)
	if got := b.shown.Lay.Placements[i]; got != was {
		t.Errorf("packing moved the pinned piece from %v to %v", was, got)
	}
	if err := b.pin(); err != nil {
		t.Fatal(err)
	}
	if err := b.nudge(1, 0); err != nil {
		t.Errorf("let go, it still does not move: %v", err)
	}
}

func TestTurnKeepsTheMiddle(t *testing.T) {
	b, _ := ferryman(t)
	i := find(t, b, "side gore/1")
	it := b.shown.Prepared.Problem.Items[i]
	before := layout.Placed(it, b.shown.Lay.Placements[i]).Bounds()
	if err := b.turn(); err != nil {
		t.Fatal(err)
	}
	after := layout.Placed(it, b.shown.Lay.Placements[i]).Bounds()
	if math.Abs(before.MinX-after.MinX) > 1e-6 || math.Abs(before.MinY-after.MinY) > 1e-6 {
		t.Errorf("turned from %v to %v", before, after)
	}
}

func TestNapForbidsTurning(t *testing.T) {
	b, l := ferryman(t)
	if err := b.set("cloth.nap", "nap", "true"); err != nil {
		t.Fatal(err)
	}
	l.rest(b)
	find(t, b, "side gore/1")
	for _, try := range []func() error{b.turn, b.flip} {
		if err := try(); err == nil {
			t.Error("a piece was turned against the nap")
		}
	}
}

func TestImpossibleWidthIsSaidAndUndone(t *testing.T) {
	b, l := ferryman(t)
	if err := b.set("cloth.finished_width_cm", "width", "20"); err != nil {
		t.Fatal(err)
	}
	l.rest(b)
	if b.trouble == nil || !strings.Contains(b.trouble.Error(), "20.0 cm wide") {
		t.Fatalf("the trouble is %v", b.trouble)
	}
	if err := b.place("move", 0, layout.Placement{}); err == nil {
		t.Error("a piece was moved on cloth that cannot be")
	}
	b.undo()
	if !b.current() {
		t.Errorf("after undo: %v", b.trouble)
	}
}

func TestChangedMeasureLaysAnew(t *testing.T) {
	b, l := ferryman(t)
	was := b.shown.Lay.LengthCM
	if err := b.set("body.stature_cm", "stature", "190"); err != nil {
		t.Fatal(err)
	}
	l.rest(b)
	if !b.current() || len(b.shown.Faults) > 0 || b.shown.Lay.LengthCM == was {
		t.Errorf("length %v after %v, faults %v, trouble %v", b.shown.Lay.LengthCM, was, b.shown.Faults, b.trouble)
	}
}

func TestPackingKeepsItsBestAsOneStep(t *testing.T) {
	b, long := packingWell(t)
	b.stop()
	if b.packing != nil || !b.current() {
		t.Fatal("it did not stop")
	}
	best := b.shown.Lay.LengthCM
	if b.history.CanUndo() != "pack" || math.Abs(b.plan().Lay.LengthCM-best) > 0.001 {
		t.Errorf("undo would undo %q; the plan keeps %v of %v cm", b.history.CanUndo(), b.plan().Lay.LengthCM, best)
	}
	b.undo()
	if b.shown.Lay.LengthCM != long {
		t.Errorf("undo shows %v cm; want %v", b.shown.Lay.LengthCM, long)
	}
}

func TestSavedPlanOpensAsItWasLeft(t *testing.T) {
	b, _ := ferryman(t)
	i := find(t, b, "sleeve/1")
	to := b.shown.Lay.Placements[i]
	to.X, to.Y = 10, 5 // on the body: a fault, kept all the same
	if err := b.place("move", i, to); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "tunic.yaml")
	if err := b.save(path); err != nil {
		t.Fatal(err)
	}
	if b.history.Dirty() || b.path != path {
		t.Error("it does not count as saved")
	}
	p, err := plan.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	l := newLoop(t)
	again := newBench(p, path, func(f func()) { go f() }, func(f func()) { l.queue <- f })
	again.begin()
	l.rest(again)
	for k, at := range b.shown.Lay.Placements {
		got := again.shown.Lay.Placements[k]
		if math.Abs(got.X-at.X) > 1e-6 || math.Abs(got.Y-at.Y) > 1e-6 || got.TurnDeg != at.TurnDeg || got.Flip != at.Flip {
			t.Errorf("item %d lies at %v; it was left at %v", k, got, at)
		}
	}
	if len(again.shown.Faults) == 0 {
		t.Error("the fault it was left with is not said")
	}
}

func TestSnapToSelvedgeAndCutEnd(t *testing.T) {
	b, _ := ferryman(t)
	i := find(t, b, "neck facing/1")
	it, width := b.shown.Prepared.Problem.Items[i], b.shown.Lay.WidthCM
	rapid.Check(t, func(rt *rapid.T) {
		// Far from all neighbours, a little off the selvedge.
		off := rapid.Float64Range(-1.9, 1.9).Draw(rt, "off")
		right := rapid.Bool().Draw(rt, "right selvedge")
		at := layout.Placement{TurnDeg: it.TurnsDeg[0]}
		box := layout.Placed(it, at).Bounds()
		at.X = 3000 - box.MinX
		at.Y = off - box.MinY
		if right {
			at.Y = width - box.MaxY + off
		}
		got := layout.Placed(it, snap(b.shown, i, at, 2)).Bounds()
		if !right && math.Abs(got.MinY) > 1e-9 || right && math.Abs(got.MaxY-width) > 1e-9 {
			rt.Fatalf("it lies from %v to %v of %v cm", got.MinY, got.MaxY, width)
		}
		if math.Abs(got.MinX-3000) > 1e-9 {
			rt.Fatalf("it slid to %v cm", got.MinX)
		}
	})
}

func TestSnapToNeighbourTouchesWithoutOverlap(t *testing.T) {
	square := func(side float64) geometry.Polygon {
		return geometry.Polygon{{X: 0, Y: 0}, {X: side, Y: 0}, {X: side, Y: side}, {X: 0, Y: side}}
	}
	gore := geometry.Polygon{{X: 0, Y: 0}, {X: 70, Y: 14}, {X: 0, Y: 28}}
	for _, gap := range []float64{0, 0.5} {
		for name, outline := range map[string]geometry.Polygon{"square": square(20), "gore": gore} {
			p := layout.Problem{WidthCM: 100, GapCM: gap, Items: []layout.Item{
				{ID: "lies", Outline: outline, TurnsDeg: []float64{0, 180}},
				{ID: "held", Outline: outline, TurnsDeg: []float64{0, 180}},
			}}
			r := &plan.Result{Prepared: &plan.Prepared{Problem: p}, Lay: layout.Lay{WidthCM: 100, Placements: []layout.Placement{{X: 200, Y: 40}, {}}}}
			rapid.Check(t, func(rt *rapid.T) {
				// Point to base for gores: the slanted edges meet.
				held := layout.Placement{TurnDeg: 180, X: 200 + 70, Y: 40 + 28 + 14 + 0.2}
				if name == "square" {
					held = layout.Placement{X: 220, Y: 45}
				}
				held.X += gap + rapid.Float64Range(-1, 1).Draw(rt, "dx")
				held.Y += gap + rapid.Float64Range(-0.4, 0.4).Draw(rt, "dy")
				got := snap(r, 1, held, 1.5)
				if faults := faultsOf(r, 1, got); len(faults) > 0 {
					rt.Fatalf("%s, gap %v: held at %v, snapped to %v: %v", name, gap, held, got, faults)
				}
				if name == "square" && math.Abs(got.X-220-gap-clearCM) > 1e-9 {
					rt.Fatalf("gap %v: the square lies at %v, not against its neighbour", gap, got.X)
				}
				if math.Hypot(got.X-held.X, got.Y-held.Y) > 4 {
					rt.Fatalf("%s: snapped from %v to %v, too far", name, held, got)
				}
			})
		}
	}
}
