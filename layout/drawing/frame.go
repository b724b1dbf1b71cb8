package drawing

import (
	"fmt"
	"math"

	"ellwand/geometry"
	"ellwand/paper"
)

func (d *diagram) heading() string {
	if t := paper.Clean(d.Title); t != "" {
		return t
	}
	return "Cutting diagram"
}

// titleHeight is the room above the first row.
func (d *diagram) titleHeight() float64 {
	lines := 1.0
	for _, t := range []string{d.Warp, d.Weft} {
		if t != "" {
			lines++
		}
	}
	return (226 + lines*textSize*lineHeight) * d.unit
}

// titleBlock writes what the cloth is, and what the lines mean.
func (d *diagram) titleBlock() {
	x, y, room := d.margin, 50*d.unit, d.px-2*d.margin
	d.write(d.shorten(d.heading(), titleSize, true, room), x, y, titleSize, true, d.c.Ink)
	y += 92 * d.unit
	facts := fmt.Sprintf("Finished cloth %s wide, %s long  ·  %.1f %% used  ·  %s", d.length(d.WidthCM), d.length(d.clothCM()), d.UsePercent, counted(len(d.Pieces)))
	if d.Date != "" {
		facts += "  ·  " + paper.Clean(d.Date)
	}
	for _, line := range []string{facts, labelled("Warp: ", d.Warp), labelled("Weft: ", d.Weft)} {
		if line == "" {
			continue
		}
		d.write(d.shorten(line, textSize, false, room), x, y, textSize, false, d.c.Ink)
		y += textSize * lineHeight * d.unit
	}
	d.keyOfLines(x, y+14*d.unit)
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
	return label + paper.Clean(text)
}

// keyOfLines shows each kind of line beside its meaning.
func (d *diagram) keyOfLines(x, y float64) {
	mid, long := y+smallSize*boxHeight/2*d.unit, 90*d.unit
	key := []struct {
		meaning string
		draw    func(x float64)
	}{
		{"cut", func(x float64) { d.line(x, mid, x+long, mid, 5, d.c.Ink) }},
		{"seam", func(x float64) {
			d.pen.stroke([]geometry.Point{{X: x, Y: mid}, {X: x + long, Y: mid}}, d.seamLine(false))
		}},
		{"mark", func(x float64) { d.line(x, mid, x+long, mid, 2.5, d.c.Ink) }},
		{"warp, the way the piece points", func(x float64) { d.arrow(x, mid, x+long, d.c.Ink) }},
		{"waste", func(x float64) {
			for i := range 4 {
				left := x + float64(i)*20*d.unit
				d.line(left, mid+14*d.unit, left+28*d.unit, mid-14*d.unit, 2, d.c.Ink)
			}
		}},
		{"flaw", func(x float64) {
			d.flaw(box{x, mid - 16*d.unit, long, 32 * d.unit}.polygon())
		}},
	}
	if len(d.Flaws) == 0 {
		key = key[:len(key)-1]
	}
	for _, k := range key {
		k.draw(x)
		d.write(k.meaning, x+long+20*d.unit, y, smallSize, false, d.c.Faint)
		x += long + d.width(k.meaning, smallSize, false) + 75*d.unit
	}
}

// edges draws a row's selvedges, rulers and where the strip goes on.
func (d *diagram) edges(r row, i int) {
	b, whole := d.rowBox(r), d.wholeBox(r)
	d.pen.clip(whole)
	d.flaws(r)
	d.pen.unclip()
	d.selvedges(r, whole)
	d.end(whole.x, b, i == 0)
	d.end(whole.x+whole.w, b, i == len(d.rows)-1)
	d.ruler(r, b.y-6*d.unit, -1)
	d.ruler(r, b.y+b.h+6*d.unit, 1)
	d.rulerAcross(b)
	left := "left selvedge, from the first cut end"
	if len(d.Lengths) > 0 {
		left += " of " + paper.Clean(d.Lengths[0].Name)
	}
	if i > 0 {
		left = "left selvedge, continued from the row above"
	}
	above, below := b.y-120*d.unit, b.y+b.h+76*d.unit
	d.write(left, b.x, above, smallSize, false, d.c.Faint)
	d.lengthNames(r, above, b.x+d.width(left, smallSize, false))
	d.write("right selvedge", b.x, below, smallSize, false, d.c.Faint)
	if i < len(d.rows)-1 {
		on := "continued in the row below"
		d.write(on, b.x+b.w-d.width(on, smallSize, false), below, smallSize, false, d.c.Faint)
	}
}

