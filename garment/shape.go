package garment

import (
	"fmt"
	"sort"

	"ellwand/geometry"
)

// ArcToleranceCM is how far a chord may lie from the curve of a round piece.
const ArcToleranceCM = 0.05

// ShapeInfo describes a shape for pieces of one's own.
type ShapeInfo struct {
	Key   string
	Label string
	Dims  []string // the dimensions it needs, all in cm
	Edges []string // its edges' names, in order
}

// shapeRecipe is a shape: its description, its builder, and the finish each of
// its edges has unless the plan says otherwise.
type shapeRecipe struct {
	info  ShapeInfo
	build func(d map[string]float64) (geometry.Polygon, error)
	// name names the outline edge from a to b; nil when edges go by info.Edges in order.
	name     func(d map[string]float64, a, b geometry.Point) string
	finishes map[string]Finish // hem where not named
}

func shapeRecipes() []shapeRecipe {
	seams := func(names ...string) map[string]Finish {
		m := map[string]Finish{}
		for _, n := range names {
			m[n] = FinishSeam
		}
		return m
	}
	type dims = map[string]float64
	return []shapeRecipe{
		{ShapeInfo{"rectangle", "Rectangle", []string{"length_cm", "width_cm"}, []string{"left side", "top", "right side", "base"}},
			func(d dims) (geometry.Polygon, error) { return geometry.Rectangle(d["length_cm"], d["width_cm"]) }, nil, nil},
		{ShapeInfo{"isosceles_gore", "Gore, isosceles", []string{"length_cm", "base_cm"}, []string{"left side", "right side", "base"}},
			func(d dims) (geometry.Polygon, error) { return geometry.IsoscelesGore(d["length_cm"], d["base_cm"]) }, nil, seams("left side", "right side")},
		{ShapeInfo{"right_gore", "Gore, right-angled", []string{"length_cm", "base_cm"}, []string{"straight side", "slanted side", "base"}},
			func(d dims) (geometry.Polygon, error) { return geometry.RightGore(d["length_cm"], d["base_cm"]) }, nil, seams("straight side", "slanted side")},
		{ShapeInfo{"trapezoid_gore", "Gore with a blunt top", []string{"length_cm", "base_cm", "top_cm"}, []string{"left side", "top", "right side", "base"}},
			func(d dims) (geometry.Polygon, error) {
				return geometry.TrapezoidGore(d["length_cm"], d["base_cm"], d["top_cm"])
			}, nil, seams("left side", "top", "right side")},
		{ShapeInfo{"square_gusset", "Gusset, square", []string{"side_cm"}, []string{"first side", "second side", "third side", "fourth side"}},
			func(d dims) (geometry.Polygon, error) { return geometry.SquareGusset(d["side_cm"]) }, nil, seams("first side", "second side", "third side", "fourth side")},
		{ShapeInfo{"diamond_gusset", "Gusset, diamond", []string{"long_cm", "short_cm"}, []string{"first side", "second side", "third side", "fourth side"}},
			func(d dims) (geometry.Polygon, error) { return geometry.DiamondGusset(d["long_cm"], d["short_cm"]) }, nil, seams("first side", "second side", "third side", "fourth side")},
		{ShapeInfo{"half_circle", "Half circle", []string{"radius_cm"}, []string{"curved edge", "straight edge"}},
			func(d dims) (geometry.Polygon, error) { return geometry.HalfCircle(d["radius_cm"], ArcToleranceCM) }, nameHalfCircle, nil},
		{ShapeInfo{"half_circle_cloak", "Cloak, half circle", []string{"radius_cm", "neck_radius_cm"}, []string{"hem", "right front", "neck", "left front"}},
			func(d dims) (geometry.Polygon, error) {
				return geometry.HalfCircleCloak(d["radius_cm"], d["neck_radius_cm"], ArcToleranceCM)
			}, nameCloak, nil},
	}
}

func nameHalfCircle(_ map[string]float64, a, b geometry.Point) string {
	if a.Y < 1e-9 && b.Y < 1e-9 {
		return "straight edge"
	}
	return "curved edge"
}

