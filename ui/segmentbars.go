package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// barSegment is one part of a bar, in the bar's own unit.
type barSegment struct {
	label  string
	amount float64
	colour fyne.ThemeColorName
}

// barRow is one bar: its name and value above, its parts side by side, and
// their labels below. mark is where what is needed ends; 0 for none.
type barRow struct {
	name, value string
	full        float64 // what the whole width stands for
	segments    []barSegment
	mark        float64
	linked      bool // lines lead down from the bar above, as one amount becomes the next
}

// segmentBars is bars one under the other.
type segmentBars struct {
	widget.BaseWidget
	rows []barRow
}

func newSegmentBars() *segmentBars {
	s := &segmentBars{}
	s.ExtendBaseWidget(s)
	return s
}

func (s *segmentBars) show(rows []barRow) {
	s.rows = rows
	s.Refresh()
}

// bars adds a picture that follows the plan and its result.
func (f *form) bars(rows func() []barRow) {
	bars := newSegmentBars()
	bars.show(rows())
	f.live = append(f.live, func() {
		before := bars.MinSize()
		if bars.show(rows()); bars.MinSize() != before {
			f.box.Refresh()
		}
	})
	f.add(bars)
}

// CreateRenderer implements fyne.Widget.
func (s *segmentBars) CreateRenderer() fyne.WidgetRenderer {
	r := &segmentBarsRenderer{s: s}
	r.Refresh()
	return r
}

type segmentBarsRenderer struct {
	s       *segmentBars
	objects []fyne.CanvasObject
	height  float32
}

const (
	segmentHeight = 11
	segmentGap    = 9
	swatch        = 8
)

func (r *segmentBarsRenderer) MinSize() fyne.Size { return fyne.NewSize(panelWidth, r.height) }

// Refresh draws all anew: there are seldom more than a few dozen bars.
func (r *segmentBarsRenderer) Refresh() {
	r.objects = nil
	y, end := float32(0), float32(0)
	for i, row := range r.s.rows {
		y = r.row(y, row, end)
		end = width(row)
		if i == len(r.s.rows)-1 {
			end = 0
		}
	}
	r.height = y
	canvas.Refresh(r.s)
}

// width is how far a row's segments reach.
func width(row barRow) float32 {
	sum := 0.0
	for _, s := range row.segments {
		sum += s.amount
	}
	return along(sum, row.full)
}

func along(amount, full float64) float32 {
	if !(full > 0) {
		return 0
	}
	return float32(min(1, amount/full) * panelWidth)
}

func (r *segmentBarsRenderer) text(line string, x, y float32) float32 {
	t := canvas.NewText(line, theme.Color(theme.ColorNameForeground))
	t.TextSize = textSize()
	t.Move(fyne.NewPos(x, y))
	t.Resize(t.MinSize())
	r.objects = append(r.objects, t)
	return t.MinSize().Width
}

func (r *segmentBarsRenderer) box(colour fyne.ThemeColorName, x, y, wide, high float32) {
	b := canvas.NewRectangle(theme.Color(colour))
	b.Move(fyne.NewPos(x, y))
	b.Resize(fyne.NewSize(wide, high))
	r.objects = append(r.objects, b)
}

// row draws one bar at y and says where the next begins. endAbove is how far
// the bar above reaches.
func (r *segmentBarsRenderer) row(y float32, row barRow, endAbove float32) float32 {
	valueWidth := fyne.MeasureText(row.value, textSize(), fyne.TextStyle{}).Width
	for i, line := range broken(row.name, panelWidth-valueWidth-10, textSize(), fyne.TextStyle{}) {
		r.text(line, 0, y)
		if i == 0 {
			r.text(row.value, panelWidth-valueWidth, y)
		}
		y += lineHeight()
	}
	if row.linked && endAbove > 0 {
		from, to := y-lineHeight()-segmentGap, y-lineHeight()
		for _, x := range [][2]float32{{0, 0}, {endAbove, width(row)}} {
			l := canvas.NewLine(theme.Color(theme.ColorNameInputBorder))
			l.Position1, l.Position2 = fyne.NewPos(x[0], from), fyne.NewPos(x[1], to)
			r.objects = append(r.objects, l)
		}
	}
	r.box(theme.ColorNameButton, 0, y, panelWidth, segmentHeight)
	x := float32(0)
	for _, s := range row.segments {
		if wide := along(s.amount, row.full); wide > 0 {
			r.box(s.colour, x, y, max(1, wide-1), segmentHeight)
			x += wide
		}
	}
	if row.mark > 0 {
		r.box(theme.ColorNameForeground, min(panelWidth-2, along(row.mark, row.full)), y-3, 2, segmentHeight+6)
	}
	return r.legend(y+segmentHeight+2, row) + segmentGap
}

// legend names the segments in their order, each beside its colour.
func (r *segmentBarsRenderer) legend(y float32, row barRow) float32 {
	x, any := float32(0), false
	for _, s := range row.segments {
		if s.label == "" || !(s.amount > 0) {
			continue
		}
		wide := fyne.MeasureText(s.label, textSize(), fyne.TextStyle{}).Width + swatch + 4
		if any && x+wide > panelWidth {
			x, y = 0, y+lineHeight()
		}
		r.box(s.colour, x, y+(lineHeight()-swatch)/2, swatch, swatch)
		r.text(s.label, x+swatch+4, y)
		x, any = x+wide+10, true
	}
	if any {
		y += lineHeight()
	}
	return y
}

func (r *segmentBarsRenderer) Layout(fyne.Size)             {}
func (r *segmentBarsRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *segmentBarsRenderer) Destroy()                     {}
