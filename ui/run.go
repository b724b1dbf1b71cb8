package ui

import (
	"os"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// Size of the window when it opens, in its own units.
const (
	openWidth  = 1240
	openHeight = 760
)

// Run opens the window on a plan and returns when it is closed. path is where
// the plan is kept, "" when it has no file yet. The environment variable
// ELLWAND_THEME (light, dark) overrides the system's choice of colours.
func Run(p *plan.Plan, path string) error {
	a := app.NewWithID("ellwand.window")
	a.Settings().SetTheme(newLook(os.Getenv("ELLWAND_THEME")))
	w := a.NewWindow("Ellwand")
	b := newBench(p, path, func(f func()) { go f() }, fyne.Do)
	v := newWindow(w, b, time.Now)
	w.SetMaster()
	w.Resize(fyne.NewSize(openWidth, openHeight))
	w.Show()
	v.b.begin()
	a.Run()
	return nil
}

// leaveButtons are the three answers to whether work is to be saved first.
func leaveButtons(verb string, save, leave, stay func()) []fyne.CanvasObject {
	s := widget.NewButton("Save", save)
	s.Importance = widget.HighImportance
	return []fyne.CanvasObject{widget.NewButton("Cancel", stay), widget.NewButton(verb+" without saving", leave), s}
}
