package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
)

func ctrl(key fyne.KeyName, more ...fyne.KeyModifier) fyne.Shortcut {
	m := fyne.KeyModifierShortcutDefault
	for _, k := range more {
		m |= k
	}
	return &desktop.CustomShortcut{KeyName: key, Modifier: m}
}

// menu names every command with its keys; the keys work wherever the focus is.
func (v *window) menu() *fyne.MainMenu {
	item := func(text string, keys fyne.Shortcut, f func()) *fyne.MenuItem {
		i := fyne.NewMenuItem(text, func() {
			if v.Canvas().Overlays().Top() == nil { // a question waits for its answer
				f()
			}
		})
		i.Shortcut = keys
		return i
	}
	piece := func(text string, f func() error) *fyne.MenuItem {
		return item(text, nil, func() { v.strip.try(f); v.strip.focus() })
	}
	quit := item("Quit", ctrl(fyne.KeyQ), func() { v.leaving("Quit", v.Close) })
	quit.IsQuit = true
	sep := fyne.NewMenuItemSeparator
	return fyne.NewMainMenu(
		fyne.NewMenu("Plan",
			item("New", ctrl(fyne.KeyN), v.newPlan), item("Open…", ctrl(fyne.KeyO), v.openPlan), sep(),
			item("Save", ctrl(fyne.KeyS), v.savePlan), item("Save as…", ctrl(fyne.KeyS, fyne.KeyModifierShift), v.savePlanAs),
			item("Export PNG…", ctrl(fyne.KeyE), v.exportPNG), sep(), quit),
		fyne.NewMenu("Edit",
			item("Undo", &fyne.ShortcutUndo{}, v.goBack), item("Redo", &fyne.ShortcutRedo{}, v.b.redo)),
		fyne.NewMenu("Piece",
			piece("Turn  (R)", v.b.turn), piece("Turn over  (F)", v.b.flip), piece("Pin, or let go  (P)", v.b.pin), sep(),
			item("Next  (N)", nil, func() { v.strip.pickNext(1); v.strip.focus() }),
			item("The one before  (B)", nil, func() { v.strip.pickNext(-1); v.strip.focus() })),
		fyne.NewMenu("Lay",
			item("Pack", ctrl(fyne.KeyL), v.b.pack), item("Stop", ctrl(fyne.KeyPeriod), v.b.stop), sep(),
			item("Closer", ctrl(fyne.KeyEqual), func() { v.strip.zoomMiddle(1.25) }),
			item("Farther", ctrl(fyne.KeyMinus), func() { v.strip.zoomMiddle(1 / 1.25) }),
			item("Fit", ctrl(fyne.Key0), v.strip.fit)),
		fyne.NewMenu("Show",
			item("From what?", ctrl(fyne.Key1), func() { v.drawer.toggle(0) }),
			item("Widths", ctrl(fyne.Key2), func() { v.drawer.toggle(1) }),
			item("Remarks", ctrl(fyne.Key3), func() { v.drawer.toggle(2) })),
		fyne.NewMenu("Help", item("Keys and mouse", nil, v.help)),
	)
}

// keys are those that the menu cannot name: a second one for redo, and the
// strip's letters when nothing has the focus.
func (v *window) keys() {
	v.Canvas().AddShortcut(ctrl(fyne.KeyZ, fyne.KeyModifierShift), func(fyne.Shortcut) { v.b.redo() })
	v.Canvas().SetOnTypedKey(v.typed)
}

// typed is a key that no widget has taken: Escape shuts a question, all others
// are the strip's when none is open.
func (v *window) typed(e *fyne.KeyEvent) {
	top := v.Canvas().Overlays().Top()
	switch {
	case top == nil:
		v.strip.TypedKey(e)
	case e.Name == fyne.KeyEscape:
		top.Hide()
	}
}

func (v *window) help() {
	dialog.ShowCustom("Keys and mouse", "Close", newParagraph(`On the strip of cloth
Click picks a piece; dragging moves it; it snaps to selvedge, cut end and neighbours.
Dragging beside the pieces, or the wheel, moves along the cloth; the wheel with Ctrl zooms.
R turns, F turns over, P pins or lets go, N and B go from piece to piece.
Arrow keys move by 0.1 cm, with Shift by 1 cm. Escape picks nothing.

In a form
Enter or leaving the field takes the number; Escape takes back what was typed.
A wrong number says so under its field and stays out of the plan.

Everywhere
Ctrl+N new, Ctrl+O open, Ctrl+S save, Ctrl+Shift+S save as, Ctrl+E export,
Ctrl+Z undo, Ctrl+Y or Ctrl+Shift+Z redo, Ctrl+L pack, Ctrl+. stop.`, 600), v)
}
