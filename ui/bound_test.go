package ui

import (
	"strings"
	"testing"
)

func TestBoundComesBesideTheWindowAndStaysWhileAPieceIsMoved(t *testing.T) {
	b, l := ferryman(t)
	whole := func() bool { _, w := b.shown.BoundSoFarCM(); return w }
	var told int
	b.onChange(func(t topic) {
		if t == boundChanged {
			told++
		}
	})
	l.until("the bound", func() bool { return whole() && !b.bounding })
	low, _ := b.shown.BoundSoFarCM()
	if text := boundSentence(b.shown, "cm"); !strings.Contains(text, length(low, "cm")) {
		t.Errorf("of %g cm it says %q", low, text)
	}
	before := told
	b.pick(b.shown.Prepared.Problem.Items[0].ID)
	if err := b.nudge(0.5, 0.5); err != nil {
		t.Fatal(err)
	}
	if !whole() || b.bounding || told != before {
		t.Error("for a piece that is moved the bound is worked out anew")
	}
	if err := b.set("cloth.finished_width_cm", "Width", "70"); err != nil {
		t.Fatal(err)
	}
	l.until("the bound at another width", func() bool { return b.packing == nil && whole() && !b.bounding })
	if wide, _ := b.shown.BoundSoFarCM(); wide >= low {
		t.Errorf("at 70 cm the bound is %g cm, at the narrower width it was %g", wide, low)
	}
}
