package ui

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"

	"ellwand/geometry"
	"ellwand/layout/drawing"
)

// sketch is all that a picture of the cloth shows. It shares nothing that
// changes, so that it can be drawn beside the window.
type sketch struct {
	pieces              []drawing.Piece
	sheet               drawing.Sheet       // flaws, lengths of cloth
	over                []drawing.Piece     // of another lay: their outlines
	arrows              [][2]geometry.Point // from a place to a place
	fills               map[string]int      // the colour of each piece, by name
	lengthCM, widthCM   float64
	chosen, away, wrong map[int]bool // picked; carried off; lying wrong where they are held
	only                bool         // nothing but what is carried, on clear ground
	plain               bool         // without words and seam lines: too small for them
	corner              geometry.Point
	perCM, px           float64 // pixels to a cm, and to a unit of the window
	w, h                int     // pixels
	c                   palette
	font                []byte
}

// inkwell keeps the letters it has drawn. It serves one drawing at a time.
type inkwell struct {
	parsed *truetype.Font
	faces  map[int]font.Face // by size in tenths of a pixel
}

// face is the window's font at a size in pixels.
func (k *inkwell) face(content []byte, size float64) font.Face {
	key := int(math.Round(size * 10))
	if f, ok := k.faces[key]; ok {
		return f
	}
	if k.parsed == nil {
		parsed, err := truetype.Parse(content)
		if err != nil {
			return nil
		}
		k.parsed, k.faces = parsed, map[int]font.Face{}
	}
	f := truetype.NewFace(k.parsed, &truetype.Options{Size: size, DPI: 72})
	k.faces[key] = f
	return f
}

// brush draws a sketch.
type brush struct {
	*gg.Context
	sketch
	ink *inkwell
}

// draw is the sketch as a picture.
func (k sketch) draw(ink *inkwell) *image.RGBA {
	b := &brush{gg.NewContext(max(1, k.w), max(1, k.h)), k, ink}
	if k.only {
		for i, p := range k.pieces {
			if k.away[i] {
				b.piece(p, true, k.wrong[i])
			}
		}
		return b.picture()
	}
	b.cloth()
	b.noCloth()
	for i, p := range k.pieces {
		if !k.chosen[i] && !k.away[i] {
			b.piece(p, false, p.Fault)
		}
	}
	for i, p := range k.pieces {
		switch {
		case k.away[i]:
			b.ghost(p, 1, 2)
		case k.chosen[i]:
			b.piece(p, true, p.Fault)
		}
	}
	for _, p := range k.over {
		b.ghost(p, 1.8, 6)
	}
	for _, a := range k.arrows {
		b.moveArrow(a[0], a[1])
	}
	b.frame()
	b.flaws()
	if !k.plain {
		b.lengthNames()
	}
	return b.picture()
}

func (b *brush) picture() *image.RGBA { return b.Image().(*image.RGBA) } // what gg draws on

func (b *brush) at(p geometry.Point) (x, y float64) {
	return (p.X - b.corner.X) * b.perCM, (p.Y - b.corner.Y) * b.perCM
}

// cloth is the bare cloth: hatched, for what no piece covers is waste.
func (b *brush) cloth() {
	b.SetColor(b.c.ground)
	b.Clear()
	x0, y0 := b.at(geometry.Point{})
	x1, y1 := b.at(geometry.Point{X: b.lengthCM, Y: b.widthCM})
	b.SetColor(b.c.strip.Waste)
	b.DrawRectangle(x0, y0, x1-x0, y1-y0)
	b.Fill()
	if b.plain {
		return
	}
	// Slanted lines, each cut off where the cloth or the picture ends.
	x0, x1 = max(x0, 0), min(x1, float64(b.w))
	top, foot := max(y0, 0), min(y1, float64(b.h))
	step := 9 * b.px
	b.SetColor(b.c.strip.Hatch)
	b.SetLineWidth(b.px)
	for s := math.Floor((x0+top)/step) * step; s < x1+foot; s += step { // x + y = s
		from, to := max(x0, s-foot), min(x1, s-top)
		if from < to {
			b.DrawLine(from, s-from, to, s-to)
		}
	}
	b.Stroke()
}

func (b *brush) path(line []geometry.Point, closed bool) {
	b.NewSubPath()
	for _, v := range line {
		b.LineTo(b.at(v))
	}
	if closed {
		b.ClosePath()
	}
}

