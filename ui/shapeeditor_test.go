package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"ellwand/plan"
)

// editor is the editor of shapes on the starter plan, 700 by 500 units large.
func editor(t *testing.T) (*shapeEditor, *loop) {
	t.Helper()
	v, l := opened(t, "light")
	v.openShapes()
	l.rest(v.b)
	e := newShapeEditor(v)
	e.board.Resize(fyne.NewSize(700, 500))
	e.addPiece()
	l.rest(v.b)
	return e, l
}

// onBoard is where a corner of the picked piece lies.
func (e *shapeEditor) onBoard(t *testing.T, i int) fyne.Position {
	t.Helper()
	points, _, _ := e.b.plan().Corners(e.piece)
	for _, p := range e.board.pieces {
		if p.piece.Name == e.piece {
			return e.board.pos(p, points[i][0], points[i][1])
		}
	}
	t.Fatal("the piece is not on the board")
	return fyne.Position{}
}

func TestCornersAreDraggedAndUndone(t *testing.T) {
	e, l := editor(t)
	from := e.onBoard(t, 2)
	k := float32(e.board.scale())
	step := fyne.NewDelta(-10*k, 0)
	e.board.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(step.DX, step.DY)}, Dragged: step})
	if !strings.Contains(e.message.text, "20.0 cm along, 20.0 cm across") {
		t.Errorf("while dragging it says %q", e.message.text)
	}
	e.board.DragEnd()
	l.rest(e.b)
	points, _, _ := e.b.plan().Corners(e.piece)
	if points[2] != [2]float64{20, 20} {
		t.Errorf("the corner lies at %v", points[2])
	}
	e.b.undo()
	if points, _, _ = e.b.plan().Corners(e.piece); points[2] != [2]float64{30, 20} {
		t.Errorf("after undo the corner lies at %v", points[2])
	}
}

func TestEdgesAreTypedAndNamed(t *testing.T) {
	e, l := editor(t)
	numbers := edgeNumbers()
	for i, c := range []struct {
		number int
		text   string
		corner int
		want   [2]float64
	}{{0, "40", 1, [2]float64{40, 0}}, {1, "30", 1, [2]float64{40 * math.Cos(math.Pi/6), 20}}, {2, "1,5", 0, [2]float64{1.5, 0}}} {
		if err := e.typed(numbers[c.number], 0, c.text); err != nil {
			t.Fatal(err)
		}
		l.rest(e.b)
		points, _, _ := e.b.plan().Corners(e.piece)
		if got := points[c.corner]; math.Abs(got[0]-c.want[0]) > 0.001 || math.Abs(got[1]-c.want[1]) > 0.001 {
			t.Errorf("step %d: the corner lies at %v, want %v", i, got, c.want)
		}
	}
	if err := e.typed(numbers[0], 0, "long"); err == nil || !strings.Contains(e.message.text, `"long"`) {
		t.Errorf("letters are taken for a length: %q", e.message.text)
	}
	if err := e.typed(numbers[3], 3, "-60"); err == nil || !strings.HasPrefix(e.message.text, "!") {
		t.Errorf("an outline that crosses itself is taken: %q", e.message.text)
	}
	e.cells[1].SetText("lower edge")
	e.cells[1].commit()
	if _, edges, _ := e.b.plan().Corners(e.piece); edges[0] != "lower edge" {
		t.Errorf("the edges are called %v", edges)
	}
}

func TestTwoClicksSewAndTheGapIsSaid(t *testing.T) {
	e, l := editor(t)
	e.sewTwo()
	middleOf := func(i, j int) fyne.Position {
		a, b := e.onBoard(t, i), e.onBoard(t, j)
		return fyne.NewPos((a.X+b.X)/2, (a.Y+b.Y)/2)
	}
	e.board.Tapped(&fyne.PointEvent{Position: middleOf(0, 1)})
	if !strings.Contains(e.message.text, "now click on the edge") {
		t.Errorf("after the first click: %q", e.message.text)
	}
	e.board.Tapped(&fyne.PointEvent{Position: middleOf(1, 2)})
	l.rest(e.b)
	if len(e.b.plan().Seams) != 1 || !strings.Contains(e.message.text, "They differ by 10.0 cm") {
		t.Fatalf("seams %v; said is %q", e.b.plan().Seams, e.message.text)
	}
	text, err := e.b.plan().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	again, err := plan.Parse(text, "again.yaml")
	if err != nil || len(again.Seams) != 1 || again.Seams[0].Edges[0] != "left side" || again.Seams[0].ToEdges[0] != "top" {
		t.Errorf("read again: %v, %+v", err, again.Seams)
	}
}

func TestCornersAreAddedAndTakenAway(t *testing.T) {
	e, l := editor(t)
	e.addCorner()
	l.rest(e.b)
	if points, _, _ := e.b.plan().Corners(e.piece); len(points) != 5 {
		t.Fatalf("%d corners", len(points))
	}
	e.dropCorner()
	if !strings.Contains(e.message.text, "Click on an edge first") {
		t.Errorf("without an edge: %q", e.message.text)
	}
	e.clicked(edgeRef{e.piece, "left side"})
	e.dropCorner()
	l.rest(e.b)
	if points, _, _ := e.b.plan().Corners(e.piece); len(points) != 4 {
		t.Errorf("%d corners are left", len(points))
	}
}
