package plan

import (
	"fmt"
	"slices"
	"strconv"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

var (
	logHours  = bounds{min: 0, max: 1e5}
	logLength = bounds{min: 0, max: 1e7, above: true}
	logMass   = bounds{min: 0, max: 1e6}
)

func skeinKeys(s *Skein) []key {
	return []key{
		dateKey("date", "Date (year-month-day)", &s.Date),
		need(textKey("yarn", "Yarn", &s.Yarn)),
		need(numberKey("length_m", "Length", "m", &s.LengthM, logLength)),
		numberKey("mass_g", "Mass (0: not weighed)", "g", &s.MassG, logMass),
		numberKey("hours", "Spinning and plying (0: not timed)", "h", &s.Hours, logHours),
		wordKey("tool", "Spun by", &s.Tool, "", "spindle", "wheel"),
	}
}

func wovenKeys(w *Woven) []key {
	return []key{
		dateKey("date", "Date (year-month-day)", &w.Date),
		need(numberKey("woven_cm", "Woven, under tension", "cm", &w.WovenCM, bounds{min: 0, max: 1e5, above: true})),
		integerKey("picks", "Picks (0: not counted)", &w.Picks, 0, 1e7),
		numberKey("hours", "Weaving (0: not timed)", "h", &w.Hours, logHours),
	}
}

func workedKeys(w *Worked) []key {
	return []key{
		dateKey("date", "Date (year-month-day)", &w.Date),
		need(wordKey("task", "Task", &w.Task, WorkedTasks()...)),
		textKey("of", "Yarn or lot (empty: all)", &w.Of),
		need(numberKey("hours", "Hours worked", "h", &w.Hours, logHours)),
		numberKey("quantity", "Quantity, in the rate's unit (0: not measured)", "", &w.Quantity, bounds{min: 0, max: 1e7}),
		yesNoKey("done", "Nothing of it remains", &w.Done),
	}
}

func measuredKeys(m *MeasuredCloth) []key {
	return []key{
		numberKey("width_cm", "Width", "cm", &m.WidthCM, widthCM),
		numberKey("length_cm", "Length", "cm", &m.LengthCM, bounds{min: 0, max: 1e5}),
		numberKey("mass_g", "Mass (0: not weighed)", "g", &m.MassG, logMass),
	}
}

func (r *reader) log(n *yaml.Node) {
	l := &r.plan.Log
	r.mapping(n, "log", nil, map[string]func(*yaml.Node){
		"skeins": func(n *yaml.Node) {
			readList(r, n, "log.skeins", &l.Skeins, func(n *yaml.Node, at string) (s Skein) { r.mapping(n, at, skeinKeys(&s), nil); return s })
		},
		"woven": func(n *yaml.Node) {
			readList(r, n, "log.woven", &l.Woven, func(n *yaml.Node, at string) (w Woven) { r.mapping(n, at, wovenKeys(&w), nil); return w })
		},
		"worked": func(n *yaml.Node) {
			readList(r, n, "log.worked", &l.Worked, func(n *yaml.Node, at string) (w Worked) { r.mapping(n, at, workedKeys(&w), nil); return w })
		},
		"cloth_off_loom": func(n *yaml.Node) { r.mapping(n, "log.cloth_off_loom", measuredKeys(&l.OffLoom), nil) },
		"cloth_finished": func(n *yaml.Node) { r.mapping(n, "log.cloth_finished", measuredKeys(&l.Finished), nil) },
	})
}

// logItemKeys are the keys of what the parts after "log" lead to: an entry by
// its number from 1, or the cloth measured.
func logItemKeys(l *Log, parts []string) []key {
	switch parts[0] {
	case "skeins":
		return numbered(l.Skeins, parts[1:], skeinKeys)
	case "woven":
		return numbered(l.Woven, parts[1:], wovenKeys)
	case "worked":
		return numbered(l.Worked, parts[1:], workedKeys)
	case "cloth_off_loom":
		return measuredKeys(&l.OffLoom)
	case "cloth_finished":
		return measuredKeys(&l.Finished)
	}
	return nil
}

func numbered[T any](list []T, parts []string, keys func(*T) []key) []key {
	if len(parts) != 1 {
		return nil
	}
	if i, err := strconv.Atoi(parts[0]); err == nil && i >= 1 && i <= len(list) {
		return keys(&list[i-1])
	}
	return nil
}

func (p *Plan) fillLog(root *yaml.Node) {
	n := child(root, "log")
	made := n == nil || n.Kind != yaml.MappingNode
	if made {
		n = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	}
	fillNumbered(n, "skeins", p.Log.Skeins, skeinKeys)
	fillNumbered(n, "woven", p.Log.Woven, wovenKeys)
	fillNumbered(n, "worked", p.Log.Worked, workedKeys)
	putBelow(n, "cloth_off_loom", measuredKeys(&p.Log.OffLoom), measuredKeys(&MeasuredCloth{}))
	putBelow(n, "cloth_finished", measuredKeys(&p.Log.Finished), measuredKeys(&MeasuredCloth{}))
	if made && len(n.Content) > 0 {
		put(root, "log", n, nil)
	}
}

// fillNumbered brings a list of mappings without names to the items. An item
// keeps the node, comments and all, of the one that says most of the same.
func fillNumbered[T any](root *yaml.Node, name string, items []T, keys func(*T) []key) {
	if len(items) == 0 {
		put(root, name, nil, nil)
		return
	}
	old := child(root, name)
	if old == nil || old.Kind != yaml.SequenceNode {
		put(root, name, &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}, nil)
		old = child(root, name)
	}
	was, nodes := old.Content, make([]*yaml.Node, len(items))
	var empty T
	most := len(keys(&empty))
	for alike := most; alike > most/2; alike-- {
		for i := range items {
			at := slices.IndexFunc(was, func(n *yaml.Node) bool { return saysOf(n, keys(&items[i]), keys(&empty)) >= alike })
			if nodes[i] == nil && at >= 0 {
				nodes[i], was = was[at], slices.Delete(slices.Clone(was), at, at+1)
			}
		}
	}
	old.Content = nil
	for i := range items {
		if nodes[i] == nil {
			nodes[i] = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Style: yaml.FlowStyle}
		}
		putKeys(nodes[i], keys(&items[i]), keys(&empty))
		old.Content = append(old.Content, nodes[i])
	}
}

