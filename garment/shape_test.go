package garment

import (
	"math"
	"strings"
	"testing"

	"ellwand/geometry"
	"pgregory.net/rapid"
)

func TestOwnPiecesNameTheirEdges(t *testing.T) {
	dims := map[string]float64{"length_cm": 60, "width_cm": 20, "base_cm": 25, "top_cm": 8, "side_cm": 10, "long_cm": 22, "short_cm": 16, "radius_cm": 120, "neck_radius_cm": 10}
	lengths := map[string]map[string]float64{
		"rectangle":         {"left side": 60, "right side": 60, "base": 20, "top": 20},
		"isosceles_gore":    {"base": 25, "left side": math.Hypot(60, 12.5), "right side": math.Hypot(60, 12.5)},
		"right_gore":        {"base": 25, "straight side": 60, "slanted side": 65},
		"trapezoid_gore":    {"base": 25, "top": 8, "left side": math.Hypot(60, 8.5)},
		"square_gusset":     {"first side": 10, "fourth side": 10},
		"diamond_gusset":    {"first side": math.Hypot(11, 8), "third side": math.Hypot(11, 8)},
		"half_circle":       {"straight edge": 240, "curved edge": math.Pi * 120},
		"half_circle_cloak": {"hem": math.Pi * 120, "neck": math.Pi * 10, "left front": 110, "right front": 110},
	}
	for _, s := range Shapes() {
		d := map[string]float64{}
		for _, k := range s.Dims {
			d[k] = dims[k]
		}
		p, edges, err := FromShape(s.Key, d)
		if err != nil {
			t.Fatal(err)
		}
		got := EdgeLengthsCM(Piece{Outline: p, Edges: edges})
		if len(got) != len(s.Edges) {
			t.Errorf("%s has edges %v, described are %v", s.Key, got, s.Edges)
		}
		for name, want := range lengths[s.Key] {
			if math.Abs(got[name]-want) > 0.002*want {
				t.Errorf("%s: %s is %g cm, want %g", s.Key, name, got[name], want)
			}
		}
	}
}

func TestPolygonKeepsItsCornersOrder(t *testing.T) {
	for _, pts := range [][][2]float64{
		{{0, 0}, {10, 0}, {10, 5}, {0, 2}},
		{{0, 0}, {0, 2}, {10, 5}, {10, 0}},
		{{0, 0}, {0, 2}, {10, 5}, {10, 0}, {0, 0}},
	} {
		p, edges, err := FromPoints(pts)
		if err != nil {
			t.Fatal(err)
		}
		got := EdgeLengthsCM(Piece{Outline: p, Edges: edges})
		for i, name := range []string{"edge 1", "edge 2", "edge 3", "edge 4"} {
			a, b := pts[i], pts[(i+1)%4]
			if want := math.Hypot(b[0]-a[0], b[1]-a[1]); math.Abs(got[name]-want) > 1e-9 {
				t.Errorf("%v: %s is %g cm, want %g", pts, name, got[name], want)
			}
		}
	}
}

func TestBadOwnPiecesAreSentences(t *testing.T) {
	for _, c := range []struct {
		shape string
		dims  map[string]float64
		want  string
	}{
		{"rectangel", nil, `there is no shape "rectangel" (did you mean "rectangle"?)`},
		{"rectangle", map[string]float64{"length_cm": 3}, "the rectangle has no width_cm; it needs length_cm and width_cm"},
		{"rectangle", map[string]float64{"length_cm": 3, "width_cm": 3, "top_cm": 1}, `the rectangle has no dimension "top_cm"`},
		{"rectangle", map[string]float64{"length_cm": -3, "width_cm": 3}, "the length is -3 cm"},
		{"half_circle_cloak", map[string]float64{"radius_cm": 10, "neck_radius_cm": 30}, "less than the cloak's radius"},
		{"polygon", nil, "given by its points"},
	} {
		if _, _, err := FromShape(c.shape, c.dims); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %v: %v; want %s", c.shape, c.dims, err, c.want)
		}
	}
	if _, _, err := FromPoints([][2]float64{{0, 0}, {1, 1}, {1, 0}, {0, 1}}); err == nil {
		t.Error("a crossing polygon is accepted")
	}
	if _, _, err := FromPoints(nil); err == nil {
		t.Error("a polygon without corners is accepted")
	}
}

func TestOwnPiecesNeverBreak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(Shapes()).Draw(t, "shape")
		d := map[string]float64{}
		for _, k := range s.Dims {
			d[k] = rapid.Float64().Draw(t, k)
		}
		if p, edges, err := FromShape(s.Key, d); err == nil && len(p) != len(edges) {
			t.Fatalf("%d sides, %d names", len(p), len(edges))
		}
	})
}

func TestAllowancesGoByFinish(t *testing.T) {
	p, edges, err := FromShape("rectangle", map[string]float64{"length_cm": 50, "width_cm": 20})
	if err != nil {
		t.Fatal(err)
	}
	own := 0.7
	edges[0] = Edge{Name: "a", Finish: FinishSeam}
	edges[1] = Edge{Name: "b", Finish: FinishSelvedge}
	edges[2] = Edge{Name: "c", Finish: FinishHem, AllowanceCM: &own}
	edges[3] = Edge{Name: "d", Finish: FinishFold}
	cut, err := CutOutline(Piece{Name: "band", Outline: p, Edges: edges}, Allowances{1.5, 3, 0.8, 2})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := cut.Bounds(), (geometry.Rect{MinX: 0, MinY: -1.5, MaxX: 50.8, MaxY: 20.7}); math.Abs(got.MinX-want.MinX)+math.Abs(got.MinY-want.MinY)+math.Abs(got.MaxX-want.MaxX)+math.Abs(got.MaxY-want.MaxY) > 1e-9 {
		t.Errorf("cut from %v, want %v", got, want)
	}
	edges[0].Finish = "glued"
	if _, err := CutOutline(Piece{Name: "band", Outline: p, Edges: edges}, DefaultAllowances()); err == nil || !strings.Contains(err.Error(), `finish "glued"`) {
		t.Errorf("a glued edge: %v", err)
	}
}
