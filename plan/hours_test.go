package plan

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"ellwand/assets"
	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/hours"
)

func taskOf(t *testing.T, r *Result, key string) hours.Task {
	t.Helper()
	for _, one := range r.Hours.Tasks {
		if one.Key == key {
			return one
		}
	}
	t.Fatalf("there is no task %q", key)
	return hours.Task{}
}

func TestHoursTakeTheirQuantitiesFromThePlan(t *testing.T) {
	p := Starter()
	r := worked(t, p, Options{})
	c := r.Reckoning
	for key, want := range map[string]float64{
		"sort:grey wether":       c.Fleeces[0].RawNeededG,
		"scour:grey wether":      c.Fleeces[0].RawNeededG * (1 - 0.12),
		"comb:grey-warp":         c.Yarns[0].MassG / (1 - 0.05),
		"card:grey-weft":         c.Yarns[1].MassG / (1 - 0.05),
		"spin:grey-warp:spindle": c.Yarns[0].LengthM * 0.6,
		"spin:grey-weft:wheel":   c.Yarns[1].LengthM * 0.4,
		"wind":                   float64(c.Ends),
		"beam":                   float64(c.Ends) * c.WarpLengthCM / 100,
		"weave":                  c.WovenLengthCM + float64(c.Warps)*(30+10),
	} {
		if got := taskOf(t, r, key).Quantity; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%s is %g, want %g", key, got, want)
		}
	}
}

// Half of all seam edges, copies counted, is what is sewn: each seam takes two.
func TestSeamAndHemLengthsComeFromTheGarmentsEdges(t *testing.T) {
	r := worked(t, Starter(), Options{})
	seamEdges, hems := 0.0, 0.0
	for _, piece := range r.Garment.Pieces {
		how := finishes(piece)
		for name, cm := range garment.EdgeLengthsCM(piece) {
			switch how[name] {
			case garment.FinishSeam:
				seamEdges += cm * float64(piece.Copies) / 100
			case garment.FinishHem:
				hems += cm * float64(piece.Copies) / 100
			}
		}
	}
	if got := taskOf(t, r, "join").Quantity; math.Abs(got-seamEdges/2) > 0.01 {
		t.Errorf("%g m of seams are joined, half of the seam edges is %g m", got, seamEdges/2)
	}
	if got := taskOf(t, r, "hem").Quantity; math.Abs(got-hems) > 1e-9 {
		t.Errorf("%g m are hemmed, the hem edges are %g m", got, hems)
	}
}

func TestSeamThatIsNowHemmedIsNotSewn(t *testing.T) {
	p := Starter()
	before := worked(t, p, Options{})
	p.Pieces = append(p.Pieces, PieceSpec{Name: "centre gore", Copies: new(int)})
	after := worked(t, p, Options{})
	if a, b := taskOf(t, before, "join").Quantity, taskOf(t, after, "join").Quantity; b > a-2 {
		t.Errorf("without centre gores %g m are joined, with them %g m", b, a)
	}
	p = Starter()
	if err := p.AddPiece("pouch", 30, 20); err != nil {
		t.Fatal(err)
	}
	p.Pieces[0].Finish = map[string]garment.Finish{"base": garment.FinishSeam, "top": garment.FinishSeam}
	lengths := seamsToSew(worked(t, p, Options{}).Garment, p.Pieces)
	if last := lengths[len(lengths)-1]; !strings.HasPrefix(last.Name, "pouch") || last.CM != 30 && last.CM != 20 {
		t.Errorf("the pouch's seam is %v", last)
	}
}

