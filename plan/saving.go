package plan

import (
	"bytes"
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

// Marshal is the plan as the text of a plan file.
func (p *Plan) Marshal() ([]byte, error) {
	root := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	if p.root != nil {
		root = copyTree(p.root)
	}
	p.fill(root)
	var buf bytes.Buffer
	e := yaml.NewEncoder(&buf)
	e.SetIndent(2)
	if err := e.Encode(root); err != nil {
		return nil, fmt.Errorf("writing the plan as YAML: %w", err)
	}
	if err := e.Close(); err != nil {
		return nil, fmt.Errorf("writing the plan as YAML: %w", err)
	}
	return []byte(p.spaced.restore(buf.String(), p.root)), nil
}

func copyTree(n *yaml.Node) *yaml.Node {
	c := *n
	c.Content = make([]*yaml.Node, len(n.Content))
	for i, k := range n.Content {
		c.Content[i] = copyTree(k)
	}
	return &c
}

// fill brings the tree to what the plan holds, changing no more than needed.
func (p *Plan) fill(root *yaml.Node) {
	def := blank()
	put(root, "ellwand", numberNode(float64(p.Version)), nil)
	put(root, "title", textNode(p.Title), nil)
	for _, s := range sections() {
		if s.name == "" {
			putKeys(root, s.keys(p), s.keys(def))
		} else {
			putBelow(root, s.name, s.keys(p), s.keys(def))
		}
		if s.name == "body" {
			p.fillGarment(under(root, "garment"))
			p.fillPieces(root)
			p.fillSeams(root)
		}
	}
	fillList(root, "yarns", p.Yarns, func(y *cloth.Yarn) string { return y.Name }, func(n *yaml.Node, y *cloth.Yarn) {
		plain := blankYarn()
		own, fibre := yarnKeys(y)
		ownDef, fibreDef := yarnKeys(&plain)
		putKeys(n, own, ownDef)
		putBelow(n, "fibre", fibre, fibreDef)
		fillThread(n, y)
		fillBlend(n, y)
	})
	fillList(root, "fleeces", p.Fleeces, func(f *cloth.Fleece) string { return f.Name }, fillLot)
	p.fillDyes(root)
	p.fillHours(root)
	fillList(root, "choices", p.Choices, func(c *Choice) string { return c.Component }, func(n *yaml.Node, c *Choice) {
		putKeys(n, choiceKeys(c), choiceKeys(&Choice{}))
	})
	p.fillSamples(root)
	p.fillLog(root)
	p.fillMatches(root)
	p.fillRealCloth(root)
	p.fillLay(root)
}

func (p *Plan) fillGarment(n *yaml.Node) {
	putKeys(n, []key{draftKey(p)}, []key{draftKey(blank())})
	d, _ := draftOf(p.Draft)
	putBelow(n, "ease", paramKeys(p, d.Ease), paramKeys(blank(), d.Ease))
	putBelow(n, "options", paramKeys(p, d.Options), paramKeys(blank(), d.Options))
}

func (p *Plan) fillPieces(root *yaml.Node) {
	fillList(root, "pieces", p.Pieces, func(s *PieceSpec) string { return s.Name }, func(n *yaml.Node, s *PieceSpec) {
		def := &PieceSpec{}
		putKeys(n, append(pieceKeys(s), dimKeys(s)...), append(pieceKeys(def), dimKeys(def)...))
		put(n, "points", pointsNode(s.Points), nil)
		fillEdges(n, s)
	})
}

func pointsNode(points [][2]float64) *yaml.Node {
	if len(points) == 0 {
		return nil
	}
	n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
	for _, v := range points {
		n.Content = append(n.Content, &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle,
			Content: []*yaml.Node{numberNode(v[0]), numberNode(v[1])}})
	}
	return n
}

// fillEdges brings the edges of a piece to what the plan holds of them.
func fillEdges(piece *yaml.Node, s *PieceSpec) {
	names := sortedKeys(s.Finish)
	for _, name := range sortedKeys(s.AllowanceCM) {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		put(piece, "edges", nil, nil)
		return
	}
	slices.Sort(names)
	edges := under(piece, "edges")
	for i := 0; i+1 < len(edges.Content); i += 2 {
		if !slices.Contains(names, edges.Content[i].Value) {
			edges.Content = slices.Delete(edges.Content, i, i+2)
			i -= 2
		}
	}
	for _, name := range names {
		if child(edges, name) == nil {
			put(edges, name, &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Style: yaml.FlowStyle}, nil)
		}
		var finish, allowance *yaml.Node
		if f, ok := s.Finish[name]; ok {
			finish = textNode(string(f))
		}
		if cm, ok := s.AllowanceCM[name]; ok {
			allowance = numberNode(cm)
		}
		edge := under(edges, name)
		put(edge, "finish", finish, nil)
		put(edge, "allowance_cm", allowance, nil)
	}
}

