package ui

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"ellwand/plan"
)

// soakFor is how long the window is used at random: a few seconds with the
// tests; `make soak SOAK=8h` for as long as is wanted.
func soakFor(t *testing.T) time.Duration {
	text := os.Getenv("ELLWAND_SOAK")
	if text == "" {
		return 4 * time.Second
	}
	d, err := time.ParseDuration(text)
	if err != nil {
		t.Fatalf("ELLWAND_SOAK is %q; accepted is a time like 10m or 8h", text)
	}
	return d
}

// drain runs all that has come back to the window by now.
func (l *loop) drain() {
	for {
		select {
		case f := <-l.queue:
			f()
		default:
			return
		}
	}
}

// deeds are what a person does at the window, by name.
func deeds(v *window, r *rand.Rand, folder string) map[string]func() {
	fields := map[string][]string{
		"body.stature_cm":         {"160", "170", "185", "9999", "", "1e308"},
		"cloth.finished_width_cm": {"55", "64", "72", "0", "-4"},
		"cloth.take_up":           {"0.05", "0.12", "1"},
		"garment.draft":           {"tunic", "shift", "hood", "coif", "apron", "bag", "nothing"},
		"cutting.gap_cm":          {"0", "0.5", "40"},
		"title":                   {"By the river", "=1+1", "{{.}}"},
		"show_units":              {"cm", "inch"},
	}
	var paths []string
	for path := range fields {
		paths = append(paths, path)
	}
	pick := func() {
		if res := v.b.shown; res != nil && len(res.Prepared.Problem.Items) > 0 {
			v.b.pick(res.Prepared.Problem.Items[r.IntN(len(res.Prepared.Problem.Items))].ID)
		}
	}
	try := func(f func() error) func() { return func() { v.strip.try(f) } }
	return map[string]func(){
		"enter": func() {
			path := paths[r.IntN(len(paths))]
			v.b.set(path, path, fields[path][r.IntN(len(fields[path]))]) //nolint:errcheck // many are refused
		},
		"undo": v.b.undo, "redo": v.b.redo, "pick": pick,
		"turn": try(v.b.turn), "flip": try(v.b.flip), "pin": try(v.b.pin),
		"nudge": try(func() error { return v.b.nudge(r.Float64()*4-2, r.Float64()*4-2) }),
		"pack":  v.b.pack, "stop": v.b.stop,
		"panel":  func() { v.panels.open(r.IntN(len(v.panels.all))) },
		"drawer": func() { v.drawer.toggle(r.IntN(3)) },
		"zoom":   func() { v.strip.zoomMiddle(float32(0.7 + r.Float64())) },
		"fit":    v.strip.fit,
		"next":   func() { v.strip.pickNext(1 - 2*r.IntN(2)) },
		"resize": func() { v.Resize(fyne.NewSize(float32(900+r.IntN(600)), float32(600+r.IntN(400)))) },
		"help":   shut(v, v.help), "about": shut(v, v.about), "shapes": shut(v, v.openShapes), "compare": shut(v, v.compare),
		"ask": shut(v, v.askNew), "choose": shut(v, v.exportPlan), "fault": shut(v, func() { v.fault(errNotLaid) }),
		"keep": func() { v.keepAs([]string{"A", "B"}[r.IntN(2)]) },
		"save": func() { v.b.save(filepath.Join(folder, "soak.yaml")) }, //nolint:errcheck // it may be refused
		"open": func() {
			if p, err := plan.Load(filepath.Join(folder, "soak.yaml")); err == nil {
				v.begin(p, "")
			}
		},
	}
}

// shut opens a question and shuts whatever has come of it.
func shut(v *window, open func()) func() {
	return func() {
		open()
		for top := v.Canvas().Overlays().Top(); top != nil; top = v.Canvas().Overlays().Top() {
			top.Hide()
		}
	}
}

// resting waits until nothing is packed or worked out and gives the goroutines
// and the memory in use.
func resting(t *testing.T, v *window, l *loop) (goroutines int, heap uint64) {
	v.b.stop()
	l.rest(v.b)
	if v.progress.Visible() {
		t.Error("nothing is packed, yet the progress bar shows")
	}
	if !v.packOff.Disabled() || v.packOn.Disabled() {
		t.Error("nothing is packed, yet the buttons say so")
	}
	least := 1 << 30
	for end := time.Now().Add(5 * time.Second); time.Now().Before(end); {
		l.drain()
		n := runtime.NumGoroutine()
		if n == least {
			break
		}
		least = min(least, n)
		time.Sleep(30 * time.Millisecond)
	}
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return least, m.HeapAlloc
}

