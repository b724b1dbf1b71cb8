package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"strings"

	"ellwand/plan"
)

// saveOver saves a plan over the file it was read from. When another program
// has changed the file meanwhile, it asks; with nobody to ask, it writes nothing.
func saveOver(p *plan.Plan, path string, was plan.Stamp, env environment) error {
	_, err := p.SaveOver(path, was)
	changed, ok := errors.AsType[*plan.Changed](err)
	if !ok {
		return err
	}
	if env.ask == nil {
		return fmt.Errorf("%w; nothing was saved: run the command again to work from the plan as it is now", changed)
	}
	if !env.ask(changed.Error() + ". Write over what is there?") {
		return fmt.Errorf("%w; nothing was saved", changed)
	}
	return p.Save(path)
}

// askOnTerminal asks for yes or no on the terminal; nil when standard input or
// standard error is none.
func askOnTerminal() func(question string) bool {
	for _, f := range []*os.File{os.Stdin, os.Stderr} {
		if !isTerminal(f) {
			return nil
		}
	}
	return func(question string) bool {
		fmt.Fprintf(os.Stderr, "ellwand: %s [y/N] ", question)
		answer, err := bufio.NewReader(os.Stdin).ReadString('\n')
		return err == nil && strings.HasPrefix(strings.ToLower(strings.TrimSpace(answer)), "y")
	}
}

// isTerminal is whether somebody may sit at the other end: it is a device that
// takes letters, and not the one that swallows all.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}
