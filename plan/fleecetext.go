package plan

import (
	"fmt"
	"strings"

	"ellwand/cloth"
)

type fleeceJSON struct {
	Name       string  `json:"name"`
	RawNeededG float64 `json:"raw_needed_g"`
	RawHaveG   float64 `json:"raw_have_g"`
	Kind       string  `json:"kind"`
	// The coat that sets the need: it runs out first within the lot.
	RunsOutFirst string            `json:"runs_out_first"`
	CoverShare   float64           `json:"in_hand_of_need"` // 1 is just enough
	Parts        []fleecePartJSON  `json:"parts"`
	Stages       []fleeceStageJSON `json:"stages"`
}

type fleecePartJSON struct {
	Coat       string  `json:"coat"`
	NeededG    float64 `json:"prepared_needed_g"`
	RawNeededG float64 `json:"raw_needed_g"`
	HaveG      float64 `json:"prepared_have_g"`
	LeftG      float64 `json:"left_g"`
	NoilG      float64 `json:"noil_g"`
}

type fleeceStageJSON struct {
	Stage string  `json:"stage"`
	Coat  string  `json:"coat"`
	MassG float64 `json:"mass_g"`
}

func fleeceAsJSON(f cloth.FleeceNeed) fleeceJSON {
	out := fleeceJSON{Name: f.Name, RawNeededG: fourth(f.RawNeededG), RawHaveG: fourth(f.RawHaveG), Kind: string(f.Kind),
		RunsOutFirst: string(f.ShortCoat), Parts: []fleecePartJSON{}, Stages: []fleeceStageJSON{}}
	if f.RawNeededG > 0 {
		out.CoverShare = fourth(f.RawHaveG / f.RawNeededG)
	}
	for _, p := range f.Parts {
		out.Parts = append(out.Parts, fleecePartJSON{string(p.Coat), fourth(p.NeededG), fourth(p.RawNeededG), fourth(p.HaveG), fourth(p.LeftG), fourth(p.NoilG)})
	}
	for _, s := range f.Stages {
		out.Stages = append(out.Stages, fleeceStageJSON{s.Key, string(s.Coat), fourth(s.G)})
	}
	return out
}

func (r *Result) writeFleeces(b *strings.Builder, units string) {
	for _, f := range r.Reckoning.Fleeces {
		what := "fleece"
		if f.Kind != cloth.LotFleece {
			what = "lot"
		}
		answer := fmt.Sprintf("yes, the %s is enough: %.0f g raw are needed of %.0f g", what, f.RawNeededG, f.RawHaveG)
		if f.RawNeededG > f.RawHaveG {
			answer = fmt.Sprintf("no, the %s is not enough: %.0f g raw are needed and there are %.0f g, %.0f g too few", what, f.RawNeededG, f.RawHaveG, f.RawNeededG-f.RawHaveG)
		}
		fmt.Fprintf(b, "\n%s %s: %s\n", strings.ToUpper(what[:1])+what[1:], f.Name, answer)
		writeFigures(b, f.Figures, units)
	}
	if text := r.RunsOutFirst(); text != "" {
		fmt.Fprintf(b, "\n%s\n", text)
	}
}

// RunsOutFirst says which part of which lot runs out first, "" when no yarn is
// spun here.
func (r *Result) RunsOutFirst() string {
	f, cover, ok := r.Reckoning.Scarcest()
	if !ok {
		return ""
	}
	if cover < 1 {
		return fmt.Sprintf("First to run out: %s of %s, when %.0f %% of the yarn is spun.", cloth.CoatWords(f.ShortCoat), f.Name, 100*cover)
	}
	return fmt.Sprintf("First to run out, were more made: %s of %s, at %.2f times what this takes.", cloth.CoatWords(f.ShortCoat), f.Name, cover)
}

// plantNotes says what of the lots' working is not in the hours.
func (p *Plan) plantNotes(r cloth.Reckoning) []string {
	var out []string
	for _, f := range r.Fleeces {
		if f.Kind == cloth.LotPlant {
			out = append(out, fmt.Sprintf("The hours for rippling, retting, scutching and hackling %s are not counted, for no rates are known; put your own under hours.other_h.", f.Name))
		}
	}
	return out
}

// kindOf is what a lot is made of; a fleece when it is not said.
func (p *Plan) kindOf(lot string) cloth.LotKind {
	for _, f := range p.Fleeces {
		if f.Name == lot && f.Kind != "" {
			return f.Kind
		}
	}
	return cloth.LotFleece
}
