package ui

import "fyne.io/fyne/v2"

// pieceOrders is the menu of what is done with the pieces picked.
func (v *window) pieceOrders() []order {
	with := func(text string, letter fyne.KeyName, f func() error) order {
		return order{text: text, letter: letter, do: func() { v.strip.try(f); v.strip.focus() }}
	}
	return []order{
		with("Turn", fyne.KeyR, v.b.turn),
		with("Turn over", fyne.KeyF, v.b.flip),
		with("Pin, or let go", fyne.KeyP, v.b.pin),
		line(),
		{text: "Next", letter: fyne.KeyN, do: func() { v.strip.pickNext(1); v.strip.focus() }},
		{text: "The one before", letter: fyne.KeyB, do: func() { v.strip.pickNext(-1); v.strip.focus() }},
	}
}
