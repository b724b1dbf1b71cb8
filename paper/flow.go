package paper

import (
	"fmt"
)

// Sheet is one card or list: a title and what stands under it. It begins on a
// page of its own.
type Sheet struct {
	Title  string
	Under  string // one line under the title
	Blocks []Block
	// OnePage makes the writing as large as lets the sheet stay on a single page,
	// to be read from the work; what would take letters below 6 points goes on
	// over several pages at the usual size.
	OnePage bool
}

// Block is a part of a sheet: Heading, Text, Facts, Table, Steps, Caution, Figure.
type Block interface {
	// strips are the parts that no page break goes through, for so wide a column
	// and sizes of writing times factor.
	strips(d *Doc, wide, factor float64) []strip
}

// strip is a part of a sheet that no page break goes through.
type strip struct {
	high float64 // cm
	draw func(x, y float64)
	stay bool   // on one page with the next strip
	head *strip // drawn again where a page begins with this strip; nil for none
}

// Edges of the page that are left bare, in cm.
const (
	edge = 1.5
	top  = 1.3
	foot = 1.6
)

// Sizes of writing in points, before the factor.
const (
	titleSize = 20.0
	headSize  = 12.5
	textSize  = 10.5
	bigSize   = 13.0
	noteSize  = 8.5
	footSize  = 7.5
)

// smallest is the least size that a card's writing is brought to, in points, and
// largest how many times its usual size it may have.
const (
	smallest = 6.0
	largest  = 1.36
)

// Flow prints sheets one after the other. What a single strip needs beyond a
// page is drawn on a page of its own and may run over its foot.
func (d *Doc) Flow(sheets []Sheet) {
	type page struct {
		sheet, of, n int
		strips       []strip
	}
	var pages []page
	for i, s := range sheets {
		parts := d.parted(s)
		for n, p := range parts {
			pages = append(pages, page{i, len(parts), n + 1, p})
		}
	}
	for i, p := range pages {
		_, high := d.addPage(false)
		y := top
		for _, s := range p.strips {
			s.draw(edge, y)
			y += s.high
		}
		where := fmt.Sprintf("page %d of %d", i+1, len(pages))
		if p.of > 1 {
			where = fmt.Sprintf("%s, %d of %d  ·  %s", Clean(sheets[p.sheet].Title), p.n, p.of, where)
		}
		d.footer(high, where)
	}
}

// footer writes the document's title on the left and where one is on the right.
func (d *Doc) footer(high float64, where string) {
	wide, _ := d.pdf.GetPageSize()
	y := high - 1.1
	d.pdf.SetDrawColor(int(Rule.R), int(Rule.G), int(Rule.B))
	d.pdf.SetLineWidth(0.02)
	d.pdf.Line(edge, y-0.1, wide-edge, y-0.1)
	w := d.width(where, footSize, false)
	d.text(where, wide-edge-w, y, footSize, false, Faint)
	left := d.title
	if d.date != "" {
		left += "  ·  " + d.date
	}
	d.text(d.shorten(left, footSize, false, wide-2*edge-w-0.6), edge, y, footSize, false, Faint)
}

// parted is a sheet's strips, page by page.
func (d *Doc) parted(s Sheet) [][]strip {
	wide, high := d.paper.CM()
	wide, room := wide-2*edge, high-top-foot
	if s.OnePage {
		for factor := largest; factor*noteSize >= smallest-1e-9; factor -= 0.03 {
			if all := d.strips(s, wide, factor); total(all) <= room {
				return [][]strip{all}
			}
		}
	}
	all := d.strips(s, wide, 1)
	return split(all, room)
}

func total(all []strip) float64 {
	sum := 0.0
	for _, s := range all {
		sum += s.high
	}
	return sum
}

// split parts strips into pages of so much room; those that stay together are
// not parted unless they are higher than a page.
func split(all []strip, room float64) [][]strip {
	var pages [][]strip
	var page []strip
	used := 0.0
	for i := 0; i < len(all); {
		n, high := 1, all[i].high
		for i+n < len(all) && all[i+n-1].stay {
			high += all[i+n].high
			n++
		}
		if len(page) > 0 && used+high > room+1e-9 {
			pages, page, used = append(pages, page), nil, 0
			if h := all[i].head; h != nil {
				page, used = append(page, *h), h.high
			}
		}
		if used+high > room+1e-9 { // a run higher than a page is parted after all
			n, high = 1, all[i].high
		}
		page = append(page, all[i:i+n]...)
		used += high
		i += n
	}
	return append(pages, page)
}

// strips are the title and the blocks.
func (d *Doc) strips(s Sheet, wide, factor float64) []strip {
	out := d.lines(s.Title, titleSize*factor, true, wide, 0)
	if s.Under != "" {
		under := d.lines(s.Under, textSize*factor, false, wide, 0)
		out = append(out, under...)
	}
	out = append(out, strip{high: 0.25 * factor, stay: true, draw: func(x, y float64) {
		d.pdf.SetDrawColor(int(Ink.R), int(Ink.G), int(Ink.B))
		d.pdf.SetLineWidth(0.05)
		d.pdf.Line(x, y+0.08*factor, x+wide, y+0.08*factor)
	}})
	for i := range out {
		out[i].stay = true
	}
	for _, b := range s.Blocks {
		out = append(out, b.strips(d, wide, factor)...)
	}
	return out
}

// lines are the lines of a wrapped text, one strip each, set in by so many cm.
func (d *Doc) lines(text string, size float64, bold bool, wide, in float64) []strip {
	var out []strip
	for _, line := range d.wrap(text, size, bold, wide-in) {
		out = append(out, strip{high: lineHigh(size), draw: func(x, y float64) {
			d.text(line, x+in, y, size, bold, Ink)
		}})
	}
	return out
}
