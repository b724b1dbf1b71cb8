package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestAllThatIsPrintedIsWrittenByACommand(t *testing.T) {
	file := planFile(t, "", "")
	if code, _, errs := ellwand(t, "lay", file, "--save", "--seconds", "0"); code != exitDone {
		t.Fatalf("lay: exit %d: %s", code, errs)
	}
	for _, command := range [][]string{
		{"cards"}, {"cards", "--only", "weaving", "--paper", "letter"}, {"chalk"}, {"fullsize"}, {"fullsize", "--only", "side gore"},
		{"choices"}, {"reckon"}, {"draw", "--scale", "5"},
	} {
		out := filepath.Join(t.TempDir(), "print.pdf")
		args := append([]string{command[0], file, "-o", out}, command[1:]...)
		code, said, errs := ellwand(t, args...)
		data, err := os.ReadFile(out)
		if code != exitDone || err != nil || !strings.HasPrefix(string(data), "%PDF-") || !strings.Contains(said, out) {
			t.Errorf("%v: exit %d: %s%s, %v", args, code, said, errs, err)
		}
	}
}

func TestPrintsThatCannotBeAreRefusedInOneSentence(t *testing.T) {
	file := planFile(t, "", "")
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"cards", file}, "needs -o"},
		{[]string{"cards", file, "-o", "cards.png"}, "accepts a file ending in .pdf"},
		{[]string{"chalk", file, "-o", "chalk.svg"}, ".pdf or .csv"},
		{[]string{"reckon", file, "-o", "reckon.txt"}, ".pdf"},
		{[]string{"draw", file, "-o", "x.pdf", "--scale", "0.2"}, "accepted is 1 to 100"},
		{[]string{"draw", file, "-o", "x.png", "--scale", "5"}, "--scale goes only with"},
		{[]string{"cards", file, "-o", filepath.Join(t.TempDir(), "x.pdf"), "--only", "knitting", "--seconds", "0"}, "accepted is fibre"},
		{[]string{"choices", file, "-o", "x.pdf", "--only", "loom"}, "it goes with: cards, fullsize"},
	} {
		if code, _, errs := ellwand(t, c.args...); code != exitBadInput || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%v: exit %d: %s", c.args, code, errs)
		}
	}
}
