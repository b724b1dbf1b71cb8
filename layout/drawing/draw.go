package drawing

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"math"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"ellwand/geometry"
)

// Draw draws the sheet. A long strip is broken into rows, each with rulers
// along both selvedges. Same sheet and options, same picture. The cost grows
// with the picture's size and, for the writing, with pieces times corners.
func Draw(s Sheet, o Options) (image.Image, error) {
	d, err := newDiagram(s, o)
	if err != nil {
		return nil, err
	}
	d.paint()
	return d.dc.Image(), nil
}

// diagram is a picture being drawn.
type diagram struct {
	Sheet
	c       Colours
	px      float64 // picture width
	unit    float64 // px of 1/3000 of the width: all sizes go by it
	margin  float64
	scale   float64 // px per cm
	rows    []row
	tableY  float64
	height  float64
	dc      *gg.Context
	regular *truetype.Font
	bold    *truetype.Font
	faces   map[[2]float64]font.Face
	placer  placer
	labels  []box // every box of writing, for the tests
}

// row is a stretch of the strip, from and to in cm, drawn with its left
// selvedge at y.
type row struct{ from, to, y float64 }

const (
	textSize   = 38.0
	smallSize  = 31.0
	rulerBand  = 104.0
	titleBlock = 330.0
	lineHeight = 1.32
)

func newDiagram(s Sheet, o Options) (*diagram, error) {
	o, err := o.settled()
	if err != nil {
		return nil, err
	}
	if err := s.validate(); err != nil {
		return nil, err
	}
	regular, err1 := truetype.Parse(goregular.TTF)
	bold, err2 := truetype.Parse(gobold.TTF)
	if err := errors.Join(err1, err2); err != nil {
		return nil, fmt.Errorf("reading the built-in font: %w", err)
	}
	d := &diagram{Sheet: s, c: Palette(o.Dark), px: float64(o.PixelWidth), unit: float64(o.PixelWidth) / 3000,
		regular: regular, bold: bold, faces: map[[2]float64]font.Face{}}
	d.margin = 110 * d.unit
	d.breakRows()
	if d.height > 30000 || d.height*d.px > 2.5e8 {
		return nil, fmt.Errorf("the diagram would be %.0f px high; a narrower picture, or fewer or shorter pieces, can be drawn", d.height)
	}
	d.dc = gg.NewContext(o.PixelWidth, int(math.Ceil(d.height)))
	return d, nil
}

// breakRows chooses the number of rows that draws the cloth largest on a page
// of A4's proportions, and sets each row's place.
func (d *diagram) breakRows() {
	room := d.px - 2*d.margin
	table := d.tableHeight()
	rowHeight := func(n int) float64 { return d.WidthCM*room*float64(n)/d.LengthCM + 2*rulerBand*d.unit }
	n := 1
	for n < 60 && titleBlock*d.unit+float64(n+1)*rowHeight(n+1)+table < 1.45*d.px {
		n++
	}
	d.scale = min(room*float64(n)/d.LengthCM, 0.95*d.px/d.WidthCM)
	span := d.LengthCM / float64(n)
	y := titleBlock * d.unit
	for i := range n {
		d.rows = append(d.rows, row{float64(i) * span, float64(i+1) * span, y + rulerBand*d.unit})
		y += d.WidthCM*d.scale + 2*rulerBand*d.unit
	}
	d.tableY = y + 10*d.unit
	d.height = d.tableY + table + d.margin/2
}

func (d *diagram) face(size float64, bold bool) font.Face {
	key := [2]float64{size, 0}
	f := d.regular
	if bold {
		key[1], f = 1, d.bold
	}
	if d.faces[key] == nil {
		d.faces[key] = truetype.NewFace(f, &truetype.Options{Size: size * d.unit, DPI: 72})
	}
	return d.faces[key]
}

// width is how wide a text is, in px.
func (d *diagram) width(text string, size float64, bold bool) float64 {
	return float64(font.MeasureString(d.face(size, bold), text)) / 64
}

