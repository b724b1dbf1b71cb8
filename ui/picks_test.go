package ui

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"ellwand/geometry"
	"ellwand/layout"
	"ellwand/plan"
)

// boxes are what pieces take up, by their IDs.
func boxes(b *bench, ids ...string) []geometry.Rect {
	var out []geometry.Rect
	for _, id := range ids {
		i := slices.IndexFunc(b.shown.Prepared.Problem.Items, func(it layout.Item) bool { return it.ID == id })
		out = append(out, layout.Placed(b.shown.Prepared.Problem.Items[i], b.shown.Lay.Placements[i]).Bounds())
	}
	return out
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6 }

func TestSeveralPiecesAreMovedAsOneStep(t *testing.T) {
	b, _ := ferryman(t)
	b.pick("sleeve/1")
	b.pickMore("side gore/1", "side gore/2")
	was := boxes(b, "sleeve/1", "side gore/1", "side gore/2")
	if err := b.putAt(geometry.Point{X: 2000, Y: 1}); err != nil {
		t.Fatal(err)
	}
	is := boxes(b, "sleeve/1", "side gore/1", "side gore/2")
	for k := 1; k < 3; k++ {
		if !near(is[k].MinX-is[0].MinX, was[k].MinX-was[0].MinX) || !near(is[k].MinY-is[0].MinY, was[k].MinY-was[0].MinY) {
			t.Errorf("piece %d did not keep to the others: %v, was %v", k, is, was)
		}
	}
	if from := min(is[0].MinX, is[1].MinX, is[2].MinX); !near(from, 2000) {
		t.Errorf("they begin at %v cm; typed was 2000", from)
	}
	if got := b.history.CanUndo(); got != "move 3 pieces" {
		t.Errorf("undo says %q", got)
	}
	b.undo()
	if got := boxes(b, "sleeve/1", "side gore/1", "side gore/2"); !slices.Equal(got, was) {
		t.Errorf("one undo brings them to %v; they were at %v", got, was)
	}
}

func TestPiecesTurnedTogetherKeepTheirFigure(t *testing.T) {
	b, _ := ferryman(t)
	b.pickAll()
	before := b.shown.Lay
	if err := b.turn(); err != nil {
		t.Fatal(err)
	}
	if len(b.shown.Faults) > 0 || !near(b.shown.Lay.LengthCM, before.LengthCM) {
		t.Errorf("a whole lay turned end for end has faults %v, and is %v cm long; was %v", b.shown.Faults, b.shown.Lay.LengthCM, before.LengthCM)
	}
	if err := b.flip(); err != nil {
		t.Fatal(err)
	}
	if len(b.shown.Faults) > 0 {
		t.Errorf("turned over as a whole it has faults: %v", b.shown.Faults)
	}
	if err := b.pin(); err != nil {
		t.Fatal(err)
	}
	if err := b.nudge(1, 0); err == nil || !strings.Contains(err.Error(), "pinned") {
		t.Errorf("all pinned, they are moved: %v", err)
	}
	if err := b.pin(); err != nil || b.shown.Prepared.Problem.Items[0].Pinned != nil {
		t.Errorf("pinning all that is pinned does not let go: %v", err)
	}
}

func TestPiecesAreBroughtInLine(t *testing.T) {
	b, _ := ferryman(t)
	ids := []string{"underarm gusset/1", "underarm gusset/2", "neck facing/1"}
	for k, id := range ids {
		find(t, b, id)
		if err := b.putAt(geometry.Point{X: 1000 + 37*float64(k*k), Y: 3 * float64(k)}); err != nil {
			t.Fatal(err)
		}
	}
	b.pick("")
	b.pickMore(ids...)
	if err := b.spaceEvenly(false); err != nil {
		t.Fatal(err)
	}
	r := boxes(b, ids...)
	if a, c := r[1].MinX-r[0].MaxX, r[2].MinX-r[1].MaxX; !near(a, c) || !near(r[0].MinX, 1000) || !near(r[2].MinX, 1148) {
		t.Errorf("the room between them is %v and %v; they lie at %v", a, c, r)
	}
	if err := b.inLine(sideRight); err != nil {
		t.Fatal(err)
	}
	if r := boxes(b, ids...); !near(r[0].MaxY, r[1].MaxY) || !near(r[1].MaxY, r[2].MaxY) {
		t.Errorf("their right sides lie at %v", r)
	}
	if err := b.toEdge(sideRight); err != nil {
		t.Fatal(err)
	}
	if r := boxes(b, ids...); !near(r[0].MaxY, b.shown.Lay.WidthCM) {
		t.Errorf("at the right selvedge they end at %v of %v cm", r[0].MaxY, b.shown.Lay.WidthCM)
	}
	b.pick(ids[0])
	if err := b.inLine(sideLeft); err == nil {
		t.Error("one piece alone is brought in line with itself")
	}
}