func (p *Plan) fillLay(root *yaml.Node) {
	if p.Lay == nil {
		put(root, "lay", nil, nil)
		return
	}
	n := under(root, "lay")
	putKeys(n, layKeys(p.Lay), layKeys(&SavedLay{}))
	list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
	was := map[string]*yaml.Node{}
	if old := child(n, "placements"); old != nil {
		for _, item := range old.Content {
			if id := child(item, "id"); id != nil {
				was[id.Value] = item
			}
		}
	}
	for i := range p.Lay.Placements {
		item := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Style: yaml.FlowStyle}
		putKeys(item, placementKeys(&p.Lay.Placements[i]), placementKeys(&SavedPlacement{}))
		if old := was[p.Lay.Placements[i].ID]; old != nil {
			item.HeadComment, item.LineComment, item.FootComment = old.HeadComment, old.LineComment, old.FootComment
		}
		list.Content = append(list.Content, item)
	}
	put(n, "placements", list, nil)
}

// under is the mapping at a key, made when it is not there.
func under(n *yaml.Node, name string) *yaml.Node {
	c := child(n, name)
	if c == nil || c.Kind != yaml.MappingNode {
		c = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
		put(n, name, c, nil)
	}
	return c
}

// putBelow is putKeys for a mapping that is left out when nothing is in it.
func putBelow(n *yaml.Node, name string, keys, defaults []key) {
	c := child(n, name)
	made := c == nil || c.Kind != yaml.MappingNode
	if made {
		c = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	}
	for i := 0; i+1 < len(c.Content); i += 2 {
		if !slices.ContainsFunc(keys, func(k key) bool { return k.name == c.Content[i].Value }) {
			c.Content = slices.Delete(c.Content, i, i+2)
			i -= 2
		}
	}
	putKeys(c, keys, defaults)
	if made && len(c.Content) > 0 {
		put(n, name, c, nil)
	}
}

func putKeys(n *yaml.Node, keys, defaults []key) {
	for i, k := range keys {
		def := defaults[i].write()
		if k.required {
			def = nil
		}
		put(n, k.name, k.write(), def)
	}
}

// put sets a key's value. A value that means the same is left as it was
// written; a missing key stays missing while its value is the default; no
// value takes the key away.
func put(n *yaml.Node, name string, value, byDefault *yaml.Node) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value != name {
			continue
		}
		switch old := n.Content[i+1]; {
		case value == nil:
			n.Content = slices.Delete(n.Content, i, i+2)
		case !same(old, value):
			value.HeadComment, value.LineComment, value.FootComment = old.HeadComment, old.LineComment, old.FootComment
			n.Content[i+1] = value
		}
		return
	}
	if value == nil || byDefault != nil && same(value, byDefault) {
		return
	}
	n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: name}, value)
}

// same says whether two values mean the same, however they are written.
func same(a, b *yaml.Node) bool {
	if a.Kind != b.Kind || len(a.Content) != len(b.Content) {
		return false
	}
	for i := range a.Content {
		if !same(a.Content[i], b.Content[i]) {
			return false
		}
	}
	va, isA := number(a)
	vb, isB := number(b)
	if isA && isB {
		return va == vb
	}
	return a.Value == b.Value && a.Tag == b.Tag
}

// fillList brings a list of named mappings to the items: those already there
// are edited in place, in the plan's order.
func fillList[T any](root *yaml.Node, name string, items []T, nameOf func(*T) string, fill func(*yaml.Node, *T)) {
	old := child(root, name)
	if len(items) == 0 {
		if old != nil {
			put(root, name, nil, nil)
		}
		return
	}
	if old == nil || old.Kind != yaml.SequenceNode {
		old = &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
		put(root, name, old, nil)
		old = child(root, name)
	}
	was := old.Content
	old.Content = nil
	for i := range items {
		item := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
		for _, n := range was {
			if label := child(n, "name"); label != nil && label.Value == nameOf(&items[i]) {
				item = n
			} else if label := child(n, "component"); label != nil && label.Value == nameOf(&items[i]) {
				item = n
			}
		}
		fill(item, &items[i])
		old.Content = append(old.Content, item)
	}
}
