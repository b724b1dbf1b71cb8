package ui

import (
	"fmt"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/font"

	"ellwand/geometry"
	"ellwand/layout"
	"ellwand/layout/drawing"
	"ellwand/plan"
)

// Bands round the cloth, in the window's units: the rulers, and room beside.
const (
	rulerBand = 24
	leftBand  = 46
	stripEdge = 10
)

// Zoom, in the window's units to a cm of cloth.
const (
	leastZoom = 0.2
	mostZoom  = 60
)

// strip is the cloth with its pieces, to be moved by hand. What lies still is
// one picture, drawn again only when the lay or the view changes; the piece
// that is dragged is a small picture of its own that moves over it.
type strip struct {
	widget.BaseWidget
	b      *bench
	say    func(text string, wrong bool)
	zoom   float32       // units to a cm
	origin fyne.Position // where the cut end meets the left selvedge
	fitted bool          // the whole cloth is kept in view
	drag   *dragging
	keyed  bool            // the keys go to the strip
	pieces []drawing.Piece // as shown, where they lie
	sheet  drawing.Sheet   // what else is shown: flaws, lengths of cloth
	fills  map[string]int  // the colour of each piece, by name

	base, lifted *canvas.Raster
	ground       *canvas.Rectangle // under the word
	word         *canvas.Text      // what is wrong where the piece is held
	faces        map[int]font.Face // by size in tenths of a pixel
}

// dragging is a piece held, or the view being pushed.
type dragging struct {
	item   int              // -1: the view is pushed
	grab   geometry.Point   // of the pointer, from the placement
	at     layout.Placement // where the piece would lie
	faults []layout.Fault
	last   fyne.Position
}

func newStrip(b *bench, say func(string, bool)) *strip {
	s := &strip{b: b, say: say, zoom: 3, fitted: true, faces: map[int]font.Face{}}
	s.base = canvas.NewRaster(s.drawBase)
	s.lifted = canvas.NewRaster(s.drawLifted)
	s.lifted.Hide()
	s.ground = canvas.NewRectangle(nil)
	s.word = canvas.NewText("", nil)
	s.word.TextStyle.Bold = true
	s.ground.Hide()
	s.word.Hide()
	s.ExtendBaseWidget(s)
	b.onChange(func(t topic) {
		switch t {
		case resultChanged:
			s.drop()
			s.take()
			s.base.Refresh()
		case pickChanged:
			s.base.Refresh()
		case planChanged:
			s.fitted = s.fitted || b.shown == nil
		}
	})
	return s
}

// take reads what is to be drawn from the bench.
func (s *strip) take() {
	s.pieces, s.sheet, s.fills = nil, drawing.Sheet{}, map[string]int{}
	if s.b.shown == nil {
		return
	}
	s.sheet = s.b.shown.Sheet("")
	s.pieces = s.sheet.Pieces
	for _, p := range s.pieces {
		if _, ok := s.fills[p.Name]; !ok {
			s.fills[p.Name] = len(s.fills)
		}
	}
	if s.fitted {
		s.fit()
	}
}

// cloth is the size of what is shown, in cm.
func (s *strip) cloth() (lengthCM, widthCM float64) {
	if s.b.shown == nil {
		return 0, 0
	}
	return max(s.b.shown.Lay.LengthCM, s.sheet.LengthCM), s.b.shown.Lay.WidthCM
}

// fit brings the whole cloth into view.
func (s *strip) fit() {
	s.fitted = true
	l, w := s.cloth()
	if l <= 0 || w <= 0 {
		return
	}
	wide, high := s.room()
	s.zoom = clamp(min(wide/float32(l), high/float32(w)), leastZoom, mostZoom)
	s.origin = fyne.NewPos(leftBand+(wide-float32(l)*s.zoom)/2, rulerBand+stripEdge+(high-float32(w)*s.zoom)/2)
	s.base.Refresh()
}

// room is the width and height that the cloth itself may take.
func (s *strip) room() (wide, high float32) {
	size := s.Size()
	return max(20, size.Width-leftBand-stripEdge), max(20, size.Height-2*rulerBand-2*stripEdge)
}

// zoomBy enlarges about a point of the view.
func (s *strip) zoomBy(by float32, about fyne.Position) {
	s.fitted = false
	z := clamp(s.zoom*by, leastZoom, mostZoom)
	by = z / s.zoom
	s.zoom = z
	s.origin = fyne.NewPos(about.X-(about.X-s.origin.X)*by, about.Y-(about.Y-s.origin.Y)*by)
	s.hold()
	s.base.Refresh()
}

// zoomMiddle enlarges about the middle of the view.
func (s *strip) zoomMiddle(by float32) {
	s.zoomBy(by, fyne.NewPos(s.Size().Width/2, s.Size().Height/2))
}

// push moves the view.
func (s *strip) push(dx, dy float32) {
	s.fitted = false
	s.origin = s.origin.AddXY(dx, dy)
	s.hold()
	s.base.Refresh()
}

// hold keeps the cloth from being pushed out of sight: what is smaller than the
// view stays inside it, what is larger covers it.
func (s *strip) hold() {
	l, w := s.cloth()
	wide, high := s.room()
	s.origin.X = held(s.origin.X, leftBand, wide, float32(l)*s.zoom)
	s.origin.Y = held(s.origin.Y, rulerBand+stripEdge, high, float32(w)*s.zoom)
}

func held(at, start, room, size float32) float32 {
	return clamp(at, min(start, start+room-size), max(start, start+room-size))
}

func clamp(v, least, most float32) float32 { return max(least, min(most, v)) }

