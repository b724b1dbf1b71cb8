package plan

import "testing"

// A loom too narrow for the body in one takes it in halves; one wide enough asks
// for nothing; one that weaves bands has no way.
func TestNarrowLoomIsToldAWay(t *testing.T) {
	p, err := NewPlan("Weir gown", "gown", askedBody("gown", 163, 104))
	if err != nil {
		t.Fatal(err)
	}
	if w, ok := p.FitsBy(); ok {
		t.Errorf("a plan that fits is told %q", w.Words)
	}
	p.Loom.MaxReedWidthCM = 60
	w, ok := p.FitsBy()
	if !ok || w.Words != "Seams down the middle: yes" {
		t.Fatalf("on a loom of 60 cm: %q, %v", w.Words, ok)
	}
	if err := p.Take(w); err != nil {
		t.Fatal(err)
	}
	if _, err := Prepare(p); err != nil || p.IsDefault("garment.options.middle_seams") {
		t.Errorf("taken: %v", err)
	}
	p.Loom.MaxReedWidthCM = 6
	if w, ok := p.FitsBy(); ok {
		t.Errorf("on a loom of 6 cm: %q", w.Words)
	}
}
