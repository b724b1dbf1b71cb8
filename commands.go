package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"

	"ellwand/layout/drawing"
	"ellwand/paper"
	"ellwand/plan"
	"ellwand/prints"
)

// cannotBeMade is a plan that is well written but cannot be made as it stands.
type cannotBeMade struct{ reasons []string }

func (c cannotBeMade) Error() string {
	return "this plan cannot be made as it stands: " + strings.Join(c.reasons, " ")
}

// openWindow opens the named plan, or the starter plan, in the window. A plan
// that cannot be opened is said there when nobody reads standard error.
func openWindow(_ context.Context, o options, env environment) error {
	p, path, err := plan.Starter(), "", error(nil)
	if o.file != "" {
		var named *plan.Plan
		if named, _, err = plan.LoadToLook(o.file); err == nil {
			p, path = named, o.file
		}
	}
	display := runtime.GOOS != "linux" || os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
	switch {
	case err != nil && !(env.unread && display):
		return err
	case !display:
		return errors.New("no display to open a window on (DISPLAY and WAYLAND_DISPLAY are empty); the commands draw, reckon, widths, lay and check need none")
	}
	if shown := env.window(p, path, err); shown != nil {
		return shown
	}
	return err
}

// workOut loads a plan and works it out with the packing time wanted.
func workOut(ctx context.Context, o options, env environment, seconds float64) (*plan.Plan, *plan.Result, error) {
	p, err := plan.Load(o.file)
	if err != nil {
		return nil, nil, err
	}
	r, err := workOutPlan(ctx, p, o, env, seconds)
	return p, r, err
}

// workOutPlan works a loaded plan out with the packing time wanted.
func workOutPlan(ctx context.Context, p *plan.Plan, o options, env environment, seconds float64) (*plan.Result, error) {
	if o.seconds >= 0 {
		seconds = o.seconds
	}
	progress := progressLine(env)
	r, err := plan.Work(ctx, p, plan.Options{
		Seed: o.seed, Threads: o.threads, Seconds: seconds, KeepLay: !o.newLay,
		Found: func(r *plan.Result) { progress("%.1f cm long, %.1f %% used", r.ClothCM(), r.UsePercent) },
	})
	progress("")
	if err != nil {
		return nil, unmakeable(err)
	}
	return r, nil
}

// unmakeable makes an error that the plan cannot be made exit as such.
func unmakeable(err error) error {
	var u *plan.Unmakeable
	if errors.As(err, &u) {
		return cannotBeMade{[]string{u.Text}}
	}
	return err
}

// progressLine writes over one line of standard error when that is a terminal.
func progressLine(env environment) func(format string, args ...any) {
	file, ok := env.err.(*os.File)
	if !ok || !isTerminal(file) {
		return func(string, ...any) {}
	}
	return func(format string, args ...any) {
		fmt.Fprintf(file, "\r\x1b[K"+format, args...)
	}
}

// reasons turns shortfalls into the error that exits 1, or nil.
func reasons(r *plan.Result) error {
	var texts []string
	for _, s := range r.CannotBeMade {
		texts = append(texts, s.Text)
	}
	if len(texts) == 0 {
		return nil
	}
	return cannotBeMade{texts}
}

