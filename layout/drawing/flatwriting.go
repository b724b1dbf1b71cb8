package drawing

import (
	"fmt"
	"math"

	"ellwand/geometry"
	"ellwand/paper"
)

// names writes each piece's name once in every view, where there is room.
func (f *flatPlate) names(v FlatView, onto func([]geometry.Point) geometry.Polygon) {
	said := map[string]bool{}
	for i := len(v.Parts) - 1; i >= 0; i-- {
		p := v.Parts[i]
		var q geometry.Polygon
		for _, e := range p.Edges {
			q = append(q, onto(e.Line)...)
		}
		if said[p.Name] || len(q) < 3 || p.Through {
			continue
		}
		w, h := f.width(p.Name, smallSize, false), smallSize*boxHeight*f.unit
		c := q.Centroid()
		for k := range 35 {
			across, down := []float64{0, -0.8, 0.8, -1.6, 1.6}[k%5], []float64{0, 2, -2, 4, -4, 7, -7}[k/5]
			b := box{c.X - w/2 + across*w, c.Y - h/2 + down*h, w, h}
			if inside(q, b) && f.free(b) && !covered(v.Parts[i+1:], b, onto) {
				f.write(p.Name, b.x, b.y, smallSize, false, f.c.OnPieceInk)
				said[p.Name] = true
				break
			}
		}
	}
}

// covered says whether one of the parts lies over a box.
func covered(parts []FlatPart, b box, onto func([]geometry.Point) geometry.Polygon) bool {
	for _, p := range parts {
		var q geometry.Polygon
		for _, e := range p.Edges {
			q = append(q, onto(e.Line)...)
		}
		for _, v := range append(b.polygon(), geometry.Point{X: b.x + b.w/2, Y: b.y + b.h/2}) {
			if !p.Through && len(q) > 2 && geometry.Locate(q, v) != geometry.Outside {
				return true
			}
		}
	}
	return false
}

func inside(q geometry.Polygon, b box) bool {
	for _, v := range b.polygon() {
		if geometry.Locate(q, v) == geometry.Outside {
			return false
		}
	}
	return true
}

func (f *flatPlate) free(b box) bool {
	for _, o := range f.labels {
		if b.x < o.x+o.w && o.x < b.x+b.w && b.y < o.y+o.h && o.y < b.y+b.h {
			return false
		}
	}
	return true
}

// numbers puts each seam's number on it, as near its middle as is free.
func (f *flatPlate) numbers(v FlatView, onto func([]geometry.Point) geometry.Polygon) {
	r := 24 * f.unit
	for _, s := range v.Seams {
		line := onto(s.Line)
		if s.Number == 0 || len(line) < 2 {
			continue
		}
		var at geometry.Point
		for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
			at = along(line, share)
			if f.free(box{at.X - r, at.Y - r, 2 * r, 2 * r}) {
				break
			}
		}
		text := fmt.Sprint(s.Number)
		f.pen.fill(circle(at, r), f.c.Paper)
		f.pen.stroke(circle(at, r), stroke{width: 2 * f.unit, closed: true, c: f.c.Ink})
		size := 30.0
		w := f.width(text, size, false)
		f.write(text, at.X-w/2, at.Y-size*boxHeight*f.unit/2, size, false, f.c.Ink)
		f.labels = append(f.labels, box{at.X - r, at.Y - r, 2 * r, 2 * r})
	}
}

func circle(c geometry.Point, r float64) []geometry.Point {
	var out []geometry.Point
	for i := range 24 {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 24)
		out = append(out, geometry.Point{X: c.X + r*k, Y: c.Y + r*s})
	}
	return out
}

// along is the point at a share of a line's length.
func along(line []geometry.Point, share float64) geometry.Point {
	total := 0.0
	for i := 1; i < len(line); i++ {
		total += math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
	}
	left := total * share
	for i := 1; i < len(line); i++ {
		l := math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
		if left <= l && l > 0 {
			t := left / l
			return geometry.Point{X: line[i-1].X + t*(line[i].X-line[i-1].X), Y: line[i-1].Y + t*(line[i].Y-line[i-1].Y)}
		}
		left -= l
	}
	return line[len(line)-1]
}

// scaleBar is 50 cm long, or 20 inches, or a fifth of that for small garments.
func (f *flatPlate) scaleBar() {
	long, name := 50.0, "50 cm"
	if f.Unit == Inches {
		long, name = 20*2.54, "20 in"
	}
	if long*f.scale > f.px/3 {
		long, name = long/5, map[Unit]string{Centimetres: "10 cm", Inches: "4 in"}[f.Unit]
	}
	x, y, u := f.margin, f.tall, f.unit
	f.line(x, y, x+long*f.scale, y, 4, f.c.Ink)
	for _, at := range []float64{x, x + long*f.scale} {
		f.line(at, y-12*u, at, y+12*u, 4, f.c.Ink)
	}
	f.write(name, x+long*f.scale+16*u, y-smallSize*boxHeight*u/2, smallSize, false, f.c.Ink)
}

func (f *flatPlate) listRows() (rows []listRow) {
	wide := (f.px-2*f.margin)/float64(f.cols) - 40*f.unit
	for _, s := range f.s.Steps {
		for i, l := range f.wrap(paper.Clean(s.Head), smallSize, wide*0.94, 4) {
			rows = append(rows, listRow{l, true, i == 0})
		}
		for _, t := range s.Lines {
			for _, l := range f.wrap(paper.Clean(t), smallSize, wide, 3) {
				rows = append(rows, listRow{l, false, false})
			}
		}
	}
	return rows
}

type listRow struct {
	text        string
	bold, first bool
}

func (f *flatPlate) listHeight() float64 {
	return float64(len(f.listRows())/f.cols+2)*smallSize*lineHeight*f.unit + 90*f.unit
}

// list writes the order of sewing in columns.
func (f *flatPlate) list() {
	if len(f.s.Steps) == 0 {
		return
	}
	f.write("Sewing, in order, with finished lengths", f.margin, f.tableY, textSize, true, f.c.Ink)
	rows := f.listRows()
	each, step := len(rows)/f.cols+1, smallSize*lineHeight*f.unit
	for i, r := range rows {
		x := f.margin + float64(i/each)*(f.px-2*f.margin)/float64(f.cols)
		y := f.tableY + 80*f.unit + float64(i%each)*step
		f.write(r.text, x, y, smallSize, r.bold, f.c.Ink)
	}
}
