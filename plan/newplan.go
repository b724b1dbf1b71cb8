package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/assets"
	"ellwand/garment"
)

// NewMeasures is how many measurements a new plan asks for.
const NewMeasures = 8

// AskedFirst are the eight measurements that say most about a garment: stature
// and bust girth, from which the others are estimated, then those that the draft
// uses, in the order of how much they differ from one person to another.
func AskedFirst(draft string) []garment.Measure {
	order := []garment.Measure{
		garment.Stature, garment.BustGirth, garment.WaistGirth, garment.HipGirth, garment.BackNeckToWrist, garment.HeadGirth,
		garment.UpperArmGirth, garment.HandGirth, garment.WaistHeight, garment.InsideLeg, garment.ThighGirth, garment.FootGirth,
		garment.NeckBaseGirth, garment.KneeHeight, garment.CalfGirth, garment.AnkleGirth, garment.NeckGirth,
		garment.BackNeckToWaist, garment.AcrossBack,
	}
	need := garment.Need(draft)
	out := order[:2:2]
	for _, used := range []bool{true, false} {
		for _, m := range order[2:] {
			if len(out) < NewMeasures && slices.Contains(need, m) == used {
				out = append(out, m)
			}
		}
	}
	return out
}

// NewPlan is a plan for a garment and a body, all else at defaults that are
// marked as not confirmed: the loom as wide and the fleece as heavy as the
// garment needs. The body must have a stature and a bust girth.
func NewPlan(title, draft string, body garment.Body) (*Plan, error) {
	p, err := Parse(assets.NewPlan(), "new-plan.yaml")
	if err != nil {
		panic("the embedded new plan is broken: " + err.Error())
	}
	p.Title, p.Draft = strings.TrimSpace(title), draft
	p.Body.Table, p.Body.CM = body.Table, map[garment.Measure]float64{}
	for m, cm := range body.CM {
		p.Body.CM[m] = cm
	}
	for _, m := range []garment.Measure{garment.Stature, garment.BustGirth} {
		if _, ok := p.Body.CM[m]; !ok {
			return nil, &Problem{Field: "body." + string(m), Text: "is empty", Accepted: "a measurement: all that is not measured is estimated from stature and bust girth"}
		}
	}
	if p.Title == "" {
		p.Title = "New plan"
	}
	if err := p.Validate(); err != nil {
		return nil, err
	}
	if err := p.wideEnough(); err != nil {
		return nil, err
	}
	p.markDefaults()
	return p, p.heavyEnough()
}

// wideEnough makes the loom, which is a default, as wide as the widest piece
// needs, in whole tens of cm.
func (p *Plan) wideEnough() error {
	for range 60 {
		_, err := Prepare(p)
		var u *Unmakeable
		if err == nil || !errors.As(err, &u) {
			return err
		}
		p.Loom.MaxReedWidthCM += 10
	}
	return fmt.Errorf("no loom is wide enough for this garment")
}

// heavyEnough makes the fleece, which is a default, half as much again as the
// first lay needs, for other cuts and looms, up to the next 100 g.
func (p *Plan) heavyEnough() error {
	pr, err := Prepare(p)
	if err != nil {
		return err
	}
	lay, err := FirstLay(pr)
	if err != nil {
		return err
	}
	r, err := ReckonLay(p, pr, lay)
	if err != nil {
		return err
	}
	for i := range p.Fleeces {
		for _, f := range r.Reckoning.Fleeces {
			if f.Name == p.Fleeces[i].Name {
				p.Fleeces[i].RawG = math.Ceil(1.5*f.RawNeededG/100) * 100
			}
		}
	}
	return nil
}

// markDefaults lists every number and choice that was not asked for.
func (p *Plan) markDefaults() {
	var paths []string
	add := func(under string, keys []key) {
		for _, k := range keys {
			if k.kind != kindText || len(k.choices) > 0 {
				paths = append(paths, under+k.name)
			}
		}
	}
	d, _ := draftOf(p.Draft)
	add("garment.ease.", paramKeys(p, d.Ease))
	add("garment.options.", paramKeys(p, d.Options))
	add("allowances.", allowanceKeys(p))
	given := func(section string) func(key) bool {
		n := child(p.root, section)
		return func(k key) bool { return child(n, k.name) == nil }
	}
	add("cloth.", slices.DeleteFunc(clothKeys(p), given("cloth")))
	add("loom.", slices.DeleteFunc(loomKeys(p), given("loom")))
	for i := range p.Yarns {
		paths = append(paths, "yarns["+p.Yarns[i].Name+"].tex", "yarns["+p.Yarns[i].Name+"].plies", "yarns["+p.Yarns[i].Name+"].spin_loss")
	}
	for i := range p.Fleeces {
		under := "fleeces[" + p.Fleeces[i].Name + "]."
		paths = append(paths, under+"raw_g", under+"skirting_loss", under+"scoured_yield", under+"comb_yield.whole")
	}
	p.Unconfirmed = append(paths, "hours.per_week_h", "hours.rest_share")
}

// Defaults are the fields on the list of defaults that the plan still has.
func (p *Plan) Defaults() []string {
	var out []string
	c := p.Clone()
	for _, path := range p.Unconfirmed {
		if _, ok := fieldKey(c, path); ok {
			out = append(out, path)
		}
	}
	return out
}
