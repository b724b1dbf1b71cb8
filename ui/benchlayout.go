package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// benchLayout sets out the window: what is said over everything at the top, below
// it the panels beside the strip, then the reckoning line and the drawer. The
// drawer has the height it wants only where the window has room for it, so that
// opening it never makes a window larger than the screen.
type benchLayout struct {
	top, panels, middle, line, drawer fyne.CanvasObject

	wanted func() float32 // height of the open drawer
}

// objects are those laid out, in the order in which they are drawn.
func (l *benchLayout) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.middle, l.top, l.panels, l.line, l.drawer}
}

// heights are those of the parts that stand over one another, with the drawer as
// low as it can be; 0: it is hidden, and so is the gap over it.
func (l *benchLayout) heights() (top, middle, line, drawer float32) {
	if l.drawer.Visible() {
		drawer = l.drawer.MinSize().Height + theme.Padding()
	}
	middle = max(l.panels.MinSize().Height, l.middle.MinSize().Height) + 2*theme.Padding()
	return l.top.MinSize().Height, middle, l.line.MinSize().Height, drawer
}

// MinSize holds every part at its least.
func (l *benchLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	top, middle, line, drawer := l.heights()
	wide := l.panels.MinSize().Width + theme.Padding() + l.middle.MinSize().Width
	for _, o := range []fyne.CanvasObject{l.top, l.line, l.drawer} {
		if o.Visible() {
			wide = max(wide, o.MinSize().Width)
		}
	}
	return fyne.NewSize(wide, top+middle+line+drawer)
}

// Layout gives the strip and the panels what the others leave.
func (l *benchLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	top, middle, line, drawer := l.heights()
	if drawer > 0 {
		spare := size.Height - top - middle - line - drawer
		drawer += max(0, min(spare, l.wanted()+theme.Padding()-drawer))
	}
	middle = size.Height - top - line - drawer - 2*theme.Padding()
	place := func(o fyne.CanvasObject, x, y, wide, high float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(wide, high))
	}
	place(l.top, 0, 0, size.Width, top)
	y := top + theme.Padding()
	panels := l.panels.MinSize().Width
	place(l.panels, 0, y, panels, middle)
	place(l.middle, panels+theme.Padding(), y, size.Width-panels-theme.Padding(), middle)
	y += middle + theme.Padding()
	place(l.line, 0, y, size.Width, line)
	if drawer > 0 {
		place(l.drawer, 0, y+line+theme.Padding(), size.Width, drawer-theme.Padding())
	}
}
