package garment

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// pieceable is a garment, and the number of one of its pieces.
func pieceable(t *rapid.T) (Garment, int) {
	drafts := Drafts()
	d := drafts[rapid.IntRange(0, len(drafts)-1).Draw(t, "draft")]
	g, err := Draft(d.Key, middle("men"), nil)
	if err != nil {
		t.Skip(err)
	}
	return g, rapid.IntRange(0, len(g.Pieces)-1).Draw(t, "piece")
}

func TestPiecedGarmentsCanBeSewnUpWithNothingLeftOver(t *testing.T) {
	cut := 0
	rapid.Check(t, func(t *rapid.T) {
		g, i := pieceable(t)
		whole := g.Pieces[i]
		b := whole.Outline.Bounds()
		along := rapid.Bool().Draw(t, "along")
		share := rapid.SampledFrom([]float64{0.25, 0.5, 0.6}).Draw(t, "share")
		at := b.MinX + share*b.Width()
		if along {
			at = b.MinY + share*b.Height()
		}
		was := len(Mismatch(g))
		in, err := PieceInTwo(g, whole.Name, along, at)
		if err != nil {
			return
		}
		cut++
		if faults := Mismatch(in); len(faults) > was {
			t.Fatalf("%s: %v", whole.Name, faults)
		}
		first, second := PartNames(whole.Name)
		p, _ := in.Piece(first)
		q, _ := in.Piece(second)
		if area := p.Outline.Area() + q.Outline.Area(); math.Abs(area-whole.Outline.Area()) > 1e-6*area {
			t.Fatalf("the parts of %s are %g cm², the whole %g", whole.Name, area, whole.Outline.Area())
		}
		for name, l := range EdgeLengthsCM(whole) {
			if parts := EdgeLengthsCM(p)[name] + EdgeLengthsCM(q)[name]; math.Abs(parts-l) > 1e-6 {
				t.Fatalf("%s of %s is %g cm on the parts, %g on the whole", name, whole.Name, parts, l)
			}
		}
		if a, b := EdgeLengthsCM(p)[PiecingEdge], EdgeLengthsCM(q)[PiecingEdge]; a <= 0 || math.Abs(a-b) > 1e-6 {
			t.Fatalf("the piecing edges are %g and %g cm", a, b)
		}
	})
	if cut == 0 {
		t.Error("nothing was ever cut in two")
	}
}

// A gore 60 cm long, 20 wide, cut down the middle: two halves with right angles,
// 60 cm of seam.
func TestGoreIsCutDownTheMiddle(t *testing.T) {
	points, edges, err := FromShape("isosceles_gore", map[string]float64{"length_cm": 60, "base_cm": 20})
	if err != nil {
		t.Fatal(err)
	}
	g := Garment{Pieces: []Piece{{Name: "gore", Copies: 2, Grain: GrainWarp, Outline: points, Edges: edges}}}
	in, err := PieceInTwo(g, "gore", true, points.Bounds().MinY+10)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range in.Pieces {
		if b := p.Outline.Bounds(); math.Abs(b.Height()-10) > 1e-9 || math.Abs(b.Width()-60) > 1e-9 || p.Copies != 2 {
			t.Errorf("%s is %v, %d times", p.Name, b, p.Copies)
		}
	}
	if s := in.Seams[0]; s.Times != 2 || s.Name != "gore, pieced" {
		t.Errorf("the seam is %+v", s)
	}
	if l, err := SideLengthCM(in, in.Seams[0].A); err != nil || math.Abs(l-60) > 1e-9 {
		t.Errorf("it is %g cm (%v); want 60", l, err)
	}
	if _, err := PieceInTwo(in, "gore part 1", true, 5); err == nil {
		t.Error("a part is pieced again under the same name of edge")
	}
}
