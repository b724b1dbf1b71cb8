package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// A name that is typed and left by Tab builds its panel anew: the key has then
// chosen the next field of the panel that is gone. What would be typed there is
// seen by nobody, so each field that is gone knows the one in its place.

// inherit tells the fields of a form that is gone which of the new form stand in
// their place: the same number, where there are as many, else the same path.
func inherit(gone, now *form) {
	for i, f := range gone.fields {
		if len(gone.fields) == len(now.fields) {
			f.heir = now.fields[i]
			continue
		}
		for _, n := range now.fields {
			if n.spec.path == f.spec.path {
				f.heir = n
			}
		}
	}
}

// fieldChoice is the drop-down list of a field, and fieldCheck its tick.
type (
	fieldChoice struct {
		widget.Select
		field *field
	}
	fieldCheck struct {
		widget.Check
		field *field
	}
)

func newFieldChoice(f *field, changed func(string)) *fieldChoice {
	c := &fieldChoice{field: f}
	c.PlaceHolder, c.OnChanged = widget.NewSelect(nil, nil).PlaceHolder, changed
	c.ExtendBaseWidget(c)
	return c
}

func newFieldCheck(f *field, changed func(bool)) *fieldCheck {
	c := &fieldCheck{field: f}
	c.OnChanged = changed
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained implements fyne.Focusable.
func (c *fieldChoice) FocusGained() {
	if !c.field.handOn(c) {
		c.Select.FocusGained()
	}
}

// FocusGained implements fyne.Focusable.
func (c *fieldCheck) FocusGained() {
	if !c.field.handOn(c) {
		c.Check.FocusGained()
	}
}

// FocusGained implements fyne.Focusable.
func (e *fieldEntry) FocusGained() {
	if !e.field.handOn(e) {
		e.Entry.FocusGained()
	}
}

// handOn gives the focus to the control in place of this one, which is asked for
// on the canvas that from is on; false where the field is not gone, or nothing
// stands in its place.
func (f *field) handOn(from fyne.CanvasObject) bool {
	heir := f.heir
	for heir != nil && heir.heir != nil {
		heir = heir.heir
	}
	if heir == nil {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(from)
	if c == nil {
		return false
	}
	c.Focus(heir.control())
	return true
}

// control is what the field is set by.
func (f *field) control() interface {
	fyne.CanvasObject
	fyne.Focusable
} {
	switch {
	case f.check != nil:
		return f.check
	case f.choice != nil:
		return f.choice
	default:
		return f.entry
	}
}
