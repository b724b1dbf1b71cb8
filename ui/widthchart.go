package ui

import (
	"image/color"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// measure is one of the things that the chart can show over the width.
type measure struct {
	name string
	of   func(r plan.WidthRow, units string) float64
	say  func(v float64) string
}

func chartMeasures() []measure {
	grams := func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) + " g" }
	return []measure{
		{"cloth area", func(r plan.WidthRow, _ string) float64 { return r.AreaCM2 / 1e4 }, func(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) + " m²" }},
		{"cloth length", func(r plan.WidthRow, u string) float64 { return inUnits(r.LengthCM, u) }, func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }},
		{"yarn with waste", func(r plan.WidthRow, _ string) float64 { return r.MassG }, grams},
		{"number of warps", func(r plan.WidthRow, _ string) float64 { return float64(r.Warps) }, func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }},
	}
}

func inUnits(cm float64, units string) float64 {
	if units == "inch" {
		return cm / cmPerInch
	}
	return cm
}

// widthChart draws the width study: a point for every width, round where the
// plan can be made and crossed where it cannot. A click on one, or the arrow keys
// and Enter, picks its width.
type widthChart struct {
	widget.BaseWidget
	t       *widthTable
	measure measure
	at      int // the point spoken of; -1: none
	keyed   bool
	objects []fyne.CanvasObject
}

var (
	_ fyne.Focusable    = (*widthChart)(nil)
	_ fyne.Tappable     = (*widthChart)(nil)
	_ desktop.Hoverable = (*widthChart)(nil)
)

func newWidthChart(t *widthTable) *widthChart {
	c := &widthChart{t: t, measure: chartMeasures()[0], at: -1}
	c.ExtendBaseWidget(c)
	return c
}

// Room round the chart for its figures, in the window's units.
const (
	chartLeft  = 64
	chartRight = 16
	chartTop   = 24
	chartFoot  = 22
)

// frame is the chart's scale: what its sides stand for.
type chartFrame struct {
	size                   fyne.Size
	fromX, toX, fromY, toY float64
}

func (c *widthChart) frame() chartFrame {
	f := chartFrame{size: c.Size(), fromX: math.Inf(1), toX: math.Inf(-1), fromY: math.Inf(1), toY: math.Inf(-1)}
	u := c.t.b.plan().ShowUnits
	for _, r := range c.t.rows {
		x, y := inUnits(r.WidthCM, u), c.measure.of(r, u)
		f.fromX, f.toX = min(f.fromX, x), max(f.toX, x)
		f.fromY, f.toY = min(f.fromY, y), max(f.toY, y)
	}
	if now := inUnits(c.nowCM(), u); now > 0 {
		f.fromX, f.toX = min(f.fromX, now), max(f.toX, now)
	}
	if f.toX-f.fromX < 1e-9 {
		f.fromX, f.toX = f.fromX-1, f.toX+1
	}
	pad := max((f.toY-f.fromY)*0.12, math.Abs(f.toY)*0.01, 0.1)
	f.fromY, f.toY = f.fromY-pad, f.toY+pad
	return f
}

func (f chartFrame) at(x, y float64) fyne.Position {
	wide, high := float64(f.size.Width)-chartLeft-chartRight, float64(f.size.Height)-chartTop-chartFoot
	return fyne.NewPos(float32(chartLeft+(x-f.fromX)/(f.toX-f.fromX)*wide), float32(chartTop+(1-(y-f.fromY)/(f.toY-f.fromY))*high))
}

// nowCM is the width that the cloth is to have at present.
func (c *widthChart) nowCM() float64 {
	if w := c.t.b.plan().Cloth.FinishedWidthCM; w > 0 {
		return w
	}
	if c.t.b.shown != nil {
		return c.t.b.shown.Lay.WidthCM
	}
	return 0
}

// point is where the chart shows a row.
func (c *widthChart) point(f chartFrame, i int) fyne.Position {
	r, u := c.t.rows[i], c.t.b.plan().ShowUnits
	return f.at(inUnits(r.WidthCM, u), c.measure.of(r, u))
}

