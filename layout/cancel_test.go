package layout

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"ellwand/geometry"
)

// scalloped is pieces whose edges wave: several hundred corners, many hollow.
func scalloped() Problem {
	p := Problem{WidthCM: 150}
	for k := range 6 {
		n, waves := 150+150*k, 11+6*k
		var q geometry.Polygon
		for i := range n {
			t := 2 * math.Pi * float64(i) / float64(n)
			r := 16 + float64(2*k) + 3*math.Sin(float64(waves)*t)
			q = append(q, geometry.Point{X: 1.7 * r * math.Cos(t), Y: r * math.Sin(t)})
		}
		for c := range 10 {
			p.Items = append(p.Items, Item{ID: fmt.Sprint(k, "/", c), Outline: q, TurnsDeg: []float64{0, 90, 180, 270}})
		}
	}
	return p
}

func TestCancelAnswersSoonWhateverIsUnderWay(t *testing.T) {
	p := scalloped()
	// Aim 50 ms. The machine may be shared and the race detector on: what it
	// takes when cancelled from the start, validation most of it, comes on top.
	allowed := 600 * time.Millisecond
	for _, after := range []time.Duration{0, 20, 100, 400, 1500} {
		after *= time.Millisecond
		least := time.Hour // of three: others use the machine too
		for try := 0; try < 3 && least > 50*time.Millisecond; try++ {
			ctx, cancel := context.WithTimeout(context.Background(), after)
			began := time.Now()
			l, err := Improve(ctx, p, Lay{}, Settings{Seed: 1}, nil)
			least = min(least, time.Since(began)-after)
			cancel()
			if err != nil {
				t.Fatal(err)
			}
			mustCheck(t, p, l)
		}
		t.Logf("cancelled after %v it answered %v later", after, least)
		if least > allowed {
			t.Errorf("cancelled after %v it answered %v later", after, least)
		}
		if after == 0 {
			allowed = 100*time.Millisecond + 2*least
		}
	}
}

func TestRowsOfBoxesAreLegal(t *testing.T) {
	for name, p := range map[string]Problem{"tunic": tunic(), "scalloped": scalloped(), "many": manyPieces(300)} {
		for _, gap := range []float64{0, 0.5} {
			p.GapCM = gap
			mustCheck(t, p, rowsOfBoxes(p))
		}
		p.Items[0].Pinned = &Placement{X: 40, Y: 30}
		p.Items[0].TurnsDeg = []float64{0}
		p.Flaws = []geometry.Polygon{{{X: 160, Y: 0}, {X: 164, Y: 0}, {X: 164, Y: 6}, {X: 160, Y: 6}}}
		p.WidthCM += 60
		if err := Check(p, rowsOfBoxes(p)); err != nil {
			t.Errorf("%s with pin and flaw: %v", name, err)
		}
	}
}
