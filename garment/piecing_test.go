package garment

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ellwand/geometry"
)

// pieceInTwo is PieceApart along one line.
func pieceInTwo(g Garment, name string, along bool, atCM float64) (Garment, error) {
	return PieceApart(g, name, along, []float64{atCM})
}

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
		in, err := pieceInTwo(g, whole.Name, along, at)
		if err != nil {
			return
		}
		cut++
		if faults := Mismatch(in); len(faults) > was {
			t.Fatalf("%s: %v", whole.Name, faults)
		}
		first, second := PartName(whole.Name, 1), PartName(whole.Name, 2)
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
	in, err := pieceInTwo(g, "gore", true, points.Bounds().MinY+10)
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
	if _, err := pieceInTwo(in, "gore part 1", true, 5); err == nil {
		t.Error("a part is pieced again under the same name of edge")
	}
}

// A panel 100 × 90 cm cut along in three: each 30 cm wide, two seams of 100 cm,
// the sides' hems on the outer parts alone, the ends shared out.
func TestPanelIsCutInThree(t *testing.T) {
	points, edges, err := FromShape("rectangle", map[string]float64{"length_cm": 100, "width_cm": 90})
	if err != nil {
		t.Fatal(err)
	}
	g := Garment{Pieces: []Piece{{Name: "panel", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges}}}
	y := points.Bounds().MinY
	in, err := PieceApart(g, "panel", true, []float64{y + 30, y + 60})
	if err != nil || len(in.Pieces) != 3 || len(in.Seams) != 2 {
		t.Fatalf("%d parts, %d seams, %v", len(in.Pieces), len(in.Seams), err)
	}
	for k, p := range in.Pieces {
		if b := p.Outline.Bounds(); p.Name != PartName("panel", k+1) || math.Abs(b.Height()-30) > 1e-9 || math.Abs(b.Width()-100) > 1e-9 {
			t.Errorf("part %d is %s, %v", k+1, p.Name, b)
		}
	}
	for k, s := range in.Seams {
		l, err := SideLengthCM(in, s.A)
		if m, err2 := SideLengthCM(in, s.B); err != nil || err2 != nil || math.Abs(l-100) > 1e-9 || math.Abs(m-100) > 1e-9 {
			t.Errorf("seam %d is %g and %g cm (%v, %v)", k+1, l, m, err, err2)
		}
	}
	if faults := Mismatch(in); len(faults) > 0 {
		t.Error(faults)
	}
}

// Every draft's pieces in three or four: what is sewn still fits, and no cloth
// is lost or won.
func TestPiecesCutInSeveralCanBeSewnUp(t *testing.T) {
	cut := 0
	rapid.Check(t, func(t *rapid.T) {
		g, i := pieceable(t)
		whole := g.Pieces[i]
		b, along, n := whole.Outline.Bounds(), rapid.Bool().Draw(t, "along"), rapid.IntRange(3, 5).Draw(t, "parts")
		var at []float64
		for k := 1; k < n; k++ {
			share := float64(k) / float64(n)
			if along {
				at = append(at, b.MinY+share*b.Height())
			} else {
				at = append(at, b.MinX+share*b.Width())
			}
		}
		was := len(Mismatch(g))
		in, err := PieceApart(g, whole.Name, along, at)
		if err != nil {
			return
		}
		cut++
		if faults := Mismatch(in); len(faults) > was {
			t.Fatalf("%s: %v", whole.Name, faults)
		}
		area := 0.0
		for k := range n {
			p, ok := in.Piece(PartName(whole.Name, k+1))
			if !ok {
				t.Fatalf("part %d is missing", k+1)
			}
			area += p.Outline.Area()
		}
		if math.Abs(area-whole.Outline.Area()) > 1e-6*area {
			t.Fatalf("the parts of %s are %g cm², the whole %g", whole.Name, area, whole.Outline.Area())
		}
	})
	if cut == 0 {
		t.Error("nothing was ever cut in three")
	}
}

// A fold across a panel is shared out; one in the cut is the seam; one beside it
// stays whole on its part.
func TestFoldsAreSharedOutBetweenParts(t *testing.T) {
	points, edges, err := FromShape("rectangle", map[string]float64{"length_cm": 100, "width_cm": 40})
	if err != nil {
		t.Fatal(err)
	}
	b := points.Bounds()
	at := func(x, y float64) geometry.Point { return geometry.Point{X: b.MinX + x, Y: b.MinY + y} }
	g := Garment{Pieces: []Piece{{Name: "panel", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges, Marks: []Mark{
		{"across", MarkFold, []geometry.Point{at(50, 0), at(50, 40)}, false, ""},
		{"middle", MarkFold, []geometry.Point{at(0, 15), at(100, 15)}, false, ""},
		{"beside", MarkFold, []geometry.Point{at(0, 30), at(100, 30)}, false, ""},
	}}}}
	in, err := pieceInTwo(g, "panel", true, b.MinY+15)
	if err != nil {
		t.Fatal(err)
	}
	long := func(part int) map[string]float64 {
		out := map[string]float64{}
		for _, m := range in.Pieces[part].Marks {
			out[m.Name] = m.lengthCM()
		}
		return out
	}
	if a, b := long(0), long(1); len(a) != 1 || math.Abs(a["across"]-15) > 1e-9 || len(b) != 2 || math.Abs(b["across"]-25) > 1e-9 || math.Abs(b["beside"]-100) > 1e-9 {
		t.Errorf("folds are %v and %v", a, b)
	}
}