func TestExactPlaceIsTypedInTheUnitsShown(t *testing.T) {
	v, l := opened(t, "light")
	if err := v.b.set("show_units", "units", "inch"); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	v.b.pick("sleeve/1")
	enter := func(e *placeEntry, text string) {
		e.SetText(text)
		e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	enter(v.place.along, "400")
	enter(v.place.from, "1.5")
	if r := boxes(v.b, "sleeve/1")[0]; !near(r.MinX, 400*2.54) || !near(r.MinY, 1.5*2.54) {
		t.Errorf("typed 400 and 1.5 in, it lies at %v and %v cm", r.MinX, r.MinY)
	}
	enter(v.place.turn, "45")
	if !strings.Contains(v.status.Text, "may not lie so: allowed is") || v.place.turn.Text == "45" {
		t.Errorf("a turn that the grain forbids stands as %q, and it says %q", v.place.turn.Text, v.status.Text)
	}
	enter(v.place.along, "far")
	if !strings.Contains(v.status.Text, "accepted is a bare number") {
		t.Errorf("it says %q", v.status.Text)
	}
}

// pressAt is a press of the left button on the strip.
func pressAt(v *window, at fyne.Position, m fyne.KeyModifier) {
	v.strip.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary, Modifier: m})
}

func dragOver(v *window, from, to fyne.Position) {
	pressAt(v, from, 0)
	for k := float32(1); k <= 4; k++ {
		e := &fyne.DragEvent{}
		e.Position = fyne.NewPos(from.X+(to.X-from.X)*k/4, from.Y+(to.Y-from.Y)*k/4)
		v.strip.Dragged(e)
	}
	v.strip.DragEnd()
}

func TestBandPicksWhatItEncloses(t *testing.T) {
	v, _ := opened(t, "light")
	dragOver(v, fyne.NewPos(2, v.strip.origin.Y-6), fyne.NewPos(v.strip.Size().Width-2, v.strip.Size().Height-2))
	if n := len(v.b.chosen()); n != len(v.b.shown.Lay.Placements) {
		t.Errorf("a band round everything picks %d pieces", n)
	}
	middle := func(id string) fyne.Position { return v.strip.onView(middleOf(boxes(v.b, id)[0])) }
	pressAt(v, middle("body/1"), fyne.KeyModifierShift)
	v.strip.MouseUp(nil)
	if n := len(v.b.chosen()); n != len(v.b.shown.Lay.Placements)-1 {
		t.Errorf("Shift and a click on one of them leave %d picked", n)
	}
	pressAt(v, middle("sleeve/1"), 0)
	v.strip.MouseUp(nil)
	if got := v.b.chosen(); len(got) != 1 || v.b.picked != "sleeve/1" {
		t.Errorf("a click on one picks %v, %s", got, v.b.picked)
	}
}

func TestFlawIsDrawnOnTheClothAndTakenAway(t *testing.T) {
	v, l := opened(t, "light")
	far := v.b.shown.Lay.LengthCM
	v.strip.useTool(toolFlaw)
	dragOver(v, v.strip.onView(geometry.Point{X: far - 12, Y: 20}), v.strip.onView(geometry.Point{X: far - 4, Y: 30}))
	l.rest(v.b)
	if n := len(v.b.plan().Real.Flaws); n != 1 || v.strip.tool != toolPick {
		t.Fatalf("%d flaws are kept, and the tool is still %v", n, v.strip.tool)
	}
	if len(v.b.shown.Prepared.Problem.Flaws) != 1 || len(v.b.shown.Faults) == 0 || !strings.Contains(v.figures.trouble.Text, "flaw") {
		t.Errorf("a piece lies on the flaw, but it says %q", v.figures.trouble.Text)
	}
	v.b.pack()
	l.rest(v.b)
	if len(v.b.shown.Faults) > 0 {
		t.Errorf("packing does not go round the flaw: %v", v.b.shown.Faults)
	}
	q := v.b.shown.Prepared.Problem.Flaws[0].Outline
	v.strip.useTool(toolFlaw)
	pressAt(v, v.strip.onView(q.Centroid()), 0)
	v.strip.MouseUp(nil)
	l.rest(v.b)
	if len(v.b.plan().Real.Flaws) != 0 {
		t.Error("a click with the tool on the flaw does not take it away")
	}
}

