package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/geometry"
	"ellwand/layout/drawing"
	"ellwand/plan"
)

// layView is a lay to be looked at, drawn as long as the cloth it is compared
// with; on it, perhaps, the outlines of another, and arrows from place to place.
type layView struct {
	widget.BaseWidget
	r        *plan.Result
	over     []drawing.Piece
	arrows   [][2]geometry.Point
	marked   map[int]bool
	lengthCM float64 // that the whole width of the view stands for
	layer    *layer
}

func newLayView(b *bench, r *plan.Result, lengthCM float64) *layView {
	v := &layView{r: r, lengthCM: lengthCM, layer: newLayer(b), marked: map[int]bool{}}
	v.layer.ready = v.place
	v.ExtendBaseWidget(v)
	return v
}

// layViewEdge is the room round the cloth, in the window's units.
const layViewEdge = 8

func (v *layView) zoom() float32 {
	size := v.Size()
	return min((size.Width-2*layViewEdge)/float32(max(v.lengthCM, 1)), (size.Height-2*layViewEdge)/float32(max(v.r.Lay.WidthCM, 1)))
}

func (v *layView) draw() {
	zoom := v.zoom()
	if zoom <= 0 {
		return
	}
	s := v.r.Sheet("")
	k := sketch{pieces: s.Pieces, sheet: s, fills: map[string]int{}, chosen: v.marked, away: map[int]bool{}, wrong: map[int]bool{},
		lengthCM: max(v.r.Lay.LengthCM, s.LengthCM), widthCM: v.r.Lay.WidthCM, over: v.over, arrows: v.arrows,
		c: colours(), font: theme.DefaultTextFont().Content(), px: 1}
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		const far = 4000
		if x, _ := c.PixelCoordinateForPosition(fyne.NewPos(far, 0)); x > 0 {
			k.px = float64(x) / far
		}
	}
	for _, p := range k.pieces {
		if _, ok := k.fills[p.Name]; !ok {
			k.fills[p.Name] = len(k.fills)
		}
	}
	k.perCM = float64(zoom) * k.px
	edge := layViewEdge * k.px / k.perCM
	k.corner = geometry.Point{X: -edge, Y: -edge}
	k.w, k.h = int(float64(v.Size().Width)*k.px), int((k.widthCM+2*edge)*k.perCM)
	v.layer.ask(k)
}

func (v *layView) place() { v.layer.put(fyne.NewPos(0, 0), v.zoom()) }

// CreateRenderer implements fyne.Widget.
func (v *layView) CreateRenderer() fyne.WidgetRenderer { return &layViewRenderer{v} }

type layViewRenderer struct{ v *layView }

func (r *layViewRenderer) Layout(fyne.Size)   { r.v.draw(); r.v.place() }
func (r *layViewRenderer) MinSize() fyne.Size { return fyne.NewSize(500, 110) }
func (r *layViewRenderer) Refresh()           { r.v.draw() }
func (r *layViewRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.v.layer.raster}
}
func (r *layViewRenderer) Destroy() {}
