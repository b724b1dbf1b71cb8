package ui

import "fyne.io/fyne/v2"

// layOrders is the menu of the lay as a whole and how it is looked at.
func (v *window) layOrders() []order {
	return []order{
		{text: "Pack", keys: ctrl(fyne.KeyL), do: v.b.pack},
		{text: "Stop", keys: ctrl(fyne.KeyPeriod), do: v.b.halt},
		{text: "What must move?", do: v.mustMove},
		{text: "What does piecing save?", do: v.whatPiecingSaves},
		line(),
		{text: "Keep this lay as A", do: func() { v.keepAs("A") }},
		{text: "Keep this lay as B", do: func() { v.keepAs("B") }},
		{text: "Compare two lays…", keys: ctrl(fyne.KeyK), do: v.compare},
		line(),
		{text: "Mark a flaw", letter: fyne.KeyM, do: func() { v.strip.useTool(toolFlaw); v.strip.focus() }},
		line(),
		{text: "Closer", keys: ctrl(fyne.KeyEqual), do: func() { v.strip.zoomMiddle(1.25) }},
		{text: "Farther", keys: ctrl(fyne.KeyMinus), do: func() { v.strip.zoomMiddle(1 / 1.25) }},
		{text: "Fit", keys: ctrl(fyne.Key0), do: v.strip.fit},
	}
}
