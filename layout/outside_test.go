package layout

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// program is the shortest lay of rectangles as a mixed integer program in the
// form that CPLEX's LP files have: for every two, one lies wholly before,
// beyond, below or above the other; r turns one by a quarter, where it may.
func program(width float64, sides [][2]float64, turn bool) string {
	var b, where, bits strings.Builder
	most := 0.0
	for _, s := range sides {
		most += math.Max(s[0], s[1])
	}
	fmt.Fprintf(&b, "Minimize\n obj: length\nSubject To\n")
	for i, s := range sides {
		more := s[1] - s[0] // along, when turned; as much less across
		fmt.Fprintf(&b, " x%d + %g r%d - length <= %g\n", i, more, i, -s[0])
		fmt.Fprintf(&b, " y%d - %g r%d <= %g\n", i, more, i, width-s[1])
		if !turn {
			fmt.Fprintf(&b, " r%d = 0\n", i)
		}
		fmt.Fprintf(&where, " 0 <= x%d <= %g\n 0 <= y%d <= %g\n", i, most, i, width)
		fmt.Fprintf(&bits, " r%d", i)
		for j := range sides[:i] {
			t := sides[j]
			other := t[1] - t[0]
			fmt.Fprintf(&b, " x%d - x%d + %g r%d + %g a%d_%d <= %g\n", i, j, more, i, most, i, j, most-s[0])
			fmt.Fprintf(&b, " x%d - x%d + %g r%d + %g b%d_%d <= %g\n", j, i, other, j, most, i, j, most-t[0])
			fmt.Fprintf(&b, " y%d - y%d - %g r%d + %g c%d_%d <= %g\n", i, j, more, i, width, i, j, width-s[1])
			fmt.Fprintf(&b, " y%d - y%d - %g r%d + %g d%d_%d <= %g\n", j, i, other, j, width, i, j, width-t[1])
			fmt.Fprintf(&b, " a%[1]d_%[2]d + b%[1]d_%[2]d + c%[1]d_%[2]d + d%[1]d_%[2]d >= 1\n", i, j)
			fmt.Fprintf(&bits, " a%[1]d_%[2]d b%[1]d_%[2]d c%[1]d_%[2]d d%[1]d_%[2]d\n", i, j)
		}
	}
	fmt.Fprintf(&b, "Bounds\n%sBinary\n%s\nEnd\n", where.String(), bits.String())
	return strings.ReplaceAll(strings.ReplaceAll(b.String(), "+ -", "- "), "- -", "+ ")
}

var objective = regexp.MustCompile(`(?m)^Objective:\s+obj = (\S+) `)