// shorten cuts a text to fit, with an ellipsis.
func (d *diagram) shorten(text string, size float64, bold bool, most float64) string {
	if d.width(text, size, bold) <= most {
		return text
	}
	r := []rune(text)
	low, high := 0, len(r)
	for low < high {
		mid := (low + high + 1) / 2
		if d.width(string(r[:mid])+"…", size, bold) <= most {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return string(r[:low]) + "…"
}

// write puts a line with its upper left corner at (x, y).
func (d *diagram) write(text string, x, y, size float64, bold bool, c color.Color) {
	if text == "" {
		return
	}
	f := d.face(size, bold)
	d.dc.SetFontFace(f)
	d.dc.SetColor(c)
	d.dc.DrawString(text, x, y+float64(f.Metrics().Ascent)/64)
	d.labels = append(d.labels, box{x, y, d.width(text, size, bold), size * d.unit})
}

func (d *diagram) paint() {
	d.dc.SetColor(d.c.Paper)
	d.dc.Clear()
	d.titleBlock()
	for i, r := range d.rows {
		d.ground(r)
		for k := range d.Pieces {
			d.shape(r, k)
		}
		d.edges(r, i)
	}
	for k := range d.Pieces {
		d.label(k)
	}
	d.table()
}

// at is where a point of the strip is drawn in a row.
func (d *diagram) at(r row, v geometry.Point) (x, y float64) {
	return d.margin + (v.X-r.from)*d.scale, r.y + v.Y*d.scale
}

func (d *diagram) rowBox(r row) box {
	return box{d.margin, r.y, (r.to - r.from) * d.scale, d.WidthCM * d.scale}
}

// ground draws the bare cloth, hatched as waste until a piece covers it.
func (d *diagram) ground(r row) {
	b, dc := d.rowBox(r), d.dc
	dc.DrawRectangle(b.x, b.y, b.w, b.h)
	dc.SetColor(d.c.Waste)
	dc.FillPreserve()
	dc.Clip()
	dc.SetColor(d.c.Hatch)
	dc.SetLineWidth(2 * d.unit)
	step := 26 * d.unit
	for x := b.x - b.h; x < b.x+b.w; x += step {
		dc.DrawLine(x, b.y+b.h, x+b.h, b.y)
		dc.Stroke()
	}
	for _, f := range d.Flaws {
		d.path(r, f, true)
		dc.SetColor(d.c.Fault)
		dc.SetLineWidth(4 * d.unit)
		dc.Stroke()
		m := f.Bounds()
		x0, y0 := d.at(r, geometry.Point{X: m.MinX, Y: m.MinY})
		x1, y1 := d.at(r, geometry.Point{X: m.MaxX, Y: m.MaxY})
		dc.DrawLine(x0, y0, x1, y1)
		dc.DrawLine(x0, y1, x1, y0)
		dc.Stroke()
	}
	dc.ResetClip()
}

func (d *diagram) path(r row, line []geometry.Point, closed bool) {
	d.dc.NewSubPath()
	for _, v := range line {
		d.dc.LineTo(d.at(r, v))
	}
	if closed {
		d.dc.ClosePath()
	}
}

// shape draws what of piece k lies in the row: filled, cut line solid, seam
// line dashed, marks thin.
func (d *diagram) shape(r row, k int) {
	p, dc := d.Pieces[k], d.dc
	if m := p.Cut.Bounds(); m.MaxX <= r.from || m.MinX >= r.to {
		return
	}
	b := d.rowBox(r)
	pad := 4 * d.unit
	dc.DrawRectangle(b.x-pad, b.y-pad, b.w+2*pad, b.h+2*pad)
	dc.Clip()
	defer dc.ResetClip()
	d.path(r, p.Cut, true)
	dc.SetColor(d.fill(p.Name))
	dc.FillPreserve()
	dc.SetColor(d.c.Ink)
	dc.SetLineWidth(5 * d.unit)
	if p.Fault {
		dc.SetColor(d.c.Fault)
		dc.SetLineWidth(10 * d.unit)
	}
	dc.Stroke()
	dc.SetColor(d.c.Ink)
	dc.SetDash(18*d.unit, 12*d.unit)
	dc.SetLineWidth(2.5 * d.unit)
	if len(p.Seam) > 2 {
		d.path(r, p.Seam, true)
		dc.Stroke()
	}
	dc.SetDash()
	for _, m := range p.Marks {
		d.path(r, m, false)
		dc.Stroke()
	}
}

// fill is one colour for all copies of a piece, by its place among the names.
func (d *diagram) fill(name string) color.Color {
	seen := map[string]int{}
	for _, p := range d.Pieces {
		if _, ok := seen[p.Name]; !ok {
			seen[p.Name] = len(seen)
		}
	}
	return d.c.PieceFills[seen[name]%len(d.c.PieceFills)]
}
