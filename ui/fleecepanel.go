package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"ellwand/cloth"
	"ellwand/plan"
)

func fleeceShape(b *bench) string {
	var parts []string
	for _, l := range b.plan().Fleeces {
		parts = append(parts, l.Name, string(l.Kind))
	}
	return strings.Join(append(parts, b.backShape()), "|")
}

func fillFleece(f *form) {
	f.backwards()
	for _, l := range f.b.plan().Fleeces {
		f.fleece(l.Name, l.Kind)
	}
	if len(f.b.plan().Fleeces) == 0 {
		f.said(func() string { return "There is no fleece in this plan: all yarn is bought." })
	}
	f.gap(8)
	for _, add := range []struct {
		label, name string
		kind        cloth.LotKind
	}{{"Add a fleece", "fleece", cloth.LotFleece}, {"Add a plant's fibre", "flax", cloth.LotPlant}, {"Add fibre bought ready to spin", "top", cloth.LotPrepared}} {
		f.button(add.label, func() error {
			return f.b.do(strings.ToLower(add.label), func(p *plan.Plan) error {
				l := plan.NewLot(freshName(add.name, func(n string) bool {
					return slices.ContainsFunc(p.Fleeces, func(l cloth.Fleece) bool { return l.Name == n })
				}), 1000)
				l.Kind = add.kind
				p.Fleeces = append(p.Fleeces, l)
				return nil
			})
		})
	}
}

// lotKeys are the fields of a lot beside its name, by what it is.
func lotKeys(kind cloth.LotKind) []string {
	switch kind {
	case cloth.LotPlant:
		return []string{"plant.rippled_yield", "plant.retted_yield", "plant.scutched_yield", "plant.hackled_yield", "plant.tow_yield", "regain"}
	case cloth.LotPrepared:
		return []string{"regain"}
	}
	return []string{"skirting_loss", "scoured_yield", "separation_loss", "outer_share",
		"comb_yield.outer", "comb_noil.outer", "comb_yield.inner", "comb_noil.inner", "comb_yield.whole", "comb_noil.whole", "regain"}
}

func (f *form) fleece(name string, kind cloth.LotKind) {
	under := "fleeces[" + name + "]."
	f.heading(name)
	f.said(func() string { return fleeceAnswer(f.b.shown, name) })
	f.bars(func() []barRow { return fleeceFlow(f.b.shown, name) })
	title := f.plain(under+"name", "Name", "")
	title.set = func(text string) error { return f.b.do("rename "+name, renameFleece(name, text)) }
	f.put(title)
	what := f.plain(under+"kind", "What it is", "")
	what.options = []option{{string(cloth.LotFleece), "a fleece"}, {string(cloth.LotPlant), "a plant"}, {string(cloth.LotPrepared), "bought ready to spin"}}
	what.set = f.fitting(under+"kind", "kind of lot")
	f.put(what)
	f.field(under + "raw_g")
	f.note("Losses and shares are fractions of the step before: 0.12 is twelve parts in a hundred.")
	for _, key := range lotKeys(kind) {
		f.field(under + key)
	}
	if kind == cloth.LotPlant {
		f.note("The yields at first are those of " + cloth.PlantSource + ".")
	}
	f.button("Remove "+name, func() error {
		return f.b.do("remove "+name, func(p *plan.Plan) error {
			p.Fleeces = slices.DeleteFunc(p.Fleeces, func(l cloth.Fleece) bool { return l.Name == name })
			return nil
		})
	})
}

// lotNeed is what the cloth takes of a lot; false when it takes none.
func lotNeed(r *plan.Result, name string) (cloth.FleeceNeed, bool) {
	if r != nil {
		for _, l := range r.Reckoning.Fleeces {
			if l.Name == name {
				return l, true
			}
		}
	}
	return cloth.FleeceNeed{}, false
}

// fleeceAnswer says whether a lot is enough, and what runs out first.
func fleeceAnswer(r *plan.Result, name string) string {
	l, ok := lotNeed(r, name)
	if !ok {
		return words("Not used in this cloth.")
	}
	text := words("Enough: %.0f g raw are needed of %.0f g in hand.", l.RawNeededG, l.RawHaveG)
	if l.RawNeededG > l.RawHaveG {
		text = words("! Not enough: %.0f g raw are needed, %.0f g are in hand, %.0f g too few.", l.RawNeededG, l.RawHaveG, l.RawNeededG-l.RawHaveG)
	}
	text += words(" It is %s that runs out first.", cloth.CoatWords(l.ShortCoat))
	for _, part := range l.Parts {
		if part.LeftG > 0 || part.NoilG > 0 {
			text += words(" Left of %s: %.0f g prepared", cloth.CoatWords(part.Coat), part.LeftG)
			if part.NoilG > 0 {
				text += words(", %.0f g noil", part.NoilG)
			}
			text += "."
		}
	}
	return text
}

