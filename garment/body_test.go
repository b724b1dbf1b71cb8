package garment

import (
	"math"
	"sort"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestMillimetresAndInchesAreGuessed(t *testing.T) {
	for _, c := range []struct {
		m    Measure
		cm   float64
		want string
	}{
		{BustGirth, 980, "bust_girth_cm is 980 cm; accepted is 60 to 180 cm (did you mean 98 cm, from 980 mm?)"},
		{BustGirth, 38, "bust_girth_cm is 38 cm; accepted is 60 to 180 cm (did you mean 96.5 cm, from 38 inches?)"},
		{Stature, 1.76, "stature_cm is 1.76 cm; accepted is 115 to 235 cm (did you mean 176 cm, from 1.76 m?)"},
		{Stature, -3, "stature_cm is -3 cm; accepted is 115 to 235 cm"},
		{"bust_grith_cm", 98, `"bust_grith_cm" is no measurement of a body (did you mean "bust_girth_cm"?)`},
	} {
		if err := CheckOne(c.m, c.cm); err == nil || err.Error() != c.want {
			t.Errorf("%s %g: %v; want %s", c.m, c.cm, err, c.want)
		}
	}
	if CheckOne(BustGirth, math.NaN()) == nil || CheckOne(BustGirth, math.Inf(1)) == nil {
		t.Error("a bust girth that is no number is accepted")
	}
	if err := CheckOne(BustGirth, 98); err != nil {
		t.Error(err)
	}
}

func TestImpossibleBodiesAreRefused(t *testing.T) {
	b := middle("men")
	b.CM[WaistHeight], b.CM[InsideLeg] = 80, 90
	if errs := b.Check(); len(errs) != 1 || !strings.Contains(errs[0].Error(), "inside_leg_cm is 90 cm and waist_height_cm is 80 cm") {
		t.Errorf("errors %v", errs)
	}
	b = middle("men")
	b.Table = "giants"
	if len(b.Check()) != 1 {
		t.Error("an unknown survey table is accepted")
	}
}

// The accepted ranges are what the comment on Measures says they are.
func TestRangesAreTheSurveysWidened(t *testing.T) {
	girth := func(m Measure) bool { return strings.Contains(string(m), "girth") }
	for _, p := range ansurPercentiles() {
		info, ok := measureInfo(p.m)
		if !ok {
			t.Fatalf("%s is not described", p.m)
		}
		down, up := 0.75, 1.25
		if girth(p.m) {
			down, up = 0.7, 1.5
		}
		low, high := down*min(p.women[0], p.men[0]), up*max(p.women[4], p.men[4])
		for _, v := range [][2]float64{{info.MinCM, low}, {info.MaxCM, high}} {
			step := 0.55
			if v[1] > 49 {
				step = 2.55
			}
			if math.Abs(v[0]-v[1]) > step {
				t.Errorf("%s: limit %g, the rule gives %.1f", p.m, v[0], v[1])
			}
		}
	}
}

// The sample's medians stay within 3 standard errors of the whole survey's
// (ANSUR II); the spread is taken from the published quartiles.
func TestSampleIsLikeTheWholeSurvey(t *testing.T) {
	bodies := sampleBodies(t)
	for i, group := range [][]Body{bodies[:150], bodies[150:]} {
		for _, p := range ansurPercentiles() {
			want := [][5]float64{p.women, p.men}[i]
			var v []float64
			for _, b := range group {
				v = append(v, b.CM[p.m])
			}
			sort.Float64s(v)
			median, sd := (v[74]+v[75])/2, (want[3]-want[1])/1.349
			if slack := 3 * 1.253 * sd / math.Sqrt(150); math.Abs(median-want[2]) > slack {
				t.Errorf("%s: median of %s %.1f, published %.1f", p.m, group[0].Table, median, want[2])
			}
		}
	}
}

func TestRealBodiesPassTheChecks(t *testing.T) {
	doubts := 0
	for _, b := range sampleBodies(t) {
		for _, err := range b.Check() {
			t.Errorf("%s: %v", b.Name, err)
		}
		doubts += len(b.Doubts())
	}
	if doubts > 5 {
		t.Errorf("%d doubts about 300 real bodies", doubts)
	}
	b := middle("women")
	b.CM[UpperArmGirth] = 55
	if d := b.Doubts(); len(d) != 1 || !strings.Contains(d[0], "upper_arm_girth_cm is 55 cm") {
		t.Errorf("an upper arm of 55 cm raises %v", d)
	}
}

// The estimates against regressions on stature or bust alone that were worked
// out separately from the whole of ANSUR II.
func TestEstimatesAgreeWithSingleRegressions(t *testing.T) {
	for _, c := range []struct {
		m          Measure
		table      string
		on         Measure
		slope, add float64
	}{
		{BackNeckHeight, "women", Stature, 0.913, -9.0}, {BackNeckHeight, "men", Stature, 0.908, -7.8},
		{ArmLength, "women", Stature, 0.364, -4.95}, {ArmLength, "men", Stature, 0.361, -4.1},
		{InsideLeg, "women", Stature, 0.590, -17.9}, {InsideLeg, "men", Stature, 0.582, -17.6},
		{WaistHeight, "women", Stature, 0.708, -17.3}, {WaistHeight, "men", Stature, 0.691, -15.7},
		{UpperArmGirth, "women", BustGirth, 0.278, 4.3}, {UpperArmGirth, "men", BustGirth, 0.311, 2.9},
	} {
		b := middle(c.table)
		e, err := b.estimate(c.m)
		if err != nil {
			t.Fatal(err)
		}
		if want := c.slope*b.CM[c.on] + c.add; math.Abs(e.CM-want) > 0.35 {
			t.Errorf("%s of the median of %s: %.2f, the single regression gives %.2f", c.m, c.table, e.CM, want)
		}
	}
}

// On the sample the estimates are off by what they say they are off by.
func TestEstimatesAreAsGoodAsTheySay(t *testing.T) {
	bodies := sampleBodies(t)
	for _, group := range [][]Body{bodies[:150], bodies[150:]} {
		for m := range regressions() {
			bias, square, sd := 0.0, 0.0, 0.0
			for _, b := range group {
				e, err := b.estimate(m)
				if err != nil {
					t.Fatal(err)
				}
				bias += (b.CM[m] - e.CM) / 150
				square += (b.CM[m] - e.CM) * (b.CM[m] - e.CM) / 150
				sd = e.SDCM
			}
			if r := math.Sqrt(square) / sd; r < 0.78 || r > 1.25 || math.Abs(bias) > 0.35*sd {
				t.Errorf("%s of %s: spread %.2f of what is said, bias %.2f cm, SD %.2f cm", m, group[0].Table, r, bias, sd)
			}
		}
	}
}

func TestEstimatesAreMarkedAndKeepWhatWasMeasured(t *testing.T) {
	b := Body{Table: "women", CM: map[Measure]float64{Stature: 165, BustGirth: 92, HipGirth: 104}}
	full, estimates := b.Complete()
	if full.CM[HipGirth] != 104 || len(full.CM) != len(Measures()) || len(estimates) != len(Measures())-3 {
		t.Errorf("%d measurements, %d estimates", len(full.CM), len(estimates))
	}
	for _, e := range estimates {
		if b.CM[e.Measure] != 0 || !strings.Contains(e.String(), string(e.Measure)+" was not measured") {
			t.Errorf("estimate %v", e)
		}
	}
	if got, _ := (Body{CM: map[Measure]float64{Stature: 165}}).Complete(); len(got.CM) != 1 {
		t.Errorf("from stature alone %v", got.CM)
	}
}

// drawBody is a random plausible body: stature and bust from the survey's
// range, all else within 2.5 standard deviations of its estimate.
func drawBody(t *rapid.T) Body {
	b := Body{Table: rapid.SampledFrom([]string{"women", "men"}).Draw(t, "table"), CM: map[Measure]float64{}}
	b.CM[Stature] = rapid.Float64Range(148, 195).Draw(t, "stature")
	b.CM[BustGirth] = rapid.Float64Range(76, 130).Draw(t, "bust")
	for _, i := range Measures() {
		if _, ok := b.CM[i.Key]; ok || i.Key == BodyRise {
			continue
		}
		e, err := b.estimate(i.Key)
		if err != nil {
			t.Fatal(err)
		}
		b.CM[i.Key] = e.CM + e.SDCM*rapid.Float64Range(-2.5, 2.5).Draw(t, string(i.Key))
	}
	b.CM[BodyRise] = b.CM[WaistHeight] - b.CM[InsideLeg]
	if len(b.Check()) > 0 {
		t.Skip("not one body")
	}
	return b
}
