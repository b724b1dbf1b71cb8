package drawing

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"path/filepath"
	"strings"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"ellwand/geometry"
	"ellwand/paper"
)

// FlatSheet is a garment drawn flat: its views at one scale, and the order in
// which it is sewn. Places are in cm, x to the right, y up.
type FlatSheet struct {
	Title, Date string
	Unit        Unit
	Views       []FlatView
	Steps       []FlatStep
}

// FlatView is one side of the garment.
type FlatView struct {
	Name  string
	Parts []FlatPart // from below to above
	Seams []FlatSeam
}

// FlatPart is what is seen of one piece.
type FlatPart struct {
	Name    string
	Through bool       // inside, seen through the cloth: its line only
	Edges   []FlatLine // the outline, once round
	Holes   []FlatLine
	Lines   []FlatLine
}

// FlatLine is a stretch of outline or a line on a piece.
type FlatLine struct {
	Style LineStyle
	Line  []geometry.Point
}

// LineStyle says how a line of a flat drawing is drawn.
type LineStyle int

const (
	StyleEdge LineStyle = iota // hemmed or left: a thick line
	StyleSeam                  // dashed
	StyleFold                  // thin
	StyleCut                   // a slit or an opening: solid
)

// FlatSeam is a seam with its number in the order of sewing; 0 for one that has
// none.
type FlatSeam struct {
	Number int
	Line   []geometry.Point
}

// FlatStep is a step of sewing: a heading and its numbered lines.
type FlatStep struct {
	Head  string
	Lines []string
}

// maxFlatPoints is the most points that a flat drawing may have.
const maxFlatPoints = 200000

func (s FlatSheet) validate() error {
	n := 0
	for _, v := range s.Views {
		for _, p := range v.Parts {
			for _, list := range [][]FlatLine{p.Edges, p.Holes, p.Lines} {
				for _, l := range list {
					n += len(l.Line)
					if err := drawable(l.Line); err != nil {
						return fmt.Errorf("piece %q of the garment laid flat %w", p.Name, err)
					}
				}
			}
		}
	}
	switch {
	case n == 0:
		return errors.New("there is no garment to draw flat: the plan has no pieces")
	case n > maxFlatPoints:
		return fmt.Errorf("the garment laid flat has %d corners; accepted is at most %d", n, maxFlatPoints)
	}
	return nil
}

// flatPlate is a flat drawing being drawn: the views, then the order of sewing.
type flatPlate struct {
	*diagram
	s      FlatSheet
	at     []geometry.Point // in px, of each view's upper left corner
	tall   float64          // px of the views
	cols   int
	bare   bool // without heading and list, for a view beside other things
	colour map[string]color.RGBA
}

func newFlatPlate(s FlatSheet, o Options, list bool) (*flatPlate, error) {
	o, err := o.settled()
	if err != nil {
		return nil, err
	}
	if err := s.validate(); err != nil {
		return nil, err
	}
	regular, err1 := truetype.Parse(goregular.TTF)
	bold, err2 := truetype.Parse(gobold.TTF)
	if err := errors.Join(err1, err2); err != nil {
		return nil, fmt.Errorf("reading the built-in font: %w", err)
	}
	d := &diagram{Sheet: Sheet{Title: s.Title, Unit: s.Unit, Date: s.Date}, c: Palette(o.Dark), px: float64(o.PixelWidth), unit: float64(o.PixelWidth) / 3000,
		fonts: [2]*truetype.Font{regular, bold}, faces: map[faceKey]font.Face{}}
	d.margin = 120 * d.unit
	f := &flatPlate{diagram: d, s: s, cols: 3, colour: map[string]color.RGBA{}}
	if !list {
		f.s.Steps, f.bare = nil, true
		d.margin = 40 * d.unit
	}
	f.arrange()
	return f, nil
}

const flatGapCM = 12

