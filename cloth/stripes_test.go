package cloth

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Worked by hand. 10 cm in a reed of 50 per 10 cm, 2 to the dent: 50 dents, 100
// ends, and 6 doubled at the selvedges. Three ends at each selvedge are red as
// the doubled ones are: 94 ends lie in the order 20 grey, 4 red: three rounds of
// 24 and 20 grey, 2 red: grey 80, red 12 + 2 + 6 + 6 = 26. A 1 m warp: 80 m and
// 26 m. 1000 picks of 10 cm in the order 3 grey, 1 blue: 750 and 250: 75 and 25 m.
// 20 cm of heading at 10 picks: 200 picks of 10 cm = 20 m blue.
func stripedBand() Input {
	in := simple()
	in.Setting.SelvedgeExtraEnds, in.Setting.SelvedgeEnds, in.Setting.SelvedgeYarn = 6, 3, "red"
	in.Setting.WarpOrder = []Stripe{{"grey", 20}, {"red", 4}}
	in.Setting.WeftOrder = []Stripe{{"grey", 3}, {"blue", 1}}
	in.Setting.HeadingYarn, in.Setting.HeadingCM = "blue", 20
	in.Warp = Yarn{Name: "grey", Tex: 100}
	in.Weft = in.Warp
	in.Others = []Yarn{{Name: "red", Tex: 200}, {Name: "blue", Tex: 50}}
	return in
}

func TestStripedBandWorkedByHand(t *testing.T) {
	r := reckon(t, stripedBand())
	want := []struct {
		name                   string
		ends, picks            int
		lengthM, massG, warpCM float64
	}{
		{"grey", 80, 750, 80*1.2 + 75, (80*1.2 + 75) / 10, 0},
		{"red", 26, 0, 26 * 1.2, 26 * 1.2 / 5, 0},
		{"blue", 0, 250, 25 + 20, 45.0 / 20, 0},
	}
	if len(r.Yarns) != len(want) {
		t.Fatalf("%d yarns, want %d", len(r.Yarns), len(want))
	}
	for i, n := range r.Yarns {
		if n.Name != want[i].name || n.Ends != want[i].ends || n.Picks != want[i].picks {
			t.Errorf("%s: %d ends and %d picks, want %+v", n.Name, n.Ends, n.Picks, want[i])
		}
		near(t, n.Name+" in m", n.LengthM, want[i].lengthM, 1e-9)
		near(t, n.Name+" in g", n.MassG, want[i].massG, 1e-9)
	}
	if first, last := r.WarpStripes[0], r.WarpStripes[len(r.WarpStripes)-1]; first != (Stripe{"red", 6}) || last != (Stripe{"red", 8}) {
		t.Errorf("selvedges are %v and %v; want 3 + 3 red, and 2 + 3 + 3 red", first, last)
	}
	// In the cloth: 80 ends × 1 m and 75 m of weft of 100 tex, 26 m of 200, 25 m of 50; 0.1 m².
	near(t, "g/m²", r.MassGPerM2, (155*0.1+26*0.2+25*0.05)/0.1, 1e-9)
}

// What is laid stripe by stripe, from selvedge to selvedge, is what is counted.
func TestStripesLaidAreStripesCounted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := stripedBand()
		turn := func(label string) []Stripe {
			var out []Stripe
			for range rapid.IntRange(0, 6).Draw(t, label) {
				out = append(out, Stripe{rapid.SampledFrom([]string{"grey", "red", "blue"}).Draw(t, "yarn"), rapid.IntRange(1, 30).Draw(t, "threads")})
			}
			return out
		}
		in.Setting.WarpOrder, in.Setting.WeftOrder = turn("warp"), turn("weft")
		in.Setting.SelvedgeEnds = rapid.IntRange(0, 80).Draw(t, "own")
		in.Setting.SelvedgeExtraEnds = rapid.IntRange(0, 9).Draw(t, "doubled")
		r, err := Reckon(in)
		if err != nil {
			t.Fatal(err)
		}
		count := func(list []Stripe, name string) (n int) {
			for _, s := range list {
				if s.Yarn == name {
					n += s.Threads
				}
			}
			return n
		}
		ends, picks := 0, 0
		for _, y := range r.Yarns {
			if count(r.WarpStripes, y.Name) != y.Ends || count(r.WeftStripes, y.Name) != y.Picks {
				t.Fatalf("%s: laid %d ends and %d picks, counted %d and %d", y.Name, count(r.WarpStripes, y.Name), count(r.WeftStripes, y.Name), y.Ends, y.Picks)
			}
			ends, picks = ends+y.Ends, picks+y.Picks
		}
		if ends != r.Ends || picks != r.Picks {
			t.Fatalf("%d ends and %d picks of %d and %d", ends, picks, r.Ends, r.Picks)
		}
	})
}

// The longest cloth that striped yarns in hand allow can be woven, and a pick
// more cannot.
func TestLongestStripedClothUsesUpAYarn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := stripedBand()
		in.Setting.TakeUp, in.Setting.ShrinkLength = 0.08, 0.1
		for i := range in.Others {
			in.Others[i].HaveInHand = rapid.Bool().Draw(t, "in hand")
			in.Others[i].InHandM = rapid.Float64Range(60, 3000).Draw(t, "m")
		}
		in.Warp.HaveInHand, in.Warp.InHandM = true, rapid.Float64Range(200, 9000).Draw(t, "grey m")
		in.Weft = in.Warp
		longest := MaxFinishedLengthCM(in)
		can := func(lengthCM float64) bool {
			in.LayLengthCM = lengthCM
			r, err := Reckon(in)
			if err != nil {
				t.Fatal(err)
			}
			return len(r.Shortfalls) == 0
		}
		if longest > 1 && !can(longest-1e-6) {
			t.Fatalf("%g cm cannot be woven", longest)
		}
		// Blue is one pick in four, so that a yarn may wait three picks for its turn.
		if can(longest + 4.1/in.Setting.FinishedPicksPerCM) {
			t.Fatalf("%g cm is said to be the longest, but a round of picks more can be woven", longest)
		}
	})
}

func TestImpossibleStripesAreNamed(t *testing.T) {
	for name, spoil := range map[string]func(*Input){
		"a yarn of the warp order": func(in *Input) { in.Setting.WarpOrder = []Stripe{{"gray", 4}} },
		"the threads of red":       func(in *Input) { in.Setting.WeftOrder = []Stripe{{"red", 0}} },
		"the selvedge's yarn":      func(in *Input) { in.Setting.SelvedgeYarn = "none" },
		"the headings' yarn":       func(in *Input) { in.Setting.HeadingYarn = "none" },
		"yarn blue's tex":          func(in *Input) { in.Others = slices.Clone(in.Others); in.Others[1].Tex = math.NaN() },
	} {
		in := stripedBand()
		spoil(&in)
		var fault *FieldError
		if _, err := Reckon(in); !errors.As(err, &fault) || !strings.Contains(fault.Field, name) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}
