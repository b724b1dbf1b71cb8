package plan

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

// FieldInfo describes a field for a form.
type FieldInfo struct {
	Path, Label, Unit, Accepted string
	Choices                     []string // the words accepted, when it is one of a few
	Min, Max                    float64
}

// fieldKey finds the key that a path names in p: "cloth.take_up",
// "yarns[grey-warp].tex", "garment.ease.body_ease_cm", "pieces[belt].copies".
func fieldKey(p *Plan, path string) (key, bool) {
	parts := splitField(path)
	if len(parts) == 0 {
		return key{}, false
	}
	last := parts[len(parts)-1]
	keys := keysUnder(p, parts[:len(parts)-1])
	i := slices.IndexFunc(keys, func(k key) bool { return k.name == last })
	if i < 0 {
		return key{}, false
	}
	return keys[i], true
}

// keysUnder is the simple keys of the mapping that the parts lead to.
func keysUnder(p *Plan, parts []string) []key {
	if len(parts) == 0 {
		return topKeys(p)
	}
	if len(parts) >= 2 && parts[0] == "log" {
		return logItemKeys(&p.Log, parts[1:])
	}
	if len(parts) >= 2 {
		return keysOfItem(p, parts)
	}
	for _, s := range sections() {
		if s.name == parts[0] {
			return s.keys(p)
		}
	}
	if parts[0] == "hours" {
		own, _, _ := hoursKeys(&p.Hours)
		return own
	}
	if parts[0] == "garment" {
		return []key{draftKey(p)}
	}
	return nil
}

// keysOfItem are the keys of what a path of two parts or more names.
func keysOfItem(p *Plan, parts []string) []key {
	name := parts[1]
	switch parts[0] {
	case "garment":
		d, _ := draftOf(p.Draft)
		if name == "ease" {
			return paramKeys(p, d.Ease)
		}
		return paramKeys(p, d.Options)
	case "hours":
		return keysOfHours(p, parts[1:])
	case "match":
		return keysOfNamed(p.Matches, name, func(m *MatchSpec) string { return m.Name }, matchKeys)
	case "real_cloth":
		return p.Real.keysOf(parts[1:])
	case "choices":
		return keysOfNamed(p.Choices, name, func(c *Choice) string { return c.Component }, choiceKeys)
	case "samples":
		return keysOfNamed(p.Samples, name, func(s *cloth.Sample) string { return s.Name }, sampleKeys)
	case "yarns":
		return keysOfNamed(p.Yarns, name, func(y *cloth.Yarn) string { return y.Name }, func(y *cloth.Yarn) []key { return keysOfYarn(y, parts[2:]) })
	case "dyes":
		return keysOfNamed(p.Dyes, name, func(d *cloth.Dye) string { return d.Name }, dyeKeys)
	case "fleeces":
		return keysOfNamed(p.Fleeces, name, func(f *cloth.Fleece) string { return f.Name }, func(f *cloth.Fleece) []key { return keysOfLot(f, parts[2:]) })
	case "seams":
		return keysOfNamed(p.Seams, name, func(s *SeamSpec) string { return s.Name }, seamKeys)
	case "pieces":
		return keysOfNamed(p.Pieces, name, func(s *PieceSpec) string { return s.Name }, func(s *PieceSpec) []key {
			if s.Dims == nil {
				s.Dims = map[string]float64{}
			}
			return append(pieceKeys(s), dimKeys(s)...)
		})
	}
	return nil
}

// keysOfNamed are the keys of the first entry of a list with that name.
func keysOfNamed[T any](list []T, name string, nameOf func(*T) string, keys func(*T) []key) []key {
	for i := range list {
		if nameOf(&list[i]) == name {
			return keys(&list[i])
		}
	}
	return nil
}

func keysOfHours(p *Plan, below []string) []key {
	_, shares, rates := hoursKeys(&p.Hours)
	switch {
	case below[0] != "shares":
		return rates
	case len(below) == 2 && below[1] == "spindle_of":
		var keys []key
		for _, y := range p.Yarns {
			keys = append(keys, spindleShareKey(&p.Hours, y.Name))
		}
		return keys
	}
	return shares
}

func keysOfYarn(y *cloth.Yarn, below []string) []key {
	own, fibre := yarnKeys(y)
	switch {
	case len(below) == 1 && below[0] == "fibre":
		return fibre
	case len(below) == 1:
		_, keys := threadBelow(y)
		return keys[below[0]]
	case len(below) == 2 && below[0] == "blend":
		return numbered(y.Blend, below[1:], partKeys)
	}
	return own
}

func keysOfLot(f *cloth.Fleece, below []string) []key {
	if len(below) == 1 {
		_, keys := lotBelow(f)
		return keys[below[0]]
	}
	own, _ := fleeceKeys(f)
	return own
}

// Field describes the field at a path; false when there is none.
func Field(p *Plan, path string) (FieldInfo, bool) {
	k, ok := fieldKey(p.Clone(), path)
	return FieldInfo{path, k.label, k.unit, k.accepted, k.choices, k.min, k.max}, ok
}

// GetField is the field's value as a form shows it, "" for none.
func GetField(p *Plan, path string) string {
	k, ok := fieldKey(p.Clone(), path)
	if !ok {
		return ""
	}
	if k.shown != nil {
		return k.shown()
	}
	n := k.write()
	if n == nil {
		return ""
	}
	if n.Kind == yaml.SequenceNode {
		var parts []string
		for _, c := range n.Content {
			parts = append(parts, c.Value)
		}
		return strings.Join(parts, ", ")
	}
	return n.Value
}

// SetField sets a field from what was typed. The same is accepted, and the
// same sentence said, as for the file; on an error p is unchanged. An empty
// text takes an optional value away. Whether the plan still holds together is
// for Validate to say.
func SetField(p *Plan, path, text string) error {
	k, ok := fieldKey(p, path)
	if !ok {
		return &Problem{Field: path, Text: "is not a field of this plan"}
	}
	n := typed(k, strings.TrimSpace(text))
	if wrong := k.read(n); wrong != "" {
		return &Problem{Field: path, Text: wrong, Accepted: k.accepted}
	}
	if p.IsDefault(path) {
		p.Confirm(path)
	}
	return nil
}

// typed is the value that a text stands for in a field of that kind.
func typed(k key, text string) *yaml.Node {
	if k.typed != nil {
		return k.typed(text)
	}
	if k.kind == kindText {
		return textNode(text)
	}
	if k.kind == kindRate {
		text = typedRate(text)
	}
	if k.kind == kindNumbers || k.kind == kindTexts {
		text = "[" + strings.Trim(text, "[]") + "]"
	}
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil || len(doc.Content) != 1 {
		if text == "" {
			return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null"}
		}
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
	}
	return doc.Content[0]
}

// AddPiece adds a rectangle of one's own, under a name not yet taken.
func (p *Plan) AddPiece(name string, lengthCM, widthCM float64) error {
	for _, s := range p.Pieces {
		if s.Name == name {
			return fmt.Errorf("there is a piece named %q already; accepted is another name", name)
		}
	}
	p.Pieces = append(p.Pieces, PieceSpec{Name: name, Shape: "rectangle",
		Dims: map[string]float64{"length_cm": lengthCM, "width_cm": widthCM}})
	return nil
}
