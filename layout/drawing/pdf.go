package drawing

import (
	"fmt"
	"image/color"
	"io"
	"math"

	"codeberg.org/go-pdf/fpdf"

	"ellwand/geometry"
	"ellwand/paper"
)

// pageSize is the upright page, in points.
func pageSize(p paper.Size) (wide, high float64) {
	wide, high = p.CM()
	return wide * pointsPerCM, high * pointsPerCM
}

// Edges of the page that printers leave bare; the scale stands in the lower one.
const (
	pointsPerCM = 72 / 2.54
	pageEdge    = 1.0 * pointsPerCM
	pageFoot    = 1.4 * pointsPerCM
)

// PDF writes the sheet on pages of o.Paper, of the same design as the PNG, at
// the largest round scale that fits, which each page states. The cloth is all on
// the first page; a long table goes on overleaf. With o.Ratio it is at that scale
// instead, without the table, on as many sheets as that takes. Same sheet and options, same
// bytes.
func PDF(w io.Writer, s Sheet, o Options) error {
	if o.Ratio > 0 {
		return scaledPDF(w, s, o)
	}
	d, err := newDiagram(s, o)
	if err != nil {
		return err
	}
	if !o.Dark {
		d.c.Paper = color.RGBA{255, 255, 255, 255} // no ink where there is nothing to say
	}
	return writePages(w, d, d.heading(), o, d.paint)
}

// writePages writes what paint draws on as many pages as it takes.
func writePages(w io.Writer, d *diagram, title string, o Options, paint func(pen)) error {
	ops := &record{}
	paint(ops)
	l := d.pages(o.Paper)
	doc := paper.File("pt", l.wide, l.high, title, d.Date)
	for i := range l.breaks[1:] {
		doc.AddPage()
		p := &pagePen{doc: doc, left: l.left, perPx: l.perPx, unit: d.unit, from: l.breaks[i], to: l.breaks[i+1]}
		p.ground(l, d.c.Paper)
		for _, op := range ops.ops {
			op(p)
		}
		p.footer(l, fmt.Sprintf("Scale 1 : %g when printed on %s at 100 %%  ·  page %d of %d", l.ratio, o.Paper, i+1, len(l.breaks)-1), d.c.Faint)
	}
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("writing the pages: %w", err)
	}
	return nil
}

// pages are how a diagram is parted: page i shows what lies between breaks i
// and i+1, in px from its top.
type pages struct {
	wide, high   float64 // of a page, in points
	perPx, ratio float64 // points per px; cm of cloth per cm of paper
	left         float64 // where the diagram begins, in points
	breaks       []float64
}

// pages chooses how the page lies and whether all goes on one: it does unless
// the cloth would be less than three quarters as large as with the table
// overleaf.
func (d *diagram) pages(on paper.Size) pages {
	wide, high := pageSize(on)
	upright, lying := pages{wide: wide, high: high}, pages{wide: high, high: wide}
	larger := func(px float64) (pages, float64) {
		u, l := upright.fit(d.px, px), lying.fit(d.px, px)
		if l > u {
			return lying, l
		}
		return upright, u
	}
	l, fit := larger(d.height)
	if parted, more := larger(d.tableY); fit < 0.75*more {
		l, fit = parted, more
	}
	l.ratio = roundScale(pointsPerCM / (d.scale * fit))
	l.perPx = pointsPerCM / (d.scale * l.ratio)
	l.left = (l.wide - d.px*l.perPx) / 2
	l.breaks = d.pageBreaks((l.high - pageEdge - pageFoot) / l.perPx)
	return l
}

// fit is how many points per px bring so many px onto the page.
func (l pages) fit(wide, high float64) float64 {
	return min((l.wide-2*pageEdge)/wide, (l.high-pageEdge-pageFoot)/high)
}

// pageBreaks are where pages of so many px begin and end: before the table, and
// in it where no line of writing is parted.
func (d *diagram) pageBreaks(room float64) []float64 {
	at := []float64{0}
	for from := 0.0; d.height-from > room+1e-6; {
		next := d.tableY
		if from >= next || next-from > room+1e-6 {
			next = from + room
			for _, b := range d.labels {
				if b.y > from && b.y < next && b.y+b.h > from+room {
					next = b.y
				}
			}
		}
		at, from = append(at, next), next
	}
	return append(at, d.height)
}

