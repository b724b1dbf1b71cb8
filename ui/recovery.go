package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
	"ellwand/settings"
)

// offerLeftovers offers, one after the other, the work that earlier windows
// ended without saving.
func (v *window) offerLeftovers() {
	if v.keeper == nil {
		return
	}
	all, err := v.keeper.folders.Leftovers()
	v.keeper.wrong(err)
	v.offer(all)
}

func (v *window) offer(all []*settings.Leftover) {
	if len(all) == 0 {
		return
	}
	l := all[0]
	var d *dialog.CustomDialog
	button := func(text string, f func()) *widget.Button {
		return widget.NewButton(words(text), func() { d.Hide(); f() })
	}
	open := button("Open it", func() {
		for _, other := range all[1:] {
			other.LetGo()
		}
		v.takeUp(l)
	})
	open.Importance = widget.HighImportance
	d = dialog.NewCustomWithoutButtons(words("Unsaved work was found"), newParagraph(leftoverWords(l), 460), v)
	d.SetButtons([]fyne.CanvasObject{
		button("Throw it away", func() { v.keeper.wrong(l.Drop()); v.offer(all[1:]) }),
		button("Ask again later", func() { l.LetGo(); v.offer(all[1:]) }),
		open,
	})
	d.Show()
}

func leftoverWords(l *settings.Leftover) string {
	text := words("Ellwand ended before “%s” was saved. It was last kept on %s.", l.Plan.Title, l.At.Format("2 January 2006 at 15:04"))
	if l.Path == "" {
		return text + " It had no file of its own yet."
	}
	text += " It belongs to " + shownName(l.Path) + ", which is untouched."
	if is, err := plan.StampOf(l.Path); err == nil && is != l.Was {
		text += " That file has changed or gone since; you will be asked before it is written over."
	}
	return text
}

// takeUp puts unsaved work back on the bench, unsaved as it was.
func (v *window) takeUp(l *settings.Leftover) {
	v.leaving("Leave", func() {
		v.begin(l.Plan, l.Path)
		v.b.held = l.Was
		v.b.history.MarkUnsaved()
		v.b.tell(planChanged)
		// The old recovery file goes only when there is a new one.
		if err := v.keeper.keepNow(); err != nil {
			v.keeper.wrong(err)
			l.LetGo()
		} else {
			v.keeper.wrong(l.Drop())
		}
		if l.Path != "" {
			v.say("Taken up again: "+filepath.Base(l.Path)+", not saved yet.", false)
		}
	})
}
