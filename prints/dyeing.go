package prints

import (
	"fmt"
	"strings"

	"ellwand/cautions"
	"ellwand/cloth"
	"ellwand/paper"
)

// dyeing is a card for each dyeing: what the plan weighs out for it, and its
// cautions. How to dye is no part of it.
func (m *maker) dyeing() []paper.Sheet {
	var out []paper.Sheet
	for _, d := range m.r.Dyes {
		if d.FibreG > 0 {
			out = append(out, m.dye(d))
		}
	}
	return out
}

func (m *maker) dye(d cloth.DyeNeed) paper.Sheet {
	what := "the whole cloth"
	if d.Stage != cloth.DyeCloth {
		what = fmt.Sprintf("%s, as %s", d.Of, d.Stage)
	}
	facts := paper.Facts{{Label: "Dye", Value: grams(d.FibreG) + " of fibre, dry", From: what}}
	for _, w := range []struct {
		label, name string
		g, percent  float64
	}{{"Mordant", d.Mordant, d.MordantG, d.MordantPercent}, {"Assistant", d.Assistant, d.AssistantG, d.AssistantPercent}, {"Dyestuff", d.Dyestuff, d.DyestuffG, d.DyestuffPercent}} {
		if w.g > 0 {
			facts = append(facts, paper.Fact{Label: w.label, Value: strings.TrimSpace(number(w.g, 1) + " g " + w.name), From: fmt.Sprintf("%s %% of the weight of fibre", number(w.percent, 2))})
		}
	}
	if d.Colour != "" {
		facts = append(facts, paper.Fact{Label: "Colour wanted", Value: d.Colour})
	}
	all := []any{facts}
	for _, c := range d.Cautions {
		all = append(all, paper.Caution(c))
	}
	all = append(all, caution(cautions.HeatedCombs))
	all = append(all, m.time("dye:"+d.Name), paper.Steps{
		"Weigh the fibre dry, and what goes with it; write down what was really taken.",
		"Dye a small skein or a piece first and let it dry: the colour of the wet is not that of the dry.",
		"Dye all that is to match in one bath, and keep a little of each with its amounts.",
	})
	return m.card("Dyeing: "+d.Name, what, blocks(all...)...)
}
