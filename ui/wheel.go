package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// wheel lies over an entry of one line and gives the turns of the mouse's wheel on
// to the panel: the entry would keep them to itself, and a panel scrolled with the
// pointer over it would stop at every number. All else goes through to the entry.
type wheel struct {
	widget.BaseWidget
	turned func(*fyne.ScrollEvent) // nil where there is nothing to scroll
}

func newWheel() *wheel {
	w := &wheel{}
	w.ExtendBaseWidget(w)
	return w
}

// Scrolled implements fyne.Scrollable.
func (w *wheel) Scrolled(e *fyne.ScrollEvent) {
	if w.turned != nil {
		w.turned(e)
	}
}

// CreateRenderer implements fyne.Widget: there is nothing to see.
func (w *wheel) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(newGap(0)) }