// arrange puts the views beside each other, or one under the other where that
// makes them larger, and the sewing below.
func (f *flatPlate) arrange() {
	wide, high, sumWide, sumHigh := 0.0, 0.0, 0.0, 0.0
	for _, v := range f.s.Views {
		b := v.bounds()
		wide, high = max(wide, b.Width()), max(high, b.Height())
		sumWide, sumHigh = sumWide+b.Width(), sumHigh+b.Height()
	}
	gaps := float64(len(f.s.Views)-1) * flatGapCM
	room, most := f.px-2*f.margin, 2300*f.unit
	beside := min(room/(sumWide+gaps), most/high)
	under := min(room/wide, most/(sumHigh+2*gaps))
	d := f.diagram
	besides := beside >= 0.75*under
	d.scale = under
	if besides {
		d.scale = beside
	}
	top := d.margin + (titleSize*1.5+textSize*lineHeight*1.3)*d.unit
	if f.bare {
		top = d.margin
	}
	x, y := d.margin, top+60*d.unit
	for _, v := range f.s.Views {
		b := v.bounds()
		f.at = append(f.at, geometry.Point{X: x, Y: y})
		if besides {
			x += (b.Width() + flatGapCM) * d.scale
		} else {
			y += b.Height()*d.scale + 130*d.unit
		}
	}
	if besides {
		y += high*d.scale + 70*d.unit
	}
	f.tall = y
	d.tableY = y + 60*d.unit
	d.height = d.tableY
	if len(f.s.Steps) > 0 {
		d.height += f.listHeight() + d.margin*0.7
	}
}

func (v FlatView) bounds() geometry.Rect {
	var all geometry.Polygon
	for _, p := range v.Parts {
		for _, e := range p.Edges {
			all = append(all, e.Line...)
		}
	}
	return all.Bounds()
}

func (f *flatPlate) paint(p pen) {
	d := f.diagram
	d.pen = p
	p.fill(box{0, 0, d.px, d.height}.polygon(), d.c.Paper)
	if !f.bare {
		f.head()
	}
	for i, v := range f.s.Views {
		f.view(v, f.at[i])
	}
	f.scaleBar()
	f.list()
}

func (f *flatPlate) head() {
	d := f.diagram
	d.write(d.shorten(f.heading(), titleSize, true, d.px-2*d.margin), d.margin, 70*d.unit, titleSize, true, d.c.Ink)
	facts := "The garment laid flat, finished size. Thick line: hem or edge; dashed: seam, with its number in the order of sewing; thin: fold."
	d.write(d.shorten(facts, smallSize, false, d.px-2*d.margin), d.margin, (70+titleSize*1.4)*d.unit, smallSize, false, d.c.Faint)
}

func (f *flatPlate) heading() string {
	if t := paper.Clean(f.Title); t != "" {
		return t + ", laid flat"
	}
	return "The garment laid flat"
}

func (f *flatPlate) view(v FlatView, at geometry.Point) {
	b := v.bounds()
	onto := func(line []geometry.Point) geometry.Polygon {
		out := make(geometry.Polygon, len(line))
		for i, q := range line {
			out[i] = geometry.Point{X: at.X + (q.X-b.MinX)*f.scale, Y: at.Y + (b.MaxY-q.Y)*f.scale}
		}
		return out
	}
	f.write(v.Name, at.X, at.Y-58*f.unit, textSize, true, f.c.Ink)
	for _, p := range v.Parts {
		f.part(p, onto)
	}
	f.names(v, onto)
	f.numbers(v, onto)
}

func (f *flatPlate) fillOf(name string) color.RGBA {
	c, ok := f.colour[name]
	if !ok {
		c = f.c.PieceFills[len(f.colour)%len(f.c.PieceFills)]
		f.colour[name] = c
	}
	return c
}

func (f *flatPlate) part(p FlatPart, onto func([]geometry.Point) geometry.Polygon) {
	var outline geometry.Polygon
	for _, e := range p.Edges {
		outline = append(outline, onto(e.Line)...)
	}
	if !p.Through {
		f.pen.fill(outline, f.fillOf(p.Name))
		for _, h := range p.Holes {
			f.pen.fill(onto(h.Line), f.c.Waste)
		}
	}
	for _, list := range [][]FlatLine{p.Edges, p.Holes, p.Lines} {
		for _, e := range list {
			s := f.styleOf(e.Style)
			if p.Through {
				s = stroke{width: 2 * f.unit, dash: 5 * f.unit, gap: 9 * f.unit, c: f.c.Ink}
			}
			f.pen.stroke(onto(e.Line), s)
		}
	}
}

func (f *flatPlate) styleOf(style LineStyle) stroke {
	u := f.unit
	switch style {
	case StyleSeam:
		return stroke{width: 3 * u, dash: 16 * u, gap: 10 * u, c: f.c.Ink}
	case StyleFold:
		return stroke{width: 2 * u, c: f.c.OnPieceInk}
	case StyleCut:
		return stroke{width: 4 * u, c: f.c.Ink}
	}
	return stroke{width: 6 * u, c: f.c.Ink}
}

