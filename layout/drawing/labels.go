package drawing

import (
	"fmt"
	"math"

	"ellwand/geometry"
	"ellwand/paper"
)

// visible is how long a stretch of a piece lies in a row, in cm.
func (r row) visible(p Piece) float64 {
	m := p.Cut.Bounds()
	return min(m.MaxX, r.to) - max(m.MinX, r.from)
}

// mainRow is the row in which most of a piece lies.
func (d *diagram) mainRow(p Piece) int {
	best, most := 0, math.Inf(-1)
	for i, r := range d.rows {
		if l := r.visible(p); l > most+1e-9 {
			best, most = i, l
		}
	}
	return best
}

// wordings are what may be written in a piece, the fullest first.
func (d *diagram) wordings(p Piece) [][]string {
	m := p.Cut.Bounds()
	name, title := fmt.Sprintf("%d  %s", p.Number, paper.Clean(p.Name)), fmt.Sprintf("%d  %s", p.Number, p.title())
	full := title + p.state()
	size := d.bare(m.Width()) + " × " + d.length(m.Height())
	from, _ := d.Start(m.MinX)
	along := fmt.Sprintf("%s to %s along", d.bare(m.MinX-from), d.bare(m.MaxX-from))
	across := fmt.Sprintf("%s to %s across", d.bare(m.MinY), d.bare(m.MaxY))
	out := [][]string{{full, size, along + ", " + across}, {full, size, along, across}}
	a, b := halved(full)
	if b != "" {
		out = append(out, []string{a, b, size, along, across})
	}
	out = append(out, []string{full, size}, []string{title, size}, []string{title})
	if a, b := halved(title); b != "" {
		out = append(out, []string{a, b, size}, []string{a, b})
	}
	out = append(out, []string{name, size}, []string{name})
	if a, b := halved(name); b != "" {
		out = append(out, []string{a, b})
	}
	cut := d.shorten(name, smallSize, true, 0.7*min(m.Width()*d.scale, d.px-2*d.margin))
	if len([]rune(cut)) > 6 {
		out = append(out, []string{cut, size}, []string{cut})
	}
	return out
}

// halved parts a name at the blank nearest its middle; second is empty if
// there is none.
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

// label writes on piece k in its main row, or notes that nothing fits on it.
func (d *diagram) label(k int) {
	p := d.Pieces[k]
	r := d.rows[d.mainRow(p)]
	switch {
	case d.writeInside(r, p, d.wordings(p)):
		d.grain(r, p)
	case d.numberOverArrow(r, p):
	case !d.writeInside(r, p, [][]string{{fmt.Sprint(p.Number)}}):
		d.unnamed = append(d.unnamed, k)
	}
}

// numberOverArrow writes the number with a short arrow under it.
func (d *diagram) numberOverArrow(r row, p Piece) bool {
	shape, within, number := d.onPicture(r, p.Cut), inset(d.rowBox(r), 10*d.unit), fmt.Sprint(p.Number)
	pad, long, high := 8*d.unit, 60*d.unit, smallSize*boxHeight*d.unit
	w := d.width(number, smallSize, true)
	b, ok := d.placer.inside(shape, d.linesOf(r, p), within, max(w, long)+2*pad, high+2*pad+28*d.unit)
	if ok {
		d.write(number, b.x+(b.w-w)/2, b.y+pad, smallSize, true, d.c.OnPieceInk)
		d.arrowFor(p, b.x+(b.w-long)/2, b.y+b.h-pad-13*d.unit, long)
	}
	return ok
}

// labelsGoingOn names piece k in the other rows it reaches into.
func (d *diagram) labelsGoingOn(k int) {
	p := d.Pieces[k]
	main := d.mainRow(p)
	for i, r := range d.rows {
		if i == main || r.visible(p) <= 0 {
			continue
		}
		where := "continued above"
		if i < main {
			where = "continued below"
		}
		name := fmt.Sprintf("%d  %s", p.Number, p.title())
		cut := d.shorten(name, smallSize, true, 0.6*r.visible(p)*d.scale)
		d.writeInside(r, p, [][]string{{name, where}, {cut, where}, {cut}, {fmt.Sprint(p.Number)}})
	}
}

// writeInside writes the first of the wordings that fits on the piece.
func (d *diagram) writeInside(r row, p Piece, wordings [][]string) bool {
	shape, within, marks := d.onPicture(r, p.Cut), inset(d.rowBox(r), 10*d.unit), d.linesOf(r, p)
	for _, lines := range wordings {
		for _, size := range []float64{textSize, smallSize} {
			w, h := d.extent(lines, size)
			pad := 0.4 * size * d.unit
			if len(lines) == 1 {
				pad = 8 * d.unit
			}
			if b, ok := d.placer.inside(shape, marks, within, w+2*pad, h+2*pad); ok {
				d.lines(lines, b.x+pad, b.y+pad, size)
				return true
			}
		}
	}
	return false
}

