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
	for i, p := range b.s.pieces {
		if d := b.s.drag; d != nil && d.item == i && b.s.lifted.Visible() {
			continue
		}
		b.piece(p, b.s.itemID(i) == b.s.b.picked, p.Fault)
	}
	b.frame(x0, y0, x1, y1)
	b.rulers(x0, y0, x1, y1)
}

// held is the piece being carried, alone on clear ground.
func (b *brush) held(d *dragging) {
	was, edge := b.s.pieces[d.item], float64(liftedEdge)*b.px
	from := was.Cut.Bounds()
	b.ox, b.oy = edge-from.MinX*b.perCM, edge-from.MinY*b.perCM
	b.piece(was, true, len(d.faults) > 0)
}

// itemID is the ID of the item drawn as number i.
func (s *strip) itemID(i int) string { return s.b.shown.Prepared.Problem.Items[i].ID }

func (b *brush) at(p geometry.Point) (x, y float64) { return b.ox + p.X*b.perCM, b.oy + p.Y*b.perCM }

func (b *brush) path(line []geometry.Point, closed bool) {
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

// words writes a piece's name where it fits, upright or along the piece, and
// draws its arrow and pin beside.
func (b *brush) words(p drawing.Piece, fault bool) {
	r, mid := p.Cut.Bounds(), p.Cut.Centroid()
	x, y := b.at(mid)
	wide, high := r.Width()*b.perCM, r.Height()*b.perCM
	text := p.Name
	if p.Copies > 1 {
		text = fmt.Sprintf("%s %d", p.Name, p.Copy)
	}
	if p.Pinned {
		text = "⊙ " + text
	}
	if fault {
		text = "✖ " + text
	}
	b.SetColor(b.c.strip.OnPieceInk)
	for _, size := range []float64{13, 11, 9} {
		b.SetFontFace(b.s.face(size * b.px))
		w, h := b.MeasureString(text)
		along := w+10*b.px < wide*0.8 && h*1.4 < high*0.7
		upright := w+10*b.px < high*0.8 && h*1.4 < wide*0.7
		switch {
		case along:
			b.DrawStringAnchored(text, x, y, 0.5, 0.35)
			if high > 3.4*h {
				b.arrow(x, y+1.3*h, min(wide*0.35, 60*b.px), p.GrainDeg)
			}
			return
		case upright:
			b.Push()
			b.RotateAbout(-math.Pi/2, x, y)
			b.DrawStringAnchored(text, x, y, 0.5, 0.35)
			b.Pop()
			return
		}
	}
	if p.Number > 0 {
		text = fmt.Sprint(p.Number)
		if w, h := b.MeasureString(text); w < wide*0.7 && h < high*0.7 {
			b.DrawStringAnchored(text, x, y, 0.5, 0.35)
		}
	}
}

// arrow is the long arrow of the warp's direction, as the piece's own length runs.
func (b *brush) arrow(x, y, length, grainDeg float64) {
	way := 1.0
	if grainDeg == 180 {
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
	for _, y := range []float64{y0, y0 - 3*b.px, y1, y1 + 3*b.px} {
		b.DrawLine(x0, y, x1, y)
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
