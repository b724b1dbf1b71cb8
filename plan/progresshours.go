package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"ellwand/hours"
)

// HoursProgress is the hours worked and those that remain at the rates really
// worked, rest counted as the plan counts it.
type HoursProgress struct {
	WorkedH   float64 // put down
	Remaining hours.Range
	Total     hours.Range // worked and remaining
	PlannedH  float64     // likely, before the log
	BudgetH   float64
	Rates     map[string]hours.Range // worked, by the rate's key
	Tasks     []TaskProgress
	LastDate  string        // of the log; "" without dates
	PerWeekH  float64       // the plan's, or really worked when the log spans two weeks
	Finish    *[3]time.Time // earliest, likely, latest; nil without a date or weekly hours
	Planned   *[3]time.Time // the plan's own
}

// TaskProgress is one task of the hours.
type TaskProgress struct {
	Key, Name         string
	PlannedH, WorkedH float64
	LeftPart          float64 // of the quantity
	Remaining         hours.Range
}

// workedRates are the rates really worked, by the keys of the hours.
func (p *Plan) workedRates(g *Progress, w hours.Work) map[string]hours.Range {
	out := map[string]hours.Range{}
	for _, tool := range []string{"spindle", "wheel"} {
		if rate := p.spinningRate(tool); rate > 0 {
			out[map[string]string{"spindle": hours.RateSpindle, "wheel": hours.RateWheel}[tool]] = hours.One(rate)
		}
	}
	if web := g.Web; web.Hours > 0 {
		perCM := web.PlannedPicksPerCM
		if web.RealPicksPerCM > 0 {
			perCM = web.RealPicksPerCM
		}
		m2 := w.Web.FinishedM2 / math.Max(w.Web.WovenCM, 1e-9)
		switch p.Hours.Weaving {
		case hours.ToolTreadle:
			out[hours.RateTreadle] = hours.One(web.CMPerHour * perCM / 60)
		case hours.ToolPit:
			out[hours.RatePit] = hours.One(web.CMPerHour * m2)
		case hours.ToolWarpWeighted:
			out[hours.RateWarpWeighted] = hours.One(web.CMPerHour * m2)
		default:
			out[hours.RateFrame] = hours.One(web.CMPerHour)
		}
	}
	for task, key := range p.rateOfTask() {
		quantity, h := 0.0, 0.0
		for _, e := range p.Log.Worked {
			if e.Task == task && e.Quantity > 0 && e.Hours > 0 {
				quantity, h = quantity+e.Quantity, h+e.Hours
			}
		}
		if h > 0 {
			rate := quantity / h
			if key == hours.RateRunningStitch {
				rate = rate * 1000 / (60 * p.Hours.StitchMM)
			}
			out[key] = hours.One(rate)
		}
	}
	for k, v := range out { // a slip of the pen must not stop the reckoning
		out[k] = hours.One(math.Min(1e7, math.Max(1e-6, v.Likely)))
	}
	return out
}

// rateOfTask is the rate that a task's quantity tells of. Quantities are g for
// sort, scour, dye, comb and card, ends for wind, thread and sley, m² for
// finish, m for the rest.
func (p *Plan) rateOfTask() map[string]string {
	join := hours.RateRunningStitch
	if p.Hours.Stitch == hours.StitchBack {
		join = hours.RateBackstitch
	}
	return map[string]string{"sort": hours.RateSort, "scour": hours.RateScour, "dye": hours.RateDye, "finish": hours.RateFinish, "cut": hours.RateCut, "comb": hours.RateComb, "card": hours.RateCard,
		"wind": hours.RateWind, "beam": hours.RateBeam, "thread": hours.RateThread, "sley": hours.RateSley, "join": join, "fell": hours.RateFell, "hem": hours.RateHem}
}

// toolOf is what a skein was spun by: as it says, or else what most is planned by.
func (p *Plan) toolOf(s Skein) string {
	switch {
	case s.Tool != "":
		return s.Tool
	case p.spindleShare(s.Yarn) >= 0.5:
		return "spindle"
	}
	return "wheel"
}

// spindleShare is the part of a yarn that is planned to be spun by spindle.
func (p *Plan) spindleShare(yarn string) float64 {
	if share, ok := p.Hours.SpindleOf[yarn]; ok {
		return share
	}
	return p.Hours.SpindleShare
}

