package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/widget"

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
	f.usualParts()
	f.button("Add a choice", func() error {
		name := freshName("choice", func(n string) bool { return hasChoice(f.b.plan(), n) })
		return f.addChoice(name)
	})
}

func hasChoice(p *plan.Plan, component string) bool {
	return slices.ContainsFunc(p.Choices, func(c plan.Choice) bool { return c.Component == component })
}

func (f *form) addChoice(component string) error {
	return f.b.do("add a choice", func(p *plan.Plan) error {
		p.Choices = append(p.Choices, plan.Choice{Component: component})
		return nil
	})
}

// usualParts offers the parts of a making that nothing is written down for yet.
func (f *form) usualParts() {
	var left []string
	for _, c := range plan.Components() {
		if !hasChoice(f.b.plan(), c) {
			left = append(left, c)
		}
	}
	if len(left) == 0 {
		return
	}
	pick := widget.NewSelect(left, func(component string) {
		if err := f.addChoice(component); err != nil {
			f.fault(err)
		}
	})
	pick.PlaceHolder = words("Write down another part…")
	f.add(pick)
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