// names writes each piece's name once in every view, where there is room.
func (f *flatPlate) names(v FlatView, onto func([]geometry.Point) geometry.Polygon) {
	said := map[string]bool{}
	for i := len(v.Parts) - 1; i >= 0; i-- {
		p := v.Parts[i]
		var q geometry.Polygon
		for _, e := range p.Edges {
			q = append(q, onto(e.Line)...)
		}
		if said[p.Name] || len(q) < 3 || p.Through {
			continue
		}
		w, h := f.width(p.Name, smallSize, false), smallSize*boxHeight*f.unit
		c := q.Centroid()
		for k := range 35 {
			across, down := []float64{0, -0.8, 0.8, -1.6, 1.6}[k%5], []float64{0, 2, -2, 4, -4, 7, -7}[k/5]
			b := box{c.X - w/2 + across*w, c.Y - h/2 + down*h, w, h}
			if inside(q, b) && f.free(b) && !covered(v.Parts[i+1:], b, onto) {
				f.write(p.Name, b.x, b.y, smallSize, false, f.c.OnPieceInk)
				said[p.Name] = true
				break
			}
		}
	}
}

// covered says whether one of the parts lies over a box.
func covered(parts []FlatPart, b box, onto func([]geometry.Point) geometry.Polygon) bool {
	for _, p := range parts {
		var q geometry.Polygon
		for _, e := range p.Edges {
			q = append(q, onto(e.Line)...)
		}
		for _, v := range append(b.polygon(), geometry.Point{X: b.x + b.w/2, Y: b.y + b.h/2}) {
			if !p.Through && len(q) > 2 && geometry.Locate(q, v) != geometry.Outside {
				return true
			}
		}
	}
	return false
}

func inside(q geometry.Polygon, b box) bool {
	for _, v := range b.polygon() {
		if geometry.Locate(q, v) == geometry.Outside {
			return false
		}
	}
	return true
}

func (f *flatPlate) free(b box) bool {
	for _, o := range f.labels {
		if b.x < o.x+o.w && o.x < b.x+b.w && b.y < o.y+o.h && o.y < b.y+b.h {
			return false
		}
	}
	return true
}

// numbers puts each seam's number on it, as near its middle as is free.
func (f *flatPlate) numbers(v FlatView, onto func([]geometry.Point) geometry.Polygon) {
	r := 24 * f.unit
	for _, s := range v.Seams {
		line := onto(s.Line)
		if s.Number == 0 || len(line) < 2 {
			continue
		}
		var at geometry.Point
		for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
			at = along(line, share)
			if f.free(box{at.X - r, at.Y - r, 2 * r, 2 * r}) {
				break
			}
		}
		text := fmt.Sprint(s.Number)
		f.pen.fill(circle(at, r), f.c.Paper)
		f.pen.stroke(circle(at, r), stroke{width: 2 * f.unit, closed: true, c: f.c.Ink})
		size := 30.0
		w := f.width(text, size, false)
		f.write(text, at.X-w/2, at.Y-size*boxHeight*f.unit/2, size, false, f.c.Ink)
		f.labels = append(f.labels, box{at.X - r, at.Y - r, 2 * r, 2 * r})
	}
}

func circle(c geometry.Point, r float64) []geometry.Point {
	var out []geometry.Point
	for i := range 24 {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 24)
		out = append(out, geometry.Point{X: c.X + r*k, Y: c.Y + r*s})
	}
	return out
}

// along is the point at a share of a line's length.
func along(line []geometry.Point, share float64) geometry.Point {
	total := 0.0
	for i := 1; i < len(line); i++ {
		total += math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
	}
	left := total * share
	for i := 1; i < len(line); i++ {
		l := math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
		if left <= l && l > 0 {
			t := left / l
			return geometry.Point{X: line[i-1].X + t*(line[i].X-line[i-1].X), Y: line[i-1].Y + t*(line[i].Y-line[i-1].Y)}
		}
		left -= l
	}
	return line[len(line)-1]
}

// scaleBar is 50 cm long, or 20 inches, or a fifth of that for small garments.
func (f *flatPlate) scaleBar() {
	long, name := 50.0, "50 cm"
	if f.Unit == Inches {
		long, name = 20*2.54, "20 in"
	}
	if long*f.scale > f.px/3 {
		long, name = long/5, map[Unit]string{Centimetres: "10 cm", Inches: "4 in"}[f.Unit]
	}
	x, y, u := f.margin, f.tall, f.unit
	f.line(x, y, x+long*f.scale, y, 4, f.c.Ink)
	for _, at := range []float64{x, x + long*f.scale} {
		f.line(at, y-12*u, at, y+12*u, 4, f.c.Ink)
	}
	f.write(name, x+long*f.scale+16*u, y-smallSize*boxHeight*u/2, smallSize, false, f.c.Ink)
}

