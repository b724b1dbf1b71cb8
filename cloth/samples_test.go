package cloth

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// Three samples worked by hand: take-up 5, 6 and 7 of 50, 0.10, 0.12, 0.14:
// mean 0.12, spread 0.02. Finished 40.5 of 45, 39.6 of 44, 38.7 of 43: 0.1
// each. Width 30, 27, 24.3: 0.1 and 0.1. 24 g on 40.5 × 24.3 cm: 243.865 g/m².
func threeSamples() []Sample {
	return []Sample{
		{"a", 50, 30, 45, 27, 40.5, 24.3, 24},
		{"b", 50, 30, 44, 27, 39.6, 24.3, 0},
		{"c", 50, 30, 43, 27, 38.7, 24.3, 0},
	}
}

func TestSeveralSamplesGiveMeanAndSpread(t *testing.T) {
	s := threeSamples()
	takeUp := LossSpread(s, LossTakeUp)
	near(t, "take-up", takeUp.Mean, 0.12, 1e-12)
	near(t, "its spread", takeUp.SD, 0.02, 1e-12)
	near(t, "shrinkage in length", LossSpread(s, LossShrinkLength).Mean, 0.1, 1e-12)
	near(t, "draw-in", LossSpread(s, LossDrawIn).Mean, 0.1, 1e-12)
	near(t, "spread of the draw-in", LossSpread(s, LossDrawIn).SD, 0, 1e-12)
	mass := MassSpread(s)
	near(t, "g/m²", mass.Mean, 243.865, 0.001)
	if mass.N != 1 || mass.SD != 0 {
		t.Errorf("one sample weighed gives %+v", mass)
	}
}

func TestSampleThatGrewIsRefused(t *testing.T) {
	var fault *FieldError
	for _, s := range []Sample{{Name: "a", OnLoomLengthCM: 40, OffLoomLengthCM: 41}, {Name: "a", OnLoomWidthCM: 40, FinishedWidthCM: 41}, {Name: "a", MassG: -1}} {
		if err := s.Validate(); !errors.As(err, &fault) {
			t.Errorf("%+v: %v", s, err)
		}
	}
	if _, ok := (Sample{OffLoomWidthCM: 40}).Loss(LossDrawIn); ok {
		t.Error("a sample not measured on the loom gives a draw-in")
	}
}

