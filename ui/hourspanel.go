package ui

import (
	"fmt"
	"strings"

	"ellwand/hours"
)

func fillHours(f *form) {
	f.budget()
	f.said(func() string { return hoursAnswer(f.b) })
	f.heading("Time there is")
	for _, key := range []string{"budget_h", "per_week_h", "start", "finish_by", "rest_share", "other_h"} {
		f.field("hours." + key)
	}
	f.heading("What to cut first")
	f.said(func() string { return savingsText(f.b) })
	f.heading("Hours by task")
	f.note("The bar is the likely hours; the line under it runs from quick to slow. The drawer's figures say from what.")
	bars := newTaskBars()
	show := func() {
		if f.b.shown != nil {
			bars.show(f.b.shown.Hours.Tasks)
		} else {
			bars.show(nil)
		}
	}
	show()
	f.live = append(f.live, func() {
		before := bars.MinSize()
		if show(); bars.MinSize() != before {
			f.box.Refresh()
		}
	})
	f.add(bars)
	f.heading("With which tools")
	f.note("Shares are parts of the whole: 0.3 is three parts in ten.")
	f.field("hours.shares.spindle")
	for _, y := range f.b.plan().Yarns {
		if len(y.Parts()) > 0 {
			f.field("hours.shares.spindle_of[" + y.Name + "]")
		}
	}
	for _, key := range []string{"shares.combed_outer", "shares.combed_inner", "shares.combed_whole", "weaving"} {
		f.field("hours." + key)
	}
	f.heading("Sewing")
	for _, key := range []string{"stitch", "stitch_mm", "fell_passes", "shares.machine_hidden_seams"} {
		f.field("hours." + key)
	}
	f.note("Seams that show are sewn by hand; which ones show is said with the pieces.")
	f.heading("Your own timed rates")
	f.note("Left empty, the published rate that stands faintly in its place is taken: slow, usual, quick. Time yourself on a sample and write one number, or three with commas between.")
	for _, r := range hours.Rates() {
		spec := f.plain("hours.rates."+r.Key, r.Label+", "+r.Unit, "") // three numbers need the room of the unit
		spec.hint = func() string { return rateHint(r.Range) }
		f.put(spec)
		f.note("Published: " + rateWords(r))
	}
}

// budget adds the picture of the forecast against the budget.
func (f *form) budget() {
	bar := newBudgetBar()
	show := func() {
		if f.b.shown != nil {
			bar.show(forecastOf(f.b.shown))
		}
	}
	show()
	f.live = append(f.live, func() {
		before := bar.MinSize()
		if show(); bar.MinSize() != before {
			f.box.Refresh()
		}
	})
	f.add(bar)
	f.said(func() string {
		if f.b.shown == nil {
			return ""
		}
		return stagesText(forecastOf(f.b.shown).Tasks)
	})
}

// savingsText is what could be done in less time, the most saved first.
func savingsText(b *bench) string {
	if b.shown == nil || len(b.shown.Hours.Savings) == 0 {
		return words("Nothing that would save an hour is known.")
	}
	var lines []string
	for _, s := range b.shown.Hours.Savings {
		lines = append(lines, fmt.Sprintf("%.1f h: %s", s.SavesH, s.What))
	}
	return strings.Join(lines, "\n")
}

// hoursShape changes with the yarns, for each may have a tool of its own.
func hoursShape(b *bench) string { return yarnShape(b) }

// hoursAnswer is the hours against the budget and the calendar, in words.
func hoursAnswer(b *bench) string {
	if b.shown == nil {
		return words("Nothing is worked out yet.")
	}
	h := b.shown.Hours
	lines := append([]string{}, h.Verdict...)
	if h.LimitBy != "" && h.Total.Likely > h.LimitH {
		lines[0] = "! " + lines[0]
	}
	for _, c := range h.Cautions {
		lines = append(lines, "Caution: "+c)
	}
	return strings.Join(lines, "\n")
}

func rateHint(r hours.Range) string {
	if r.Low == r.High {
		return fmt.Sprintf("%.4g", r.Likely)
	}
	return fmt.Sprintf("%.3g, %.3g, %.3g", r.Low, r.Likely, r.High)
}

// rateWords is a published rate with its source, in full.
func rateWords(r hours.Rate) string {
	return fmt.Sprintf("%s %s; %s.", strings.ReplaceAll(rateHint(r.Range), ",", " –"), r.Unit, r.Source)
}
