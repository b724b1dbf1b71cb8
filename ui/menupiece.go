package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// pieceOrders is the menu of what is done with the pieces picked.
func (v *window) pieceOrders() []order {
	with := v.withPicked
	orders := []order{
		with("Turn", fyne.KeyR, v.b.turn),
		with("Turn over", fyne.KeyF, v.b.flip),
		with("Pin, or let go", fyne.KeyP, v.b.pin),
		line(),
	}
	orders = append(orders, v.alignOrders()...)
	return append(orders,
		line(),
		order{text: "Own shapes and seams…", keys: ctrl(fyne.KeyG), do: v.openShapes},
		order{text: "Type where it lies", letter: fyne.KeyE, do: func() { v.Canvas().Focus(v.place.along) }},
		order{text: "Next", letter: fyne.KeyN, do: func() { v.strip.pickNext(1); v.strip.focus() }},
		order{text: "The one before", letter: fyne.KeyB, do: func() { v.strip.pickNext(-1); v.strip.focus() }})
}

// withPicked is an order that does something with the pieces picked.
func (v *window) withPicked(text string, letter fyne.KeyName, f func() error) order {
	return order{text: text, letter: letter, do: func() { v.strip.try(f); v.strip.focus() }}
}

// alignOrders bring the picked pieces in line.
func (v *window) alignOrders() []order {
	with := v.withPicked
	return []order{
		with("To the cut end", "", func() error { return v.b.toEdge(sideStart) }),
		with("To the left selvedge", "", func() error { return v.b.toEdge(sideLeft) }),
		with("To the right selvedge", "", func() error { return v.b.toEdge(sideRight) }),
		with("Starts in line", "", func() error { return v.b.inLine(sideStart) }),
		with("Ends in line", "", func() error { return v.b.inLine(sideEnd) }),
		with("Left sides in line", "", func() error { return v.b.inLine(sideLeft) }),
		with("Right sides in line", "", func() error { return v.b.inLine(sideRight) }),
		with("Space evenly along the cloth", "", func() error { return v.b.spaceEvenly(false) }),
		with("Space evenly across it", "", func() error { return v.b.spaceEvenly(true) }),
	}
}

// alignMenu shows them under a button.
func (v *window) alignMenu(under fyne.CanvasObject) {
	menu := fyne.NewMenu("")
	for _, o := range v.alignOrders() {
		menu.Items = append(menu.Items, fyne.NewMenuItem(words(o.text), o.do))
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(under).AddXY(0, under.Size().Height)
	pop := widget.NewPopUpMenu(menu, v.Canvas())
	pop.ShowAtPosition(at)
	v.Canvas().Focus(pop)
}
