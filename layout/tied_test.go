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
		for i := range p.Items {
			it := &p.Items[i]
			switch rapid.IntRange(0, 3).Draw(t, "tied by") {
			case 1:
				it.Selvedge = rapid.SampledFrom([]Side{LowY, HighY, LowY | HighY}).Draw(t, "side")
			case 2:
				it.TurnsDeg = []float64{0}
				it.Along = Match{1, geometry.Point{X: hundredths(t, 0, 300, "at")}}
			case 3:
				it.TurnsDeg = []float64{0}
				it.Along, it.Across = Match{1, geometry.Point{}}, Match{1, geometry.Point{Y: 1.5}}
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
				if off := math.Remainder(u.X+a.Along.At.X-v.X-b.Along.At.X, p.RepeatCM); math.Abs(off) > 0.0021 {
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