// onView is a place on the cloth in the window; onCloth the other way.
func (s *strip) onView(p geometry.Point) fyne.Position {
	return s.origin.AddXY(float32(p.X)*s.zoom, float32(p.Y)*s.zoom)
}

func (s *strip) onCloth(p fyne.Position) geometry.Point {
	return geometry.Point{X: float64((p.X - s.origin.X) / s.zoom), Y: float64((p.Y - s.origin.Y) / s.zoom)}
}

// lift takes a piece up, so that it can be carried.
func (s *strip) lift(item int, pointer fyne.Position) {
	at := s.b.shown.Lay.Placements[item]
	p := s.onCloth(pointer)
	s.drag = &dragging{item: item, at: at, grab: geometry.Point{X: p.X - at.X, Y: p.Y - at.Y}, faults: faultsOf(s.b.shown, item, at)}
	s.base.Refresh()
	s.carry()
	s.lifted.Show()
	s.lifted.Refresh()
}

// move carries the lifted piece to the pointer and snaps it.
func (s *strip) move(pointer fyne.Position) {
	d := s.drag
	p := s.onCloth(pointer)
	want := d.at
	want.X, want.Y = p.X-d.grab.X, p.Y-d.grab.Y
	reach := min(3, 9/float64(s.zoom))
	d.at = snap(s.b.shown, d.item, want, reach)
	faults := faultsOf(s.b.shown, d.item, d.at)
	changed := len(faults) > 0 != (len(d.faults) > 0)
	d.faults = faults
	s.carry()
	if changed {
		s.lifted.Refresh()
	}
}

// liftedEdge is the room round the picture of the lifted piece, for its line.
const liftedEdge = 4

// carry puts the picture of the lifted piece where the piece is held.
func (s *strip) carry() {
	d := s.drag
	it := s.b.shown.Prepared.Problem.Items[d.item]
	box := layout.Placed(it, d.at).Bounds()
	corner := s.onView(geometry.Point{X: box.MinX, Y: box.MinY})
	size := fyne.NewSize(float32(box.Width())*s.zoom+2*liftedEdge, float32(box.Height())*s.zoom+2*liftedEdge)
	s.lifted.Move(corner.SubtractXY(liftedEdge, liftedEdge))
	s.lifted.Resize(size)
	s.tellHeld(corner.AddXY(0, size.Height))
	words := fmt.Sprintf("%s, %s from the cut end, %s from the left selvedge", it.ID,
		length(box.MinX, s.b.plan().ShowUnits), length(box.MinY, s.b.plan().ShowUnits))
	s.say(words, false)
}

// tellHeld says in words, beside the piece, what is wrong where it is held.
func (s *strip) tellHeld(at fyne.Position) {
	if len(s.drag.faults) == 0 {
		s.word.Hide()
		s.ground.Hide()
		return
	}
	c := colours()
	s.word.Text, s.word.Color, s.word.TextSize = faultWords(s.b.shown, s.drag.item, s.drag.faults), c.onMadder, theme.TextSize()
	s.ground.FillColor = c.madder
	size := s.word.MinSize()
	x := clamp(at.X, 0, max(0, s.Size().Width-size.Width-12))
	y := clamp(at.Y, 0, max(0, s.Size().Height-size.Height-4))
	s.ground.Move(fyne.NewPos(x, y))
	s.ground.Resize(size.AddWidthHeight(12, 2))
	s.word.Move(fyne.NewPos(x+6, y+1))
	s.word.Resize(size)
	s.ground.Show()
	s.word.Show()
	s.word.Refresh()
}

// faultWords is what is wrong with one piece, shortly.
func faultWords(r *plan.Result, item int, faults []layout.Fault) string {
	f := faults[0]
	other := f.ItemA
	if other == item {
		other = f.ItemB
	}
	text := f.Text
	if other >= 0 && other != item {
		name := r.Prepared.Problem.Items[other].ID
		if f.Kind == layout.Overlapping {
			text = "overlaps " + name
		} else if f.Kind == layout.TooClose {
			text = "too close to " + name
		}
	} else if f.Kind == layout.Outside {
		text = "lies beyond the cloth"
	}
	if len(faults) > 1 {
		text += fmt.Sprintf(", and %d more", len(faults)-1)
	}
	return "! " + text
}

// drop lets go of what is held, without keeping where it was carried.
func (s *strip) drop() {
	s.drag = nil
	s.lifted.Hide()
	s.word.Hide()
	s.ground.Hide()
}

// CreateRenderer implements fyne.Widget.
func (s *strip) CreateRenderer() fyne.WidgetRenderer { return &stripRenderer{s} }

type stripRenderer struct{ s *strip }

func (r *stripRenderer) Layout(size fyne.Size) {
	r.s.base.Resize(size)
	if r.s.fitted {
		r.s.fit()
	} else {
		r.s.hold()
	}
}
func (r *stripRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 150) }
func (r *stripRenderer) Refresh()           { r.s.base.Refresh() }
func (r *stripRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.s.base, r.s.lifted, r.s.ground, r.s.word}
}
func (r *stripRenderer) Destroy() {}

// drawBase is the generator of the still picture.
func (s *strip) drawBase(w, h int) image.Image {
	b := newBrush(s, w, h, s.Size().Width)
	b.still()
	return b.Image()
}

// drawLifted is the generator of the lifted piece's picture.
func (s *strip) drawLifted(w, h int) image.Image {
	b := newBrush(s, w, h, s.lifted.Size().Width)
	if s.drag != nil && s.drag.item >= 0 {
		b.held(s.drag)
	}
	return b.Image()
}
