package drawing

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// mainRow is the row in which most of a piece lies.
func (d *diagram) mainRow(p Piece) row {
	m := p.Cut.Bounds()
	best, most := d.rows[0], -1.0
	for _, r := range d.rows {
		if l := min(m.MaxX, r.to) - max(m.MinX, r.from); l > most {
			best, most = r, l
		}
	}
	return best
}

// onPicture is a polygon as drawn in a row, in px.
func (d *diagram) onPicture(r row, p geometry.Polygon) geometry.Polygon {
	out := make(geometry.Polygon, len(p))
	for i, v := range p {
		out[i].X, out[i].Y = d.at(r, v)
	}
	return out
}

// wordings are what may be written in a piece, the fullest first.
func (d *diagram) wordings(p Piece) [][]string {
	m := p.Cut.Bounds()
	head := fmt.Sprintf("%d  %s", p.Number, p.title())
	if p.Pinned {
		head += " (pinned)"
	}
	if p.Fault {
		head += " ! overlaps"
	}
	size := fmt.Sprintf("%s × %s %s", d.bare(m.Width()), d.bare(m.Height()), d.unitName())
	along := fmt.Sprintf("%s to %s along", d.bare(m.MinX), d.bare(m.MaxX))
	across := fmt.Sprintf("%s to %s across", d.bare(m.MinY), d.bare(m.MaxY))
	short := fmt.Sprintf("%d  %s", p.Number, clean(p.Name))
	room := 0.7 * min(m.Width()*d.scale, d.px-2*d.margin)
	cut := d.shorten(short, smallSize, true, room)
	first, second := halved(short)
	out := [][]string{{head, size, along + ", " + across}, {head, size, along, across}, {head, size}, {short, size}, {head}, {short}, {first, second, size}, {first, second}}
	if len([]rune(cut)) > 6 {
		out = append(out, []string{cut, size}, []string{cut})
	}
	return append(out, []string{fmt.Sprint(p.Number)})
}

// halved parts a name at the blank nearest its middle.
func halved(name string) (first, second string) {
	at, r := -1, []rune(name)
	for i, c := range r {
		if c == ' ' && i > 3 && (at < 0 || math.Abs(float64(i)-float64(len(r))/2) < math.Abs(float64(at)-float64(len(r))/2)) {
			at = i
		}
	}
	if at < 0 {
		return name, ""
	}
	return string(r[:at]), string(r[at+1:])
}

// label writes on piece k, or beside it with a line leading to it when it is
// too small for anything.
func (d *diagram) label(k int) {
	p := d.Pieces[k]
	r := d.mainRow(p)
	shape, within := d.onPicture(r, p.Cut), inset(d.rowBox(r), 8*d.unit)
	marks := d.linesOf(r, p)
	words := d.wordings(p)
	for _, lines := range words {
		for _, size := range []float64{textSize, smallSize} {
			w, h := d.extent(lines, size)
			pad := 10 * d.unit
			b, ok := d.placer.inside(shape, marks, within, w+2*pad, h+2*pad)
			if !ok {
				continue
			}
			d.lines(lines, b.x+pad, b.y+pad, size)
			d.grain(p, shape, marks, within)
			return
		}
	}
	d.leader(shape, r, fmt.Sprintf("%d  %s", p.Number, clean(p.Name)))
}

// linesOf are the seam line and the marks of a piece as drawn in a row: writing
// keeps off them.
func (d *diagram) linesOf(r row, p Piece) [][]geometry.Point {
	var out [][]geometry.Point
	if len(p.Seam) > 2 {
		out = append(out, d.onPicture(r, append(append(geometry.Polygon(nil), p.Seam...), p.Seam[0])))
	}
	for _, m := range p.Marks {
		out = append(out, d.onPicture(r, m))
	}
	return out
}

func inset(b box, by float64) box { return box{b.x + by, b.y + by, b.w - 2*by, b.h - 2*by} }

func (d *diagram) extent(lines []string, size float64) (w, h float64) {
	for i, l := range lines {
		w = max(w, d.width(l, size, i == 0))
	}
	return w, (float64(len(lines)-1)*lineHeight + 1.05) * size * d.unit
}

func (d *diagram) lines(lines []string, x, y, size float64) {
	for i, l := range lines {
		d.write(l, x, y+float64(i)*size*lineHeight*d.unit, size, i == 0, d.c.OnPieceInk)
	}
}

// grain draws the long arrow along the warp, where there is room for one.
func (d *diagram) grain(p Piece, shape geometry.Polygon, marks [][]geometry.Point, within box) {
	m := shape.Bounds()
	visible := min(m.MaxX, within.x+within.w) - max(m.MinX, within.x)
	for _, share := range []float64{0.5, 0.35, 0.2, 0.1} {
		w := min(visible*share, 700*d.unit)
		if w < 60*d.unit {
			return
		}
		b, ok := d.placer.inside(shape, marks, within, w, 34*d.unit)
		if !ok {
			continue
		}
		d.dc.SetColor(d.c.OnPieceInk)
		mid := b.y + b.h/2
		if math.Abs(p.GrainDeg-180) < 1 {
			d.arrow(b.x+b.w, mid, b.x)
		} else {
			d.arrow(b.x, mid, b.x+b.w)
		}
		return
	}
}

// leader writes beside a piece too small to be written on.
func (d *diagram) leader(shape geometry.Polygon, r row, text string) {
	c := shape.Centroid()
	var shapes []geometry.Polygon
	for _, p := range d.Pieces {
		shapes = append(shapes, d.onPicture(r, p.Cut))
	}
	pad := 6 * d.unit
	text = d.shorten(text, smallSize, false, 600*d.unit)
	w, h := d.width(text, smallSize, false)+2*pad, smallSize*1.1*d.unit+2*pad
	b, ok := d.placer.near(c.X, c.Y, inset(d.rowBox(r), 8*d.unit), w, h, shapes)
	if !ok {
		return // the table names it by its place
	}
	dc := d.dc
	dc.SetColor(d.c.Paper)
	dc.DrawRectangle(b.x, b.y, b.w, b.h)
	dc.FillPreserve()
	dc.SetColor(d.c.Ink)
	dc.SetLineWidth(1.5 * d.unit)
	dc.Stroke()
	dc.DrawLine(min(max(c.X, b.x), b.x+b.w), min(max(c.Y, b.y), b.y+b.h), c.X, c.Y)
	dc.Stroke()
	dc.DrawCircle(c.X, c.Y, 4*d.unit)
	dc.Fill()
	d.write(text, b.x+pad, b.y+pad, smallSize, false, d.c.Ink)
}
