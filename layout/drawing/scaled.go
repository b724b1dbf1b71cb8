package drawing

import (
	"fmt"
	"image/color"
	"io"

	"ellwand/geometry"
	"ellwand/paper"
)

// pxPerCM is how many px of a diagram one cm of paper shows when it is printed
// at a scale asked for: writing is then as large as on one page of A4.
const pxPerCM = 3000 / 19.0

// scaledPDF writes the cloth in one row at 1 : o.Ratio, on as many sheets as that
// takes, to be glued together, and before them how the sheets go together.
func scaledPDF(w io.Writer, s Sheet, o Options) error {
	d, err := scaledDiagram(s, o)
	if err != nil {
		return err
	}
	ops := &record{}
	d.paint(ops)
	doc := paper.New(paper.Options{Paper: o.Paper, Title: d.heading(), Date: s.Date})
	plate := paper.Plate{
		Title: d.heading(), Scale: fmt.Sprintf("scale 1 : %g", o.Ratio),
		WideCM: d.px / pxPerCM, HighCM: d.tableY / pxPerCM,
		About: []string{fmt.Sprintf("Finished cloth %s wide, %s long, %s. One cm of paper is %g cm of cloth.", s.length(s.WidthCM), s.length(s.clothCM()), counted(len(s.Pieces)), o.Ratio)},
		Draw: func(c *paper.Canvas) {
			p := &canvasPen{c: c, unit: d.unit}
			for _, op := range ops.ops {
				op(p)
			}
		},
	}
	if most := 400; doc.Sheets(plate) > most {
		return fmt.Errorf("at 1 : %g the diagram takes %d sheets of %s; accepted is a scale at which it takes at most %d", o.Ratio, doc.Sheets(plate), o.Paper, most)
	}
	doc.Plate(plate)
	return doc.Write(w)
}

// scaledDiagram is the diagram in one row, its px as many to the cm of paper as
// pxPerCM, whatever its length.
func scaledDiagram(s Sheet, o Options) (*diagram, error) {
	d, err := newDiagram(s, Options{})
	if err != nil {
		return nil, err
	}
	d.c = Palette(false)
	d.c.Paper = color.RGBA{255, 255, 255, 255}
	d.scale = pxPerCM / o.Ratio
	d.px = max(d.LengthCM*d.scale+2*d.margin, 2000)
	d.notes = nil
	y := d.titleHeight() + rulerBand
	d.rows = []row{{0, d.LengthCM, y}}
	d.tableY = y + d.WidthCM*d.scale + rulerBand
	d.height = d.tableY
	d.noTable = true
	return d, nil
}

// canvasPen draws a diagram in px on a canvas in cm.
type canvasPen struct {
	c    *paper.Canvas
	unit float64
}

func onPaper(line []geometry.Point) []geometry.Point {
	out := make([]geometry.Point, len(line))
	for i, v := range line {
		out[i] = geometry.Point{X: v.X / pxPerCM, Y: v.Y / pxPerCM}
	}
	return out
}

func (p *canvasPen) fill(shape []geometry.Point, c color.RGBA) { p.c.Fill(onPaper(shape), c) }

func (p *canvasPen) stroke(line []geometry.Point, s stroke) {
	p.c.Stroke(onPaper(line), s.closed, paper.Line{Width: s.width / pxPerCM, Dash: s.dash / pxPerCM, Gap: s.gap / pxPerCM, Colour: s.c})
}

func (p *canvasPen) text(t text) {
	p.c.Baseline(t.line, t.x/pxPerCM, t.baseline/pxPerCM, t.size*p.unit/pxPerCM*pointsPerCM, t.bold, t.c)
}

func (p *canvasPen) clip(b box) {
	p.c.Clip(b.x/pxPerCM, b.y/pxPerCM, b.w/pxPerCM, b.h/pxPerCM)
}

func (p *canvasPen) unclip() { p.c.Unclip() }
