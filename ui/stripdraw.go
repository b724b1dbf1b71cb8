package ui

import (
	"fmt"
	"image/color"
	"math"

	"fyne.io/fyne/v2/theme"
	"github.com/fogleman/gg"
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"

	"ellwand/geometry"
	"ellwand/layout/drawing"
)

// brush draws the strip, or one piece of it, at the pixels of the screen.
type brush struct {
	*gg.Context
	s      *strip
	c      palette
	px     float64 // pixels to a unit of the window
	perCM  float64 // pixels to a cm of cloth
	ox, oy float64 // where the cut end meets the left selvedge, in pixels
}

func newBrush(s *strip, w, h int, width float32) *brush {
	b := &brush{Context: gg.NewContext(max(1, w), max(1, h)), s: s, c: colours(), px: 1}
	if width > 0 {
		b.px = float64(w) / float64(width)
	}
	b.perCM = float64(s.zoom) * b.px
	b.ox, b.oy = float64(s.origin.X)*b.px, float64(s.origin.Y)*b.px
	return b
}

// still is the cloth with all that lies on it, but for a piece that is held.
func (b *brush) still() {
	b.SetColor(b.c.ground)
	b.Clear()
	l, w := b.s.cloth()
	if l <= 0 {
		return
	}
	x0, y0, x1, y1 := b.ox, b.oy, b.ox+l*b.perCM, b.oy+w*b.perCM
	b.SetColor(b.c.strip.Waste)
	b.DrawRectangle(x0, y0, x1-x0, y1-y0)
	b.Fill()
	b.hatch(x0, y0, x1, y1, 9*b.px, b.c.strip.Hatch, func() { b.DrawRectangle(x0, y0, x1-x0, y1-y0) })
	b.noCloth()
	picked := b.s.b.item()
	for i, p := range b.s.pieces {
		if i != picked {
			b.piece(p, false, p.Fault)
		}
	}
	if picked >= 0 && !b.s.lifted.Visible() {
		b.piece(b.s.pieces[picked], true, b.s.pieces[picked].Fault)
	}
	b.frame(x0, y0, x1, y1)
	b.flaws()
	b.lengthNames()
	b.rulers(x0, y0, x1, y1)
	if b.s.keyed {
		b.SetColor(b.c.woad)
		b.SetLineWidth(2 * b.px)
		b.DrawRectangle(b.px, b.px, float64(b.Width())-2*b.px, float64(b.Height())-2*b.px)
		b.Stroke()
	}
}

// held is the piece being carried, alone on clear ground.
func (b *brush) held(d *dragging) {
	was, edge := b.s.pieces[d.item], float64(liftedEdge)*b.px
	from := was.Cut.Bounds()
	b.ox, b.oy = edge-from.MinX*b.perCM, edge-from.MinY*b.perCM
	b.piece(was, true, len(d.faults) > 0)
}

func (b *brush) at(p geometry.Point) (x, y float64) { return b.ox + p.X*b.perCM, b.oy + p.Y*b.perCM }

func (b *brush) path(line []geometry.Point, closed bool) {
	b.NewSubPath()
	for _, v := range line {
		b.LineTo(b.at(v))
	}
	if closed {
		b.ClosePath()
	}
}

// hatch draws slanted lines over what the outline encloses.
func (b *brush) hatch(x0, y0, x1, y1, step float64, c color.Color, outline func()) {
	x0, x1 = max(x0, 0), min(x1, float64(b.Width()))
	y0, y1 = max(y0, 0), min(y1, float64(b.Height()))
	b.Push()
	outline()
	b.Clip()
	b.SetColor(c)
	b.SetLineWidth(b.px)
	for x := math.Floor((x0-(y1-y0))/step) * step; x < x1; x += step {
		b.DrawLine(x, y1, x+(y1-y0), y0)
	}
	b.Stroke()
	b.ResetClip()
	b.Pop()
}

// piece draws one piece: cut line solid, seam line dashed, an arrow along the
// warp, its name, and signs for pinned and for what is wrong.
func (b *brush) piece(p drawing.Piece, picked, fault bool) {
	r := p.Cut.Bounds()
	x0, y0 := b.at(geometry.Point{X: r.MinX, Y: r.MinY})
	x1, y1 := b.at(geometry.Point{X: r.MaxX, Y: r.MaxY})
	if x1 < 0 || y1 < 0 || x0 > float64(b.Width()) || y0 > float64(b.Height()) {
		return
	}
	fills := b.c.strip.PieceFills
	b.path(p.Cut, true)
	b.SetColor(fills[b.s.fills[p.Name]%len(fills)])
	b.Fill()
	if fault {
		b.hatch(x0, y0, x1, y1, 7*b.px, b.c.strip.Fault, func() { b.path(p.Cut, true) })
	}
	ink := color.Color(b.c.strip.OnPieceInk)
	b.SetColor(ink)
	b.SetLineWidth(b.px)
	b.SetDash(4*b.px, 3*b.px)
	b.path(p.Seam, true)
	b.Stroke()
	b.SetDash()
	for _, m := range p.Marks {
		b.path(m, false)
	}
	b.Stroke()
	line := 1.4
	if fault {
		line, ink = 2.6, b.c.strip.Fault
	}
	if picked {
		line = 3.4
		if !fault {
			ink = b.c.woad
		}
	}
	b.SetColor(ink)
	b.SetLineWidth(line * b.px)
	b.path(p.Cut, true)
	b.Stroke()
	b.words(p, fault)
}

