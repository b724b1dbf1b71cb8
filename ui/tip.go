package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// tipLayer lies over the window and takes no clicks: a sentence beside the
// button that the pointer or the focus is on.
type tipLayer struct {
	root   *fyne.Container
	ground *canvas.Rectangle
	word   *canvas.Text
}

func newTipLayer() *tipLayer {
	l := &tipLayer{ground: canvas.NewRectangle(nil), word: canvas.NewText("", nil)}
	l.ground.CornerRadius, l.ground.StrokeWidth = 3, 1
	l.root = container.NewWithoutLayout(l.ground, l.word)
	l.hide()
	return l
}

func (l *tipLayer) hide() {
	l.ground.Hide()
	l.word.Hide()
}

// show says a text under an object.
func (l *tipLayer) show(text string, under fyne.CanvasObject) {
	if text == "" {
		return
	}
	l.word.Text, l.word.TextSize, l.word.Color = text, theme.TextSize(), theme.Color(theme.ColorNameForeground)
	l.ground.FillColor, l.ground.StrokeColor = theme.Color(theme.ColorNameInputBackground), theme.Color(theme.ColorNameInputBorder)
	d := fyne.CurrentApp().Driver()
	at := d.AbsolutePositionForObject(under).Subtract(d.AbsolutePositionForObject(l.root))
	size := l.word.MinSize()
	x := clamp(at.X, 2, max(2, l.root.Size().Width-size.Width-14))
	y := at.Y + under.Size().Height + 3
	l.ground.Move(fyne.NewPos(x, y))
	l.ground.Resize(size.AddWidthHeight(12, 4))
	l.word.Move(fyne.NewPos(x+6, y+2))
	l.word.Resize(size)
	l.ground.Show()
	l.word.Show()
	l.word.Refresh()
	l.ground.Refresh()
}

// tipButton is a button that says more of itself while the pointer or the focus
// is on it.
type tipButton struct {
	widget.Button
	layer *tipLayer
	tip   func() string
}

func newTipButton(layer *tipLayer, text string, icon fyne.Resource, tip func() string, tapped func()) *tipButton {
	b := &tipButton{layer: layer, tip: tip}
	b.Text, b.Icon, b.OnTapped = words(text), icon, func() { layer.hide(); tapped() }
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn implements desktop.Hoverable.
func (b *tipButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.layer.show(b.tip(), b)
}

// MouseOut implements desktop.Hoverable.
func (b *tipButton) MouseOut() {
	b.Button.MouseOut()
	b.layer.hide()
}

// FocusGained implements fyne.Focusable.
func (b *tipButton) FocusGained() {
	b.Button.FocusGained()
	b.layer.show(b.tip(), b)
}

// FocusLost implements fyne.Focusable.
func (b *tipButton) FocusLost() {
	b.Button.FocusLost()
	b.layer.hide()
}
