package drawing

import (
	"fmt"
	"sort"
)

func (d *diagram) tableHeight() float64 {
	lines := 2 + (len(d.Pieces)+1)/2 + len(d.Notes)
	return float64(lines) * smallSize * lineHeight * d.unit
}

// table lists the pieces in the order of cutting with what they are chalked by.
func (d *diagram) table() {
	order := make([]Piece, len(d.Pieces))
	copy(order, d.Pieces)
	sort.SliceStable(order, func(i, j int) bool { return order[i].Number < order[j].Number })
	step := smallSize * lineHeight * d.unit
	y := d.tableY
	d.write(fmt.Sprintf("To chalk: piece, its size along × across, then where it lies: along from the first cut end, across from the left selvedge; %s", d.unitName()),
		d.margin, y, smallSize, true, d.c.Ink)
	y += step * 1.3
	half := (len(order) + 1) / 2
	column := (d.px - 2*d.margin) / 2
	for i, p := range order {
		x, line := d.margin, i
		if i >= half {
			x, line = d.margin+column, i-half
		}
		d.tableLine(p, x, y+float64(line)*step, column)
	}
	y += float64(half) * step
	for _, n := range d.Notes {
		d.write(d.shorten(clean(n), smallSize, false, d.px-2*d.margin), d.margin, y+step*0.2, smallSize, false, d.c.Faint)
		y += step
	}
}

func (d *diagram) tableLine(p Piece, x, y, column float64) {
	m := p.Cut.Bounds()
	places := fmt.Sprintf("%s × %s   along %s – %s   across %s – %s", d.bare(m.Width()), d.bare(m.Height()), d.bare(m.MinX), d.bare(m.MaxX), d.bare(m.MinY), d.bare(m.MaxY))
	name := d.shorten(fmt.Sprintf("%d  %s", p.Number, p.title()), smallSize, true, column*0.36)
	d.write(name, x, y, smallSize, true, d.c.Ink)
	d.write(d.shorten(places, smallSize, false, column*0.6), x+column*0.38, y, smallSize, false, d.c.Ink)
}
