package ui

import "fyne.io/fyne/v2"

// showOrders is the menu of what the drawer shows.
func (v *window) showOrders() []order {
	return []order{
		{text: "From what?", keys: ctrl(fyne.Key1), do: func() { v.drawer.toggle(0) }},
		{text: "Widths", keys: ctrl(fyne.Key2), do: func() { v.drawer.toggle(1) }},
		{text: "Remarks", keys: ctrl(fyne.Key3), do: func() { v.drawer.toggle(2) }},
		{text: "Laid flat", keys: ctrl(fyne.Key4), do: func() { v.drawer.toggle(3) }},
	}
}
