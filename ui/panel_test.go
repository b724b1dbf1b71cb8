package ui

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// seenOn is all that a form shows: texts, and what stands in its controls.
func seenOn(f *form) []string {
	var out []string
	for _, o := range test.LaidOutObjects(f.box) {
		switch o := o.(type) {
		case *canvas.Text:
			out = append(out, o.Text)
		case *widget.Button:
			out = append(out, fmt.Sprint("button ", o.Text, o.Visible(), o.Disabled()))
		case *fieldCheck:
			out = append(out, fmt.Sprint("check ", o.Checked))
		case *fieldChoice:
			out = append(out, fmt.Sprint("choice ", o.Selected, o.Options))
		case *widget.Select:
			out = append(out, fmt.Sprint("select ", o.Selected, o.Options))
		case *fieldEntry:
			out = append(out, fmt.Sprint("entry ", o.Text, "|", o.PlaceHolder))
		case fyne.Widget:
			out = append(out, fmt.Sprintf("%T", o))
		}
	}
	return out
}

// What a panel shows when it is opened again is what it would show if it were
// built for the first time, whatever was done meanwhile.
func TestPanelOpenedAgainShowsWhatOneBuiltAnewDoes(t *testing.T) {
	v, l := opened(t, "light")
	r := rand.New(rand.NewPCG(7, 7))
	all := deeds(v, r, t.TempDir())
	var names []string
	for name := range all {
		if name != "resize" && name != "help" {
			names = append(names, name)
		}
	}
	again := 0
	for range 4 {
		for range 10 {
			all[names[r.IntN(len(names))]]()
			l.drain()
		}
		l.rest(v.b)
		for i, p := range v.panels.all {
			was := v.panels.kept[i]
			v.panels.open((i + 1) % len(v.panels.all))
			v.panels.open(i)
			if v.panels.built == was {
				again++
			}
			kept := seenOn(v.panels.form)
			v.panels.open(i)
			if v.panels.built == was {
				t.Fatalf("%s is not built anew when it is opened once more", p.name)
			}
			anew := seenOn(v.panels.form)
			if len(kept) != len(anew) {
				t.Errorf("%s shows %d things, built anew %d", p.name, len(kept), len(anew))
				continue
			}
			for k := range kept {
				if kept[k] != anew[k] {
					t.Errorf("%s shows %q, built anew %q", p.name, kept[k], anew[k])
				}
			}
		}
		if t.Failed() {
			return
		}
	}
	if again < len(v.panels.all) {
		t.Errorf("panels were shown as they were kept %d times; they are kept for nothing", again)
	}
}

// An editor of own shapes that is gone is told of nothing any more, whether it
// was closed by its button or by Escape.
func TestEditorThatIsGoneIsNotTold(t *testing.T) {
	v, l := opened(t, "light")
	before := len(v.b.listen)
	for range 5 {
		v.openShapes()
		v.typed(&fyne.KeyEvent{Name: fyne.KeyEscape})
		v.openShapes()
		v.Canvas().Overlays().Top().Hide()
	}
	v.b.tell(planChanged)
	l.rest(v.b)
	if n := len(v.b.listen); n != before {
		t.Errorf("%d listen, %d did before", n, before)
	}
}

// A name left by Tab or closed by Enter builds its panel anew; what is typed next
// goes into the field that is seen.
func TestFocusFollowsIntoAPanelBuiltAnew(t *testing.T) {
	v, l := opened(t, "light")
	if err := v.b.do("flaw", func(p *plan.Plan) error {
		p.Real.Flaws = []plan.Flaw{{Name: "flaw", ToCM: 1}}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	v.panels.openNamed("Real cloth")
	l.rest(v.b)
	entry := func(path string) *fieldEntry {
		for _, f := range v.panels.form.fields {
			if f.spec.path == path {
				return f.entry
			}
		}
		t.Fatalf("there is no field %s", path)
		return nil
	}
	for _, leave := range []struct {
		from, to, then string
		by             func()
	}{
		{"flaw", "stain", "real_cloth.flaws[stain].from_cm", func() { v.Canvas().FocusNext() }},
		{"stain", "knot", "real_cloth.flaws[knot].name", func() { v.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }},
	} {
		name := entry("real_cloth.flaws[" + leave.from + "].name")
		v.Canvas().Focus(name)
		name.SetText(leave.to)
		leave.by()
		if want := entry(leave.then); v.Canvas().Focused() != fyne.Focusable(want) {
			t.Errorf("after %q was made %q, the focus is not on %s of the panel shown", leave.from, leave.to, leave.then)
		}
	}
}

// Renamed, a piece stays picked where it lies, and Tab goes on to the drop-down
// list of its shape, and from there to the field after that.
func TestPieceRenamedByTabKeepsFocusPickAndPlace(t *testing.T) {
	v, l := opened(t, "light")
	if err := v.b.do("add", func(p *plan.Plan) error { return p.AddPiece("belt", 60, 20) }); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	v.b.pick("belt/1")
	v.panels.openNamed("Pieces")
	was := v.b.shown.Lay.Placements[find(t, v.b, "belt/1")]
	field := func(path string) *field {
		for _, f := range v.panels.form.fields {
			if f.spec.path == path {
				return f
			}
		}
		t.Fatalf("there is no field %s", path)
		return nil
	}
	name := field("pieces[belt].name").entry
	v.Canvas().Focus(name)
	name.SetText("girdle")
	v.Canvas().FocusNext()
	if v.Canvas().Focused() != fyne.Focusable(field("pieces[girdle].shape").choice) {
		t.Errorf("the focus is on %T, not on the list of shapes that is shown", v.Canvas().Focused())
	}
	if !v.b.current() || v.b.picked != "girdle/1" {
		t.Fatalf("picked is %q; laid: %t", v.b.picked, v.b.current())
	}
	if now := v.b.shown.Lay.Placements[find(t, v.b, "girdle/1")]; math.Hypot(now.X-was.X, now.Y-was.Y) > 0.001 || now.TurnDeg != was.TurnDeg {
		t.Errorf("it lies at %v, it lay at %v", now, was)
	}
	if err := v.b.renamePiece("girdle", "body"); err == nil || v.b.picked != "girdle/1" {
		t.Errorf("two pieces called body: error %v; picked is %q", err, v.b.picked)
	}
}

// The wheel over a number scrolls the panel, as it does beside it.
func TestWheelOverANumberScrollsThePanel(t *testing.T) {
	v, _ := opened(t, "light")
	v.panels.openNamed("Body")
	entry := fieldAt(t, v, "body.stature_cm").entry // in view without scrolling
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(entry).AddXY(20, 10)
	test.Scroll(v.Canvas(), at, 0, -60)
	if y := v.panels.scroll.Offset.Y; y != 60 {
		t.Errorf("the panel is scrolled by %g; want 60", y)
	}
}
