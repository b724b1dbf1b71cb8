package paper

import (
	"image/color"

	"ellwand/geometry"
)

// Canvas is a place on a page that is drawn on in cm from its upper left
// corner, y downwards. At scale 1 a cm drawn is a cm of paper.
type Canvas struct {
	d           *Doc
	left, top   float64 // on the page, of the canvas's origin
	scale       float64 // cm of paper to one cm drawn
	penScale    float64 // of line widths and writing
	quiet       bool    // nothing is written
	right, foot float64 // how far it may be drawn on, in cm of the page
}

// Line is how a line looks: width, dash and gap in cm of paper, dash 0 for a
// solid line.
type Line struct {
	Width, Dash, Gap float64
	Colour           color.RGBA
}

func (c *Canvas) at(p geometry.Point) (x, y float64) {
	return c.left + p.X*c.scale, c.top + p.Y*c.scale
}

// path puts a path down; false when there is none.
func (c *Canvas) path(points []geometry.Point, closed bool) bool {
	if len(points) < 2 {
		return false
	}
	x, y := c.at(points[0])
	c.d.pdf.MoveTo(x, y)
	for _, p := range points[1:] {
		x, y = c.at(p)
		c.d.pdf.LineTo(x, y)
	}
	if closed {
		c.d.pdf.ClosePath()
	}
	return true
}

// Stroke draws a line through points.
func (c *Canvas) Stroke(points []geometry.Point, closed bool, l Line) {
	pdf := c.d.pdf
	pdf.SetDrawColor(int(l.Colour.R), int(l.Colour.G), int(l.Colour.B))
	pdf.SetLineWidth(l.Width * c.penScale)
	pdf.SetDashPattern(nil, 0)
	if l.Dash > 0 {
		pdf.SetDashPattern([]float64{l.Dash * c.penScale, l.Gap * c.penScale}, 0)
	}
	if c.path(points, closed) {
		pdf.DrawPath("D")
	}
	pdf.SetDashPattern(nil, 0)
}

// Segment draws a straight line.
func (c *Canvas) Segment(x1, y1, x2, y2 float64, l Line) {
	c.Stroke([]geometry.Point{{X: x1, Y: y1}, {X: x2, Y: y2}}, false, l)
}

// Fill fills a shape.
func (c *Canvas) Fill(points []geometry.Point, colour color.RGBA) {
	c.d.pdf.SetFillColor(int(colour.R), int(colour.G), int(colour.B))
	if c.path(points, true) {
		c.d.pdf.DrawPath("F")
	}
}

// Rect is the outline of a rectangle, for Stroke and Fill.
func Rect(x, y, w, h float64) []geometry.Point {
	return []geometry.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// Text writes a line with its upper left corner at (x, y).
func (c *Canvas) Text(text string, x, y, size float64, bold bool, colour color.RGBA) {
	if c.quiet {
		return
	}
	px, py := c.at(geometry.Point{X: x, Y: y})
	c.d.text(Clean(text), px, py, size*c.penScale, bold, colour)
}

// Baseline writes a line that stands on y.
func (c *Canvas) Baseline(text string, x, y, size float64, bold bool, colour color.RGBA) {
	if c.quiet {
		return
	}
	px, py := c.at(geometry.Point{X: x, Y: y})
	c.d.text(Clean(text), px, py-ascent*size*c.penScale/ptPerCM, size*c.penScale, bold, colour)
}

// TextWidth is how wide a text is, in cm drawn.
func (c *Canvas) TextWidth(text string, size float64, bold bool) float64 {
	return c.d.width(Clean(text), size*c.penScale, bold) / c.scale
}

// TextHeight is the height of a line of writing, in cm drawn.
func (c *Canvas) TextHeight(size float64) float64 { return lineHigh(size*c.penScale) / c.scale }

// Clip lets nothing be drawn outside a rectangle until Unclip.
func (c *Canvas) Clip(x, y, w, h float64) {
	px, py := c.at(geometry.Point{X: x, Y: y})
	c.d.pdf.ClipRect(px, py, w*c.scale, h*c.scale, false)
}

// Unclip ends the last Clip.
func (c *Canvas) Unclip() { c.d.pdf.ClipEnd() }
