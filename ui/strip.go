package ui

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

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
// one picture, drawn beside the window when the lay changes and only moved with
// the view; the pieces that are dragged are a picture of their own over it.
type strip struct {
	widget.BaseWidget
	b           *bench
	say         func(text string, wrong bool)
	zoom        float32       // units to a cm
	origin      fyne.Position // where the cut end meets the left selvedge
	fitted      bool          // the whole cloth is kept in view
	drag        *dragging
	keyed       bool                   // the keys go to the strip
	tool        tool                   // what dragging on bare cloth does
	pieces      []drawing.Piece        // as shown, where they lie
	sheet       drawing.Sheet          // what else is shown: flaws, lengths of cloth
	fills       map[string]int         // the colour of each piece, by name
	other       func(e *fyne.KeyEvent) // keys that are not the strip's own
	viewed      []func()               // told when the view or the cloth has changed
	toolChanged func()
	outline     *flawOutline // of a flaw that is being drawn by clicks

	base, lifted *layer
	clip         *container.Clip
	rulers       [3]*canvas.Raster
	guides       *stripGuides
	band         *canvas.Rectangle // drawn round what is to be picked
	focused      *canvas.Rectangle
	ground       *canvas.Rectangle // under the word
	word         *canvas.Text      // what is wrong where the piece is held
	ink          inkwell           // of the rulers
}

func newStrip(b *bench, say func(string, bool)) *strip {
	s := &strip{b: b, say: say, zoom: 3, fitted: true, base: newLayer(b), lifted: newLayer(b), outline: newFlawOutline(), other: func(*fyne.KeyEvent) {}}
	s.base.ready, s.lifted.ready = s.baseReady, s.liftedReady
	s.lifted.raster.Hide()
	s.guides = newStripGuides(s)
	s.band = canvas.NewRectangle(nil)
	s.band.Hide()
	s.focused = canvas.NewRectangle(nil)
	s.focused.StrokeWidth = 2
	s.focused.Hide()
	inside := container.NewWithoutLayout(s.base.raster, s.lifted.raster)
	inside.Objects = append(append(inside.Objects, s.guides.objects()...), s.band)
	inside.Objects = append(inside.Objects, s.outline.objects()...)
	s.clip = container.NewClip(inside)
	for i := range s.rulers {
		s.rulers[i] = s.newRuler(i)
	}
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
			s.redraw()
		case pickChanged:
			s.redraw()
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

// sketch is the lay as it is shown, without a place in the view.
func (s *strip) sketch() sketch {
	k := sketch{pieces: s.pieces, sheet: s.sheet, fills: s.fills, chosen: map[int]bool{}, away: map[int]bool{}, wrong: map[int]bool{},
		c: colours(), font: theme.DefaultTextFont().Content(), px: s.px()}
	k.lengthCM, k.widthCM = s.cloth()
	for _, i := range s.b.chosen() {
		k.chosen[i] = true
	}
	if s.drag.carries() {
		for i := range s.drag.at {
			k.away[i] = true
		}
		for _, f := range s.drag.faults {
			k.wrong[f.ItemA], k.wrong[f.ItemB] = true, true
		}
	}
	return k
}

// px is the pixels to a unit of the window.
func (s *strip) px() float64 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		const far = 4000
		if x, _ := c.PixelCoordinateForPosition(fyne.NewPos(far, 0)); x > 0 {
			return float64(x) / far
		}
	}
	return 1
}

// mostPixels is the side of the largest picture that every display takes.
const mostPixels = 4096

// framed is a sketch of a part of the cloth at the present zoom, on whole pixels.
func (s *strip) framed(k sketch, part geometry.Rect) sketch {
	k.perCM = float64(s.zoom) * k.px
	left, top := math.Floor(part.MinX*k.perCM), math.Floor(part.MinY*k.perCM)
	k.w = int(min(mostPixels, math.Ceil(part.MaxX*k.perCM)-left))
	k.h = int(min(mostPixels, math.Ceil(part.MaxY*k.perCM)-top))
	k.corner = geometry.Point{X: left / k.perCM, Y: top / k.perCM}
	return k
}

// seen is the part of the cloth and its nearest surroundings that is in view,
// with so many times the view's size beside it.
func (s *strip) seen(beside float64) geometry.Rect {
	from, to := s.onCloth(fyne.NewPos(0, 0)), s.onCloth(fyne.NewPos(s.Size().Width, s.Size().Height))
	dx, dy := (to.X-from.X)*beside, (to.Y-from.Y)*beside
	l, w := s.cloth()
	edge, over := float64(stripEdge/s.zoom), 0.0
	if len(s.sheet.Lengths) > 0 { // their names stand over the cloth
		over = float64(lengthNameRoom / s.zoom)
	}
	return geometry.Rect{
		MinX: max(from.X-dx, -edge), MinY: max(from.Y-dy, -edge-over),
		MaxX: min(to.X+dx, l+edge), MaxY: min(to.Y+dy, w+edge),
	}
}

// redraw has the still picture drawn anew, with some room beside the view.
func (s *strip) redraw() {
	if s.Size().Width < 1 {
		return
	}
	s.base.ask(s.framed(s.sketch(), s.seen(0.45)))
	s.look()
}

