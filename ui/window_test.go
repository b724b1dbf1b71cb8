package ui

import (
	"errors"
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/layout"
	"ellwand/plan"
)

// opened is the window on the starter plan, in a driver without a display.
func opened(t *testing.T, variant string) (*window, *loop) {
	t.Helper()
	a := test.NewTempApp(t)
	a.Settings().SetTheme(newLook(variant))
	l := newLoop(t)
	b := newBench(plan.Starter(), "", func(f func()) { go f() }, func(f func()) { l.queue <- f })
	b.moment, b.long, b.study = 0.1, 0.3, 0.3
	w := test.NewTempWindow(t, nil)
	v := newWindow(w, b, time.Now)
	w.Resize(fyne.NewSize(openWidth, openHeight))
	b.begin()
	l.rest(b)
	return v, l
}

// fieldAt is the field of the open panel that a path belongs to.
func fieldAt(t *testing.T, v *window, path string) *field {
	t.Helper()
	for _, f := range v.panels.form.fields {
		if f.spec.path == path {
			return f
		}
	}
	t.Fatalf("the panel %s has no field %s", v.panels.all[v.panels.at].name, path)
	return nil
}

func TestEveryFieldOfEveryPanelShowsWhatThePlanHolds(t *testing.T) {
	v, l := opened(t, "light")
	v.b.pick("sleeve/1")
	for i, p := range v.panels.all {
		v.panels.open(i)
		l.rest(v.b)
		if n := len(v.panels.form.fields); n < 1 || n < 4 && p.name != "Real cloth" {
			t.Errorf("panel %s has %d fields", p.name, len(v.panels.form.fields))
		}
		for _, f := range v.panels.form.fields {
			if f.spec.label == "" {
				t.Errorf("%s: the field %s has no label", p.name, f.spec.path)
			}
			value := f.spec.get()
			if value != "" && f.spec.try != nil {
				if err := f.spec.try(value); err != nil {
					t.Errorf("%s: what %s shows is not accepted: %v", p.name, f.spec.path, err)
				}
			}
			if f.entry != nil && f.entry.Text != value {
				t.Errorf("%s: %s shows %q; the plan holds %q", p.name, f.spec.path, f.entry.Text, value)
			}
		}
	}
}

func TestWrongNumberIsSaidBesideItsFieldAndStaysOut(t *testing.T) {
	v, l := opened(t, "light")
	f := fieldAt(t, v, "body.stature_cm")
	v.Canvas().Focus(f.entry)
	f.entry.SetText("")
	test.Type(f.entry, "17")
	if !strings.Contains(f.problem.text, "Is 17; accepted is a bare number from 115 to 235 cm") {
		t.Errorf("while typing it says %q", f.problem.text)
	}
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := plan.GetField(v.b.plan(), "body.stature_cm"); got != "176" || v.b.history.Dirty() {
		t.Errorf("the plan holds %s", got)
	}
	test.Type(f.entry, "0")
	if f.problem.text != "" {
		t.Errorf("170 is accepted, but it still says %q", f.problem.text)
	}
	v.settle()
	l.rest(v.b)
	if got := plan.GetField(v.b.plan(), "body.stature_cm"); got != "170" {
		t.Errorf("the plan holds %s; want 170", got)
	}
	v.goBack()
	if f.entry.Text != "176" {
		t.Errorf("after undo the field shows %s", f.entry.Text)
	}
}

func TestUndoFirstTakesBackWhatIsBeingTyped(t *testing.T) {
	v, _ := opened(t, "light")
	f := fieldAt(t, v, "body.stature_cm")
	v.Canvas().Focus(f.entry)
	test.Type(f.entry, "9")
	v.goBack()
	if f.entry.Text != "176" || f.problem.text != "" {
		t.Errorf("the field shows %q and says %q", f.entry.Text, f.problem.text)
	}
}

func TestMeasurementsAtOddsAreRefused(t *testing.T) {
	v, _ := opened(t, "light")
	f := fieldAt(t, v, "body.hand_girth_cm")
	f.commit("12.5") // a hand may be so small, but not with this plan's wrist
	w := fieldAt(t, v, "body.wrist_girth_cm")
	w.commit("29")
	if w.problem.text == "" || plan.GetField(v.b.plan(), "body.wrist_girth_cm") != "" {
		t.Errorf("a wrist wider than the hand: the plan holds %q, it says %q", plan.GetField(v.b.plan(), "body.wrist_girth_cm"), w.problem.text)
	}
}

