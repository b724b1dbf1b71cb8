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

// A cancelled search answers with a legal lay. How soon is BenchmarkCancel's to
// say; the bound here only tells an answer from none.
func TestCancelledSearchAnswersWithALegalLay(t *testing.T) {
	p := scalloped()
	for _, after := range []time.Duration{0, 20 * time.Millisecond, 400 * time.Millisecond} {
		ctx, cancel := context.WithTimeout(context.Background(), after)
		began := time.Now()
		l, err := Improve(ctx, p, Lay{}, Settings{Seed: 1}, nil)
		took := time.Since(began) - after
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		mustCheck(t, p, l)
		if took > 20*time.Second {
			t.Errorf("cancelled after %v it answered only %v later", after, took)
		}
	}
}

// BenchmarkCancel reports how long after a cancel the search answers; the aim
// is 50 ms on a machine of its own.
func BenchmarkCancel(b *testing.B) {
	p := scalloped()
	for _, after := range []time.Duration{20 * time.Millisecond, 400 * time.Millisecond, 1500 * time.Millisecond} {
		b.Run(after.String(), func(b *testing.B) {
			var late time.Duration
			for b.Loop() {
				ctx, cancel := context.WithTimeout(context.Background(), after)
				began := time.Now()
				if _, err := Improve(ctx, p, Lay{}, Settings{Seed: 1}, nil); err != nil {
					b.Fatal(err)
				}
				late = max(late, time.Since(began)-after)
				cancel()
			}
			b.ReportMetric(float64(late.Microseconds())/1000, "ms-late")
		})
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
		p.Flaws = []Flaw{{Outline: box(160, 0, 164, 6)}}
		p.WidthCM += 60
		if err := Check(p, rowsOfBoxes(p)); err != nil {
			t.Errorf("%s with pin and flaw: %v", name, err)
		}
	}
}