// look brings what is there to where the view now is, and has a new picture
// drawn where the old one does not reach.
func (s *strip) look() {
	s.placeLayers()
	if s.base.settled() && s.b.shown != nil && (!s.base.covers(s.seen(0)) || math.Abs(s.base.of.perCM-float64(s.zoom)*s.px()) > 1e-6) {
		s.base.ask(s.framed(s.sketch(), s.seen(0.45)))
	}
	for _, r := range s.rulers {
		r.Refresh()
	}
	for _, f := range s.viewed {
		f()
	}
}

func (s *strip) placeLayers() {
	s.outline.show(s)
	s.base.put(s.onView(s.base.of.corner), s.zoom)
	if d := s.drag; d.carries() {
		c := s.lifted.of.corner
		s.lifted.put(s.onView(geometry.Point{X: c.X + d.dx, Y: c.Y + d.dy}), s.zoom)
	}
}

// baseReady places a new still picture. Pieces that were laid down are on it
// now, so that their own picture is done with.
func (s *strip) baseReady() {
	if !s.drag.carries() && len(s.base.of.away) == 0 {
		s.lifted.raster.Hide()
	}
	s.look()
}

// liftedReady shows the picture of the pieces that are carried.
func (s *strip) liftedReady() {
	if s.drag.carries() {
		s.placeLayers()
		s.lifted.raster.Show()
	}
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
	s.origin = s.onPixel(fyne.NewPos(leftBand+(wide-float32(l)*s.zoom)/2, rulerBand+stripEdge+(high-float32(w)*s.zoom)/2))
	s.look()
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
	s.look()
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
	s.look()
}

// centre brings a place on the cloth to the middle of the view.
func (s *strip) centre(p geometry.Point) {
	at := s.onView(p)
	s.push(s.Size().Width/2-at.X, s.Size().Height/2-at.Y)
}

// inSight is the part of the cloth that is in view, in cm.
func (s *strip) inSight() geometry.Rect {
	from := s.onCloth(fyne.NewPos(leftBand-stripEdge, rulerBand))
	to := s.onCloth(fyne.NewPos(s.Size().Width, s.Size().Height-rulerBand))
	l, w := s.cloth()
	return geometry.Rect{MinX: max(0, from.X), MinY: max(0, from.Y), MaxX: min(l, to.X), MaxY: min(w, to.Y)}
}

// hold keeps the cloth from being pushed out of sight: what is smaller than the
// view stays inside it, what is larger covers it.
func (s *strip) hold() {
	l, w := s.cloth()
	wide, high := s.room()
	s.origin.X = held(s.origin.X, leftBand, wide, float32(l)*s.zoom)
	s.origin.Y = held(s.origin.Y, rulerBand+stripEdge, high, float32(w)*s.zoom)
	s.origin = s.onPixel(s.origin)
}

// onPixel rounds to whole pixels, so that moved pictures stay sharp.
func (s *strip) onPixel(p fyne.Position) fyne.Position {
	px := float32(s.px())
	return fyne.NewPos(round(p.X*px)/px, round(p.Y*px)/px)
}

func round(v float32) float32 { return float32(math.Round(float64(v))) }

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

// tellHeld says in words, beside what is held, what is wrong there.
func (s *strip) tellHeld(at fyne.Position) {
	if len(s.drag.faults) == 0 {
		s.word.Hide()
		s.ground.Hide()
		return
	}
	c := colours()
	s.word.Text, s.word.Color, s.word.TextSize = heldWords(s.b.shown, s.drag), c.onMadder, theme.TextSize()
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

func heldWords(r *plan.Result, d *dragging) string {
	item := d.faults[0].ItemA
	if _, own := d.at[item]; !own {
		item = d.faults[0].ItemB
	}
	return faultWords(r, item, d.faults)
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
			text = words("overlaps %s", name)
		} else if f.Kind == layout.TooClose {
			text = words("too close to %s", name)
		}
	} else if f.Kind == layout.Outside {
		text = words("lies beyond the cloth")
	} else if f.Kind == layout.OnFlaw {
		text = words("lies on a flaw")
	}
	if len(faults) > 1 {
		text += fmt.Sprintf(words(", and %d more"), len(faults)-1)
	}
	return "! " + text
}

// CreateRenderer implements fyne.Widget.
func (s *strip) CreateRenderer() fyne.WidgetRenderer { return &stripRenderer{s} }

type stripRenderer struct{ s *strip }

func (r *stripRenderer) Layout(size fyne.Size) {
	s := r.s
	s.clip.Resize(size)
	s.focused.Move(fyne.NewPos(1, 1))
	s.focused.Resize(size.SubtractWidthHeight(2, 2))
	s.layRulers(size)
	if s.fitted {
		s.fit()
	} else {
		s.hold()
	}
	s.redraw()
}
func (r *stripRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 120) }

// Refresh draws all anew, in the colours of now.
func (r *stripRenderer) Refresh() { r.s.redraw() }

func (r *stripRenderer) Objects() []fyne.CanvasObject {
	s := r.s
	return []fyne.CanvasObject{s.clip, s.rulers[0], s.rulers[1], s.rulers[2], s.focused, s.ground, s.word}
}
func (r *stripRenderer) Destroy() {}