// words writes a piece's name where it fits within the cut line, along the
// cloth or upright, and the arrow of the warp under it. Where no name fits, the
// number in the order of cutting stands for it.
func (b *brush) words(p drawing.Piece, fault bool) {
	x, y := b.at(p.Cut.Centroid())
	text := p.Name
	if p.Copies > 1 {
		text = fmt.Sprintf("%s %d", p.Name, p.Copy)
	}
	if p.Pinned {
		text += ", pinned"
	}
	if fault {
		text = "! " + text
	}
	for _, size := range []float64{13, 11, 9} {
		w, h := b.measure(text, size)
		switch {
		case b.holds(p.Cut, x, y, w+6*b.px, h):
			b.label(text, x, y, w, h, p.Name)
			b.arrow(p, x, y+1.5*h, min(60*b.px, 1.5*w))
			return
		case b.holds(p.Cut, x, y, h, w+6*b.px):
			b.Push()
			b.RotateAbout(-math.Pi/2, x, y)
			b.label(text, x, y, w, h, p.Name)
			b.Pop()
			return
		}
	}
	text = fmt.Sprint(p.Number)
	if w, h := b.measure(text, 9); p.Number > 0 && b.holds(p.Cut, x, y, w, h) {
		b.label(text, x, y, w, h, p.Name)
	}
}

func (b *brush) measure(text string, size float64) (w, h float64) {
	b.SetFontFace(b.s.face(size * b.px))
	return b.MeasureString(text)
}

// holds says whether a box about (x, y), in pixels, lies within a cut line.
func (b *brush) holds(cut geometry.Polygon, x, y, w, h float64) bool {
	for _, c := range [][2]float64{{-1, -1}, {-1, 1}, {1, -1}, {1, 1}, {-1, 0}, {1, 0}} {
		at := geometry.Point{X: (x + c[0]*w/2 - b.ox) / b.perCM, Y: (y + c[1]*h/2 - b.oy) / b.perCM}
		if geometry.Locate(cut, at) != geometry.Inside {
			return false
		}
	}
	return true
}

// label writes text on a patch of the piece's own colour, so that no line runs
// through it.
func (b *brush) label(text string, x, y, w, h float64, name string) {
	fills := b.c.strip.PieceFills
	b.SetColor(fills[b.s.fills[name]%len(fills)])
	b.DrawRectangle(x-w/2-2*b.px, y-h/2-b.px, w+4*b.px, h+2*b.px)
	b.Fill()
	b.SetColor(b.c.strip.OnPieceInk)
	b.DrawStringAnchored(text, x, y, 0.5, 0.35)
}

// arrow is the long arrow of the warp's direction, as the piece's own length
// runs; it is left out where the piece has no room for it.
func (b *brush) arrow(p drawing.Piece, x, y, length float64) {
	if !b.holds(p.Cut, x, y, length, 8*b.px) {
		return
	}
	way := 1.0
	if p.GrainDeg == 180 {
		way = -1
	}
	tip := x + way*length/2
	b.SetLineWidth(b.px)
	b.DrawLine(x-way*length/2, y, tip, y)
	b.DrawLine(tip, y, tip-way*5*b.px, y-3*b.px)
	b.DrawLine(tip, y, tip-way*5*b.px, y+3*b.px)
	b.Stroke()
}

// frame is the cut ends, and the selvedges as doubled lines.
func (b *brush) frame(x0, y0, x1, y1 float64) {
	b.SetColor(b.c.strip.Ink)
	b.SetLineWidth(1.5 * b.px)
	for _, l := range b.s.stretches() {
		from, to := b.ox+l.FromCM*b.perCM, b.ox+l.ToCM*b.perCM
		for _, y := range []float64{y0, y0 - 3*b.px, y1, y1 + 3*b.px} {
			if len(l.Left) == 0 {
				b.DrawLine(from, y, to, y)
			}
		}
	}
	b.Stroke()
	b.SetDash(6*b.px, 3*b.px)
	b.DrawLine(x0, y0, x0, y1)
	b.DrawLine(x1, y0, x1, y1)
	b.Stroke()
	b.SetDash()
}

// face is the window's font at a size in pixels.
func (s *strip) face(size float64) font.Face {
	key := int(math.Round(size * 10))
	if f, ok := s.faces[key]; ok {
		return f
	}
	parsed, err := truetype.Parse(theme.DefaultTextFont().Content())
	if err != nil {
		return nil
	}
	f := truetype.NewFace(parsed, &truetype.Options{Size: size, DPI: 72})
	s.faces[key] = f
	return f
}
