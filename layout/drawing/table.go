package drawing

import (
	"fmt"
	"sort"
	"strings"

	"ellwand/geometry"
	"ellwand/paper"
)

// oneColumn is the most pieces that the table lists in a single column.
const oneColumn = 14

func (d *diagram) tableStep() float64 { return smallSize * lineHeight * d.unit }

func (d *diagram) tableHeight() float64 {
	lines := len(d.Pieces)
	if lines > oneColumn {
		lines = (lines + 1) / 2
	}
	return float64(lines+3+len(d.notes)) * d.tableStep()
}

// entry is a line of the table. ending is the end of the name that must be
// read however long the name is: which copy, and what is wrong with it.
type entry struct{ number, name, size, along, across, ending string }

func (e entry) cells() []string { return []string{e.number, e.name, e.size, e.along, e.across} }

// entries are the pieces in the order of cutting.
func (d *diagram) entries() []entry {
	order := append([]Piece(nil), d.Pieces...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].Number < order[j].Number })
	out := make([]entry, len(order))
	for i, p := range order {
		m := p.Cut.Bounds()
		out[i] = entry{fmt.Sprint(p.Number), p.title() + p.state(),
			d.bare(m.Width()) + " × " + d.bare(m.Height()),
			d.along(m),
			d.bare(m.MinY) + " – " + d.bare(m.MaxY),
			strings.TrimPrefix(p.title(), paper.Clean(p.Name)) + p.state()}
	}
	return out
}

// along is where a piece lies along its length of cloth.
func (d *diagram) along(m geometry.Rect) string {
	from, on := d.Start(m.MinX)
	text := d.bare(m.MinX-from) + " – " + d.bare(m.MaxX-from)
	if on != "" {
		text = d.shorten(on, smallSize, false, 300*d.unit) + ": " + text
	}
	return text
}

// table lists the pieces in the order of cutting with what they are chalked by.
func (d *diagram) table() {
	y, step := d.tableY, d.tableStep()
	d.write(d.shorten("To chalk, in "+d.unitWord()+": how far along from the first cut end and how far across from the left selvedge each piece begins and ends",
		smallSize, true, d.px-2*d.margin), d.margin, y, smallSize, true, d.c.Ink)
	y += step * 1.2
	list := d.entries()
	if len(list) <= oneColumn {
		d.column(entry{"", "piece", "length × width", "along", "across", ""}, list, d.margin, y, (d.px-2*d.margin)*0.75)
		y += float64(len(list)+1) * step
	} else {
		half, gap := (len(list)+1)/2, 60*d.unit
		wide := (d.px - 2*d.margin - gap) / 2
		head := entry{"", "piece", "l × w", "along", "across", ""}
		d.column(head, list[:half], d.margin, y, wide)
		d.column(head, list[half:], d.margin+wide+gap, y, wide)
		y += float64(half+1) * step
	}
	y += step * 0.3
	for _, n := range d.notes {
		d.write(n, d.margin, y, smallSize, false, d.c.Faint)
		y += step
	}
}

// column writes entries one below the other; the figures take the room they
// need and the name what is left.
func (d *diagram) column(head entry, list []entry, x, y, wide float64) {
	gap := 34 * d.unit
	var widths [5]float64
	for _, e := range append([]entry{head}, list...) {
		for i, c := range e.cells() {
			widths[i] = max(widths[i], d.width(c, smallSize, i == 0)+gap)
		}
	}
	widths[1] = min(widths[1]+gap, wide-widths[0]-widths[2]-widths[3]-widths[4])
	write := func(e entry, y float64, isHead bool) {
		at := x
		for i, c := range e.cells() {
			ink := d.c.Ink
			if isHead {
				ink = d.c.Faint
			}
			ending := ""
			if i == 1 {
				ending = e.ending
			}
			d.write(d.shortenBefore(c, ending, smallSize, i == 0, widths[i]-gap), at, y, smallSize, i == 0, ink)
			at += widths[i]
		}
	}
	write(head, y, true)
	for i, e := range list {
		write(e, y+float64(i+1)*d.tableStep(), false)
	}
}