// coatColour tells two coats apart; their names stand beside.
func coatColour(c cloth.Coat) fyne.ThemeColorName {
	switch c {
	case cloth.CoatInner, cloth.CoatTow:
		return theme.ColorNameWarning
	}
	return theme.ColorNamePrimary
}

// fleeceFlow is a lot from raw to yarn: a bar for each step, as long as what is
// left of the raw lot in hand; the mark on the first is what is needed of it.
func fleeceFlow(r *plan.Result, name string) []barRow {
	l, ok := lotNeed(r, name)
	if !ok || l.RawHaveG <= 0 && l.RawNeededG <= 0 {
		return nil
	}
	full := max(l.RawHaveG, min(l.RawNeededG, 4*l.RawHaveG+1))
	var rows []barRow
	for _, s := range l.Stages {
		if s.Coat != "" || s.Key == "parted" { // the parted coats have a bar of their own
			continue
		}
		row := barRow{name: s.Name, value: fmt.Sprintf("%.0f g", s.G), full: full, linked: len(rows) > 0,
			segments: []barSegment{{"", s.G, theme.ColorNamePlaceHolder}}}
		if s.Key == "raw" {
			row.mark, row.name = min(l.RawNeededG, full), words("raw (the mark is the %.0f g needed)", l.RawNeededG)
		}
		rows = append(rows, row)
	}
	parted := barRow{name: "coats parted", full: full, linked: true}
	sum := 0.0
	for _, s := range l.Stages {
		if s.Key == "separated" {
			parted.segments = append(parted.segments, barSegment{fmt.Sprintf("%s %.0f g", s.Coat, s.G), s.G, coatColour(s.Coat)})
			sum += s.G
		}
	}
	if parted.value = fmt.Sprintf("%.0f g", sum); sum > 0 {
		rows = append(rows, parted)
	}
	return append(rows, preparedRow(l, full), yarnRow(r, name, full))
}

// preparedRow is the prepared fibre: for the yarns, left over, and noil.
func preparedRow(l cloth.FleeceNeed, full float64) barRow {
	row := barRow{name: "ready to spin", full: full, linked: true}
	sum := 0.0
	for _, p := range l.Parts {
		used := min(p.NeededG, p.HaveG)
		sum += p.HaveG
		row.segments = append(row.segments,
			barSegment{words("%s %.0f g for yarn", p.Coat, used), used, coatColour(p.Coat)},
			barSegment{words("%.0f g left", p.LeftG), p.LeftG, theme.ColorNameInputBorder},
			barSegment{words("%.0f g noil", p.NoilG), p.NoilG, theme.ColorNameSuccess})
	}
	row.value = fmt.Sprintf("%.0f g", sum)
	return row
}

// yarnRow is the yarns spun of a lot.
func yarnRow(r *plan.Result, lot string, full float64) barRow {
	row := barRow{name: "yarn", full: full, linked: true}
	sum := 0.0
	for _, need := range r.Reckoning.Yarns {
		for _, y := range r.Plan().Yarns {
			for _, part := range y.Parts() {
				if y.Name == need.Name && part.Lot == lot {
					g := need.MassG * part.Share
					sum += g
					row.segments = append(row.segments, barSegment{fmt.Sprintf("%s %.0f g", y.Name, g), g, coatColour(part.Coat)})
				}
			}
		}
	}
	row.value = fmt.Sprintf("%.0f g", sum)
	return row
}

// renameFleece gives a lot another name everywhere in the plan.
func renameFleece(from, to string) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		if err := plan.SetField(p, "fleeces["+from+"].name", to); err != nil {
			return err
		}
		renameFibre(p, from, to)
		for i := range p.Dyes {
			if p.Dyes[i].Of == from && p.Dyes[i].Stage == cloth.DyeFleece {
				p.Dyes[i].Of = to
			}
		}
		return nil
	}
}

// renameFibre gives a lot another name in the yarns that are spun of it.
func renameFibre(p *plan.Plan, from, to string) {
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
}
