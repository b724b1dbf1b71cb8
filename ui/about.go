package ui

import (
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/assets"
)

// about says which program this is, and under what licence it and each part of
// it stands.
func (v *window) about() {
	head := newParagraph(words("Ellwand %s\nFrom a body and a fleece to a cutting diagram, and back.\nFree to use, change and pass on, under the MIT licence; without any warranty.", v.version), 600)
	shown := container.NewGridWrap(fyne.NewSize(640, 340), newLineList(cellLines(assets.Licences(), 72)))
	dialog.ShowCustom(words("About Ellwand"), words("Close"), container.NewVBox(head, widget.NewSeparator(), shown), v)
}

// newLineList shows a long text in letters of one width, making only the lines
// in sight: all of the licences at once would be 300 thousand objects of the tool
// kit's, and half a gigabyte.
func newLineList(lines []string) *widget.List {
	l := widget.NewList(
		func() int { return len(lines) },
		func() fyne.CanvasObject {
			t := canvas.NewText("", theme.Color(theme.ColorNameForeground))
			t.TextStyle.Monospace, t.TextSize = true, theme.Size(theme.SizeNameText)
			return t
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			t := o.(*canvas.Text)
			t.Text, t.Color = lines[i], theme.Color(theme.ColorNameForeground)
			t.Refresh()
		})
	l.HideSeparators = true
	l.OnSelected = l.Unselect
	return l
}

// cellLines is a text in lines of at most so many letters, a tab made into four
// spaces; longer lines are broken between words where that can be done.
func cellLines(text string, most int) []string {
	var out []string
	text = strings.NewReplacer("\t", "    ", "\f", "", "\r", "").Replace(text)
	for _, line := range strings.Split(text, "\n") {
		letters := lettersOf(line)
		for len(letters) > most {
			at := most
			for k := most; k > most/2; k-- {
				if letters[k] == ' ' {
					at = k
					break
				}
			}
			out = append(out, string(letters[:at]))
			letters = []rune(strings.TrimLeft(string(letters[at:]), " "))
		}
		out = append(out, string(letters))
	}
	return out
}

// lettersOf is a line's letters; a byte that is no UTF-8 is taken for Latin-1, as
// one old licence has its ©.
func lettersOf(line string) []rune {
	out := make([]rune, 0, len(line))
	for i, r := range line {
		if r == utf8.RuneError && !strings.HasPrefix(line[i:], string(utf8.RuneError)) {
			r = rune(line[i])
		}
		out = append(out, r)
	}
	return out
}