func TestYarnInHandOrBoughtIsNotSpunAgain(t *testing.T) {
	p := Starter()
	whole := taskOf(t, worked(t, p, Options{}), "sort:grey wether").Quantity
	p.Yarns[0].InHandM, p.Yarns[0].HaveInHand = 9000, true
	r := worked(t, p, Options{})
	for _, one := range r.Hours.Tasks {
		if strings.Contains(one.Key, "grey-warp") {
			t.Errorf("%s, though the yarn is there", one.Name)
		}
	}
	if g := taskOf(t, r, "sort:grey wether").Quantity; g <= 0 || g > whole {
		t.Errorf("%g g are sorted for the weft alone, %g g for both", g, whole)
	}
	p.Yarns[0].HaveInHand, p.Yarns[0].Fleece, p.Yarns[1].Fleece = false, "", ""
	p.Yarns[0].Coat, p.Yarns[1].Coat = cloth.CoatWhole, cloth.CoatWhole
	for _, one := range worked(t, p, Options{}).Hours.Tasks {
		if strings.HasPrefix(one.Key, "sort") || strings.HasPrefix(one.Key, "spin") {
			t.Errorf("%s, though all yarn is bought", one.Name)
		}
	}
}

func TestHoursStandInTheReckoning(t *testing.T) {
	r := worked(t, Starter(), Options{})
	data, err := r.JSON()
	if err != nil {
		t.Fatal(err)
	}
	var out struct {
		Hours struct {
			LowH    float64 `json:"low_h"`
			LikelyH float64 `json:"likely_h"`
			HighH   float64 `json:"high_h"`
			BudgetH float64 `json:"budget_h"`
			Finish  string  `json:"finish_likely"`
			Tasks   []struct {
				Name, Unit, From string
				Quantity         float64
				LikelyH          float64 `json:"likely_h"`
			}
		}
	}
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatal(err)
	}
	h, sum := out.Hours, 0.0
	for _, one := range h.Tasks {
		sum += one.LikelyH
		if one.Name == "" || one.Unit == "" || one.From == "" || one.Quantity <= 0 {
			t.Errorf("task %+v says too little", one)
		}
	}
	if h.BudgetH != 320 || h.Finish == "" || !(h.LowH < h.LikelyH && h.LikelyH < h.HighH) || math.Abs(sum-h.LikelyH) > 0.01 {
		t.Errorf("hours are %+v; the tasks sum to %g", h, sum)
	}
	text := r.Text("cm")
	for _, want := range []string{"\nHours\n", "Comb for grey-warp: ", "budget of 320 h", "your own timing", "snugfibreknits.com"} {
		if !strings.Contains(text, want) {
			t.Errorf("the printed reckoning has no %q", want)
		}
	}
}

func TestPlanWithoutHoursIsReckonedByPublishedRates(t *testing.T) {
	source := assets.StarterPlan()
	from, to := bytes.Index(source, []byte("hours:\n")), bytes.Index(source, []byte("choices:\n"))
	p, err := Parse(append(bytes.Clone(source[:from]), source[to:]...), "ferry.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r := worked(t, p, Options{})
	if r.Hours.Total.Likely <= 0 || r.Hours.Finish != nil || !strings.Contains(strings.Join(r.Hours.Verdict, " "), "no budget") {
		t.Errorf("%v h, done %v: %v", r.Hours.Total, r.Hours.Finish, r.Hours.Verdict)
	}
	saved, err := p.Marshal()
	if err != nil || bytes.Contains(saved, []byte("hours:")) {
		t.Errorf("hours nobody gave are saved (%v)", err)
	}
}

// YAML takes a bare date for more than text; ours reads it, and what is saved
// reads the same.
func TestStartMayStandWithoutQuotes(t *testing.T) {
	p, err := Parse(bytes.Replace(assets.StarterPlan(), []byte(`"2026-03-01"`), []byte("2026-03-01"), 1), "ferry.yaml")
	if err != nil || p.Hours.Start != "2026-03-01" {
		t.Fatalf("start %v, %v", p, err)
	}
	text, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	if again, err := Parse(text, "ferry.yaml"); err != nil || again.Hours.Start != p.Hours.Start {
		t.Errorf("saved, it reads %v", err)
	}
}

func TestHoursAndTheirRatesAreSavedAsGiven(t *testing.T) {
	p := Starter()
	for path, text := range map[string]string{"hours.rates.wheel_m_per_h": "150, 200, 260", "hours.rates.frame_cm_per_h": "", "hours.shares.combed_inner": "0.5"} {
		if err := SetField(p, path, text); err != nil {
			t.Fatal(err)
		}
	}
	text, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"wheel_m_per_h: [150, 200, 260]", "combed_inner: 0.5", "spindle_m_per_h: [38, 46, 55]", `start: "2026-03-01"`, "# What the work takes"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("saved without %q", want)
		}
	}
	if strings.Contains(string(text), "frame_cm_per_h") {
		t.Error("a rate taken away is saved")
	}
	again, err := Parse(text, "ferry.yaml")
	if err != nil || again.Hours.Own[hours.RateWheel] != (hours.Range{Low: 150, Likely: 200, High: 260}) {
		t.Errorf("read again: %v, %v", again, err)
	}
	c := p.Clone()
	c.Hours.Own[hours.RateComb] = hours.One(5)
	if _, shared := p.Hours.Own[hours.RateComb]; shared {
		t.Error("a clone shares its rates with the plan")
	}
}

