// Command population drafts every garment with every option for every body of
// one or more files, and counts those that somebody could not wear. It is for
// developers: go run ./garment/population [--pairs] BODIES.csv...
//
// A file has a row for each body. Columns carry the plan file's names in cm, or
// the ANSUR II survey's own names in mm; lines that begin with # are passed over.
// Whose survey table fills in what is missing is told by a column `table` or `set`, or
// else by a file called women.csv or men.csv.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"sort"

	"ellwand/garment"
)

func main() {
	pairs := flag.Bool("pairs", false, "every two options together besides")
	flag.Parse()
	if flag.NArg() == 0 {
		fmt.Fprintln(os.Stderr, "population: no file of bodies is named")
		os.Exit(2)
	}
	var bodies []garment.Body
	for _, name := range flag.Args() {
		more, err := readBodies(name)
		if err != nil {
			fmt.Fprintln(os.Stderr, "population:", err)
			os.Exit(2)
		}
		bodies = append(bodies, more...)
	}
	if wearAll(os.Stdout, bodies, *pairs) > 0 {
		os.Exit(1)
	}
}

// wearAll drafts everything and says, for each draft, how many garments were
// tried and how many cannot be worn; it gives the number of those.
func wearAll(out io.Writer, bodies []garment.Body, pairs bool) int {
	all, bad := 0, 0
	fmt.Fprintf(out, "%d bodies\n", len(bodies))
	for _, d := range garment.Drafts() {
		ways := garment.EveryOption(d, pairs)
		t := tally{reasons: map[string]int{}, example: map[string]string{}}
		for _, b := range bodies {
			for _, params := range ways {
				t.wear(d.Key, b, params)
			}
		}
		fmt.Fprintf(out, "%-18s %3d ways of making it, %8d garments, %9d checks of fit, %d cannot be worn\n", d.Key, len(ways), t.garments, t.checks, t.unwearable)
		t.explain(out)
		all, bad = all+t.garments, bad+t.unwearable
	}
	fmt.Fprintf(out, "%d garments for %d bodies; %d cannot be worn\n", all, len(bodies), bad)
	return bad
}

type tally struct {
	garments, checks, unwearable int
	reasons                      map[string]int
	example                      map[string]string
}

func (t *tally) wear(draft string, b garment.Body, params map[string]float64) {
	t.garments++
	ok := true
	fault := func(reason, text string) {
		ok = false
		t.reasons[reason]++
		if t.example[reason] == "" {
			t.example[reason] = fmt.Sprintf("%s, %v: %s", b.Name, params, text)
		}
	}
	g, err := garment.Draft(draft, b, params)
	if err != nil {
		fault("not drafted", err.Error())
	} else {
		for _, m := range garment.Mismatch(g) {
			fault("seams", m.Text)
		}
		for _, n := range garment.FitNotes(g, b) {
			t.checks++
			if !n.OK {
				fault(n.Key, n.String())
			}
		}
	}
	if !ok {
		t.unwearable++
	}
}

func (t *tally) explain(out io.Writer) {
	var names []string
	for name := range t.reasons {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		fmt.Fprintf(out, "    %s: %d; for example %s\n", name, t.reasons[name], t.example[name])
	}
}
