package ui

import (
	"fmt"
	"strings"
	"testing"

	"ellwand/cloth"
	"ellwand/plan"
)

func TestSkeinIsAddedByFormAndWhatRemainsIsTold(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Log")
	if text := logAnswer(v.b.shown); !strings.HasPrefix(text, "Nothing is put down yet") {
		t.Errorf("with nothing in the log it says %q", text)
	}
	if err := v.b.addSkein(); err == nil || !strings.Contains(err.Error(), "no length") {
		t.Errorf("an empty skein: %v", err)
	}
	for path, text := range map[string]string{"date": "2026-03-07", "length_m": "240", "mass_g": "31.2", "hours": "6", "tool": "spindle"} {
		f := fieldAt(t, v, "log.skeins[1]."+path)
		if f.commit(text); f.problem.text != "" {
			t.Errorf("%s: %s", path, f.problem.text)
		}
	}
	if f := fieldAt(t, v, "log.skeins[1].length_m"); true {
		if f.commit("-3"); !strings.Contains(f.problem.text, "accepted is") {
			t.Errorf("-3 m: %q", f.problem.text)
		}
		f.commit("240")
	}
	if err := v.b.addSkein(); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	skein := v.b.plan().Log.Skeins[0]
	if skein != (plan.Skein{Date: "2026-03-07", Yarn: "grey-warp", LengthM: 240, MassG: 31.2, Hours: 6, Tool: "spindle"}) {
		t.Errorf("put down %+v", skein)
	}
	if f := fieldAt(t, v, "log.skeins[1].length_m"); f.entry.Text != "" {
		t.Errorf("the form still holds %q", f.entry.Text)
	}
	if text := logAnswer(v.b.shown); !strings.Contains(text, "grey-warp is drifting coarse: 130.0 tex") {
		t.Errorf("it says %q", text)
	}
	need := fmt.Sprintf("%.0f of", v.b.shown.Progress.Fleeces[0].RawNeededG)
	if !strings.HasPrefix(v.figures.wool.value, need) || v.b.shown.RawNeededG(v.b.shown.Reckoning.Fleeces[0]) <= v.b.shown.Reckoning.Fleeces[0].RawNeededG {
		t.Errorf("the reckoning line says %q of the fleece", v.figures.wool.value)
	}
	if bars := logBars(v.b.shown); len(bars) != 4 || bars[0].segments[0].amount != 240 {
		t.Errorf("bars %+v", bars)
	}
	v.b.undo()
	if len(v.b.plan().Log.Skeins) != 0 {
		t.Error("undo leaves the skein in the log")
	}
}

func TestClothAndHoursAreAddedByForm(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Log")
	fieldAt(t, v, "log.woven[1].woven_cm").commit("40")
	fieldAt(t, v, "log.worked[1].hours").commit("2")
	if err := v.b.addWoven(); err != nil {
		t.Fatal(err)
	}
	if err := v.b.addWorked(); err != nil {
		t.Fatal(err)
	}
	fieldAt(t, v, "log.cloth_finished.width_cm").commit("50")
	fieldAt(t, v, "log.cloth_finished.length_cm").commit("450")
	l.rest(v.b)
	if p := v.b.plan().Log; len(p.Woven) != 1 || len(p.Worked) != 1 || !p.Finished.Measured() {
		t.Errorf("log %+v", p)
	}
	if text := logAnswer(v.b.shown); !strings.Contains(text, "see what must move") {
		t.Errorf("it says %q", text)
	}
}

func TestSamplesInTheClothPanel(t *testing.T) {
	v, l := opened(t, "light")
	err := v.b.do("samples", func(p *plan.Plan) error {
		p.Samples = []cloth.Sample{{Name: "first", OnLoomLengthCM: 50, OffLoomLengthCM: 45, FinishedLengthCM: 40}}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	v.panels.openNamed("Cloth")
	f := fieldAt(t, v, "cloth.take_up")
	f.commit("")
	l.rest(v.b)
	if f.entry.PlaceHolder != "≈ 0.100" || v.b.plan().FixedLosses[cloth.LossTakeUp] {
		t.Errorf("in the empty take-up stands %q", f.entry.PlaceHolder)
	}
	before := v.b.shown.Holding
	if before == nil || before.BothChance >= before.Chance {
		t.Fatalf("holding %+v", before)
	}
	if err := v.b.weaveToSpare(); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	if h := v.b.shown.Holding; h.BothChance < 0.94 {
		t.Errorf("with the spare woven the chance is %g", h.BothChance)
	}
}

func TestAnswerOfTheFleeceIsUsed(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Fleece")
	fieldAt(t, v, "fleeces[grey wether].raw_g").commit("2300")
	l.rest(v.b)
	v.b.lookBack()
	l.until("the answers", func() bool { return v.b.back.cancel == nil })
	if v.b.back.fault != nil || len(v.b.back.answers) != 3 {
		t.Fatalf("fault %v, %d answers", v.b.back.fault, len(v.b.back.answers))
	}
	a := v.b.back.answers[0]
	if err := v.b.useAnswer(a); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	if got := v.b.plan().Params["hem_below_knee_cm"]; got != a.Fields[0].Is || len(v.b.shown.CannotBeMade) > 0 {
		t.Errorf("hem %g of %g, cannot be made: %v", got, a.Fields[0].Is, v.b.shown.CannotBeMade)
	}
	if rows := fleeceFlow(v.b.shown, "grey wether"); len(rows) != 6 || rows[0].mark <= 0 {
		t.Errorf("flow %+v", rows)
	}
}

func TestLotOfAnotherKindTakesItsYarnsAlong(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Fleece")
	fieldAt(t, v, "fleeces[grey wether].kind").commit("plant")
	l.rest(v.b)
	if y := v.b.plan().Yarns[0]; y.Coat != cloth.CoatLine {
		t.Errorf("the warp is of the %s", y.Coat)
	}
	v.b.undo()
	v.panels.openNamed("Yarn")
	if err := v.b.startBlend("grey-weft"); err != nil {
		t.Fatal(err)
	}
	f := fieldAt(t, v, "yarns[grey-weft].blend[1].share")
	if f.commit("0.7"); f.problem.text != "" || v.b.plan().Yarns[1].Blend[1].Share != 0.3 {
		t.Errorf("%q, blend %+v", f.problem.text, v.b.plan().Yarns[1].Blend)
	}
	if f.commit("1"); !strings.Contains(f.problem.text, "eaves nothing for") {
		t.Errorf("a share of 1: %q", f.problem.text)
	}
	if err := v.b.endBlend("grey-weft"); err != nil {
		t.Fatal(err)
	}
}
