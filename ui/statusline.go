package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// statusLine says one thing in the height of a line of entries, so that nothing
// moves when it says more: what is too long for one line stands in small letters
// on two.
type statusLine struct {
	widget.BaseWidget
	Text  string
	wrong bool
}

func newStatusLine() *statusLine {
	s := &statusLine{}
	s.ExtendBaseWidget(s)
	return s
}

func (s *statusLine) say(text string, wrong bool) {
	s.Text, s.wrong = text, wrong
	s.Refresh()
}

// lines is the text as it is broken in that width, and the size of its letters.
func (s *statusLine) lines(width float32) ([]string, float32) {
	size := theme.TextSize()
	if fyne.MeasureText(s.Text, size, fyne.TextStyle{}).Width <= width {
		return []string{s.Text}, size
	}
	size = theme.CaptionTextSize()
	all := broken(s.Text, max(width, size), size, fyne.TextStyle{})
	if len(all) > 2 {
		all = append(all[:1], all[1]+" …")
	}
	return all, size
}

// CreateRenderer implements fyne.Widget.
func (s *statusLine) CreateRenderer() fyne.WidgetRenderer {
	return &statusRenderer{s: s, rows: [2]*canvas.Text{canvas.NewText("", nil), canvas.NewText("", nil)}}
}

type statusRenderer struct {
	s    *statusLine
	rows [2]*canvas.Text
}

func (r *statusRenderer) Layout(size fyne.Size) {
	pad := theme.InnerPadding()
	lines, letters := r.s.lines(size.Width - 2*pad)
	colour := theme.Color(theme.ColorNameForeground)
	if r.s.wrong {
		colour = theme.Color(theme.ColorNameError)
	}
	for i, row := range r.rows {
		row.Text, row.TextSize, row.Color = "", letters, colour
		if i < len(lines) {
			row.Text = lines[i]
		}
		h := fyne.MeasureText("x", letters, fyne.TextStyle{}).Height
		row.Resize(fyne.NewSize(size.Width-2*pad, h))
		row.Move(fyne.NewPos(pad, (size.Height-h*float32(len(lines)))/2+h*float32(i)))
	}
}

func (r *statusRenderer) MinSize() fyne.Size {
	return fyne.NewSize(120, theme.TextSize()+2*theme.InnerPadding())
}

func (r *statusRenderer) Refresh() { r.Layout(r.s.Size()); canvas.Refresh(r.s) }
func (r *statusRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.rows[0], r.rows[1]}
}
func (r *statusRenderer) Destroy() {}
