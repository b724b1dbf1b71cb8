package drawing

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"math"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"ellwand/geometry"
	"ellwand/paper"
)

// Draw draws the sheet. A long strip is broken into rows, each with rulers
// along both selvedges. Same sheet and options, same picture. The cost grows
// with the picture's size and, for the writing, with pieces times corners.
func Draw(s Sheet, o Options) (image.Image, error) {
	d, err := newDiagram(s, o)
	if err != nil {
		return nil, err
	}
	p := newPicturePen(int(d.px), int(d.height), d.face)
	d.paint(p)
	return p.image(), nil
}

// diagram is a picture being drawn.
type diagram struct {
	Sheet
	c       Colours
	px      float64 // picture width
	height  float64
	unit    float64 // px of 1/3000 of the width: all sizes go by it
	margin  float64
	scale   float64 // px per cm
	rows    []row
	tableY  float64
	notes   []string // broken into lines
	fonts   [2]*truetype.Font
	faces   map[faceKey]font.Face
	fills   map[string]color.RGBA
	pen     pen
	placer  placer
	labels  []box // every box of writing, for the tests
	unnamed []int // pieces that nothing could be written on
	noTable bool  // the diagram alone
}

type faceKey struct {
	size float64
	bold bool
}

// row is a stretch of the strip, from and to in cm, drawn with its left
// selvedge at y.
type row struct{ from, to, y float64 }

// Sizes in units of 1/3000 of the picture's width. On A4 paper textSize is
// 8 pt and smallSize just under 7 pt.
const (
	textSize   = 46.0
	smallSize  = 38.0
	titleSize  = 68.0
	rulerBand  = 132.0
	goesOn     = 14.0 // shown of the cloth beyond a row's end
	lineHeight = 1.32
	boxHeight  = 1.17 // ascent and descent of the font
)

// blank is a sheet with its fonts and colours and nothing drawn; o is settled.
func blank(s Sheet, o Options) (*diagram, error) {
	regular, err1 := truetype.Parse(goregular.TTF)
	bold, err2 := truetype.Parse(gobold.TTF)
	if err := errors.Join(err1, err2); err != nil {
		return nil, fmt.Errorf("reading the built-in font: %w", err)
	}
	return &diagram{Sheet: s, c: Palette(o.Dark), px: float64(o.PixelWidth), unit: float64(o.PixelWidth) / 3000,
		fonts: [2]*truetype.Font{regular, bold}, faces: map[faceKey]font.Face{}}, nil
}

func newDiagram(s Sheet, o Options) (*diagram, error) {
	o, err := o.settled()
	if err != nil {
		return nil, err
	}
	if err := s.validate(); err != nil {
		return nil, err
	}
	d, err := blank(s, o)
	if err != nil {
		return nil, err
	}
	d.fills = map[string]color.RGBA{}
	d.margin = max(120*d.unit, d.width(d.bare(math.Ceil(d.WidthCM)), smallSize, false)+64*d.unit)
	for _, p := range s.Pieces {
		if _, ok := d.fills[p.Name]; !ok {
			d.fills[p.Name] = d.c.PieceFills[len(d.fills)%len(d.c.PieceFills)]
		}
	}
	for _, n := range s.Notes {
		d.notes = append(d.notes, d.wrap(paper.Clean(n), smallSize, d.px-2*d.margin, 6)...)
	}
	d.placeRows()
	if d.height > 30000 || d.height*d.px > 2.5e8 {
		return nil, fmt.Errorf("the diagram would be %.0f px high; a narrower picture, or fewer or shorter pieces, can be drawn", d.height)
	}
	return d, nil
}

func (d *diagram) face(size float64, bold bool) font.Face {
	key := faceKey{size, bold}
	if d.faces[key] == nil {
		f := d.fonts[0]
		if bold {
			f = d.fonts[1]
		}
		d.faces[key] = truetype.NewFace(f, &truetype.Options{Size: size * d.unit, DPI: 72})
	}
	return d.faces[key]
}

func (d *diagram) paint(p pen) {
	d.pen = p
	p.fill(box{0, 0, d.px, d.height}.polygon(), d.c.Paper)
	d.titleBlock()
	for i, r := range d.rows {
		d.ground(r)
		d.noCloth(r)
		for _, q := range d.Pieces {
			d.shape(r, q)
		}
		d.edges(r, i)
		d.flawNamesIn(r)
	}
	for k := range d.Pieces {
		d.label(k)
	}
	for k := range d.Pieces {
		d.labelsGoingOn(k)
	}
	for _, k := range d.unnamed {
		d.leader(k)
	}
	if !d.noTable {
		d.table()
	}
}

