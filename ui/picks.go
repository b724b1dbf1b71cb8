package ui

import (
	"fmt"
	"slices"

	"ellwand/layout"
)

// pick makes one piece the one that keys and buttons work on; "" is none.
func (b *bench) pick(id string) {
	if b.picked != id || len(b.also) > 0 {
		b.picked, b.also = id, nil
		b.tell(pickChanged)
	}
}

// pickMore adds pieces to those picked. The last of them is the one that the
// forms show.
func (b *bench) pickMore(ids ...string) {
	for _, id := range ids {
		if b.picked != "" && b.picked != id && !slices.Contains(b.also, b.picked) {
			b.also = append(b.also, b.picked)
		}
		b.picked = id
		b.also = slices.DeleteFunc(b.also, func(a string) bool { return a == id })
	}
	if len(ids) > 0 {
		b.tell(pickChanged)
	}
}

// toggle adds a piece to those picked, or takes it away from them.
func (b *bench) toggle(id string) {
	switch {
	case slices.Contains(b.also, id):
		b.also = slices.DeleteFunc(b.also, func(a string) bool { return a == id })
	case b.picked == id:
		b.picked = ""
		if n := len(b.also); n > 0 {
			b.picked, b.also = b.also[n-1], b.also[:n-1]
		}
	default:
		b.pickMore(id)
		return
	}
	b.tell(pickChanged)
}

// pickAll picks every piece.
func (b *bench) pickAll() {
	if b.shown == nil {
		return
	}
	var ids []string
	for _, it := range b.shown.Prepared.Problem.Items {
		ids = append(ids, it.ID)
	}
	b.pickMore(ids...)
}

// chosen are the numbers of all pieces picked, in the order of the items.
func (b *bench) chosen() []int {
	var out []int
	if b.shown == nil || b.picked == "" {
		return nil
	}
	for i, it := range b.shown.Prepared.Problem.Items {
		if it.ID == b.picked || slices.Contains(b.also, it.ID) {
			out = append(out, i)
		}
	}
	return out
}

// item is the number of the piece picked, the last of several; -1 for none.
func (b *bench) item() int {
	if b.shown == nil || b.picked == "" {
		return -1
	}
	return slices.IndexFunc(b.shown.Prepared.Problem.Items, func(it layout.Item) bool { return it.ID == b.picked })
}

// dropLost lets go of picks that name no piece any more.
func (b *bench) dropLost() {
	if b.shown == nil {
		b.picked, b.also = "", nil
		return
	}
	lost := func(id string) bool {
		return !slices.ContainsFunc(b.shown.Prepared.Problem.Items, func(it layout.Item) bool { return it.ID == id })
	}
	b.also = slices.DeleteFunc(b.also, lost)
	if b.picked != "" && lost(b.picked) {
		b.picked, b.also = "", nil
	}
}

// calledAll is what a step of the history calls pieces: "sleeve/1", "3 pieces".
func (b *bench) calledAll(items []int) string {
	if len(items) == 1 {
		return b.shown.Prepared.Problem.Items[items[0]].ID
	}
	return fmt.Sprintf(words("%d pieces"), len(items))
}
