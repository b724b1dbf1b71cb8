package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/garment"
	"ellwand/plan"
)

// newForm is what a new plan asks for: a garment and eight measurements.
type newForm struct {
	box     *fyne.Container
	title   *widget.Entry
	draft   *widget.Select
	table   *widget.Select
	units   *widget.Select
	about   *paragraph
	rows    *fyne.Container
	asked   []garment.Measure
	entries map[garment.Measure]*widget.Entry
	typed   map[garment.Measure]string // what was typed, while the garment is changed
	problem *paragraph
	submit  func()
}

func newNewForm(submit func()) *newForm {
	f := &newForm{submit: submit, about: newParagraph("", 300), problem: newParagraph("", 640),
		rows: container.NewVBox(), entries: map[garment.Measure]*widget.Entry{}, typed: map[garment.Measure]string{}}
	f.problem.colour = "error"
	f.title = widget.NewEntry()
	f.title.SetPlaceHolder(words("a name for the plan"))
	f.title.OnSubmitted = func(string) { submit() }
	var drafts []string
	for _, d := range garment.Drafts() {
		drafts = append(drafts, words(d.Label))
	}
	f.table = widget.NewSelect([]string{words("both together"), words("women"), words("men")}, nil)
	f.table.SetSelectedIndex(0)
	f.units = widget.NewSelect([]string{"cm", "inch"}, func(string) { f.measures() })
	f.draft = widget.NewSelect(drafts, func(string) { f.measures() })
	f.units.SetSelectedIndex(0)
	f.draft.SetSelectedIndex(0)
	row := func(label string, o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewBorder(nil, nil, container.New(&fixedWidth{110}, widget.NewLabel(words(label))), nil, o)
	}
	left := container.NewVBox(row("Title", f.title), row("Garment", f.draft), f.about,
		row("Units", f.units), row("Estimates", f.table),
		newHint(words("What you leave empty is estimated from stature and bust or chest girth, by a survey of women, of men, or of both."), 300))
	f.box = container.NewVBox(container.NewHBox(left, newGap(20), f.rows), f.problem)
	return f
}

// draftInfo is the garment chosen.
func (f *newForm) draftInfo() garment.DraftInfo {
	return garment.Drafts()[max(0, f.draft.SelectedIndex())]
}

// measures asks for the measurements of the garment chosen; what was typed stays.
func (f *newForm) measures() {
	if f.draft == nil || f.draft.SelectedIndex() < 0 {
		return
	}
	for m, e := range f.entries {
		f.typed[m] = e.Text
	}
	d := f.draftInfo()
	f.about.say(words(d.About))
	f.asked = plan.AskedFirst(d.Key)
	f.entries = map[garment.Measure]*widget.Entry{}
	f.rows.RemoveAll()
	for _, info := range garment.Measures() {
		for _, m := range f.asked {
			if m == info.Key {
				f.rows.Add(f.measure(info))
			}
		}
	}
	f.rows.Refresh()
}

func (f *newForm) measure(info garment.MeasureInfo) fyne.CanvasObject {
	e := widget.NewEntry()
	e.SetText(f.typed[info.Key])
	e.OnSubmitted = func(string) { f.submit() }
	if info.Key != garment.Stature && info.Key != garment.BustGirth {
		e.SetPlaceHolder(words("estimated"))
	}
	f.entries[info.Key] = e
	unit := "cm"
	if f.units.SelectedIndex() == 1 {
		unit = "in"
	}
	line := container.NewBorder(nil, nil, container.New(&fixedWidth{170}, widget.NewLabel(words(info.Label))),
		container.New(&fixedWidth{30}, widget.NewLabel(unit)), e)
	return container.NewVBox(line, newHint(words(info.Meaning), 330))
}

// plan makes the plan that is asked for.
func (f *newForm) plan() (*plan.Plan, error) {
	d := f.draftInfo()
	b := garment.Body{Table: []string{"", "women", "men"}[max(0, f.table.SelectedIndex())], CM: map[garment.Measure]float64{}}
	for _, m := range f.asked {
		if strings.TrimSpace(f.entries[m].Text) == "" {
			continue
		}
		v, ok := readNumber(f.entries[m].Text)
		if !ok {
			return nil, fmt.Errorf(words("%s is %q; accepted is a number"), labelOf(m), f.entries[m].Text)
		}
		cm := v
		if f.units.SelectedIndex() == 1 {
			cm = cmOfInches(v)
		}
		if err := garment.CheckOne(m, cm); err != nil {
			return nil, fmt.Errorf("%s", strings.Replace(err.Error(), string(m), labelOf(m), 1))
		}
		b.CM[m] = cm
	}
	for _, m := range []garment.Measure{garment.Stature, garment.BustGirth} {
		if _, ok := b.CM[m]; !ok {
			return nil, fmt.Errorf(words("%s is empty; it is needed, for what is not measured is estimated from it"), labelOf(m))
		}
	}
	title := f.title.Text
	if strings.TrimSpace(title) == "" {
		title = words(d.Label)
	}
	p, err := plan.NewPlan(title, d.Key, b)
	if err != nil {
		return nil, err
	}
	p.ShowUnits = f.units.Selected
	return p, nil
}

// labelOf is a measurement's name as it stands in forms.
func labelOf(m garment.Measure) string {
	for _, info := range garment.Measures() {
		if info.Key == m {
			return words(info.Label)
		}
	}
	return string(m)
}

// newPlan asks for a garment and eight measurements and lays it out at once.
func (v *window) newPlan() {
	v.leaving("Leave", func() { v.askNew() })
}

// dialogFrame is the height of a dialog's title and buttons, with room around.
const dialogFrame = 150

func (v *window) askNew() {
	var d *dialog.CustomDialog
	var f *newForm
	var scroll *container.Scroll // only where the window is too low, as with large letters
	take := func() {
		p, err := f.plan()
		if err != nil {
			f.problem.say("! " + sentence(err, ""))
			f.box.Refresh()
			if scroll != nil {
				scroll.ScrollToBottom() // where it is said
			}
			return
		}
		d.Hide()
		v.begin(p, "")
		v.b.history.MarkUnsaved() // what was typed is in no file yet
		v.b.tell(planChanged)
	}
	f = newNewForm(take)
	var body fyne.CanvasObject = f.box
	if room := v.Canvas().Size().Height - dialogFrame; f.box.MinSize().Height > room {
		scroll = container.NewVScroll(f.box)
		scroll.SetMinSize(fyne.NewSize(f.box.MinSize().Width+theme.Padding()*3, room))
		body = scroll
	}
	d = dialog.NewCustomWithoutButtons(words("New plan: a garment and eight measurements"), body, v)
	ok := widget.NewButton(words("Lay it out"), take)
	ok.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{
		widget.NewButton(words("Cancel"), func() { d.Hide() }),
		widget.NewButton(words("Open the starter plan"), func() { d.Hide(); v.begin(plan.Starter(), "") }),
		ok,
	})
	d.Show()
	v.Canvas().Focus(f.title)
}
