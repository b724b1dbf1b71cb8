package drawing

import (
	"image/color"
	"strings"

	"golang.org/x/image/font"

	"ellwand/paper"
)

// width is how wide a text is, in px.
func (d *diagram) width(line string, size float64, bold bool) float64 {
	return float64(font.MeasureString(d.face(size, bold), line)) / 64
}

// shorten cuts a text to fit, with an ellipsis.
func (d *diagram) shorten(line string, size float64, bold bool, most float64) string {
	return paper.Shorten(line, func(t string) bool { return d.width(t, size, bold) <= most })
}

// shortenBefore is shorten for a line whose ending stays to be read.
func (d *diagram) shortenBefore(line, ending string, size float64, bold bool, most float64) string {
	rest := most - d.width(ending, size, bold)
	if ending == "" || rest < most/3 || d.width(line, size, bold) <= most {
		return d.shorten(line, size, bold, most)
	}
	return d.shorten(strings.TrimSuffix(line, ending), size, bold, rest) + ending
}

// wrap breaks a text at blanks into at most so many lines; what does not fit
// is cut with an ellipsis.
func (d *diagram) wrap(line string, size, most float64, lines int) []string {
	var out []string
	words := strings.Fields(line)
	for len(words) > 0 {
		if len(out) == lines-1 {
			return append(out, d.shorten(strings.Join(words, " "), size, false, most))
		}
		n := 1
		for n < len(words) && d.width(strings.Join(words[:n+1], " "), size, false) <= most {
			n++
		}
		out = append(out, d.shorten(strings.Join(words[:n], " "), size, false, most))
		words = words[n:]
	}
	return out
}

// write puts a line with its upper left corner at (x, y).
func (d *diagram) write(line string, x, y, size float64, bold bool, c color.RGBA) {
	if line == "" {
		return
	}
	w := d.width(line, size, bold)
	ascent := float64(d.face(size, bold).Metrics().Ascent) / 64
	d.pen.text(text{line, x, y + ascent, w, size, bold, c})
	d.labels = append(d.labels, box{x, y, w, size * boxHeight * d.unit})
}

// extent is the room some lines take, the first of them bold.
func (d *diagram) extent(lines []string, size float64) (w, h float64) {
	for i, l := range lines {
		w = max(w, d.width(l, size, i == 0))
	}
	return w, (float64(len(lines)-1)*lineHeight + boxHeight) * size * d.unit
}

func (d *diagram) lines(lines []string, x, y, size float64) {
	for i, l := range lines {
		d.write(l, x, y+float64(i)*size*lineHeight*d.unit, size, i == 0, d.c.OnPieceInk)
	}
}
