package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"ellwand/paper"
	"ellwand/plan"
	"ellwand/prints"
)

// printed are the commands that write one of the things that are printed.
func printed() map[string]prints.Kind {
	return map[string]prints.Kind{"cards": prints.Cards, "choices": prints.Choices, "chalk": prints.Chalk, "fullsize": prints.FullSize}
}

// printJob is the command that writes a kind.
func printJob(kind prints.Kind) func(context.Context, options, environment) error {
	return func(ctx context.Context, o options, env environment) error {
		p, r, err := workOut(ctx, o, env, 2)
		if err != nil {
			return err
		}
		if err := printTo(kind, r, o, env); err != nil {
			return err
		}
		if kind != prints.Choices {
			noteLay(p, r, o, env)
		}
		return nil
	}
}

// printTo writes a kind to the file that -o names.
func printTo(kind prints.Kind, r *plan.Result, o options, env environment) error {
	paper, err := paper.Named(o.paper)
	if err != nil {
		return err
	}
	date := env.now().Format("2006-01-02")
	err = plan.WriteFile(o.out, func(w io.Writer) error {
		return prints.Write(w, kind, prints.Ending(o.out), r, prints.Options{Paper: paper, Ratio: o.scale, DPI: o.dpi, Date: date, Only: o.only})
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(env.out, "%s: %s\n", o.out, strings.ToLower(prints.Of(kind).Label))
	return nil
}

// noteLay says that what was printed hangs on a lay that another run may not find.
func noteLay(p *plan.Plan, r *plan.Result, o options, env environment) {
	if _, kept := plan.SavedLayFits(p, r.Prepared); !kept || o.newLay {
		fmt.Fprintf(env.out, "note: this lay is not kept in the plan, and another run may find another; before drawing several files of one lay, keep it with `ellwand lay %s --save`\n", o.file)
	}
}

// checkPrint refuses a file that what is printed cannot be written to, and
// options that mean nothing to it.
func (o options) checkPrint(name string, given map[string]bool) error {
	kind, ok := printed()[name]
	if !ok {
		if name == "reckon" && given["o"] && prints.Ending(o.out) != ".pdf" {
			return fmt.Errorf("-o is %q; `ellwand reckon` accepts a file ending in .pdf", o.out)
		}
		return nil
	}
	info := prints.Of(kind)
	switch {
	case o.out == "":
		return fmt.Errorf("`ellwand %s` needs -o and the file to write, for example -o %s%s", name, info.File, info.Endings[0])
	case !slices.Contains(info.Endings, prints.Ending(o.out)):
		return fmt.Errorf("-o is %q; `ellwand %s` accepts a file ending in %s", o.out, name, strings.Join(info.Endings, " or "))
	}
	return nil
}