// dragBy presses on the middle of an item and moves the pointer in steps.
func dragBy(t *testing.T, v *window, id string, dx, dy float32) (release func()) {
	t.Helper()
	i := find(t, v.b, id)
	it := v.b.shown.Prepared.Problem.Items[i]
	at := v.strip.onView(layout.Placed(it, v.b.shown.Lay.Placements[i]).Centroid())
	v.strip.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	const steps = 8
	for k := 1; k <= steps; k++ {
		e := &fyne.DragEvent{Dragged: fyne.NewDelta(dx/steps, dy/steps)}
		e.Position = at.AddXY(dx*float32(k)/steps, dy*float32(k)/steps)
		v.strip.Dragged(e)
	}
	return v.strip.DragEnd
}

func TestDraggedPieceFollowsThePointerAndSaysWhatItOverlaps(t *testing.T) {
	v, _ := opened(t, "light")
	i := find(t, v.b, "neck facing/1")
	was := v.b.shown.Lay.Placements[i]
	middle := func(id string) fyne.Position {
		k := find(t, v.b, id)
		return v.strip.onView(layout.Placed(v.b.shown.Prepared.Problem.Items[k], v.b.shown.Lay.Placements[k]).Centroid())
	}
	over := middle("body/1").Subtract(middle("neck facing/1")) // wherever packing has put the two
	release := dragBy(t, v, "neck facing/1", over.X, over.Y)
	moved := v.strip.drag.at[i].X - was.X
	if want := float64(over.X / v.strip.zoom); moved > want+4 || moved < want-4 {
		t.Errorf("it went %v cm; the pointer %v cm", moved, want)
	}
	if !v.strip.word.Visible() || !strings.Contains(v.strip.word.Text, "overlaps") {
		t.Errorf("over the body it says %q", v.strip.word.Text)
	}
	if v.b.shown.Lay.Placements[i] != was {
		t.Error("the plan changed before the piece was laid down")
	}
	release()
	if v.b.shown.Lay.Placements[i] == was || len(v.b.shown.Faults) == 0 {
		t.Errorf("laid down it lies at %v, faults %v", v.b.shown.Lay.Placements[i], v.b.shown.Faults)
	}
	if !strings.Contains(v.figures.trouble.Text, "overlap") || !v.figures.trouble.Visible() {
		t.Errorf("the reckoning line says %q", v.figures.trouble.Text)
	}
	v.goBack()
	if !strings.HasPrefix(v.figures.trouble.Text, "The plan can be made as it stands. No lay at this width can be shorter than ") {
		t.Errorf("after undo it still says %q", v.figures.trouble.Text)
	}
}

func TestKeysMoveThePickedPiece(t *testing.T) {
	v, _ := opened(t, "light")
	i := find(t, v.b, "sleeve/2")
	was := v.b.shown.Lay.Placements[i]
	v.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := v.b.shown.Lay.Placements[i]; got.X < was.X+0.0999 || got.X > was.X+0.1001 {
		t.Errorf("Right moved it from %v to %v cm", was.X, got.X)
	}
	v.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyP})
	if v.b.shown.Prepared.Problem.Items[i].Pinned == nil && len(faultsOf(v.b.shown, i, v.b.shown.Lay.Placements[i])) == 0 {
		t.Error("P did not pin it")
	}
	v.b.pick("")
	v.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyR})
	if !strings.Contains(v.status.Text, "No piece is picked") {
		t.Errorf("with nothing picked, R says %q", v.status.Text)
	}
	v.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyN})
	if v.b.picked == "" {
		t.Error("N picks nothing")
	}
}

func TestUnmetFleeceIsMarkedInWords(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Fleece")
	f := fieldAt(t, v, "fleeces[grey wether].raw_g")
	f.commit("100")
	l.rest(v.b)
	if !v.figures.wool.unmet || !strings.Contains(v.figures.trouble.Text, "short by") {
		t.Errorf("unmet %v, and it says %q", v.figures.wool.unmet, v.figures.trouble.Text)
	}
	test.Tap(v.figures.warp)
	if v.panels.all[v.panels.at].name != "Loom" {
		t.Errorf("a click on the warp opened %s", v.panels.all[v.panels.at].name)
	}
}

