package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// cellEntry is one value of the table: Enter and leaving it take what was typed,
// Escape takes it back.
type cellEntry struct {
	widget.Entry
	get func() string
	set func(string) error
	was string
}

func newCellEntry(get func() string, set func(string) error) *cellEntry {
	c := &cellEntry{get: get, set: set}
	c.ExtendBaseWidget(c)
	c.OnSubmitted = func(string) { c.commit() }
	c.sync()
	return c
}

func (c *cellEntry) sync() {
	c.was = c.get()
	if c.Text != c.was {
		c.SetText(c.was)
	}
}

func (c *cellEntry) commit() {
	text := strings.TrimSpace(c.Text)
	if text == c.was {
		return
	}
	if c.set(text) != nil {
		c.SetText(c.was)
	}
}

// FocusLost implements fyne.Focusable.
func (c *cellEntry) FocusLost() {
	c.Entry.FocusLost()
	c.commit()
}

// TypedKey implements fyne.Focusable.
func (c *cellEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		c.SetText(c.was)
		return
	}
	c.Entry.TypedKey(k)
}

// columns is a row of a name and four numbers.
type columns struct{}

func (columns) Layout(objects []fyne.CanvasObject, _ fyne.Size) {
	x := float32(0)
	for i, o := range objects {
		w := float32(88)
		if i == 0 {
			w = 134
		}
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w-4, o.MinSize().Height))
		x += w
	}
}

func (columns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	high := float32(0)
	for _, o := range objects {
		high = max(high, o.MinSize().Height)
	}
	return fyne.NewSize(134+4*88, high)
}