func (f *flatPlate) listRows() (rows []listRow) {
	wide := (f.px-2*f.margin)/float64(f.cols) - 40*f.unit
	for _, s := range f.s.Steps {
		for i, l := range f.wrap(paper.Clean(s.Head), smallSize, wide*0.94, 4) {
			rows = append(rows, listRow{l, true, i == 0})
		}
		for _, t := range s.Lines {
			for _, l := range f.wrap(paper.Clean(t), smallSize, wide, 3) {
				rows = append(rows, listRow{l, false, false})
			}
		}
	}
	return rows
}

type listRow struct {
	text        string
	bold, first bool
}

func (f *flatPlate) listHeight() float64 {
	return float64(len(f.listRows())/f.cols+2)*smallSize*lineHeight*f.unit + 90*f.unit
}

// list writes the order of sewing in columns.
func (f *flatPlate) list() {
	if len(f.s.Steps) == 0 {
		return
	}
	f.write("Sewing, in order, with finished lengths", f.margin, f.tableY, textSize, true, f.c.Ink)
	rows := f.listRows()
	each, step := len(rows)/f.cols+1, smallSize*lineHeight*f.unit
	for i, r := range rows {
		x := f.margin + float64(i/each)*(f.px-2*f.margin)/float64(f.cols)
		y := f.tableY + 80*f.unit + float64(i%each)*step
		f.write(r.text, x, y, smallSize, r.bold, f.c.Ink)
	}
}

// FlatPicture draws the sheet as a picture, with the list of sewing or without.
func FlatPicture(s FlatSheet, o Options, list bool) (image.Image, error) {
	f, err := newFlatPlate(s, o, list)
	if err != nil {
		return nil, err
	}
	p := newPicturePen(int(f.px), int(f.height), f.face)
	f.paint(p)
	return p.image(), nil
}

// FlatPNG, FlatSVG and FlatPDF write a garment drawn flat. Same sheet and
// options, same bytes.
func FlatPNG(w io.Writer, s FlatSheet, o Options) error {
	img, err := FlatPicture(s, o, true)
	if err != nil {
		return err
	}
	if err := png.Encode(w, img); err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	return nil
}

// FlatSVG writes a scalable drawing.
func FlatSVG(w io.Writer, s FlatSheet, o Options) error {
	f, err := newFlatPlate(s, o, true)
	if err != nil {
		return err
	}
	if o, err = o.settled(); err != nil {
		return err
	}
	p := &svgPen{unit: f.unit}
	p.printf(`<?xml version="1.0" encoding="UTF-8"?>`+"\n"+
		`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="Go, Helvetica, Arial, sans-serif">`+"\n",
		short(f.px/o.DPI*25.4), short(f.height/o.DPI*25.4), short(f.px), short(f.height))
	p.printf("<title>%s</title>\n", escaped(f.heading()))
	f.paint(p)
	p.printf("</svg>\n")
	_, err = w.Write(p.Bytes())
	return err
}

// FlatPDF writes pages at a round scale that each states.
func FlatPDF(w io.Writer, s FlatSheet, o Options) error {
	f, err := newFlatPlate(s, o, true)
	if err != nil {
		return err
	}
	f.c.Paper = color.RGBA{255, 255, 255, 255}
	f.Title = f.heading()
	ops := &record{}
	f.Title = s.Title
	f.paint(ops)
	l := f.pages(o.Paper)
	f.Title = f.heading()
	doc := newDocument(l, f.diagram)
	for i := range l.breaks[1:] {
		doc.AddPage()
		p := &pagePen{doc: doc, left: l.left, perPx: l.perPx, unit: f.unit, from: l.breaks[i], to: l.breaks[i+1]}
		p.ground(l, f.c.Paper)
		for _, op := range ops.ops {
			op(p)
		}
		p.footer(l, fmt.Sprintf("Scale 1 : %g when printed on %s at 100 %%  ·  page %d of %d", l.ratio, o.Paper, i+1, len(l.breaks)-1), f.c.Faint)
	}
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("writing the pages: %w", err)
	}
	return nil
}

// FlatForFile is what writes the kind of file that the name's ending tells.
func FlatForFile(name string) (func(io.Writer, FlatSheet, Options) error, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".png":
		return FlatPNG, nil
	case ".svg":
		return FlatSVG, nil
	case ".pdf":
		return FlatPDF, nil
	}
	return nil, fmt.Errorf("the file is named %q; accepted for a garment drawn flat is a name ending in .png, .svg, .pdf", name)
}