func TestRenamedYarnAndFleeceKeepTheirUses(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Yarn")
	fieldAt(t, v, "yarns[grey-warp].name").commit("river grey")
	l.rest(v.b)
	if v.b.plan().WarpYarn != "river grey" {
		t.Errorf("the warp is %q", v.b.plan().WarpYarn)
	}
	v.panels.openNamed("Fleece")
	fieldAt(t, v, "fleeces[grey wether].name").commit("bank grey")
	l.rest(v.b)
	if got := v.b.plan().Yarns[0].Fleece; got != "bank grey" {
		t.Errorf("the yarn is spun from %q", got)
	}
}

func TestOwnPieceIsAddedShapedAndRemoved(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Pieces")
	if err := v.panels.form.addPiece(); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	v.panels.update()
	for _, s := range []string{"isosceles_gore", "half_circle", "diamond_gusset", "rectangle"} {
		fieldAt(t, v, "pieces[own piece].shape").commit(s)
		l.rest(v.b)
		if p, ok := v.b.piece("own piece"); !ok || v.b.trouble != nil || !(p.CutAreaCM2 > 0) {
			t.Fatalf("as %s: %v, %v", s, v.b.trouble, p.CutAreaCM2)
		}
	}
	fieldAt(t, v, "pieces[own piece].copies").commit("3")
	l.rest(v.b)
	if find(t, v.b, "own piece/3") < 0 {
		t.Error("there is no third copy")
	}
	if err := v.panels.form.dropSpec("remove", "own piece"); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	if _, ok := v.b.piece("own piece"); ok {
		t.Error("it is still cut")
	}
}

func TestDraftedPieceIsLeftOutAndAllowed(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Pieces")
	v.b.pick("neck facing/1")
	edge := v.b.shown.Prepared.Pieces[v.b.shown.Prepared.Copies[v.b.item()].Piece].Piece.Edges[0].Name
	f := fieldAt(t, v, "pieces[neck facing].edges["+edge+"].allowance_cm")
	before, _ := v.b.piece("neck facing")
	f.commit("9x")
	if f.problem.text == "" {
		t.Error("9x is taken for an allowance")
	}
	f.commit("9")
	l.rest(v.b)
	after, _ := v.b.piece("neck facing")
	if after.CutAreaCM2 <= before.CutAreaCM2 {
		t.Errorf("with 9 cm allowed it is %v cm²; before %v", after.CutAreaCM2, before.CutAreaCM2)
	}
	fieldAt(t, v, "pieces[neck facing].copies").commit("0")
	l.rest(v.b)
	if _, ok := v.b.piece("neck facing"); ok {
		t.Error("left out, it is still cut")
	}
}

func TestEveryDraftOpensFromTheGarmentPanel(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Garment")
	for _, d := range []string{"shift", "overdress", "trousers", "", "tunic"} {
		f := fieldAt(t, v, "garment.draft")
		f.commit(d)
		l.rest(v.b)
		if f.problem.text != "" || v.b.plan().Draft != d {
			t.Errorf("%q: the draft is %q; it says %q", d, v.b.plan().Draft, f.problem.text)
		}
	}
}

// The study has next to no time here, the lay that is shown has had more.
func TestWidthStudyIsNeverLongerThanTheLayShown(t *testing.T) {
	v, l := opened(t, "light")
	v.b.study = 0.01
	v.b.startPacking(true, 2)
	l.rest(v.b)
	v.drawer.toggle(1)
	l.until("the width table", func() bool { return len(v.drawer.widths.rows) > 0 })
	w, shown := v.drawer.widths, v.b.shown
	at := slices.IndexFunc(w.rows, func(r plan.WidthRow) bool { return math.Abs(r.WidthCM-shown.Lay.WidthCM) < 1e-3 })
	if at < 0 {
		t.Fatalf("no row at %v cm, the width of the lay shown", shown.Lay.WidthCM)
	}
	for _, r := range w.rows[at:] {
		if r.LengthCM > shown.ClothCM()+1e-6 {
			t.Errorf("%v cm wide it is %v cm long; the lay shown, %v cm wide, is %v cm long", r.WidthCM, r.LengthCM, shown.Lay.WidthCM, shown.ClothCM())
		}
	}
	if n := plan.OnlyFirst(w.rows); n == 0 || !strings.Contains(w.words.Text, strconv.Itoa(n)+" of them were only laid for a first time") {
		t.Errorf("%d of %d widths were not searched, but it says %q", n, len(w.rows), w.words.Text)
	}
}

