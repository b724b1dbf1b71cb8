package ui

import "fyne.io/fyne/v2"

// planOrders is the menu of plans and files.
func (v *window) planOrders() []order {
	return []order{
		{text: "New", keys: ctrl(fyne.KeyN), do: v.newPlan},
		{text: "Open…", keys: ctrl(fyne.KeyO), do: v.openPlan},
		{text: "Open recent", more: v.recentOrders()},
		line(),
		{text: "Save", keys: ctrl(fyne.KeyS), can: v.saveable, do: v.savePlan},
		{text: "Save as…", keys: ctrl(fyne.KeyS, fyne.KeyModifierShift), can: v.saveable, do: v.savePlanAs},
		{text: "Export or print…", keys: ctrl(fyne.KeyE), do: v.exportPlan},
		line(),
		{text: "Quit", keys: ctrl(fyne.KeyQ), do: func() { v.leaving("Quit", v.Close) }},
	}
}
