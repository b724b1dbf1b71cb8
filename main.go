// Ellwand plans a garment spun, woven and sewn by hand: from body measurements
// and a fleece to a cutting diagram and a warp plan, and back.
//
// Without a command it opens the window; with one it does that job and exits.
package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"time"

	"ellwand/assets"
	"ellwand/plan"
	"ellwand/ui"
	_ "ellwand/ui/language"
)

// Exit codes of the command line.
const (
	exitDone     = 0
	exitCannot   = 1 // the plan cannot be made as it stands
	exitBadInput = 2
)

const usage = `Ellwand: from a body and a fleece to a cutting diagram, and back.

  ellwand [PLAN.yaml]                    open the window
  ellwand draw    PLAN.yaml -o OUT       cutting diagram (.png, .svg, .pdf); chalk list (.csv)
  ellwand draw    PLAN.yaml --flat -o OUT  the garment laid flat, and its sewing
  ellwand reckon  PLAN.yaml [--json]     every figure of the plan, and from what; -o OUT.pdf
  ellwand cards   PLAN.yaml -o OUT.pdf   one page to hang beside the work for each stage
  ellwand chalk   PLAN.yaml -o OUT       chalk list as a page (.pdf) or a table (.csv)
  ellwand fullsize PLAN.yaml -o OUT.pdf  pieces with a curve or slant, 1 : 1, on sheets
  ellwand choices PLAN.yaml -o OUT.pdf   the record of choices, as a card
  ellwand widths  PLAN.yaml [--json]     the cloth at each width the loom can weave
  ellwand backwards PLAN.yaml [--json]   the longest garment, the fullest hem, the closest
                                         sett that the fibre in hand makes; --for one of
                                         length, hem, sett; --save keeps it in the plan
  ellwand lay     PLAN.yaml --save       work the lay out and store it in the plan
  ellwand lay     PLAN.yaml --keep       what must move on the cloth as it really is
  ellwand lay     PLAN.yaml --piecing    what cutting pieces apart would save, and the seams
  ellwand check   PLAN.yaml              say what is wrong with a plan or its lay

  --seconds N   time for packing (2; widths: 10 for all widths together)
  --seed N      the same seed searches the same way (1)
  --threads N   searches side by side (as many as there are cores)
  --new-lay     leave aside the lay kept in the plan and work out a new one
  --dpi N       resolution that PNG and SVG state (300)
  --paper SIZE  a4 or letter, for PDF (a4)
  --scale N     cutting diagram at 1 : N, on as many pages as that takes
  --only NAME   the one stage (cards) or piece (fullsize) that is wanted
  --version, --help, --licences, --manual

Exit: 0 done, 1 the plan cannot be made (and why), 2 bad input or use.
`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	env := environment{out: os.Stdout, err: os.Stderr, now: time.Now, window: openBench, ask: askOnTerminal(), unread: !isTerminal(os.Stderr)}
	code := run(ctx, os.Args[1:], env)
	stop()
	os.Exit(code)
}

// environment is what a command may touch, passed in so that tests can watch.
type environment struct {
	out, err io.Writer
	now      func() time.Time
	window   func(p *plan.Plan, path string, wrong error) error
	ask      func(question string) bool // nil: there is nobody to ask
	unread   bool                       // nobody reads err, as when started from a desktop
}

// run does one job and gives its exit code.
func run(ctx context.Context, args []string, env environment) int {
	if len(args) > 0 {
		switch args[0] {
		case "-h", "--help", "help":
			fmt.Fprint(env.out, usage)
			return exitDone
		case "--version", "version":
			fmt.Fprintf(env.out, "ellwand %s (%s, %s/%s)\n", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return exitDone
		case "--manual":
			fmt.Fprint(env.out, manual())
			return exitDone
		case "--licences":
			fmt.Fprint(env.out, assets.Licences())
			return exitDone
		}
	}
	opts, err := parseArgs(args)
	if err != nil {
		fmt.Fprintln(env.err, "ellwand:", err)
		return exitBadInput
	}
	return runJob(ctx, opts, env)
}

// runJob does the job and says what went wrong with it.
func runJob(ctx context.Context, opts options, env environment) int {
	err := opts.job(ctx, opts, env)
	var cannot cannotBeMade
	var several plan.Problems
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &cannot):
		fmt.Fprintln(env.err, "ellwand:", err)
		return exitCannot
	case errors.As(err, &several) && len(several) > 0 && !opts.allFaults:
		// One sentence: the first fault is mended first; `check` lists them all.
		fmt.Fprintln(env.err, "ellwand:", several[0])
		return exitBadInput
	default:
		fmt.Fprintln(env.err, "ellwand:", err)
		return exitBadInput
	}
}

// openBench is the window.
func openBench(p *plan.Plan, path string, wrong error) error {
	return ui.Run(p, path, version(), wrong)
}

// release is the version that the build gives, "" for none:
// -ldflags "-X main.release=1.0".
var release string

// version names the program, and the tool it was built with.
func version() string {
	v := release
	info, ok := debug.ReadBuildInfo()
	if v == "" && ok {
		v = info.Main.Version
	}
	return cmp.Or(v, "(devel)")
}