// at is where a point of the strip is drawn in a row.
func (d *diagram) at(r row, v geometry.Point) geometry.Point {
	return geometry.Point{X: d.margin + (v.X-r.from)*d.scale, Y: r.y + v.Y*d.scale}
}

// onPicture is a line or outline as drawn in a row.
func (d *diagram) onPicture(r row, line []geometry.Point) geometry.Polygon {
	out := make(geometry.Polygon, len(line))
	for i, v := range line {
		out[i] = d.at(r, v)
	}
	return out
}

func (d *diagram) rowBox(r row) box {
	return box{d.margin, r.y, (r.to - r.from) * d.scale, d.WidthCM * d.scale}
}

// wholeBox is rowBox with the bit of cloth shown beyond an end that goes on.
func (d *diagram) wholeBox(r row) box {
	b, more := d.rowBox(r), goesOn*d.unit
	if r.from > 0 {
		b.x, b.w = b.x-more, b.w+more
	}
	if r.to < d.LengthCM {
		b.w += more
	}
	return b
}

// ground draws the bare cloth, hatched as waste until a piece covers it.
func (d *diagram) ground(r row) {
	b := d.wholeBox(r)
	d.pen.clip(b)
	defer d.pen.unclip()
	d.pen.fill(b.polygon(), d.c.Waste)
	for x := b.x - b.h; x < b.x+b.w; x += 26 * d.unit {
		left, right := max(x, b.x), min(x+b.h, b.x+b.w)
		d.line(left, b.y+b.h-(left-x), right, b.y+b.h-(right-x), 2, d.c.Hatch)
	}
}

// shape draws what of a piece lies in the row: filled, cut line solid, seam
// line dashed, marks thin.
func (d *diagram) shape(r row, p Piece) {
	more := goesOn * d.unit / d.scale
	if m := p.Cut.Bounds(); m.MaxX <= r.from-more || m.MinX >= r.to+more {
		return
	}
	b := d.wholeBox(r)
	edge := 4 * d.unit // for the thickness of a cut line on the selvedge or the cut end
	if r.from == 0 {
		b.x, b.w = b.x-edge, b.w+edge
	}
	if r.to == d.LengthCM {
		b.w += edge
	}
	d.pen.clip(box{b.x, b.y - edge, b.w, b.h + 2*edge})
	defer d.pen.unclip()
	cut := d.onPicture(r, p.Cut)
	d.pen.fill(cut, d.fills[p.Name])
	s := stroke{width: 5 * d.unit, closed: true, c: d.c.Ink}
	if p.Fault {
		s.width, s.c = 10*d.unit, d.c.Fault
	}
	d.pen.stroke(cut, s)
	if len(p.Seam) > 2 {
		d.pen.stroke(d.onPicture(r, p.Seam), d.seamLine(true))
	}
	for _, m := range p.Marks {
		if len(m) > 1 {
			d.pen.stroke(d.onPicture(r, m), stroke{width: 2.5 * d.unit, c: d.c.Ink})
		}
	}
}

func (d *diagram) seamLine(closed bool) stroke {
	return stroke{width: 2.5 * d.unit, dash: 18 * d.unit, gap: 12 * d.unit, closed: closed, c: d.c.Ink}
}

// line is a straight solid line, its width in units.
func (d *diagram) line(x1, y1, x2, y2, width float64, c color.RGBA) {
	d.pen.stroke([]geometry.Point{{X: x1, Y: y1}, {X: x2, Y: y2}}, stroke{width: width * d.unit, c: c})
}

// arrow is a long arrow from x to x2 at height y.
func (d *diagram) arrow(x, y, x2 float64, c color.RGBA) {
	h := 12 * d.unit
	s := math.Copysign(1, x2-x)
	d.line(x, y, x2-s*h, y, 3, c)
	d.pen.fill([]geometry.Point{{X: x2, Y: y}, {X: x2 - s*2*h, Y: y - h*0.8}, {X: x2 - s*2*h, Y: y + h*0.8}}, c)
}
