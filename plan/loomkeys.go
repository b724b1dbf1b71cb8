package plan

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

func loomKeys(p *Plan) []key {
	l, w := &p.Loom, &p.Loom.Weights
	kinds := []cloth.LoomKind{""}
	for _, k := range cloth.LoomKinds() {
		kinds = append(kinds, k.Kind)
	}
	mass := bounds{min: 0, max: 1e5}
	return []key{
		textKey("name", "Loom", &l.Name),
		wordKey("kind", "Kind of loom", &l.Kind, kinds...),
		need(numberKey("max_reed_width_cm", "Widest in the reed", "cm", &l.MaxReedWidthCM, bounds{min: 0, max: 500, above: true})),
		wasteKey(l),
		numberKey("max_warp_m", "Longest warp (0: no limit)", "m", &l.MaxWarpM, bounds{min: 0, max: 1000}),
		numbersKey("reeds_dents_per_10cm", "Reeds owned", "dents per 10 cm", &l.ReedsDentsPer10CM, bounds{min: 0, max: 500, above: true}),
		integerKey("weights", "Weights in hand (0: not counted)", &w.Count, 0, 10000),
		numberKey("weight_g", "Mass of a weight, the mean", "g", &w.MassG, mass),
		numberKey("weight_lightest_g", "The lightest (0: all alike)", "g", &w.LightestG, mass),
		numberKey("weight_heaviest_g", "The heaviest (0: all alike)", "g", &w.HeaviestG, mass),
		numberKey("weight_thickness_cm", "Thickness of a weight (0: not measured)", "cm", &w.ThicknessCM, bounds{min: 0, max: 100}),
		integerKey("weight_rows", "Rows of weights (0: 2)", &w.Rows, 0, 20),
		numberKey("tension_g_per_thread", "Tension wanted on a thread", "g", &w.TensionG, mass),
		integerKey("threads_per_weight", "Threads on a weight (0: by the tension)", &w.ThreadsEach, 0, 1000),
	}
}

// wasteKey is the loom waste; absent, it is what is usual for the kind of loom.
func wasteKey(l *cloth.Loom) key {
	k := unlessEmpty(numberKey("waste_cm", "Loom waste, each warp", "cm", &l.WasteCM, lengthCM), &l.WasteCM, &l.WasteGiven)
	k.write = func() *yaml.Node {
		if !l.WasteGiven && l.WasteCM == 0 {
			return nil
		}
		return numberNode(l.WasteCM)
	}
	return k
}

// orderKeys are what lies where in the cloth besides the two main yarns.
func orderKeys(p *Plan) []key {
	c := &p.Cloth
	return []key{
		rowsKey("draft", "Draft of the weave, pick by pick", &c.Draft),
		stripesKey("warp_order", "Order of the ends, repeated across", "ends", &c.WarpOrder),
		stripesKey("weft_order", "Order of the picks, repeated along", "picks", &c.WeftOrder),
		textKey("selvedge_yarn", "Selvedge yarn (empty: the warp's)", &c.SelvedgeYarn),
		integerKey("selvedge_ends", "Ends of it at each selvedge", &c.SelvedgeEnds, 0, 1000),
		textKey("heading_yarn", "Heading yarn (empty: not counted)", &c.HeadingYarn),
	}
}

// orders refuses yarns that the plan has not, and a loom that cannot be set up.
func (c *checker) orders(yarns []string) {
	known := func(field, name string) {
		if name == "" || slices.Contains(yarns, name) {
			return
		}
		text := fmt.Sprintf("names the yarn %q, but there is no yarn of that name", name)
		if near := nearest(name, yarns); near != "" {
			text += " (did you mean " + near + "?)"
		}
		c.wrong(field, text, oneOf(yarns))
	}
	s, l := c.plan.Cloth, c.plan.Loom
	for _, t := range s.WarpOrder {
		known("cloth.warp_order", t.Yarn)
	}
	for _, t := range s.WeftOrder {
		known("cloth.weft_order", t.Yarn)
	}
	known("cloth.selvedge_yarn", s.SelvedgeYarn)
	known("cloth.heading_yarn", s.HeadingYarn)
	if info, _ := l.Kind.Info(); len(l.ReedsDentsPer10CM) == 0 && s.ReedDentsPer10CM == 0 && !info.Reedless {
		c.wrong("loom.reeds_dents_per_10cm", "is missing or an empty list", "at least one reed, in dents per 10 cm, for example [40]; only an upright or a warp-weighted loom may be without")
	}
}

// otherYarns are the yarns that the cloth takes besides those of warp and weft.
func (p *Plan) otherYarns() ([]cloth.Yarn, error) {
	var out []cloth.Yarn
	named := map[string]string{}
	for _, t := range p.Cloth.WarpOrder {
		named[t.Yarn] = "cloth.warp_order"
	}
	for _, t := range p.Cloth.WeftOrder {
		named[t.Yarn] = "cloth.weft_order"
	}
	named[p.Cloth.SelvedgeYarn], named[p.Cloth.HeadingYarn] = "cloth.selvedge_yarn", "cloth.heading_yarn"
	for _, name := range sortedKeys(named) {
		if name == "" {
			continue
		}
		y, err := p.yarn(named[name], name)
		if err != nil {
			return nil, err
		}
		out = append(out, y)
	}
	return out, nil
}
