package plan

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

// regain is water ÷ dry fibre; 0 is not said.
var regain = bounds{min: 0, max: 1}

// NewLot is a lot of raw wool of which nothing is known yet.
func NewLot(name string, rawG float64) cloth.Fleece {
	f := blankFleece()
	f.Name, f.RawG = name, rawG
	return f
}

// lotBelow are the mappings of keys below a lot, by name and in order.
func lotBelow(f *cloth.Fleece) (names []string, keys map[string][]key) {
	part := bounds{min: 0, max: 1}
	_, comb := fleeceKeys(f)
	return []string{"comb_yield", "comb_noil", "plant"}, map[string][]key{
		"comb_yield": comb,
		"comb_noil": {
			numberKey("outer", "Noil of outer coat", "", &f.OuterNoil, part),
			numberKey("inner", "Noil of inner coat", "", &f.InnerNoil, part),
			numberKey("whole", "Noil of whole fleece", "", &f.WholeNoil, part),
		},
		"plant": {
			numberKey("rippled_yield", "Rippled and dried, of pulled", "", &f.RippledYield, yield),
			numberKey("retted_yield", "Retted and dried, of rippled", "", &f.RettedYield, yield),
			numberKey("scutched_yield", "Scutched, of retted", "", &f.ScutchedYield, yield),
			numberKey("hackled_yield", "Line, of scutched", "", &f.HackledYield, yield),
			numberKey("tow_yield", "Tow, of scutched", "", &f.TowYield, part),
		},
	}
}

// lotKindKeys say what a lot is and how damp it is weighed.
func lotKindKeys(f *cloth.Fleece) []key {
	kind := wordKey("kind", "What it is", &f.Kind, cloth.LotKinds()...)
	write := kind.write
	kind.write = func() *yaml.Node {
		if f.Kind == "" {
			return textNode(string(cloth.LotFleece))
		}
		return write()
	}
	return []key{kind, numberKey("regain", "Regain of the clean fibre (0: as the yarn)", "", &f.Regain, regain)}
}

func partKeys(part *cloth.FibrePart) []key {
	return []key{
		need(textKey("lot", "Lot", &part.Lot)),
		wordKey("coat", "Part of it", &part.Coat, cloth.Coats()...),
		need(numberKey("share", "Share of the fibre", "", &part.Share, bounds{min: 0, max: 1, above: true})),
	}
}

func blankPart() cloth.FibrePart { return cloth.FibrePart{Coat: cloth.CoatWhole} }

func (r *reader) blend(y *cloth.Yarn) func(*yaml.Node, string) {
	return func(n *yaml.Node, field string) {
		readList(r, n, field, &y.Blend, func(n *yaml.Node, at string) cloth.FibrePart {
			part := blankPart()
			r.mapping(n, at, partKeys(&part), nil)
			return part
		})
	}
}

func fillBlend(n *yaml.Node, y *cloth.Yarn) {
	fillNumbered(n, "blend", y.Blend, func(part *cloth.FibrePart) []key {
		if *part == (cloth.FibrePart{}) {
			*part = blankPart()
		}
		return partKeys(part)
	})
}

func fillLot(n *yaml.Node, f *cloth.Fleece) {
	def := blankFleece()
	own, _ := fleeceKeys(f)
	ownDef, _ := fleeceKeys(&def)
	putKeys(n, own, ownDef)
	names, keys := lotBelow(f)
	_, defaults := lotBelow(&def)
	for _, name := range names {
		putBelow(n, name, keys[name], defaults[name])
	}
}

func lotSchema() object {
	f := blankFleece()
	own, _ := fleeceKeys(&f)
	below := object{}
	names, keys := lotBelow(&f)
	for _, name := range names {
		below[name] = mapping(keys[name])
	}
	return with(mapping(own), below)
}

// blends refuses fibres that their lot has none of, a yarn with both a fibre
// and a blend, and shares that do not make one.
func (c *checker) blends() {
	for _, f := range c.plan.Fleeces {
		if err := f.Validate(); err != nil {
			c.wrong(fmt.Sprintf("fleeces[%s]", f.Name), "cannot be right: "+err.Error(), "")
		}
	}
	for _, y := range c.plan.dyedYarns()[:len(c.plan.Yarns)] {
		field := fmt.Sprintf("yarns[%s].blend", y.Name)
		if len(y.Blend) > 0 && y.Fleece != "" {
			c.wrong(field, "stands beside fibre.lot, and only one of them can be", "fibre for one lot, or blend for several")
		}
		sum := 0.0
		for i, part := range y.Parts() {
			at := fmt.Sprintf("yarns[%s].fibre.coat", y.Name)
			if len(y.Blend) > 0 {
				at = fmt.Sprintf("%s[%d].coat", field, i+1)
			}
			c.coatOfLot(at, part, len(y.Blend) > 0)
			sum += part.Share
		}
		if len(y.Blend) > 0 && (sum < 1-1e-6 || sum > 1+1e-6) {
			c.wrong(field, "has shares of "+strings.TrimRight(fmt.Sprintf("%.4f", sum), "0")+" together", "shares that make 1 together")
		}
	}
}

func (c *checker) coatOfLot(field string, part cloth.FibrePart, blended bool) {
	var names []string
	for _, f := range c.plan.Fleeces {
		names = append(names, f.Name)
		if f.Name != part.Lot {
			continue
		}
		kind := f.Kind
		if kind == "" {
			kind = cloth.LotFleece
		}
		if coats := kind.Coats(); !slices.Contains(coats, part.Coat) {
			var words []string
			for _, k := range coats {
				words = append(words, string(k))
			}
			c.wrong(field, fmt.Sprintf("is %s, but %s is a lot of kind %s", part.Coat, f.Name, kind), oneOf(words))
		}
		return
	}
	if blended { // a single fibre's lot is checked with the yarns
		c.wrong(strings.TrimSuffix(field, "coat")+"lot", fmt.Sprintf("is %q, but there is no fleece of that name", part.Lot), oneOf(names))
	}
}

// FitCoats gives every fibre whose lot has no such part one that it has: after
// another lot is chosen, or another kind of it.
func (p *Plan) FitCoats() {
	fit := func(lot string, coat *cloth.Coat) {
		if coats := p.kindOf(p.undyedLot(lot)).Coats(); lot != "" && !slices.Contains(coats, *coat) {
			*coat = coats[0]
		}
	}
	for i := range p.Yarns {
		y := &p.Yarns[i]
		fit(y.Fleece, &y.Coat)
		for k := range y.Blend {
			fit(y.Blend[k].Lot, &y.Blend[k].Coat)
		}
	}
}
