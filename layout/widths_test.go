package layout

import (
	"context"
	"reflect"
	"testing"
	"time"
)

// twentyPieces is a gored tunic with cuffs, collar and a hood in two parts.
func twentyPieces() Problem {
	p := tunic()
	p.Items = append(p.Items, rect("cuff 1", 24, 8), rect("cuff 2", 24, 8), rect("hood 1", 42, 31), rect("hood 2", 42, 31))
	return p
}

func TestWidthStudyIsTheSameForSeedStepsAndThreads(t *testing.T) {
	p, widths := twentyPieces(), []float64{60, 58, 64, 71}
	run := func() []Lay {
		lays, err := Widths(context.Background(), p, widths, Settings{Seed: 3, MaxSteps: 15, Threads: 2}, 0, nil)
		if err != nil {
			t.Fatal(err)
		}
		return lays
	}
	if a, b := run(), run(); !reflect.DeepEqual(a, b) {
		t.Error("two studies differ")
	}
}

// BenchmarkWidthStudy reports how much longer than a search of that width alone
// the lays of a study of 40 widths in 10 s on two cores are, at the worst of
// some widths.
func BenchmarkWidthStudy(b *testing.B) {
	p := twentyPieces()
	var widths []float64
	for k := range 40 {
		widths = append(widths, 58+0.8*float64(k))
	}
	for b.Loop() {
		lays, err := Widths(context.Background(), p, widths, Settings{Seed: 1, Threads: 2}, 10*time.Second, nil)
		if err != nil {
			b.Fatal(err)
		}
		worst := 0.0
		for _, k := range []int{0, 9, 19, 29, 39} {
			q := p
			q.WidthCM = widths[k]
			ctx, cancel := context.WithTimeout(context.Background(), aloneSeconds*time.Second)
			alone, err := Improve(ctx, q, Lay{}, Settings{Seed: 1, Threads: 2}, nil)
			cancel()
			if err != nil {
				b.Fatal(err)
			}
			longer := 100 * (lays[k].LengthCM/alone.LengthCM - 1)
			b.Logf("%.1f cm: %.3f cm in the study, %.3f cm alone, %+.2f %%", q.WidthCM, lays[k].LengthCM, alone.LengthCM, longer)
			worst = max(worst, longer)
		}
		b.ReportMetric(worst, "%longer")
	}
}

// aloneSeconds is the time for one width alone.
const aloneSeconds = 60
