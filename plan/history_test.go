package plan

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"ellwand/cloth"
)

func retitle(title string) func(*Plan) error {
	return func(p *Plan) error { p.Title = title; return nil }
}

func TestUndoAndRedoByName(t *testing.T) {
	h := NewHistory(&Plan{Title: "a"})
	if h.Dirty() || h.CanUndo() != "" || h.CanRedo() != "" {
		t.Fatal("a fresh history has something to undo, redo or save")
	}
	for _, title := range []string{"b", "c"} {
		if err := h.Do("call it "+title, retitle(title)); err != nil {
			t.Fatal(err)
		}
	}
	h.MarkSaved()
	if name, ok := h.Undo(); !ok || name != "call it c" || h.Current().Title != "b" || !h.Dirty() {
		t.Errorf("undo %q %v gives %q", name, ok, h.Current().Title)
	}
	if name, ok := h.Redo(); !ok || name != "call it c" || h.Dirty() {
		t.Errorf("redo %q %v", name, ok)
	}
	h.Undo()
	if err := h.Do("call it d", retitle("d")); err != nil {
		t.Fatal(err)
	}
	if !h.Dirty() {
		t.Error("another third step passes for the saved one")
	}
	if _, ok := h.Redo(); ok {
		t.Error("redo after a new change")
	}
}

func TestRefusedChangeLeavesNoTrace(t *testing.T) {
	no := errors.New("no")
	h := NewHistory(&Plan{Title: "a"})
	h.Check = func(p *Plan) error {
		if p.Title == "" {
			return no
		}
		return nil
	}
	if err := h.Do("clear", retitle("")); !errors.Is(err, no) || h.Current().Title != "a" || h.Dirty() {
		t.Errorf("%v, title %q", err, h.Current().Title)
	}
}

func TestCloneSharesNothing(t *testing.T) {
	one := 1
	p := &Plan{
		Params: map[string]float64{"ease": 8},
		Pieces: []PieceSpec{{Name: "belt", Copies: &one, Dims: map[string]float64{"width_cm": 8}}},
		Yarns:  []cloth.Yarn{{Name: "grey"}},
		Lay:    &SavedLay{Placements: []SavedPlacement{{ID: "belt/1"}}},
	}
	c := p.Clone()
	c.Params["ease"], *c.Pieces[0].Copies, c.Pieces[0].Dims["width_cm"] = 1, 2, 9
	c.Yarns[0].Name, c.Lay.Placements[0].ID = "white", "x"
	if p.Params["ease"] != 8 || one != 1 || p.Pieces[0].Dims["width_cm"] != 8 ||
		p.Yarns[0].Name != "grey" || p.Lay.Placements[0].ID != "belt/1" {
		t.Error("changing the clone changed the plan")
	}
}

func TestHistoryHoldsTheLastThousandSteps(t *testing.T) {
	h := NewHistory(&Plan{Title: "0"})
	for i := 1; i <= 2500; i++ {
		if err := h.Do("step", retitle(fmt.Sprint(i))); err != nil {
			t.Fatal(err)
		}
	}
	h.MarkSaved()
	back := 0
	for ; h.CanUndo() != ""; back++ {
		h.Undo()
	}
	if back != mostSteps-1 || h.Len() != mostSteps || h.Current().Title != "1501" {
		t.Errorf("%d steps back of %d, to %q", back, h.Len(), h.Current().Title)
	}
	if name, ok := h.Undo(); ok {
		t.Errorf("undo of %q beyond the oldest", name)
	}
	if n := 0; !h.Dirty() {
		t.Error("the oldest passes for the saved one")
	} else {
		for ; h.CanRedo() != ""; n++ {
			h.Redo()
		}
		if n != back || h.Dirty() || h.Current().Title != "2500" {
			t.Errorf("%d steps forward, unsaved %v, to %q", n, h.Dirty(), h.Current().Title)
		}
	}
	for range mostSteps {
		if err := h.Do("step", retitle("more")); err != nil {
			t.Fatal(err)
		}
	}
	for h.CanUndo() != "" {
		if !h.Dirty() {
			t.Fatal("a state passes for the saved one, which is no longer held")
		}
		h.Undo()
	}
}

func TestHistoryOfALargePlanHoldsFewerSteps(t *testing.T) {
	large := strings.Repeat("wool ", 1<<20)
	h := NewHistory(&Plan{})
	for i := range 100 {
		err := h.Do("step", func(p *Plan) error { p.Choices = []Choice{{Why: large + fmt.Sprint(i)}}; return nil })
		if err != nil {
			t.Fatal(err)
		}
	}
	if h.Len() != fewestSteps {
		t.Errorf("%d states of 5 MB are held; want %d", h.Len(), fewestSteps)
	}
	n := 0
	for p := range h.Plans() {
		if n++; p.heldBytes() < 5<<20 {
			t.Errorf("a plan with 5 MB of text counts as %d bytes", p.heldBytes())
		}
	}
	if n != h.Len() {
		t.Errorf("%d plans, said are %d", n, h.Len())
	}
}

// What a plan holds is counted for every part that Clone copies.
func TestHeldBytesCountEveryPart(t *testing.T) {
	base := Starter()
	least := base.heldBytes()
	for name, add := range map[string]func(*Plan){
		"notes":    func(p *Plan) { p.Choices = append(p.Choices, Choice{Why: strings.Repeat("x", 5000)}) },
		"corners":  func(p *Plan) { p.Pieces = append(p.Pieces, PieceSpec{Points: make([][2]float64, 500)}) },
		"lay":      func(p *Plan) { p.Lay = &SavedLay{Placements: make([]SavedPlacement, 200)} },
		"title":    func(p *Plan) { p.Title = strings.Repeat("t", 5000) },
		"measures": func(p *Plan) { p.Params = map[string]float64{strings.Repeat("m", 5000): 1} },
	} {
		p := base.Clone()
		add(p)
		if more := p.heldBytes() - least; more < 4000 {
			t.Errorf("%s: counted are %d bytes more", name, more)
		}
	}
}
