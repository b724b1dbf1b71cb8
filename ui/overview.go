package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"ellwand/geometry"
)

// overviewHeight is that of the overview, in the window's units.
const overviewHeight = 40

// overview is all of the cloth, small, with a frame round the part that the
// strip shows. Dragging or clicking in it, or the arrow keys, move that part.
type overview struct {
	widget.BaseWidget
	s      *strip
	layer  *layer
	ground *canvas.Rectangle
	frame  *canvas.Rectangle
	keyed  bool
	grab   fyne.Position // from the frame's middle to the pointer
}

var (
	_ fyne.Focusable     = (*overview)(nil)
	_ fyne.Draggable     = (*overview)(nil)
	_ desktop.Mouseable  = (*overview)(nil)
	_ desktop.Cursorable = (*overview)(nil)
)

func newOverview(s *strip) *overview {
	o := &overview{s: s, layer: newLayer(s.b), ground: canvas.NewRectangle(nil), frame: canvas.NewRectangle(nil)}
	o.layer.ready = o.place
	o.ExtendBaseWidget(o)
	s.viewed = append(s.viewed, o.place)
	s.b.onChange(func(t topic) {
		if t == resultChanged || t == pickChanged {
			o.draw()
		}
	})
	return o
}

// scale is the units of the window to a cm, and where the cloth begins.
func (o *overview) scale() (zoom float32, origin fyne.Position) {
	l, w := o.s.cloth()
	size := o.Size()
	if l <= 0 || w <= 0 || size.Width < 20 {
		return 0, fyne.Position{}
	}
	zoom = min((size.Width-2*leftBand)/float32(l), (size.Height-8)/float32(w))
	return zoom, fyne.NewPos((size.Width-float32(l)*zoom)/2, (size.Height-float32(w)*zoom)/2)
}

// draw has the small picture drawn anew.
func (o *overview) draw() {
	zoom, _ := o.scale()
	if zoom <= 0 {
		return
	}
	k := o.s.sketch()
	k.plain, k.away = true, map[int]bool{}
	k.perCM = float64(zoom) * k.px
	edge := 4 * k.px / k.perCM
	k.corner = geometry.Point{X: -edge, Y: -edge}
	k.w, k.h = int((k.lengthCM+2*edge)*k.perCM)+1, int((k.widthCM+2*edge)*k.perCM)+1
	o.layer.ask(k)
}

// place puts picture and frame where they belong.
func (o *overview) place() {
	c := colours()
	o.ground.FillColor = c.raised
	o.frame.StrokeColor, o.frame.FillColor, o.frame.StrokeWidth = c.woad, translucent(c.woad, 0x30), 2
	if o.keyed {
		o.frame.StrokeWidth = 4
	}
	zoom, origin := o.scale()
	if zoom <= 0 {
		return
	}
	at := o.layer.of.corner
	o.layer.put(origin.AddXY(float32(at.X)*zoom, float32(at.Y)*zoom), zoom)
	r := o.s.inSight()
	from := origin.AddXY(float32(r.MinX)*zoom, float32(r.MinY)*zoom)
	o.frame.Move(from.SubtractXY(2, 2))
	o.frame.Resize(fyne.NewSize(float32(r.Width())*zoom+4, float32(r.Height())*zoom+4))
	o.frame.Refresh()
}

// onCloth is a place in the overview on the cloth.
func (o *overview) onCloth(p fyne.Position) geometry.Point {
	zoom, origin := o.scale()
	if zoom <= 0 {
		return geometry.Point{}
	}
	return geometry.Point{X: float64((p.X - origin.X) / zoom), Y: float64((p.Y - origin.Y) / zoom)}
}

// MouseDown takes hold of the frame, or brings it to the pointer.
func (o *overview) MouseDown(e *desktop.MouseEvent) {
	middle := o.frame.Position().AddXY(o.frame.Size().Width/2, o.frame.Size().Height/2)
	o.grab = e.Position.Subtract(middle)
	if abs(o.grab.X) > o.frame.Size().Width/2 || abs(o.grab.Y) > o.frame.Size().Height/2 {
		o.grab = fyne.Position{}
		o.s.centre(o.onCloth(e.Position))
	}
}

func abs(v float32) float32 { return max(v, -v) }

// MouseUp implements desktop.Mouseable.
func (o *overview) MouseUp(*desktop.MouseEvent) {}

// Dragged moves the part that the strip shows.
func (o *overview) Dragged(e *fyne.DragEvent) { o.s.centre(o.onCloth(e.Position.Subtract(o.grab))) }

// DragEnd implements fyne.Draggable.
func (o *overview) DragEnd() {}

// Cursor implements desktop.Cursorable.
func (o *overview) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained, FocusLost and TypedRune implement fyne.Focusable.
func (o *overview) FocusGained()   { o.keyed = true; o.place() }
func (o *overview) FocusLost()     { o.keyed = false; o.place() }
func (o *overview) TypedRune(rune) {}

// TypedKey moves the part that the strip shows by a quarter of it.
func (o *overview) TypedKey(e *fyne.KeyEvent) {
	step := o.s.Size().Width / 4
	switch e.Name {
	case fyne.KeyLeft:
		o.s.push(step, 0)
	case fyne.KeyRight:
		o.s.push(-step, 0)
	case fyne.KeyUp:
		o.s.push(0, step)
	case fyne.KeyDown:
		o.s.push(0, -step)
	}
}

// CreateRenderer implements fyne.Widget.
func (o *overview) CreateRenderer() fyne.WidgetRenderer { return &overviewRenderer{o} }

type overviewRenderer struct{ o *overview }

func (r *overviewRenderer) Layout(size fyne.Size) {
	r.o.ground.Resize(size)
	r.o.draw()
	r.o.place()
}
func (r *overviewRenderer) MinSize() fyne.Size { return fyne.NewSize(100, overviewHeight) }
func (r *overviewRenderer) Refresh()           { r.o.draw(); r.o.place(); r.o.ground.Refresh() }
func (r *overviewRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.o.ground, r.o.layer.raster, r.o.frame}
}
func (r *overviewRenderer) Destroy() {}
