package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/garment"
	"ellwand/plan"
)

// panel is one of the forms beside the strip. shape is text that changes when
// the form needs other fields; while it stays, the fields are only brought up
// to date.
type panel struct {
	name  string
	about string
	shape func(b *bench) string
	fill  func(f *form)
}

// panels are all of them, in the order of the work.
func panels() []panel {
	return []panel{
		{"Body", "Tape measurements, under their ISO 8559-1 names.", bodyShape, fillBody},
		{"Garment", "What is cut, with how much ease.", garmentShape, fillGarment},
		{"Pieces", "Every piece, with its edges. A click on one picks it on the cloth.", piecesShape, fillPieces},
		{"Yarn", "The yarns of warp and weft.", yarnShape, fillYarn},
		{"Loom", "What sets the limits of one warp.", loomShape, fillLoom},
		{"Cloth", "The cloth wanted, finished, and what it loses on the way.", clothShape, fillCloth},
		{"Real cloth", "The cloth as it came off the loom: flaws, widths, lengths.", realClothShape, fillRealCloth},
		{"Fleece", "The raw wool in hand and what its working loses.", fleeceShape, fillFleece},
		{"Hours", "What the work takes, from sorting to the last hem.", hoursShape, fillHours},
		{"Choices", "What is known of each part of the making, and what will be done.", choicesShape, fillChoices},
		{"Log", "What is really done, and what remains.", logShape, fillLog},
	}
}

// built is a panel with all that it shows. It is kept when another is opened:
// made anew each time, it would leave the tool kit with hundreds of widgets to
// clear away.
type built struct {
	shape   string
	ground  string // what else it was filled by
	form    *form
	content fyne.CanvasObject
}

// panelColumn shows one panel at a time, chosen by the buttons beside it.
type panelColumn struct {
	b       *bench
	fault   func(error)
	shapes  func() // opens the editor of own shapes
	all     []panel
	at      int
	*built                // the panel that is shown
	kept    []*built      // each panel as it was last built; nil where it was not yet
	of      *plan.History // of the plan that they were filled from
	scroll  *container.Scroll
	buttons []*widget.Button
	root    fyne.CanvasObject
}

func newPanelColumn(b *bench, fault func(error)) *panelColumn {
	c := &panelColumn{b: b, fault: fault, all: panels(), scroll: container.NewVScroll(container.NewVBox())}
	nav := container.NewVBox()
	for i, p := range c.all {
		button := widget.NewButton(pageName(b, p.name), func() { c.open(i) })
		button.Alignment = widget.ButtonAlignLeading
		c.buttons = append(c.buttons, button)
		nav.Add(button)
	}
	side := container.New(&fixedWidth{panelWidth + 28}, c.scroll)
	c.root = container.NewHBox(container.NewPadded(container.NewVScroll(nav)), widget.NewSeparator(), side, widget.NewSeparator())
	b.onChange(func(t topic) {
		if t != packChanged && t != boundChanged {
			c.update()
		}
	})
	b.onBack = c.update
	c.kept, c.of = make([]*built, len(c.all)), b.history
	c.open(0)
	return c
}

// open shows the panel with that number: as it was built before, where it would
// be filled alike again. Opened once more while it is shown, it is built anew.
func (c *panelColumn) open(i int) {
	again := i == c.at
	c.at = i
	for k, b := range c.buttons {
		b.Importance = widget.MediumImportance
		if k == i {
			b.Importance = widget.HighImportance
		}
		b.Refresh()
	}
	k := c.kept[i]
	if again || k == nil || k.shape != c.all[i].shape(c.b) || k.ground != c.ground() {
		c.build()
	} else {
		k.form.reset()
		c.show(k)
	}
	c.scroll.ScrollToTop()
}

// ground changes with what fills every panel: which values are defaults, which
// cautions there are, and whether anything is worked out yet. While a panel is
// shown, it follows these by itself.
func (c *panelColumn) ground() string {
	p := c.b.plan()
	return fmt.Sprint(p.Unconfirmed, len(cautionsOf(p, c.all[c.at].name)), c.b.shown == nil)
}

// openNamed shows the panel with that name.
func (c *panelColumn) openNamed(name string) {
	for i, p := range c.all {
		if p.name == name {
			c.open(i)
		}
	}
}

func (c *panelColumn) build() {
	p := c.all[c.at]
	f := &form{b: c.b, box: container.NewVBox(), fault: c.fault, shapes: func() { c.shapes() }, turned: c.scroll.Scrolled}
	f.heading(p.name)
	f.note(p.about)
	f.markPage(p.name)
	p.fill(f)
	f.cautions(p.name)
	f.gap(16)
	content := container.New(layout.NewCustomPaddedLayout(0, 0, 8, 16), f.box)
	c.show(&built{shape: p.shape(c.b), ground: c.ground(), form: f, content: content})
}

