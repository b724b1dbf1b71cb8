package ui

import (
	"fmt"
	"slices"
	"strings"

	"ellwand/cloth"
	"ellwand/plan"
)

// Yarn.

func yarnShape(b *bench) string {
	var names []string
	for _, y := range b.plan().Yarns {
		names = append(names, y.Name, fmt.Sprint(len(y.Blend), y.Fleece == ""))
	}
	for _, l := range b.plan().Fleeces {
		names = append(names, l.Name)
	}
	return strings.Join(names, "|")
}

func fillYarn(f *form) {
	for _, y := range f.b.plan().Yarns {
		f.yarn(y.Name)
	}
	f.gap(8)
	f.button("Add a yarn", func() error {
		return f.b.do("add a yarn", func(p *plan.Plan) error {
			name := freshName("yarn", func(n string) bool {
				return slices.ContainsFunc(p.Yarns, func(y cloth.Yarn) bool { return y.Name == n })
			})
			p.Yarns = append(p.Yarns, cloth.Yarn{Name: name, Tex: 100, Plies: 1, Twist: "Z", Coat: cloth.CoatWhole})
			return nil
		})
	})
}

func (f *form) yarn(name string) {
	under := "yarns[" + name + "]."
	f.heading(name)
	title := f.plain(under+"name", "Name", "")
	title.set = func(text string) error { return f.b.do("rename "+name, renameYarn(name, text)) }
	f.put(title)
	for _, key := range []string{"tex", "plies", "twist", "spin_loss", "in_hand_m"} {
		f.field(under + key)
	}
	lot := f.plain(under+"fibre.lot", "Spun from fleece", "")
	lot.options = []option{{"", "none: bought"}}
	for _, l := range f.b.plan().Fleeces {
		lot.options = append(lot.options, option{l.Name, l.Name})
	}
	lot.set = f.fitting(under+"fibre.lot", "lot")
	f.put(lot)
	f.field(under + "fibre.coat")
	f.blend(name)
	f.said(func() string { return yarnNeed(f.b.shown, name) })
	f.button("Remove this yarn", func() error {
		return f.b.do("remove "+name, func(p *plan.Plan) error {
			p.Yarns = slices.DeleteFunc(p.Yarns, func(y cloth.Yarn) bool { return y.Name == name })
			delete(p.Hours.SpindleOf, name)
			return nil
		})
	})
}

func yarnNeed(r *plan.Result, name string) string {
	if r != nil {
		for _, y := range r.Reckoning.Yarns {
			if y.Name == name {
				return words("Needed: %.0f m, %.0f g", y.LengthM, y.MassG)
			}
		}
	}
	return words("Not used in this cloth.")
}

// renameYarn gives a yarn another name everywhere in the plan.
func renameYarn(from, to string) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		if err := plan.SetField(p, "yarns["+from+"].name", to); err != nil {
			return err
		}
		for _, use := range []*string{&p.WarpYarn, &p.WeftYarn} {
			if *use == from {
				*use = to
			}
		}
		p.RenameInHours(from, to)
		return nil
	}
}

// Loom.

func fillLoom(f *form) {
	for _, key := range []string{"name", "max_reed_width_cm", "waste_cm", "max_warp_m", "reeds_dents_per_10cm"} {
		f.field("loom." + key)
	}
	f.note("Several reeds are written with commas between: 30, 40, 50.")
	f.heading("On this loom")
	f.said(func() string {
		if f.b.shown == nil {
			return words("Nothing is worked out yet.")
		}
		r, u := f.b.shown.Reckoning, f.b.plan().ShowUnits
		return words("Reed: %g dents per 10 cm\nDents: %d\nEnds: %d\nWidth in the reed: %s\nWarp, each end: %.2f m\nWarps: %d",
			r.ReedDentsPer10CM, r.Dents, r.Ends, length(r.ReedWidthCM, u), r.WarpLengthCM/100, r.Warps)
	})
}

// Cloth.

func clothShape(b *bench) string {
	return yarnShape(b) + samplesShape(b) + matchingShape(b)
}

func fillCloth(f *form) {
	weave := f.plain("cloth.weave", "Weave", "")
	for _, w := range cloth.Weaves() {
		weave.options = append(weave.options, option{w.Name, w.Name})
	}
	f.put(weave)
	f.field("cloth.finished_width_cm")
	for _, use := range []struct{ key, label string }{{"warp", "Warp yarn"}, {"weft", "Weft yarn"}} {
		spec := f.plain("cloth."+use.key, use.label, "")
		for _, y := range f.b.plan().Yarns {
			spec.options = append(spec.options, option{y.Name, y.Name})
		}
		f.put(spec)
	}
	f.heading("Thread count and faces")
	for _, key := range []string{"finished_ends_per_cm", "finished_picks_per_cm", "nap", "two_faced"} {
		f.field("cloth." + key)
	}
	f.heading("What it loses")
	f.note("Each as a fraction of the earlier state: 0.08 is eight parts in a hundred.")
	for _, key := range []string{"take_up", "draw_in", "shrink_length", "shrink_width"} {
		f.loss(key)
	}
	for _, key := range []string{"weft_crimp", "weft_turn_cm"} {
		f.field("cloth." + key)
	}
	f.heading("Reed and warp")
	for _, key := range []string{"reed_dents_per_10cm", "dent_order", "selvedge_extra_ends", "sample_cm", "heading_cm"} {
		f.field("cloth." + key)
	}
	f.matching()
	f.samples()
	f.heading("Cutting")
	f.field("cutting.gap_cm")
	f.heading("As it will be")
	f.said(func() string {
		if f.b.shown == nil {
			return words("Nothing is worked out yet.")
		}
		r, u := f.b.shown.Reckoning, f.b.plan().ShowUnits
		return words("Finished: %s × %s\nOff the loom: %s × %s\nEnds per cm: %.2f\nPicks per cm: %.2f\nMass: %.0f g/m²",
			length(r.FinishedWidthCM, u), length(r.FinishedLengthCM, u), length(r.OffLoomWidthCM, u), length(r.OffLoomLengthCM, u),
			r.EndsPerCMFinished, r.PicksPerCMFinished, r.MassGPerM2)
	})
}

// renameFleece gives a lot another name everywhere in the plan.
func renameFleece(from, to string) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		if err := plan.SetField(p, "fleeces["+from+"].name", to); err != nil {
			return err
		}
		for i := range p.Yarns {
			if p.Yarns[i].Fleece == from {
				p.Yarns[i].Fleece = to
			}
			for k := range p.Yarns[i].Blend {
				if p.Yarns[i].Blend[k].Lot == from {
					p.Yarns[i].Blend[k].Lot = to
				}
			}
		}
		return nil
	}
}