// spinningRate is metres of singles and of plying an hour by one tool. A plied
// skein goes through the hand once as singles and once to be plied; hours put
// down for plying apart are shared out by the metres.
func (p *Plan) spinningRate(tool string) float64 {
	var m, h, plied, allPlied, plyH float64
	for _, s := range p.Log.Skeins {
		y, err := p.yarn("yarns", s.Yarn)
		if err != nil || s.Hours == 0 {
			continue
		}
		passes := s.LengthM
		if y.Plies > 1 {
			passes = y.SinglesM(s.LengthM) + s.LengthM
			allPlied += s.LengthM
		}
		if p.toolOf(s) == tool {
			m, h = m+passes, h+s.Hours
			if y.Plies > 1 {
				plied += s.LengthM
			}
		}
	}
	for _, e := range p.Log.Worked {
		if e.Task == "ply" {
			plyH += e.Hours
		}
	}
	if h == 0 {
		return 0
	}
	if allPlied > 0 {
		h += plyH * plied / allPlied
	}
	return m / h
}

// hours works out what remains, task by task: at the rates worked where there
// are any, else at the plan's.
func (g *Progress) hours(p *Plan, pr *Prepared, r *Result) error {
	w := p.workToDo(pr, r.Reckoning)
	s := p.Hours
	rates := p.workedRates(g, w)
	own := map[string]hours.Range{}
	for k, v := range s.Own {
		own[k] = v
	}
	for k, v := range rates {
		own[k] = v
	}
	s.Own = own
	now, err := hours.Reckon(w, s)
	if err != nil {
		return fmt.Errorf("the hours that remain cannot be worked out: %w", err)
	}
	h := &g.Hours
	h.Rates, h.PlannedH, h.BudgetH, h.Planned = rates, r.Hours.Total.Likely, s.BudgetH, r.Hours.Finish
	planned := map[string]float64{}
	for _, t := range r.Hours.Tasks {
		planned[t.Key] = t.Hours.Likely
	}
	for _, t := range now.Tasks {
		if t.Key == "rest" {
			continue
		}
		at := TaskProgress{Key: t.Key, Name: t.Name, PlannedH: planned[t.Key]}
		at.WorkedH, at.LeftPart = g.done(p, t)
		at.Remaining = hours.Range{Low: t.Hours.Low * at.LeftPart, Likely: t.Hours.Likely * at.LeftPart, High: t.Hours.High * at.LeftPart}
		h.Tasks = append(h.Tasks, at)
		h.Remaining = plus(h.Remaining, at.Remaining)
	}
	h.WorkedH = p.Log.hours()
	rest := 1 / (1 - s.RestShare)
	for _, v := range []*float64{&h.Remaining.Low, &h.Remaining.Likely, &h.Remaining.High} {
		*v *= rest
	}
	h.Total = plus(h.Remaining, hours.One(h.WorkedH*rest))
	g.calendar(p)
	return nil
}

func plus(a, b hours.Range) hours.Range {
	return hours.Range{Low: a.Low + b.Low, Likely: a.Likely + b.Likely, High: a.High + b.High}
}

// hours is all that is put down.
func (l Log) hours() float64 {
	sum := 0.0
	for _, s := range l.Skeins {
		sum += s.Hours
	}
	for _, w := range l.Woven {
		sum += w.Hours
	}
	for _, w := range l.Worked {
		sum += w.Hours
	}
	return sum
}

// done is the hours put down for a task, and the part of it that is left.
func (g *Progress) done(p *Plan, t hours.Task) (workedH, leftPart float64) {
	head, rest, _ := strings.Cut(t.Key, ":")
	if slices.Contains(g.past, head) {
		workedH, _ = g.onTheWay(p, head, rest, t)
		return workedH, 0
	}
	return g.onTheWay(p, head, rest, t)
}

// onTheWay is done for a task that may not be over.
func (g *Progress) onTheWay(p *Plan, head, rest string, t hours.Task) (workedH, leftPart float64) {
	switch head {
	case "spin", "ply":
		name, tool, _ := strings.Cut(rest, ":")
		if i := strings.LastIndex(rest, ":"); i >= 0 {
			name, tool = rest[:i], rest[i+1:]
		}
		for _, s := range p.Log.Skeins {
			if head == "spin" && s.Yarn == name && p.toolOf(s) == tool {
				workedH += s.Hours
			}
		}
		return workedH, g.leftToSpin(p, name, tool)
	case "weave":
		for _, w := range p.Log.Woven {
			workedH += w.Hours
		}
		if g.Web.PlannedCM > 0 {
			return workedH, math.Min(1, g.Web.LeftCM/g.Web.PlannedCM)
		}
	}
	return p.doneOfTask(head, rest, t)
}

