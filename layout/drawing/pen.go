package drawing

import (
	"image"
	"image/color"

	"github.com/fogleman/gg"
	"golang.org/x/image/font"

	"ellwand/geometry"
)

// pen is what a diagram is drawn with. All places and sizes are in px of the
// picture, y downwards.
type pen interface {
	fill(shape []geometry.Point, c color.RGBA)
	stroke(line []geometry.Point, s stroke)
	text(t text)
	clip(b box) // nothing is drawn outside b until unclip
	unclip()
}

// stroke is how a line looks; dash and gap are 0 for a solid line.
type stroke struct {
	width, dash, gap float64
	closed           bool
	c                color.RGBA
}

// text is one line of writing from x on, standing on its baseline.
type text struct {
	line               string
	x, baseline, width float64
	size               float64
	bold               bool
	c                  color.RGBA
}

// picturePen draws a picture of pixels.
type picturePen struct {
	dc   *gg.Context
	face func(size float64, bold bool) font.Face
}

func newPicturePen(width, height int, face func(float64, bool) font.Face) *picturePen {
	return &picturePen{gg.NewContext(width, height), face}
}

func (p *picturePen) image() image.Image { return p.dc.Image() }

func (p *picturePen) path(line []geometry.Point, closed bool) {
	p.dc.NewSubPath()
	for _, v := range line {
		p.dc.LineTo(v.X, v.Y)
	}
	if closed {
		p.dc.ClosePath()
	}
}

func (p *picturePen) fill(shape []geometry.Point, c color.RGBA) {
	p.path(shape, true)
	p.dc.SetColor(c)
	p.dc.Fill()
}

func (p *picturePen) stroke(line []geometry.Point, s stroke) {
	p.path(line, s.closed)
	p.dc.SetColor(s.c)
	p.dc.SetLineWidth(s.width)
	p.dc.SetDash()
	if s.dash > 0 {
		p.dc.SetDash(s.dash, s.gap)
	}
	p.dc.Stroke()
}

func (p *picturePen) text(t text) {
	p.dc.SetFontFace(p.face(t.size, t.bold))
	p.dc.SetColor(t.c)
	p.dc.DrawString(t.line, t.x, t.baseline)
}

func (p *picturePen) clip(b box) {
	p.dc.DrawRectangle(b.x, b.y, b.w, b.h)
	p.dc.Clip()
}

func (p *picturePen) unclip() { p.dc.ResetClip() }
