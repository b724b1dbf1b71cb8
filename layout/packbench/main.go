// Command packbench lays packing instances and prints how densely.
//
//	packbench [--seconds N] [--seed N] [--seeds N] [--threads N] [--out DIR] [--results DIR]
//	          [--clock wall|processor] [--against S] [--study N] [--known FILE] INSTANCE.json...
//
// With --against S the lays are compared with those of a search of S seconds;
// with --study N as well, a study of N widths is, at some of its widths. What the
// long searches find is kept in the file that --known names. With
// --clock=processor seconds are those the processor gave this process, shared by
// the threads, for machines that others use too.
//
// With --seeds above 1 each instance is laid with as many seeds, from --seed up.
// With --results the table is written, with date and machine, to a file there
// too. It exits 2 with a sentence when an instance cannot be read.
package main

import (
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
	seeds   int
	threads int
	out     string
	results string
	clock   string
	against float64
	study   int
	known   string
}

func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("packbench", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Float64Var(&o.seconds, "seconds", 10, "time for each instance")
	flags.Uint64Var(&o.seed, "seed", 1, "seed of the search")
	flags.IntVar(&o.seeds, "seeds", 1, "number of seeds, each laid anew")
	flags.IntVar(&o.threads, "threads", 1, "searches side by side")
	flags.StringVar(&o.out, "out", "", "directory for the lays found")
	flags.StringVar(&o.results, "results", "", "directory for a dated copy of the table")
	flags.StringVar(&o.clock, "clock", "wall", "what seconds are told by: wall or processor")
	flags.Float64Var(&o.against, "against", 0, "seconds of the searches to compare with")
	flags.IntVar(&o.study, "study", 0, "number of widths of a width study")
	flags.StringVar(&o.known, "known", "", "file of what the long searches found")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	files := flags.Args()
	if len(files) == 0 || !(o.seconds >= 0 && o.seconds <= 86400) || o.threads < 1 || o.threads > 64 || o.seeds < 1 || o.seeds > 100 || o.bad() {
		fmt.Fprintln(stderr, "packbench: give at least one instance; accepted are --seconds 0 to 86400, --threads 1 to 64 and --seeds 1 to 100, --clock wall or processor, --against up to 86400, --study 5 to 500")
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
	if err := o.table(ins, files, stdout); err != nil {
		fmt.Fprintf(stderr, "packbench: %v.\n", err)
		return 1
	}
	return 0
}

func (o options) bad() bool {
	return o.clock != "wall" && o.clock != "processor" || !(o.against >= 0 && o.against <= 86400) ||
		o.study != 0 && (o.study < 5 || o.study > 500 || o.against == 0)
}

// table lays every instance with every seed and prints a line for each, then
// what the best of the seeds come to against print.
func (o options) table(ins []instance.Instance, files []string, stdout io.Writer) error {
	if o.results != "" {
		f, err := o.resultsFile(time.Now())
		if err != nil {
			return err
		}
		defer f.Close()
		stdout = io.MultiWriter(stdout, f)
	}
	switch {
	case o.study > 0:
		return o.studyTable(ins, stdout)
	case o.against > 0:
		return o.againstTable(ins, stdout)
	}
	fmt.Fprintf(stdout, "%-14s %6s %12s %9s %8s %5s %9s\n", "name", "items", "length", "density", "seconds", "seed", "published")
	var t totals
	for k, in := range ins {
		best := 0.0
		for s := range o.seeds {
			one := o
			one.seed += uint64(s)
			density, err := one.bench(in, files[k], stdout)
			if err != nil {
				return fmt.Errorf("%s: %w", files[k], err)
			}
			best = max(best, density)
		}
		t.add(in, best)
	}
	t.print(stdout)
	return nil
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

// bench lays one instance, prints its line, writes its lay and gives its density.
func (o options) bench(in instance.Instance, file string, stdout io.Writer) (float64, error) {
	began := time.Now()
	ctx, cancel := o.within(o.seconds)
	defer cancel()
	l, err := layout.Improve(ctx, in.Problem, layout.Lay{}, layout.Settings{Seed: o.seed, Threads: o.threads}, nil)
	if err != nil {
		return 0, err
	}
	if err := layout.Check(in.Problem, l); err != nil {
		return 0, fmt.Errorf("the lay found is wrong: %w", err)
	}
	density := layout.UsePercent(in.Problem, l)
	known := "-"
	if d := published(in); d > 0 {
		known = fmt.Sprintf("%.2f%%", d)
	}
	fmt.Fprintf(stdout, "%-14s %6d %12.3f %8.3f%% %8.1f %5d %9s\n", in.Name, len(in.Problem.Items), l.LengthCM,
		density, time.Since(began).Seconds(), o.seed, known)
	if o.out == "" {
		return density, nil
	}
	return density, o.write(in, l, file)
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
