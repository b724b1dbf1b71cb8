package plan

import (
	"fmt"
	"math"
	"strings"

	"ellwand/cloth"
)

type samplesJSON struct {
	Count       int          `json:"count"`
	Losses      []lossJSON   `json:"losses"`
	MassGPerM2  spreadJSON   `json:"mass_g_per_m2"`
	Each        []sampleJSON `json:"each"`
	ToMake      *toMakeJSON  `json:"to_make,omitempty"`
	HowToMakeIt []string     `json:"how_to_make_it"`
}

type spreadJSON struct {
	Samples int     `json:"samples"`
	Mean    float64 `json:"mean"`
	Spread  float64 `json:"spread"` // standard deviation, n − 1
}

type lossJSON struct {
	Loss string `json:"loss"`
	spreadJSON
	Used float64 `json:"used"`
	From string  `json:"from"` // "plan", "samples" or "nothing"
}

type sampleJSON struct {
	Name         string   `json:"name"`
	TakeUp       *float64 `json:"take_up,omitempty"`
	DrawIn       *float64 `json:"draw_in,omitempty"`
	ShrinkLength *float64 `json:"shrink_length,omitempty"`
	ShrinkWidth  *float64 `json:"shrink_width,omitempty"`
	MassGPerM2   *float64 `json:"mass_g_per_m2,omitempty"`
}

type toMakeJSON struct {
	FinishedWidthCM  float64 `json:"finished_width_cm"`
	FinishedLengthCM float64 `json:"finished_length_cm"`
	ReedWidthCM      float64 `json:"reed_width_cm"`
	WovenCM          float64 `json:"woven_cm"`
	WarpLengthCM     float64 `json:"warp_length_cm"`
	Dents            int     `json:"dents"`
	Ends             int     `json:"ends"`
	Picks            int     `json:"picks"`
	YarnM            float64 `json:"yarn_m"`
	YarnG            float64 `json:"yarn_g"`
}

type holdingJSON struct {
	Chance       float64 `json:"chance"`
	ChanceWidth  float64 `json:"chance_width"`
	ChanceLength float64 `json:"chance_length"`
	Wanted       float64 `json:"wanted"`
	NeedWidthCM  float64 `json:"need_width_cm"`
	NeedLengthCM float64 `json:"need_length_cm"`
	ExtraDents   int     `json:"extra_dents"`
	ExtraWidthCM float64 `json:"extra_width_cm"`
	// Finished, and the same under tension.
	ExtraLengthCM float64  `json:"extra_length_cm"`
	ExtraWovenCM  float64  `json:"extra_woven_cm"`
	ChanceThen    float64  `json:"chance_then"`
	Seed          int      `json:"seed"`
	Trials        int      `json:"trials"`
	Width         keptJSON `json:"width"`
	Length        keptJSON `json:"length"`
}

type keptJSON struct {
	Spread  float64 `json:"spread"` // of ln (finished ÷ on the loom), for a cloth to come
	Degrees int     `json:"degrees"`
	Samples int     `json:"samples"`
	Rule    string  `json:"rule"`
}

// eighth rounds a part of a whole, of which the ten-thousandth is too coarse.
func eighth(v float64) float64 { return math.Round(v*1e8) / 1e8 }

func eighthOf(v float64, ok bool) *float64 {
	if !ok {
		return nil
	}
	v = eighth(v)
	return &v
}

func spreadAsJSON(s cloth.Spread) spreadJSON {
	return spreadJSON{s.N, eighth(s.Mean), eighth(s.SD)}
}

func (p *Plan) samplesAsJSON() samplesJSON {
	out := samplesJSON{Count: len(p.Samples), Losses: []lossJSON{}, MassGPerM2: spreadAsJSON(cloth.MassSpread(p.Samples)), Each: []sampleJSON{}, HowToMakeIt: []string{}}
	used := p.setting()
	for _, l := range cloth.Losses() {
		out.Losses = append(out.Losses, lossJSON{string(l), spreadAsJSON(cloth.LossSpread(p.Samples, l)), eighth(*used.At(l)), p.lossFrom(l)})
	}
	for _, s := range p.Samples {
		at := func(l cloth.Loss) *float64 { return eighthOf(s.Loss(l)) }
		out.Each = append(out.Each, sampleJSON{s.Name, at(cloth.LossTakeUp), at(cloth.LossDrawIn), at(cloth.LossShrinkLength), at(cloth.LossShrinkWidth), eighthOf(s.MassGPerM2())})
	}
	if m, ok := p.sampleToMake(); ok {
		out.ToMake = &toMakeJSON{fourth(m.FinishedWidthCM), fourth(m.FinishedLengthCM), fourth(m.ReedWidthCM), fourth(m.WovenCM), fourth(m.WarpLengthCM), m.Dents, m.Ends, m.Picks, fourth(m.YarnM), fourth(m.YarnG)}
		out.HowToMakeIt = m.How
	}
	return out
}