func TestWidthIsPickedFromTheTable(t *testing.T) {
	v, l := opened(t, "light")
	v.drawer.toggle(1)
	l.until("the width table", func() bool { return len(v.drawer.widths.rows) > 0 })
	w := v.drawer.widths
	want := w.rows[len(w.rows)-1].WidthCM
	w.table.Select(widget.TableCellID{Row: len(w.rows) - 1})
	l.rest(v.b)
	if got := v.b.plan().Cloth.FinishedWidthCM; math.Abs(got-want) > 1e-8 || v.b.shown.Lay.WidthCM != got {
		t.Errorf("the cloth is %v cm wide, its lay %v; picked was %v", got, v.b.shown.Lay.WidthCM, want)
	}
	if !strings.Contains(w.words.Text, "Click on one") {
		t.Errorf("with only the width changed it says %q", w.words.Text)
	}
	if err := v.b.set("body.stature_cm", "stature", "180"); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(w.words.Text, "has changed") {
		t.Errorf("after another change it says %q", w.words.Text)
	}
}

func TestEveryFigureSaysFromWhat(t *testing.T) {
	v, _ := opened(t, "light")
	for _, f := range figures(v.b.shown) {
		if f.Unit != headRow && f.From == "" {
			t.Errorf("%s does not say from what", f.Label)
		}
	}
}

func TestEveryCommandOfTheMenuDoesSomething(t *testing.T) {
	v, _ := opened(t, "light")
	for _, m := range v.MainMenu().Items {
		for _, i := range m.Items {
			if !i.IsSeparator && i.Action == nil && i.ChildMenu == nil {
				t.Errorf("%s, %s does nothing", m.Label, i.Label)
			}
		}
	}
}

func TestUnsavedWorkIsAskedAbout(t *testing.T) {
	v, _ := opened(t, "light")
	left := 0
	v.leaving("Close", func() { left++ })
	if left != 1 {
		t.Error("with nothing changed it asks")
	}
	if err := v.b.set("title", "title", "Another"); err != nil {
		t.Fatal(err)
	}
	if !strings.HasSuffix(v.Title(), "Another *") {
		t.Errorf("the title is %q", v.Title())
	}
	v.leaving("Close", func() { left++ })
	if left != 1 || v.Canvas().Overlays().Top() == nil {
		t.Error("changed work is left without asking")
	}
}

func TestChooserRefusesInWords(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "there.yaml"), []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	c := &chooser{endings: planEndings(), folder: dir}
	for _, tt := range []struct {
		path   string
		saving bool
		want   string // the path, or a part of what is said
		ok     bool
	}{
		{"there.yaml", false, filepath.Join(dir, "there.yaml"), true},
		{"missing.yaml", false, "cannot be opened", false},
		{"", false, "no file is named", false},
		{"new", true, filepath.Join(dir, "new.yaml"), true},
		{"new.txt", true, "accepted is .yaml or .yml", false},
		{"no/such/new.yaml", true, "is no folder", false},
	} {
		c.saving = tt.saving
		got, err := c.accepted(tt.path)
		if tt.ok != (err == nil) || tt.ok && got != tt.want || !tt.ok && !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q gives %q, %v; want %q", tt.path, got, err, tt.want)
		}
	}
}

func TestSentenceStartsLargeAndLeavesTheFieldOut(t *testing.T) {
	p := &plan.Problem{File: "a.yaml", Line: 3, Field: "cloth.take_up", Text: "is 3", Accepted: "less"}
	if got := sentence(p, "cloth.take_up"); got != "Is 3; accepted is less." {
		t.Errorf("it reads %q", got)
	}
	if got := sentence(errors.New("nothing there"), ""); got != "Nothing there" {
		t.Errorf("it reads %q", got)
	}
}

func TestRulerStepsAreRound(t *testing.T) {
	for _, tt := range []struct{ perUnit, apart, want float64 }{
		{3, 48, 20}, {10, 48, 5}, {48, 48, 1}, {0.3, 48, 200}, {500, 48, 0.1},
	} {
		if got := rulerStep(tt.perUnit, tt.apart); got < tt.want*0.999 || got > tt.want*1.001 {
			t.Errorf("at %v px to a unit the step is %v; want %v", tt.perUnit, got, tt.want)
		}
	}
}

