package ui

import (
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/dialog"

	"ellwand/plan"
)

// leaving asks about unsaved work before the plan is left behind. What is asked of
// it is dropped, or the answer would come over what is opened next.
func (v *window) leaving(verb string, then func()) {
	v.settle()
	v.b.dropQuestion()
	v.b.stop()
	if !v.b.history.Dirty() {
		v.keeper.drop()
		then()
		return
	}
	d := dialog.NewCustomWithoutButtons(words("Save first?"), newParagraph(words("“%s” has changes that are not saved.", v.b.plan().Title), 380), v)
	d.SetButtons(leaveButtons(verb,
		func() { d.Hide(); v.saveThen(then) },
		func() { d.Hide(); v.keeper.drop(); then() },
		func() { d.Hide() }))
	d.Show()
}

func (v *window) openPlan() {
	v.leaving("Leave", func() {
		c := &chooser{title: "Open a plan", action: "Open", endings: planEndings(), chosen: v.load}
		c.ask(v, v.folder()+string(filepath.Separator))
	})
}

func (v *window) load(path string) {
	p, _, err := plan.LoadToLook(path)
	if err != nil {
		v.fault(err)
		return
	}
	v.begin(p, path)
	v.keeper.used(path)
}

// begin puts another plan on the bench; the one before is saved or given up.
func (v *window) begin(p *plan.Plan, path string) {
	v.keeper.drop()
	v.strip.fitted = true
	v.b.start(p, path)
	v.b.tell(resultChanged)
	v.b.begin()
}

func planEndings() []string { return []string{".yaml", ".yml"} }

// folder is where files are looked for first.
func (v *window) folder() string {
	if v.b.path != "" {
		if abs, err := filepath.Abs(filepath.Dir(v.b.path)); err == nil {
			return abs
		}
	}
	if dir, err := os.Getwd(); err == nil {
		return dir
	}
	return string(filepath.Separator)
}

// fileName is the plan's own, or one made from its title.
func (v *window) fileName() string {
	if v.b.path != "" {
		name := filepath.Base(v.b.path)
		return strings.TrimSuffix(name, filepath.Ext(name))
	}
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			return r
		case r == ' ' || r == '-':
			return '-'
		}
		return -1
	}, strings.ToLower(v.b.plan().Title))
	if name == "" {
		return "plan"
	}
	return name
}
