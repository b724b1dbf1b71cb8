package ui

import (
	"errors"
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// changeable refuses a change to a plan that can only be looked at, and one
// that leaves no plan.
func changeable(p *plan.Plan) error {
	if p.Newer != nil {
		return p.Newer
	}
	return p.Validate()
}

// saveable is whether the plan may be saved: one of a newer program may not.
func (v *window) saveable() bool { return v.b.plan().Newer == nil }

// toSave is the plan as it is to be kept: with the lay as it is shown.
func (b *bench) toSave() *plan.Plan {
	p := b.plan().Clone()
	if b.current() {
		p.KeepLay(b.shown)
	}
	return p
}

// save keeps the plan, with the lay as it is shown, in the file. When another
// program has changed that file meanwhile, nothing is written and the error is
// *plan.Changed.
func (b *bench) save(path string) error {
	was := b.held
	if path != b.path {
		var err error
		if was, err = plan.StampOf(path); err != nil {
			return fmt.Errorf(words("the plan cannot be saved: %w"), err)
		}
	}
	return b.saveOver(path, was)
}

func (b *bench) saveOver(path string, was plan.Stamp) error {
	b.stop()
	held, err := b.toSave().SaveOver(path, was)
	if err != nil {
		return fmt.Errorf(words("the plan cannot be saved: %w"), err)
	}
	b.path, b.held = path, held
	b.history.MarkSaved()
	b.tell(planChanged)
	return nil
}

func (v *window) savePlan()   { v.settle(); v.saveThen(func() {}) }
func (v *window) savePlanAs() { v.settle(); v.saveAsThen(func() {}) }

func (v *window) saveThen(then func()) {
	if v.b.path == "" {
		v.saveAsThen(then)
		return
	}
	v.write(v.b.path, then)
}

func (v *window) saveAsThen(then func()) {
	if newer := v.b.plan().Newer; newer != nil {
		v.fault(newer)
		return
	}
	c := &chooser{title: "Save the plan as", action: "Save", endings: planEndings(), saving: true,
		chosen: func(path string) { v.write(path, then) }}
	c.ask(v, filepath.Join(v.folder(), v.fileName()+".yaml"))
}

func (v *window) write(path string, then func()) { v.wrote(path, v.b.save(path), then) }

// wrote goes on after a save, or says or asks what stands in its way.
func (v *window) wrote(path string, err error, then func()) {
	if changed, ok := errors.AsType[*plan.Changed](err); ok {
		v.askToWriteOver(changed, then)
		return
	}
	if err != nil {
		v.fault(err)
		return
	}
	v.keeper.drop()
	v.keeper.used(path)
	v.say("Saved as "+path+".", false)
	then()
}

// askToWriteOver asks what is to be done about a file that another program has
// changed or taken away since it was read.
func (v *window) askToWriteOver(c *plan.Changed, then func()) {
	var d *dialog.CustomDialog
	button := func(text string, f func()) *widget.Button {
		return widget.NewButton(words(text), func() { d.Hide(); f() })
	}
	over := button("Write over it", func() {
		was, err := plan.StampOf(c.Path)
		if err == nil {
			err = v.b.saveOver(c.Path, was)
		}
		v.wrote(c.Path, err, then)
	})
	text := c.Error() + ". What is shown here has not been saved yet."
	buttons := []fyne.CanvasObject{button("Cancel", func() {})}
	if c.Gone {
		over.SetText(words("Save it again"))
	} else {
		buttons = append(buttons, button("Open what is there", func() { v.load(c.Path) }))
		text += " Writing over it keeps what is there as " + filepath.Base(c.Path) + "~; opening it gives up the changes made here."
	}
	as := button("Save as…", func() { v.saveAsThen(then) })
	as.Importance = widget.HighImportance
	d = dialog.NewCustomWithoutButtons(words("Changed by another program"), newParagraph(text, 460), v)
	d.SetButtons(append(buttons, over, as))
	d.Show()
}
