package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"ellwand/geometry"
	"ellwand/layout"
)

// Steps of the arrow keys, in cm: alone and with Shift.
const (
	smallStepCM = 0.1
	largeStepCM = 1
)

var (
	_ desktop.Mouseable  = (*strip)(nil)
	_ desktop.Cursorable = (*strip)(nil)
	_ fyne.Draggable     = (*strip)(nil)
	_ fyne.Scrollable    = (*strip)(nil)
	_ fyne.Focusable     = (*strip)(nil)
)

// tool is what dragging on bare cloth does.
type tool int

const (
	toolPick tool = iota // a band round the pieces to be picked
	toolFlaw             // a band round a flaw of the cloth
)

// hand is what a pressed mouse button is for.
type hand int

const (
	handPush  hand = iota // the view is pushed
	handBand              // a band is drawn
	handCarry             // pieces are carried
)

// dragging is what is done while a mouse button is held.
type dragging struct {
	hand   hand
	moving bool          // the pointer has gone some way
	last   fyne.Position // of the pointer
	// Pieces: where the pointer took hold on the cloth, where they would lie, how
	// far that is, what is wrong there, and the one that was clicked on.
	grab   geometry.Point
	at     places
	dx, dy float64
	faults []layout.Fault
	under  string
	// A band: the corner it was begun at.
	from geometry.Point
}

// carries says whether pieces are off the cloth.
func (d *dragging) carries() bool { return d != nil && d.hand == handCarry && d.moving }

