package plan

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/garment"
)

// SeamSpec pairs edges of pieces of one's own (or of drafted ones), or says of
// a drafted seam of the same name whether it shows.
type SeamSpec struct {
	Name    string
	Piece   string // empty when it is about a drafted seam
	Edges   []string
	ToPiece string
	ToEdges []string
	Times   int // in the whole garment
	Shows   bool
}

// own says whether the entry is a seam of its own.
func (s SeamSpec) own() bool { return s.Piece != "" || s.ToPiece != "" }

// Own says whether it pairs edges of pieces that are the plan's own, so that it
// outlives another draft.
func (s SeamSpec) Own(p *Plan) bool {
	for _, name := range []string{s.Piece, s.ToPiece} {
		if spec := specNamed(p, name); spec == nil || spec.Shape == "" {
			return false
		}
	}
	return true
}

func blankSeam() SeamSpec { return SeamSpec{Times: 1} }

// seamKeys are the keys of one entry of seams.
func seamKeys(s *SeamSpec) []key {
	return []key{
		need(textKey("name", "Name", &s.Name)),
		textKey("piece", "Piece", &s.Piece),
		textsKey("edges", "Its edges", &s.Edges),
		textKey("to_piece", "Sewn to", &s.ToPiece),
		textsKey("to_edges", "Edges of that", &s.ToEdges),
		integerKey("times", "Sewn how many times", &s.Times, 1, maxCopies),
		yesNoKey("shows", "Shows", &s.Shows),
	}
}

// textsKey is a short list of names.
func textsKey(name, label string, at *[]string) key {
	k := key{name: name, label: label, kind: kindTexts, accepted: fmt.Sprintf("a list of at most %d names in square brackets", maxItems)}
	k.read = func(n *yaml.Node) string {
		if n.Kind != yaml.SequenceNode || len(n.Content) > maxItems {
			return said(n)
		}
		var list []string
		for _, item := range n.Content {
			var text string
			if wrong := textKey("", "", &text).read(item); wrong != "" || text == "" {
				return "holds a name that " + said(item)
			}
			list = append(list, text)
		}
		*at = list
		return ""
	}
	k.write = func() *yaml.Node {
		if len(*at) == 0 {
			return nil
		}
		n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle}
		for _, v := range *at {
			n.Content = append(n.Content, textNode(v))
		}
		return n
	}
	return k
}

func (r *reader) seam(n *yaml.Node, field string) SeamSpec {
	s := blankSeam()
	r.mapping(n, field, seamKeys(&s), nil)
	return s
}

func (p *Plan) fillSeams(root *yaml.Node) {
	fillList(root, "seams", p.Seams, func(s *SeamSpec) string { return s.Name }, func(n *yaml.Node, s *SeamSpec) {
		def := blankSeam()
		putKeys(n, seamKeys(s), seamKeys(&def))
	})
}

func seamField(name string) string { return "seams[" + name + "]" }

// applySeams marks the drafted seams that show and adds the plan's own. An edge
// in a seam of one's own is finished as a seam unless the plan says otherwise.
func (pr *Prepared) applySeams(p *Plan) error {
	g := &pr.Garment
	g.Seams = slices.Clone(g.Seams)
	seen := map[string]bool{}
	for _, s := range p.Seams {
		if s.Name == "" || seen[s.Name] {
			return &Problem{Field: seamField(s.Name), Text: "has no name or one that is taken", Accepted: "a name that no other entry has"}
		}
		seen[s.Name] = true
		if !s.own() {
			pr.showSeam(s)
			continue
		}
		seam := garment.Seam{Name: s.Name, Times: max(1, s.Times), Shows: s.Shows, Own: true,
			A: garment.Side{Piece: s.Piece, Edges: s.Edges, To: 1}, B: garment.Side{Piece: s.ToPiece, Edges: s.ToEdges, To: 1}}
		if slices.ContainsFunc(g.Seams, func(o garment.Seam) bool { return o.Name == s.Name }) {
			return &Problem{Field: seamField(s.Name), Text: "pairs edges under a name that the draft has given to a seam of its own", Accepted: "another name"}
		}
		if err := pr.sewOwn(p, s, seam); err != nil {
			return err
		}
	}
	return nil
}

