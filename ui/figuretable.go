package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/cloth"
	"ellwand/plan"
)

// figureTable is every figure, its value, the formula with its numbers, and the
// panel that its numbers are entered in.
type figureTable struct {
	b       *bench
	rows    []cloth.Figure
	table   *widget.Table
	root    *fyne.Container
	opened  func(panel string)
	pointed int             // the row last pointed at
	wide    float32         // that the columns are laid out for
	lines   map[string]int  // of the formulas, at that width
	high    map[int]float32 // of the rows that are higher than one line
}

func newFigureTable(b *bench) *figureTable {
	t := &figureTable{b: b, lines: map[string]int{}, high: map[int]float32{}}
	t.table = widget.NewTable(
		func() (int, int) { return len(t.rows), 4 },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		t.cell)
	t.table.HideSeparators = true
	t.table.OnSelected = func(id widget.TableCellID) {
		if panel := t.source(id.Row); id.Col == 3 && panel != "" {
			t.table.UnselectAll()
			t.opened(panel)
		}
	}
	t.root = container.New(&resized{t.fit}, t.table)
	return t
}

func (t *figureTable) cell(id widget.TableCellID, o fyne.CanvasObject) {
	l := o.(*widget.Label)
	if id.Row >= len(t.rows) {
		return
	}
	f, text := t.rows[id.Row], ""
	switch id.Col {
	case 0:
		text = f.Label
	case 1:
		text = figureValue(f, t.b.plan().ShowUnits)
	case 2:
		text = f.From
	case 3:
		if panel := t.source(id.Row); panel != "" {
			text = "→ " + words(panel)
		}
	}
	l.TextStyle = fyne.TextStyle{Bold: f.Unit == headRow && id.Col == 0}
	l.Wrapping = fyne.TextWrapOff
	if id.Col == 2 || id.Col == 0 {
		l.Wrapping = fyne.TextWrapWord
	}
	l.SetText(text)
}

// headRow is the unit of a row that is only a heading.
const headRow = "heading"

// source is the panel that the numbers of a row are entered in.
func (t *figureTable) source(row int) string {
	if row >= len(t.rows) || t.rows[row].Unit == headRow {
		return ""
	}
	for k := row; k >= 0; k-- {
		if t.rows[k].Unit != headRow {
			continue
		}
		switch head := t.rows[k].Label; {
		case head == words("Hours"):
			return "Hours"
		case head == words("Finished sizes"):
			return "Garment"
		case strings.HasPrefix(head, words("Yarn: %s", "")):
			return "Yarn"
		case strings.HasPrefix(head, words("Fleece: %s", "")):
			return "Fleece"
		}
		break
	}
	if slices.Contains([]string{"dents", "reed_width_cm", "ends", "woven_length_cm", "warp_length_cm", "warps", "ends_per_cm_on_loom"}, t.rows[row].Key) {
		return "Loom"
	}
	return "Cloth"
}

// point shows the first figure with a key, and marks it.
func (t *figureTable) point(key string) {
	if i := slices.IndexFunc(t.rows, func(f cloth.Figure) bool { return f.Key == key }); i >= 0 {
		t.pointed = i
		t.table.ScrollTo(widget.TableCellID{Row: i})
		t.table.Select(widget.TableCellID{Row: i})
	}
}

func (t *figureTable) update() {
	t.rows = figures(t.b.shown)
	t.layRows()
	t.table.Refresh()
}

// Widths of the columns, in the window's units; the formula has the rest.
const (
	labelColumn  = 250
	valueColumn  = 116
	sourceColumn = 86
)

// fit gives the columns the width there is, so that nothing lies beyond it.
func (t *figureTable) fit(size fyne.Size) {
	wide := max(200, size.Width-labelColumn-valueColumn-sourceColumn-6*theme.Padding()-theme.Size(theme.SizeNameScrollBar))
	if wide == t.wide {
		return
	}
	t.wide, t.lines = wide, map[string]int{}
	for i, w := range []float32{labelColumn, valueColumn, wide, sourceColumn} {
		t.table.SetColumnWidth(i, w)
	}
	t.layRows()
}

// layRows makes rows as high as their formulas take.
func (t *figureTable) layRows() {
	if t.wide == 0 {
		return
	}
	if len(t.lines) > 1000 { // of formulas of long ago, most of them
		clear(t.lines)
	}
	size := theme.TextSize()
	step := fyne.MeasureText("Éy", size, fyne.TextStyle{}).Height
	count := func(text string, wide float32) int {
		n, ok := t.lines[text]
		if !ok {
			n = len(broken(text, wide-2*theme.InnerPadding()-2, size, fyne.TextStyle{}))
			t.lines[text] = n
		}
		return n
	}
	for i, f := range t.rows {
		n := max(1, count(f.From, t.wide), count(f.Label, labelColumn))
		high := float32(n)*step + 2*theme.InnerPadding()
		if t.high[i] != high {
			t.high[i] = high
			t.table.SetRowHeight(i, high)
		}
	}
}

// resized tells how large its object has become.
type resized struct{ told func(fyne.Size) }

func (r *resized) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	r.told(size)
	for _, o := range objects {
		o.Resize(size)
	}
}

func (r *resized) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 60) }

// figures are all figures of a result, under headings.
func figures(r *plan.Result) []cloth.Figure {
	if r == nil {
		return []cloth.Figure{{Label: words("Nothing is worked out yet."), Unit: headRow}}
	}
	head := func(text string) cloth.Figure { return cloth.Figure{Label: text, Unit: headRow} }
	out := append([]cloth.Figure{head(words("Cloth"))}, r.Reckoning.Figures...)
	for _, y := range r.Reckoning.Yarns {
		out = append(append(out, head(words("Yarn: %s", y.Name))), y.Figures...)
	}
	for _, f := range r.Reckoning.Fleeces {
		out = append(append(out, head(words("Fleece: %s", f.Name))), f.Figures...)
	}
	out = append(out, head(words("Hours")), cloth.Figure{Key: "hours_likely_h", Label: words("All together, likely"), Value: r.Hours.Total.Likely, Unit: "h", From: strings.Join(r.Hours.Verdict, " ")})
	for _, t := range r.Hours.Tasks {
		out = append(out, cloth.Figure{Key: t.Key, Label: t.Name, Value: t.Hours.Likely, Unit: "h", From: t.From})
	}
	if len(r.Garment.Sizes) > 0 {
		out = append(out, head(words("Finished sizes")))
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
	}
	return plan.ValueText(f.Value, f.Unit)
}
