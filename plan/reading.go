package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
	"ellwand/garment"
)

// Load reads a plan file and checks it. What is wrong comes as Problems, each
// one sentence with file, line and field.
func Load(path string) (*Plan, error) {
	data, err := readSource(path)
	if err != nil {
		return nil, err
	}
	return Parse(data, path)
}

// Parse reads a plan from its text; name stands for the file in what is said.
func Parse(data []byte, name string) (*Plan, error) {
	root, err := parseSource(data, name)
	if err != nil {
		return nil, err
	}
	r := &reader{plan: blank(), file: name}
	r.plan.root, r.plan.spaced = root, spacingOf(root, data)
	r.plan.stamp = stampOf(data)
	r.upgradeTree(root, data)
	if r.version(root); len(r.problems) == 0 {
		r.top(root)
	}
	if len(r.problems) == 0 {
		r.problems = append(r.problems, r.plan.problems(name)...)
	}
	if len(r.problems) > 0 {
		slices.SortStableFunc(r.problems, func(a, b *Problem) int { return a.Line - b.Line })
		return nil, r.problems
	}
	return r.plan, nil
}

// reader fills a plan from a tree and gathers what is wrong with it.
type reader struct {
	plan     *Plan
	file     string
	problems Problems
}

// maxProblems is how many problems of one file are named; more tell nobody more.
const maxProblems = 100

func (r *reader) wrong(n *yaml.Node, field, text, accepted string) {
	if len(r.problems) >= maxProblems {
		return
	}
	r.problems = append(r.problems, &Problem{File: r.file, Line: n.Line, Field: field, Text: text, Accepted: accepted})
}

// child is the value of a key in a mapping, nil when it is not there.
func child(n *yaml.Node, name string) *yaml.Node {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == name {
			return n.Content[i+1]
		}
	}
	return nil
}

// maxVersion is the largest number taken for the version of a plan from a later
// program; one beyond it is a slip or a trick.
const maxVersion = 1000

func (r *reader) version(root *yaml.Node) {
	n := child(root, "ellwand")
	if n == nil {
		r.wrong(root, "ellwand", "is missing", "`ellwand: 1`, the version of the plan file")
		return
	}
	v, ok := number(n)
	switch {
	case ok && v > Version && v <= maxVersion && v == math.Trunc(v):
		r.wrong(n, "ellwand", said(n)+", a plan from a newer program than this", fmt.Sprintf("version %d; the window shows a newer plan, to be looked at only", Version))
		r.problems[len(r.problems)-1].newer = true
	case !ok || v != Version:
		r.wrong(n, "ellwand", said(n), fmt.Sprintf("version %d", Version))
	}
}

// top reads the whole file.
func (r *reader) top(root *yaml.Node) {
	p := r.plan
	below := map[string]func(*yaml.Node){
		"ellwand": func(*yaml.Node) {}, "garment": r.garment,
		"pieces":  func(n *yaml.Node) { readList(r, n, "pieces", &p.Pieces, r.piece) },
		"seams":   func(n *yaml.Node) { readList(r, n, "seams", &p.Seams, r.seam) },
		"yarns":   func(n *yaml.Node) { readList(r, n, "yarns", &p.Yarns, r.yarn) },
		"fleeces": func(n *yaml.Node) { readList(r, n, "fleeces", &p.Fleeces, r.fleece) },
		"dyes":    func(n *yaml.Node) { readList(r, n, "dyes", &p.Dyes, r.dye) },
		"hours":   r.hours,
		"choices": func(n *yaml.Node) { readList(r, n, "choices", &p.Choices, r.choice) },
		"log":     r.log,
		"samples": func(n *yaml.Node) { readList(r, n, "samples", &p.Samples, r.sample) },
		"lay":     r.lay, "real_cloth": r.realCloth,
		"match": func(n *yaml.Node) { readList(r, n, "match", &p.Matches, r.match) },
	}
	for _, s := range sections()[1:] {
		below[s.name] = func(n *yaml.Node) { r.mapping(n, s.name, s.keys(p), nil) }
	}
	r.mapping(root, "", topKeys(p), below)
	for _, s := range sections() {
		// A mistyped section is reported as that, not as all that is in it.
		if s.name != "" && child(root, s.name) == nil && len(r.problems) == 0 {
			r.missing(root, s.name, s.keys(p), nil)
		}
	}
}

