package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"ellwand/layout"
	"ellwand/layout/instance"
)

// totals is how far the best lays fall short of what is known from print.
type totals struct {
	irregular, behind float64 // instances, and points of density behind in all
	sheets, longer    float64 // instances of known optimum, and percent longer in all
	optimal           int
}

func (t *totals) add(in instance.Instance, density float64) {
	known := published(in)
	switch {
	case known == 0:
	case in.BestLength > 0:
		t.sheets++
		gap := 100 * (known/density - 1)
		t.longer += gap
		if gap < 1e-3 {
			t.optimal++
		}
	default:
		t.irregular++
		t.behind += known - density
	}
}

func (t *totals) print(w io.Writer) {
	if t.irregular > 0 {
		fmt.Fprintf(w, "%.0f irregular: on average %.2f points below the best published\n", t.irregular, t.behind/t.irregular)
	}
	if t.sheets > 0 {
		fmt.Fprintf(w, "%.0f with known optimum: on average %.2f %% longer, %d optimal\n", t.sheets, t.longer/t.sheets, t.optimal)
	}
}

// resultsFile is a new file named by date and seconds, begun with how the table
// came about.
func (o options) resultsFile(now time.Time) (*os.File, error) {
	if err := os.MkdirAll(o.results, 0o755); err != nil {
		return nil, err
	}
	what := ""
	switch {
	case o.study > 0:
		what = "-study"
	case o.against > 0:
		what = "-against"
	}
	name := fmt.Sprintf("%s%s-%gs.txt", now.UTC().Format("2006-01-02-150405"), what, o.seconds)
	f, err := os.Create(filepath.Join(o.results, name))
	if err != nil {
		return nil, err
	}
	fmt.Fprintf(f, "%s, %g s for each lay, %d seeds from %d, %d threads, %s clock\n%s, %d cores, %s %s/%s\n\n",
		now.UTC().Format("2006-01-02 15:04 UTC"), o.seconds, o.seeds, o.seed, o.threads, o.clock,
		processor(), runtime.NumCPU(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return f, nil
}

// processor is the processor's name where the system tells it.
func processor() string {
	raw, err := os.ReadFile("/proc/cpuinfo")
	if err != nil {
		return "unknown processor"
	}
	for _, line := range strings.Split(string(raw), "\n") {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return "unknown processor"
}

// published is the best density known from print in percent, or 0. The
// irregular ones are A. Elkeran's, European Journal of Operational Research 231
// (2013) 757-769, best of his runs, from memory; rectangles carry theirs in the
// file.
func published(in instance.Instance) float64 {
	if in.BestLength > 0 {
		return layout.UsePercent(in.Problem, layout.Lay{WidthCM: in.Problem.WidthCM, LengthCM: in.BestLength})
	}
	return map[string]float64{
		"albano": 89.58, "blaz1": 84.84, "shapes2": 84.84, "dagli": 89.51, "dighe1": 100, "dighe2": 100,
		"fu": 92.41, "jakobs1": 89.10, "jakobs2": 87.73, "mao": 85.44, "marques": 90.59,
		"shapes0": 68.79, "shapes1": 76.73, "shirts": 88.96, "swim": 75.94, "trousers": 91.00,
	}[in.Name]
}