// nearest is the row whose point stands nearest to a place, along the width.
func (c *widthChart) nearest(p fyne.Position) int {
	best, least := -1, float32(math.Inf(1))
	f := c.frame()
	for i := range c.t.rows {
		at := c.point(f, i)
		if d := abs(at.X-p.X) + abs(at.Y-p.Y)/20; d < least {
			best, least = i, d
		}
	}
	return best
}

func (c *widthChart) speakOf(i int) {
	if c.at != i {
		c.at = i
		c.Refresh()
	}
}

// Tapped picks the width of the nearest point.
func (c *widthChart) Tapped(e *fyne.PointEvent) {
	if k := fyne.CurrentApp().Driver().CanvasForObject(c); k != nil {
		k.Focus(c)
	}
	c.speakOf(c.nearest(e.Position))
	c.t.pick(c.at)
}

// MouseIn, MouseMoved and MouseOut implement desktop.Hoverable.
func (c *widthChart) MouseIn(e *desktop.MouseEvent)    { c.speakOf(c.nearest(e.Position)) }
func (c *widthChart) MouseMoved(e *desktop.MouseEvent) { c.speakOf(c.nearest(e.Position)) }
func (c *widthChart) MouseOut()                        {}

// FocusGained, FocusLost and TypedRune implement fyne.Focusable.
func (c *widthChart) FocusGained() {
	c.keyed = true
	if c.at < 0 {
		c.at = c.rowOfNow()
	}
	c.Refresh()
}
func (c *widthChart) FocusLost()     { c.keyed = false; c.Refresh() }
func (c *widthChart) TypedRune(rune) {}

func (c *widthChart) rowOfNow() int {
	best := -1
	for i, r := range c.t.rows {
		if best < 0 || math.Abs(r.WidthCM-c.nowCM()) < math.Abs(c.t.rows[best].WidthCM-c.nowCM()) {
			best = i
		}
	}
	return best
}

// TypedKey goes from point to point; Enter or Space picks one.
func (c *widthChart) TypedKey(e *fyne.KeyEvent) {
	last := len(c.t.rows) - 1
	switch e.Name {
	case fyne.KeyLeft:
		c.speakOf(max(0, c.at-1))
	case fyne.KeyRight:
		c.speakOf(min(last, c.at+1))
	case fyne.KeyHome:
		c.speakOf(min(last, 0))
	case fyne.KeyEnd:
		c.speakOf(last)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		c.t.pick(c.at)
	}
}

// sentence is the point spoken of, in words.
func (c *widthChart) sentence() string {
	if c.at < 0 || c.at >= len(c.t.rows) {
		return words("Each point is a width that the loom can weave: click on one, or go with the arrow keys and press Enter.")
	}
	r, u := c.t.rows[c.at], c.t.b.plan().ShowUnits
	text := words("%s wide: %s long, %.2f m² of cloth, %.0f g of yarn with waste, %d warp(s)", length(r.WidthCM, u), length(r.LengthCM, u), r.AreaCM2/1e4, r.MassG, r.Warps)
	if r.ProvedShortest() {
		text += words(", proved the shortest")
	} else {
		text += words(", no lay below %s", length(r.LowerBoundCM, u))
	}
	switch {
	case !r.Fits:
		return text + ". ! " + r.Why
	case r.WidthCM == c.t.narrowest:
		return text + words(". The narrowest that fits.")
	}
	return text + words(". It fits.")
}

// CreateRenderer implements fyne.Widget.
func (c *widthChart) CreateRenderer() fyne.WidgetRenderer {
	r := &chartRenderer{c}
	r.Refresh()
	return r
}

type chartRenderer struct{ c *widthChart }

func (r *chartRenderer) Layout(fyne.Size)             { r.c.draw() }
func (r *chartRenderer) MinSize() fyne.Size           { return fyne.NewSize(260, 120) }
func (r *chartRenderer) Refresh()                     { r.c.draw(); canvas.Refresh(r.c) }
func (r *chartRenderer) Objects() []fyne.CanvasObject { return r.c.objects }
func (r *chartRenderer) Destroy()                     {}