// nameCloak: turned so that the cloak hangs from its neck and is seen from
// behind, right side out, x = 0 comes to lie at the wearer's right.
func nameCloak(d map[string]float64, a, b geometry.Point) string {
	middle, between := d["radius_cm"], (d["radius_cm"]+d["neck_radius_cm"])/2
	straight := a.Y < 1e-6 && b.Y < 1e-6
	switch {
	case straight && a.X < middle:
		return "right front"
	case straight:
		return "left front"
	case distance(a, geometry.Point{X: middle}) > between:
		return "hem"
	}
	return "neck"
}

// Shapes are the shapes a piece of one's own may have, besides "polygon",
// which is given by its points (see FromPoints).
func Shapes() []ShapeInfo {
	var out []ShapeInfo
	for _, r := range shapeRecipes() {
		out = append(out, r.info)
	}
	return out
}

// FromShape makes the outline of a piece of one's own and names its edges.
// Dimensions are finished, in cm. An unknown shape, and a dimension that is
// missing, unknown or impossible, is an error that says what is accepted.
func FromShape(shape string, dims map[string]float64) (geometry.Polygon, []Edge, error) {
	var names []string
	for _, r := range shapeRecipes() {
		if r.info.Key == shape {
			return r.make(dims)
		}
		names = append(names, r.info.Key)
	}
	if shape == "polygon" {
		return nil, nil, fmt.Errorf("a polygon is given by its points, not by dimensions")
	}
	return nil, nil, fmt.Errorf("there is no shape %q%s", shape, didYouMean(shape, append(names, "polygon")))
}

func (r shapeRecipe) make(dims map[string]float64) (geometry.Polygon, []Edge, error) {
	wanted := map[string]bool{}
	for _, d := range r.info.Dims {
		wanted[d] = true
		if _, ok := dims[d]; !ok {
			return nil, nil, fmt.Errorf("the %s has no %s; it needs %s", r.info.Key, d, list(r.info.Dims))
		}
	}
	var given []string
	for d := range dims {
		given = append(given, d)
	}
	sort.Strings(given)
	for _, d := range given {
		if !wanted[d] {
			return nil, nil, fmt.Errorf("the %s has no dimension %q; it needs %s", r.info.Key, d, list(r.info.Dims))
		}
	}
	p, err := r.build(dims)
	if err != nil {
		return nil, nil, fmt.Errorf("the %s cannot be made: %w", r.info.Key, err)
	}
	edges := make([]Edge, len(p))
	for i := range p {
		if r.name != nil {
			edges[i].Name = r.name(dims, p[i], p[(i+1)%len(p)])
		} else {
			edges[i].Name = r.info.Edges[i]
		}
		edges[i].Finish = FinishHem
		if f, ok := r.finishes[edges[i].Name]; ok {
			edges[i].Finish = f
		}
	}
	return p, edges, nil
}

// FromPoints makes a piece of one's own from its corners in cm. Edges are
// called "edge 1" (from the first corner to the second) and so on in the order
// given, or by the names given for them in that order, and hemmed unless the
// plan says otherwise.
func FromPoints(points [][2]float64, names ...string) (geometry.Polygon, []Edge, error) {
	pts := make([]geometry.Point, len(points))
	for i, p := range points {
		pts[i] = geometry.Point{X: p[0], Y: p[1]}
	}
	if n := len(pts); n > 1 && pts[0] == pts[n-1] {
		pts = pts[:n-1]
	}
	p, err := geometry.New(pts)
	if err != nil {
		return nil, nil, fmt.Errorf("the polygon cannot be made: %w", err)
	}
	n, turned := len(p), p[0] != pts[0]
	if len(names) > 0 && len(names) != n {
		return nil, nil, fmt.Errorf("the polygon has %d edges and %d names for them; accepted is a name for each, or none", n, len(names))
	}
	edges := make([]Edge, n)
	for i := range edges {
		number := i + 1
		if turned { // clockwise corners come back in the opposite order
			number = (n-2-i+n)%n + 1
		}
		name := fmt.Sprintf("edge %d", number)
		if len(names) > 0 {
			name = names[number-1]
		}
		edges[i] = Edge{Name: name, Finish: FinishHem}
	}
	return p, edges, nil
}
