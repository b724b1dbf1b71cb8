package ui

import (
	"ellwand/geometry"
	"ellwand/layout/drawing"
)

// noCloth blanks what of the strip is no cloth: beyond measured edges, and
// between two lengths of cloth; each length begins with its name.
func (b *brush) noCloth() {
	wide := b.widthCM
	b.SetColor(b.c.ground)
	for _, q := range b.sheet.NoCloth {
		b.path(q, true)
	}
	b.Fill()
	lengths := b.sheet.Lengths
	edge := geometry.Point{Y: 4 * b.px / b.perCM}
	for k := 1; k < len(lengths); k++ {
		from, to := lengths[k-1].ToCM, lengths[k].FromCM
		b.SetColor(b.c.ground)
		x0, y0 := b.at(geometry.Point{X: from, Y: -edge.Y})
		x1, y1 := b.at(geometry.Point{X: to, Y: wide + edge.Y})
		b.DrawRectangle(x0, y0, x1-x0, y1-y0)
		b.Fill()
	}
	b.SetColor(b.c.strip.Ink)
	b.SetLineWidth(1.5 * b.px)
	for k, l := range lengths {
		if len(l.Left) > 0 {
			b.path(l.Left, false)
			b.path(l.Right, false)
			b.Stroke()
		}
		b.SetDash(6*b.px, 3*b.px)
		if k > 0 {
			b.path([]geometry.Point{{X: l.FromCM}, {X: l.FromCM, Y: wide}}, false)
		}
		if k < len(lengths)-1 {
			b.path([]geometry.Point{{X: l.ToCM}, {X: l.ToCM, Y: wide}}, false)
		}
		b.Stroke()
		b.SetDash()
	}
}

// flaws hatches each flaw on top of the pieces and writes its name on it.
func (b *brush) flaws() {
	for k, f := range b.sheet.Flaws {
		if b.outside(f) {
			continue
		}
		m := f.Bounds()
		x0, y0 := b.at(geometry.Point{X: m.MinX, Y: m.MinY})
		x1, y1 := b.at(geometry.Point{X: m.MaxX, Y: m.MaxY})
		b.hatch(f, 6*b.px, b.c.strip.Fault, false)
		b.hatch(f, 6*b.px, b.c.strip.Fault, true)
		b.SetColor(b.c.strip.Fault)
		b.SetLineWidth(2 * b.px)
		b.path(f, true)
		b.Stroke()
		if k < len(b.sheet.FlawNames) && !b.plain {
			x, y := b.at(f.Centroid())
			if w, h := b.measure(b.sheet.FlawNames[k], 11); w > x1-x0 || h > y1-y0 { // small: beneath it
				y = min(y1+h/2+5*b.px, float64(b.Height())-h)
			}
			b.plate(b.sheet.FlawNames[k], x, y)
		}
	}
}

// lengthNameRoom is how high the name of a length stands over the cloth, in the
// window's units.
const lengthNameRoom = 28

// lengthNames writes at each length's beginning what it is called: over the cloth
// where the picture has room there, else on it, off the pieces if that can be.
func (b *brush) lengthNames() {
	for _, l := range b.sheet.Lengths {
		w, h := b.measure(l.Name, 11)
		x, top := b.at(geometry.Point{X: l.FromCM})
		_, foot := b.at(geometry.Point{X: l.FromCM, Y: b.widthCM})
		x += w/2 + 6*b.px
		places := []float64{top - h/2 - 8*b.px, top + h/2 + 4*b.px, foot - h/2 - 6*b.px}
		at := places[1]
		for _, y := range places {
			if y-h/2-2*b.px >= 0 && b.bare(x-w/2, y-h/2, x+w/2, y+h/2) {
				at = y
				break
			}
		}
		b.plate(l.Name, x, at)
	}
}

// bare says whether no piece reaches into a box, in pixels.
func (b *brush) bare(x0, y0, x1, y1 float64) bool {
	for _, p := range b.pieces {
		m := p.Cut.Bounds()
		left, top := b.at(geometry.Point{X: m.MinX, Y: m.MinY})
		right, foot := b.at(geometry.Point{X: m.MaxX, Y: m.MaxY})
		if left < x1 && x0 < right && top < y1 && y0 < foot {
			return false
		}
	}
	return true
}

// plate writes a few words on a ground of their own.
func (b *brush) plate(text string, x, y float64) {
	w, h := b.measure(text, 11)
	b.SetColor(b.c.raised)
	b.DrawRectangle(x-w/2-3*b.px, y-h/2-2*b.px, w+6*b.px, h+5*b.px)
	b.Fill()
	b.SetColor(b.c.text)
	b.DrawStringAnchored(text, x, y, 0.5, 0.35)
}

// stretches is the lengths of cloth, or the one that the whole strip is.
func stretches(s drawing.Sheet, lengthCM float64) []drawing.Length {
	if len(s.Lengths) == 0 {
		return []drawing.Length{{ToCM: lengthCM}}
	}
	return s.Lengths
}