// hatch draws slanted lines over what an outline encloses.
func (b *brush) hatch(q geometry.Polygon, step float64, c color.Color, back bool) {
	r := q.Bounds()
	x0, y0 := b.at(geometry.Point{X: r.MinX, Y: r.MinY})
	x1, y1 := b.at(geometry.Point{X: r.MaxX, Y: r.MaxY})
	x0, x1 = max(x0, 0), min(x1, float64(b.w))
	y0, y1 = max(y0, 0), min(y1, float64(b.h))
	b.Push()
	b.path(q, true)
	b.Clip()
	b.SetColor(c)
	b.SetLineWidth(b.px)
	for x := math.Floor((x0-(y1-y0))/step) * step; x < x1; x += step {
		if back {
			b.DrawLine(x, y0, x+(y1-y0), y1)
		} else {
			b.DrawLine(x, y1, x+(y1-y0), y0)
		}
	}
	b.Stroke()
	b.ResetClip()
	b.Pop()
}

// outside says whether an outline lies wholly beside the picture.
func (b *brush) outside(q geometry.Polygon) bool {
	r := q.Bounds()
	x0, y0 := b.at(geometry.Point{X: r.MinX, Y: r.MinY})
	x1, y1 := b.at(geometry.Point{X: r.MaxX, Y: r.MaxY})
	return x1 < 0 || y1 < 0 || x0 > float64(b.w) || y0 > float64(b.h)
}

// ghost is a dashed outline: where a piece was lifted from, or lies in another lay.
func (b *brush) ghost(p drawing.Piece, line, dash float64) {
	if b.outside(p.Cut) {
		return
	}
	b.SetColor(b.c.strip.Ink)
	b.SetLineWidth(line * b.px)
	b.SetDash(dash*b.px, 4*b.px)
	b.path(p.Cut, true)
	b.Stroke()
	b.SetDash()
}

// moveArrow shows the way of a piece from its old place to its new one.
func (b *brush) moveArrow(from, to geometry.Point) {
	x0, y0 := b.at(from)
	x1, y1 := b.at(to)
	long := math.Hypot(x1-x0, y1-y0)
	if long < 3*b.px {
		return
	}
	ux, uy, head := (x1-x0)/long, (y1-y0)/long, 9*b.px
	for _, pen := range []struct {
		c    color.Color
		wide float64
	}{{b.c.ground, 6}, {b.c.woad, 2.6}} {
		b.SetColor(pen.c)
		b.SetLineWidth(pen.wide * b.px)
		b.DrawLine(x0, y0, x1, y1)
		b.DrawLine(x1, y1, x1-head*(ux+uy/2), y1-head*(uy-ux/2))
		b.DrawLine(x1, y1, x1-head*(ux-uy/2), y1-head*(uy+ux/2))
		b.Stroke()
	}
}

// piece draws one piece: cut line solid, seam line dashed, an arrow along the
// warp, its name, and signs for pinned and for what is wrong.
func (b *brush) piece(p drawing.Piece, picked, fault bool) {
	if b.outside(p.Cut) {
		return
	}
	fills := b.c.strip.PieceFills
	b.path(p.Cut, true)
	b.SetColor(fills[b.fills[p.Name]%len(fills)])
	b.Fill()
	if fault && !b.plain {
		b.hatch(p.Cut, 7*b.px, b.c.strip.Fault, false)
	}
	ink := color.Color(b.c.strip.OnPieceInk)
	if !b.plain {
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
	}
	line := 1.4
	if b.plain {
		line = 0.8
	}
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
	if !b.plain {
		b.words(p, fault)
	}
}

// words writes a piece's name where it fits within the cut line, along the
// cloth or upright, and the arrow of the warp under it. Where no name fits, the
// number in the order of cutting stands for it.
func (b *brush) words(p drawing.Piece, fault bool) {
	x, y := b.at(p.Cut.Centroid())
	text := p.Title(false)
	if p.Pinned {
		text += words(", pinned")
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
	b.SetFontFace(b.ink.face(b.font, size*b.px))
	return b.MeasureString(text)
}

// holds says whether a box about (x, y), in pixels, lies within a cut line.
func (b *brush) holds(cut geometry.Polygon, x, y, w, h float64) bool {
	for _, c := range [][2]float64{{-1, -1}, {-1, 1}, {1, -1}, {1, 1}, {-1, 0}, {1, 0}} {
		at := geometry.Point{X: (x+c[0]*w/2)/b.perCM + b.corner.X, Y: (y+c[1]*h/2)/b.perCM + b.corner.Y}
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
	b.SetColor(fills[b.fills[name]%len(fills)])
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
func (b *brush) frame() {
	x0, y0 := b.at(geometry.Point{})
	x1, y1 := b.at(geometry.Point{X: b.lengthCM, Y: b.widthCM})
	b.SetColor(b.c.strip.Ink)
	b.SetLineWidth(1.5 * b.px)
	for _, l := range stretches(b.sheet, b.lengthCM) {
		from, to := (l.FromCM-b.corner.X)*b.perCM, (l.ToCM-b.corner.X)*b.perCM
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
