package layout

import (
	"context"
	"reflect"
	"testing"
	"time"

	"ellwand/geometry"
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
		study, err := Widths(context.Background(), p, widths, nil, Settings{Seed: 3, MaxSteps: 15, Threads: 2}, 0, nil)
		if err != nil {
			t.Fatal(err)
		}
		return study.Lays
	}
	if a, b := run(), run(); !reflect.DeepEqual(a, b) {
		t.Error("two studies differ")
	}
}

// A lay that there is already is never beaten by a first one at its width or a
// wider.
func TestWidthStudyKnowsTheLayThereIs(t *testing.T) {
	p, widths := twentyPieces(), []float64{71, 58, 64, 60}
	at := p
	at.WidthCM = 60
	known, err := Improve(context.Background(), at, Lay{}, Settings{Seed: 5, MaxSteps: 400}, nil)
	if err != nil {
		t.Fatal(err)
	}
	first, err := Widths(context.Background(), p, widths, nil, Settings{}, 0, nil)
	if err != nil || !(first.Lays[3].LengthCM > known.LengthCM) {
		t.Fatalf("%v: the first lay, %g cm, is no longer than the one that was searched for, %g cm", err, first.Lays[3].LengthCM, known.LengthCM)
	}
	study, err := Widths(context.Background(), p, widths, []Lay{{}, known}, Settings{}, 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range []int{0, 2, 3} {
		if l := study.Lays[i]; l.WidthCM != widths[i] || l.LengthCM > known.LengthCM+1e-9 {
			t.Errorf("%g cm wide it is %g cm long; at 60 cm %g cm are known", widths[i], l.LengthCM, known.LengthCM)
		}
	}
	if study.Lays[1].LengthCM > first.Lays[1].LengthCM {
		t.Error("what is known made narrower cloth longer")
	}
}

func TestWidthStudySaysWhereItSearched(t *testing.T) {
	p, widths := twentyPieces(), []float64{58, 64, 71, 40}
	first, err := Widths(context.Background(), p, widths, nil, Settings{}, 0, nil)
	if err != nil || !reflect.DeepEqual(first.Searched, make([]bool, 4)) {
		t.Errorf("with no time and no steps, searched is %v (%v)", first.Searched, err)
	}
	all, err := Widths(context.Background(), p, widths, nil, Settings{MaxSteps: 5}, 0, nil)
	if err != nil || !reflect.DeepEqual(all.Searched, []bool{true, true, true, false}) {
		t.Errorf("searched is %v (%v); the pieces do not fit the last width", all.Searched, err)
	}
}

// When the time for first lays has passed at once, every width still has a lay
// that is sound: where flaws forbid those of narrower cloth, one of its own.
func TestStudyWithoutTimeLaysEveryWidth(t *testing.T) {
	p := twentyPieces()
	hole := geometry.Polygon{{X: 0, Y: 62}, {X: 30, Y: 62}, {X: 30, Y: 64}, {X: 0, Y: 64}}
	p.Flaws = []Flaw{{Name: "hole", Outline: hole}}
	widths := []float64{58, 62, 66, 70, 74}
	study, err := Widths(context.Background(), p, widths, nil, Settings{Threads: 2}, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range study.Lays {
		q := p
		q.WidthCM = widths[i]
		mustCheck(t, q, l)
	}
}

func TestWidthsAreTakenFarApartFirst(t *testing.T) {
	for n := range 70 {
		out := spreadOut(n)
		seen := map[int]bool{}
		for _, k := range out {
			seen[k] = seen[k] || k >= 0 && k < n
		}
		if len(out) != n || len(seen) != n {
			t.Fatalf("%d: %v", n, out)
		}
	}
	if got := spreadOut(5); !reflect.DeepEqual(got, []int{0, 4, 2, 1, 3}) {
		t.Error(got)
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
		study, err := Widths(context.Background(), p, widths, nil, Settings{Seed: 1, Threads: 2}, 10*time.Second, nil)
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
			longer := 100 * (study.Lays[k].LengthCM/alone.LengthCM - 1)
			b.Logf("%.1f cm: %.3f cm in the study, %.3f cm alone, %+.2f %%", q.WidthCM, study.Lays[k].LengthCM, alone.LengthCM, longer)
			worst = max(worst, longer)
		}
		b.ReportMetric(worst, "%longer")
	}
}

// aloneSeconds is the time for one width alone.
const aloneSeconds = 60