// end closes the row: a straight line at a cut end, a wavy one where it goes on.
func (d *diagram) end(x float64, b box, cut bool) {
	if cut {
		d.line(x, b.y, x, b.y+b.h, 5, d.c.Ink)
		return
	}
	var wave []geometry.Point
	for y := 0.0; y <= b.h; y += 4 * d.unit {
		wave = append(wave, geometry.Point{X: x + 5*d.unit*math.Sin(y/(16*d.unit)), Y: b.y + y})
	}
	d.pen.stroke(wave, stroke{width: 4 * d.unit, c: d.c.Ink})
}

// unitCM is the length of the sheet's unit.
func (d *diagram) unitCM() float64 {
	if d.Unit == Inches {
		return 2.54
	}
	return 1
}

// stepOf is the first of 1, 2, 5, 10 … (or 1, 5, 10, 50 … for ticks) that is
// at least so many px long on the picture.
func (d *diagram) stepOf(px float64, tick bool) float64 {
	for step := 1.0; ; step *= 10 {
		for _, f := range []float64{1, 2, 5} {
			if (f != 2 || !tick) && f*step*d.unitCM()*d.scale >= px {
				return f * step
			}
		}
	}
}

// ruler marks the distance from the first cut end along a selvedge at y, its
// ticks pointing away from the cloth (dir -1 up, 1 down).
func (d *diagram) ruler(r row, y float64, dir float64) {
	label := d.stepOf(max(100*d.unit, d.width(d.bare(math.Ceil(d.LengthCM)), smallSize, false)+30*d.unit), false)
	tick := d.stepOf(11*d.unit, true)
	all := d.stretches()
	for k, l := range all {
		until := math.Inf(1)
		if k+1 < len(all) && all[k+1].FromCM < r.to {
			until = d.at(r, geometry.Point{X: all[k+1].FromCM}).X
		}
		d.rulerOf(r, l, y, dir, label, tick, until)
	}
}

// rulerOf is the ruler of one length of cloth, from its own first end; its
// numbers keep clear of the next one's nought at until.
func (d *diagram) rulerOf(r row, l Length, y, dir, label, tick, until float64) {
	cm := d.unitCM()
	for k := max(0, math.Ceil((r.from-l.FromCM)/cm/tick-1e-9)); l.FromCM+k*tick*cm <= min(r.to, l.ToCM)+1e-9; k++ {
		x := d.at(r, geometry.Point{X: l.FromCM + k*tick*cm}).X
		d.line(x, y, x, y+dir*d.tickLength(k*tick, label), 2, d.c.Ink)
		if math.Mod(k*tick, label) != 0 {
			continue
		}
		number, top := d.bare(k*tick*cm), y+22*d.unit
		if x+(d.width(number, smallSize, false)+d.width("0 ", smallSize, false))/2 > until {
			continue
		}
		if dir < 0 {
			top = y - (22+smallSize*boxHeight)*d.unit
		}
		d.write(number, x-d.width(number, smallSize, false)/2, top, smallSize, false, d.c.Ink)
	}
}

func (d *diagram) tickLength(at, label float64) float64 {
	if math.Mod(at, 5) == 0 || math.Mod(at, label) == 0 {
		return 20 * d.unit
	}
	return 12 * d.unit
}

// rulerAcross marks the distance from the left selvedge at a row's left end.
func (d *diagram) rulerAcross(b box) {
	high := smallSize * boxHeight * d.unit
	label, tick := d.stepOf(high*1.6, false), d.stepOf(11*d.unit, true)
	cm := d.unitCM()
	x := b.x - (goesOn+10)*d.unit
	for k := 1.0; k*tick*cm <= d.WidthCM+1e-9; k++ {
		y := b.y + k*tick*cm*d.scale
		d.line(x, y, x-d.tickLength(k*tick, label), y, 2, d.c.Ink)
		number := d.bare(k * tick * cm)
		w := d.width(number, smallSize, false)
		if math.Mod(k*tick, label) == 0 && y-high/2 >= b.y && y+high/2 <= b.y+b.h && x-w-26*d.unit > 0 {
			d.write(number, x-w-26*d.unit, y-high/2, smallSize, false, d.c.Ink)
		}
	}
}
