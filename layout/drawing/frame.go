package drawing

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// titleBlock writes what the cloth is, and what the lines mean.
func (d *diagram) titleBlock() {
	x, y, room := d.margin, 50*d.unit, d.px-2*d.margin
	title := clean(d.Title)
	if title == "" {
		title = "Cutting diagram"
	}
	d.write(d.shorten(title, 64, true, room), x, y, 64, true, d.c.Ink)
	y += 84 * d.unit
	facts := fmt.Sprintf("Finished cloth %s wide, %s long  ·  %.1f %% used  ·  %s", d.length(d.WidthCM), d.length(d.LengthCM), d.UsePercent, counted(len(d.Pieces)))
	if d.Date != "" {
		facts += "  ·  " + clean(d.Date)
	}
	for _, line := range []string{facts, labelled("Warp: ", d.Warp), labelled("Weft: ", d.Weft)} {
		d.write(d.shorten(line, textSize, false, room), x, y, textSize, false, d.c.Ink)
		y += textSize * lineHeight * d.unit
	}
	d.keyOfLines(x, y+6*d.unit)
}

func counted(pieces int) string {
	if pieces == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", pieces)
}

func labelled(label, text string) string {
	if text == "" {
		return ""
	}
	return label + clean(text)
}

// keyOfLines shows each kind of line beside its meaning.
func (d *diagram) keyOfLines(x, y float64) {
	dc, mid := d.dc, y+smallSize*d.unit/2
	for _, k := range []struct {
		text string
		draw func(x float64)
	}{
		{"cut here", func(x float64) { dc.SetLineWidth(5 * d.unit); dc.DrawLine(x, mid, x+90*d.unit, mid); dc.Stroke() }},
		{"seam", func(x float64) {
			dc.SetDash(18*d.unit, 12*d.unit)
			dc.SetLineWidth(2.5 * d.unit)
			dc.DrawLine(x, mid, x+90*d.unit, mid)
			dc.Stroke()
			dc.SetDash()
		}},
		{"top of the piece, along the warp", func(x float64) { d.arrow(x, mid, x+90*d.unit) }},
		{"waste", func(x float64) {
			for i := range 4 {
				dc.SetLineWidth(2 * d.unit)
				dc.DrawLine(x+float64(i)*22*d.unit, mid+14*d.unit, x+(float64(i)*22+28)*d.unit, mid-14*d.unit)
				dc.Stroke()
			}
		}},
	} {
		dc.SetColor(d.c.Ink)
		k.draw(x)
		d.write(k.text, x+110*d.unit, y, smallSize, false, d.c.Faint)
		x += 110*d.unit + d.width(k.text, smallSize, false) + 60*d.unit
	}
}

// arrow is a long arrow from x to x2 at height y.
func (d *diagram) arrow(x, y, x2 float64) {
	h := 12 * d.unit
	s := math.Copysign(1, x2-x)
	d.dc.SetLineWidth(3 * d.unit)
	d.dc.DrawLine(x, y, x2-s*h, y)
	d.dc.Stroke()
	d.dc.MoveTo(x2, y)
	d.dc.LineTo(x2-s*2*h, y-h*0.8)
	d.dc.LineTo(x2-s*2*h, y+h*0.8)
	d.dc.ClosePath()
	d.dc.Fill()
}

// edges draws a row's selvedges, rulers and where the strip goes on.
func (d *diagram) edges(r row, i int) {
	b, dc := d.rowBox(r), d.dc
	dc.SetColor(d.c.Ink)
	for _, y := range []float64{b.y, b.y + b.h} {
		dc.SetLineWidth(7 * d.unit)
		dc.DrawLine(b.x, y, b.x+b.w, y)
		dc.Stroke()
	}
	d.end(b.x, b, i == 0)
	d.end(b.x+b.w, b, i == len(d.rows)-1)
	d.ruler(r, b.y-6*d.unit, -1)
	d.ruler(r, b.y+b.h+6*d.unit, 1)
	left, right := "left selvedge", "right selvedge"
	if i > 0 {
		left += ", continued from the row above"
	} else {
		left += ", from the first cut end"
	}
	d.write(left, b.x, b.y-rulerBand*d.unit+2*d.unit, smallSize-4, false, d.c.Faint)
	d.write(right, b.x, b.y+b.h+(rulerBand-34)*d.unit, smallSize-4, false, d.c.Faint)
}

// end closes the row: a straight line at a cut end, a wavy one where it goes on.
func (d *diagram) end(x float64, b box, cut bool) {
	dc := d.dc
	dc.SetLineWidth(4 * d.unit)
	if cut {
		dc.DrawLine(x, b.y, x, b.y+b.h)
		dc.Stroke()
		return
	}
	dc.NewSubPath()
	for y := 0.0; y <= b.h; y += 4 * d.unit {
		dc.LineTo(x+7*d.unit*math.Sin(y/(16*d.unit)), b.y+y)
	}
	dc.Stroke()
}

// ruler marks the distance from the first cut end along a selvedge at y, its
// ticks pointing away from the cloth (dir -1 up, 1 down).
func (d *diagram) ruler(r row, y float64, dir float64) {
	unitCM := 1.0
	if d.Unit == Inches {
		unitCM = 2.54
	}
	label := 10.0
	for label*unitCM*d.scale < 130*d.unit {
		label *= 2
	}
	tick := 1.0
	for tick*unitCM*d.scale < 11*d.unit {
		tick *= 5
	}
	d.dc.SetColor(d.c.Ink)
	d.dc.SetLineWidth(2 * d.unit)
	for k := math.Ceil(r.from/unitCM/tick - 1e-9); k*tick*unitCM <= r.to+1e-9; k++ {
		x, _ := d.at(r, geometry.Point{X: k * tick * unitCM})
		long := 12 * d.unit
		if math.Mod(k*tick, 5) == 0 {
			long = 20 * d.unit
		}
		d.dc.SetColor(d.c.Ink)
		d.dc.DrawLine(x, y, x, y+dir*long)
		d.dc.Stroke()
		if math.Mod(k*tick, label) != 0 {
			continue
		}
		text := d.bare(k * tick * unitCM)
		top := y + 22*d.unit
		if dir < 0 {
			top = y - (22+smallSize)*d.unit
		}
		w := d.width(text, smallSize, false)
		tx := min(max(x-w/2, d.margin-w/2), d.px-d.margin/4-w)
		d.write(text, tx, top, smallSize, false, d.c.Ink)
	}
}
