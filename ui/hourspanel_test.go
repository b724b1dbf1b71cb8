package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"ellwand/cautions"
	"ellwand/cloth"
	"ellwand/hours"
	"ellwand/plan"
)

func TestHoursOverTheBudgetAreMarkedInWords(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Hours")
	if v.figures.time.unmet || !strings.Contains(hoursAnswer(v.b), "fits the budget of 320 h") {
		t.Errorf("the starter plan's hours are said to be: %s", hoursAnswer(v.b))
	}
	fieldAt(t, v, "hours.budget_h").commit("100")
	l.rest(v.b)
	if !v.figures.time.unmet || !strings.HasSuffix(v.figures.time.value, "of 100 h") {
		t.Errorf("the reckoning line says %q, unmet %v", v.figures.time.value, v.figures.time.unmet)
	}
	if text := hoursAnswer(v.b); !strings.HasPrefix(text, "! Likely") || !strings.Contains(text, "over the budget of 100 h") {
		t.Errorf("the panel says %q", text)
	}
	fieldAt(t, v, "hours.budget_h").commit("0")
	l.rest(v.b)
	if v.figures.time.unmet || strings.Contains(v.figures.time.value, "of") {
		t.Errorf("without a budget the line says %q", v.figures.time.value)
	}
	v.panels.openNamed("Choices")
	test.Tap(v.figures.time)
	if name := v.panels.all[v.panels.at].name; name != "Hours" {
		t.Errorf("a click on the hours opened %s", name)
	}
}

func TestOwnRateIsTypedAndTakenAway(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Hours")
	before := v.b.shown.Hours.Total.Likely
	f := fieldAt(t, v, "hours.rates.frame_cm_per_h")
	f.commit("4, 5, 6")
	l.rest(v.b)
	if f.problem.text != "" || f.entry.Text != "4, 5, 6" || v.b.shown.Hours.Total.Likely <= before {
		t.Errorf("shows %q, says %q, %g h after %g h", f.entry.Text, f.problem.text, v.b.shown.Hours.Total.Likely, before)
	}
	f.commit("6, 4")
	if !strings.Contains(f.problem.text, "slow, usual, quick") {
		t.Errorf("two rates: %q", f.problem.text)
	}
	f.revert()
	f.commit("")
	l.rest(v.b)
	if f.entry.PlaceHolder != "5, 15, 30" {
		t.Errorf("in the empty field stands %q", f.entry.PlaceHolder)
	}
}

func TestBarsAreAsLongAsTheHours(t *testing.T) {
	v, _ := opened(t, "light")
	bars := newTaskBars()
	bars.show(v.b.shown.Hours.Tasks)
	r := test.WidgetRenderer(bars).(*taskBarsRenderer)
	if bars.MinSize().Width != panelWidth || len(r.objects) < 4*len(bars.tasks) {
		t.Fatalf("%d things are drawn for %d tasks, %v", len(r.objects), len(bars.tasks), bars.MinSize())
	}
	most := 0.0
	for _, task := range bars.tasks {
		most = max(most, task.Hours.High)
	}
	if got, want := r.objects[3].Size().Width, max(1, float32(bars.tasks[0].Hours.Likely/most*panelWidth)); got-want > 0.01 || want-got > 0.01 {
		t.Errorf("the first bar is %g long, want %g", got, want)
	}
	bars.show([]hours.Task{{Name: "Spin the long grey yarn of the ferryman's second best wether by spindle", Hours: hours.Range{Low: 900, Likely: 1000, High: 1100}}})
	if high := bars.MinSize().Height; high < 2*lineHeight() {
		t.Errorf("a name too long for one line gets %g", high)
	}
	for _, o := range r.objects {
		if end := o.Position().X + o.Size().Width; end > panelWidth+0.5 {
			t.Errorf("something ends at %g, beyond %d", end, panelWidth)
		}
	}
}

func TestChoiceIsAddedWrittenAndRemoved(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Choices")
	add := buttonNamed(t, v, "Add a choice")
	test.Tap(add)
	fieldAt(t, v, "choices[choice].component").commit("dye")
	long := fieldAt(t, v, "choices[dye].known")
	if !long.entry.MultiLine || long.entry.AcceptsTab() {
		t.Error("what is known has no room for sentences, or keeps the Tab key to itself")
	}
	long.commit("Madder was grown nearby.\nNothing says that ferrymen wore it.")
	fieldAt(t, v, "choices[dye].component").commit("loom")
	if f := fieldAt(t, v, "choices[dye].component"); !strings.Contains(f.problem.text, "twice") {
		t.Errorf("two choices of one component: %q", f.problem.text)
	}
	l.rest(v.b)
	if c := v.b.plan().Choices; len(c) != 3 || c[2].Component != "dye" || !strings.Contains(c[2].Known, "\n") {
		t.Errorf("the plan holds %v", c)
	}
	for _, o := range test.LaidOutObjects(v.panels.form.box) {
		if pick, ok := o.(*widget.Select); ok && pick.PlaceHolder != "" {
			if slices.Contains(pick.Options, "dye") || !slices.Contains(pick.Options, "fibre") {
				t.Errorf("offered are %v", pick.Options)
			}
			pick.SetSelected("fibre")
			break
		}
	}
	if c := v.b.plan().Choices; len(c) != 4 || c[3].Component != "fibre" {
		t.Errorf("after fibre is picked the plan holds %v", c)
	}
	for len(v.b.plan().Choices) > 0 {
		test.Tap(buttonNamed(t, v, "Remove this choice"))
	}
	if len(v.panels.form.fields) != 0 {
		t.Errorf("%d fields for no choice", len(v.panels.form.fields))
	}
}