func draw(ctx context.Context, o options, env environment) error {
	if o.flat {
		return drawFlat(ctx, o, env)
	}
	write, err := drawing.ForFile(o.out)
	if err != nil {
		return fmt.Errorf("-o: %w", err)
	}
	paper, err := paper.Named(o.paper)
	if err != nil {
		return err
	}
	p, r, err := workOut(ctx, o, env, 2)
	if err != nil {
		return err
	}
	sheet := r.Sheet(env.now().Format("2006-01-02"))
	err = plan.WriteFile(o.out, func(w io.Writer) error {
		return write(w, sheet, drawing.Options{DPI: o.dpi, Paper: paper, Ratio: o.scale})
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(env.out, "%s: %.1f × %.1f cm, %.1f %% used\n", o.out, r.Lay.WidthCM, r.ClothCM(), r.UsePercent)
	noteLay(p, r, o, env)
	return nil
}

func reckon(ctx context.Context, o options, env environment) error {
	p, r, err := workOut(ctx, o, env, 2)
	if err != nil {
		return err
	}
	if len(r.Piecing) > 0 && o.seconds != 0 {
		r.TryPiecing(ctx, plan.Options{Seed: o.seed, Threads: o.threads, Seconds: max(2, o.seconds)})
	}
	if o.out != "" {
		if err := printTo(prints.Reckoning, r, o, env); err != nil {
			return err
		}
		return reasons(r)
	}
	if o.json {
		data, err := r.JSON()
		if err != nil {
			return err
		}
		fmt.Fprintln(env.out, strings.TrimRight(string(data), "\n"))
	} else {
		fmt.Fprintln(env.out, strings.TrimRight(r.Text(p.ShowUnits), "\n"))
	}
	return reasons(r)
}

func widths(ctx context.Context, o options, env environment) error {
	p, err := plan.Load(o.file)
	if err != nil {
		return err
	}
	seconds := 10.0
	if o.seconds >= 0 {
		seconds = o.seconds
	}
	progress := progressLine(env)
	rows, err := plan.Widths(ctx, p, nil, plan.Options{Seed: o.seed, Threads: o.threads, Seconds: seconds},
		func(done, all int) { progress("width %d of %d", done, all) })
	progress("")
	if err != nil {
		return unmakeable(err)
	}
	if o.json {
		data, err := plan.WidthsJSON(rows)
		if err != nil {
			return err
		}
		fmt.Fprintln(env.out, strings.TrimRight(string(data), "\n"))
	} else {
		fmt.Fprintln(env.out, strings.TrimRight(plan.WidthsText(rows, p.ShowUnits), "\n"))
	}
	if _, ok := plan.Narrowest(rows); !ok {
		return cannotBeMade{[]string{plan.NoWidthFits(rows, p.ShowUnits)}}
	}
	return nil
}

func lay(ctx context.Context, o options, env environment) error {
	p, stamp, err := plan.LoadStamped(o.file)
	if err != nil {
		return err
	}
	if o.keep {
		return keepLay(ctx, p, stamp, o, env)
	}
	if o.piece {
		return tellPiecing(ctx, p, o, env)
	}
	r, err := workOutPlan(ctx, p, o, env, 2)
	if err != nil {
		return err
	}
	p.KeepLay(r)
	if err := saveOver(p, o.file, stamp, env); err != nil {
		return err
	}
	fmt.Fprintf(env.out, "%s: lay of %d pieces kept, %.1f × %.1f cm, %.1f %% used. %s\n",
		o.file, len(r.Lay.Placements), r.Lay.WidthCM, r.ClothCM(), r.UsePercent, r.BoundText("cm"))
	short := reasons(r)
	if short != nil {
		fmt.Fprintln(env.out, "It is kept as it is, but the plan cannot be made with it.")
	}
	return short
}

// check reads a plan, works it out with the lay it has, and says what is wrong.
func check(ctx context.Context, o options, env environment) error {
	p, err := plan.Load(o.file)
	if err != nil {
		return err
	}
	r, err := plan.Work(ctx, p, plan.Options{Seed: o.seed, Threads: 1, KeepLay: true})
	if err != nil {
		return unmakeable(err)
	}
	for _, n := range r.Notes {
		fmt.Fprintln(env.out, "note:", n)
	}
	for _, c := range r.Cautions {
		fmt.Fprintln(env.out, "caution:", c)
	}
	faults := p.LayFaults(r)
	if err := reasons(r); err != nil || len(faults) > 0 {
		c, _ := err.(cannotBeMade)
		return cannotBeMade{append(faults, c.reasons...)}
	}
	fmt.Fprintf(env.out, "%s: the plan is sound; its lay of %.1f × %.1f cm has no overlap\n", o.file, r.Lay.WidthCM, r.ClothCM())
	return nil
}
