package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// drawerHeight is that of the drawer when it is open, where there is room for it,
// and leastDrawerHeight where there is none.
const (
	drawerHeight      = 214
	leastDrawerHeight = 120
)

// flatHeight is that of the drawer when it shows the garment laid flat, where
// there is room for it.
const flatHeight = 330

// drawer lies under the reckoning line: the width table, every figure with
// what it comes from, and the remarks.
type drawer struct {
	b       *bench
	tabs    *container.AppTabs
	widths  *widthTable
	figures *figureTable
	remarks *widget.Label
	flat    *flatView
	root    *fyne.Container
	relay   func() // sets the window out anew
}

func newDrawer(b *bench, open func(panel string), fault func(error), exportFlat func()) *drawer {
	d := &drawer{b: b, relay: func() {}, flat: newFlatView(b, exportFlat), widths: newWidthTable(b, fault), figures: newFigureTable(b)}
	d.figures.opened = open
	d.remarks = widget.NewLabel("")
	d.remarks.Wrapping = fyne.TextWrapWord
	d.tabs = container.NewAppTabs(
		container.NewTabItem(words("From what?"), d.figures.root),
		container.NewTabItem(words("Widths"), d.widths.root),
		container.NewTabItem(words("Remarks"), container.NewVScroll(d.remarks)),
		container.NewTabItem(words("Laid flat"), d.flat.root),
	)
	d.tabs.OnSelected = func(*container.TabItem) {
		d.update()
		d.relay()
	}
	d.root = container.New(heightOf{leastDrawerHeight}, d.tabs)
	b.onChange(func(t topic) {
		if t != pickChanged && (t != boundChanged || d.tabs.SelectedIndex() == remarksTab) {
			d.update()
		}
	})
	return d
}

// toggle opens the drawer at a tab, or shuts it when that tab is open.
func (d *drawer) toggle(tab int) {
	if d.root.Visible() && d.tabs.SelectedIndex() == tab {
		d.root.Hide()
		d.relay()
		return
	}
	d.open(tab)
}

func (d *drawer) open(tab int) {
	d.root.Show()
	d.tabs.SelectIndex(tab)
	d.update()
	d.relay()
}

// wanted is the height that the tab in sight would have.
func (d *drawer) wanted() float32 {
	if d.tabs.SelectedIndex() == flatTab {
		return flatHeight
	}
	return drawerHeight
}

// ask opens the drawer where it says what a figure comes from.
func (d *drawer) ask(key string) {
	d.open(0)
	d.figures.point(key)
}

// update brings the tab that is in sight up to date.
func (d *drawer) update() {
	if !d.root.Visible() {
		return
	}
	switch d.tabs.SelectedIndex() {
	case 0:
		d.figures.update()
	case 1:
		d.widths.look()
	case remarksTab:
		d.remarks.SetText(remarks(d.b.shown))
	case flatTab:
		d.flat.update()
	}
}

// remarksTab and flatTab are the numbers of two tabs.
const (
	remarksTab = 2
	flatTab    = 3
)

// remarks are the cautions and notes, one to a line.
func remarks(r *plan.Result) string {
	if r == nil {
		return words("Nothing is worked out yet.")
	}
	var lines []string
	for _, f := range r.Faults {
		lines = append(lines, "! "+f.Text+".")
	}
	for _, s := range r.CannotBeMade {
		lines = append(lines, "! "+s.Text)
	}
	for _, c := range r.Cautions {
		lines = append(lines, words("Caution: %s", c))
	}
	for _, n := range r.Notes {
		lines = append(lines, "· "+n)
	}
	if len(lines) == 0 {
		lines = append(lines, words("There is nothing to remark."))
	}
	lines = append(lines, "· "+boundSentence(r, r.Plan().ShowUnits))
	return strings.Join(lines, "\n")
}

// heightOf gives its objects all the room there is, and asks for a height.
type heightOf struct{ height float32 }

func (l heightOf) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}

func (l heightOf) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, l.height) }