// roundScale is the least round number not below ratio: in halves up to 10,
// whole up to 30, fives and tens above, so that the cloth can be measured on
// paper.
func roundScale(ratio float64) float64 {
	step := 0.5
	switch {
	case ratio <= 1:
		step = 0.1
	case ratio > 100:
		step = 10
	case ratio > 30:
		step = 5
	case ratio > 10:
		step = 1
	}
	return math.Round(max(math.Ceil(ratio/step-1e-9)*step, step)*10) / 10
}

// pagePen draws what lies between from and to, in px of the diagram, on one page.
type pagePen struct {
	doc               *fpdf.Fpdf
	left, perPx, unit float64
	from, to          float64
}

func (p *pagePen) x(px float64) float64 { return p.left + px*p.perPx }
func (p *pagePen) y(px float64) float64 { return pageEdge + (px-p.from)*p.perPx }

func (p *pagePen) ground(l pages, c color.RGBA) {
	p.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
	p.doc.Rect(0, 0, l.wide, l.high, "F")
}

func (p *pagePen) footer(l pages, line string, c color.RGBA) {
	p.doc.SetFont("Go", "", 7.5)
	p.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
	p.doc.Text(pageEdge, l.high-0.7*pointsPerCM, line)
}

// path starts a path, unless all of it lies on other pages.
func (p *pagePen) path(line []geometry.Point) bool {
	if len(line) < 2 {
		return false
	}
	m := geometry.Polygon(line).Bounds()
	if m.MaxY < p.from || m.MinY >= p.to {
		return false
	}
	p.doc.MoveTo(p.x(line[0].X), p.y(line[0].Y))
	for _, v := range line[1:] {
		p.doc.LineTo(p.x(v.X), p.y(v.Y))
	}
	return true
}

func (p *pagePen) fill(shape []geometry.Point, c color.RGBA) {
	p.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
	if p.path(shape) {
		p.doc.DrawPath("f")
	}
}

func (p *pagePen) stroke(line []geometry.Point, s stroke) {
	p.doc.SetDrawColor(int(s.c.R), int(s.c.G), int(s.c.B))
	p.doc.SetLineWidth(s.width * p.perPx)
	p.doc.SetDashPattern(nil, 0)
	if s.dash > 0 {
		p.doc.SetDashPattern([]float64{s.dash * p.perPx, s.gap * p.perPx}, 0)
	}
	if !p.path(line) {
		return
	}
	op := "S"
	if s.closed {
		op = "s"
	}
	p.doc.DrawPath(op)
}

func (p *pagePen) text(t text) {
	if t.baseline < p.from || t.baseline >= p.to {
		return
	}
	style := ""
	if t.bold {
		style = "B"
	}
	p.doc.SetFont("Go", style, t.size*p.unit*p.perPx)
	p.doc.SetTextColor(int(t.c.R), int(t.c.G), int(t.c.B))
	p.doc.Text(p.x(t.x), p.y(t.baseline), paper.InFont(t.line))
}

func (p *pagePen) clip(b box) {
	p.doc.ClipRect(p.x(b.x), p.y(b.y), b.w*p.perPx, b.h*p.perPx, false)
}

func (p *pagePen) unclip() { p.doc.ClipEnd() }

// record keeps what is drawn, to be drawn again on each page.
type record struct{ ops []func(pen) }

func (r *record) add(op func(pen)) { r.ops = append(r.ops, op) }

func (r *record) fill(s []geometry.Point, c color.RGBA) { r.add(func(p pen) { p.fill(s, c) }) }
func (r *record) stroke(l []geometry.Point, s stroke)   { r.add(func(p pen) { p.stroke(l, s) }) }
func (r *record) text(t text)                           { r.add(func(p pen) { p.text(t) }) }
func (r *record) clip(b box)                            { r.add(func(p pen) { p.clip(b) }) }
func (r *record) unclip()                               { r.add(func(p pen) { p.unclip() }) }
