package ui

import (
	"slices"
	"strings"

	"ellwand/plan"
)

func choicesShape(b *bench) string {
	var names []string
	for _, c := range b.plan().Choices {
		names = append(names, c.Component)
	}
	return strings.Join(names, "|")
}

func fillChoices(f *form) {
	f.note("For each part of the making (fibre, its preparation, spinning tool, twist, dye, loom, weave, thread count, cut, seams, finish): what is known, on what evidence, what will be done, and why. Each stands alone.")
	for _, c := range f.b.plan().Choices {
		f.choice(c.Component)
	}
	if len(f.b.plan().Choices) == 0 {
		f.said(func() string { return "There is no choice written down yet." })
	}
	f.gap(8)
	f.button("Add a choice", func() error {
		return f.b.do("add a choice", func(p *plan.Plan) error {
			name := freshName("choice", func(n string) bool {
				return slices.ContainsFunc(p.Choices, func(c plan.Choice) bool { return c.Component == n })
			})
			p.Choices = append(p.Choices, plan.Choice{Component: name})
			return nil
		})
	})
}

func (f *form) choice(component string) {
	under := "choices[" + component + "]."
	f.heading(component)
	f.put(f.plain(under+"component", "Component", ""))
	for _, line := range []struct {
		key, label string
		long       bool
	}{
		{"known", "What is known", true}, {"kind_of_evidence", "Kind of evidence, in plain words", false}, {"evidence", "On what evidence", true},
		{"reference", "Reference: who, what, when", true}, {"page", "Page", false}, {"done", "What will be done", true}, {"why", "Why", true},
	} {
		spec := f.plain(under+line.key, line.label, "")
		spec.long = line.long
		if line.key == "kind_of_evidence" {
			spec.hint = func() string { return strings.Join(plan.KindsOfEvidence()[:3], ", ") + " …" }
		}
		f.put(spec)
	}
	f.button("Remove this choice", func() error {
		return f.b.do("remove "+component, func(p *plan.Plan) error {
			p.Choices = slices.DeleteFunc(p.Choices, func(c plan.Choice) bool { return c.Component == component })
			return nil
		})
	})
}