func TestFlawIsDrawnByItsCorners(t *testing.T) {
	v, l := opened(t, "light")
	far := v.b.shown.Lay.LengthCM
	click := func(x, y float64) {
		pressAt(v, v.strip.onView(geometry.Point{X: x, Y: y}), 0)
		v.strip.MouseUp(nil)
	}
	v.strip.useTool(toolFlaw)
	click(far-60, 20)
	click(far-30, 22)
	v.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(v.b.plan().Real.Flaws) != 0 || v.strip.tool != toolFlaw {
		t.Fatal("two corners make a flaw")
	}
	click(far-40, 50)
	click(far-60, 20) // the first again
	l.rest(v.b)
	flaws := v.b.plan().Real.Flaws
	if len(flaws) != 1 || len(flaws[0].OutlineCM) != 3 || v.strip.tool != toolPick {
		t.Fatalf("flaws are %v, the tool %v", flaws, v.strip.tool)
	}
	if c := flaws[0].OutlineCM[0]; math.Abs(c[0]-(far-60)) > 1 || math.Abs(c[1]-20) > 1 {
		t.Errorf("its first corner is %v; clicked was %v, 20", c, far-60)
	}
	// Escape gives up what was begun, and a cross is refused in a sentence.
	v.strip.useTool(toolFlaw)
	click(5, 5)
	v.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	v.strip.useTool(toolFlaw)
	for _, c := range [][2]float64{{5, 5}, {40, 40}, {40, 5}, {5, 40}} {
		click(c[0], c[1])
	}
	v.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnter})
	if n := len(v.b.plan().Real.Flaws); n != 1 {
		t.Errorf("%d flaws; one whose sides cross is none", n)
	}
}

func TestCornersOfAFlawAreTyped(t *testing.T) {
	for _, c := range []struct {
		text, units string
		want        [][2]float64
		says        string
	}{
		{"40 20; 52 22; 46 31", "cm", [][2]float64{{40, 20}, {52, 22}, {46, 31}}, ""},
		{" 40,5  20;52 22 ; 46 31;", "cm", [][2]float64{{40.5, 20}, {52, 22}, {46, 31}}, ""},
		{"1 2; 3 2; 2 4", "inch", [][2]float64{{2.54, 5.08}, {7.62, 5.08}, {5.08, 10.16}}, ""},
		{"40 20 5; 52 22; 46 31", "cm", nil, "two numbers each"},
		{"", "cm", nil, "two numbers each"},
		{"40 x; 52 22; 46 31", "cm", nil, `"x" is no number`},
	} {
		got, err := readCorners(c.text, c.units)
		if c.says == "" && (err != nil || !slices.Equal(got, c.want)) || c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%q in %s: %v, %v", c.text, c.units, got, err)
		}
	}
	if back := cornersText([][2]float64{{40, 20.5}, {52, 22}}, "cm"); back != "40 20.5; 52 22" {
		t.Errorf("written as %q", back)
	}
}

func TestGuidesAndDistancesWhileDragging(t *testing.T) {
	square := geometry.Polygon{{}, {X: 20}, {X: 20, Y: 20}, {Y: 20}}
	it := func(id string) layout.Item {
		return layout.Item{ID: id, Outline: square, TurnsDeg: []float64{0, 180}}
	}
	r := &plan.Result{Prepared: &plan.Prepared{Problem: layout.Problem{WidthCM: 100, Items: []layout.Item{it("lies"), it("held")}}},
		Lay: layout.Lay{WidthCM: 100, Placements: []layout.Placement{{X: 50, Y: 10}, {}}}}
	// Far off along the cloth, nearly in line with the other's left side.
	at, reached := snapAll(r, places{1: {X: 130, Y: 10.7}}, 1)
	if !near(at[1].Y, 10) || !near(at[1].X, 130) || len(reached) != 1 || !near(reached[0].from.Y, 10) {
		t.Errorf("it lies at %v, guides %v", at[1], reached)
	}
	want := map[float64]bool{130 - 70: true, 10: true, 70: true}
	for _, w := range waysFrom(r, at) {
		if !want[math.Round(w.cm)] {
			t.Errorf("a distance of %v cm is shown", w.cm)
		}
		delete(want, math.Round(w.cm))
	}
	if len(want) > 0 {
		t.Errorf("these distances are not shown: %v", want)
	}
}

func TestOverviewMovesTheView(t *testing.T) {
	v, _ := opened(t, "light")
	for range 6 {
		v.strip.zoomMiddle(1.5)
	}
	l, _ := v.strip.cloth()
	zoom, origin := v.over.scale()
	v.over.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: origin.AddXY(float32(l)*zoom*0.75, 5)}})
	if at := middleOf(v.strip.inSight()).X; math.Abs(at-0.75*l) > 2 {
		t.Errorf("after a click at three quarters the view is at %v of %v cm", at, l)
	}
	was := v.strip.inSight().MinX
	v.over.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if v.strip.inSight().MinX >= was {
		t.Error("Left does not move the view")
	}
}
