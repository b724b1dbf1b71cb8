package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// form is a panel being filled: headings, fields, notes and buttons, one under
// the other.
type form struct {
	b      *bench
	box    *fyne.Container
	fields []*field
	live   []func() // brought up to date when the result or the plan changes
	fault  func(error)
	shapes func()                  // opens the editor of own shapes
	turned func(*fyne.ScrollEvent) // scrolls what the form is in
}

func (f *form) add(o fyne.CanvasObject) { f.box.Add(o) }

func (f *form) heading(text string) {
	p := newParagraph(words(text), panelWidth)
	p.style.Bold, p.size = true, theme.SizeNameSubHeadingText
	f.gap(6)
	f.add(p)
	f.gap(2)
}

func (f *form) gap(height float32) { f.add(newGap(height)) }

func (f *form) note(text string) { f.add(newHint(words(text), panelWidth)) }

// said is a paragraph whose text follows the plan and its result.
func (f *form) said(text func() string) {
	p := newParagraph(text(), panelWidth)
	f.live = append(f.live, func() {
		if now := text(); now != p.text {
			p.say(now)
			f.box.Refresh()
		}
	})
	f.add(p)
}

func (f *form) button(text string, tapped func() error) {
	f.add(container.NewHBox(widget.NewButton(words(text), func() {
		if err := tapped(); err != nil {
			f.fault(err)
		}
	})))
}

// blanks is what an empty word means, by the field's last name.
func blanks() map[string]string {
	return map[string]string{"table": "both together", "grain": "as drafted", "draft": "own pieces only", "show_units": "cm",
		"singles_twist": "not said", "diameter_rule": "the first: ashenhurst worsted"}
}

// field adds the plan's field at a path, with its label, unit and words.
func (f *form) field(path string) *field {
	info, ok := plan.Field(f.b.plan(), path)
	if !ok {
		return nil
	}
	spec := f.plain(path, info.Label, info.Unit)
	if strings.HasPrefix(info.Accepted, "a list") && info.Unit != "" {
		spec.label, spec.unit = info.Label+", "+info.Unit, "" // a list needs the unit's room
	}
	spec.yesNo = info.Accepted == "true or false"
	for _, word := range info.Choices {
		label := word
		if word == "" {
			label = blanks()[path[strings.LastIndex(path, ".")+1:]]
		}
		spec.options = append(spec.options, option{word, label})
	}
	return f.put(spec)
}

// plain is the spec of a field that is read and set by its path alone.
func (f *form) plain(path, label, unit string) fieldSpec {
	return fieldSpec{path: path, label: label, unit: unit,
		get: func() string { return plan.GetField(f.b.plan(), path) },
		try: func(text string) error { return plan.SetField(f.b.plan().Clone(), path, text) },
		set: func(text string) error { return f.b.set(path, strings.ToLower(label), text) },
	}
}

func (f *form) put(spec fieldSpec) *field {
	fl := newField(f.inches(spec))
	fl.moved = f.box.Refresh
	if fl.wheel != nil {
		fl.wheel.turned = f.turned
	}
	f.fields = append(f.fields, fl)
	f.add(fl)
	f.mark(spec.path)
	return fl
}

func (f *form) sync() {
	for _, fl := range f.fields {
		fl.sync()
	}
	for _, l := range f.live {
		l()
	}
}

// reset shows the plan's values, also where wrong text was left standing.
func (f *form) reset() {
	for _, fl := range f.fields {
		fl.wrong(nil)
	}
	f.sync()
}

// newGap is empty room of a given height.
func newGap(height float32) fyne.CanvasObject {
	return container.New(&fixedHeight{height})
}

type fixedHeight struct{ height float32 }

func (l *fixedHeight) Layout([]fyne.CanvasObject, fyne.Size) {}
func (l *fixedHeight) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1, l.height) }
