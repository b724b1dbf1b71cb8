package ui

import "fyne.io/fyne/v2"

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

// FocusGained implements fyne.Focusable.
func (e *fieldEntry) FocusGained() {
	if !e.handOn() {
		e.Entry.FocusGained()
	}
}

// handOn gives the focus to the entry in place of this one; false where this one
// is not gone, or nothing stands in its place.
func (e *fieldEntry) handOn() bool {
	heir := e.field.heir
	for heir != nil && heir.heir != nil {
		heir = heir.heir
	}
	if heir == nil || heir.entry == nil {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(e)
	if c == nil {
		return false
	}
	c.Focus(heir.entry)
	return true
}
