package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
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

// MouseDown picks the piece under the pointer.
func (s *strip) MouseDown(e *desktop.MouseEvent) {
	s.focus()
	s.drag = nil
	if s.b.shown == nil || e.Button == desktop.MouseButtonSecondary {
		return
	}
	item := -1
	if e.Button == desktop.MouseButtonPrimary {
		item = itemAt(s.b.shown, s.onCloth(e.Position))
	}
	s.drag = &dragging{item: -1, last: e.Position}
	if item < 0 {
		if e.Button == desktop.MouseButtonPrimary {
			s.b.pick("")
		}
		return
	}
	s.b.pick(s.b.shown.Prepared.Problem.Items[item].ID)
	if _, err := s.b.movable(item); err != nil {
		s.drag = nil
		if s.b.shown.Prepared.Problem.Items[item].Pinned == nil {
			s.say(err.Error(), true)
		}
		return
	}
	s.drag.item = item
}

// MouseUp lets go; where a piece was carried, Dragged and DragEnd have done all.
func (s *strip) MouseUp(*desktop.MouseEvent) {
	if s.drag != nil && !s.lifted.Visible() {
		s.drag = nil
	}
}

// Dragged carries the piece, or pushes the view.
func (s *strip) Dragged(e *fyne.DragEvent) {
	d := s.drag
	switch {
	case d == nil:
		if i := s.b.item(); i >= 0 {
			if _, err := s.b.movable(i); err != nil {
				s.say(err.Error(), true)
			}
		}
	case d.item < 0:
		s.push(e.Position.X-d.last.X, e.Position.Y-d.last.Y)
		d.last = e.Position
	default:
		if !s.lifted.Visible() {
			s.b.stop() // the lay must not change under the hand
			s.drag = d
			s.lift(d.item, e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY))
		}
		s.move(e.Position)
	}
}

// DragEnd lays the piece down where it was carried to.
func (s *strip) DragEnd() {
	d := s.drag
	s.drop()
	if d == nil || d.item < 0 {
		return
	}
	if err := s.b.place("move", d.item, d.at); err != nil {
		s.say(err.Error(), true)
	}
	s.base.Refresh()
}

// Scrolled pushes the view along the cloth; with Ctrl it zooms.
func (s *strip) Scrolled(e *fyne.ScrollEvent) {
	if modifiers()&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0 {
		by := float32(1.15)
		if e.Scrolled.DY < 0 {
			by = 1 / by
		}
		s.zoomBy(by, e.Position)
		return
	}
	s.push(e.Scrolled.DX+e.Scrolled.DY, 0)
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
	if s.lifted.Visible() {
		return desktop.PointerCursor
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
func (s *strip) FocusGained() { s.keyed = true; s.base.Refresh() }
func (s *strip) FocusLost()   { s.keyed = false; s.base.Refresh() }

// TypedRune implements fyne.Focusable; the strip takes keys, not letters.
func (s *strip) TypedRune(rune) {}

// TypedKey works on the piece picked.
func (s *strip) TypedKey(e *fyne.KeyEvent) {
	step := smallStepCM
	if modifiers()&fyne.KeyModifierShift != 0 {
		step = largeStepCM
	}
	switch e.Name {
	case fyne.KeyR:
		s.try(s.b.turn)
	case fyne.KeyF:
		s.try(s.b.flip)
	case fyne.KeyP:
		s.try(s.b.pin)
	case fyne.KeyLeft:
		s.try(func() error { return s.b.nudge(-step, 0) })
	case fyne.KeyRight:
		s.try(func() error { return s.b.nudge(step, 0) })
	case fyne.KeyUp:
		s.try(func() error { return s.b.nudge(0, -step) })
	case fyne.KeyDown:
		s.try(func() error { return s.b.nudge(0, step) })
	case fyne.KeyN:
		s.pickNext(1)
	case fyne.KeyB:
		s.pickNext(-1)
	case fyne.KeyEscape:
		s.drop()
		s.b.pick("")
		s.base.Refresh()
	}
}

// try does something with the piece picked, or says why it cannot be done.
func (s *strip) try(f func() error) {
	if s.b.picked == "" {
		s.say("No piece is picked: click on one, or press N.", true)
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