// mapping reads simple keys, and hands the keys named in below to their own readers.
func (r *reader) mapping(n *yaml.Node, field string, keys []key, below map[string]func(*yaml.Node)) {
	if n.Kind != yaml.MappingNode {
		r.wrong(n, field, said(n), "a list of keys and values")
		return
	}
	var meant []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		name, value := n.Content[i], n.Content[i+1]
		inner := join(field, name.Value)
		if f, ok := below[name.Value]; ok {
			f(value)
			continue
		}
		at := slices.IndexFunc(keys, func(k key) bool { return k.name == name.Value })
		if at < 0 && len(r.problems) >= maxProblems {
			return
		}
		if at < 0 {
			meant = append(meant, r.unknown(name, inner, keys, below))
			continue
		}
		if wrong := keys[at].read(value); wrong != "" {
			r.wrong(value, inner, wrong, keys[at].accepted)
		}
	}
	// A mistyped key is reported as that, not as missing besides.
	r.missing(n, field, slices.DeleteFunc(slices.Clone(keys), func(k key) bool { return slices.Contains(meant, k.name) }), n)
}

// missing names each required key that is not in n (all of them when n is nil).
func (r *reader) missing(at *yaml.Node, field string, keys []key, n *yaml.Node) {
	for _, k := range keys {
		if k.required && child(n, k.name) == nil {
			r.wrong(at, join(field, k.name), "is missing", k.accepted)
		}
	}
}

func join(field, name string) string { return strings.TrimPrefix(field+"."+name, ".") }

// unknown says that a key is not one of ours, and gives the one that it may have
// meant, "" for none.
func (r *reader) unknown(n *yaml.Node, field string, keys []key, below map[string]func(*yaml.Node)) string {
	var known []string
	for _, k := range keys {
		known = append(known, k.name)
	}
	for name := range below {
		known = append(known, name)
	}
	slices.Sort(known)
	short := []rune(field)
	if len(short) > 80 {
		field = string(short[:80]) + "…"
	}
	if k := sameInAnotherUnit(n.Value, known); k != "" {
		r.wrong(n, field, "is in a unit that this file does not use", k)
		return k
	}
	k := nearest(n.Value, known)
	if k != "" {
		r.wrong(n, field, "is not a key here; did you mean "+k+"?", "")
	} else {
		r.wrong(n, field, "is not a key here", oneOf(known))
	}
	return k
}

// sameInAnotherUnit finds the key that differs only in its unit: stature_cm for stature_mm.
func sameInAnotherUnit(name string, known []string) string {
	stem, unit, found := cutLast(name, "_")
	if !found || !slices.Contains([]string{"mm", "cm", "m", "in", "inch", "inches", "ft", "yd", "kg", "g", "lb", "oz"}, unit) {
		return ""
	}
	for _, k := range known {
		if s, u, ok := cutLast(k, "_"); ok && s == stem && u != unit {
			return k
		}
	}
	return ""
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}

// maxItems is the most yarns, fleeces, pieces, choices or placements.
const maxItems = 5000

// readList reads a list of mappings.
func readList[T any](r *reader, n *yaml.Node, field string, into *[]T, read func(n *yaml.Node, field string) T) {
	if n.Kind == yaml.ScalarNode && n.Tag == "!!null" {
		return
	}
	accepted := fmt.Sprintf("a list of at most %d entries, each beginning with a dash", maxItems)
	if n.Kind != yaml.SequenceNode {
		r.wrong(n, field, said(n), accepted)
		return
	}
	if len(n.Content) > maxItems {
		r.wrong(n, field, fmt.Sprintf("holds %d entries", len(n.Content)), accepted)
		return
	}
	for i, item := range n.Content {
		label := fmt.Sprintf("%s[%d]", field, i+1)
		if name := child(item, "name"); name != nil && name.Value != "" && len(name.Value) <= 60 && wrongLetter(name.Value, false) == "" {
			label = fmt.Sprintf("%s[%s]", field, name.Value)
		}
		*into = append(*into, read(item, label))
	}
}

