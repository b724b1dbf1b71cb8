package ui

import (
	"fmt"
	"math"
	"slices"

	"ellwand/cloth"
	"ellwand/plan"
)

// blend is the part of a yarn's form about the lots that it is blended of.
func (f *form) blend(name string) {
	y := yarnOf(f.b.plan(), name)
	if y == nil || len(f.b.plan().Fleeces) == 0 {
		return
	}
	under := "yarns[" + name + "]."
	f.field(under + "regain")
	for i := range y.Blend {
		at := fmt.Sprintf("%sblend[%d].", under, i+1)
		lot := f.plain(at+"lot", words("Blended of, %d", i+1), "")
		lot.options = lotOptions(f.b.plan())
		lot.set = f.fitting(at+"lot", "lot")
		f.put(lot)
		f.field(at + "coat")
		share := f.plain(at+"share", "Share of the fibre", "")
		share.try = func(text string) error { return setShare(f.b.plan().Clone(), name, i, text) }
		share.set = func(text string) error {
			return f.b.do("share of a blend", func(p *plan.Plan) error { return setShare(p, name, i, text) })
		}
		f.put(share)
	}
	if len(y.Blend) == 0 {
		if y.Fleece != "" {
			f.button("Blend two lots", func() error { return f.b.startBlend(name) })
		}
		return
	}
	f.note("The shares are of the prepared fibre's mass; together they must make 1, so a change of one is taken from the last.")
	f.button("Add a lot to the blend", func() error { return f.b.addToBlend(name) })
	f.button("Spin it of the first lot alone", func() error { return f.b.endBlend(name) })
}

// fitting sets a field that says which lot it is, or what kind, and lets the
// coats follow.
func (f *form) fitting(path, label string) func(string) error {
	return func(text string) error {
		return f.b.do(label, func(p *plan.Plan) error {
			if err := plan.SetField(p, path, text); err != nil {
				return err
			}
			p.FitCoats()
			return nil
		})
	}
}

// setShare sets one share of a blend and takes the difference from another.
func setShare(p *plan.Plan, name string, i int, text string) error {
	y := yarnOf(p, name)
	path := fmt.Sprintf("yarns[%s].blend[%d].share", name, i+1)
	before := y.Blend[i].Share
	if err := plan.SetField(p, path, text); err != nil {
		return err
	}
	other := len(y.Blend) - 1
	if i == other {
		other = 0
	}
	if other == i {
		return nil
	}
	most := before + y.Blend[other].Share
	y.Blend[other].Share = math.Round((most-y.Blend[i].Share)*1e6) / 1e6
	if y.Blend[other].Share <= 0 {
		y.Blend[i].Share, y.Blend[other].Share = before, most-before
		return &plan.Problem{Field: path, Text: "leaves nothing for " + y.Blend[other].Lot, Accepted: words("a share below %.4g", most)}
	}
	return nil
}

func yarnOf(p *plan.Plan, name string) *cloth.Yarn {
	for i := range p.Yarns {
		if p.Yarns[i].Name == name {
			return &p.Yarns[i]
		}
	}
	return nil
}

// startBlend makes a blend of a yarn's fibre and as much of another lot, or of
// another part of the same where there is but one.
func (b *bench) startBlend(name string) error {
	return b.do("blend "+name, func(p *plan.Plan) error {
		y := yarnOf(p, name)
		y.Blend = []cloth.FibrePart{{Lot: y.Fleece, Coat: y.Coat, Share: 0.5}}
		y.Blend = append(y.Blend, anotherPart(p, y.Blend[0], 0.5))
		y.Fleece, y.Coat = "", cloth.CoatWhole
		return nil
	})
}

// anotherPart is a lot other than that of a part; else another part of it.
func anotherPart(p *plan.Plan, not cloth.FibrePart, share float64) cloth.FibrePart {
	lot := cloth.Fleece{}
	for _, l := range p.Fleeces {
		if lot = l; l.Name != not.Lot {
			break
		}
	}
	kind := lot.Kind
	if kind == "" {
		kind = cloth.LotFleece
	}
	coats := kind.Coats()
	coat := coats[len(coats)-1]
	if i := slices.IndexFunc(coats, func(c cloth.Coat) bool { return lot.Name != not.Lot || c != not.Coat }); i >= 0 && lot.Name == not.Lot {
		coat = coats[i]
	}
	return cloth.FibrePart{Lot: lot.Name, Coat: coat, Share: share}
}

func (b *bench) addToBlend(name string) error {
	return b.do("blend "+name, func(p *plan.Plan) error {
		y := yarnOf(p, name)
		last := &y.Blend[len(y.Blend)-1]
		last.Share /= 2
		y.Blend = append(y.Blend, anotherPart(p, *last, last.Share))
		return nil
	})
}

func (b *bench) endBlend(name string) error {
	return b.do("spin "+name+" of one lot", func(p *plan.Plan) error {
		y := yarnOf(p, name)
		y.Fleece, y.Coat, y.Blend = y.Blend[0].Lot, y.Blend[0].Coat, nil
		return nil
	})
}
