package paper

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// Plate is a drawing true to scale that may be larger than a page.
type Plate struct {
	Title string
	// About is said on the first page, which shows how the sheets go together.
	About []string
	// WideCM and HighCM are its size on paper.
	WideCM, HighCM float64
	// Draw draws it in cm of paper, from its upper left corner.
	Draw func(c *Canvas)
	// Wanted says whether a part of it, in the same cm, is worth a sheet; nil
	// prints them all.
	Wanted func(part geometry.Rect) bool
	// Place says on a sheet which part of the whole it shows; nil for nothing.
	Place func(part geometry.Rect) string
	// Scale says what a cm on paper stands for: "full size", "scale 1 : 5".
	Scale string
}

// OverlapCM is how far neighbouring sheets show the same.
const OverlapCM = 1.0

// Of a sheet's edges: what printers leave bare, and room for what is said.
const (
	tileEdge = 1.0
	tileTop  = 1.3
	tileFoot = 1.4
)

// CheckCM is the side of the square that shows whether a print is true to scale.
const CheckCM = 10.0

// tiling is how a plate is parted into sheets.
type tiling struct {
	lying        bool
	wide, high   float64 // of what one sheet shows
	across, down int
	wanted       []bool // by row
	sheets       int
}

func (t tiling) part(i, j int) geometry.Rect {
	x, y := float64(i)*(t.wide-OverlapCM), float64(j)*(t.high-OverlapCM)
	return geometry.Rect{MinX: x, MinY: y, MaxX: x + t.wide, MaxY: y + t.high}
}

// core is what a sheet shows alone, or shares at its middle line only: the cores
// leave no gap, and what lies outside one is on a neighbour's.
func (t tiling) core(i, j int) geometry.Rect {
	b := t.part(i, j)
	if i > 0 {
		b.MinX += OverlapCM / 2
	}
	if i < t.across-1 {
		b.MaxX -= OverlapCM / 2
	}
	if j > 0 {
		b.MinY += OverlapCM / 2
	}
	if j < t.down-1 {
		b.MaxY -= OverlapCM / 2
	}
	return b
}

// name is a sheet's own: rows are letters, columns numbers.
func (t tiling) name(i, j int) string { return fmt.Sprintf("%s%d", letters(j), i+1) }

