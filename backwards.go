package main

import (
	"context"
	"fmt"
	"strings"

	"ellwand/plan"
)

// backwards answers what the most is that the fibre and yarn in hand make.
func backwards(ctx context.Context, o options, env environment) error {
	p, err := plan.Load(o.file)
	if err != nil {
		return err
	}
	seconds := 2.0
	if o.seconds >= 0 {
		seconds = o.seconds
	}
	progress := progressLine(env)
	var all []plan.Answer
	for _, q := range plan.Questions() {
		if o.question != "" && o.question != string(q) {
			continue
		}
		a, err := plan.Backwards(ctx, p, q, plan.Options{Seed: o.seed, Threads: o.threads, Seconds: seconds}, func(said string) { progress("%s", said) })
		if err != nil {
			progress("")
			return unmakeable(err)
		}
		all = append(all, a)
	}
	progress("")
	if o.json {
		data, err := plan.AnswersJSON(all)
		if err != nil {
			return err
		}
		fmt.Fprintln(env.out, string(data))
	} else {
		fmt.Fprintln(env.out, strings.TrimRight(plan.AnswersText(all), "\n"))
	}
	return o.keepAnswer(all, env)
}

// keepAnswer stores the one answer asked for in the plan, when told to.
func (o options) keepAnswer(all []plan.Answer, env environment) error {
	found := false
	for _, a := range all {
		found = found || a.Found
		if o.save && a.Found {
			if err := saveOver(a.Plan, o.file, a.Plan.ReadFrom(), env); err != nil {
				return err
			}
			fmt.Fprintf(env.err, "ellwand: %s: %s kept, with its lay\n", o.file, a.Question.Words())
		}
	}
	if !found {
		return cannotBeMade{[]string{all[0].Why}}
	}
	return nil
}
