package ui

import "fyne.io/fyne/v2"

// editOrders is the menu of taking back and of what is chosen on the strip.
func (v *window) editOrders() []order {
	return []order{
		{text: "Undo", keys: &fyne.ShortcutUndo{}, do: v.goBack, now: func() string { return stepWords("Undo", v.b.history.CanUndo()) }},
		{text: "Redo", keys: &fyne.ShortcutRedo{}, do: v.b.redo, now: func() string { return stepWords("Redo", v.b.history.CanRedo()) }},
		line(),
		{text: "Pick every piece", keys: &fyne.ShortcutSelectAll{}, letter: fyne.KeyA, do: func() { v.b.pickAll(); v.strip.focus() }},
		{text: "Pick none", do: func() { v.b.pick("") }},
	}
}

// stepWords names what undo or redo would do: "Undo move sleeve/1".
func stepWords(verb, step string) string {
	if step == "" {
		return words(verb)
	}
	return words(verb) + " " + words(step)
}