// leftToSpin is the part of a yarn's metres for one tool that is not spun. What
// is spun beyond one tool's share goes to the other's.
func (g *Progress) leftToSpin(p *Plan, yarn, tool string) float64 {
	for _, y := range g.Yarns {
		if y.Name != yarn || y.NeededM <= 0 {
			continue
		}
		share := p.spindleShare(yarn)
		if tool == "wheel" {
			share = 1 - share
		}
		own := 0.0
		for _, s := range p.Log.Skeins {
			if s.Yarn == yarn && p.toolOf(s) == tool {
				own += s.LengthM
			}
		}
		wanted := y.NeededM * share
		other := (y.SpunM - own) - (y.NeededM - wanted) // more than the other tool's share
		return math.Min(1, math.Max(0, wanted-own-math.Max(0, other))/math.Max(wanted, 1e-9))
	}
	return 1
}

// doneOfTask is the part left of a task other than spinning and weaving: none
// when it is said to be done, else what its quantities leave, else what its
// hours leave of those planned.
func (p *Plan) doneOfTask(head, of string, t hours.Task) (workedH, leftPart float64) {
	quantity, unmeasured, done := 0.0, 0.0, false
	for _, e := range p.Log.Worked {
		if e.Task != head || e.Of != "" && e.Of != of && !strings.HasPrefix(of, e.Of+",") {
			continue
		}
		workedH += e.Hours
		quantity += e.Quantity
		if e.Quantity == 0 {
			unmeasured += e.Hours
		}
		done = done || e.Done
	}
	if done {
		return workedH, 0
	}
	left := 1.0
	if t.Quantity > 0 {
		left -= quantity / t.Quantity
	}
	if t.Hours.Likely > 0 {
		left -= unmeasured / t.Hours.Likely
	}
	return workedH, math.Min(1, math.Max(0, left))
}

// lastDay is the latest date of the log, and the first; false without one.
func (l Log) days() (first, last time.Time, ok bool) {
	var all []time.Time
	add := func(date string) {
		if d, err := hours.ParseDate(date); err == nil {
			all = append(all, d)
		}
	}
	for _, s := range l.Skeins {
		add(s.Date)
	}
	for _, w := range l.Woven {
		add(w.Date)
	}
	for _, w := range l.Worked {
		add(w.Date)
	}
	if len(all) == 0 {
		return first, last, false
	}
	slices.SortFunc(all, time.Time.Compare)
	return all[0], all[len(all)-1], true
}

// maxWeeks keeps a date within what a calendar shows.
const maxWeeks = 200 * 52

// calendar says when it will be done, at the hours a week really worked once
// the log spans two weeks, and warns when that is late or over the budget.
func (g *Progress) calendar(p *Plan) {
	h := &g.Hours
	first, last, dated := p.Log.days()
	if start, err := hours.ParseDate(p.Hours.Start); err == nil && dated && start.Before(first) {
		first = start
	}
	h.PerWeekH = p.Hours.PerWeekH
	rest := 1 / (1 - p.Hours.RestShare)
	if weeks := last.Sub(first).Hours() / 24 / 7; dated && weeks >= 2 && h.WorkedH > 0 {
		h.PerWeekH = h.WorkedH * rest / weeks
	}
	if dated {
		h.LastDate = last.Format(time.DateOnly)
	}
	if dated && h.PerWeekH > 0 && h.Remaining.High/h.PerWeekH < maxWeeks {
		day := func(left float64) time.Time { return last.AddDate(0, 0, int(math.Ceil(left/h.PerWeekH*7-1e-9))) }
		h.Finish = &[3]time.Time{day(h.Remaining.Low), day(h.Remaining.Likely), day(h.Remaining.High)}
		if h.Planned != nil {
			if late := int(math.Round(h.Finish[1].Sub(h.Planned[1]).Hours() / 24)); late > 7 {
				g.warn("Running late: at the rates and the %.1f h a week worked so far it is done about %s, %d days after the %s planned.", h.PerWeekH, h.Finish[1].Format(time.DateOnly), late, h.Planned[1].Format(time.DateOnly))
			}
		}
	}
	if h.BudgetH > 0 && h.Total.Likely > h.BudgetH && h.Total.Likely > h.PlannedH+0.5 {
		g.warn("Running over: %.0f h worked and %.0f h that remain at the rates really worked make %.0f h with rests, %.0f h over the budget of %.0f h.", h.WorkedH, h.Remaining.Likely, h.Total.Likely, h.Total.Likely-h.BudgetH, h.BudgetH)
	}
}
