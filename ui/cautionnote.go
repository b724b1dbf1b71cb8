package ui

import (
	"strings"

	"ellwand/cautions"
	"ellwand/cloth"
	"ellwand/plan"
)

// cautionsOf are the reminders for the work that a panel is about, where the plan
// asks for that work.
func cautionsOf(p *plan.Plan, panel string) []cautions.Stage {
	raw, combed, spun := false, false, false
	for _, l := range p.Fleeces {
		raw = raw || l.Kind == "" || l.Kind == cloth.LotFleece
	}
	for _, y := range p.Yarns {
		for _, part := range y.Parts() {
			spun = true
			combed = combed || part.Coat != cloth.CoatWhole
		}
	}
	var out []cautions.Stage
	add := func(when bool, s ...cautions.Stage) {
		if when {
			out = append(out, s...)
		}
	}
	switch panel {
	case "Fleece":
		add(raw, cautions.RawFleece, cautions.Scouring)
		add(combed, cautions.Combing, cautions.HeatedCombs)
		add(raw || spun, cautions.Carding)
	case "Yarn", "Hours":
		add(spun || panel == "Hours", cautions.LongWork)
	case "Loom":
		add(p.Loom.Kind == cloth.WarpWeighted, cautions.WarpWeighted)
		add(true, cautions.LongWork)
	case "Cloth":
		add(true, cautions.Finishing)
	case "Pieces", "Real cloth":
		add(true, cautions.Cutting)
	}
	return out
}

// cautions adds the reminders of a panel, where the work stands.
func (f *form) cautions(panel string) {
	text := func() string {
		var lines []string
		for _, s := range cautionsOf(f.b.plan(), panel) {
			lines = append(lines, "! "+words("Caution.")+" "+words(cautions.Of(s)))
		}
		return strings.Join(lines, "\n")
	}
	if len(cautionsOf(f.b.plan(), panel)) > 0 || panel == "Loom" {
		f.gap(8)
		f.said(text)
	}
}
