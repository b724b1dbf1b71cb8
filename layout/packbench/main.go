// Command packbench lays packing instances and prints how densely.
//
//	packbench [--seconds N] [--seed N] [--threads N] [--out DIR] INSTANCE.json...
//
// It exits 2 with a sentence when an instance cannot be read.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"ellwand/layout"
	"ellwand/layout/instance"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

type options struct {
	seconds float64
	seed    uint64
	threads int
	out     string
}

func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("packbench", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Float64Var(&o.seconds, "seconds", 10, "time for each instance")
	flags.Uint64Var(&o.seed, "seed", 1, "seed of the search")
	flags.IntVar(&o.threads, "threads", 1, "searches side by side")
	flags.StringVar(&o.out, "out", "", "directory for the lays found")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	files := flags.Args()
	if len(files) == 0 || !(o.seconds >= 0 && o.seconds <= 86400) || o.threads < 1 || o.threads > 64 {
		fmt.Fprintln(stderr, "packbench: give at least one instance; accepted are --seconds 0 to 86400 and --threads 1 to 64")
		return 2
	}
	var ins []instance.Instance
	for _, name := range files {
		in, err := read(name)
		if err != nil {
			fmt.Fprintf(stderr, "packbench: %s: %v.\n", name, err)
			return 2
		}
		ins = append(ins, in)
	}
	fmt.Fprintf(stdout, "%-14s %6s %12s %9s %8s %5s %9s\n", "name", "items", "length", "density", "seconds", "seed", "published")
	for k, in := range ins {
		if err := o.bench(in, files[k], stdout); err != nil {
			fmt.Fprintf(stderr, "packbench: %s: %v.\n", files[k], err)
			return 1
		}
	}
	return 0
}

func read(name string) (instance.Instance, error) {
	f, err := os.Open(name)
	if err != nil {
		return instance.Instance{}, err
	}
	defer f.Close()
	in, err := instance.Read(f)
	if in.Name == "" {
		in.Name = filepath.Base(name)
	}
	return in, err
}

// bench lays one instance, prints its line and writes its lay.
func (o options) bench(in instance.Instance, file string, stdout io.Writer) error {
	began := time.Now()
	ctx, cancel := context.WithTimeout(context.Background(), time.Duration(o.seconds*float64(time.Second)))
	defer cancel()
	l, err := layout.Improve(ctx, in.Problem, layout.Lay{}, layout.Settings{Seed: o.seed, Threads: o.threads}, nil)
	if err != nil {
		return err
	}
	if err := layout.Check(in.Problem, l); err != nil {
		return fmt.Errorf("the lay found is wrong: %w", err)
	}
	fmt.Fprintf(stdout, "%-14s %6d %12.3f %8.3f%% %8.1f %5d %9s\n", in.Name, len(in.Problem.Items), l.LengthCM,
		layout.UsePercent(in.Problem, l), time.Since(began).Seconds(), o.seed, published(in))
	if o.out == "" {
		return nil
	}
	return o.write(in, l, file)
}

func (o options) write(in instance.Instance, l layout.Lay, file string) error {
	if err := os.MkdirAll(o.out, 0o755); err != nil {
		return err
	}
	f, err := os.Create(filepath.Join(o.out, filepath.Base(file)))
	if err != nil {
		return err
	}
	if err := in.Write(f, l); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// published is the best density known from print, or "-". The irregular ones
// are A. Elkeran's, European Journal of Operational Research 231 (2013)
// 757-769, best of his runs, from memory; rectangles carry theirs in the file.
func published(in instance.Instance) string {
	if in.BestLength > 0 {
		l := layout.Lay{WidthCM: in.Problem.WidthCM, LengthCM: in.BestLength}
		return fmt.Sprintf("%.3f%%", layout.UsePercent(in.Problem, l))
	}
	best := map[string]float64{
		"albano": 89.58, "blaz1": 84.84, "shapes2": 84.84, "dagli": 89.51, "dighe1": 100, "dighe2": 100,
		"fu": 92.41, "jakobs1": 89.10, "jakobs2": 87.73, "mao": 85.44, "marques": 90.59,
		"shapes0": 68.79, "shapes1": 76.73, "shirts": 88.96, "swim": 75.94, "trousers": 91.00,
	}
	if d, ok := best[in.Name]; ok {
		return fmt.Sprintf("%.2f%%", d)
	}
	return "-"
}
