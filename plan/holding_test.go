package plan

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"ellwand/assets"
	"ellwand/cloth"
)

// planksCloth is 60 × 300 cm of one plank, in one dent a cm and one end a dent,
// so that the figures can be followed by hand.
const plankPlan = `ellwand: 1
title: A plank
pieces:
  - {name: plank, shape: rectangle, length_cm: 300, width_cm: 60}
allowances: {seam_cm: 0, hem_cm: 0, selvedge_edge_cm: 0, max_tip_cm: 2}
cloth: {weave: tabby, warp: thread, weft: thread, finished_ends_per_cm: 8, finished_picks_per_cm: 8}
loom: {max_reed_width_cm: 120, waste_cm: 60, reeds_dents_per_10cm: [40]}
yarns: [{name: thread, tex: 100}]
`

const threeOfThem = `samples:
  - {name: a, on_loom_length_cm: 50, on_loom_width_cm: 30, off_loom_length_cm: 45, off_loom_width_cm: 27, finished_length_cm: 40.5, finished_width_cm: 24.3, mass_g: 24}
  - {name: b, on_loom_length_cm: 50, on_loom_width_cm: 30, off_loom_length_cm: 44, off_loom_width_cm: 27, finished_length_cm: 39.6, finished_width_cm: 24.3}
  - {name: c, on_loom_length_cm: 50, on_loom_width_cm: 30, off_loom_length_cm: 43, off_loom_width_cm: 27, finished_length_cm: 38.7, finished_width_cm: 24.3}
`

func parsed(t *testing.T, text string) *Plan {
	t.Helper()
	p, err := Parse([]byte(text), "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Mean losses 0.12, 0.1, 0.1, 0.1: woven 300 ÷ 0.9 ÷ 0.88 = 378.788 cm, reed
// 60 ÷ 0.9 ÷ 0.9 = 74.07, in whole dents 297 = 74.25 cm.
func TestSamplesGiveTheLossesThatThePlanDoesNotFix(t *testing.T) {
	p := parsed(t, plankPlan+threeOfThem)
	r := worked(t, p, Options{})
	if w := r.Reckoning.WovenLengthCM; math.Abs(w-378.788) > 0.001 || r.Reckoning.Dents != 297 {
		t.Errorf("woven %g cm on %d dents", w, r.Reckoning.Dents)
	}
	fixed := parsed(t, strings.Replace(plankPlan, "weave: tabby", "weave: tabby, take_up: 0", 1)+threeOfThem)
	if w := worked(t, fixed, Options{}).Reckoning.WovenLengthCM; math.Abs(w-300/0.9) > 0.001 {
		t.Errorf("with the take-up fixed at 0 it is %g cm", w)
	}
	if p.lossFrom(cloth.LossTakeUp) != "samples" || fixed.lossFrom(cloth.LossTakeUp) != "plan" {
		t.Error("where the take-up is from is not told")
	}
	if err := SetField(fixed, "cloth.take_up", ""); err != nil || fixed.lossFrom(cloth.LossTakeUp) != "samples" {
		t.Errorf("take-up taken away: %v, from %s", err, fixed.lossFrom(cloth.LossTakeUp))
	}
	data, _ := p.Marshal()
	if bytes.Contains(data, []byte("take_up")) {
		t.Error("saving fixes the take-up")
	}
}

func TestHoldingIsInTheJSONAndRepeats(t *testing.T) {
	read := func() (out struct {
		Samples struct {
			Losses []struct {
				Loss         string
				Mean, Spread float64
				Samples      int
			}
		}
		Holding struct {
			Chance, Wanted float64
			ExtraDents     int     `json:"extra_dents"`
			ExtraLengthCM  float64 `json:"extra_length_cm"`
			ChanceThen     float64 `json:"chance_then"`
			Length         struct {
				Spread  float64
				Degrees int
			}
		}
	}) {
		data, err := worked(t, parsed(t, plankPlan+threeOfThem), Options{}).JSON()
		if err == nil {
			err = json.Unmarshal(data, &out)
		}
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	a := read()
	if l := a.Samples.Losses[0]; l.Loss != "take_up" || l.Mean != 0.12 || l.Spread != 0.02 || l.Samples != 3 {
		t.Errorf("take-up %+v", l)
	}
	// ln kept of 0.81, 0.792, 0.774: spread 0.022732; pooled √((4 × 0.015² + 2 ×
	// 0.022732²) ÷ 6) = 0.017939, × √(4/3) = 0.020715.
	if h := a.Holding; math.Abs(h.Length.Spread-0.0207) > 0.0001 || h.Length.Degrees != 6 || h.Wanted != 0.95 || h.Chance > 0.5 || h.ChanceThen < 0.95 || h.ExtraLengthCM < 5 {
		t.Errorf("holding %+v", h)
	}
	if b := read(); b.Holding != a.Holding {
		t.Errorf("%+v, then %+v", a.Holding, b.Holding)
	}
}

// What it advises, put into the plan, brings the chance wanted.
func TestSpareWovenAsAdvisedHoldsTheLay(t *testing.T) {
	p := parsed(t, plankPlan+threeOfThem)
	h := worked(t, p, Options{}).Holding
	p.Cloth.ExtraDents, p.Cloth.ExtraLengthCM = h.ExtraDents, h.ExtraLengthCM
	r := worked(t, p, Options{})
	if r.Holding.BothChance < 0.949 || r.Reckoning.Dents != 297+h.ExtraDents {
		t.Errorf("chance %g on %d dents", r.Holding.BothChance, r.Reckoning.Dents)
	}
}

func TestWithNoSampleItSaysHowUnsureAndHowToMakeOne(t *testing.T) {
	text := worked(t, parsed(t, plankPlan), Options{}).Text("cm")
	for _, want := range []string{"no sample tells it; counted as 0", "no sample: washed cloth shrinks 2 to 6 % (from memory)", "How to make a sample", "50 × 50 cm finished", "Neither the plan nor a sample gives take_up"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	if text := worked(t, parsed(t, string(assets.StarterPlan())), Options{}).Text("cm"); !strings.Contains(text, "fulled cloth shrinks 10 to 25 % (seslisozluk.net, foulage)") {
		t.Error("the spread of fulled cloth is not named")
	}
	p := parsed(t, plankPlan)
	if m, ok := p.sampleToMake(); !ok || m.Ends != 400 || m.Picks != 400 || math.Abs(m.YarnM-(400*1.1+400*0.5)) > 1e-9 {
		t.Errorf("sample to make is %+v", m)
	}
}

func TestSampleThatGrewIsNamed(t *testing.T) {
	_, err := Parse([]byte(plankPlan+strings.Replace(threeOfThem, "finished_width_cm: 24.3, mass", "finished_width_cm: 34.3, mass", 1)), "plan.yaml")
	if err == nil || !strings.Contains(err.Error(), "samples[a]") || !strings.Contains(err.Error(), "34.3") {
		t.Errorf("%v", err)
	}
}
