package plan

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"ellwand/garment"
)

func pieceKeys(s *PieceSpec) []key {
	shapes := []string{"", "polygon"}
	for _, i := range garment.Shapes() {
		shapes = append(shapes, i.Key)
	}
	shape := wordKey("shape", "Shape", &s.Shape, shapes...)
	shape.accepted = oneOf(shapes[1:])
	grain := wordKey("grain", "Grain", &s.Grain, "", garment.GrainWarp, garment.GrainWeft, garment.GrainFree)
	grain.accepted = oneOf(grain.choices[1:])
	return append([]key{need(textKey("name", "Name", &s.Name)), shape, grain, copiesKey(s), textsKey("edge_names", "Names of its edges", &s.EdgeNames)}, piecingKeys(s)...)
}

func copiesKey(s *PieceSpec) key {
	const most = maxCopies
	k := key{name: "copies", label: "Copies", kind: kindInteger, accepted: fmt.Sprintf("a whole number from 0 to %d", most), max: most}
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == "" {
			s.Copies = nil
			return ""
		}
		var copies int
		if wrong := integerKey("copies", "", &copies, 0, most).read(n); wrong != "" {
			return wrong
		}
		s.Copies = &copies
		return ""
	}
	k.write = func() *yaml.Node {
		if s.Copies == nil {
			return nil
		}
		return numberNode(float64(*s.Copies))
	}
	return k
}

// dimNames are all dimensions that any shape has.
func dimNames() []string {
	var names []string
	for _, s := range garment.Shapes() {
		for _, d := range s.Dims {
			if !slices.Contains(names, d) {
				names = append(names, d)
			}
		}
	}
	return names
}

func dimKeys(s *PieceSpec) []key {
	var keys []key
	for _, d := range dimNames() {
		keys = append(keys, mapKey(d, d, "cm", 0.01, 5000, s.Dims, d))
	}
	return keys
}

// piece reads an own piece, or what is changed about a drafted one.
func (r *reader) piece(n *yaml.Node, field string) PieceSpec {
	s := PieceSpec{Dims: map[string]float64{}, Finish: map[string]garment.Finish{}, AllowanceCM: map[string]float64{}}
	r.mapping(n, field, append(pieceKeys(&s), dimKeys(&s)...), map[string]func(*yaml.Node){
		"points": func(n *yaml.Node) { s.Points = r.points(n, join(field, "points")) },
		"edges":  func(n *yaml.Node) { r.edges(n, join(field, "edges"), &s) },
	})
	return s
}

func (r *reader) points(n *yaml.Node, field string) [][2]float64 {
	const accepted = "a list of at most 2000 corners, each [x, y] in cm"
	if n.Kind != yaml.SequenceNode {
		r.wrong(n, field, said(n), accepted)
		return nil
	}
	if len(n.Content) > 2000 {
		r.wrong(n, field, fmt.Sprintf("holds %d corners", len(n.Content)), accepted)
		return nil
	}
	var out [][2]float64
	for _, c := range n.Content {
		var xy []float64
		k := numbersKey("", "", "cm", &xy, bounds{min: -5000, max: 5000})
		if wrong := k.read(c); wrong != "" || len(xy) != 2 {
			r.wrong(c, field, "holds a corner that "+said(c), accepted)
			return nil
		}
		out = append(out, [2]float64{xy[0], xy[1]})
	}
	return out
}

// edges reads, by edge name, a finish (hem) or an allowance in cm (2.5), or both: {finish: hem, allowance_cm: 2.5}.
func (r *reader) edges(n *yaml.Node, field string, s *PieceSpec) {
	if n.Kind != yaml.MappingNode {
		r.wrong(n, field, said(n), "edges by name, for example `hem: {finish: hem, allowance_cm: 3}`")
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		name := n.Content[i].Value
		var finish garment.Finish
		keys := []key{
			wordKey("finish", "Finish", &finish, garment.Finishes()...),
			mapKey("allowance_cm", "Allowance", "cm", 0, 20, s.AllowanceCM, name),
		}
		r.mapping(n.Content[i+1], join(field, name), keys, nil)
		if finish != "" {
			s.Finish[name] = finish
		}
	}
}

func layKeys(l *SavedLay) []key {
	return []key{
		need(numberKey("width_cm", "Width", "cm", &l.WidthCM, bounds{min: 0, max: 500, above: true})),
		need(numberKey("length_cm", "Length", "cm", &l.LengthCM, bounds{min: 0, max: 1e6})),
		numbersKey("starts_cm", "Where each length of cloth begins", "cm", &l.StartsCM, bounds{min: 0, max: 1e6}),
	}
}

func placementKeys(s *SavedPlacement) []key {
	place := bounds{min: -1e6, max: 1e6}
	return []key{
		need(textKey("id", "Piece", &s.ID)),
		need(numberKey("x_cm", "Along", "cm", &s.X, place)),
		need(numberKey("y_cm", "Across", "cm", &s.Y, place)),
		numberKey("turn_deg", "Turn", "degrees", &s.TurnDeg, bounds{min: 0, max: 360, below: true}),
		yesNoKey("flip", "Turned over", &s.Flip),
		yesNoKey("pinned", "Pinned", &s.Pinned),
	}
}

func (r *reader) lay(n *yaml.Node) {
	if n.Kind == yaml.ScalarNode && n.Tag == "!!null" {
		return
	}
	l := &SavedLay{}
	r.mapping(n, "lay", layKeys(l), map[string]func(*yaml.Node){
		"placements": func(n *yaml.Node) {
			readList(r, n, "lay.placements", &l.Placements, func(n *yaml.Node, field string) SavedPlacement {
				var s SavedPlacement
				r.mapping(n, field, placementKeys(&s), nil)
				return s
			})
		},
	})
	r.plan.Lay = l
}