// One yarn by spindle and the rest by wheel, in the file and out of it again.
func TestYarnsShareOfSpindleIsReadCheckedAndKept(t *testing.T) {
	text := strings.Replace(string(assets.StarterPlan()), "    spindle: 0.6\n", "    spindle: 0.6\n    spindle_of: {grey-weft: 0} # the weft by wheel\n", 1)
	p, err := Parse([]byte(text), "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r, err := Work(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := taskOf(t, r, "spin:grey-weft:wheel").Quantity; math.Abs(got-r.Reckoning.Yarns[1].LengthM) > 1e-6 {
		t.Errorf("%g m of the weft by wheel, of %g", got, r.Reckoning.Yarns[1].LengthM)
	}
	const path = "hours.shares.spindle_of[grey-warp]"
	if err := SetField(p, path, "0.25"); err != nil || GetField(p, path) != "0.25" {
		t.Errorf("%v, %q", err, GetField(p, path))
	}
	if err := SetField(p, path, "2"); err == nil {
		t.Error("a share of 2 is accepted")
	}
	out, err := p.Marshal()
	if err != nil || !strings.Contains(string(out), "grey-warp: 0.25") || !strings.Contains(string(out), "grey-weft: 0") {
		t.Errorf("%v:\n%s", err, out)
	}
	again, err := Parse(out, "plan.yaml")
	if err != nil || again.Hours.SpindleOf["grey-warp"] != 0.25 || len(again.Hours.SpindleOf) != 2 {
		t.Errorf("read again: %v, %v", again.Hours.SpindleOf, err)
	}
	if c := p.Clone(); true {
		c.Hours.SpindleOf["grey-warp"] = 1
		if p.Hours.SpindleOf["grey-warp"] != 0.25 {
			t.Error("a clone shares the shares")
		}
	}
	_, err = Parse([]byte(strings.Replace(text, "{grey-weft: 0}", "{grey-wefd: 0}", 1)), "plan.yaml")
	if err == nil || !strings.Contains(err.Error(), "did you mean") || !strings.Contains(err.Error(), "plan.yaml:") {
		t.Errorf("a yarn that is not there: %v", err)
	}
}

// Forwards again: with the share found the hours fit, with a hundredth more not.
func TestLargestShareOfTheStarterPlanFits(t *testing.T) {
	at := func(share float64) *Result {
		p, err := Parse(assets.StarterPlan(), "plan.yaml")
		if err != nil {
			t.Fatal(err)
		}
		p.Hours.BudgetH, p.Hours.SpindleShare = 200, share
		r, err := Work(context.Background(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	found := at(1).Hours.Largest[0]
	if found.Key != "spindle" || !found.Fits || found.Share <= 0 || found.Share >= 1 {
		t.Fatalf("found %+v", found)
	}
	if h := at(found.Share).Hours.Total.Likely; h > 200 {
		t.Errorf("at %g it takes %g h", found.Share, h)
	}
	if h := at(found.Share * 1.01).Hours.Total.Likely; h <= 200 {
		t.Errorf("1 %% beyond %g it takes %g h, and fits still", found.Share, h)
	}
}