// lossFrom says what a loss rests on.
func (p *Plan) lossFrom(l cloth.Loss) string {
	switch {
	case p.losesAsFixed(l):
		return "plan"
	case cloth.LossSpread(p.Samples, l).N > 0:
		return "samples"
	}
	return "nothing"
}

func holdingAsJSON(h *cloth.Holding) *holdingJSON {
	if h == nil {
		return nil
	}
	kept := func(k cloth.Kept) keptJSON { return keptJSON{eighth(k.Scale), k.DF, k.Samples, k.Rule} }
	return &holdingJSON{fourth(h.BothChance), fourth(h.WidthChance), fourth(h.LengthChance), h.Chance, fourth(h.NeedWidthCM), fourth(h.NeedLengthCM),
		h.ExtraDents, fourth(h.ExtraWidthCM), fourth(h.ExtraLengthCM), fourth(h.ExtraWovenCM), fourth(h.ChanceThen), h.Seed, h.Trials, kept(h.Width), kept(h.Length)}
}

func lossWords(l cloth.Loss) string {
	return map[cloth.Loss]string{cloth.LossTakeUp: "Take-up", cloth.LossDrawIn: "Draw-in", cloth.LossShrinkLength: "Shrinkage in length", cloth.LossShrinkWidth: "Shrinkage in width"}[l]
}

// SampleLines is what the samples say of each loss, and what is used, in words.
func (p *Plan) SampleLines() []string {
	var out []string
	used := p.setting()
	for _, l := range cloth.Losses() {
		s := cloth.LossSpread(p.Samples, l)
		line := lossWords(l) + ": "
		switch s.N {
		case 0:
			line += "no sample tells it"
		case 1:
			line += fmt.Sprintf("%.4f from one sample, which tells no spread", s.Mean)
		default:
			line += fmt.Sprintf("%.4f, spread %.4f, from %d samples", s.Mean, s.SD, s.N)
		}
		switch p.lossFrom(l) {
		case "plan":
			line += fmt.Sprintf("; the plan fixes it at %.4g", *used.At(l))
		case "nothing":
			line += "; counted as 0"
		default:
			line += "; this is used"
		}
		out = append(out, line)
	}
	switch m := cloth.MassSpread(p.Samples); {
	case m.N == 1:
		out = append(out, fmt.Sprintf("Mass: %.0f g/m² from one sample", m.Mean))
	case m.N > 1:
		out = append(out, fmt.Sprintf("Mass: %.0f g/m², spread %.0f, from %d samples", m.Mean, m.SD, m.N))
	}
	return out
}

// HoldingLines is the chance that the cloth holds the lay, and what more would
// bring it to the chance wanted, in sentences.
func HoldingLines(h *cloth.Holding) []string {
	if h == nil {
		return nil
	}
	out := []string{fmt.Sprintf("The cloth woven to plan holds the lay (%.1f × %.1f cm) in %.1f of 100 cloths: wide enough in %.1f, long enough in %.1f.",
		h.NeedWidthCM, h.NeedLengthCM, 100*h.BothChance, 100*h.WidthChance, 100*h.LengthChance)}
	switch {
	case h.BothChance >= h.Chance:
		out = append(out, fmt.Sprintf("That is the %.4g of 100 wanted, or more: nothing need be added.", 100*h.Chance))
	case h.Reached:
		out = append(out, fmt.Sprintf("For %.4g of 100, put %d more dents in the reed (about %.1f cm finished) and weave %.1f cm longer under tension (about %.1f cm finished): then %.1f of 100 hold it.",
			100*h.Chance, h.ExtraDents, h.ExtraWidthCM, h.ExtraWovenCM, h.ExtraLengthCM, 100*h.ChanceThen))
	default:
		out = append(out, fmt.Sprintf("Nothing that could be added brings it to %.4g of 100: the spread is too wide; weave samples.", 100*h.Chance))
	}
	return append(out, "Width: "+h.Width.Rule+".", "Length: "+h.Length.Rule+".",
		fmt.Sprintf("%d cloths woven in trial with seed %d, width and length taken to differ independently; without other knowledge half of all cloths come out shorter than planned.", h.Trials, h.Seed))
}

func (r *Result) writeSamples(b *strings.Builder) {
	b.WriteString("\nSamples and what they tell\n")
	for _, l := range append(r.plan.SampleLines(), HoldingLines(r.Holding)...) {
		fmt.Fprintf(b, "  %s\n", l)
	}
	if len(r.plan.Samples) >= 3 {
		return
	}
	if m, ok := r.plan.sampleToMake(); ok {
		b.WriteString("  How to make a sample:\n")
		for i, s := range m.How {
			fmt.Fprintf(b, "    %d. %s\n", i+1, s)
		}
	}
}

// SampleSteps is how to make a sample of the cloth, in sentences; none when
// the cloth cannot be worked out.
func (p *Plan) SampleSteps() []string {
	m, _ := p.sampleToMake()
	return m.How
}