// letters counts A to Z, AA, AB …
func letters(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// tile parts a plate into the fewest sheets, upright or lying.
func (d *Doc) tile(p Plate) tiling {
	wide, high := d.paper.CM()
	one := func(lying bool, w, h float64) tiling {
		t := tiling{lying: lying, wide: w - 2*tileEdge, high: h - tileTop - tileFoot}
		count := func(size, sheet float64) int {
			return max(1, int(math.Ceil((size-OverlapCM)/(sheet-OverlapCM)-1e-9)))
		}
		t.across, t.down = count(p.WideCM, t.wide), count(p.HighCM, t.high)
		t.wanted = make([]bool, t.across*t.down)
		for j := range t.down {
			for i := range t.across {
				if p.Wanted == nil || p.Wanted(t.core(i, j)) {
					t.wanted[j*t.across+i] = true
					t.sheets++
				}
			}
		}
		return t
	}
	upright, lying := one(false, wide, high), one(true, high, wide)
	if lying.sheets < upright.sheets {
		return lying
	}
	return upright
}

// Sheets is how many sheets a plate takes, its first page not counted.
func (d *Doc) Sheets(p Plate) int { return d.tile(p).sheets }

// Plate prints a plate: first a page that shows how its sheets go together,
// with a square to measure, then the sheets.
func (d *Doc) Plate(p Plate) {
	t := d.tile(p)
	d.overview(p, t)
	for j := range t.down {
		for i := range t.across {
			if t.wanted[j*t.across+i] {
				d.sheet(p, t, i, j)
			}
		}
	}
}

// overview shows the whole, small, with the sheets' edges and names, and the
// square to measure.
func (d *Doc) overview(p Plate, t tiling) {
	wide, high := d.addPage(false)
	room := wide - 2*edge
	y := top
	for _, line := range d.wrap(p.Title, titleSize, true, room) {
		d.text(line, edge, y, titleSize, true, Ink)
		y += lineHigh(titleSize)
	}
	about := append([]string{fmt.Sprintf("%s on %d sheets of %s, printed at 100 %% and not fitted to the page.", capital(p.Scale), t.sheets, d.paper)}, p.About...)
	if t.sheets > 1 {
		about = append(about, fmt.Sprintf("Neighbouring sheets overlap by %g cm. Cut one along its dashed line and lay it on the other so that the crosses meet; glue, and go on.", OverlapCM))
	}
	about = append(about, fmt.Sprintf("Measure this square first: each side is %g cm. If it is not, print again at 100 %%.", CheckCM))
	for _, a := range about {
		for _, line := range d.wrap(a, textSize, false, room) {
			d.text(line, edge, y, textSize, false, Ink)
			y += lineHigh(textSize)
		}
		y += 0.08
	}
	y += 0.15
	c := &Canvas{d: d, left: edge, top: y, scale: 1, penScale: 1}
	c.Stroke(Rect(0, 0, CheckCM, CheckCM), true, Line{Width: 0.03, Colour: Ink})
	label := fmt.Sprintf("%g cm", CheckCM)
	c.Text(label, (CheckCM-c.TextWidth(label, textSize, false))/2, CheckCM/2-0.3, textSize, false, Ink)
	d.rulerBeside(c, CheckCM)
	y += CheckCM + 0.6
	d.miniature(p, t, y, room, high-foot-y)
	d.footer(high, fmt.Sprintf("%s  ·  how the sheets go together", d.shorten(p.Title, footSize, false, room/2)))
}

// rulerBeside marks inches beside the square of so many cm.
func (d *Doc) rulerBeside(c *Canvas, highCM float64) {
	x := highCM + 0.7
	thin := Line{Width: 0.02, Colour: Ink}
	c.Segment(x, 0, x, 3*2.54, thin)
	for i := range 7 {
		y := float64(i) * 2.54 / 2
		long := 0.25
		if i%2 == 0 {
			long = 0.5
		}
		c.Segment(x, y, x+long, y, thin)
	}
	c.Text("3 inches", x+0.7, 3*2.54/2-0.3, textSize, false, Ink)
}

// miniature draws the whole small, in so much room, under the sheets' edges.
func (d *Doc) miniature(p Plate, t tiling, y, wide, high float64) {
	fullW := t.part(t.across-1, 0).MaxX
	fullH := t.part(0, t.down-1).MaxY
	scale := min(wide/fullW, high/fullH, 1)
	c := &Canvas{d: d, left: edge + (wide-fullW*scale)/2, top: y, scale: scale, penScale: 1}
	for j := range t.down {
		for i := range t.across {
			if t.wanted[j*t.across+i] {
				b := t.part(i, j)
				c.Fill(Rect(b.MinX, b.MinY, b.Width(), b.Height()), Tint)
			}
		}
	}
	small := &Canvas{d: d, left: c.left, top: c.top, scale: scale, penScale: max(scale, 0.4), quiet: true}
	p.Draw(small)
	for j := range t.down {
		for i := range t.across {
			b := t.part(i, j)
			if !t.wanted[j*t.across+i] {
				continue
			}
			c.Stroke(Rect(b.MinX, b.MinY, b.Width(), b.Height()), true, Line{Width: 0.03, Colour: Faint})
			size := min(14, max(5, 0.5*min(b.Width(), b.Height())*scale*ptPerCM))
			name := t.name(i, j)
			w := d.width(name, size, true)
			x := c.left + (b.MinX+b.Width()/2)*scale - w/2
			d.text(name, x, c.top+(b.MinY+b.Height()/2)*scale-lineHigh(size)/2, size, true, Alarm)
		}
	}
}

// sheet prints one part of the plate, with the marks that join it to its
// neighbours.
func (d *Doc) sheet(p Plate, t tiling, i, j int) {
	wide, high := d.addPage(t.lying)
	b := t.part(i, j)
	c := &Canvas{d: d, left: tileEdge - b.MinX, top: tileTop - b.MinY, scale: 1, penScale: 1}
	c.Clip(b.MinX, b.MinY, b.Width(), b.Height())
	p.Draw(c)
	c.Unclip()
	d.joins(c, t, i, j)
	room := wide - 2*tileEdge
	name := t.name(i, j)
	d.text(name, tileEdge, 0.45, 13, true, Alarm)
	line := p.Title + "  ·  " + p.Scale
	if p.Place != nil {
		line += "  ·  " + p.Place(b)
	}
	d.text(d.shorten(line, noteSize, false, room-1.4), tileEdge+1.4, 0.62, noteSize, false, Ink)
	d.barAndNeighbours(t, i, j, high, room)
}

// joins draws what this sheet shares with its neighbours: dashed lines at the
// far ends of the overlap, and crosses in its middle that both sheets show at
// the same place.
func (d *Doc) joins(c *Canvas, t tiling, i, j int) {
	b := t.part(i, j)
	dashed, thin := Line{Width: 0.02, Dash: 0.2, Gap: 0.15, Colour: Faint}, Line{Width: 0.02, Colour: Ink}
	has := func(i, j int) bool {
		return i >= 0 && j >= 0 && i < t.across && j < t.down && t.wanted[j*t.across+i]
	}
	cross := func(x, y float64) {
		c.Segment(x-0.3, y, x+0.3, y, thin)
		c.Segment(x, y-0.3, x, y+0.3, thin)
	}
	along := func(from, to float64) []float64 {
		return []float64{from + (to-from)*0.15, (from + to) / 2, to - (to-from)*0.15}
	}
	if has(i-1, j) {
		c.Segment(b.MinX+OverlapCM, b.MinY, b.MinX+OverlapCM, b.MaxY, dashed)
	}
	if has(i+1, j) {
		c.Segment(b.MaxX-OverlapCM, b.MinY, b.MaxX-OverlapCM, b.MaxY, dashed)
	}
	if has(i, j-1) {
		c.Segment(b.MinX, b.MinY+OverlapCM, b.MaxX, b.MinY+OverlapCM, dashed)
	}
	if has(i, j+1) {
		c.Segment(b.MinX, b.MaxY-OverlapCM, b.MaxX, b.MaxY-OverlapCM, dashed)
	}
	for _, y := range along(b.MinY, b.MaxY) {
		if has(i-1, j) {
			cross(b.MinX+OverlapCM/2, y)
		}
		if has(i+1, j) {
			cross(b.MaxX-OverlapCM/2, y)
		}
	}
	for _, x := range along(b.MinX, b.MaxX) {
		if has(i, j-1) {
			cross(x, b.MinY+OverlapCM/2)
		}
		if has(i, j+1) {
			cross(x, b.MaxY-OverlapCM/2)
		}
	}
	c.Stroke(Rect(b.MinX, b.MinY, b.Width(), b.Height()), true, Line{Width: 0.015, Colour: Rule})
}

// barAndNeighbours writes under a sheet: 5 cm to measure, and which sheets join
// it on which side.
func (d *Doc) barAndNeighbours(t tiling, i, j int, high, room float64) {
	const bar = 5.0
	c := &Canvas{d: d, left: tileEdge, top: high - 1.0, scale: 1, penScale: 1}
	thin := Line{Width: 0.02, Colour: Ink}
	c.Segment(0, 0.1, bar, 0.1, thin)
	for n := range 6 {
		c.Segment(float64(n), 0, float64(n), 0.2, thin)
	}
	c.Text("5 cm", bar+0.2, -0.1, footSize, false, Ink)
	text := ""
	add := func(di, dj int, side string) {
		if n, m := i+di, j+dj; n >= 0 && m >= 0 && n < t.across && m < t.down && t.wanted[m*t.across+n] {
			text += fmt.Sprintf("  ·  %s %s", side, t.name(n, m))
		}
	}
	add(-1, 0, "left")
	add(1, 0, "right")
	add(0, -1, "above")
	add(0, 1, "below")
	if text != "" {
		text = "joins" + text[len("  ·"):]
	}
	if d.date != "" {
		text += "    " + d.date
	}
	d.text(d.shorten(d.title+"    "+text, footSize, false, room-bar-1.4), tileEdge+bar+1.4, high-1.1, footSize, false, Faint)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
