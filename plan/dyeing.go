package plan

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

func blankDye() cloth.Dye { return cloth.Dye{Stage: cloth.DyeYarn} }

func dyeKeys(d *cloth.Dye) []key {
	percent := bounds{min: 0, max: 2000}
	return []key{
		need(textKey("name", "Name of the dyed lot", &d.Name)),
		wordKey("stage", "Dyed as", &d.Stage, cloth.DyeStages()...),
		textKey("of", "What is dyed", &d.Of),
		textKey("mordant", "Mordant", &d.Mordant),
		numberKey("mordant_percent", "Mordant, of the weight of fibre", "%", &d.MordantPercent, percent),
		textKey("assistant", "With it (assistant)", &d.Assistant),
		numberKey("assistant_percent", "That, of the weight of fibre", "%", &d.AssistantPercent, percent),
		textKey("dyestuff", "Dyestuff", &d.Dyestuff),
		numberKey("dyestuff_percent", "Dyestuff, of the weight of fibre", "%", &d.DyestuffPercent, percent),
		colourKey("colour", "Colour it gives", &d.Colour),
	}
}

func (r *reader) dye(n *yaml.Node, field string) cloth.Dye {
	d := blankDye()
	r.mapping(n, field, dyeKeys(&d), nil)
	return d
}

func (p *Plan) fillDyes(root *yaml.Node) {
	fillList(root, "dyes", p.Dyes, func(d *cloth.Dye) string { return d.Name }, func(n *yaml.Node, d *cloth.Dye) {
		def := blankDye()
		putKeys(n, dyeKeys(d), dyeKeys(&def))
	})
}

// dyedYarns are the plan's yarns and, as yarns of their own, what is dyed of
// them; fibre of a dyed lot is that of the lot it was dyed of.
func (p *Plan) dyedYarns() []cloth.Yarn {
	out := p.AllYarns()
	for i := range out {
		out[i] = p.undyedFibre(out[i])
	}
	return out
}

// AllYarns are the plan's yarns, and what is dyed of them as yarns of their own;
// their fibre is as the plan names it.
func (p *Plan) AllYarns() []cloth.Yarn {
	out := slices.Clone(p.Yarns)
	for _, d := range p.Dyes {
		for _, y := range out {
			if d.Stage == cloth.DyeYarn && y.Name == d.Of {
				y.Name, y.DyedFrom = d.Name, y.Root()
				if d.Colour != "" {
					y.Colour = d.Colour
				}
				out = append(out, y)
				break
			}
		}
	}
	return out
}

// undyedLot is the raw lot from which a dyed one comes.
func (p *Plan) undyedLot(name string) string {
	for i := len(p.Dyes) - 1; i >= 0; i-- {
		if d := p.Dyes[i]; d.Stage == cloth.DyeFleece && d.Name == name {
			name = d.Of
		}
	}
	return name
}

// undyedFibre is a yarn whose fibre is named by the raw lots; parts that are
// then of one lot and coat are one.
func (p *Plan) undyedFibre(y cloth.Yarn) cloth.Yarn {
	y.Fleece = p.undyedLot(y.Fleece)
	var blend []cloth.FibrePart
	for _, part := range y.Blend {
		part.Lot = p.undyedLot(part.Lot)
		i := slices.IndexFunc(blend, func(b cloth.FibrePart) bool { return b.Lot == part.Lot && b.Coat == part.Coat })
		if i >= 0 {
			blend[i].Share += part.Share
			continue
		}
		blend = append(blend, part)
	}
	y.Blend = blend
	return y
}

// reckonDyes is what each dyeing takes. What is dyed again counts in every bath
// that it goes through.
func (p *Plan) reckonDyes(r cloth.Reckoning) []cloth.DyeNeed {
	grams := make([]float64, len(p.Dyes))
	parts := make([][]string, len(p.Dyes))
	for i := len(p.Dyes) - 1; i >= 0; i-- {
		d := p.Dyes[i]
		grams[i], parts[i] = p.dyedDirectly(d, r)
		for k := i + 1; k < len(p.Dyes); k++ {
			if p.Dyes[k].Of == d.Name && p.Dyes[k].Stage == d.Stage && d.Stage != cloth.DyeCloth {
				grams[i] += grams[k]
				parts[i] = append(parts[i], fmt.Sprintf("%.1f g dyed again as %s", grams[k], p.Dyes[k].Name))
			}
		}
	}
	var out []cloth.DyeNeed
	for i, d := range p.Dyes {
		from := strings.Join(parts[i], " + ")
		if from == "" {
			from = "nothing of it is used in this cloth"
		}
		out = append(out, d.Reckon(grams[i], from))
	}
	return out
}

