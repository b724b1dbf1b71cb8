package main

import (
	"fmt"
	"regexp"
	"strings"
)

// manual is the manual page, in mdoc, made from the same words as --help, so
// that no command or option can be missing in it.
func manual() string {
	blocks := strings.Split(strings.TrimSpace(usage), "\n\n")
	var commands, options []string
	for _, block := range blocks {
		switch {
		case strings.HasPrefix(block, "  ellwand"):
			commands = append(commands, manualItems(block)...)
		case strings.HasPrefix(block, "  -"):
			options = append(options, manualItems(block)...)
		}
	}
	list := func(items []string) string {
		return ".Bl -tag -width Ds\n" + strings.Join(items, "\n") + "\n.El\n"
	}
	return manualHead + ".Pp\nThe commands are:\n" + list(commands) + ".Pp\nThe options are:\n" + list(options) + manualFoot
}

var manualSplit = regexp.MustCompile(`^(.*\S) {2,}(\S.*)$`)

// manualItems are the items of a block of the usage: a line begins one with two
// spaces, and goes on with more; what is said of it stands after the last two.
func manualItems(block string) []string {
	var items []string
	for line := range strings.Lines(block) {
		line = strings.TrimRight(line, "\n")
		if strings.HasPrefix(line, "   ") {
			items[len(items)-1] += "\n" + roff(strings.TrimSpace(line))
			continue
		}
		head, said := strings.TrimSpace(line), ""
		if m := manualSplit.FindStringSubmatch(head); m != nil {
			head, said = m[1], m[2]
		}
		head = strings.Join(strings.Fields(head), " ")
		items = append(items, strings.TrimRight(".It Li "+roff(head)+"\n"+roff(said), "\n"))
	}
	return items
}

// roff is text in which nothing is taken for an instruction, and each hyphen is
// the one that is typed.
func roff(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, `"`, `\(dq`).Replace(text)
	if strings.HasPrefix(text, ".") || strings.HasPrefix(text, "'") {
		text = `\&` + text
	}
	return text
}

// The date is that of the page's own words, not of the build.
const manualHead = `.Dd November 25, 2026
.Dt ELLWAND 1
.Os
.Sh NAME
.Nm ellwand
.Nd plan a hand-spun, hand-woven, hand-sewn garment
.Sh SYNOPSIS
.Nm
.Op Ar plan.yaml
.Nm
.Ar command
.Ar plan.yaml
.Op Ar options
.Sh DESCRIPTION
.Nm
goes from body measurements and a fleece to a cutting diagram, and back:
pieces, the narrowest cloth worth weaving, that cloth before it shrinks, its
warp and weft, the yarn, the fleece and the hours.
Without a command it opens the window, on the plan named or on the starter plan.
.Pp
Before a command writes into a plan that another program has changed
meanwhile, it asks on the terminal; without a terminal it writes nothing.
`

var manualFoot = fmt.Sprintf(`.Sh ENVIRONMENT
.Bl -tag -width Ds
.It Ev ELLWAND_THEME
.Cm light
or
.Cm dark
overrides the colours of the settings.
.It Ev XDG_CONFIG_HOME , XDG_STATE_HOME
Where settings and recovery files are kept.
.El
.Sh FILES
.Bl -tag -width Ds
.It Pa ~/.config/ellwand/settings.yaml
Settings: colours, size of the window, seconds from a change to its
recovery file.
.It Pa ~/.local/state/ellwand/recent-plans.txt
The plans used of late.
.It Pa ~/.local/state/ellwand/recovery/
Work not yet saved; offered when the window is next opened after a crash.
.It Pa plan.yaml~
The plan before the last save.
.It Pa plan.yaml.v0~
The plan as an older version of the program wrote it.
.El
.Sh EXIT STATUS
%d done, %d the plan cannot be made as it stands, %d bad input or use.
.Sh EXAMPLES
Keep a lay and draw it for the wall:
.Bd -literal -offset indent
ellwand lay tunic.yaml \-\-save \-\-seconds 30
ellwand draw tunic.yaml \-o cutting.pdf
.Ed
`, exitDone, exitCannot, exitBadInput)
