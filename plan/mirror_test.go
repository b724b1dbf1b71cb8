package plan

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ellwand/cloth"
)

func TestMirrorOfAnOrderIsFound(t *testing.T) {
	for _, c := range []struct {
		order   []cloth.Stripe
		threads float64
		ok      bool
	}{
		{[]cloth.Stripe{{Yarn: "grey", Threads: 20}, {Yarn: "red", Threads: 4}}, 10, true}, // the middle of the grey
		{[]cloth.Stripe{{Yarn: "grey", Threads: 5}, {Yarn: "red", Threads: 4}}, 2.5, true},
		{[]cloth.Stripe{{Yarn: "grey", Threads: 6}, {Yarn: "red", Threads: 4}, {Yarn: "blue", Threads: 2}}, 0, false},
		{[]cloth.Stripe{{Yarn: "grey", Threads: 6}, {Yarn: "red", Threads: 4}, {Yarn: "blue", Threads: 2}, {Yarn: "red", Threads: 4}}, 3, true},
		{[]cloth.Stripe{{Yarn: "grey", Threads: 3000}, {Yarn: "red", Threads: 3000}}, 0, false}, // too long to be looked through
	} {
		if got, ok := mirrorOf(c.order); got != c.threads || ok != c.ok {
			t.Errorf("%v: mirror at %g (%v), want %g (%v)", c.order, got, ok, c.threads, c.ok)
		}
	}
}

// An order written forwards and then backwards has a mirror, and about it every
// two threads are of one yarn.
func TestAnOrderAndItsReverseHaveAMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var order []cloth.Stripe
		for range rapid.IntRange(1, 6).Draw(t, "stripes") {
			order = append(order, cloth.Stripe{Yarn: rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "yarn"), Threads: rapid.IntRange(1, 9).Draw(t, "threads")})
		}
		back := slices.Clone(order)
		slices.Reverse(back)
		order = append(order, back...)
		at, ok := mirrorOf(order)
		if !ok {
			t.Fatal("no mirror")
		}
		var yarns []string
		for _, s := range order {
			for range s.Threads {
				yarns = append(yarns, s.Yarn)
			}
		}
		n := len(yarns)
		for k := range n {
			i := int(math.Ceil(at)) + k
			j := int(2*at) - 1 - i
			if yarns[i%n] != yarns[((j%n)+n)%n] {
				t.Fatalf("threads %d and %d differ about %g", i, j, at)
			}
		}
	})
}

// Gores in one another's gaps lie head to foot: on a pattern that is the same
// both ways that is allowed, and the lay is the shorter for it.
func TestMatchedGoresLieHeadToFootWhereThePatternLetsThem(t *testing.T) {
	lay := func(mirror *float64) *Result {
		p := starterWith(t, "pieces:\n  - {name: wedge, shape: polygon, points: [[0, 0], [60, 0], [60, 30]], copies: 2}\n")
		p.Draft, p.Params = "", nil
		p.Cloth.FinishedWidthCM, p.RepeatCM, p.MirrorCM, p.TwoFaced = 40, 2, mirror, false
		p.Matches = []MatchSpec{{Name: "bands", Pieces: []string{"wedge"}, Direction: "along"}}
		return laid(t, p)
	}
	zero := 0.0
	oneWay, bothWays := lay(nil), lay(&zero)
	if !(bothWays.Lay.LengthCM < oneWay.Lay.LengthCM-30) {
		t.Errorf("%g cm either way, %g cm all one way", bothWays.Lay.LengthCM, oneWay.Lay.LengthCM)
	}
	if n := strings.Join(bothWays.Notes, "\n"); !strings.Contains(n, "either way, for the pattern is the same both ways about 0.00 cm from each first cut end") {
		t.Errorf("notes %q", n)
	}
	if n := strings.Join(oneWay.Notes, "\n"); !strings.Contains(n, "all one way") {
		t.Errorf("notes %q", n)
	}
}

// Each length of cloth begins at a whole repeat of the strip, so that what is
// in phase on the strip is in phase on cloths cut at one place of the pattern.
func TestLengthsBeginAtWholeRepeats(t *testing.T) {
	p := starterWith(t, "real_cloth:\n  lengths: [{name: a, length_cm: 311}, {name: b, length_cm: 250}]\n")
	p.RepeatCM = 12
	p.Matches = []MatchSpec{{Name: "bands", Pieces: []string{"body", "side gore"}, Direction: "along"}}
	r := laid(t, p)
	for _, l := range r.Prepared.Problem.Lengths {
		if math.Abs(math.Remainder(l.FromCM, 12)) > 1e-3 {
			t.Errorf("%s begins at %g cm", l.Name, l.FromCM)
		}
	}
}
