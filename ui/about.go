package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"ellwand/assets"
)

// about says which program this is, and under what licence it and each part of
// it stands.
func (v *window) about() {
	head := newParagraph(words("Ellwand %s\nFrom a body and a fleece to a cutting diagram, and back.\nFree to use, change and pass on, under the MIT licence; without any warranty.", v.version), 600)
	text := widget.NewTextGridFromString(plainCells(assets.Licences()))
	text.Scroll = fyne.ScrollBoth
	shown := container.NewGridWrap(fyne.NewSize(640, 340), text)
	dialog.ShowCustom(words("About Ellwand"), words("Close"), container.NewVBox(head, widget.NewSeparator(), shown), v)
}

// plainCells is text for a grid, which takes a tab for one cell.
func plainCells(text string) string {
	return strings.ReplaceAll(strings.ReplaceAll(text, "\t", "    "), "\f", "")
}