// dyedDirectly is the fibre that the cloth takes of a dyed lot under its name.
func (p *Plan) dyedDirectly(d cloth.Dye, r cloth.Reckoning) (grams float64, parts []string) {
	switch d.Stage {
	case cloth.DyeCloth:
		return r.ClothG, []string{"the whole cloth, as woven"}
	case cloth.DyeYarn:
		for _, n := range r.Yarns {
			if n.Name == d.Name {
				grams += n.MassG
				parts = append(parts, fmt.Sprintf("%.1f m of %s", n.LengthM, d.Name))
			}
		}
		return grams, parts
	}
	for _, y := range p.AllYarns() {
		for _, n := range r.Yarns {
			if n.Name != y.Name {
				continue
			}
			for _, part := range y.Parts() {
				if part.Lot != d.Name {
					continue
				}
				lot := p.lotNamed(p.undyedLot(d.Name))
				g, from := lot.ToPrepareG(part.Coat, cloth.PreparedG(n.Yarn, n.MassG, part, lot))
				grams += g
				parts = append(parts, from+" for "+y.Name)
			}
		}
	}
	return grams, parts
}

func (p *Plan) lotNamed(name string) cloth.Fleece {
	for _, f := range p.Fleeces {
		if f.Name == name {
			return f
		}
	}
	return blankFleece()
}

// dyes refuses dyed lots that are none, and two lots of one name.
func (c *checker) dyes() {
	yarns, lots := []string{}, []string{}
	for _, y := range c.plan.Yarns {
		yarns = append(yarns, y.Name)
	}
	for _, f := range c.plan.Fleeces {
		lots = append(lots, f.Name)
	}
	for _, d := range c.plan.Dyes {
		field := fmt.Sprintf("dyes[%s].of", d.Name)
		list, what := &yarns, "yarn, or of a yarn dyed before it,"
		if d.Stage == cloth.DyeFleece {
			list, what = &lots, "fleece, or of a lot dyed before it,"
		}
		switch {
		case d.Stage == cloth.DyeCloth && d.Of != "" && d.Of != "cloth":
			c.wrong(field, fmt.Sprintf("is %q, but what is dyed is the whole cloth", d.Of), "nothing there, or stage fleece or yarn")
			continue
		case d.Stage == cloth.DyeCloth:
			continue
		case slices.Contains(*list, d.Name):
			c.wrong(fmt.Sprintf("dyes[%s].name", d.Name), "is given twice", "a name of its own for the dyed lot")
		case !slices.Contains(*list, d.Of):
			c.wrong(field, fmt.Sprintf("is %q, but there is no %s of that name", d.Of, strings.TrimSuffix(what, ",")), oneOf(*list))
		}
		*list = append(*list, d.Name)
	}
}

func (r *Result) writeDyes(b *strings.Builder, units string) {
	if len(r.Dyes) == 0 {
		return
	}
	b.WriteString("\nDyeing\n")
	for _, d := range r.Dyes {
		fmt.Fprintf(b, "  %s\n", DyeText(d))
		writeFigures(b, d.Figures, units)
	}
}

// DyeText is a dyeing in a sentence.
func DyeText(d cloth.DyeNeed) string {
	what := fmt.Sprintf("%.0f g of %s, dyed as %s", d.FibreG, d.Of, d.Stage)
	if d.Stage == cloth.DyeCloth {
		what = fmt.Sprintf("the whole cloth, %.0f g", d.FibreG)
	}
	var with []string
	for _, w := range []struct {
		name, plain string
		g           float64
	}{{d.Mordant, "mordant", d.MordantG}, {d.Assistant, "assistant", d.AssistantG}, {d.Dyestuff, "dyestuff", d.DyestuffG}} {
		if w.g > 0 {
			if w.name == "" {
				w.name = w.plain
			}
			with = append(with, fmt.Sprintf("%.1f g %s", w.g, w.name))
		}
	}
	if len(with) == 0 {
		return d.Name + ": " + what
	}
	return d.Name + ": " + what + ", with " + strings.Join(with, ", ")
}

type dyeJSON struct {
	Name       string   `json:"name"`
	Stage      string   `json:"stage"`
	Of         string   `json:"of"`
	FibreG     float64  `json:"fibre_g"`
	Mordant    string   `json:"mordant"`
	MordantG   float64  `json:"mordant_g"`
	Assistant  string   `json:"assistant"`
	AssistantG float64  `json:"assistant_g"`
	Dyestuff   string   `json:"dyestuff"`
	DyestuffG  float64  `json:"dyestuff_g"`
	Cautions   []string `json:"cautions"`
}

func (r *Result) dyesAsJSON() []dyeJSON {
	out := []dyeJSON{}
	for _, d := range r.Dyes {
		out = append(out, dyeJSON{d.Name, string(d.Stage), d.Of, sixth(d.FibreG), d.Mordant, sixth(d.MordantG), d.Assistant, sixth(d.AssistantG), d.Dyestuff, sixth(d.DyestuffG), d.Cautions})
	}
	return out
}

// dyeCautions are those of all dyeings, each said once.
func dyeCautions(all []cloth.DyeNeed) []string {
	var out []string
	for _, d := range all {
		for _, c := range d.Cautions {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}
