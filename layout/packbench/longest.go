package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"

	"ellwand/layout"
	"ellwand/layout/instance"
)

// longSearches is the lengths, in cm, that long searches found: by instance,
// width and seconds. They take long, so they are kept in a file.
type longSearches struct {
	file string
	cm   map[string]float64
}

func readLongSearches(file string) (*longSearches, error) {
	k := &longSearches{file, map[string]float64{}}
	if file == "" {
		return k, nil
	}
	raw, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		return k, nil
	}
	if err == nil {
		err = json.Unmarshal(raw, &k.cm)
	}
	return k, err
}

// length is what a search of so many seconds finds for the problem; it is
// searched for only where the file does not have it.
func (k *longSearches) length(o options, name string, p layout.Problem, seconds float64) (float64, error) {
	key := fmt.Sprintf("%s at %.1f cm, %g s", name, p.WidthCM, seconds)
	if cm, ok := k.cm[key]; ok {
		return cm, nil
	}
	ctx, cancel := o.within(seconds)
	defer cancel()
	l, err := layout.Improve(ctx, p, layout.Lay{}, layout.Settings{Seed: 1, Threads: o.threads}, nil)
	if err != nil {
		return 0, err
	}
	k.cm[key] = l.LengthCM
	if k.file == "" {
		return l.LengthCM, nil
	}
	raw, err := json.MarshalIndent(k.cm, "", " ")
	if err != nil {
		return 0, err
	}
	return l.LengthCM, os.WriteFile(k.file, append(raw, '\n'), 0o644)
}

// against lays every instance with every seed and prints how much longer its
// lays are than a long search's.
func (o options) againstTable(ins []instance.Instance, out io.Writer) error {
	known, err := readLongSearches(o.known)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%-26s %6s %10s %10s %8s %10s %5s\n", "name", "items", "bound", "length", "seconds", "longer by", "seed")
	var sum, worst, n float64
	for _, in := range ins {
		long, err := known.length(o, in.Name, in.Problem, o.against)
		if err != nil {
			return err
		}
		for s := range o.seeds {
			ctx, cancel := o.within(o.seconds)
			l, err := layout.Improve(ctx, in.Problem, layout.Lay{}, layout.Settings{Seed: o.seed + uint64(s), Threads: o.threads}, nil)
			cancel()
			if err == nil {
				err = layout.Check(in.Problem, l)
			}
			if err != nil {
				return fmt.Errorf("%s: %w", in.Name, err)
			}
			by := 100 * (l.LengthCM/long - 1)
			sum, worst, n = sum+by, math.Max(worst, by), n+1
			fmt.Fprintf(out, "%-26s %6d %10.3f %10.3f %8g %+9.2f%% %5d\n", in.Name, len(in.Problem.Items), layout.LowerBound(in.Problem), l.LengthCM, o.seconds, by, o.seed+uint64(s))
		}
	}
	fmt.Fprintf(out, "%.0f lays of %g s: on average %+.2f %%, at most %+.2f %% longer than those of %g s\n", n, o.seconds, sum/n, worst, o.against)
	return nil
}
