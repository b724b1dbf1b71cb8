package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// latestShown is how many entries of each kind the log panel lists.
const latestShown = 12

func logShape(b *bench) string {
	var parts []string
	for _, y := range b.plan().Yarns {
		parts = append(parts, y.Name)
	}
	return fmt.Sprint(parts, b.plan().Log.Skeins, b.plan().Log.Woven, b.plan().Log.Worked)
}

// fresh is an entry of the log being filled in, one of each kind, as the log
// of a plan that nobody sees: the same fields, checks and sentences.
func (b *bench) fresh() *plan.Plan {
	if b.entry == nil {
		b.entry = &plan.Plan{}
		b.freshSkein()
		b.freshWoven()
		b.freshWorked()
	}
	return b.entry
}

func (b *bench) freshSkein() {
	yarn := b.plan().WarpYarn
	if n := len(b.entry.Log.Skeins); n > 0 {
		yarn = b.entry.Log.Skeins[0].Yarn // the next is most likely of the same yarn
	}
	b.entry.Log.Skeins = []plan.Skein{{Yarn: yarn}}
}
func (b *bench) freshWoven()  { b.entry.Log.Woven = []plan.Woven{{}} }
func (b *bench) freshWorked() { b.entry.Log.Worked = []plan.Worked{{Task: plan.WorkedTasks()[0]}} }

func fillLog(f *form) {
	f.said(func() string { return logAnswer(f.b.shown) })
	f.bars(func() []barRow { return logBars(f.b.shown) })
	f.heading("Add a skein")
	f.entries("log.skeins[1].", "date", "yarn", "length_m", "mass_g", "hours", "tool")
	f.button("Add the skein", f.b.addSkein)
	f.heading("Add cloth woven")
	f.entries("log.woven[1].", "date", "woven_cm", "picks", "hours")
	f.button("Add the cloth", f.b.addWoven)
	f.heading("Add hours worked")
	f.note("Hours at a skein or at the loom stand with them. The quantity is in grams for sorting, scouring, combing, carding and dyeing, in ends for winding, threading and sleying, in m² for finishing, in metres for the rest; with it the rate really worked is known.")
	f.entries("log.worked[1].", "date", "task", "of", "hours", "quantity", "done")
	f.button("Add the hours", f.b.addWorked)

	f.heading("The cloth off the loom")
	f.note("Relaxed, unwashed.")
	for _, key := range []string{"width_cm", "length_cm", "mass_g"} {
		f.field("log.cloth_off_loom." + key)
	}
	f.heading("The cloth finished")
	f.note("With width and length in, Lay, What must move? goes by them.")
	for _, key := range []string{"width_cm", "length_cm", "mass_g"} {
		f.field("log.cloth_finished." + key)
	}
	f.heading("What remains, in full")
	f.said(func() string { return logLines(f.b.shown) })
	f.logged()
}

// entries are fields of the entry being filled in, not of the plan.
func (f *form) entries(under string, keys ...string) {
	b := f.b
	for _, key := range keys {
		path := under + key
		info, ok := plan.Field(b.fresh(), path)
		if !ok {
			continue
		}
		spec := fieldSpec{path: path, label: info.Label, unit: info.Unit, yesNo: info.Accepted == "true or false",
			get: func() string {
				if v := plan.GetField(b.fresh(), path); v != "0" {
					return v
				}
				return ""
			},
			try: func(text string) error { return b.tryEntry(b.fresh().Clone(), path, text) },
			set: func(text string) error { return b.tryEntry(b.fresh(), path, text) },
		}
		for _, word := range info.Choices {
			label := word
			if word == "" {
				label = "not said"
			}
			spec.options = append(spec.options, option{word, label})
		}
		if key == "yarn" {
			for _, y := range b.plan().Yarns {
				spec.options = append(spec.options, option{y.Name, y.Name})
			}
		}
		f.put(spec)
	}
}

// tryEntry sets a field of an entry; an empty number is none.
func (b *bench) tryEntry(p *plan.Plan, path, text string) error {
	if info, ok := plan.Field(p, path); ok && text == "" && info.Max > 0 {
		text = "0"
	}
	if err := plan.SetField(p, path, text); err != nil && text != "0" {
		return err
	}
	return nil
}

func (b *bench) addSkein() error {
	s := b.fresh().Log.Skeins[0]
	if !(s.LengthM > 0) {
		return errors.New(words("the skein has no length; accepted is a number of metres above 0"))
	}
	err := b.do("add a skein", func(p *plan.Plan) error { p.Log.Skeins = append(p.Log.Skeins, s); return nil })
	return b.added(err, b.freshSkein)
}

func (b *bench) addWoven() error {
	w := b.fresh().Log.Woven[0]
	if !(w.WovenCM > 0) {
		return errors.New(words("the cloth woven has no length; accepted is a number of cm above 0"))
	}
	err := b.do("add cloth woven", func(p *plan.Plan) error { p.Log.Woven = append(p.Log.Woven, w); return nil })
	return b.added(err, b.freshWoven)
}

func (b *bench) addWorked() error {
	w := b.fresh().Log.Worked[0]
	if !(w.Hours > 0) && !w.Done {
		return errors.New(words("there are no hours to add; accepted is a number of hours above 0, or a task that is done"))
	}
	err := b.do("add hours worked", func(p *plan.Plan) error { p.Log.Worked = append(p.Log.Worked, w); return nil })
	return b.added(err, b.freshWorked)
}