func (r *reader) yarn(n *yaml.Node, field string) cloth.Yarn {
	y := blankYarn()
	own, fibre := yarnKeys(&y)
	below := map[string]func(*yaml.Node){
		"fibre": func(n *yaml.Node) { r.mapping(n, join(field, "fibre"), fibre, nil) },
		"blend": func(n *yaml.Node) { r.blend(&y)(n, join(field, "blend")) }}
	r.thread(&y, field, below)
	r.mapping(n, field, own, below)
	return y
}

func (r *reader) fleece(n *yaml.Node, field string) cloth.Fleece {
	f := blankFleece()
	own, _ := fleeceKeys(&f)
	below := map[string]func(*yaml.Node){}
	names, keys := lotBelow(&f)
	for _, name := range names {
		below[name] = func(n *yaml.Node) { r.mapping(n, join(field, name), keys[name], nil) }
	}
	r.mapping(n, field, own, below)
	return f
}

func (r *reader) choice(n *yaml.Node, field string) Choice {
	var c Choice
	r.mapping(n, field, choiceKeys(&c), nil)
	return c
}

// draftOf is the draft with that key.
func draftOf(name string) (garment.DraftInfo, bool) {
	for _, d := range garment.Drafts() {
		if d.Key == name {
			return d, true
		}
	}
	return garment.DraftInfo{}, false
}

func draftKey(p *Plan) key {
	words := []string{""}
	for _, d := range garment.Drafts() {
		words = append(words, d.Key)
	}
	k := wordKey("draft", "Garment", &p.Draft, words...)
	k.accepted = oneOf(words[1:])
	return k
}

func paramKeys(p *Plan, params []garment.Param) []key {
	var keys []key
	for _, q := range params {
		k := mapKey(q.Key, q.Label, q.Unit, q.Min, q.Max, p.Params, q.Key)
		if len(q.Choices) > 0 {
			var words []string
			for _, c := range q.Choices {
				words = append(words, fmt.Sprintf("%s (%s)", plain(c.Value), c.Label))
			}
			k.accepted, k.choices = oneOf(words), words
		}
		read := k.read
		k.read = func(n *yaml.Node) string {
			if v, ok := number(n); ok && q.Check(v) != nil {
				return said(n)
			}
			return read(n)
		}
		keys = append(keys, k)
	}
	return keys
}

// garment reads the draft first: which ease and options there are hangs on it.
func (r *reader) garment(n *yaml.Node) {
	k := draftKey(r.plan)
	if d := child(n, "draft"); d != nil {
		if wrong := k.read(d); wrong != "" {
			if near := nearest(d.Value, k.choices[1:]); near != "" {
				wrong += ", which may mean " + near
			}
			r.wrong(d, "garment.draft", wrong, k.accepted)
			return
		}
	}
	if r.plan.Draft == "" && (child(n, "ease") != nil || child(n, "options") != nil) {
		r.wrong(n, "garment.draft", "is missing, so that ease and options belong to nothing", k.accepted)
		return
	}
	d, _ := draftOf(r.plan.Draft)
	r.mapping(n, "garment", nil, map[string]func(*yaml.Node){
		"draft":   func(*yaml.Node) {},
		"ease":    func(n *yaml.Node) { r.mapping(n, "garment.ease", paramKeys(r.plan, d.Ease), nil) },
		"options": func(n *yaml.Node) { r.mapping(n, "garment.options", paramKeys(r.plan, d.Options), nil) },
	})
}
