package plan

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/hours"
)

// hoursKeys are the keys of hours; shares and rates are mappings below it.
func hoursKeys(s *hours.Settings) (own, shares, rates []key) {
	some := bounds{min: 0, max: 1e6}
	share := bounds{min: 0, max: 1}
	own = []key{
		numberKey("budget_h", "Budget (0: none)", "h", &s.BudgetH, some),
		numberKey("per_week_h", "Hours a week (0: not said)", "h", &s.PerWeekH, bounds{min: 0, max: 168}),
		dateKey("start", "Begun on (year-month-day)", &s.Start),
		dateKey("finish_by", "To be done by (empty: no day)", &s.FinishBy),
		numberKey("rest_share", "Share of the time that is rest", "", &s.RestShare, bounds{min: 0, max: 0.9}),
		numberKey("other_h", "Other work: mending, tools, what is not listed", "h", &s.OtherH, some),
		wordKey("weaving", "Woven on", &s.Weaving, hours.Tools()...),
		wordKey("stitch", "Seams joined by hand with", &s.Stitch, hours.StitchRunning, hours.StitchBack),
		numberKey("stitch_mm", "Stitch", "mm", &s.StitchMM, bounds{min: 0.5, max: 50}),
		integerKey("fell_passes", "Times each seam is felled", &s.FellPasses, 0, 2),
	}
	shares = []key{
		numberKey("spindle", "Spun by spindle, the rest by wheel", "", &s.SpindleShare, share),
		numberKey("machine_hidden_seams", "Seams joined by machine", "", &s.MachineShare, share),
		numberKey("combed_outer", "Outer coat combed, the rest carded", "", &s.CombedOuter, share),
		numberKey("combed_inner", "Inner coat combed, the rest carded", "", &s.CombedInner, share),
		numberKey("combed_whole", "Whole fleece combed, the rest carded", "", &s.CombedWhole, share),
	}
	for _, r := range hours.Rates() {
		rates = append(rates, rateKey(r, s.Own))
	}
	return own, shares, rates
}

// dateKey accepts a day written year-month-day, or nothing.
func dateKey(name, label string, at *string) key {
	k := textKey(name, label, at)
	k.accepted = "a date written year-month-day, as 2026-03-01"
	k.read = func(n *yaml.Node) string {
		if n.Kind != yaml.ScalarNode {
			return said(n)
		}
		if n.Value == "" {
			*at = ""
			return ""
		}
		if _, err := hours.ParseDate(n.Value); err != nil {
			return said(n)
		}
		*at = n.Value
		return ""
	}
	return k
}

// rateKey is a rate one has timed oneself: one number, or the slow, the usual
// and the quick one; absent for the published rate.
func rateKey(r hours.Rate, own map[string]hours.Range) key {
	b := bounds{min: 0, max: 1e7, above: true}
	k := key{name: r.Key, label: r.Label, unit: r.Unit, kind: kindRate, min: b.min, max: b.max,
		accepted: "one number above 0 to 10000000 " + r.Unit + ", or three in square brackets: slow, usual, quick"}
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == "" {
			delete(own, r.Key)
			return ""
		}
		items := []*yaml.Node{n}
		if n.Kind == yaml.SequenceNode && len(n.Content) == 3 {
			items = n.Content
		}
		var v []float64
		for _, item := range items {
			one, ok := number(item)
			if !ok || !b.holds(one) || len(v) > 0 && one < v[len(v)-1] {
				return said(n)
			}
			v = append(v, one)
		}
		own[r.Key] = hours.Range{Low: v[0], Likely: v[len(v)/2], High: v[len(v)-1]}
		return ""
	}
	k.write = func() *yaml.Node {
		v, there := own[r.Key]
		switch {
		case !there:
			return nil
		case v.Low == v.High:
			return numberNode(v.Likely)
		}
		return &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle,
			Content: []*yaml.Node{numberNode(v.Low), numberNode(v.Likely), numberNode(v.High)}}
	}
	return k
}

