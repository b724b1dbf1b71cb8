package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// notice is a line over the whole window that says what is unusual about the
// plan's file, for as long as it is so.
type notice struct {
	root *fyne.Container
	text *widget.Label
}

func newNotice() *notice {
	n := &notice{text: widget.NewLabel("")}
	n.text.Wrapping = fyne.TextWrapWord
	n.root = container.NewVBox(n.text, widget.NewSeparator())
	n.root.Hide()
	return n
}

func (n *notice) show(p *plan.Plan, path string) {
	text := noticeOf(p, path)
	if text == n.text.Text {
		return
	}
	n.text.SetText(text)
	if text == "" {
		n.root.Hide()
		return
	}
	n.root.Show()
	n.root.Refresh()
}

func noticeOf(p *plan.Plan, path string) string {
	switch {
	case p.Newer != nil:
		return "! Read-only: " + p.Newer.Error() + ". Its figures may lack what a newer Ellwand would reckon."
	case p.UpgradedFrom() != plan.Version && path != "":
		return words("This plan was written as version %d; saving writes version %d and keeps the file as it was as %s.v%d~.",
			p.UpgradedFrom(), plan.Version, filepath.Base(path), p.UpgradedFrom())
	}
	return ""
}