// MouseDown picks the piece under the pointer, or begins a band or a push.
func (s *strip) MouseDown(e *desktop.MouseEvent) {
	s.focus()
	s.drag = nil
	if s.b.shown == nil || e.Button == desktop.MouseButtonSecondary {
		return
	}
	s.drag = &dragging{hand: handPush, last: e.Position}
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	more := e.Modifier&(fyne.KeyModifierShift|fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0
	at := s.onCloth(e.Position)
	item := -1
	if s.tool == toolPick {
		item = itemAt(s.b.shown, at)
	}
	if item < 0 {
		if !more {
			s.b.pick("")
		}
		s.drag.hand, s.drag.from = handBand, at
		return
	}
	id := s.b.shown.Prepared.Problem.Items[item].ID
	if more {
		s.b.toggle(id)
		s.drag = nil
		return
	}
	picked := false
	for _, i := range s.b.chosen() {
		picked = picked || i == item
	}
	if !picked {
		s.b.pick(id)
	}
	s.takeHold(id, at)
}

// takeHold makes ready to carry the pieces picked; what is pinned stays, and says so
// when it is dragged.
func (s *strip) takeHold(under string, at geometry.Point) {
	items, err := s.b.movables()
	if err != nil {
		s.drag = nil
		return
	}
	s.drag = &dragging{hand: handCarry, grab: at, under: under, at: s.b.shifted(items, 0, 0)}
}

// MouseUp lets go. A click on one of several that are picked picks it alone.
func (s *strip) MouseUp(*desktop.MouseEvent) {
	d := s.drag
	if d == nil || d.moving {
		return
	}
	s.drag = nil
	if s.tool == toolFlaw && d.hand == handBand {
		s.corner(d.from)
	}
	if d.hand == handCarry && len(d.at) > 1 {
		s.b.pick(d.under)
	}
}

// Dragged carries pieces, draws a band, or pushes the view.
func (s *strip) Dragged(e *fyne.DragEvent) {
	d := s.drag
	if d == nil {
		if _, err := s.b.movables(); err != nil && len(s.b.chosen()) > 0 {
			s.say(err.Error(), true)
		}
		return
	}
	first := !d.moving
	d.moving = true
	switch d.hand {
	case handPush:
		s.push(e.Position.X-d.last.X, e.Position.Y-d.last.Y)
		d.last = e.Position
	case handBand:
		s.stretch(e.Position)
	case handCarry:
		if first {
			s.b.stop() // the lay must not change under the hand
			s.drag = d
			s.lift()
		}
		s.move(e.Position)
	}
}

// lift takes the pieces up, so that they can be carried.
func (s *strip) lift() {
	s.drag.moving = true
	s.drag.faults = faultsAt(s.b.shown, s.drag.at)
	s.redraw()
	s.drawLifted()
}

// liftedEdge is the room round the picture of what is lifted, for its lines.
const liftedEdge = 4

// drawLifted has the picture of the carried pieces drawn: as much of it as can
// come into view.
func (s *strip) drawLifted() {
	k := s.sketch()
	k.only = true
	var items []int
	for i := range s.drag.at {
		items = append(items, i)
	}
	part, edge := boxOf(s.b.shown, items), float64(liftedEdge/s.zoom)
	reach := 2000 / float64(s.zoom)
	part.MinX, part.MaxX = max(part.MinX-edge, s.drag.grab.X-reach), min(part.MaxX+edge, s.drag.grab.X+reach)
	part.MinY, part.MaxY = max(part.MinY-edge, s.drag.grab.Y-reach), min(part.MaxY+edge, s.drag.grab.Y+reach)
	s.lifted.ask(s.framed(k, part))
}

// move carries what is lifted to the pointer and snaps it.
func (s *strip) move(pointer fyne.Position) {
	d := s.drag
	p := s.onCloth(pointer)
	var items []int
	for i := range d.at {
		items = append(items, i)
	}
	want := s.b.shifted(items, p.X-d.grab.X, p.Y-d.grab.Y)
	at, reached := snapAll(s.b.shown, want, min(3, 9/float64(s.zoom)))
	d.at = at
	for i, a := range at {
		was := s.b.shown.Lay.Placements[i]
		d.dx, d.dy = a.X-was.X, a.Y-was.Y
	}
	faults := faultsAt(s.b.shown, d.at)
	changed := len(faults) > 0 != (len(d.faults) > 0)
	d.faults = faults
	s.placeLayers()
	s.tellCarried(reached)
	if changed {
		s.drawLifted()
	}
}

// tellCarried says where what is carried lies, with guides and distances.
func (s *strip) tellCarried(reached []guide) {
	d, p := s.drag, s.b.shown.Prepared.Problem
	box := nothing()
	var items []int
	for i, at := range d.at {
		box = joined(box, layout.Placed(p.Items[i], at).Bounds())
		items = append(items, i)
	}
	s.guides.show(reached, waysFrom(s.b.shown, d.at))
	s.tellHeld(s.onView(geometry.Point{X: box.MinX, Y: box.MaxY}).AddXY(0, 4))
	u := s.b.plan().ShowUnits
	s.say(words("%s, %s from the cut end, %s from the left selvedge", s.b.calledAll(items), length(box.MinX, u), length(box.MinY, u)), false)
}

// stretch draws a band from where it was begun to the pointer.
func (s *strip) stretch(pointer fyne.Position) {
	c := colours()
	s.drag.last = pointer
	from := s.onView(s.drag.from)
	s.band.FillColor, s.band.StrokeColor, s.band.StrokeWidth = translucent(c.woad, 0x22), c.woad, 1.5
	if s.tool == toolFlaw {
		s.band.FillColor, s.band.StrokeColor = translucent(c.madder, 0x33), c.madder
	}
	s.band.Move(fyne.NewPos(min(from.X, pointer.X), min(from.Y, pointer.Y)))
	s.band.Resize(fyne.NewSize(max(from.X, pointer.X)-min(from.X, pointer.X), max(from.Y, pointer.Y)-min(from.Y, pointer.Y)))
	s.band.Show()
	s.band.Refresh()
}

// DragEnd lays pieces down where they were carried to, or picks what the band
// encloses.
func (s *strip) DragEnd() {
	d := s.drag
	if d == nil || !d.moving {
		s.drop()
		return
	}
	switch d.hand {
	case handBand:
		to := s.onCloth(d.last)
		s.drop()
		s.banded(geometry.Rect{MinX: min(d.from.X, to.X), MinY: min(d.from.Y, to.Y), MaxX: max(d.from.X, to.X), MaxY: max(d.from.Y, to.Y)})
	case handCarry:
		s.drop()
		if err := s.b.placeAll("move", d.at); err != nil {
			s.say(err.Error(), true)
		}
		s.redraw()
	default:
		s.drop()
	}
}

// banded does with a part of the cloth what the tool is for.
func (s *strip) banded(part geometry.Rect) {
	if s.b.shown == nil {
		return
	}
	if s.tool == toolFlaw {
		s.useTool(toolPick)
		if err := s.b.markFlaw(part); err != nil {
			s.say(err.Error(), true)
		}
		return
	}
	var ids []string
	for _, i := range itemsIn(s.b.shown, part) {
		ids = append(ids, s.b.shown.Prepared.Problem.Items[i].ID)
	}
	s.b.pickMore(ids...)
}

// drop lets go of what is held, without keeping where it was carried. The
// picture of it stays until the still one shows it.
func (s *strip) drop() {
	s.drag = nil
	s.guides.hide()
	s.band.Hide()
	s.word.Hide()
	s.ground.Hide()
}

// Scrolled pushes the view along the cloth, with Shift across it; with Ctrl it
// zooms about the pointer.
func (s *strip) Scrolled(e *fyne.ScrollEvent) {
	m := modifiers()
	switch {
	case m&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0:
		by := float32(1.15)
		if e.Scrolled.DY < 0 {
			by = 1 / by
		}
		s.zoomBy(by, e.Position)
	case m&fyne.KeyModifierShift != 0:
		s.push(0, e.Scrolled.DX+e.Scrolled.DY)
	default:
		s.push(e.Scrolled.DX+e.Scrolled.DY, 0)
	}
}

// modifiers are the keys held down now.
func modifiers() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// Cursor implements desktop.Cursorable.
func (s *strip) Cursor() desktop.Cursor {
	switch {
	case s.drag.carries():
		return desktop.PointerCursor
	case s.tool != toolPick:
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

func (s *strip) focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
}

// FocusGained and FocusLost implement fyne.Focusable: a line round the strip
// shows that the keys go to it.
func (s *strip) FocusGained() {
	s.keyed = true
	s.focused.StrokeColor = colours().woad
	s.focused.Show()
	s.focused.Refresh()
}

func (s *strip) FocusLost() {
	s.keyed = false
	s.focused.Hide()
}

// TypedRune implements fyne.Focusable; the strip takes keys, not letters.
func (s *strip) TypedRune(rune) {}

// TypedKey works on the pieces picked, or moves the view.
func (s *strip) TypedKey(e *fyne.KeyEvent) {
	step := smallStepCM
	if modifiers()&fyne.KeyModifierShift != 0 {
		step = largeStepCM
	}
	nudge := func(dx, dy float64) { s.try(func() error { return s.b.nudge(dx*step, dy*step) }) }
	switch e.Name {
	case fyne.KeyLeft:
		nudge(-1, 0)
	case fyne.KeyRight:
		nudge(1, 0)
	case fyne.KeyUp:
		nudge(0, -1)
	case fyne.KeyDown:
		nudge(0, 1)
	case fyne.KeyPageUp:
		s.push(s.Size().Width/2, 0)
	case fyne.KeyPageDown:
		s.push(-s.Size().Width/2, 0)
	case fyne.KeyHome:
		s.push(1e6, 0)
	case fyne.KeyEnd:
		s.push(-1e6, 0)
	case fyne.KeyEscape:
		s.escape()
	case fyne.KeyReturn, fyne.KeyEnter:
		if s.tool != toolFlaw {
			s.other(e)
			return
		}
		s.closeOutline()
	default:
		s.other(e)
	}
}

// useTool takes up what dragging on the cloth shall do, and says how.
func (s *strip) useTool(t tool) {
	s.tool = t
	s.outline.corners = nil
	s.outline.show(s)
	if t == toolFlaw {
		s.say(words("Drag a frame round the flaw, or click its corners one by one. Escape gives up; a click on a flaw takes it away."), false)
	}
	if s.toolChanged != nil {
		s.toolChanged()
	}
}

// escape lets go of what is held, then of the tool, then of what is picked.
func (s *strip) escape() {
	switch {
	case s.drag != nil:
		s.drop()
		s.redraw()
	case s.tool != toolPick:
		s.useTool(toolPick)
	default:
		s.b.pick("")
	}
}

// try does something with the pieces picked, or says why it cannot be done.
func (s *strip) try(f func() error) {
	if s.b.picked == "" {
		s.say(words("No piece is picked: click on one, or press N."), true)
		return
	}
	if err := f(); err != nil {
		s.say(err.Error(), true)
	}
}

// pickNext goes from piece to piece.
func (s *strip) pickNext(by int) {
	if s.b.shown == nil {
		return
	}
	items := s.b.shown.Prepared.Problem.Items
	i := s.b.item()
	if i < 0 && by < 0 {
		i = 0
	}
	s.b.pick(items[(i+by+len(items))%len(items)].ID)
}
