package drawing

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"strconv"
	"strings"

	"ellwand/geometry"
)

// SVG writes the sheet as a scalable drawing of the same design as the PNG, as
// large on paper as PixelWidth and DPI make it. Writing stays writing, and keeps
// its measured width whatever font the viewer has. Same sheet and options, same
// bytes (SVG 1.1, second edition, W3C).
func SVG(w io.Writer, s Sheet, o Options) error {
	d, err := newDiagram(s, o)
	if err != nil {
		return err
	}
	return writeSVG(w, d, d.heading(), o, d.paint)
}

func writeSVG(w io.Writer, d *diagram, title string, o Options, paint func(pen)) error {
	o, err := o.settled()
	if err != nil {
		return err
	}
	p := &svgPen{unit: d.unit}
	p.printf(`<?xml version="1.0" encoding="UTF-8"?>`+"\n"+
		`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="Go, Helvetica, Arial, sans-serif">`+"\n",
		short(d.px/o.DPI*25.4), short(d.height/o.DPI*25.4), short(d.px), short(d.height))
	p.printf("<title>%s</title>\n", escaped(title))
	paint(p)
	p.printf("</svg>\n")
	_, err = w.Write(p.Bytes())
	return err
}

type svgPen struct {
	bytes.Buffer
	unit  float64
	clips int
}

func (p *svgPen) printf(format string, args ...any) { fmt.Fprintf(&p.Buffer, format, args...) }

func (p *svgPen) fill(shape []geometry.Point, c color.RGBA) {
	p.printf("<path d=\"%sZ\" fill=\"%s\"/>\n", path(shape), hex(c))
}

func (p *svgPen) stroke(line []geometry.Point, s stroke) {
	d, dash := path(line), ""
	if s.closed {
		d += "Z"
	}
	if s.dash > 0 {
		dash = fmt.Sprintf(` stroke-dasharray="%s %s"`, short(s.dash), short(s.gap))
	}
	p.printf("<path d=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\" stroke-linejoin=\"round\" stroke-linecap=\"round\"%s/>\n", d, hex(s.c), short(s.width), dash)
}

func (p *svgPen) text(t text) {
	weight := ""
	if t.bold {
		weight = ` font-weight="bold"`
	}
	p.printf("<text x=\"%s\" y=\"%s\" font-size=\"%s\"%s fill=\"%s\" textLength=\"%s\" lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">%s</text>\n",
		short(t.x), short(t.baseline), short(t.size*p.unit), weight, hex(t.c), short(t.width), escaped(t.line))
}

func (p *svgPen) clip(b box) {
	p.clips++
	p.printf("<defs><clipPath id=\"clip%d\"><rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"/></clipPath></defs>\n<g clip-path=\"url(#clip%d)\">\n",
		p.clips, short(b.x), short(b.y), short(b.w), short(b.h), p.clips)
}

func (p *svgPen) unclip() { p.printf("</g>\n") }

func path(line []geometry.Point) string {
	var b strings.Builder
	for i, v := range line {
		b.WriteByte("ML"[min(i, 1)])
		b.WriteString(short(v.X) + " " + short(v.Y))
	}
	return b.String()
}

// short writes a number to a hundredth of a px.
func short(v float64) string {
	t := strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0")
	return strings.TrimSuffix(t, ".")
}

func hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func escaped(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return ""
	}
	return b.String()
}
