package ui

import (
	"cmp"
	"os"
	"runtime"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/widget"

	"ellwand/assets"
	"ellwand/plan"
	"ellwand/settings"
	"ellwand/ui/texts"
)

// Size of the window when it opens, in its own units.
const (
	openWidth  = 1240
	openHeight = 760
)

// Run opens the window on a plan and returns when it is closed. path is where
// the plan is kept, "" when it has no file yet; version is the program's; wrong,
// when not nil, is said first: why another plan could not be opened. The
// environment variable ELLWAND_THEME (light, dark) overrides the colours of the
// settings.
func Run(p *plan.Plan, path, version string, wrong error) error {
	// Without an ID the tool kit keeps no preferences of its own; what there is
	// to keep is in the settings.
	a := app.New()
	a.SetIcon(fyne.NewStaticResource("ellwand.svg", assets.Icon()))
	folders, noFolders := settings.UsersFolders(runtime.GOOS, os.Getenv)
	set, notRead := settings.Defaults(), error(nil)
	if noFolders == nil {
		set, notRead = folders.Load()
	}
	a.Settings().SetTheme(newLook(coloursFor(set, os.Getenv("ELLWAND_THEME"))))
	noTexts := lang.AddTranslationsFS(texts.Files, "said")
	w := a.NewWindow("Ellwand")
	b := newBench(p, path, func(f func()) { go f() }, fyne.Do)
	v := newWindow(w, b, time.Now)
	v.version = version
	w.SetMaster()
	w.Resize(fyne.NewSize(cmp.Or(set.Width, openWidth), cmp.Or(set.Height, openHeight)))
	w.Show()
	v.b.begin()
	if noFolders == nil {
		v.keepIn(folders, time.Duration(set.Autosave)*time.Second)
		if path != "" {
			v.keeper.used(path)
		}
		v.offerLeftovers()
	}
	if err := cmp.Or(noFolders, notRead, noTexts); err != nil {
		v.say(sentence(err, ""), true)
	}
	if wrong != nil {
		v.fault(wrong)
	}
	if os.Getenv("ELLWAND_FRAMES") != "" {
		meterFrames(v.strip, os.Stderr, time.Now)
	}
	if every, err := time.ParseDuration(os.Getenv("ELLWAND_MEMORY")); err == nil {
		go meterMemory(every, os.Stderr, time.Now)
	}
	a.Run()
	v.keeper.close()
	return nil
}

// coloursFor is the variant of the theme: what the environment asks for, else
// the settings, "" for the system's.
func coloursFor(s settings.Settings, asked string) string {
	if asked != "" || s.Colours == "system" {
		return asked
	}
	return s.Colours
}

// leaveButtons are the three answers to whether work is to be saved first.
func leaveButtons(verb string, save, leave, stay func()) []fyne.CanvasObject {
	s := widget.NewButton(words("Save"), save)
	s.Importance = widget.HighImportance
	return []fyne.CanvasObject{widget.NewButton(words("Cancel"), stay), widget.NewButton(words("%s without saving", words(verb)), leave), s}
}
