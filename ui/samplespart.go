package ui

import (
	"fmt"
	"slices"
	"strings"

	"ellwand/cloth"
	"ellwand/plan"
)

// samplesShape changes when the cloth panel needs other fields for samples.
func samplesShape(b *bench) string {
	var parts []string
	for _, s := range b.plan().Samples {
		parts = append(parts, s.Name)
	}
	if b.shown != nil && b.shown.Holding != nil {
		h := b.shown.Holding
		parts = append(parts, fmt.Sprint(h.BothChance < h.Chance && h.Reached))
	}
	return strings.Join(parts, "|")
}

// loss is a loss of the cloth; left empty, the samples say it.
func (f *form) loss(key string) {
	info, ok := plan.Field(f.b.plan(), "cloth."+key)
	if !ok {
		return
	}
	spec := f.plain("cloth."+key, info.Label, "")
	spec.hint = func() string {
		if s := cloth.LossSpread(f.b.plan().Samples, cloth.Loss(key)); s.N > 0 {
			return fmt.Sprintf("≈ %.3f", s.Mean)
		}
		return ""
	}
	f.put(spec)
}

// samples is the part of the cloth panel about samples and what they tell.
func (f *form) samples() {
	f.heading("Samples")
	f.note("Each measured on the loom, off the loom and finished, between the same marks, and weighed. A loss left empty above is taken from them.")
	f.said(func() string { return strings.Join(f.b.plan().SampleLines(), "\n") })
	for _, s := range f.b.plan().Samples {
		f.sample(s.Name)
	}
	f.button("Add a sample", func() error {
		return f.b.do("add a sample", func(p *plan.Plan) error {
			p.Samples = append(p.Samples, cloth.Sample{Name: freshName("sample", func(n string) bool {
				return slices.ContainsFunc(p.Samples, func(s cloth.Sample) bool { return s.Name == n })
			})})
			return nil
		})
	})
	f.heading("Will the cloth hold the lay?")
	f.said(func() string {
		if f.b.shown == nil {
			return words("Nothing is worked out yet.")
		}
		if f.b.shown.Holding == nil {
			return words("The cloth is there already: see Real cloth.")
		}
		lines := plan.HoldingLines(f.b.shown.Holding)
		if h := f.b.shown.Holding; h.BothChance < h.Chance {
			lines[0] = "! " + lines[0]
		}
		return strings.Join(lines, "\n")
	})
	if r := f.b.shown; r != nil && r.Holding != nil && r.Holding.BothChance < r.Holding.Chance && r.Holding.Reached {
		f.button("Weave that much to spare", f.b.weaveToSpare)
	}
	for _, key := range []string{"cloth.extra_dents", "cloth.extra_length_cm", "simulation.chance", "simulation.spread", "simulation.seed", "simulation.trials"} {
		f.field(key)
	}
	f.heading("How to make a sample")
	f.said(func() string {
		var lines []string
		for i, s := range f.b.plan().SampleSteps() {
			lines = append(lines, fmt.Sprintf("%d. %s", i+1, s))
		}
		return strings.Join(lines, "\n")
	})
}

// weaveToSpare puts what is missing for the chance wanted into the plan.
func (b *bench) weaveToSpare() error {
	if b.shown == nil || b.shown.Holding == nil {
		return nil
	}
	h := *b.shown.Holding
	return b.do("weave to spare", func(p *plan.Plan) error {
		p.Cloth.ExtraDents += h.ExtraDents
		p.Cloth.ExtraLengthCM = float64(int((p.Cloth.ExtraLengthCM+h.ExtraLengthCM)*10+1)) / 10 // up to the next mm
		return nil
	})
}

func (f *form) sample(name string) {
	under := "samples[" + name + "]."
	f.gap(4)
	for _, key := range []string{"name", "on_loom_length_cm", "on_loom_width_cm", "off_loom_length_cm", "off_loom_width_cm", "finished_length_cm", "finished_width_cm", "mass_g"} {
		f.field(under + key)
	}
	f.button("Remove "+name, func() error {
		return f.b.do("remove "+name, func(p *plan.Plan) error {
			p.Samples = slices.DeleteFunc(p.Samples, func(s cloth.Sample) bool { return s.Name == name })
			return nil
		})
	})
}
