// Package readback reads what paper and the cutting diagram have written, for
// tests: lines and writing page by page, as another program finds them. It
// reads no other PDF.
package readback

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf16"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"

	"ellwand/geometry"
)

const pointsPerCM = 72 / 2.54

// Page is what stands on a page, in cm from its upper left corner, y downwards.
type Page struct {
	WideCM, HighCM float64
	Lines          []geometry.Polygon // every path that is drawn
	Said           []Said
}

// Said is one line of writing, from its left end on its baseline; SizeCM is that
// of its letters.
type Said struct {
	Text   string
	At     geometry.Point
	SizeCM float64
}

// WidthCM is how wide the line is, at least: in the regular letters.
func (s Said) WidthCM(f font.Face) float64 {
	return float64(font.MeasureString(f, s.Text)) / 64 / faceSize * s.SizeCM
}

const faceSize = 100.0

// Face is the letters that Said is measured in.
func Face() (font.Face, error) {
	f, err := opentype.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	return opentype.NewFace(f, &opentype.FaceOptions{Size: faceSize, DPI: 72})
}

// Text is all writing of the page, one line each.
func (p Page) Text() string {
	var out []string
	for _, s := range p.Said {
		out = append(out, s.Text)
	}
	return strings.Join(out, "\n")
}

var (
	mediaBox = regexp.MustCompile(`MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	pages    = regexp.MustCompile(`(?s)/Type /Page\n(.*?)/Contents.*?stream\n(.*?)\nendstream`)
	shown    = regexp.MustCompile(`(?s)BT ([\d.-]+) ([\d.-]+) Td \((.*?)\) Tj ET`)
	escaped  = regexp.MustCompile(`(?s)\\(.)`)
)

// Pages are the pages of a document.
func Pages(pdf []byte) ([]Page, error) {
	var usual [2]float64
	for _, m := range mediaBox.FindAllSubmatch(pdf, -1) {
		fmt.Sscan(string(m[1])+" "+string(m[2]), &usual[0], &usual[1]) // the last stands for all
	}
	var out []Page
	for _, m := range pages.FindAllSubmatch(pdf, -1) {
		r, err := zlib.NewReader(bytes.NewReader(m[2]))
		if err != nil {
			return nil, fmt.Errorf("page %d: %w", len(out)+1, err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			return nil, fmt.Errorf("page %d: %w", len(out)+1, err)
		}
		size := usual
		if own := mediaBox.FindSubmatch(m[1]); own != nil {
			fmt.Sscan(string(own[1])+" "+string(own[2]), &size[0], &size[1])
		}
		p := Page{WideCM: size[0] / pointsPerCM, HighCM: size[1] / pointsPerCM}
		p.read(data)
		out = append(out, p)
	}
	return out, nil
}

func (p *Page) at(x, y float64) geometry.Point {
	return geometry.Point{X: x / pointsPerCM, Y: p.HighCM - y/pointsPerCM}
}

// read takes a page's operators one by one. A line of writing may hold what
// looks like line ends, so that it is taken out whole.
func (p *Page) read(ops []byte) {
	size := 0.0
	last := 0
	for _, m := range shown.FindAllSubmatchIndex(ops, -1) {
		size = p.paths(ops[last:m[0]], size)
		var x, y float64
		fmt.Sscan(string(ops[m[2]:m[3]])+" "+string(ops[m[4]:m[5]]), &x, &y)
		raw := escaped.ReplaceAll(ops[m[6]:m[7]], []byte("$1"))
		var units []uint16
		for i := 0; i+1 < len(raw); i += 2 {
			units = append(units, uint16(raw[i])<<8|uint16(raw[i+1]))
		}
		p.Said = append(p.Said, Said{string(utf16.Decode(units)), p.at(x, y), size / pointsPerCM})
		last = m[1]
	}
	p.paths(ops[last:], size)
}

// paths takes the paths among operators that show no writing, and says which
// size of letters they leave set.
func (p *Page) paths(ops []byte, size float64) float64 {
	for _, line := range strings.Split(string(ops), "\n") {
		var a, b, c, d float64
		var name, op string
		if n, _ := fmt.Sscanf(line, "BT /%s %g Tf ET", &name, &a); n == 2 {
			size = a
			continue
		}
		if n, _ := fmt.Sscanf(line, "%g %g %g %g %s", &a, &b, &c, &d, &op); n == 5 && op == "re" {
			p.Lines = append(p.Lines, geometry.Polygon{p.at(a, b), p.at(a+c, b), p.at(a+c, b+d), p.at(a, b+d)})
			continue
		}
		var op2 string
		if n, _ := fmt.Sscanf(line, "%g %g %s %g %g %s", &a, &b, &op, &c, &d, &op2); n == 6 && op == "m" && op2 == "l" {
			p.Lines = append(p.Lines, geometry.Polygon{p.at(a, b), p.at(c, d)})
			continue
		}
		if n, _ := fmt.Sscanf(line, "%g %g %s", &a, &b, &op); n != 3 {
			continue
		}
		switch {
		case op == "m":
			p.Lines = append(p.Lines, geometry.Polygon{p.at(a, b)})
		case op == "l" && len(p.Lines) > 0:
			p.Lines[len(p.Lines)-1] = append(p.Lines[len(p.Lines)-1], p.at(a, b))
		}
	}
	return size
}