func solveOutside(t *testing.T, solver, program string) float64 {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.lp"), filepath.Join(dir, "out.txt")
	if err := os.WriteFile(in, []byte(program), 0o644); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command(solver, "--lp", in, "-o", out, "--tmlim", "120", "--cuts").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	raw, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	m := objective.FindSubmatch(raw)
	if m == nil || !strings.Contains(string(raw), "INTEGER OPTIMAL") {
		t.Fatalf("no optimum in\n%s", raw)
	}
	v, err := strconv.ParseFloat(string(m[1]), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Small sets of rectangles against GLPK (glpsol, Debian's glpk-utils), a solver
// of mixed integer programs that shares nothing with this one.
func TestShortestLayAgreesWithAnOutsideSolver(t *testing.T) {
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol is missing; scripts/setup.sh installs it")
	}
	rng := rand.New(rand.NewPCG(11, 5))
	for set := range 16 {
		turn := set >= 12
		p := Problem{WidthCM: 20 + rng.Float64()*30}
		var sides [][2]float64
		pieces := 4 + set%3
		if turn {
			pieces = 4 // turned ones take the solver long
		}
		for range pieces {
			l, w := math.Round(50+rng.Float64()*350)/10, math.Round(p.WidthCM*(1.5+6*rng.Float64()))/10
			it := rect("", l, w)
			if turn {
				it.TurnsDeg = []float64{0, 90}
			}
			p.Items = append(p.Items, it)
			sides = append(sides, [2]float64{l, w})
		}
		want := solveOutside(t, solver, program(p.WidthCM, sides, turn))
		l, proved, err := Optimum(context.Background(), p)
		if err != nil || !proved {
			t.Fatalf("set %d: proved %v, error %v", set, proved, err)
		}
		mustCheck(t, p, l)
		if math.Abs(l.LengthCM-want) > 2e-3 {
			t.Errorf("set %d: %g cm, from outside %g cm", set, l.LengthCM, want)
		}
		if low := LowerBound(p); low > want+1e-6*want {
			t.Errorf("set %d: bound %g cm, from outside %g cm", set, low, want)
		}
	}
}

// turnable is program for rectangles that may be turned by a quarter, with gap
// cm between any two: t is 1 for one that is turned.
func turnable(width, gap float64, sides [][2]float64) string {
	var b, where, bits strings.Builder
	most := 0.0
	for _, s := range sides {
		most += max(s[0], s[1]) + gap
	}
	fmt.Fprintf(&b, "Minimize\n obj: length\nSubject To\n")
	for i, s := range sides {
		turned := s[1] - s[0] // what turning adds along, and takes across
		fmt.Fprintf(&b, " x%d %+g t%d - length <= %g\n", i, turned, i, -s[0])
		fmt.Fprintf(&b, " y%d %+g t%d <= %g\n", i, -turned, i, width-s[1])
		fmt.Fprintf(&where, " 0 <= x%d <= %g\n 0 <= y%d <= %g\n", i, most, i, width)
		fmt.Fprintf(&bits, " t%d\n", i)
		for j, t := range sides[:i] {
			other := t[1] - t[0]
			wide := width + gap + max(s[0], s[1], t[0], t[1])
			fmt.Fprintf(&b, " x%d %+g t%d - x%d + %g a%d_%d <= %g\n", i, turned, i, j, most, i, j, most-s[0]-gap)
			fmt.Fprintf(&b, " x%d %+g t%d - x%d + %g b%d_%d <= %g\n", j, other, j, i, most, i, j, most-t[0]-gap)
			fmt.Fprintf(&b, " y%d %+g t%d - y%d + %g c%d_%d <= %g\n", i, -turned, i, j, wide, i, j, wide-s[1]-gap)
			fmt.Fprintf(&b, " y%d %+g t%d - y%d + %g d%d_%d <= %g\n", j, -other, j, i, wide, i, j, wide-t[1]-gap)
			fmt.Fprintf(&b, " a%[1]d_%[2]d + b%[1]d_%[2]d + c%[1]d_%[2]d + d%[1]d_%[2]d >= 1\n", i, j)
			fmt.Fprintf(&bits, " a%[1]d_%[2]d b%[1]d_%[2]d c%[1]d_%[2]d d%[1]d_%[2]d\n", i, j)
		}
	}
	fmt.Fprintf(&b, "Bounds\n%sBinary\n%sEnd\n", where.String(), bits.String())
	return b.String()
}

// The same with turning by quarters, and with room for the shears. The solver
// keeps that room along or across, never slantwise past two corners as a lay
// may: with it, a lay may be shorter than the solver's, and never longer.
func TestTurnedAndSpacedRectanglesAgreeWithAnOutsideSolver(t *testing.T) {
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol is missing; scripts/setup.sh installs it")
	}
	rng := rand.New(rand.NewPCG(7, 3))
	for set := range 12 {
		p := Problem{WidthCM: 20 + rng.Float64()*30}
		if set >= 7 {
			p.GapCM = 0.1 + math.Round(rng.Float64()*10)/10
		}
		var sides [][2]float64
		for range 4 + set%2 {
			l, w := math.Round(50+rng.Float64()*(p.WidthCM*10-60))/10, math.Round(p.WidthCM*(1.5+6*rng.Float64()))/10
			it := rect("", l, w)
			it.TurnsDeg = []float64{0, 90}
			p.Items = append(p.Items, it)
			sides = append(sides, [2]float64{l, w})
		}
		want := solveOutside(t, solver, turnable(p.WidthCM, p.GapCM, sides))
		l, proved, err := Optimum(context.Background(), p)
		if err != nil || !proved && p.GapCM == 0 {
			t.Fatalf("set %d: proved %v, error %v", set, proved, err)
		}
		mustCheck(t, p, l)
		if l.LengthCM > want+2e-3*float64(len(sides)) || p.GapCM == 0 && l.LengthCM < want-2e-3 {
			t.Errorf("set %d, gap %g cm: %g cm, from outside %g cm", set, p.GapCM, l.LengthCM, want)
		}
		if low := LowerBound(p); low > l.LengthCM*(1+1e-6) {
			t.Errorf("set %d: bound %g cm, laid %g cm", set, low, l.LengthCM)
		}
	}
}