func TestStripIsDrawnInBothLights(t *testing.T) {
	for _, variant := range []string{"light", "dark"} {
		v, l := opened(t, variant)
		v.b.pick("body/1")
		l.drawn(v)
		pic := v.strip.base.image
		if n := coloursIn(pic); n < 6 {
			t.Errorf("%s: the strip has %d colours", variant, n)
		}
		dragBy(t, v, "body/1", 20, 8)
		l.drawn(v)
		if samePixels(pic, v.strip.base.image) || coloursIn(v.strip.lifted.image) < 3 || !v.strip.lifted.raster.Visible() {
			t.Errorf("%s: the lifted piece is still on the cloth, or not drawn", variant)
		}
		v.strip.DragEnd()
		l.drawn(v)
		if v.strip.lifted.raster.Visible() {
			t.Errorf("%s: the piece is laid down, but its picture is still carried", variant)
		}
	}
}

// drawn waits until the pictures of the strip show what is there.
func (l *loop) drawn(v *window) {
	l.t.Helper()
	l.until("the picture of the strip", func() bool { return v.strip.base.settled() && v.strip.lifted.settled() })
}

func coloursIn(m image.Image) int {
	seen := map[color.RGBA]bool{}
	b := m.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y += 3 {
		for x := b.Min.X; x < b.Max.X; x += 3 {
			seen[color.RGBAModel.Convert(m.At(x, y)).(color.RGBA)] = true
		}
	}
	return len(seen)
}

func samePixels(a, b image.Image) bool {
	r := a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				return false
			}
		}
	}
	return true
}

func TestColoursAreLegible(t *testing.T) {
	for name, p := range map[string]palette{"light": lightPalette(), "dark": darkPalette()} {
		text := []color.NRGBA{p.text, p.faint, p.madder, p.weld, p.green}
		for _, ground := range []color.NRGBA{p.ground, p.raised, p.field} {
			for i, c := range text {
				if r := contrast(c, ground); r < 4.5 {
					t.Errorf("%s: text %d on %v has a contrast of %.1f to 1", name, i, ground, r)
				}
			}
			if r := contrast(p.woad, ground); r < 4.5 {
				t.Errorf("%s: woad on %v has %.1f to 1", name, ground, r)
			}
		}
		for _, pair := range [][2]color.NRGBA{{p.onWoad, p.woad}, {p.onMadder, p.madder}, {p.onWeld, p.weld}, {p.onGreen, p.green}, {p.text, p.button}, {p.text, p.marked}} {
			if r := contrast(pair[0], pair[1]); r < 4.5 {
				t.Errorf("%s: %v on %v has %.1f to 1", name, pair[0], pair[1], r)
			}
		}
		if r := contrast(p.border, p.field); r < 3 {
			t.Errorf("%s: an entry's border has %.1f to 1", name, r)
		}
	}
}

// contrast is that of WCAG 2.2: (L1 + 0.05) ÷ (L2 + 0.05).
func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(c color.NRGBA) float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

func TestSystemsLightOrDarkIsFollowedUnlessOverridden(t *testing.T) {
	for _, tt := range []struct {
		wanted string
		system fyne.ThemeVariant
		want   palette
	}{
		{"", theme.VariantDark, darkPalette()}, {"", theme.VariantLight, lightPalette()},
		{"light", theme.VariantDark, lightPalette()}, {"dark", theme.VariantLight, darkPalette()},
	} {
		if got := newLook(tt.wanted).Color(theme.ColorNameBackground, tt.system); got != tt.want.ground {
			t.Errorf("%q on a system of variant %v: the ground is %v", tt.wanted, tt.system, got)
		}
	}
}

func TestParagraphBreaksWithinItsWidth(t *testing.T) {
	test.NewTempApp(t)
	for _, l := range broken("Back neck point (7th cervical) height", labelWidth, 13, fyne.TextStyle{}) {
		if w := fyne.MeasureText(l, 13, fyne.TextStyle{}).Width; w > labelWidth {
			t.Errorf("%q is %v wide; the column %v", l, w, labelWidth)
		}
	}
}

