package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"ellwand/paper"
	"ellwand/plan"
)

// options are the words of one command line, checked.
type options struct {
	job    func(context.Context, options, environment) error
	file   string
	out    string
	json   bool
	save   bool
	keep   bool
	piece  bool // say what cutting pieces apart would save
	newLay bool
	flat   bool // draw the garment laid flat, not the cutting diagram
	// allFaults lists everything wrong with a plan file, not only the first.
	allFaults bool
	seconds   float64 // below 0: the command's own default
	seed      uint64
	threads   int
	dpi       float64
	paper     string
	scale     float64 // cm of cloth to 1 cm of paper; 0: all on one page
	only      string  // the piece or stage that is wanted
	question  string  // for backwards; "" asks all
}

// jobs are the commands by name.
func jobs() map[string]func(context.Context, options, environment) error {
	all := map[string]func(context.Context, options, environment) error{
		"draw": draw, "reckon": reckon, "widths": widths, "lay": lay, "check": check,
		"backwards": backwards,
	}
	for name, kind := range printed() {
		all[name] = printJob(kind)
	}
	return all
}

// parseArgs reads a command line. Options may stand before or after the plan.
func parseArgs(args []string) (options, error) {
	o := options{job: openWindow}
	name := ""
	if len(args) > 0 {
		if job, ok := jobs()[args[0]]; ok {
			name, o.job, args = args[0], job, args[1:]
			o.allFaults = name == "check"
		}
	}
	set := flag.NewFlagSet("ellwand", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.StringVar(&o.out, "o", "", "")
	set.BoolVar(&o.json, "json", false, "")
	set.BoolVar(&o.save, "save", false, "")
	set.BoolVar(&o.keep, "keep", false, "")
	set.BoolVar(&o.piece, "piecing", false, "")
	set.BoolVar(&o.newLay, "new-lay", false, "")
	set.BoolVar(&o.flat, "flat", false, "")
	set.Float64Var(&o.seconds, "seconds", -1, "")
	set.Uint64Var(&o.seed, "seed", 1, "")
	set.IntVar(&o.threads, "threads", runtime.NumCPU(), "")
	set.Float64Var(&o.dpi, "dpi", 300, "")
	set.StringVar(&o.question, "for", "", "")
	set.StringVar(&o.paper, "paper", "a4", "")
	set.Float64Var(&o.scale, "scale", 0, "")
	set.StringVar(&o.only, "only", "", "")

	var files []string
	for len(args) > 0 {
		if err := set.Parse(args); err != nil {
			return o, optionError(err)
		}
		args = set.Args()
		if len(args) > 0 {
			files, args = append(files, args[0]), args[1:]
		}
	}
	if len(files) > 0 {
		o.file = files[0]
	}
	given := map[string]bool{}
	set.Visit(func(f *flag.Flag) { given[f.Name] = true })
	return o, o.check(name, files, given)
}

// optionError says in plain words what the flag package found wrong.
func optionError(err error) error {
	text := err.Error()
	var value, option string
	if n, _ := fmt.Sscanf(text, "invalid value %q for flag -%s", &value, &option); n == 2 {
		accepted := "a number"
		if option = strings.TrimSuffix(option, ":"); option == "seed" || option == "threads" {
			accepted = "a whole number"
		}
		return fmt.Errorf("--%s is %q; accepted is %s", option, value, accepted)
	}
	if n, _ := fmt.Sscanf(text, "flag needs an argument: -%s", &option); n == 1 {
		return fmt.Errorf("%s stands without its value; `ellwand --help` lists the options", dashed(option))
	}
	if n, _ := fmt.Sscanf(text, "flag provided but not defined: -%s", &option); n == 1 {
		return fmt.Errorf("%s is not an option; `ellwand --help` lists the options", dashed(option))
	}
	return fmt.Errorf("%s; `ellwand --help` lists the options", text)
}

// dashed is an option as it is typed.
func dashed(option string) string {
	if len(option) == 1 {
		return "-" + option
	}
	return "--" + option
}

// check refuses what a command cannot use.
func (o options) check(name string, files []string, given map[string]bool) error {
	switch {
	case name == "" && len(files) > 0 && !strings.ContainsAny(files[0], "./\\"):
		return fmt.Errorf("%q is neither a command nor a plan file; commands are draw, cards, chalk, fullsize, choices, reckon, widths, backwards, lay and check", files[0])
	case len(files) > 1:
		return fmt.Errorf("one plan at a time, but %d are named: %s", len(files), strings.Join(files, ", "))
	case name != "" && len(files) == 0:
		return fmt.Errorf("`ellwand %s` needs the plan file, for example `ellwand %s tunic.yaml`", name, name)
	case name == "draw" && o.out == "":
		return errors.New("`ellwand draw` needs -o and the file to draw to, for example -o cutting.png")
	case o.keep && o.newLay:
		return errors.New("--keep keeps to the lay in the plan and --new-lay leaves it aside; give one of them")
	case o.piece && (o.keep || o.save):
		return errors.New("--piecing says what cutting pieces apart would save, and keeps nothing; give it without --keep and --save")
	case name == "lay" && !o.save && !o.keep && !o.piece:
		return errors.New("`ellwand lay` stores the lay in the plan only when told so by --save; to look at it use `ellwand draw`")
	case name == "backwards" && o.save && o.question == "":
		return errors.New("`ellwand backwards --save` keeps one answer: say which with --for length, hem or sett")
	case given["for"] && !slices.Contains(plan.Questions(), plan.Question(o.question)):
		return fmt.Errorf("--for is %q; accepted is length, hem or sett", o.question)
	case given["seconds"] && !(o.seconds >= 0 && o.seconds <= 86400):
		return fmt.Errorf("--seconds is %v; accepted is 0 to 86400", o.seconds)
	case o.threads < 1 || o.threads > 256:
		return fmt.Errorf("--threads is %d; accepted is 1 to 256", o.threads)
	case !(o.dpi >= 30 && o.dpi <= 2400):
		return fmt.Errorf("--dpi is %v; accepted is 30 to 2400", o.dpi)
	}
	return o.checkUse(name, given)
}

// checkUse refuses an option that the command would silently ignore.
func (o options) checkUse(name string, given map[string]bool) error {
	const prints = " cards chalk fullsize choices"
	uses := map[string]string{
		"o": "draw reckon" + prints, "dpi": "draw", "paper": "draw reckon" + prints, "save": "lay backwards", "keep": "lay", "piecing": "lay", "json": "reckon widths backwards", "for": "backwards",
		"flat":  "draw",
		"scale": "draw", "only": "cards fullsize",
		"new-lay": "draw reckon lay" + prints, "seconds": "draw reckon widths backwards lay" + prints,
		"seed": "draw reckon widths backwards lay" + prints, "threads": "draw reckon widths backwards lay" + prints,
	}
	for option := range given {
		if !slices.Contains(strings.Fields(uses[option]), name) {
			return fmt.Errorf("%s is not an option here; it goes with: %s", dashed(option), strings.ReplaceAll(uses[option], " ", ", "))
		}
	}
	switch ending := strings.ToLower(filepath.Ext(o.out)); {
	case given["dpi"] && (ending == ".pdf" || ending == ".csv"):
		return fmt.Errorf("--dpi says nothing to a file ending in %s; it goes with .png and .svg", ending)
	case given["paper"] && ending != ".pdf":
		return errors.New("--paper goes only with a file ending in .pdf")
	case given["scale"] && o.flat:
		return errors.New("--scale does not go with --flat, which takes the largest round scale that fits")
	case given["scale"] && ending != ".pdf":
		return errors.New("--scale goes only with a file ending in .pdf")
	case given["scale"] && !(o.scale >= 1 && o.scale <= 100):
		return fmt.Errorf("--scale is %v; accepted is 1 to 100, the cm of cloth that 1 cm of paper shows", o.scale)
	}
	if _, err := paper.Named(o.paper); err != nil {
		return fmt.Errorf("--paper: %w", err)
	}
	return o.checkPrint(name, given)
}
