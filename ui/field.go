package ui

import (
	"errors"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// Widths of a form's columns.
const (
	panelWidth   = 330
	labelWidth   = 168
	controlWidth = 84
	unitWidth    = panelWidth - labelWidth - controlWidth - 2*fieldGap
	fieldGap     = 6
)

// option is one of a few values a field may take.
type option struct{ value, label string }

// fieldSpec is what a field is about: how it is called, and how it is read,
// tried and set. try says what is wrong with a text without changing anything.
type fieldSpec struct {
	path, label, unit string
	hint              func() string // shown in an empty entry: what empty means
	options           []option
	yesNo             bool
	long              bool // a few sentences: an entry of several lines under its label
	get               func() string
	try, set          func(text string) error
	units             func() string // the unit, where it follows the plan
}

// field is one line of a form: label, control, unit, and under them what is
// wrong with what was typed. Wrong text stays in the entry and out of the plan.
type field struct {
	widget.BaseWidget
	spec    fieldSpec
	label   *paragraph
	unit    *paragraph
	problem *paragraph
	entry   *fieldEntry
	choice  *fieldChoice
	check   *fieldCheck
	synced  string // the plan's value as last shown
	quiet   bool   // the control is being set to the plan's value
	moved   func() // the field's height has changed
	wheel   *wheel // over the entry; nil where there is none
	heir    *field // the field in its place, once its panel was built anew
}

func newField(spec fieldSpec) *field {
	f := &field{spec: spec,
		label: newParagraph(words(spec.label), labelWidth), unit: newHint(spec.unit, unitWidth),
		problem: newParagraph("", panelWidth-8), moved: func() {}}
	f.problem.size, f.problem.colour = theme.SizeNameCaptionText, theme.ColorNameError
	switch {
	case spec.yesNo:
		f.check = newFieldCheck(f, func(on bool) {
			f.commit(map[bool]string{true: "true", false: "false"}[on])
		})
	case len(spec.options) > 0:
		f.choice = newFieldChoice(f, func(label string) {
			for _, o := range f.spec.options {
				if words(o.label) == label {
					f.commit(o.value)
				}
			}
		})
	default:
		f.entry = newFieldEntry(f)
		if !spec.long {
			f.wheel = newWheel()
		}
	}
	if spec.long {
		f.label = newParagraph(words(spec.label), panelWidth) // it has the line to itself
	}
	f.ExtendBaseWidget(f)
	f.sync()
	return f
}

// sync shows the plan's value. Wrong text is left standing until the value that
// it was to replace has changed.
func (f *field) sync() {
	if f.spec.units != nil && f.spec.units() != f.unit.text {
		f.unit.say(f.spec.units())
	}
	value := f.spec.get()
	if f.problem.text != "" && value == f.synced {
		return
	}
	f.synced, f.quiet = value, true
	defer func() { f.quiet = false }()
	switch {
	case f.check != nil:
		f.check.SetChecked(value == "true")
	case f.choice != nil:
		f.syncChoice(value)
	default:
		if f.spec.hint != nil {
			f.entry.SetPlaceHolder(f.spec.hint())
		}
		if f.entry.Text != value {
			f.entry.SetText(value)
		}
	}
	f.wrong(nil)
}

func (f *field) syncChoice(value string) {
	var labels []string
	chosen := value
	for _, o := range f.spec.options {
		labels = append(labels, words(o.label))
		if o.value == value {
			chosen = words(o.label)
		}
	}
	if !slices.Equal(f.choice.Options, labels) {
		f.choice.SetOptions(labels)
	}
	f.choice.Selected = chosen
	f.choice.Refresh()
}

// commit puts the text into the plan, or says why not.
func (f *field) commit(text string) {
	text = strings.TrimSpace(text)
	if f.quiet || text == f.synced && f.problem.text == "" {
		return
	}
	if text == f.synced {
		f.wrong(nil)
		return
	}
	err := f.spec.set(text)
	f.wrong(err)
	if err == nil {
		f.synced = f.spec.get()
		f.sync()
	}
}

// typing says at once what is wrong, before anything is committed.
func (f *field) typing(text string) {
	if f.quiet {
		return
	}
	text = strings.TrimSpace(text)
	if text == f.synced {
		f.wrong(nil)
		return
	}
	f.wrong(f.spec.try(text))
}

// pending says whether something was typed that is not in the plan.
func (f *field) pending() bool { return f.entry != nil && strings.TrimSpace(f.entry.Text) != f.synced }

// revert takes back what was typed.
func (f *field) revert() {
	f.quiet = true
	f.entry.SetText(f.synced)
	f.quiet = false
	f.wrong(nil)
}

func (f *field) wrong(err error) {
	text := ""
	if err != nil {
		text = "! " + sentence(err, f.spec.path)
	}
	if f.problem.text == text {
		return
	}
	f.problem.say(text)
	f.Refresh()
	f.moved()
}

// sentence is an error as it stands beside the field it is about.
func sentence(err error, path string) string {
	text := err.Error()
	var p *plan.Problem
	if errors.As(err, &p) {
		own := *p
		own.File, own.Line = "", 0
		if own.Field == path {
			own.Field = ""
		}
		text = strings.TrimSpace(own.Error())
	}
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}

// CreateRenderer implements fyne.Widget.
func (f *field) CreateRenderer() fyne.WidgetRenderer { return &fieldRenderer{f} }

type fieldRenderer struct{ f *field }

func (r *fieldRenderer) rowHeight() float32 {
	if r.f.spec.long {
		return r.f.label.MinSize().Height + 2 + r.f.control().MinSize().Height
	}
	return max(r.f.label.MinSize().Height, r.f.control().MinSize().Height, r.f.unit.MinSize().Height)
}

func (r *fieldRenderer) Layout(fyne.Size) {
	row, c := r.rowHeight(), r.f.control()
	r.f.problem.Move(fyne.NewPos(8, row+2))
	r.f.problem.Resize(r.f.problem.MinSize())
	if r.f.spec.long {
		label := r.f.label.MinSize()
		r.f.label.Move(fyne.NewPos(0, 0))
		r.f.label.Resize(label)
		c.Move(fyne.NewPos(0, label.Height+2))
		c.Resize(fyne.NewSize(panelWidth, c.MinSize().Height))
		return
	}
	middle := func(o fyne.CanvasObject, x, w float32) {
		h := min(row, o.MinSize().Height)
		o.Move(fyne.NewPos(x, (row-h)/2))
		o.Resize(fyne.NewSize(w, h))
	}
	width := float32(controlWidth)
	if r.f.spec.unit == "" {
		width = panelWidth - labelWidth - fieldGap
	}
	if r.f.check != nil {
		width = c.MinSize().Width
	}
	middle(r.f.label, 0, labelWidth)
	middle(c, labelWidth+fieldGap, width)
	if w := r.f.wheel; w != nil {
		w.Move(c.Position())
		w.Resize(c.Size())
	}
	middle(r.f.unit, labelWidth+controlWidth+2*fieldGap, unitWidth)
}

func (r *fieldRenderer) MinSize() fyne.Size {
	h := r.rowHeight()
	if r.f.problem.text != "" {
		h += r.f.problem.MinSize().Height + 4
	}
	return fyne.NewSize(panelWidth, h)
}

func (r *fieldRenderer) Refresh() { r.Layout(r.f.Size()); r.f.problem.Refresh() }
func (r *fieldRenderer) Objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.f.label, r.f.control(), r.f.unit, r.f.problem}
	if r.f.wheel != nil {
		all = append(all, r.f.wheel)
	}
	return all
}
func (r *fieldRenderer) Destroy() {}