// buttonNamed is the first button of the open panel with that text.
func buttonNamed(t *testing.T, v *window, text string) fyne.Tappable {
	t.Helper()
	for _, o := range test.LaidOutObjects(v.panels.form.box) {
		if b, ok := o.(*widget.Button); ok && b.Text == text {
			return b
		}
	}
	t.Fatalf("the panel has no button %q", text)
	return nil
}

// The picture's parts are the likely hours, and the line of the budget stands
// where the words say.
func TestForecastIsDrawnAgainstTheBudget(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Hours")
	h := v.b.shown.Hours
	sum := 0.0
	for _, s := range stagesOf(h.Tasks) {
		if s.name == "other" && s.h > 4.5 {
			t.Errorf("%g h are of no stage", s.h)
		}
		sum += s.h
	}
	if d := sum - h.Total.Likely; d > 1e-6 || d < -1e-6 {
		t.Errorf("the stages are %g h, the total %g", sum, h.Total.Likely)
	}
	bar := newBudgetBar()
	bar.show(h)
	var said []string
	for _, o := range test.WidgetRenderer(bar).Objects() {
		if text, ok := o.(*canvas.Text); ok {
			said = append(said, text.Text)
			if text.Position().X < 0 || text.Position().X+text.MinSize().Width > panelWidth+0.5 {
				t.Errorf("%q runs off the panel", text.Text)
			}
		}
	}
	for _, span := range []hours.Range{{Low: 188, Likely: 237, High: 333}, {Low: 100, Likely: 101, High: 102}, {Low: 10, Likely: 200, High: 210}} {
		other := h
		other.Total = span
		bar.show(other)
		var texts []*canvas.Text
		for _, o := range test.WidgetRenderer(bar).Objects() {
			if text, ok := o.(*canvas.Text); ok {
				for _, t2 := range texts {
					if t2.Position().Y == text.Position().Y && overlap(t2, text) && t2.Position().X+t2.Size().Width > text.Position().X && text.Position().X+text.Size().Width > t2.Position().X {
						t.Errorf("%v: %q stands on %q", span, text.Text, t2.Text)
					}
				}
				texts = append(texts, text)
			}
		}
	}
	if all := strings.Join(said, "|"); !strings.Contains(all, "there are 320 h") || !strings.Contains(all, "likely ") {
		t.Errorf("it says %s", all)
	}
	fieldAt(t, v, "hours.shares.spindle_of[grey-warp]").commit("0")
	l.rest(v.b)
	if v.b.plan().Hours.SpindleOf["grey-warp"] != 0 || len(v.b.plan().Hours.SpindleOf) != 1 || v.b.shown.Hours.Total.Likely >= h.Total.Likely {
		t.Errorf("the warp by wheel: %v", v.b.plan().Hours.SpindleOf)
	}
	if text := savingsText(v.b); !strings.Contains(text, "spin all of grey-weft by wheel") || strings.Contains(text, "grey-warp") {
		t.Errorf("to cut first: %s", text)
	}
}

// Each caution stands where its work stands, and only where the plan asks for it.
func TestCautionsStandWhereTheWorkStands(t *testing.T) {
	v, _ := opened(t, "light")
	for panel, want := range map[string]string{"Fleece": "Raw fleece", "Yarn": "stop on pain", "Cloth": "wet cloth is heavy", "Pieces": "Shears", "Hours": "stop on pain"} {
		v.panels.openNamed(panel)
		said := ""
		for _, o := range test.LaidOutObjects(v.panels.form.box) {
			if p, ok := o.(*paragraph); ok {
				said += p.text + " "
			}
		}
		if !strings.Contains(said, "! Caution.") || !strings.Contains(said, want) {
			t.Errorf("the panel %s has no caution with %q", panel, want)
		}
	}
	p := v.b.plan().Clone()
	if slices.Contains(cautionsOf(p, "Loom"), cautions.WarpWeighted) {
		t.Error("the two-beam loom is cautioned about weights")
	}
	p.Loom.Kind = cloth.WarpWeighted
	if !slices.Contains(cautionsOf(p, "Loom"), cautions.WarpWeighted) {
		t.Error("the warp-weighted loom is not cautioned about")
	}
}

// Once there is a log, the picture is of what is worked and what remains.
func TestForecastFollowsTheLog(t *testing.T) {
	v, l := opened(t, "light")
	err := v.b.do("spin", func(p *plan.Plan) error {
		p.Log.Skeins = append(p.Log.Skeins, plan.Skein{Date: "2026-03-07", Yarn: "grey-warp", LengthM: 400, MassG: 44, Hours: 20, Tool: "spindle"})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	h := forecastOf(v.b.shown)
	first := stagesOf(h.Tasks)[0]
	if first.name != "worked so far" || first.h < 20 {
		t.Errorf("first stands %+v", first)
	}
	sum := 0.0
	for _, s := range stagesOf(h.Tasks) {
		sum += s.h
	}
	if d := sum - h.Total.Likely; d > 1e-6 || d < -1e-6 {
		t.Errorf("the parts are %g h, the total %g", sum, h.Total.Likely)
	}
}
