package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"ellwand/geometry"
)

// layer is a picture of the cloth that is drawn beside the window and then only
// moved or stretched with the view, until a better one is ready. The window
// never waits for it.
type layer struct {
	raster *canvas.Raster
	b      *bench
	ink    inkwell
	image  *image.RGBA
	of     sketch  // what the image shows
	next   *sketch // asked for while another is drawn
	busy   bool    // one is being drawn
	ready  func()  // called when a picture has come, to place it
}

func newLayer(b *bench) *layer {
	l := &layer{b: b, image: image.NewRGBA(image.Rect(0, 0, 1, 1)), ready: func() {}}
	l.raster = canvas.NewRaster(func(int, int) image.Image { return l.image })
	return l
}

// ask has a sketch drawn. Of several asked for while one is drawn, only the last
// is.
func (l *layer) ask(k sketch) {
	if l.busy {
		l.next = &k
		return
	}
	l.busy = true
	l.b.spawn(func() {
		image := k.draw(&l.ink)
		l.b.onWindow(func() { l.take(k, image) })
	})
}

func (l *layer) take(k sketch, image *image.RGBA) {
	l.image, l.of, l.busy = image, k, false
	if n := l.next; n != nil {
		l.next = nil
		l.ask(*n)
	}
	l.ready()
	l.raster.Refresh()
}

// settled says whether the picture is the last that was asked for.
func (l *layer) settled() bool { return !l.busy }

// covers says whether the picture shows all of a part of the cloth.
func (l *layer) covers(r geometry.Rect) bool {
	have := l.part()
	return have.MinX <= r.MinX && have.MinY <= r.MinY && have.MaxX >= r.MaxX && have.MaxY >= r.MaxY
}

// part is the part of the cloth that the picture shows, in cm.
func (l *layer) part() geometry.Rect {
	if l.of.perCM <= 0 {
		return geometry.Rect{}
	}
	c := l.of.corner
	return geometry.Rect{MinX: c.X, MinY: c.Y, MaxX: c.X + float64(l.of.w)/l.of.perCM, MaxY: c.Y + float64(l.of.h)/l.of.perCM}
}

// put lays the picture where its part of the cloth stands in the view.
func (l *layer) put(corner fyne.Position, zoom float32) {
	r := l.part()
	l.raster.Move(corner)
	l.raster.Resize(fyne.NewSize(float32(r.Width())*zoom, float32(r.Height())*zoom))
}
