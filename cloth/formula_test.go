package cloth

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sum works a shown formula out again: numbers, ×, ÷, +, −, √, ^ and brackets, words
// passed over. It knows nothing of how the figures were made.
type sum struct {
	tokens []string
	at     int
}

var token = regexp.MustCompile(`\d+(?:\.\d+)?|[×÷+−()√^]`)

func (s *sum) next() string {
	if s.at < len(s.tokens) {
		return s.tokens[s.at]
	}
	return ""
}

func (s *sum) terms() float64 {
	v := s.factors()
	for s.next() == "+" || s.next() == "−" {
		sign := s.next()
		s.at++
		if f := s.factors(); sign == "+" {
			v += f
		} else {
			v -= f
		}
	}
	return v
}

func (s *sum) factors() float64 {
	v := s.number()
	for s.next() == "×" || s.next() == "÷" {
		op := s.next()
		s.at++
		if f := s.number(); op == "×" {
			v *= f
		} else {
			v /= f
		}
	}
	return v
}

func (s *sum) number() float64 {
	if s.next() == "√" {
		s.at++
		return math.Sqrt(s.bare())
	}
	v := s.bare()
	if s.next() == "^" {
		s.at++
		v = math.Pow(v, s.bare())
	}
	return v
}

func (s *sum) bare() float64 {
	if s.next() == "(" {
		s.at++
		v := s.terms()
		s.at++
		return v
	}
	v, err := strconv.ParseFloat(s.next(), 64)
	if err != nil {
		v = math.NaN()
	}
	s.at++
	return v
}

// units whose digits are no part of the sum.
var unitDigits = strings.NewReplacer("per 10 cm", "", "m²", "", "1-2-2", "", "1-1-2", "", "1-2", "", "2-3", "")

// again works out what comes before the last equals sign, and reads what comes after it.
func again(t interface{ Fatalf(string, ...any) }, from string) (worked, shown float64) {
	parts := strings.Split(unitDigits.Replace(from), " = ")
	if len(parts) < 2 {
		t.Fatalf("%q has no equals sign", from)
	}
	formula := parts[len(parts)-2]
	if i := strings.LastIndex(formula, ": "); i >= 0 {
		formula = formula[i:]
	}
	formula, _, _ = strings.Cut(formula, ";")
	s := &sum{tokens: token.FindAllString(formula, -1)}
	worked = s.terms()
	if s.at != len(s.tokens) {
		t.Fatalf("%q is no sum that a hand can work: read %d of %v", from, s.at, s.tokens)
	}
	r := &sum{tokens: token.FindAllString(parts[len(parts)-1], 1)}
	return worked, r.number()
}

func allFigures(r Reckoning) []Figure {
	all := append([]Figure(nil), r.Figures...)
	if r.Setting != nil {
		all = append(all, r.Setting.Figures...)
	}
	if r.Hanging != nil {
		all = append(all, r.Hanging.Figures...)
	}
	for _, y := range r.Yarns {
		all = append(all, y.Figures...)
	}
	for _, f := range r.Fleeces {
		all = append(all, f.Figures...)
	}
	return all
}

// Every figure's formula, worked again from the numbers shown, gives the figure.
func TestEveryFormulaShownGivesItsFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		in.Setting.Weave = rapid.SampledFrom(Weaves()).Draw(t, "weave").Name
		if in.Loom.Kind = rapid.SampledFrom([]LoomKind{"", WarpWeighted}).Draw(t, "kind"); in.Loom.Kind == WarpWeighted {
			in.Loom.ReedsDentsPer10CM = nil
			in.Loom.Weights = Weights{Count: 70, MassG: 300, LightestG: 280, HeaviestG: 330, ThicknessCM: 3, TensionG: 20}
		}
		r, err := Reckon(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range allFigures(r) {
			if f.Key == "raw_needed_g" || f.Key == "finished_width_cm" || f.Key == "finished_length_cm" || f.Key == "warps" ||
				strings.HasPrefix(f.Key, "tex:") || strings.HasSuffix(f.Key, "_diameter_mm") || f.Key == "peirce_exact_crimp" {
				continue // said in words
			}
			if strings.HasPrefix(f.Key, "left_g") && f.Value == 0 {
				continue // said in words
			}
			worked, shown := again(t, f.From)
			room := 0.005 * math.Abs(f.Value)
			if strings.Contains(f.From, "rounded up") {
				room++
			}
			if strings.HasPrefix(f.Key, "left_g") {
				room = 0.005 * math.Max(f.Value, in.Fleeces[0].RawG)
			}
			if math.Abs(worked-f.Value) > room || math.Abs(shown-f.Value) > 0.005*math.Abs(f.Value) {
				t.Fatalf("%s is %g, but %q gives %g and shows %g", f.Key, f.Value, f.From, worked, shown)
			}
		}
	})
}

// anyInput is a plan such as people make, whole or coated, one yarn or two.
func anyInput(t *rapid.T) Input {
	in := boatCloak()
	in.Fleeces = append([]Fleece(nil), in.Fleeces...)
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	s := &in.Setting
	in.LayWidthCM = f("lay width", 20, 80)
	s.FinishedWidthCM = in.LayWidthCM * f("width over the lay", 1, 1.1)
	in.LayLengthCM = f("lay length", 50, 1500)
	s.FinishedEndsPerCM, s.FinishedPicksPerCM = f("ends", 3, 20), f("picks", 3, 20)
	s.TakeUp, s.DrawIn = f("take-up", 0, 0.2), f("draw-in", 0, 0.15)
	s.ShrinkLength, s.ShrinkWidth = f("shrink length", 0, 0.35), f("shrink width", 0, 0.4)
	s.WeftCrimp, s.WeftTurnCM = f("crimp", 0, 0.15), f("turn", 0, 2)
	in.Loom.MaxWarpM = f("beam", 2, 12)
	in.Warp.Tex, in.Weft.Tex = f("warp tex", 20, 400), f("weft tex", 20, 400)
	coats := rapid.SampledFrom([]Coat{CoatOuter, CoatInner, CoatWhole})
	in.Warp.Coat, in.Weft.Coat = coats.Draw(t, "warp coat"), coats.Draw(t, "weft coat")
	if rapid.Bool().Draw(t, "one yarn") {
		in.Weft = in.Warp
	}
	return in
}

// A cloth as long as the yarn and the beam allow can be woven; one a little
// longer cannot.
func TestLongestClothUsesUpWhatLimitsIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		in.Loom.MaxReedWidthCM = 1000
		in.Fleeces[0].RawG = 1e9
		in.Warp.HaveInHand, in.Warp.InHandM = rapid.Bool().Draw(t, "warp in hand"), rapid.Float64Range(500, 20000).Draw(t, "warp m")
		if in.Weft.Name == in.Warp.Name {
			in.Weft = in.Warp
		} else {
			in.Weft.HaveInHand, in.Weft.InHandM = rapid.Bool().Draw(t, "weft in hand"), rapid.Float64Range(100, 20000).Draw(t, "weft m")
		}
		longest := MaxFinishedLengthCM(in)
		can := func(lengthCM float64) bool {
			in.LayLengthCM = lengthCM
			r, err := Reckon(in)
			if err != nil {
				t.Fatal(err)
			}
			return len(r.Shortfalls) == 0 && r.Warps == 1
		}
		if longest > 1 && !can(longest-1e-6) {
			t.Fatalf("%g cm cannot be woven", longest)
		}
		if one := 1.01 / in.Setting.FinishedPicksPerCM; can(longest + one) {
			t.Fatalf("%g cm is said to be the longest, but a pick more can be woven", longest)
		}
	})
}