// saysOf is how many of the keys a node gives the value that they have.
func saysOf(n *yaml.Node, keys, defaults []key) int {
	count := 0
	for i, k := range keys {
		v, there := k.write(), child(n, k.name)
		if there == nil {
			there = defaults[i].write()
		}
		if v == nil && there == nil || v != nil && there != nil && same(v, there) {
			count++
		}
	}
	return count
}

func logSchema() object {
	of := func(keys []key) object { return mapping(keys) }
	return object{"type": "object", "additionalProperties": false, "properties": object{
		"skeins": listOf(of(skeinKeys(&Skein{}))), "woven": listOf(of(wovenKeys(&Woven{}))), "worked": listOf(of(workedKeys(&Worked{}))),
		"cloth_off_loom": of(measuredKeys(&MeasuredCloth{})), "cloth_finished": of(measuredKeys(&MeasuredCloth{})),
	}}
}

// log refuses skeins of a yarn that there is none of, and hours on a lot that there is none of.
func (c *checker) log() {
	var yarns []string
	for _, y := range c.plan.Yarns {
		yarns = append(yarns, y.Name)
	}
	for i, s := range c.plan.Log.Skeins {
		if !slices.Contains(yarns, s.Yarn) {
			c.wrong(fmt.Sprintf("log.skeins[%d].yarn", i+1), fmt.Sprintf("is %q, but there is no yarn of that name", s.Yarn), oneOf(yarns))
		}
	}
	for i, w := range c.plan.Log.Worked {
		known := slices.ContainsFunc(c.plan.Fleeces, func(f cloth.Fleece) bool { return f.Name == w.Of })
		if w.Of != "" && !known && !slices.Contains(yarns, w.Of) {
			c.wrong(fmt.Sprintf("log.worked[%d].of", i+1), fmt.Sprintf("is %q, but there is no yarn or lot of that name", w.Of), "the name of a yarn or a fleece, or nothing")
		}
	}
}
