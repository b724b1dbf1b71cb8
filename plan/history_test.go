package plan

import (
	"errors"
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