func (c *panelColumn) show(k *built) {
	c.built, c.kept[c.at] = k, k
	c.scroll.Content = k.content
	c.scroll.Refresh()
}

// update brings the panel up to date, or builds it anew where it needs other
// fields or is of another plan.
func (c *panelColumn) update() {
	for i, b := range c.buttons {
		if name := pageName(c.b, c.all[i].name); b.Text != name {
			b.SetText(name)
		}
	}
	other := c.of != c.b.history
	if other {
		clear(c.kept)
		c.of = c.b.history
	}
	if other || c.all[c.at].shape(c.b) != c.shape {
		offset, gone := c.scroll.Offset, c.form
		c.build()
		inherit(gone, c.form)
		c.scroll.ScrollToOffset(offset)
		return
	}
	c.form.sync()
}

// fixedWidth gives its one object all the height and a fixed width.
type fixedWidth struct{ width float32 }

func (l *fixedWidth) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(fyne.NewSize(l.width, size.Height))
	}
}

func (l *fixedWidth) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width, 2*theme.TextSize())
}

// Body.

func bodyShape(b *bench) string { return b.plan().Draft }

func fillBody(f *form) {
	f.field("title")
	f.field("show_units")
	f.field("body.name")
	f.field("body.table")
	f.gap(4)
	f.note("A measurement left empty is estimated from stature and bust or chest girth; the estimate stands faintly in its place.")
	used := map[garment.Measure]bool{}
	for _, m := range garment.Need(f.b.plan().Draft) {
		used[m] = true
	}
	group := func(title string, want bool) {
		first := true
		for _, m := range garment.Measures() {
			if used[m.Key] != want {
				continue
			}
			if first {
				f.heading(title)
				first = false
			}
			f.measure(m)
		}
	}
	if len(used) > 0 {
		group("Used by the "+f.b.plan().Draft, true)
		group("Not used by it", false)
		return
	}
	group("Measurements", false)
}

// measure adds one measurement, with its meaning under it and, where it is not
// given, its estimate in its place.
func (f *form) measure(m garment.MeasureInfo) {
	path := "body." + string(m.Key)
	spec := f.plain(path, m.Label, "cm")
	spec.hint = func() string {
		_, estimates := f.b.plan().Body.Complete()
		for _, e := range estimates {
			if e.Measure == m.Key {
				return fmt.Sprintf("≈ %.1f", e.CM)
			}
		}
		return ""
	}
	f.put(spec)
	f.note(m.Meaning)
}

// Garment.

func garmentShape(b *bench) string { return b.plan().Draft + seamNames(b) }

func fillGarment(f *form) {
	draft := f.plain("garment.draft", "Garment", "")
	for _, d := range garment.Drafts() {
		draft.options = append(draft.options, option{d.Key, d.Label})
	}
	draft.options = append(draft.options, option{"", "own pieces only"})
	draft.set = f.changeDraft
	f.put(draft)
	for _, d := range garment.Drafts() {
		if d.Key == f.b.plan().Draft {
			f.note(d.About)
			f.heading("Ease and proportions")
			f.params("garment.ease.", d.Ease)
			f.heading("How it is built")
			f.params("garment.options.", d.Options)
		}
	}
	f.heading("Allowances")
	for _, name := range []string{"seam_cm", "hem_cm", "selvedge_edge_cm", "max_tip_cm"} {
		f.field("allowances." + name)
	}
	f.fitChecks()
	f.seamsThatShow()
	f.heading("Finished sizes")
	f.said(func() string {
		if f.b.shown == nil || len(f.b.shown.Garment.Sizes) == 0 {
			return words("None: the pieces are your own.")
		}
		var lines []string
		for _, s := range f.b.shown.Garment.Sizes {
			lines = append(lines, fmt.Sprintf("%s: %s", s.Label, length(s.CM, f.b.plan().ShowUnits)))
		}
		return strings.Join(lines, "\n")
	})
}

func (f *form) params(under string, params []garment.Param) {
	for _, q := range params {
		spec := f.plain(under+q.Key, q.Label, q.Unit)
		standard := fmt.Sprintf("%g", q.Default)
		spec.hint = func() string { return standard }
		for _, c := range q.Choices {
			spec.options = append(spec.options, option{fmt.Sprintf("%g", c.Value), c.Label})
		}
		if len(spec.options) > 0 {
			get := spec.get
			spec.get = func() string {
				if v := get(); v != "" {
					return v
				}
				return standard
			}
		}
		f.put(spec)
		f.note(q.Meaning)
	}
}

// changeDraft takes another draft: what was set for the old one's parameters
// and pieces goes where the new one has none such.
func (f *form) changeDraft(draft string) error {
	return f.b.do("garment", changeDraft(draft))
}