// draw makes all that the chart is of: there are seldom more than a few hundred
// lines and points.
func (c *widthChart) draw() {
	p := colours()
	c.objects = nil
	ground := canvas.NewRectangle(p.field)
	ground.Resize(c.Size())
	ground.StrokeColor, ground.StrokeWidth = p.border, 1
	if c.keyed {
		ground.StrokeColor, ground.StrokeWidth = p.woad, 2.5
	}
	c.objects = append(c.objects, ground)
	c.write(c.sentence(), 8, 3, p.text, fyne.TextAlignLeading)
	if len(c.t.rows) == 0 || c.Size().Width < 100 {
		return
	}
	f := c.frame()
	c.axes(f, p)
	now := f.at(inUnits(c.nowCM(), c.t.b.plan().ShowUnits), f.fromY)
	c.line(fyne.NewPos(now.X, chartTop), now, p.woad, 1.5)
	c.write(words("in the plan"), now.X+4, chartTop, p.woad, fyne.TextAlignLeading)
	for i := 1; i < len(c.t.rows); i++ {
		c.line(c.point(f, i-1), c.point(f, i), p.border, 1)
	}
	for i := range c.t.rows {
		c.mark(f, i, p)
	}
}

// mark is the point of one row: a disc where it fits, a cross where it does not,
// and a ring round the one spoken of.
func (c *widthChart) mark(f chartFrame, i int, p palette) {
	at := c.point(f, i)
	if c.t.rows[i].Fits {
		dot := canvas.NewCircle(p.green)
		dot.Resize(fyne.NewSize(8, 8))
		dot.Move(at.SubtractXY(4, 4))
		c.objects = append(c.objects, dot)
	} else {
		c.line(at.AddXY(-4, -4), at.AddXY(4, 4), p.madder, 2)
		c.line(at.AddXY(-4, 4), at.AddXY(4, -4), p.madder, 2)
	}
	if i == c.at || c.t.rows[i].WidthCM == c.t.narrowest {
		ring := canvas.NewCircle(color.Transparent)
		ring.StrokeColor, ring.StrokeWidth = p.text, 1
		if i == c.at {
			ring.StrokeColor, ring.StrokeWidth = p.woad, 2.5
		}
		ring.Resize(fyne.NewSize(16, 16))
		ring.Move(at.SubtractXY(8, 8))
		c.objects = append(c.objects, ring)
	}
}

// axes are the lines of round figures along both sides.
func (c *widthChart) axes(f chartFrame, p palette) {
	wide, high := float64(f.size.Width)-chartLeft-chartRight, float64(f.size.Height)-chartTop-chartFoot
	name := " cm"
	if c.t.b.plan().ShowUnits == "inch" {
		name = " in"
	}
	step := rulerStep(wide/(f.toX-f.fromX), 70)
	for x := math.Ceil(f.fromX/step) * step; x <= f.toX; x += step {
		at := f.at(x, f.fromY)
		c.line(fyne.NewPos(at.X, chartTop), at, p.line, 1)
		c.write(plainNumber(x)+name, at.X, at.Y+3, p.text, fyne.TextAlignCenter)
	}
	step = rulerStep(high/(f.toY-f.fromY), 24)
	if c.measure.name == "number of warps" {
		step = max(1, step)
	}
	for y := math.Ceil(f.fromY/step) * step; y <= f.toY; y += step {
		at := f.at(f.fromX, y)
		c.line(at, fyne.NewPos(f.size.Width-chartRight, at.Y), p.line, 1)
		c.write(c.measure.say(y), chartLeft-6, at.Y-8, p.text, fyne.TextAlignTrailing)
	}
}

func (c *widthChart) line(from, to fyne.Position, colour color.Color, wide float32) {
	l := canvas.NewLine(colour)
	l.StrokeWidth, l.Position1, l.Position2 = wide, from, to
	c.objects = append(c.objects, l)
}

func (c *widthChart) write(text string, x, y float32, colour color.Color, align fyne.TextAlign) {
	t := canvas.NewText(text, colour)
	t.TextSize = theme.CaptionTextSize()
	size := t.MinSize()
	switch align {
	case fyne.TextAlignCenter:
		x -= size.Width / 2
	case fyne.TextAlignTrailing:
		x -= size.Width
	}
	t.Move(fyne.NewPos(x, y))
	t.Resize(size)
	c.objects = append(c.objects, t)
}