// fieldEntry is the entry of a field: Enter and leaving it commit, Escape takes
// back what was typed.
type fieldEntry struct {
	widget.Entry
	field *field
}

func newFieldEntry(f *field) *fieldEntry {
	e := &fieldEntry{field: f}
	if f.spec.long {
		e.MultiLine, e.Wrapping = true, fyne.TextWrapWord
		e.SetMinRowsVisible(3)
	}
	e.ExtendBaseWidget(e)
	e.OnChanged = f.typing
	e.OnSubmitted = func(text string) {
		f.commit(text)
		f.handOn(e)
	}
	return e
}

// AcceptsTab implements fyne.Tabbable: Tab goes to the next field, also from an
// entry of several lines.
func (e *fieldEntry) AcceptsTab() bool { return false }

// FocusLost implements fyne.Focusable.
func (e *fieldEntry) FocusLost() {
	e.Entry.FocusLost()
	e.field.commit(e.Text)
}

// TypedKey implements fyne.Focusable.
func (e *fieldEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.field.revert()
		return
	}
	e.Entry.TypedKey(k)
}

// TypedShortcut implements fyne.Shortcutable: what the entry has no use for is
// the window's.
func (e *fieldEntry) TypedShortcut(s fyne.Shortcut) {
	if c, ok := s.(*desktop.CustomShortcut); ok && c.KeyName == fyne.KeyZ {
		if c, ok := fyne.CurrentApp().Driver().CanvasForObject(e).(fyne.Shortcutable); ok {
			c.TypedShortcut(s)
		}
		return
	}
	e.Entry.TypedShortcut(s)
}
