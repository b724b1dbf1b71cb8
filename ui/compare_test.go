package ui

import (
	"strings"
	"testing"

	"ellwand/geometry"
)

func TestLaysAreKeptComparedAndTaken(t *testing.T) {
	v, l := opened(t, "light")
	v.compare()
	if !strings.Contains(v.status.Text, "Keep a lay first") {
		t.Errorf("with none kept it says %q", v.status.Text)
	}
	v.keepAs("A")
	was := v.b.shown.Lay
	find(t, v.b, "sleeve/1")
	if err := v.b.putAt(geometry.Point{X: 2000}); err != nil {
		t.Fatal(err)
	}
	v.keepAs("B")
	rows := comparedFigures(v.b.kept["A"], v.b.kept["B"], "cm")
	if rows[1][1] == rows[1][2] || rows[1][1] != length(was.LengthCM, "cm") {
		t.Errorf("of the lengths it says %v", rows[1])
	}
	v.compare()
	if v.Canvas().Overlays().Top() == nil {
		t.Error("nothing is shown to compare")
	}
	if err := v.b.takeLay("A", v.b.kept["A"]); err != nil {
		t.Fatal(err)
	}
	if v.b.shown.Lay.LengthCM != was.LengthCM || v.b.history.CanUndo() != "take lay A" {
		t.Errorf("taken, it is %v cm long; undo says %q", v.b.shown.Lay.LengthCM, v.b.history.CanUndo())
	}
	v.b.undo()
	if v.b.shown.Lay.LengthCM < 2000 {
		t.Error("undo does not bring B back")
	}
	if err := v.b.set("body.stature_cm", "stature", "190"); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	if err := v.b.takeLay("A", v.b.kept["A"]); err == nil {
		t.Error("a lay of other pieces was taken")
	}
}

func TestLayOfAnotherWidthIsTakenWithItsWidth(t *testing.T) {
	v, l := opened(t, "light")
	v.keepAs("A")
	wide := v.b.shown.Lay.WidthCM
	if err := v.b.set("cloth.finished_width_cm", "width", "70"); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	if err := v.b.takeLay("A", v.b.kept["A"]); err != nil {
		t.Fatal(err)
	}
	if v.b.shown.Lay.WidthCM != wide || len(v.b.shown.Faults) > 0 {
		t.Errorf("the cloth is %v cm wide, was %v; faults %v", v.b.shown.Lay.WidthCM, wide, v.b.shown.Faults)
	}
}
