package plan

import (
	"context"
	"errors"
	"fmt"
	"math"

	"ellwand/layout"
)

// Question is what the fibre and yarn in hand are asked for.
type Question string

const (
	LongestGarment Question = "length"
	FullestHem     Question = "hem"
	ClosestSett    Question = "sett"
)

// Questions are all of them.
func Questions() []Question { return []Question{LongestGarment, FullestHem, ClosestSett} }

// Answer is the most that can be made: at it the plan can be made, a hundredth
// beyond it cannot, for the reason in Limit.
type Answer struct {
	Question Question
	Found    bool
	Why      string // when not Found: why there is no answer
	Label    string // of what was asked for, "Length, shoulder to hem"
	Unit     string // "cm"; "ends per cm" for the sett
	Was, Is  float64
	Fields   []AnswerField
	Limit    string // what stops anything beyond
	Result   *Result
	Plan     *Plan // the plan with the answer in it, and its lay kept
}

// AnswerField is one value of the plan that the answer sets.
type AnswerField struct {
	Path, Label, Unit string
	Was, Is           float64
}

// beyond is the part by which more than the answer is tried in vain.
const beyond = 0.01

// Backwards works forwards with the real draft, lay, cloth and fibre at as many
// trial values as it takes to close in on the most that can be made. Lays are
// searched for, so more of a garment might by chance be laid better: from the
// value closed in on it goes on while a hundredth more can be made.
// o.Seconds is the packing time of the last trials; the first take a fifth of
// it. progress, when not nil, is told of every trial.
func Backwards(ctx context.Context, p *Plan, q Question, o Options, progress func(string)) (Answer, error) {
	o.Found, o.KeepLay = nil, true
	s := &solve{ctx: ctx, p: p, q: q, o: o, progress: progress}
	base, err := Work(ctx, p, o)
	if err != nil {
		var cannot *Unmakeable
		if !errors.As(err, &cannot) {
			return Answer{}, err
		}
	}
	s.base = base
	k, why := p.knobFor(q, base)
	if why != "" {
		return Answer{Question: q, Why: why}, nil
	}
	s.knob = k
	return s.run()
}

// knob is what is turned: at sets the plan, from least (1 of the range) to most
// garment. size is what was asked for, of a result.
type knob struct {
	label, unit string
	paths       []string
	least, most float64 // least garment, most garment; least may be the larger number
	now         float64
	at          func(t float64) (map[string]float64, error)
	size        func(*Result) float64
}

type solve struct {
	ctx      context.Context
	p        *Plan
	q        Question
	o        Options
	knob     knob
	base     *Result
	progress func(string)
	trials   int
}

// trial is the plan worked out with the knob at t.
type trial struct {
	t      float64
	plan   *Plan
	result *Result
	size   float64
	why    string // "" when it can be made
}

func (s *solve) try(t, seconds float64) (trial, error) {
	if err := s.ctx.Err(); err != nil {
		return trial{}, err
	}
	s.trials++
	out := trial{t: t, plan: s.p.Clone()}
	values, err := s.knob.at(t)
	if err != nil {
		return out, err
	}
	for path, v := range values {
		if err := SetField(out.plan, path, plain(v)); err != nil {
			return out, err
		}
	}
	out.result, err = s.work(out.plan, seconds)
	var cannot *Unmakeable
	switch {
	case errors.As(err, &cannot):
		out.why = cannot.Text
		return out, nil
	case err != nil && s.ctx.Err() != nil:
		return out, s.ctx.Err()
	case err != nil: // a garment that the draft cannot make of this
		out.why = err.Error()
		return out, nil
	}
	out.size = s.knob.size(out.result)
	out.why = s.tooMuch(out.result)
	if s.progress != nil {
		s.progress(fmt.Sprintf("%s %.2f %s: %s", s.knob.label, out.size, s.knob.unit, map[bool]string{true: "it can be made", false: "too much"}[out.why == ""]))
	}
	return out, nil
}

// work is Work, but a sett on cloth of a fixed width keeps the lay that there is.
func (s *solve) work(p *Plan, seconds float64) (*Result, error) {
	o := s.o
	o.Seconds = seconds
	if s.q == ClosestSett && s.base != nil && p.Cloth.FinishedWidthCM > 0 {
		pr, err := Prepare(p)
		if err != nil {
			return nil, err
		}
		if layout.Check(pr.Problem, s.base.Lay) == nil {
			return ReckonLay(p, pr, s.base.Lay)
		}
	}
	return Work(s.ctx, p, o)
}

// tooMuch says why a result cannot be made; "" when it can.
func (s *solve) tooMuch(r *Result) string {
	if len(r.CannotBeMade) > 0 {
		return r.CannotBeMade[0].Text
	}
	if s.q != ClosestSett {
		return ""
	}
	c := r.Reckoning
	if c.Setting != nil {
		for _, limit := range []struct {
			key, word string
			perCM     float64
		}{{"max_ends_per_cm", "ends", c.EndsPerCMOnLoom}, {"max_picks_per_cm", "picks", c.PicksPerCMOnLoom}} {
			if most := figureValue(c.Setting.Figures, limit.key); most > 0 && limit.perCM > most {
				return fmt.Sprintf("%.2f %s per cm on the loom are closer than the %.2f that Ashenhurst's rule allows for this weave and yarn.", limit.perCM, limit.word, most)
			}
		}
	}
	if wanted := r.plan.setting().FinishedEndsPerCM; c.EndsPerCMFinished < wanted*0.97 {
		return fmt.Sprintf("No reed owned gives more than %.2f ends per cm finished.", c.EndsPerCMFinished)
	}
	return ""
}