func (r *reader) hours(n *yaml.Node) {
	own, shares, rates := hoursKeys(&r.plan.Hours)
	r.mapping(n, "hours", own, map[string]func(*yaml.Node){
		"shares": func(n *yaml.Node) {
			r.mapping(n, "hours.shares", shares, map[string]func(*yaml.Node){"spindle_of": r.spindleOf})
		},
		"rates": func(n *yaml.Node) { r.mapping(n, "hours.rates", rates, nil) },
	})
}

// spindleShareKey is the share of one yarn that is spun by spindle; absent for
// that of all.
func spindleShareKey(s *hours.Settings, yarn string) key {
	return mapKey(yarn, yarn+" by spindle (empty: as all)", "", 0, 1, s.SpindleOf, yarn)
}

// spindleOf reads shares by yarn; whether there are such yarns is checked when
// all is read.
func (r *reader) spindleOf(n *yaml.Node) {
	const field = "hours.shares.spindle_of"
	if n.Kind != yaml.MappingNode {
		r.wrong(n, field, said(n), "names of yarns, each with a share from 0 to 1")
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := spindleShareKey(&r.plan.Hours, n.Content[i].Value)
		if wrong := k.read(n.Content[i+1]); wrong != "" {
			r.wrong(n.Content[i+1], field+"["+n.Content[i].Value+"]", wrong, k.accepted)
		}
	}
}

// RenameInHours lets a yarn keep its own share of spindle under another name.
func (p *Plan) RenameInHours(from, to string) {
	if v, ok := p.Hours.SpindleOf[from]; ok {
		delete(p.Hours.SpindleOf, from)
		p.Hours.SpindleOf[to] = v
	}
}

// spindleYarns refuses a share of a yarn that is none of the plan's.
func (c *checker) spindleYarns() {
	var names []string
	for _, y := range c.plan.dyedYarns() {
		names = append(names, y.Name)
	}
	for _, name := range sortedKeys(c.plan.Hours.SpindleOf) {
		if slices.Contains(names, name) {
			continue
		}
		text := "is none of the plan's yarns"
		if n := nearest(name, names); n != "" {
			text += fmt.Sprintf(" (did you mean %q?)", n)
		}
		c.wrong("hours.shares.spindle_of["+name+"]", text, oneOf(names))
	}
}

// spindleOfKey writes the shares by yarn; nothing when there are none.
func spindleOfKey(s *hours.Settings) key {
	return key{name: "spindle_of", write: func() *yaml.Node {
		if len(s.SpindleOf) == 0 {
			return nil
		}
		n := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
		for _, name := range sortedKeys(s.SpindleOf) {
			n.Content = append(n.Content, textNode(name), numberNode(s.SpindleOf[name]))
		}
		return n
	}}
}

func (p *Plan) fillHours(root *yaml.Node) {
	def := hours.DefaultSettings()
	own, shares, rates := hoursKeys(&p.Hours)
	ownDef, sharesDef, ratesDef := hoursKeys(&def)
	n := child(root, "hours")
	made := n == nil
	if made {
		n = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	}
	putKeys(n, own, ownDef)
	putBelow(n, "shares", append(shares, spindleOfKey(&p.Hours)), append(sharesDef, spindleOfKey(&def)))
	putBelow(n, "rates", rates, ratesDef)
	if made && len(n.Content) > 0 {
		put(root, "hours", n, nil)
	}
}

func hoursSchema() object {
	s := hours.DefaultSettings()
	own, shares, rates := hoursKeys(&s)
	return with(mapping(own), object{"shares": with(mapping(shares), object{"spindle_of": object{"type": "object", "description": "share spun by spindle, by the name of the yarn", "additionalProperties": object{"type": "number", "minimum": 0, "maximum": 1}}}), "rates": mapping(rates)})
}

// typedRate lets three rates be typed with commas between.
func typedRate(text string) string {
	if strings.Contains(text, ",") {
		return "[" + strings.Trim(text, "[]") + "]"
	}
	return text
}