// normalBelow is the standard normal's distribution function.
func normalBelow(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// t4Below is Student's of 4 degrees in closed form:
// F(t) = ½ + ⅜·x·(1 − x²/12), x = t ÷ √(1 + t²/4)  (Johnson, Kotz and
// Balakrishnan, from memory; checked against the table's t of 0.95, 2.132).
func t4Below(t float64) float64 {
	x := t / math.Sqrt(1+t*t/4)
	return 0.5 + 0.375*x*(1-x*x/12)
}

func TestStudentOfFourDegreesAsTabled(t *testing.T) {
	near(t, "t of 0.95", t4Below(2.132), 0.95, 0.0001)
	near(t, "t of 0.975", t4Below(2.776), 0.975, 0.0001)
}

// holdInput needs 60 × 300 cm of a cloth of 75 × 400 on the loom whose kept
// parts are 0.82 and 0.77 in the middle.
func holdInput(df int) HoldInput {
	return HoldInput{NeedWidthCM: 60, NeedLengthCM: 300, ReedWidthCM: 75, WovenCM: 400, DentsPer10CM: 40,
		Width: Kept{Centre: math.Log(0.82), Scale: 0.02, DF: df}, Length: Kept{Centre: math.Log(0.77), Scale: 0.03, DF: df}}
}

func holdOf(in HoldInput, sim Simulation) Holding {
	return Hold(in, sim, NewDraws(DrawKeyOf(in, sim)))
}

// Wide enough when ln kept ≥ ln(need ÷ reed), so when t ≥ (ln(60/75) − ln 0.82)
// ÷ 0.02; the two directions are independent, so the chances multiply.
func TestSimulationAgreesWithItsClosedForm(t *testing.T) {
	for df, below := range map[int]func(float64) float64{0: normalBelow, 4: t4Below} {
		in, sim := holdInput(df), DefaultSimulation()
		sim.Trials = 200000
		h := holdOf(in, sim)
		wide := 1 - below((math.Log(60.0/75)-in.Width.Centre)/in.Width.Scale)
		long := 1 - below((math.Log(300.0/400)-in.Length.Centre)/in.Length.Scale)
		four := 4 * math.Sqrt(0.25/200000) // standard errors
		near(t, "wide enough", h.WidthChance, wide, four)
		near(t, "long enough", h.LengthChance, long, four)
		near(t, "holds the lay", h.BothChance, wide*long, four)
		if h.BothChance > sim.Chance || !h.Reached {
			t.Fatalf("chance %g, then %g", h.BothChance, h.ChanceThen)
		}
		reed, woven := 75+float64(h.ExtraDents)/4, 400+h.ExtraWovenCM
		then := (1 - below((math.Log(60/reed)-in.Width.Centre)/in.Width.Scale)) * (1 - below((math.Log(300/woven)-in.Length.Centre)/in.Length.Scale))
		near(t, "chance with the extra", then, 0.95, four)
	}
}

func TestSameSeedSameFigures(t *testing.T) {
	sim := DefaultSimulation()
	a, b := holdOf(holdInput(5), sim), holdOf(holdInput(5), sim)
	if !reflect.DeepEqual(a, b) {
		t.Errorf("%+v, then %+v", a, b)
	}
	sim.Seed = 2
	if c := holdOf(holdInput(5), sim); reflect.DeepEqual(a.ExtraWovenCM, c.ExtraWovenCM) {
		t.Error("another seed gives the same length to the last digit")
	}
}

// With the plan's own figure in the middle and nothing to spare, half of all
// cloths are long enough.
func TestNothingToSpareIsAnEvenChance(t *testing.T) {
	in := holdInput(4)
	in.WovenCM = 300 / 0.77
	near(t, "long enough", holdOf(in, DefaultSimulation()).LengthChance, 0.5, 0.015)
}

func TestExtraReachesTheChanceWanted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, sim := holdInput(rapid.IntRange(0, 12).Draw(t, "degrees")), DefaultSimulation()
		sim.Trials = 2000
		sim.Chance = rapid.Float64Range(0.5, 0.99).Draw(t, "chance")
		in.Width.Scale = rapid.Float64Range(0, 0.1).Draw(t, "width spread")
		in.Length.Scale = rapid.Float64Range(0, 0.1).Draw(t, "length spread")
		h := holdOf(in, sim)
		if !h.Reached && in.Width.DF > 0 && in.Width.DF < 3 {
			return // two or three samples leave tails that no length in reason reaches
		}
		if !h.Reached || h.ChanceThen < sim.Chance-1e-9 || h.ExtraDents < 0 || h.ExtraWovenCM < 0 {
			t.Fatalf("%+v", h)
		}
		if h.ExtraWovenCM > 0 {
			in.WovenCM += h.ExtraWovenCM * 0.99
			in.ReedWidthCM += float64(h.ExtraDents) / in.DentsPer10CM * 10
			if less := holdOf(in, sim); less.BothChance >= sim.Chance && h.ExtraWovenCM > 1 {
				t.Fatalf("1 %% less of %g cm extra would do as well", h.ExtraWovenCM)
			}
		}
	})
}

// Rules of the spread: none, one, and three samples of ln kept 0, 0.02, −0.02,
// whose spread is 0.02: s = √((4 × 0.015² + 2 × 0.02²) ÷ 6) = 0.016833;
// × √(4/3) = 0.019437, 6 degrees.
func TestSpreadByHowManySamplesThereAre(t *testing.T) {
	none := KeptOf(0, nil, 0.015, Guess{0.04, ""})
	near(t, "no sample", none.Scale, math.Hypot(0.04, 0.015), 1e-12)
	one := KeptOf(0, []float64{0.3}, 0.015, Guess{})
	near(t, "one sample", one.Scale, 0.015*math.Sqrt2, 1e-12)
	three := KeptOf(0, []float64{0, 0.02, -0.02}, 0.015, Guess{})
	near(t, "three samples", three.Scale, 0.019437, 1e-6)
	if none.DF != 0 || one.DF != 4 || three.DF != 6 {
		t.Errorf("degrees %d, %d, %d", none.DF, one.DF, three.DF)
	}
	near(t, "unsure of a fulled length", GuessLength(Setting{ShrinkLength: 0.12}).SD, math.Hypot(0.0375/0.825, 0.015/0.93), 1e-12)
	near(t, "unsure of a washed width", GuessWidth(Setting{ShrinkWidth: 0.05}).SD, math.Hypot(0.01/0.94, 0.0125/0.925), 1e-12)
}
