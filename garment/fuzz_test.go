package garment

import (
	"math"
	"testing"

	"ellwand/geometry"
)

// FuzzPiecing cuts an outline of any bytes apart along any lines: what can be
// cut leaves plain parts, loses no cloth and no stretch of an edge, and its
// piecing seams have two sides of one length.
func FuzzPiecing(f *testing.F) {
	f.Add([]byte{0, 1, 20, 0, 0, 80, 0, 80, 40, 0, 40})
	f.Add([]byte{1, 2, 40, 60, 0, 0, 100, 0, 100, 50, 50, 10, 0, 50})
	f.Add([]byte{1, 1, 0, 0, 0, 100, 0, 50, 80})
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) < 4 {
			return
		}
		along, n := raw[0]%2 == 1, 1+int(raw[1]%4)
		if len(raw) < 2+n {
			return
		}
		var at []float64
		for k, v := range raw[2 : 2+n] {
			at = append(at, float64(v)/2)
			if k > 0 && at[k] <= at[k-1] {
				return // the least first
			}
		}
		var corners []geometry.Point
		for rest := raw[2+n:]; len(rest) >= 2 && len(corners) < 30; rest = rest[2:] {
			corners = append(corners, geometry.Point{X: float64(rest[0]) / 2, Y: float64(rest[1]) / 3})
		}
		outline, err := geometry.New(corners)
		if err != nil {
			return
		}
		whole := Piece{Name: "piece", Copies: 1, Grain: GrainWarp, Outline: outline}
		for j := range outline {
			whole.Edges = append(whole.Edges, Edge{Name: []string{"left", "end", "right"}[j%3], Finish: FinishSeam})
		}
		cut, err := PieceApart(Garment{Pieces: []Piece{whole}}, "piece", along, at)
		if err != nil {
			return
		}
		area, edges := 0.0, map[string]float64{}
		for _, p := range cut.Pieces {
			if err := geometry.Validate(p.Outline); err != nil || len(p.Edges) != len(p.Outline) {
				t.Fatalf("%s: %v, %d edges for %d corners", p.Name, err, len(p.Edges), len(p.Outline))
			}
			area += p.Outline.Area()
			for name, l := range EdgeLengthsCM(p) {
				edges[name] += l
			}
		}
		if len(cut.Pieces) != n+1 || math.Abs(area-outline.Area()) > 1e-6*(1+area) {
			t.Fatalf("%d parts of %g cm², the whole %g", len(cut.Pieces), area, outline.Area())
		}
		for name, l := range EdgeLengthsCM(whole) {
			if math.Abs(edges[name]-l) > 1e-6*(1+l) {
				t.Fatalf("%s is %g cm on the parts, %g on the whole", name, edges[name], l)
			}
		}
		for _, s := range cut.Seams {
			a, errA := SideLengthCM(cut, s.A)
			b, errB := SideLengthCM(cut, s.B)
			if errA != nil || errB != nil || math.Abs(a-b) > 1e-6 {
				t.Fatalf("%s: %g and %g cm (%v, %v)", s.Name, a, b, errA, errB)
			}
		}
	})
}
