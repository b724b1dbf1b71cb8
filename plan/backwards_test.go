package plan

import (
	"context"
	"math"
	"strings"
	"testing"
)

const plankOfWool = `fleeces: [{name: white, raw_g: 1000, scoured_yield: 0.6, comb_yield: {whole: 0.9}}]
`

func woolPlank(t *testing.T, more string) *Plan {
	return parsed(t, strings.Replace(plankPlan, "tex: 100}", "tex: 100, spin_loss: 0.05, fibre: {lot: white, coat: whole}}", 1)+plankOfWool+more)
}

func backwards(t *testing.T, p *Plan, q Question) Answer {
	t.Helper()
	a, err := Backwards(context.Background(), p, q, Options{Seed: 1, Threads: 1}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// One plank 60 cm wide, nothing lost in weaving, 8 ends and picks a cm in 100
// tex: 240 dents of 2 = 480 ends × (L + 60) cm, 8·L picks × 60 cm, 0.1 g a m.
// 1000 g raw give 1000 × 0.6 × 0.9 × 0.95 = 513 g of yarn: 0.48·(L + 60) +
// 0.48·L = 513 when L = 504.375 cm.
func TestLongestPlankOfAFleeceInClosedForm(t *testing.T) {
	a := backwards(t, woolPlank(t, ""), LongestGarment)
	if !a.Found || a.Is > 504.375 || a.Is < 504.375/1.01 || !strings.Contains(a.Limit, "raw fleece white are needed") {
		t.Fatalf("%+v", a)
	}
	if math.Abs(a.Was-300) > 1e-9 || len(a.Fields) != 1 || a.Fields[0].Path != "pieces[plank].length_cm" || a.Fields[0].Is != a.Is {
		t.Errorf("fields %+v", a.Fields)
	}
}

// Sett n both ways of the same plank of 300 cm, in a loom whose reeds come near
// any sett: 0.06·n·360 ÷ 10 + … = 60·n ends × 3.6 m + 300·n picks × 0.6 m = 396·n
// m × 0.1 g = 513 g when n = 12.95. Ashenhurst lets tabby of 100 tex be 12.48,
// so the weave stops it before the fleece does.
func TestClosestSettStopsAtTheWeaveOrTheFleece(t *testing.T) {
	reeds := func(p *Plan) *Plan {
		p.Loom.ReedsDentsPer10CM = []float64{40, 45, 50, 55, 60, 65, 70}
		return p
	}
	a := backwards(t, reeds(woolPlank(t, "")), ClosestSett)
	if !a.Found || !strings.Contains(a.Limit, "Ashenhurst") {
		t.Fatalf("%+v", a)
	}
	less := reeds(woolPlank(t, ""))
	less.Fleeces[0].RawG = 750 // 384.75 g: n = 9.716
	a = backwards(t, less, ClosestSett)
	if !a.Found || !strings.Contains(a.Limit, "raw fleece white") || math.Abs(a.Is-9.716) > 0.35 {
		t.Fatalf("%+v", a)
	}
	recheck(t, less, a)
}

// recheck works the answer out forwards, and a hundredth more.
func recheck(t *testing.T, p *Plan, a Answer) {
	t.Helper()
	at := p.Clone()
	for _, f := range a.Fields {
		if err := SetField(at, f.Path, plain(f.Is)); err != nil {
			t.Fatal(err)
		}
	}
	at.Lay = a.Plan.Lay
	if r := worked(t, at, Options{KeepLay: true}); len(r.CannotBeMade) > 0 {
		t.Errorf("%s: at the answer %v", a.Question, r.CannotBeMade)
	}
	k, why := p.knobFor(a.Question, a.Result)
	if why != "" {
		t.Fatal(why)
	}
	s := &solve{ctx: context.Background(), p: p, q: a.Question, knob: k, base: a.Result, o: Options{Seed: 1, Threads: 1, KeepLay: true}}
	more, err := s.try(s.more(trial{t: a.Fields[0].Is, size: a.Is}), 0)
	if err != nil || more.why == "" && a.Fields[0].Is != k.most {
		t.Errorf("%s: at %g for %g it can still be made (%v)", a.Question, more.size, a.Is, err)
	}
}

func TestBackwardsAnswersHoldForwardsForTheTunic(t *testing.T) {
	p := Starter()
	p.Lay = nil
	for _, raw := range []float64{2600, 3600} {
		p.Fleeces[0].RawG = raw
		for _, q := range []Question{LongestGarment, FullestHem} {
			a := backwards(t, p, q)
			if !a.Found {
				t.Logf("%g g, %s: %s", raw, q, a.Why)
				continue
			}
			t.Logf("%g g, %s: %s %.1f was %.1f, %v; %s", raw, q, a.Label, a.Is, a.Was, a.Fields, a.Limit)
			recheck(t, p, a)
		}
	}
}

func TestBackwardsSaysWhyThereIsNoAnswer(t *testing.T) {
	p := woolPlank(t, "")
	p.Fleeces[0].RawG = 10
	if a := backwards(t, p, LongestGarment); a.Found || !strings.Contains(a.Why, "Not even the least can be made: ") {
		t.Errorf("%+v", a)
	}
	if a := backwards(t, p, FullestHem); a.Found || !strings.Contains(a.Why, "own pieces") {
		t.Errorf("%+v", a)
	}
	p = Starter()
	p.Draft, p.Params = "coif", map[string]float64{}
	if a := backwards(t, p, LongestGarment); a.Found || !strings.Contains(a.Why, "no measure that makes it longer") {
		t.Errorf("%+v", a)
	}
}

// Bought yarn in hand is a limit as the fleece is.
func TestBackwardsFromYarnInHand(t *testing.T) {
	p := parsed(t, strings.Replace(plankPlan, "tex: 100}", "tex: 100, in_hand_m: 4000}", 1))
	a := backwards(t, p, LongestGarment) // 4.8·(L + 60) + 4.8·L = 4000: L = 386.67
	if !a.Found || a.Is > 386.67 || a.Is < 386.67/1.01 {
		t.Errorf("%+v", a)
	}
}
