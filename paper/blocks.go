package paper

import (
	"fmt"
	"slices"
)

func gap(high float64) strip { return strip{high: high, draw: func(float64, float64) {}} }

// kept makes all strips stay together.
func kept(all []strip) []strip {
	for i := range all {
		all[i].stay = i < len(all)-1
	}
	return all
}

// Heading stands over what follows it.
type Heading string

func (h Heading) strips(d *Doc, wide, factor float64) []strip {
	out := append([]strip{gap(0.28 * factor)}, d.lines(string(h), headSize*factor, true, wide, 0)...)
	for i := range out {
		out[i].stay = true
	}
	return out
}

// Text is a paragraph; line breaks in it stay.
type Text string

func (t Text) strips(d *Doc, wide, factor float64) []strip {
	out := d.lines(string(t), textSize*factor, false, wide, 0)
	if len(out) <= 4 {
		out = kept(out)
	}
	return append(out, gap(0.12*factor))
}

// Note is a paragraph in small quiet letters.
type Note string

func (n Note) strips(d *Doc, wide, factor float64) []strip {
	size := noteSize * factor
	var out []strip
	for _, line := range d.wrap(string(n), size, false, wide) {
		out = append(out, strip{high: lineHigh(size), draw: func(x, y float64) { d.text(line, x, y, size, false, Faint) }})
	}
	return append(kept(out), gap(0.1*factor))
}

// Fact is a figure with its name, and from what it comes in small letters.
type Fact struct{ Label, Value, From string }

// Facts are figures one under the other, large enough to read from the work.
type Facts []Fact

func (f Facts) strips(d *Doc, wide, factor float64) []strip {
	label, value, note := textSize*factor, bigSize*factor, noteSize*factor
	left := 0.0
	for _, fact := range f {
		left = max(left, d.width(Clean(fact.Label), label, false)+0.5)
	}
	left = min(left, wide*0.42)
	var out []strip
	for _, fact := range f {
		names := d.wrap(fact.Label, label, false, left-0.3)
		values := d.wrap(fact.Value, value, true, wide-left)
		high := max(float64(len(names))*lineHigh(label)+0.07*factor, float64(len(values))*lineHigh(value))
		row := []strip{{high: high, draw: func(x, y float64) {
			for i, n := range names {
				d.text(n, x, y+0.07*factor+float64(i)*lineHigh(label), label, false, Faint)
			}
			for i, v := range values {
				d.text(v, x+left, y+float64(i)*lineHigh(value), value, true, Ink)
			}
		}}}
		if fact.From != "" {
			for _, line := range d.wrap(fact.From, note, false, wide-left) {
				row = append(row, strip{high: lineHigh(note), draw: func(x, y float64) { d.text(line, x+left, y, note, false, Faint) }})
			}
		}
		out = append(out, kept(row)...)
		out = append(out, gap(0.06*factor))
	}
	return out
}

// Table has a head and rows of as many cells. Figures says which columns hold
// figures and stand to the right; the others are broken into lines where they
// find no room. Strong are the rows, from 0, that are written bold.
type Table struct {
	Head    []string
	Rows    [][]string
	Figures []bool
	Strong  map[int]bool
}

func (t Table) figures(i int) bool { return i < len(t.Figures) && t.Figures[i] }

// columns are the widths of the columns: what each needs, or for words a share
// of what the figures leave.
func (t Table) columns(d *Doc, wide, size float64) []float64 {
	const between = 0.35
	need := make([]float64, len(t.Head))
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		for i, cell := range row {
			if i < len(need) {
				need[i] = max(need[i], d.width(Clean(cell), size, true)+between)
			}
		}
	}
	sum, words := 0.0, 0.0
	for i, n := range need {
		sum += n
		if !t.figures(i) {
			words += n
		}
	}
	if sum <= wide || words == 0 {
		return need
	}
	// Narrow columns of words keep what they need; the others share the rest.
	room := max(wide-(sum-words), words*0.25)
	narrow := func(i int) bool { return need[i] <= room*0.3 }
	shared, wider := room, 0.0
	for i, n := range need {
		switch {
		case t.figures(i):
		case narrow(i):
			shared -= n
		default:
			wider += n
		}
	}
	out := slices.Clone(need)
	for i, n := range need {
		if !t.figures(i) && !narrow(i) {
			out[i] = n / wider * shared
		}
	}
	return out
}

func (t Table) row(d *Doc, cells []string, columns []float64, size, factor float64, head, bold bool) strip {
	lines := make([][]string, len(columns))
	most := 1
	for i := range columns {
		cell := ""
		if i < len(cells) {
			cell = cells[i]
		}
		lines[i] = d.wrap(cell, size, bold, columns[i]-0.25)
		most = max(most, len(lines[i]))
	}
	high := float64(most)*lineHigh(size) + 0.07*factor
	wide := 0.0
	for _, c := range columns {
		wide += c
	}
	return strip{high: high, draw: func(x, y float64) {
		at := x
		for i, c := range columns {
			for n, line := range lines[i] {
				left := at
				if t.figures(i) {
					left = at + c - 0.3 - d.width(line, size, bold)
				}
				colour := Ink
				if head {
					colour = Faint
				}
				d.text(line, left, y+0.03*factor+float64(n)*lineHigh(size), size, bold, colour)
			}
			at += c
		}
		d.pdf.SetDrawColor(int(Rule.R), int(Rule.G), int(Rule.B))
		d.pdf.SetLineWidth(0.015)
		d.pdf.Line(x, y+high, x+wide, y+high)
	}}
}