// clearing is how long after its last use the tool kit clears away the drawn form
// of a widget that is gone: a minute or what FYNE_CACHE says, and the ten seconds
// that lie between two looks for such.
func clearing() time.Duration {
	d, err := time.ParseDuration(os.Getenv("FYNE_CACHE"))
	if err != nil {
		d = time.Minute
	}
	return d + 11*time.Second
}

// cleared paints the window, as the real one is painted all the time, until all is
// cleared away that can be, and gives what is then in use.
func cleared(t *testing.T, v *window, l *loop) (goroutines int, heap uint64) {
	for end := time.Now().Add(clearing()); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		l.drain()
		v.Canvas().Capture()
	}
	return resting(t, v, l)
}

// TestSoak uses the window at random, without a display, and holds what is in
// use of memory and goroutines against what was. Every round ends with a look at
// both; what is held to the bound is what is in use once all has been cleared away
// that can be, as every half minute or more.
func TestSoak(t *testing.T) {
	long := soakFor(t)
	begun := time.Now()
	v, l := opened(t, "light")
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 8))
	all := deeds(v, r, t.TempDir())
	var names []string
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names) // the seed alone decides
	var goroutines []int
	var heaps, floors []float64
	every := max(long/6, 30*time.Second)
	next := every - clearing()
	done, listen := map[string]int{}, len(v.b.listen)
	for rounds := 0; rounds < 3 || time.Since(begun) < long; rounds++ {
		for range 40 {
			name := names[r.IntN(len(names))]
			done[name]++
			all[name]()
			l.drain()
			if r.IntN(8) == 0 {
				time.Sleep(time.Duration(r.IntN(20)) * time.Millisecond)
			}
		}
		v.begin(plan.Starter(), "")
		v.Canvas().Capture()
		n, heap := resting(t, v, l)
		goroutines, heaps = append(goroutines, n), append(heaps, float64(heap)/(1<<20))
		if long >= every && time.Since(begun) >= next {
			_, floor := cleared(t, v, l)
			floors = append(floors, float64(floor)/(1<<20))
			next += every
		}
		if t.Failed() {
			t.Fatalf("round %d", rounds)
		}
	}
	if n := len(v.b.listen); n != listen {
		t.Errorf("%d are told of changes, at first %d were", n, listen)
	}
	last := len(heaps) - 1
	t.Logf("%d rounds; done %v; memory in use, MB: %.0f", len(heaps), done, heaps)
	t.Logf("goroutines %d at first, %d at last", goroutines[0], goroutines[last])
	if goroutines[last] > goroutines[0]+5 {
		t.Errorf("goroutines grow: %v", goroutines)
	}
	if len(floors) > 1 {
		middle, end := troughs(floors)
		t.Logf("with all cleared away, MB: %.1f; at the lowest %.1f in the middle third, %.1f in the last", floors, middle, end)
		if end > middle+6 {
			t.Errorf("memory grows: with all cleared away, MB: %.1f", floors)
		}
	} else if middle, end := troughs(heaps); end > middle+60 {
		// In so short a time nothing is cleared away: the stores only fill.
		t.Errorf("memory grows: %.1f MB", heaps)
	}
	// What is cleared away in time may still be far too much.
	if high := slices.Max(heaps); high > 250 {
		t.Errorf("at its highest, memory in use is %.0f MB: %.0f", high, heaps)
	}
}

// troughs are the lowest figures of the middle and of the last third: what stays
// in use once all has been cleared away that can be.
func troughs(figures []float64) (middle, end float64) {
	n := len(figures)
	return slices.Min(figures[n/3 : n-n/3]), slices.Min(figures[n-max(1, n/3):])
}

func TestPackingCancelledAThousandTimes(t *testing.T) {
	b, l := ferryman(t)
	before := runtime.NumGoroutine()
	r := rand.New(rand.NewPCG(4, 4))
	for k := range 1000 {
		b.pack()
		if b.packing == nil {
			t.Fatalf("time %d: no packing started", k)
		}
		time.Sleep(time.Duration(r.IntN(2000)) * time.Microsecond)
		l.drain()
		if k%2 == 0 {
			b.stop()
		} else {
			b.cancelPacking()
		}
		if b.packing != nil {
			t.Fatalf("time %d: it goes on", k)
		}
	}
	// The last of them may still be on their way out; a leak never ends.
	after := 1 << 30
	for end := time.Now().Add(4 * time.Minute); after > before+5 && time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		l.drain()
		after = runtime.NumGoroutine()
	}
	if after > before+5 {
		t.Errorf("%d goroutines before, %d after a thousand cancelled packings", before, after)
	}
}