// added empties the entry once it is in the plan.
func (b *bench) added(err error, empty func()) error {
	if err == nil {
		empty()
		b.tell(planChanged)
	}
	return err
}

// logged lists the latest entries, each with a button that takes it out.
func (f *form) logged() {
	l := f.b.plan().Log
	list := func(title string, n int, line func(i int) string, take func(p *plan.Plan, i int)) {
		if n == 0 {
			return
		}
		f.heading(title)
		for i := n - 1; i >= max(0, n-latestShown); i-- {
			text := newParagraph(line(i), panelWidth-40)
			out := widget.NewButton("×", func() {
				if err := f.b.do("take out of the log", func(p *plan.Plan) error { take(p, i); return nil }); err != nil {
					f.fault(err)
				}
			})
			f.add(container.NewHBox(out, text))
		}
		if n > latestShown {
			f.note(words("%d earlier ones are in the plan file.", n-latestShown))
		}
	}
	list("Skeins so far", len(l.Skeins), func(i int) string { return skeinLine(l.Skeins[i]) },
		func(p *plan.Plan, i int) { p.Log.Skeins = slices.Delete(p.Log.Skeins, i, i+1) })
	list("Woven so far", len(l.Woven), func(i int) string { return wovenLine(l.Woven[i]) },
		func(p *plan.Plan, i int) { p.Log.Woven = slices.Delete(p.Log.Woven, i, i+1) })
	list("Hours so far", len(l.Worked), func(i int) string { return workedLine(l.Worked[i]) },
		func(p *plan.Plan, i int) { p.Log.Worked = slices.Delete(p.Log.Worked, i, i+1) })
}

func skeinLine(s plan.Skein) string {
	text := strings.TrimSpace(fmt.Sprintf("%s %s: %g m", s.Date, s.Yarn, s.LengthM))
	if s.MassG > 0 {
		text += words(", %g g, %.1f tex", s.MassG, s.MassG/s.LengthM*1000)
	}
	if s.Hours > 0 {
		text += fmt.Sprintf(", %g h", s.Hours)
	}
	if s.Tool != "" {
		text += ", " + s.Tool
	}
	return text
}

func wovenLine(w plan.Woven) string {
	text := strings.TrimSpace(fmt.Sprintf("%s %g cm", w.Date, w.WovenCM))
	if w.Picks > 0 {
		text += words(", %d picks", w.Picks)
	}
	if w.Hours > 0 {
		text += fmt.Sprintf(", %g h", w.Hours)
	}
	return text
}

func workedLine(w plan.Worked) string {
	text := strings.TrimSpace(fmt.Sprintf("%s %s %s", w.Date, w.Task, w.Of)) + fmt.Sprintf(": %g h", w.Hours)
	if w.Quantity > 0 {
		text += fmt.Sprintf(", %g", w.Quantity)
	}
	if w.Done {
		text += ", done"
	}
	return text
}

// logAnswer is what the log warns of, or that all goes to plan.
func logAnswer(r *plan.Result) string {
	switch {
	case r == nil:
		return words("Nothing is worked out yet.")
	case r.Progress == nil:
		return words("Nothing is put down yet. Add each skein, each stretch of cloth and the hours as they are done: what remains, and whether the fibre and the time will do, is then told from what is really there.")
	case len(r.Progress.Warnings) == 0:
		return words("So far it goes to plan.")
	}
	return "! " + strings.Join(r.Progress.Warnings, "\n! ")
}

func logLines(r *plan.Result) string {
	if r == nil || r.Progress == nil {
		return words("Nothing is put down yet.")
	}
	g := r.Progress
	return strings.Join(slices.Concat(g.YarnLines(), g.ClothLines(), g.HoursLines()), "\n")
}

// logBars is what is done of each yarn, of the cloth and of the hours.
func logBars(r *plan.Result) []barRow {
	if r == nil || r.Progress == nil {
		return nil
	}
	g := r.Progress
	var rows []barRow
	bar := func(name string, done, left float64, unit string) {
		if done+left <= 0 {
			return
		}
		rows = append(rows, barRow{name: name, value: fmt.Sprintf("%.0f of %.0f %s", done, done+left, unit), full: done + left,
			segments: []barSegment{{words("%.0f %s done", done, unit), done, theme.ColorNamePrimary}, {fmt.Sprintf("%.0f %s to do", left, unit), left, fyne.ThemeColorName(theme.ColorNameInputBorder)}}})
	}
	for _, y := range g.Yarns {
		bar("Spun, "+y.Name, y.SpunM, y.LeftM, "m")
	}
	bar("Woven, under tension", g.Web.WovenCM, g.Web.LeftCM, "cm")
	h := g.Hours
	bar("Hours, rests counted in those to do", h.WorkedH, h.Remaining.Likely, "h")
	if h.BudgetH > 0 && len(rows) > 0 {
		last := &rows[len(rows)-1]
		last.full = max(last.full, h.BudgetH)
		last.mark = h.BudgetH
		last.name = words("Hours (the mark is the budget, %.0f h)", h.BudgetH)
	}
	return rows
}