// linesOf are the seam line and the marks of a piece as drawn in a row, and the
// flaws: writing keeps off them.
func (d *diagram) linesOf(r row, p Piece) [][]geometry.Point {
	var out [][]geometry.Point
	if len(p.Seam) > 2 {
		out = append(out, d.onPicture(r, append(append(geometry.Polygon(nil), p.Seam...), p.Seam[0])))
	}
	for _, m := range p.Marks {
		out = append(out, d.onPicture(r, m))
	}
	for _, f := range d.Flaws {
		if len(f) > 0 {
			out = append(out, d.onPicture(r, append(append(geometry.Polygon(nil), f...), f[0])))
		}
	}
	return out
}

// grain draws the long arrow along the warp, where there is room for one.
func (d *diagram) grain(r row, p Piece) {
	shape, within, marks := d.onPicture(r, p.Cut), inset(d.rowBox(r), 8*d.unit), d.linesOf(r, p)
	pad := 14 * d.unit
	for _, share := range []float64{0.5, 0.35, 0.2, 0.1} {
		w := min(r.visible(p)*d.scale*share, 700*d.unit)
		if w < 56*d.unit {
			w, share = 56*d.unit, 0
		}
		b, ok := d.placer.inside(shape, marks, within, w+2*pad, 36*d.unit)
		if !ok && share > 0 {
			continue
		}
		if !ok {
			return
		}
		d.arrowFor(p, b.x+pad, b.y+b.h/2, w)
		return
	}
}

// arrowFor draws the arrow of a piece from x on, the way the piece points.
func (d *diagram) arrowFor(p Piece, x, y, long float64) {
	if math.Abs(p.GrainDeg-180) < 1 {
		x, long = x+long, -long
	}
	d.arrow(x, y, x+long, d.c.OnPieceInk)
}

// leader writes beside piece k, too small to be written on, and draws a line
// to it: its name, or its number where the name finds no room. Among hundreds of
// tiny pieces some get neither; the table still says where they lie.
func (d *diagram) leader(k int) {
	p := d.Pieces[k]
	r := d.rows[d.mainRow(p)]
	c := d.rowBox(r).nearest(d.onPicture(r, p.Cut).Centroid())
	var shapes []geometry.Polygon
	for _, q := range d.Pieces {
		if r.visible(q) > 0 {
			shapes = append(shapes, d.onPicture(r, q.Cut))
		}
	}
	pad, within := 6*d.unit, inset(d.rowBox(r), 10*d.unit)
	number := fmt.Sprint(p.Number)
	name := d.shorten(number+"  "+p.title(), smallSize, false, 600*d.unit)
	// A narrow piece is long enough for its name across a seam line or a fold.
	own := d.onPicture(r, p.Cut)
	if w, h := d.width(name, smallSize, false)+2*pad, smallSize*boxHeight*d.unit+2*pad; d.boxed(own, within, name, w, h, pad) {
		d.grain(r, p)
		return
	}
	for _, try := range []struct {
		line string
		off  []geometry.Polygon
		most float64 // longest line to it
	}{{name, shapes, 120 * d.unit}, {number, shapes, 300 * d.unit}, {number, nil, 300 * d.unit}} {
		w, h := d.width(try.line, smallSize, false)+2*pad, smallSize*boxHeight*d.unit+2*pad
		b, ok := d.placer.near(c, within, w, h, try.most, try.off)
		if !ok {
			continue
		}
		d.plate(b)
		if end := b.nearest(c); end != c {
			d.line(end.X, end.Y, c.X, c.Y, 2, d.c.Ink)
			d.pen.fill(inset(box{c.X, c.Y, 0, 0}, -4*d.unit).polygon(), d.c.Ink)
		}
		d.write(try.line, b.x+pad, b.y+pad, smallSize, false, d.c.Ink)
		return
	}
}

// boxed writes a line on a plate of its own on a shape, over what is drawn there.
func (d *diagram) boxed(shape geometry.Polygon, within box, line string, w, h, pad float64) bool {
	b, ok := d.placer.inside(shape, nil, within, w, h)
	if ok {
		d.plate(b)
		d.write(line, b.x+pad, b.y+pad, smallSize, false, d.c.Ink)
	}
	return ok
}

// plate is the ground of a label that lies over lines.
func (d *diagram) plate(b box) {
	d.pen.fill(b.polygon(), d.c.Paper)
	d.pen.stroke(b.polygon(), stroke{width: 1.5 * d.unit, closed: true, c: d.c.Ink})
}
