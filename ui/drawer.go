package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"ellwand/cloth"
	"ellwand/plan"
)

// drawerHeight is that of the drawer when it is open.
const drawerHeight = 214

// flatHeight is that of the drawer when it shows the garment laid flat.
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
	height  *heightOf
	root    *fyne.Container
}

func newDrawer(b *bench, fault func(error), exportFlat func()) *drawer {
	d := &drawer{b: b, flat: newFlatView(b, exportFlat), height: &heightOf{drawerHeight}, widths: newWidthTable(b, fault), figures: newFigureTable(b)}
	d.remarks = widget.NewLabel("")
	d.remarks.Wrapping = fyne.TextWrapWord
	d.tabs = container.NewAppTabs(
		container.NewTabItem("From what?", d.figures.table),
		container.NewTabItem("Widths", d.widths.root),
		container.NewTabItem("Remarks", container.NewVScroll(d.remarks)),
		container.NewTabItem("Laid flat", d.flat.root),
	)
	d.tabs.OnSelected = func(*container.TabItem) { d.update() }
	d.root = container.New(d.height, d.tabs)
	b.onChange(func(t topic) {
		if t != pickChanged {
			d.update()
		}
	})
	return d
}

// toggle opens the drawer at a tab, or shuts it when that tab is open.
func (d *drawer) toggle(tab int) {
	if d.root.Visible() && d.tabs.SelectedIndex() == tab {
		d.root.Hide()
		return
	}
	d.root.Show()
	d.tabs.SelectIndex(tab)
	d.update()
}

// update brings the tab that is in sight up to date.
func (d *drawer) update() {
	if !d.root.Visible() {
		return
	}
	high := float32(drawerHeight)
	if d.tabs.SelectedIndex() == 3 {
		high = flatHeight
	}
	if d.height.height != high {
		d.height.height = high
		d.root.Refresh()
	}
	switch d.tabs.SelectedIndex() {
	case 0:
		d.figures.update()
	case 1:
		d.widths.look()
	case 2:
		d.remarks.SetText(remarks(d.b.shown))
	case 3:
		d.flat.update()
	}
}

// remarks are the cautions and notes, one to a line.
func remarks(r *plan.Result) string {
	if r == nil {
		return "Nothing is worked out yet."
	}
	var lines []string
	for _, f := range r.Faults {
		lines = append(lines, "! "+f.Text+".")
	}
	for _, s := range r.CannotBeMade {
		lines = append(lines, "! "+s.Text)
	}
	for _, c := range r.Cautions {
		lines = append(lines, "Caution: "+c)
	}
	for _, n := range r.Notes {
		lines = append(lines, "· "+n)
	}
	if len(lines) == 0 {
		return "There is nothing to remark."
	}
	return strings.Join(lines, "\n")
}

// figureTable is every figure, its value and the formula with its numbers.
type figureTable struct {
	b     *bench
	rows  []cloth.Figure
	table *widget.Table
}

func newFigureTable(b *bench) *figureTable {
	t := &figureTable{b: b}
	t.table = widget.NewTable(
		func() (int, int) { return len(t.rows), 3 },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		func(id widget.TableCellID, o fyne.CanvasObject) {
			l, f := o.(*widget.Label), t.rows[id.Row]
			l.TextStyle = fyne.TextStyle{Bold: f.Unit == headRow && id.Col == 0}
			l.SetText([]string{f.Label, figureValue(f, b.plan().ShowUnits), f.From}[id.Col])
		})
	t.table.SetColumnWidth(0, 290)
	t.table.SetColumnWidth(1, 150)
	t.table.SetColumnWidth(2, 900)
	t.table.HideSeparators = true
	return t
}

// headRow is the unit of a row that is only a heading.
const headRow = "heading"

func (t *figureTable) update() {
	t.rows = figures(t.b.shown)
	from := float32(200)
	for _, f := range t.rows {
		from = max(from, fyne.MeasureText(f.From, 13, fyne.TextStyle{}).Width+20)
	}
	t.table.SetColumnWidth(2, from)
	t.table.Refresh()
}

// figures are all figures of a result, under headings.
func figures(r *plan.Result) []cloth.Figure {
	if r == nil {
		return []cloth.Figure{{Label: "Nothing is worked out yet.", Unit: headRow}}
	}
	head := func(text string) cloth.Figure { return cloth.Figure{Label: text, Unit: headRow} }
	out := append([]cloth.Figure{head("Cloth")}, r.Reckoning.Figures...)
	for _, y := range r.Reckoning.Yarns {
		out = append(append(out, head("Yarn: "+y.Name)), y.Figures...)
	}
	for _, f := range r.Reckoning.Fleeces {
		out = append(append(out, head("Fleece: "+f.Name)), f.Figures...)
	}
	out = append(out, head("Hours"), cloth.Figure{Key: "hours_likely_h", Label: "All together, likely", Value: r.Hours.Total.Likely, Unit: "h", From: strings.Join(r.Hours.Verdict, " ")})
	for _, t := range r.Hours.Tasks {
		out = append(out, cloth.Figure{Key: t.Key, Label: t.Name, Value: t.Hours.Likely, Unit: "h", From: t.From})
	}
	if len(r.Garment.Sizes) > 0 {
		out = append(out, head("Finished sizes"))
	}
	for _, s := range r.Garment.Sizes {
		out = append(out, cloth.Figure{Key: s.Key, Label: s.Label, Value: s.CM, Unit: "cm", From: s.From})
	}
	return out
}

// figureValue is a figure with its unit, as exact as it is useful.
func figureValue(f cloth.Figure, units string) string {
	switch f.Unit {
	case headRow:
		return ""
	case "cm":
		return length(f.Value, units)
	case "":
		return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.3f", f.Value), "0"), ".")
	case "m", "g":
		return fmt.Sprintf("%.1f %s", f.Value, f.Unit)
	}
	return fmt.Sprintf("%.2f %s", f.Value, f.Unit)
}

// heightOf gives its objects all the width and a fixed height.
type heightOf struct{ height float32 }

func (l *heightOf) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}

func (l *heightOf) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, l.height) }