// showSeam marks every drafted seam of that name. A name that is none, as after
// an option has changed, is said and passed over.
func (pr *Prepared) showSeam(s SeamSpec) {
	found, names := false, []string{}
	for i := range pr.Garment.Seams {
		if pr.Garment.Seams[i].Name == s.Name {
			pr.Garment.Seams[i].Shows, found = s.Shows, true
		}
		names = append(names, pr.Garment.Seams[i].Name)
	}
	if found {
		return
	}
	text := fmt.Sprintf("%s stands under seams and is no seam of this garment as it is now", s.Name)
	if n := nearest(s.Name, names); n != "" {
		text += fmt.Sprintf(" (did you mean %q?)", n)
	}
	pr.Cautions = append(pr.Cautions, text+"; it is passed over.")
}

// sewOwn adds a seam of the plan's own, and says when its sides differ.
func (pr *Prepared) sewOwn(p *Plan, s SeamSpec, seam garment.Seam) error {
	for i, side := range []garment.Side{seam.A, seam.B} {
		key := []string{"piece", "to_piece"}[i]
		at := slices.IndexFunc(pr.Garment.Pieces, func(q garment.Piece) bool { return q.Name == side.Piece })
		if at < 0 {
			return unknownSeamPiece(s, key, side.Piece, pr.Garment.Pieces)
		}
		piece := &pr.Garment.Pieces[at]
		if len(side.Edges) == 0 {
			return &Problem{Field: seamField(s.Name) + "." + []string{"edges", "to_edges"}[i], Text: "names no edge", Accepted: edgeNamesOf(*piece)}
		}
		piece.Edges, piece.Marks = slices.Clone(piece.Edges), slices.Clone(piece.Marks)
		for _, edge := range side.Edges {
			if spec := specNamed(p, piece.Name); spec == nil || spec.Finish[edge] == "" {
				if err := setFinish(piece, edge, garment.FinishSeam); err != nil {
					return &Problem{Field: seamField(s.Name) + "." + []string{"edges", "to_edges"}[i], Text: fmt.Sprintf("names %q, an edge that %s does not have", edge, piece.Name), Accepted: edgeNamesOf(*piece)}
				}
			}
		}
	}
	pr.Garment.Seams = append(pr.Garment.Seams, seam)
	if text := SeamGap(pr.Garment, seam); text != "" {
		pr.Cautions = append(pr.Cautions, text)
	}
	return nil
}

// SeamGap says how far the two sides of a seam differ in length; "" when they
// do not, or when a side is not there.
func SeamGap(g garment.Garment, s garment.Seam) string {
	a, errA := garment.SideLengthCM(g, s.A)
	b, errB := garment.SideLengthCM(g, s.B)
	if errA != nil || errB != nil || max(a, b)-min(a, b) <= garment.SeamToleranceCM {
		return ""
	}
	return fmt.Sprintf("The seam %s does not match: %s of %s is %.1f cm and %s of %s is %.1f cm; %.1f cm are to be eased in or cut away.",
		s.Name, strings.Join(s.A.Edges, " and "), s.A.Piece, a, strings.Join(s.B.Edges, " and "), s.B.Piece, b, max(a, b)-min(a, b))
}

// ShowSeam says whether a seam, drafted or of the plan's own, shows.
func (p *Plan) ShowSeam(name string, shows bool) {
	for i := range p.Seams {
		if p.Seams[i].Name != name {
			continue
		}
		p.Seams[i].Shows = shows
		if !shows && !p.Seams[i].own() {
			p.Seams = slices.Delete(p.Seams, i, i+1)
		}
		return
	}
	if shows {
		s := blankSeam()
		s.Name, s.Shows = name, true
		p.Seams = append(p.Seams, s)
	}
}

func specNamed(p *Plan, name string) *PieceSpec {
	for i := range p.Pieces {
		if p.Pieces[i].Name == name {
			return &p.Pieces[i]
		}
	}
	return nil
}

func edgeNamesOf(piece garment.Piece) string {
	var names []string
	for _, e := range garment.EdgeFinishes(piece) {
		names = append(names, e.Name)
	}
	return strings.Join(names, ", ")
}

func unknownSeamPiece(s SeamSpec, key, name string, pieces []garment.Piece) error {
	var names []string
	for _, q := range pieces {
		names = append(names, q.Name)
	}
	text := fmt.Sprintf("is %q, which is none of the pieces", name)
	if n := nearest(name, names); n != "" {
		text += fmt.Sprintf(" (did you mean %q?)", n)
	}
	return &Problem{Field: seamField(s.Name) + "." + key, Text: text, Accepted: strings.Join(names, ", ")}
}