// between is the middle of two settings of the knob.
func between(a, b float64) float64 { return a + (b-a)/2 }

// run closes in: quickly first, then with all the packing time.
func (s *solve) run() (Answer, error) {
	quick := s.o.Seconds / 5
	low, err := s.foothold(quick)
	if err != nil {
		return Answer{}, err
	}
	if low.why != "" {
		return Answer{Question: s.q, Label: s.knob.label, Unit: s.knob.unit, Why: "Not even the least can be made: " + low.why}, nil
	}
	high, err := s.try(s.knob.most, quick)
	if err != nil {
		return Answer{}, err
	}
	if high.why == "" {
		high.why = "the draft of this garment takes no more than that."
		return s.answer(high, high), nil
	}
	if low, high, err = s.close(low, high, quick, 0.002); err != nil {
		return Answer{}, err
	}
	for range 3 {
		before := low.t
		if low, high, err = s.settle(low, high); err != nil {
			return Answer{}, err
		}
		if low.t == before || low.t == s.knob.most {
			break
		}
		if low, _, err = s.close(low, high, s.o.Seconds, 0.003); err != nil {
			return Answer{}, err
		}
	}
	return s.answer(low, high), nil
}

// foothold is something that can be made, from which to go on: the least, or
// else, where the draft cannot be made so small, the first of a few between.
func (s *solve) foothold(seconds float64) (trial, error) {
	var first trial
	for i := range 9 {
		at, err := s.try(s.knob.least+(s.knob.most-s.knob.least)*float64(i)/8, seconds)
		if err != nil || at.why == "" {
			return at, err
		}
		if i == 0 {
			first = at
		}
	}
	return first, nil
}

// close halves the room between what can be made and what cannot until it is
// less than part of the size.
func (s *solve) close(low, high trial, seconds, part float64) (trial, trial, error) {
	for range 40 {
		if high.size > 0 && high.size-low.size <= part*low.size || math.Abs(high.t-low.t) < 1e-3 {
			break
		}
		mid, err := s.try(between(low.t, high.t), seconds)
		if err != nil {
			return low, high, err
		}
		if mid.why == "" {
			low = mid
		} else {
			high = mid
		}
	}
	return low, high, nil
}

// settle makes sure, with all the packing time, that the answer can be made and
// that a hundredth more cannot.
func (s *solve) settle(low, high trial) (trial, trial, error) {
	at, err := s.sound(low)
	if err != nil {
		return low, high, err
	}
	for range 30 {
		more, err := s.try(s.more(at), s.o.Seconds)
		if err != nil {
			return at, high, err
		}
		if more.why != "" {
			return at, more, nil
		}
		at = more
		if at.t == s.knob.most {
			at.why = ""
			more.why = "the draft of this garment takes no more than that."
			return at, more, nil
		}
	}
	return at, high, nil
}

// sound is the trial rounded to what can be written, tried again with all the
// time, and taken back a little while it does not do.
func (s *solve) sound(low trial) (trial, error) {
	t := low.t
	for range 20 {
		at, err := s.try(t, s.o.Seconds)
		if err != nil || at.why == "" {
			return at, err
		}
		t += (s.knob.least - t) * 0.01
	}
	return s.try(s.knob.least, s.o.Seconds)
}

// more is where the knob stands for a hundredth more than at a trial.
func (s *solve) more(at trial) float64 {
	slope := s.slope(at)
	t := at.t + beyond*at.size/slope
	if (s.knob.most-t)*(s.knob.most-s.knob.least) < 0 {
		return s.knob.most
	}
	return t
}

// slope is size over knob near a trial, from the draft alone, without a lay.
func (s *solve) slope(at trial) float64 {
	step := (s.knob.most - s.knob.least) * 0.02
	if math.Abs(s.knob.most-at.t) < math.Abs(step) {
		step = -step
	}
	values, err := s.knob.at(at.t + step)
	p := s.p.Clone()
	for path, v := range values {
		if err == nil {
			err = SetField(p, path, plain(v))
		}
	}
	if err == nil {
		if pr, err := Prepare(p); err == nil {
			r := &Result{Garment: pr.Garment, plan: p}
			if d := s.knob.size(r) - at.size; math.Abs(d) > 1e-9 {
				return d / step
			}
		}
	}
	return at.size / at.t // the size is the knob itself
}

func (s *solve) answer(at, high trial) Answer {
	a := Answer{Question: s.q, Found: true, Label: s.knob.label, Unit: s.knob.unit, Is: at.size, Limit: high.why, Result: at.result, Plan: at.plan}
	if s.base != nil {
		a.Was = s.knob.size(s.base)
	}
	values, _ := s.knob.at(at.t)
	for _, path := range s.knob.paths {
		info, _ := Field(s.p, path)
		was, _ := numberOf(s.p, path)
		a.Fields = append(a.Fields, AnswerField{path, info.Label, info.Unit, was, values[path]})
	}
	a.Plan.KeepLay(at.result)
	return a
}
