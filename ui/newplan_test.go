package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"ellwand/garment"
)

// From a garment and measurements typed in, a plan is laid; what was not asked
// is marked, page by page, until it is typed or confirmed.
func TestNewPlanIsAskedForAndLaid(t *testing.T) {
	v, l := opened(t, "light")
	if v.next.at != "starter" || !v.next.root.Visible() {
		t.Errorf("at first the window says %q", v.next.text.Text)
	}
	if n := strings.Count(v.next.text.Text, ". ") + 1; n != 3 {
		t.Errorf("the first words are %d sentences", n)
	}
	f := newNewForm(func() {})
	f.draft.SetSelected("Trousers")
	if len(f.entries) != 8 {
		t.Errorf("%d measurements are asked for", len(f.entries))
	}
	if _, err := f.plan(); err == nil || !strings.Contains(err.Error(), "Stature is empty") {
		t.Errorf("without measurements: %v", err)
	}
	f.units.SetSelected("inch")
	f.entries[garment.Stature].SetText("68")
	f.entries[garment.BustGirth].SetText("38,5")
	f.entries[garment.HipGirth].SetText("abc")
	if _, err := f.plan(); err == nil || !strings.Contains(err.Error(), `Hip girth is "abc"`) {
		t.Errorf("letters for hips: %v", err)
	}
	f.entries[garment.HipGirth].SetText("40")
	p, err := f.plan()
	if err != nil {
		t.Fatal(err)
	}
	if cm := p.Body.CM[garment.Stature]; cm < 172.71 || cm > 172.73 || p.ShowUnits != "inch" || p.Title != "Trousers" {
		t.Errorf("stature %g cm, shown in %s, titled %q", cm, p.ShowUnits, p.Title)
	}
	v.begin(p, "")
	l.rest(v.b)
	if v.b.shown == nil || v.next.at != "defaults" {
		t.Fatalf("the new plan is not laid; said is %q", v.next.text.Text)
	}
	v.next.nextDefault()
	if page := v.panels.all[v.panels.at].name; page != "Loom" {
		t.Errorf("the first default stands on %s", page)
	}
	was := defaultsOn(v.b.plan(), "Loom")
	fieldAt(t, v, "loom.waste_cm").commit("45")
	if defaultsOn(v.b.plan(), "Loom") != was-1 || v.b.plan().IsDefault("loom.waste_cm") {
		t.Error("a value typed in is still marked as a default")
	}
	if err := confirmPage(v.b, "Loom"); err != nil {
		t.Fatal(err)
	}
	if n := defaultsOn(v.b.plan(), "Loom"); n != 0 {
		t.Errorf("%d defaults are left on the page that was confirmed", n)
	}
	v.b.undo()
	if defaultsOn(v.b.plan(), "Loom") != was-1 {
		t.Error("undo does not bring the marks back")
	}
}

func TestGuideIsPutAway(t *testing.T) {
	v, _ := opened(t, "dark")
	var shut *widget.Button
	for _, o := range test.LaidOutObjects(v.next.root) {
		if b, ok := o.(*widget.Button); ok && b.Text == "Put away" {
			shut = b
		}
	}
	if shut == nil {
		t.Fatal("nothing puts the guide away")
	}
	test.Tap(shut)
	if v.next.root.Visible() {
		t.Error("the guide stays")
	}
}

// Ctrl+A in an entry marks its text, and picks no pieces.
func TestMarkingAllOfAnEntryPicksNothing(t *testing.T) {
	v, l := opened(t, "light")
	f := fieldAt(t, v, "body.stature_cm")
	v.Canvas().Focus(f.entry)
	for _, o := range v.editOrders() {
		if _, ok := o.keys.(*fyne.ShortcutSelectAll); ok {
			v.obey(o)
		}
	}
	l.rest(v.b)
	if f.entry.SelectedText() != "176" || len(v.b.chosen()) > 0 {
		t.Errorf("marked is %q, %d pieces are picked", f.entry.SelectedText(), len(v.b.chosen()))
	}
}

func TestNewPlanCanBeTakenInALowWindow(t *testing.T) {
	v, _ := opened(t, "light")
	v.Resize(fyne.NewSize(850, 500))
	v.askNew()
	top := v.Canvas().Overlays().Top()
	for _, o := range test.LaidOutObjects(top) {
		if b, ok := o.(*widget.Button); ok && b.Text == "Lay it out" {
			if at := fyne.CurrentApp().Driver().AbsolutePositionForObject(b); at.Y+b.Size().Height > v.Canvas().Size().Height {
				t.Errorf("the button lies at %v in a window of %v", at, v.Canvas().Size())
			}
			return
		}
	}
	t.Error("there is no button")
}
