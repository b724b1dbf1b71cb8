package layout

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ellwand/geometry"
)

func TestTiedPiecesLieOnSelvedgesAndInPhase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := realCloth(t)
		p.Lengths = nil
		p.RepeatCM = hundredths(t, 100, 1500, "repeat")
		p.RepeatAcrossCM = hundredths(t, 100, 700, "repeat across")
		if rapid.Bool().Draw(t, "the same both ways") {
			mirror := hundredths(t, 0, 1500, "mirror")
			p.MirrorCM = &mirror
		}
		for i := range p.Items {
			it := &p.Items[i]
			switch rapid.IntRange(0, 3).Draw(t, "tied by") {
			case 1:
				it.Selvedge = rapid.SampledFrom([]Side{LowY, HighY, LowY | HighY}).Draw(t, "side")
			case 2:
				it.TurnsDeg = []float64{0, 180}
				it.Along = Match{Group: 1, At: geometry.Point{X: hundredths(t, 0, 300, "at")}, Toward: geometry.Point{X: 1}}
			case 3:
				it.TurnsDeg = []float64{0}
				it.Along, it.Across = Match{Group: 1}, Match{Group: 1, At: geometry.Point{Y: 1.5}}
			}
		}
		first, err := First(p)
		if err != nil {
			t.Skip("too narrow for its repeats across")
		}
		better, err := Improve(context.Background(), p, first, Settings{Seed: 7, MaxSteps: 50}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range []Lay{first, better} {
			if err := errors.Join(Check(p, l), clearOfAll(p, l), clearOfTies(p, l)); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// clearOfTies is faultsTied by other means: every pair, by corners of outlines.
func clearOfTies(p Problem, l Lay) error {
	for i, a := range p.Items {
		q := Placed(a, l.Placements[i])
		if b := q.Bounds(); a.Selvedge != 0 {
			onLeft, onRight := b.MinY < 0.003, p.WidthCM-b.MaxY < 0.003
			upright := l.Placements[i].TurnDeg == 0
			lowY, highY := a.Selvedge&LowY != 0, a.Selvedge&HighY != 0
			if !(onLeft && (upright && lowY || !upright && highY) || onRight && (upright && highY || !upright && lowY)) {
				return errors.New("a piece lies on no selvedge")
			}
		}
		for j, b := range p.Items[:i] {
			// All refs are measured from the first corner, which lies at (0, 0).
			u, v := q[0], Placed(b, l.Placements[j])[0]
			if a.Along.Group != 0 && b.Along.Group != 0 {
				x, y := u.X+a.Along.At.X, v.X+b.Along.At.X
				turnedA, turnedB := l.Placements[i].TurnDeg == 180, l.Placements[j].TurnDeg == 180
				if turnedA {
					x = u.X - a.Along.At.X
				}
				if turnedB {
					y = v.X - b.Along.At.X
				}
				off := x - y
				switch {
				case (turnedA || turnedB) && p.MirrorCM == nil:
					return errors.New("turned on a pattern that has no mirror")
				case turnedA != turnedB: // as far on this side of the mirror as on that
					off = x + y - 2**p.MirrorCM
				}
				if math.Abs(math.Remainder(off, p.RepeatCM)) > 0.0021 {
					return errors.New("out of phase along the cloth")
				}
			}
			if a.Across.Group != 0 && b.Across.Group != 0 {
				if off := math.Remainder(u.Y+a.Across.At.Y-v.Y-b.Across.At.Y, p.RepeatAcrossCM); math.Abs(off) > 0.0021 {
					return errors.New("out of phase across the cloth")
				}
			}
		}
	}
	return nil
}

// Two plates 25 × 20 cm on cloth 20 wide with bands every 10 cm: one after the
// other, in phase, the second begins at 30 cm.
func TestMatchedPlatesBeginAWholeRepeatApart(t *testing.T) {
	p := Problem{WidthCM: 20, RepeatCM: 10}
	for _, id := range []string{"front", "back"} {
		it := rect(id, 25, 20)
		it.TurnsDeg, it.Along = []float64{0}, Match{Group: 1}
		p.Items = append(p.Items, it)
	}
	l, err := Improve(context.Background(), p, Lay{}, steps(50), nil)
	if err != nil || math.Abs(l.LengthCM-55) > 1e-9 {
		t.Errorf("%g cm (%v); want 55: 5 cm are left between", l.LengthCM, err)
	}
	wrong := Lay{20, 55, []Placement{{}, {X: 29}}}
	var f *Fault
	if err := Check(p, wrong); !errors.As(err, &f) || f.Kind != OutOfPhase || !strings.Contains(f.Text, "1 cm off") {
		t.Errorf("%v; want the phase 1 cm off", err)
	}
}

// A plate with its mark 3 cm from its end, and one like it that may only lie
// turned half round, on cloth 20 wide with bands every 10 cm that are the same
// both ways about 1 cm: the first at 0 has its mark at 3, so that of the second
// must be at 2 × 1 − 3 = −1, 9, 19, 29, …
func TestTurnedPlatesMatchAboutTheMirrorOfThePattern(t *testing.T) {
	mirror := 1.0
	p := Problem{WidthCM: 20, RepeatCM: 10, MirrorCM: &mirror}
	for k, id := range []string{"front", "back"} {
		it := rect(id, 25, 20)
		it.TurnsDeg = []float64{180 * float64(k)}
		it.Along = Match{Group: 1, At: geometry.Point{X: 3}, Toward: geometry.Point{X: 1}}
		p.Items = append(p.Items, it)
	}
	p.Items[0].Pinned = &Placement{}
	l, err := Improve(context.Background(), p, Lay{}, steps(50), nil)
	if err != nil {
		t.Fatal(err)
	}
	// Turned, its mark lies 3 cm before its far end: far ends at 2 + 10 k, the
	// first of which that leaves room for both is 52.
	if math.Abs(l.LengthCM-52) > 2e-3 {
		t.Errorf("%g cm; want 52", l.LengthCM)
	}
	p.MirrorCM = nil
	if err := p.Validate(); err == nil || !strings.Contains(err.Error(), "in no turn") {
		t.Errorf("%v; without a mirror it cannot match turned", err)
	}
	p.Items[1].TurnsDeg = []float64{0, 180}
	var f *Fault
	if err := Check(p, Lay{20, 60, []Placement{{}, {TurnDeg: 180, X: 52, Y: 20}}}); !errors.As(err, &f) || f.Kind != OutOfPhase || !strings.Contains(f.Text, "runs the wrong way") {
		t.Errorf("%v; want the pattern running the wrong way", err)
	}
}

// Turned over and half round, a piece keeps its direction along the warp: no
// mirror is needed for bands, but one for stripes.
func TestPieceTurnedOverKeepsItsDirectionAlongTheWarp(t *testing.T) {
	a := along{Match: Match{Group: 1, Toward: geometry.Point{X: 1}}, repeatCM: 10}
	for _, c := range []struct {
		pl  Placement
		can bool
	}{{Placement{}, true}, {Placement{TurnDeg: 180}, false}, {Placement{Flip: true}, false}, {Placement{TurnDeg: 180, Flip: true}, true}, {Placement{TurnDeg: 90}, false}} {
		if back, can := a.runs(c.pl); can != c.can || back && can {
			t.Errorf("%+v: backwards %v, can %v", c.pl, back, can)
		}
	}
}

func TestSelvedgeFaultsAreNamed(t *testing.T) {
	it := rect("strip", 10, 4)
	it.Selvedge = HighY
	p := Problem{WidthCM: 20, Items: []Item{it}}
	for _, c := range []struct {
		at   Placement
		text string
	}{
		{Placement{Y: 16}, ""},
		{Placement{X: 10, Y: 4, TurnDeg: 180}, ""},
		{Placement{Y: 3}, "lies 13 cm from it"},
		{Placement{}, "lies 16 cm from it"},
	} {
		err := Check(p, Lay{20, 40, []Placement{c.at}})
		if (err == nil) != (c.text == "") || err != nil && !strings.Contains(err.Error(), c.text) {
			t.Errorf("at %v: %v, want %q", c.at, err, c.text)
		}
	}
	p.Items[0].TurnsDeg, p.Items[0].Selvedge = []float64{0}, LowX
	if err := p.Validate(); err == nil || !strings.Contains(err.Error(), "in no turn") {
		t.Errorf("%v; an end cannot lie on a selvedge unturned", err)
	}
}

// Two strips 100 × 8 cm, each with selvedges on both sides, lie at either edge
// of cloth 60 cm wide.
func TestStripsTakeASelvedgeEach(t *testing.T) {
	p := Problem{WidthCM: 60}
	for range 2 {
		it := rect("strip", 100, 8)
		it.Selvedge = LowY | HighY
		p.Items = append(p.Items, it)
	}
	if l, err := First(p); err != nil || l.LengthCM != 100 {
		t.Errorf("%g cm, %v; want 100", l.LengthCM, err)
	}
}