func (t Table) strips(d *Doc, wide, factor float64) []strip {
	size := textSize * factor
	columns := t.columns(d, wide, size)
	head := t.row(d, t.Head, columns, noteSize*factor, factor, true, true)
	head.stay = true
	out := []strip{head}
	for i, r := range t.Rows {
		row := t.row(d, r, columns, size, factor, false, t.Strong[i])
		row.head = &head
		out = append(out, row)
	}
	return append(out, gap(0.15*factor))
}

// Steps are what is done, in order, each with a box to tick.
type Steps []string

func (s Steps) strips(d *Doc, wide, factor float64) []strip {
	order := make(Order, len(s))
	for i, step := range s {
		order[i] = Step{Text: step}
	}
	return order.strips(d, wide, factor)
}

// Step is one of an Order: what is done in bold letters, and the particulars.
type Step struct{ Head, Text string }

// Order is Steps with a head each.
type Order []Step

func (o Order) strips(d *Doc, wide, factor float64) []strip {
	size := textSize * factor
	box := 0.34 * factor
	in := box + 0.25*factor + d.width(fmt.Sprintf("%d.  ", len(o)), size, true)
	var out []strip
	for i, step := range o {
		number := fmt.Sprintf("%d.", i+1)
		var rows []strip
		if step.Head != "" {
			rows = d.lines(step.Head, size, true, wide, in)
		}
		if step.Text != "" || step.Head == "" {
			rows = append(rows, d.lines(step.Text, size, false, wide, in)...)
		}
		first := rows[0].draw
		rows[0].draw = func(x, y float64) {
			d.pdf.SetDrawColor(int(Faint.R), int(Faint.G), int(Faint.B))
			d.pdf.SetLineWidth(0.03)
			d.pdf.Rect(x, y+0.04*factor, box, box, "D")
			d.text(number, x+box+0.2*factor, y, size, true, Ink)
			first(x, y)
		}
		if len(rows) <= 12 {
			rows = kept(rows)
		}
		out = append(out, rows...)
		out = append(out, gap(0.08*factor))
	}
	return out
}

// Caution is a warning in a frame, marked by a sign and a word besides colour.
type Caution string

func (c Caution) strips(d *Doc, wide, factor float64) []strip {
	size, in, pad := textSize*factor, 0.75*factor, 0.15*factor
	lines := d.wrap("Caution. "+string(c), size, false, wide-in-0.2)
	high := float64(len(lines))*lineHigh(size) + 2*pad
	return []strip{gap(0.08 * factor), {high: high, draw: func(x, y float64) {
		d.pdf.SetDrawColor(int(Alarm.R), int(Alarm.G), int(Alarm.B))
		d.pdf.SetLineWidth(0.04)
		d.pdf.Rect(x, y, wide, high, "D")
		d.text("!", x+0.28*factor, y+pad, size*1.15, true, Alarm)
		for i, line := range lines {
			d.text(line, x+in, y+pad+float64(i)*lineHigh(size), size, false, Ink)
		}
	}}, gap(0.06 * factor)}
}

// Figure is a drawing true to scale: it is never made smaller with the writing.
type Figure struct {
	HighCM float64
	Draw   func(c *Canvas, wideCM float64)
}

func (f Figure) strips(d *Doc, wide, factor float64) []strip {
	return []strip{{high: f.HighCM, draw: func(x, y float64) {
		f.Draw(&Canvas{d: d, left: x, top: y, scale: 1, penScale: 1, right: x + wide, foot: y + f.HighCM}, wide)
	}}, gap(0.15 * factor)}
}

// Entry is a text with its name beside it.
type Entry struct{ Label, Text string }

// Entries are texts under a title, each with its name beside it; they stay on
// one page where they can.
type Entries struct {
	Title string
	Rows  []Entry
}

func (e Entries) strips(d *Doc, wide, factor float64) []strip {
	size := textSize * factor
	left := 0.0
	for _, r := range e.Rows {
		left = max(left, d.width(Clean(r.Label), size, false)+0.5)
	}
	out := Heading(e.Title).strips(d, wide, factor)
	for _, r := range e.Rows {
		for i, line := range d.wrap(r.Text, size, false, wide-left) {
			out = append(out, strip{high: lineHigh(size), draw: func(x, y float64) {
				if i == 0 {
					d.text(Clean(r.Label), x, y, size, false, Faint)
				}
				d.text(line, x+left, y, size, false, Ink)
			}})
		}
		out = append(out, gap(0.05*factor))
	}
	return append(kept(out), gap(0.15*factor))
}

// Listed is a line of a list of figures, and what it comes from in small quiet
// letters under it; "" for nothing.
type Listed struct{ Line, From string }

func (l Listed) strips(d *Doc, wide, factor float64) []strip {
	out := d.lines(l.Line, textSize*factor, false, wide, 0)
	if l.From != "" {
		size := noteSize * factor
		for _, line := range d.wrap(l.From, size, false, wide-0.6) {
			out = append(out, strip{high: lineHigh(size), draw: func(x, y float64) { d.text(line, x+0.6, y, size, false, Faint) }})
		}
	}
	return append(kept(out), gap(0.04*factor))
}
