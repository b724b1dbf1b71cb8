package drawing

import (
	"math"
	"slices"
)

// placeRows chooses the number of rows that draws the cloth largest on a page
// of A4's proportions, and sets each row's place. A long table does not make
// the cloth small: it goes on below the page.
func (d *diagram) placeRows() {
	room := d.px - 2*d.margin
	table := d.tableHeight()
	rowHeight := func(n int) float64 { return d.WidthCM*room*float64(n)/d.LengthCM + 2*rulerBand*d.unit }
	most := max(1.41*d.px-d.titleHeight()-table, 0.7*d.px)
	n := 1
	for n < 60 && float64(n+1)*rowHeight(n+1) < most {
		n++
	}
	at := d.breaks(n)
	longest := 0.0
	for i := range n {
		longest = max(longest, at[i+1]-at[i])
	}
	d.scale = min(room/longest, room/d.WidthCM)
	y := d.titleHeight()
	for i := range n {
		d.rows = append(d.rows, row{at[i], at[i+1], y + rulerBand*d.unit})
		y += d.WidthCM*d.scale + 2*rulerBand*d.unit
	}
	d.tableY = y + 14*d.unit
	d.height = math.Ceil(d.tableY + table + d.margin/2)
}

// breaks are the n+1 places between which the rows lie: evenly spaced, but
// moved to a piece's end nearby where that parts fewer pieces.
func (d *diagram) breaks(n int) []float64 {
	type extent struct{ from, to, across float64 }
	var pieces []extent
	var ends []float64
	for _, p := range d.Pieces {
		m := p.Cut.Bounds()
		pieces = append(pieces, extent{m.MinX, m.MaxX, m.Height()})
		ends = append(ends, m.MinX, m.MaxX)
	}
	slices.Sort(ends)
	span := d.LengthCM / float64(n)
	at := []float64{0}
	for i := 1; i < n; i++ {
		even := span * float64(i)
		cost := func(x float64) float64 {
			sum := math.Abs(x-even) / span * d.WidthCM
			for _, p := range pieces {
				if p.from < x-0.05 && p.to > x+0.05 {
					sum += p.across
				}
			}
			return sum
		}
		best, least := even, cost(even)
		for _, x := range slices.Compact(slices.Clone(ends)) {
			if math.Abs(x-even) > span/12 {
				continue
			}
			if c := cost(x); c < least {
				best, least = x, c
			}
		}
		at = append(at, best)
	}
	return append(at, d.LengthCM)
}
