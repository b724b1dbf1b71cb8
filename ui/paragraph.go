package ui

import (
	"sort"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// paragraph is text broken into lines of a fixed width, so that its height is
// known before it is laid out and nothing is ever cut off.
type paragraph struct {
	widget.BaseWidget
	text   string
	width  float32
	size   fyne.ThemeSizeName
	colour fyne.ThemeColorName
	style  fyne.TextStyle
}

func newParagraph(text string, width float32) *paragraph {
	p := &paragraph{text: text, width: width, size: theme.SizeNameText, colour: theme.ColorNameForeground}
	p.ExtendBaseWidget(p)
	return p
}

// newHint is a paragraph in small faint letters.
func newHint(text string, width float32) *paragraph {
	p := newParagraph(text, width)
	p.size, p.colour = theme.SizeNameCaptionText, theme.ColorNamePlaceHolder
	return p
}

// say changes the text.
func (p *paragraph) say(text string) {
	if p.text != text {
		p.text = text
		p.Refresh()
	}
}

// broken is the text's lines, none wider than width; a word that is wider by
// itself, the path of a file say, is broken where it must be.
func broken(text string, width, size float32, style fyne.TextStyle) []string {
	var out []string
	for _, para := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(para) {
			longer := strings.TrimSpace(line + " " + word)
			if line != "" && fyne.MeasureText(longer, size, style).Width > width {
				out = append(out, line)
				longer = word
			}
			for {
				head, tail := fitting(longer, width, size, style)
				if tail == "" {
					break
				}
				out = append(out, head)
				longer = tail
			}
			line = longer
		}
		out = append(out, line)
	}
	return out
}

// fitting is as much of a text as the width takes, one letter at least, and
// what is left of it.
func fitting(text string, width, size float32, style fyne.TextStyle) (head, tail string) {
	if fyne.MeasureText(text, size, style).Width <= width {
		return text, ""
	}
	letters := []rune(text)
	n := sort.Search(len(letters), func(n int) bool {
		return fyne.MeasureText(string(letters[:n+1]), size, style).Width > width
	})
	n = max(1, n)
	return string(letters[:n]), string(letters[n:])
}

// CreateRenderer implements fyne.Widget.
func (p *paragraph) CreateRenderer() fyne.WidgetRenderer {
	r := &paragraphRenderer{p: p}
	r.Refresh()
	return r
}

type paragraphRenderer struct {
	p     *paragraph
	lines []fyne.CanvasObject
	step  float32
}

func (r *paragraphRenderer) Refresh() {
	p := r.p
	size := theme.Size(p.size)
	r.step = fyne.MeasureText("Éy", size, p.style).Height
	r.lines = nil
	if p.text != "" {
		for _, l := range broken(p.text, p.width, size, p.style) {
			t := canvas.NewText(l, theme.Color(p.colour))
			t.TextSize, t.TextStyle = size, p.style
			r.lines = append(r.lines, t)
		}
	}
	r.Layout(p.Size())
	canvas.Refresh(p)
}

func (r *paragraphRenderer) Layout(fyne.Size) {
	for i, l := range r.lines {
		l.Move(fyne.NewPos(0, float32(i)*r.step))
		l.Resize(fyne.NewSize(r.p.width, r.step))
	}
}

func (r *paragraphRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.p.width, float32(len(r.lines))*r.step)
}

func (r *paragraphRenderer) Objects() []fyne.CanvasObject { return r.lines }
func (r *paragraphRenderer) Destroy()                     {}
