package ui

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"ellwand/plan"
)

// lookingBack is the search for the most that is in hand makes, and what it found.
type lookingBack struct {
	of      *plan.Plan // asked of this state of the plan
	answers []plan.Answer
	said    string // the last trial
	fault   error
	cancel  context.CancelFunc // nil when it has ended
}

// backSeconds is the packing time of the last trials of each question.
const backSeconds = 2

// backShape changes when the fleece panel needs other lines for the answers.
func (b *bench) backShape() string {
	if b.back == nil {
		return ""
	}
	return fmt.Sprint(len(b.back.answers), b.back.cancel != nil, b.back.of == b.plan())
}

// lookBack begins the search beside the window.
func (b *bench) lookBack() {
	b.stopBack()
	ctx, cancel := context.WithCancel(context.Background())
	of := b.plan()
	look := &lookingBack{of: of, cancel: cancel}
	b.back = look
	p := of.Clone()
	b.spawn(func() {
		var fault error
		for _, q := range plan.Questions() {
			a, err := plan.Backwards(ctx, p, q, plan.Options{Seed: 1, Threads: threads(), Seconds: b.backTime()},
				func(said string) { b.onWindow(func() { look.said = said; b.tellBack(look) }) })
			if err != nil {
				fault = err
				break
			}
			b.onWindow(func() { look.answers = append(look.answers, a); b.tellBack(look) })
		}
		b.onWindow(func() {
			if look.cancel = nil; fault != nil && !errors.Is(fault, context.Canceled) {
				look.fault = fault
			}
			cancel()
			b.tellBack(look)
		})
	})
	b.tellBack(look)
}

// backTime is as long as the moment's packing, in tests too.
func (b *bench) backTime() float64 { return min(backSeconds, b.moment) }

func (b *bench) tellBack(look *lookingBack) {
	if b.back == look && b.onBack != nil {
		b.onBack()
	}
}

// stopBack ends the search; what it found is kept.
func (b *bench) stopBack() {
	if b.back != nil && b.back.cancel != nil {
		b.back.cancel()
	}
}

// useAnswer puts an answer and its lay into the plan.
func (b *bench) useAnswer(a plan.Answer) error {
	return b.do("use "+a.Question.Words(), func(p *plan.Plan) error {
		for _, f := range a.Fields {
			if err := plan.SetField(p, f.Path, strings.TrimSpace(fmt.Sprintf("%.10g", f.Is))); err != nil {
				return err
			}
		}
		p.Lay = a.Plan.Clone().Lay
		return nil
	})
}

// backwards is the part of the fleece panel that asks what is in hand makes.
func (f *form) backwards() {
	b := f.b
	f.heading("What will it make?")
	f.note("The longest garment, the fullest hem and the closest sett that the fibre and the yarn in hand make, each by itself, found with the draft, the lay and the cloth as they are.")
	look := b.back
	switch {
	case look == nil:
		f.button("Work it out", func() error { b.lookBack(); return nil })
		return
	case look.cancel != nil:
		f.button("Stop", func() error { b.stopBack(); return nil })
		f.said(func() string { return "Working … " + look.said })
	default:
		f.button("Work it out anew", func() error { b.lookBack(); return nil })
		if look.fault != nil {
			f.said(func() string { return "! " + sentence(look.fault, "") })
		}
	}
	if look.of != b.plan() {
		f.note("The plan has changed since: these are the answers for the plan as it was.")
	}
	for _, a := range look.answers {
		f.answer(a, look.of == b.plan())
	}
}

func (f *form) answer(a plan.Answer, current bool) {
	words := a.Question.Words()
	f.gap(4)
	head := newParagraph(strings.ToUpper(words[:1])+words[1:], panelWidth)
	head.style.Bold = true
	f.add(head)
	f.said(func() string { return strings.Join(a.Lines(), "\n") })
	if a.Found && current {
		f.button("Use "+words, func() error { return f.b.useAnswer(a) })
	}
}