func TestRedoWorksFromWithinAField(t *testing.T) {
	v, l := opened(t, "light")
	f := fieldAt(t, v, "body.stature_cm")
	f.commit("180")
	l.rest(v.b)
	v.goBack()
	v.Canvas().Focus(f.entry)
	f.entry.TypedShortcut(ctrl(fyne.KeyZ, fyne.KeyModifierShift))
	l.rest(v.b)
	if f.entry.Text != "180" {
		t.Errorf("after redo the field shows %s", f.entry.Text)
	}
}

func TestOpenQuestionTakesNoCommands(t *testing.T) {
	v, _ := opened(t, "light")
	if err := v.b.set("title", "title", "Another"); err != nil {
		t.Fatal(err)
	}
	v.newPlan()
	for _, m := range v.MainMenu().Items {
		for _, i := range m.Items {
			if strings.HasPrefix(i.Label, "Undo") {
				i.Action()
			}
		}
	}
	if v.b.plan().Title != "Another" {
		t.Error("undo went behind an open question")
	}
	v.b.undo()
	was := v.b.plan().Title
	v.Canvas().(fyne.Shortcutable).TypedShortcut(ctrl(fyne.KeyZ, fyne.KeyModifierShift))
	if v.b.plan().Title != was {
		t.Error("redo went behind an open question")
	}
	v.typed(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if v.Canvas().Overlays().Top() != nil && v.Canvas().Overlays().Top().Visible() {
		t.Error("Escape does not shut the question")
	}
}

// sixty is the window on a plan with sixty pieces and the necklines' curves.
func sixty(b *testing.B) *window {
	b.Helper()
	a := test.NewTempApp(b)
	a.Settings().SetTheme(newLook("light"))
	l := newLoop(b)
	p := plan.Starter()
	for _, name := range []string{"side gore", "centre gore", "underarm gusset"} {
		n := 18
		override(p, name).Copies = &n
	}
	k := newBench(p, "", func(f func()) { go f() }, func(f func()) { l.queue <- f })
	k.moment = 0.1
	v := newWindow(test.NewTempWindow(b, nil), k, time.Now)
	v.Resize(fyne.NewSize(1920, 1000))
	k.begin()
	l.rest(k)
	if n := len(k.shown.Lay.Placements); n < 56 {
		b.Fatalf("only %d pieces are laid: %v", n, k.trouble)
	}
	return v
}

// BenchmarkDraggedPiece is one move of the pointer with a piece held.
func BenchmarkDraggedPiece(b *testing.B) {
	v := sixty(b)
	v.b.pick("sleeve/1")
	at := fyne.NewPos(700, 200)
	v.strip.takeHold("sleeve/1", v.strip.onCloth(at))
	v.strip.lift()
	for n := 0; b.Loop(); n++ {
		v.strip.move(at.AddXY(float32(n%200), float32(n%37)))
	}
}

// BenchmarkStillPicture is the whole strip drawn anew.
func BenchmarkStillPicture(b *testing.B) {
	v := sixty(b)
	k, ink := v.strip.framed(v.strip.sketch(), v.strip.seen(0.45)), &inkwell{}
	for b.Loop() {
		k.draw(ink)
	}
}

// BenchmarkLaidDown is what follows when a dragged piece is laid down.
func BenchmarkLaidDown(b *testing.B) {
	v := sixty(b)
	v.b.pick("sleeve/1")
	i := v.b.item()
	for n := 0; b.Loop(); n++ {
		to := v.b.shown.Lay.Placements[i]
		to.X += float64(n%2)*2 - 1
		if err := v.b.place("move", i, to); err != nil {
			b.Fatal(err)
		}
	}
}

// Where there is neither a lay nor a search for one, none is said to be made.
func TestPlanThatCannotBeLaidIsNotSaidToBeBeingLaid(t *testing.T) {
	v, l := opened(t, "light")
	p := plan.Starter()
	if err := plan.SetField(p, "cloth.finished_width_cm", "30"); err != nil {
		t.Fatal(err)
	}
	v.begin(p, "")
	l.until("the trouble", func() bool { return v.b.trouble != nil })
	l.rest(v.b)
	if text := v.status.Text; v.b.shown != nil || !strings.Contains(text, "cannot be laid") {
		t.Errorf("with nothing laid it is said that %q", text)
	}
}
