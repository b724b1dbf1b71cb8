package ui

import (
	"fmt"
	"slices"
	"testing"

	"ellwand/plan"
)

// After more steps than figures are held for, undo brings back each lay as it
// was, with the figures for it.
func TestUndoBringsBackLaysWhoseFiguresWereLetGo(t *testing.T) {
	b, l := ferryman(t)
	l.rest(b)
	const figures, steps = 5, 40
	b.known.most = figures * bytesOf(b.shown)
	type state struct {
		turned string
		length float64
		waste  float64
	}
	now := func() state {
		return state{fmt.Sprint(b.shown.Lay.Placements), b.shown.Lay.LengthCM, b.shown.Reckoning.WarpLengthCM}
	}
	states := []state{now()}
	b.pick(b.shown.Prepared.Problem.Items[0].ID)
	for i := range steps {
		var err error
		if i%2 == 0 {
			err = b.nudge(0.1, 0)
		} else {
			err = b.set("loom.waste_cm", "waste", fmt.Sprint(60+i%17))
		}
		if err != nil {
			t.Fatal(err)
		}
		states = append(states, now())
	}
	if n := len(b.known.results); n != figures {
		t.Errorf("%d results are held; want %d", n, figures)
	}
	slices.Reverse(states)
	for i, want := range states[1:] {
		b.undo()
		if got := now(); got != want || b.packing != nil {
			t.Fatalf("%d steps back it is %v, packing %v; it was %v", i+1, got, b.packing != nil, want)
		}
	}
}

// What can no longer be undone or redone is let go.
func TestLaysOutOfReachAreLetGo(t *testing.T) {
	b, l := ferryman(t)
	l.rest(b)
	b.pick(b.shown.Prepared.Problem.Items[0].ID)
	for range 70 {
		if err := b.nudge(0.1, 0); err != nil {
			t.Fatal(err)
		}
		b.undo()
	}
	if n := len(b.known.lays); n > 55 {
		t.Errorf("%d lays are held for %d states", n, b.history.Len())
	}
	held := map[*plan.Plan]bool{}
	for p := range b.history.Plans() {
		held[p] = true
	}
	b.known.forget(b.history)
	for p := range b.known.lays {
		if !held[p] {
			t.Error("a lay is held of a plan that no step leads to")
		}
	}
}
