package flat

import (
	"math"
	"strings"
	"testing"

	"ellwand/garment"
)

func handBody() garment.Body {
	return garment.Body{Table: "men", CM: map[garment.Measure]float64{garment.Stature: 176, garment.BustGirth: 98}}
}

// every drafts each garment with each option for the two middling bodies.
func every(t *testing.T, f func(name string, g garment.Garment, d Drawing)) {
	t.Helper()
	n := 0
	for _, d := range garment.Drafts() {
		for _, params := range garment.EveryOption(d, false) {
			g, err := garment.Draft(d.Key, handBody(), params)
			if err != nil {
				t.Fatal(err)
			}
			n++
			f(d.Key+" "+paramsText(params), g, Lay(g))
		}
	}
	t.Logf("%d garments laid flat", n)
}

func paramsText(params map[string]float64) string {
	var out []string
	for k, v := range params {
		out = append(out, k+"="+string(rune('0'+int(v))))
	}
	return strings.Join(out, " ")
}

// Every piece and every seam of every garment is seen in some view, and every
// draft has two sides.
func TestEveryPieceAndSeamIsSeen(t *testing.T) {
	every(t, func(name string, g garment.Garment, d Drawing) {
		pieces, seams := map[string]bool{}, map[string]bool{}
		for _, v := range d.Views {
			for _, p := range v.Parts {
				pieces[p.Piece] = true
			}
			for _, s := range v.Seams {
				seams[s.Name] = true
			}
		}
		if len(d.Views) < 2 {
			t.Errorf("%s: %d views", name, len(d.Views))
		}
		for _, p := range g.Pieces {
			if !pieces[p.Name] {
				t.Errorf("%s: %s is not seen", name, p.Name)
			}
		}
		for _, s := range g.Seams {
			underneath := strings.Contains(s.Name, "bottom") // of a bag that stands
			if !seams[s.Name] && !strings.Contains(s.Name, "facing") && !underneath {
				t.Errorf("%s: the seam %s is not seen", name, s.Name)
			}
		}
	})
}

// Cloth laid flat is no longer and no shorter than it was cut: every straight
// edge keeps its length, those of gussets to a tenth, and of strips laid round a
// curve along their own edge.
func TestLengthsStayAsTheyAreCut(t *testing.T) {
	checked := 0
	every(t, func(name string, g garment.Garment, d Drawing) {
		for _, v := range d.Views {
			for _, p := range v.Parts {
				piece, _ := g.Piece(p.Piece)
				lengths := garment.EdgeLengthsCM(piece)
				for _, e := range p.Edges {
					if want, ok := lengths[e.Name]; ok && e.Kind != KindFold && !strings.Contains(p.Piece, "strap") && !strings.Contains(p.Piece, "loop") && p.Piece != "middle strip" {
						got, slack := lineLength(e.Line), 0.02+want*1e-6
						if strings.Contains(p.Piece, "gusset") {
							slack = want * 0.15
						}
						if got > want+slack {
							t.Errorf("%s, %s: %s of %s is %.2f cm, cut %.2f cm", name, v.Name, e.Name, p.Piece, got, want)
						}
						checked++
					}
				}
			}
		}
	})
	if checked < 2000 {
		t.Errorf("only %d edges looked at", checked)
	}
}

func lineLength(line []point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += between(line[i-1], line[i])
	}
	return sum
}

// What is called left lies on the wearer's left: to the reader's right in front,
// to the reader's left behind.
func TestLeftIsTheWearersLeft(t *testing.T) {
	checked := 0
	every(t, func(name string, g garment.Garment, d Drawing) {
		for _, v := range d.Views {
			sign := map[string]float64{"front": 1, "back": -1, "right side, spread out": -1, "wrong side, spread out": 1}[v.Name]
			if sign == 0 || g.Draft == "bag" {
				continue // a bag's sides are called as one looks at its front
			}
			box := v.Bounds()
			mid := (box.MinX + box.MaxX) / 2
			for _, s := range v.Seams {
				x := middle(s.Line).X - mid
				for word, side := range map[string]float64{"left": sign, "right": -sign} {
					if hasWord(s.Name, word) && math.Abs(x) > 0.5 {
						checked++
						if x*side < 0 && !strings.Contains(s.Name, "facing") {
							t.Errorf("%s, %s: %s lies %.1f cm from the middle", name, v.Name, s.Name, x)
						}
					}
				}
			}
			for _, p := range v.Parts {
				for _, e := range p.Edges {
					if p.Piece == "body" && hasWord(e.Name, "left") && e.Kind != KindFold && (middle(e.Line).X-mid)*sign < -0.5 {
						t.Errorf("%s, %s: the edge %s is on the wrong side", name, v.Name, e.Name)
					}
				}
			}
		}
	})
	if checked < 500 {
		t.Errorf("only %d seams looked at", checked)
	}
}

// The hem of a tunic laid flat is the hem that the draft gives.
func TestHemComesOutRoundTheGarment(t *testing.T) {
	for _, params := range []map[string]float64{nil, {"side_gores": 4}, {"centre_gores": 0}, {"middle_seams": 1}, {"body_in_one": 0}} {
		g, err := garment.Draft("tunic", handBody(), params)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := g.SizeCM("hem_girth_cm")
		got := 0.0
		for _, v := range Lay(g).Views {
			for _, p := range v.Parts {
				for _, e := range p.Edges {
					if strings.Contains(e.Name, "hem") || e.Name == "base" {
						got += lineLength(e.Line)
					}
				}
			}
		}
		if math.Abs(got-want) > 0.1 {
			t.Errorf("%v: %.1f cm of hem, the draft gives %.1f cm", params, got, want)
		}
	}
}

// The same garment is laid the same way.
func TestSameGarmentSameDrawing(t *testing.T) {
	g, err := garment.Draft("coat", handBody(), nil)
	if err != nil {
		t.Fatal(err)
	}
	a, b := Lay(g), Lay(g)
	for i := range a.Views {
		if a.Views[i].Bounds() != b.Views[i].Bounds() || len(a.Views[i].Seams) != len(b.Views[i].Seams) {
			t.Error("a coat is laid in two ways")
		}
	}
}

// Pieces of one's own are laid by the seams that the plan pairs.
func TestOwnPiecesAreLaidBySeams(t *testing.T) {
	a, ea, _ := garment.FromShape("rectangle", map[string]float64{"length_cm": 50, "width_cm": 20})
	b, eb, _ := garment.FromShape("rectangle", map[string]float64{"length_cm": 30, "width_cm": 20})
	ea[1].Finish, eb[3].Finish = garment.FinishSeam, garment.FinishSeam
	g := garment.Garment{
		Pieces: []garment.Piece{{Name: "long", Copies: 1, Outline: a, Edges: ea}, {Name: "short", Copies: 1, Outline: b, Edges: eb}},
		Seams: []garment.Seam{{Name: "end", Own: true, Times: 1, A: garment.Side{Piece: "long", Edges: []string{"top"}, To: 1},
			B: garment.Side{Piece: "short", Edges: []string{"base"}, To: 1}}},
	}
	v := Lay(g).Views
	if len(v) != 1 || len(v[0].Parts) != 2 || len(v[0].Seams) != 1 {
		t.Fatalf("%d views", len(v))
	}
	if box := v[0].Bounds(); math.Abs(max(box.Width(), box.Height())-80) > 1e-6 || math.Abs(min(box.Width(), box.Height())-20) > 1e-6 {
		t.Errorf("sewn end to end they take %.1f × %.1f cm, want 80 × 20", box.Width(), box.Height())
	}
}
