package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// whatNext says in a few sentences what to do next, over the window and in nobody's
// way: with the starter plan how to begin, with a new plan what is still a
// default.
type whatNext struct {
	b    *bench
	text *widget.Label
	next *widget.Button
	take *widget.Button // cuts the garment in the way that fits
	way  plan.Way
	root *fyne.Container
	away map[string]bool // messages put away
	open func(panel string)
	at   string // the message shown

	relay func() // sets the window out anew
}

func newWhatNext(b *bench, open func(panel string)) *whatNext {
	g := &whatNext{b: b, open: open, away: map[string]bool{}, relay: func() {}, text: widget.NewLabel("")}
	g.text.Wrapping = fyne.TextWrapWord
	g.next = widget.NewButton(words("Next default"), g.nextDefault)
	shut := widget.NewButtonWithIcon(words("Put away"), theme.CancelIcon(), func() {
		g.away[g.at] = true
		g.show()
		g.relay()
	})
	g.take = widget.NewButton(words("Cut it so"), func() {
		w := g.way
		_ = b.do("cut it so: "+w.Words, func(p *plan.Plan) error { return p.Take(w) })
	})
	g.take.Importance = widget.HighImportance
	buttons := container.NewHBox(g.take, g.next, shut)
	g.root = container.NewVBox(container.NewBorder(nil, nil, nil, container.NewCenter(container.New(layout.NewCustomPaddedLayout(0, 0, 0, theme.Padding()), buttons)), g.text), widget.NewSeparator())
	g.show()
	return g
}

// show brings what is said up to date.
func (g *whatNext) show() {
	p := g.b.plan()
	left := p.Defaults()
	kind, text := "", ""
	if g.b.trouble != nil {
		if w, ok := p.FitsBy(); ok {
			kind, g.way = "way", w
			text = words("As it stands the garment is too wide for the loom. Cut with “%s” every piece fits.", w.Words)
		}
	}
	switch {
	case kind != "":
	case len(left) > 0:
		kind = "defaults"
		text = words("Laid out, with %d values that are defaults: each is marked on its page, the pages with their number, until you type your own or confirm it. "+
			"Look at Loom and Cloth first, for they decide what can be woven, then at Yarn and Fleece. "+
			"Save with Ctrl+S; Ctrl+E prints the cutting diagram, the chalk list and the rest.", len(left))
	case g.b.path == "" && p.Title == starterTitle():
		kind = "starter"
		text = words("This is a finished plan, a ferryman's tunic: change any number on the left and the cloth, the yarn and the hours follow. " +
			"For a garment of your own press New: it asks for a garment and eight measurements and lays the pieces at once. " +
			"When all fits, press Pack for a shorter lay, and Ctrl+E prints what the work needs.")
	}
	if g.away[kind] {
		kind, text = "", ""
	}
	shownIf(g.next, kind == "defaults")
	shownIf(g.take, kind == "way")
	g.at = kind
	if g.text.Text != text {
		g.text.SetText(text)
	}
	if text == "" {
		g.root.Hide()
	} else {
		g.root.Show()
	}
}

func shownIf(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

func starterTitle() string { return "Ferryman's tunic" }

// nextDefault opens the page of the first default that is left, Loom first.
func (g *whatNext) nextDefault() {
	for _, page := range []string{"Loom", "Cloth", "Yarn", "Fleece", "Garment", "Hours"} {
		if defaultsOn(g.b.plan(), page) > 0 {
			g.open(page)
			return
		}
	}
}

// pageOf is the page on which a field stands.
func pageOf(path string) string {
	first, _, _ := strings.Cut(strings.ReplaceAll(path, "[", "."), ".")
	return map[string]string{"garment": "Garment", "allowances": "Garment", "cloth": "Cloth", "loom": "Loom", "yarns": "Yarn", "fleeces": "Fleece", "hours": "Hours"}[first]
}

// defaultsOn is how many defaults a page has that are not confirmed.
func defaultsOn(p *plan.Plan, page string) int {
	n := 0
	for _, path := range p.Defaults() {
		if pageOf(path) == page {
			n++
		}
	}
	return n
}

// confirmPage confirms every default of a page.
func confirmPage(b *bench, page string) error {
	var paths []string
	for _, path := range b.plan().Unconfirmed {
		if pageOf(path) == page {
			paths = append(paths, path)
		}
	}
	return b.do("confirm "+strings.ToLower(page), func(p *plan.Plan) error { p.Confirm(paths...); return nil })
}

// mark puts under a field that it holds a default, and the means to confirm it,
// for as long as it is so.
func (f *form) mark(path string) {
	if !f.b.plan().IsDefault(path) {
		return
	}
	button := widget.NewButton(words("Confirm"), func() {
		if err := f.b.do("confirm "+path, func(p *plan.Plan) error { p.Confirm(path); return nil }); err != nil {
			f.fault(err)
		}
	})
	button.Importance = widget.LowImportance
	row := container.NewBorder(nil, nil, nil, button, container.NewCenter(newHint(words("a default, not confirmed yet"), panelWidth-110)))
	f.live = append(f.live, func() {
		if row.Visible() != f.b.plan().IsDefault(path) {
			row.Hidden = row.Visible()
			f.box.Refresh()
		}
	})
	f.add(row)
}

// markPage puts at the head of a page how many of its values are defaults, and
// the means to confirm them all.
func (f *form) markPage(page string) {
	if defaultsOn(f.b.plan(), page) == 0 {
		return
	}
	text := newParagraph("", panelWidth-130)
	button := widget.NewButton(words("Confirm all"), func() {
		if err := confirmPage(f.b, page); err != nil {
			f.fault(err)
		}
	})
	row := container.NewBorder(nil, nil, nil, button, text)
	f.live = append(f.live, func() {
		n := defaultsOn(f.b.plan(), page)
		text.say(words("%d values here are defaults.", n))
		if row.Visible() != (n > 0) {
			row.Hidden = n == 0
			f.box.Refresh()
		}
	})
	f.live[len(f.live)-1]()
	f.add(row)
}

// pageName is a page's name with how many of its values are defaults.
func pageName(b *bench, page string) string {
	if n := defaultsOn(b.plan(), page); n > 0 {
		return words("%s (%d)", words(page), n)
	}
	return words(page)
}
