package drawing

import (
	"fmt"
	"math"
	"slices"

	"ellwand/geometry"
	"ellwand/paper"
)

// Length is one length of cloth on the strip, from FromCM to ToCM; several lie
// one behind the other. Distances on a length count from its own first end.
type Length struct {
	Name         string
	FromCM, ToCM float64
	// Left and Right are its edges where they were measured, along the strip;
	// empty: the strip's own.
	Left, Right []geometry.Point
}

// Start is where the length of cloth begins on which something at x lies, and
// the length's name; 0 and "" where the cloth is all one.
func (s Sheet) Start(x float64) (float64, string) {
	at, name := 0.0, ""
	for _, l := range s.Lengths {
		if x >= l.FromCM-1e-6 {
			at, name = l.FromCM, paper.Clean(l.Name)
		}
	}
	return at, name
}

// between is the parts of the strip that are no cloth, between its lengths.
func (s Sheet) between() []Length {
	var out []Length
	for k := 1; k < len(s.Lengths); k++ {
		out = append(out, Length{FromCM: s.Lengths[k-1].ToCM, ToCM: s.Lengths[k].FromCM})
	}
	return out
}

// clothCM is the length of cloth that the lay takes.
func (s Sheet) clothCM() float64 {
	if s.ClothCM > 0 {
		return s.ClothCM
	}
	return s.LengthCM
}

func (s Sheet) flawName(k int) string {
	if k < len(s.FlawNames) && s.FlawNames[k] != "" {
		return paper.Clean(s.FlawNames[k])
	}
	return fmt.Sprintf("flaw %d", k+1)
}

// noCloth blanks what of a row is no cloth: beyond measured edges, and between
// lengths, with the cut ends drawn.
func (d *diagram) noCloth(r row) {
	d.pen.clip(d.wholeBox(r))
	for _, q := range d.NoCloth {
		d.pen.fill(d.onPicture(r, q), d.c.Paper)
	}
	d.pen.unclip()
	for _, l := range d.between() {
		a, b := d.at(r, geometry.Point{X: l.FromCM}), d.at(r, geometry.Point{X: l.ToCM, Y: d.WidthCM})
		if l.ToCM <= r.from || l.FromCM >= r.to {
			continue
		}
		edge := 6 * d.unit
		d.pen.fill(box{a.X, a.Y - edge, b.X - a.X, b.Y - a.Y + 2*edge}.polygon(), d.c.Paper)
		d.line(a.X, a.Y, a.X, b.Y, 5, d.c.Ink)
		d.line(b.X, a.Y, b.X, b.Y, 5, d.c.Ink)
	}
}

// lengthNames writes over each length's beginning what it is called, off what
// stands there up to x1 already.
func (d *diagram) lengthNames(r row, y, x1 float64) {
	for _, l := range d.Lengths {
		if l.FromCM < r.from || l.FromCM >= r.to || l.FromCM == 0 {
			continue
		}
		text := "from here " + paper.Clean(l.Name)
		x := max(d.at(r, geometry.Point{X: l.FromCM}).X, x1+30*d.unit)
		d.write(text, min(x, d.px-d.margin-d.width(text, smallSize, false)), y, smallSize, false, d.c.Faint)
		x1 = x + d.width(text, smallSize, false)
	}
}

// flaws draws each flaw hatched within its outline, on top of the pieces so
// that one lying under a piece is seen.
func (d *diagram) flaws(r row) {
	for _, f := range d.Flaws {
		m := f.Bounds()
		if len(f) < 3 || m.MaxX <= r.from || m.MinX >= r.to {
			continue
		}
		d.flaw(d.onPicture(r, f))
	}
}

func (d *diagram) flaw(q geometry.Polygon) {
	for _, l := range slanted(q, 20*d.unit) {
		d.line(l[0].X, l[0].Y, l[1].X, l[1].Y, 3, d.c.Fault)
	}
	d.pen.stroke(q, stroke{width: 5 * d.unit, closed: true, c: d.c.Fault})
}

// flawNamesIn writes each flaw's name on it, or beside it where it is small.
func (d *diagram) flawNamesIn(r row) {
	var shapes []geometry.Polygon
	for _, p := range d.Pieces {
		if r.visible(p) > 0 {
			shapes = append(shapes, d.onPicture(r, p.Cut))
		}
	}
	within, pad := inset(d.rowBox(r), 10*d.unit), 6*d.unit
	for k, f := range d.Flaws {
		m := f.Bounds()
		if mid := (m.MinX + m.MaxX) / 2; len(f) < 3 || mid < r.from || mid >= r.to && r.to < d.LengthCM || m.MinX >= d.LengthCM {
			continue
		}
		q := d.onPicture(r, f)
		name := d.shorten(d.flawName(k), smallSize, false, 500*d.unit)
		w, h := d.width(name, smallSize, false)+2*pad, smallSize*boxHeight*d.unit+2*pad
		if d.boxed(q, within, name, w, h, pad) {
			continue
		}
		c := d.rowBox(r).nearest(q.Centroid())
		for _, off := range [][]geometry.Polygon{append(slices.Clone(shapes), q), shapes, nil} {
			b, ok := d.placer.near(c, within, w, h, 260*d.unit, off)
			if !ok {
				continue
			}
			d.plate(b)
			if end := b.nearest(c); end != c {
				d.line(end.X, end.Y, c.X, c.Y, 2, d.c.Fault)
			}
			d.write(name, b.x+pad, b.y+pad, smallSize, false, d.c.Ink)
			break
		}
	}
}

// slanted is the parts inside a shape of lines rising at 45°, step apart.
func slanted(q geometry.Polygon, step float64) [][2]geometry.Point {
	var out [][2]geometry.Point
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range q {
		lo, hi = min(lo, v.X+v.Y), max(hi, v.X+v.Y)
	}
	if !(step > 0) || (hi-lo)/step > 1e5 {
		return nil
	}
	for c := math.Ceil(lo/step) * step; c < hi; c += step {
		var xs []float64
		for i, a := range q {
			b := q[(i+1)%len(q)]
			u, v := a.X+a.Y-c, b.X+b.Y-c
			if (u > 0) != (v > 0) {
				xs = append(xs, a.X+(b.X-a.X)*u/(u-v))
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			out = append(out, [2]geometry.Point{{X: xs[i], Y: c - xs[i]}, {X: xs[i+1], Y: c - xs[i+1]}})
		}
	}
	return out
}

// stretches is the lengths of cloth, or the one that the whole strip is.
func (s Sheet) stretches() []Length {
	if len(s.Lengths) == 0 {
		return []Length{{ToCM: s.LengthCM}}
	}
	return s.Lengths
}

// selvedges are the cloth's two edges, as far as there is cloth.
func (d *diagram) selvedges(r row, whole box) {
	d.pen.clip(box{whole.x, whole.y - 8*d.unit, whole.w, whole.h + 16*d.unit})
	defer d.pen.unclip()
	for k, l := range d.stretches() {
		from, to := l.FromCM, l.ToCM
		if k == len(d.stretches())-1 {
			to += whole.w / d.scale // as far as the row goes
		}
		for side, edge := range [2][]geometry.Point{l.Left, l.Right} {
			if y := float64(side) * d.WidthCM; len(edge) == 0 {
				edge = []geometry.Point{{X: from, Y: y}, {X: to, Y: y}}
			}
			d.pen.stroke(d.onPicture(r, edge), stroke{width: 8 * d.unit, c: d.c.Ink})
		}
	}
}
