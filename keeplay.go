package main

import (
	"context"
	"fmt"

	"ellwand/plan"
)

// keepLay says what must move for the lay in the plan to lie on the cloth as it
// really is, and with --save keeps the lay so.
func keepLay(ctx context.Context, p *plan.Plan, was plan.Stamp, o options, env environment) error {
	seconds := 10.0
	if o.seconds >= 0 {
		seconds = o.seconds
	}
	k, err := plan.KeepNear(ctx, p, plan.Options{Seed: o.seed, Threads: o.threads, Seconds: seconds})
	if err != nil {
		return unmakeable(err)
	}
	fmt.Fprint(env.out, k.Text(p.ShowUnits))
	if o.save {
		if err := saveOver(k.Plan, o.file, was, env); err != nil {
			return err
		}
		fmt.Fprintf(env.out, "%s: the lay is kept so, %.1f × %.1f cm\n", o.file, k.Result.Lay.WidthCM, k.Result.ClothCM())
	}
	return reasons(k.Result)
}

// tellPiecing says what cutting pieces apart saves and what seams it costs, also
// of pieces of which the plan does not say whether they may be cut.
func tellPiecing(ctx context.Context, p *plan.Plan, o options, env environment) error {
	r, err := workOutPlan(ctx, p, o, env, 2)
	if err != nil {
		return err
	}
	seconds := 20.0
	if o.seconds >= 0 {
		seconds = o.seconds
	}
	r.TryAllPiecing(ctx, plan.Options{Seed: o.seed, Threads: o.threads, Seconds: seconds})
	fmt.Fprint(env.out, r.PiecingText(p.ShowUnits))
	return reasons(r)
}
