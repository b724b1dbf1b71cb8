package ui

import (
	"slices"
	"strings"

	"ellwand/cloth"
	"ellwand/plan"
)

// dyeing adds the plan's dyeings to the form.
func (f *form) dyeing() {
	f.heading("Dyeing")
	f.note("What is dyed is from then on a lot of its own, under its name: a dyed yarn can be warp, weft or stripe, a yarn can be spun from a dyed fleece. Amounts are per cent of the weight of fibre.")
	for _, d := range f.b.plan().Dyes {
		f.dye(d.Name)
	}
	f.gap(4)
	f.button("Add a dyeing", func() error {
		return f.b.do("add a dyeing", func(p *plan.Plan) error {
			name := freshName("dyed", func(n string) bool {
				return slices.ContainsFunc(p.AllYarns(), func(y cloth.Yarn) bool { return y.Name == n }) ||
					slices.ContainsFunc(p.Dyes, func(d cloth.Dye) bool { return d.Name == n })
			})
			p.Dyes = append(p.Dyes, cloth.Dye{Name: name, Stage: cloth.DyeYarn, Of: p.WeftYarn})
			return nil
		})
	})
}

func (f *form) dye(name string) {
	under := "dyes[" + name + "]."
	f.heading(name)
	f.said(func() string { return dyeAnswer(f.b.shown, name) })
	title := f.plain(under+"name", "Name of the dyed lot", "")
	title.set = func(text string) error { return f.b.do("rename "+name, renameDye(name, text)) }
	f.put(title)
	stage := f.plain(under+"stage", "Dyed as", "")
	for _, s := range cloth.DyeStages() {
		stage.options = append(stage.options, option{string(s), string(s)})
	}
	stage.set = func(text string) error { return f.b.do("stage of "+name, dyeStage(name, cloth.DyeStage(text))) }
	f.put(stage)
	of := f.plain(under+"of", "What is dyed", "")
	for _, o := range dyeable(f.b.plan(), name) {
		of.options = append(of.options, option{o, o})
	}
	if len(of.options) > 0 {
		f.put(of)
	}
	for _, key := range []string{"mordant", "mordant_percent", "assistant", "assistant_percent", "dyestuff", "dyestuff_percent", "colour"} {
		f.field(under + key)
	}
	f.button("Remove this dyeing", func() error {
		return f.b.do("remove "+name, func(p *plan.Plan) error {
			p.Dyes = slices.DeleteFunc(p.Dyes, func(d cloth.Dye) bool { return d.Name == name })
			return nil
		})
	})
}

// dyeAnswer is what a dyeing takes, and its cautions.
func dyeAnswer(r *plan.Result, name string) string {
	if r != nil {
		for _, d := range r.Dyes {
			if d.Name == name {
				return plan.DyeText(d) + "\nCaution: " + strings.Join(d.Cautions, "\nCaution: ")
			}
		}
	}
	return words("Nothing is worked out yet.")
}

// dyeable is what a dyeing can be of: yarns or fleeces, and what is dyed before it.
func dyeable(p *plan.Plan, name string) []string {
	var yarns, lots []string
	for _, y := range p.Yarns {
		yarns = append(yarns, y.Name)
	}
	for _, f := range p.Fleeces {
		lots = append(lots, f.Name)
	}
	for _, d := range p.Dyes {
		switch {
		case d.Name == name && d.Stage == cloth.DyeYarn:
			return yarns
		case d.Name == name && d.Stage == cloth.DyeFleece:
			return lots
		case d.Name == name:
			return nil
		case d.Stage == cloth.DyeYarn:
			yarns = append(yarns, d.Name)
		case d.Stage == cloth.DyeFleece:
			lots = append(lots, d.Name)
		}
	}
	return nil
}

// dyeStage dyes something else under the same name: the first that can be.
func dyeStage(name string, stage cloth.DyeStage) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		for i := range p.Dyes {
			if p.Dyes[i].Name != name {
				continue
			}
			p.Dyes[i].Stage, p.Dyes[i].Of = stage, ""
			if of := dyeable(p, name); len(of) > 0 {
				p.Dyes[i].Of = of[0]
			}
		}
		return nil
	}
}

// renameDye gives a dyed lot another name everywhere in the plan.
func renameDye(from, to string) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		stage := cloth.DyeStage("")
		for _, d := range p.Dyes {
			if d.Name == from {
				stage = d.Stage
			}
		}
		if err := plan.SetField(p, "dyes["+from+"].name", to); err != nil {
			return err
		}
		for i := range p.Dyes {
			if p.Dyes[i].Of == from && p.Dyes[i].Stage == stage {
				p.Dyes[i].Of = to
			}
		}
		c := &p.Cloth
		switch stage {
		case cloth.DyeFleece:
			renameFibre(p, from, to)
		case cloth.DyeYarn:
			for _, use := range []*string{&p.WarpYarn, &p.WeftYarn, &c.SelvedgeYarn, &c.HeadingYarn} {
				if *use == from {
					*use = to
				}
			}
			for _, order := range [][]cloth.Stripe{c.WarpOrder, c.WeftOrder} {
				for i := range order {
					if order[i].Yarn == from {
						order[i].Yarn = to
					}
				}
			}
		}
		return nil
	}
}

// lotOptions are the lots that a yarn can be spun of, the dyed ones too.
func lotOptions(p *plan.Plan) []option {
	var out []option
	for _, l := range p.Fleeces {
		out = append(out, option{l.Name, l.Name})
	}
	for _, d := range p.Dyes {
		if d.Stage == cloth.DyeFleece {
			out = append(out, option{d.Name, d.Name})
		}
	}
	return out
}
