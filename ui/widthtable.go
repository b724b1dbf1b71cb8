package ui

import (
	"context"
	"errors"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// widthTable is the cloth at every width the loom can weave, and a pick.
type widthTable struct {
	b         *bench
	fault     func(error)
	rows      []plan.WidthRow
	of        *plan.Plan // the plan that rows belong to
	cancel    context.CancelFunc
	table     *widget.Table
	work      *widget.Button
	stop      *widget.Button
	progress  *widget.ProgressBar
	words     *widget.Label
	chart     *widthChart
	shows     *widget.Select // what the chart shows
	kind      *widget.Button // chart or table
	root      fyne.CanvasObject
	narrowest float64
}

func newWidthTable(b *bench, fault func(error)) *widthTable {
	t := &widthTable{b: b, fault: fault}
	t.table = widget.NewTableWithHeaders(
		func() (int, int) { return len(t.rows), len(t.heads()) },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		t.cell)
	t.table.ShowHeaderColumn = false
	t.table.CreateHeader = func() fyne.CanvasObject {
		l := widget.NewLabel("")
		l.TextStyle.Bold = true
		return l
	}
	t.table.UpdateHeader = func(id widget.TableCellID, o fyne.CanvasObject) {
		if id.Col >= 0 && id.Col < len(t.heads()) {
			o.(*widget.Label).SetText(t.heads()[id.Col])
		}
	}
	for i, w := range []float32{96, 96, 110, 80, 96, 96, 96, 70, 620} {
		t.table.SetColumnWidth(i, w)
	}
	t.table.OnSelected = func(id widget.TableCellID) {
		t.table.UnselectAll()
		t.pick(id.Row)
	}
	t.work = widget.NewButton(words("Work the widths out"), t.begin)
	t.stop = widget.NewButton(words("Stop"), func() { t.halt() })
	t.chart = newWidthChart(t)
	t.shows = widget.NewSelect(nil, t.showMeasure)
	for _, m := range chartMeasures() {
		t.shows.Options = append(t.shows.Options, words(m.name))
	}
	t.kind = widget.NewButton("", t.otherKind)
	t.progress = newProgress()
	t.words = widget.NewLabel("")
	t.words.Wrapping = fyne.TextWrapWord
	side := container.NewVBox(t.shows, t.kind, t.work, t.stop, t.progress, t.words)
	t.root = container.NewBorder(nil, nil, nil, container.New(&fixedWidth{250}, container.NewVScroll(side)), container.NewStack(t.chart, t.table))
	t.shows.SetSelectedIndex(0)
	t.otherKind()
	t.update()
	return t
}

// showMeasure has the chart show one of its measures.
func (t *widthTable) showMeasure(name string) {
	for _, m := range chartMeasures() {
		if words(m.name) == name {
			t.chart.measure = m
			t.chart.Refresh()
		}
	}
}

// otherKind goes from the chart to the table and back.
func (t *widthTable) otherKind() {
	asChart := t.table.Visible()
	show(t.table, !asChart)
	show(t.chart, asChart)
	show(t.shows, asChart)
	t.kind.SetText(words("As a table"))
	if !asChart {
		t.kind.SetText(words("As a chart"))
	}
}

func (t *widthTable) inches() bool { return t.b.plan().ShowUnits == "inch" }

func (t *widthTable) heads() []string {
	if t.inches() {
		return translated("width, in", "length, in", "at least, in", "used, %", "warp, m", "weft, m", "mass, g", "warps", "can be woven")
	}
	return translated("width, cm", "length, cm", "at least, cm", "used, %", "warp, m", "weft, m", "mass, g", "warps", "can be woven")
}

func (t *widthTable) cell(id widget.TableCellID, o fyne.CanvasObject) {
	if id.Row < 0 || id.Row >= len(t.rows) {
		return
	}
	r, per := t.rows[id.Row], 1.0
	if t.inches() {
		per = cmPerInch
	}
	fits := words("yes")
	switch {
	case !r.Fits:
		fits = words("! no: %s", r.Why)
	case r.WidthCM == t.narrowest:
		fits = words("yes, the narrowest")
	}
	planned := math.Abs(r.WidthCM-t.b.plan().Cloth.FinishedWidthCM) < 1e-6
	if planned {
		fits += " · " + words("in the plan")
	}
	fixed := func(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }
	bound := fixed(r.LowerBoundCM/per, 1)
	if r.ProvedShortest() {
		bound = words("proved")
	}
	texts := []string{fixed(r.WidthCM/per, 1), fixed(r.LengthCM/per, 1), bound, fixed(r.UsePercent, 1),
		fixed(r.WarpM, 0), fixed(r.WeftM, 0), fixed(r.MassG, 0), strconv.Itoa(r.Warps), fits}
	l := o.(*widget.Label)
	l.TextStyle.Bold = planned
	l.Alignment = fyne.TextAlignTrailing
	if id.Col == len(texts)-1 {
		l.Alignment = fyne.TextAlignLeading
	}
	l.SetText(texts[id.Col])
}

// look works the widths out when the table comes into sight for the first time,
// and says when they are those of an earlier plan.
func (t *widthTable) look() {
	if t.of == nil && t.cancel == nil && t.b.packing == nil {
		t.begin()
		return
	}
	t.update()
}

func (t *widthTable) begin() {
	t.halt()
	ctx, cancel := context.WithCancel(context.Background())
	t.cancel = cancel
	of := t.b.plan()
	t.rows, t.of = nil, of
	t.progress.SetValue(0)
	t.update()
	t.b.widths(ctx,
		func(done, all int) {
			if ctx.Err() == nil && all > 0 {
				t.progress.SetValue(float64(done) / float64(all))
			}
		},
		func(rows []plan.WidthRow, err error) {
			stopped := errors.Is(err, context.Canceled)
			if t.of != of || stopped && t.cancel != nil {
				return
			}
			cancel()
			t.cancel, t.rows = nil, rows
			if err != nil && !stopped {
				t.fault(err)
			}
			t.update()
		})
}

// halt stops the work; the widths that are done are kept.
func (t *widthTable) halt() {
	if t.cancel != nil {
		t.cancel()
		t.cancel = nil
		t.update()
	}
}

// pick takes the width of a row into the plan; the pieces are then laid anew.
func (t *widthTable) pick(row int) {
	if row < 0 || row >= len(t.rows) {
		return
	}
	// Rounded far below what a dent is, so that the field shows no noise.
	width := strconv.FormatFloat(math.Round(t.rows[row].WidthCM*1e8)/1e8, 'f', -1, 64)
	if err := t.b.set("cloth.finished_width_cm", "width", width); err != nil {
		t.fault(err)
	}
}

func (t *widthTable) update() {
	t.narrowest = -1
	if r, ok := plan.Narrowest(t.rows); ok {
		t.narrowest = r.WidthCM
	}
	running := t.cancel != nil
	show(t.stop, running)
	show(t.progress, running)
	show(t.work, !running)
	t.words.SetText(t.state(running))
	t.table.Refresh()
	if t.chart.at >= len(t.rows) {
		t.chart.at = -1
	}
	t.chart.Refresh()
}

func (t *widthTable) state(running bool) string {
	switch {
	case running:
		return words("The pieces are being laid at every width.")
	case t.of == nil:
		return words("Not worked out yet.")
	case len(t.rows) == 0:
		return words("The loom weaves no width at which every piece fits.")
	case sameButWidth(t.of, t.b.plan()):
		text := words("%d widths. Click on one to weave that wide; undo goes back.", len(t.rows))
		if n := plan.OnlyFirst(t.rows); n > 0 {
			text += " " + words("%d of them were only laid for a first time, as there was no time to search them: they may go shorter.", n)
		}
		return text
	}
	return words("The plan has changed since: work the widths out again.")
}

// sameButWidth says whether b is a with another width, title or lay only.
func sameButWidth(a, b *plan.Plan) bool {
	if a == b {
		return true
	}
	x, y := a.Clone(), b.Clone()
	for _, p := range []*plan.Plan{x, y} {
		p.Cloth.FinishedWidthCM, p.Title, p.ShowUnits, p.Lay = 0, "", "", nil
	}
	s, err := x.Marshal()
	if err != nil {
		return false
	}
	u, err := y.Marshal()
	return err == nil && string(s) == string(u)
}

func show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}
