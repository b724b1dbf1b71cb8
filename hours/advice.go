package hours

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// LargestShare is the most of a slow tool that the time there is allows.
type LargestShare struct {
	Key   string // "spindle", "hand_sewn_hidden_seams"
	Name  string // "yarn spun by spindle"
	Now   float64
	Share float64 // rounded down to 0.0001; 0 where Fits is false
	Fits  bool    // false: the time is passed even without the slow tool
}

// Saving is one thing that could be done in less time, and how many likely hours,
// rest counted, that saves. Each is of the plan as it stands: two of the same
// work do not add up.
type Saving struct {
	Key    string // "spin:grey-weft"
	What   string // "spin grey-weft by wheel"
	SavesH float64
}

// limit is the hours there are: the budget, or what the weeks to the day give
// where that is less; 0 and "" for neither.
func (s Settings) limit() (float64, string) {
	h, by := s.BudgetH, "the budget"
	start, err1 := ParseDate(s.Start)
	end, err2 := ParseDate(s.FinishBy)
	if err1 == nil && err2 == nil && s.PerWeekH > 0 {
		weeks := math.Max(0, end.Sub(start).Hours()/24/7)
		if there := weeks * s.PerWeekH; h == 0 || there < h {
			h, by = there, fmt.Sprintf("the day %s, %s weeks of %s h away", s.FinishBy, num(math.Round(weeks*10)/10), num(s.PerWeekH))
		}
	}
	if h == 0 && by == "the budget" {
		return 0, ""
	}
	return h, by
}

// likely is all likely hours of the work so done, rest counted.
func likely(w Work, s Settings) float64 {
	list := listed(w, s)
	return total(append(list, rest(list, s)...)).Likely
}

// largest is the largest share from 0 to 1 at which the likely hours are within
// the limit, at telling the hours for a share. They are a straight line in it, so
// two points give it.
func largest(limitH float64, at func(share float64) float64) (share float64, fits bool) {
	none, all := at(0), at(1)
	switch {
	case math.Max(none, all) <= limitH:
		return 1, true
	case all <= none: // the slow tool is no slower: a smaller share saves nothing
		return 1, all <= limitH
	case none > limitH:
		return 0, false
	}
	return (limitH - none) / (all - none), true
}

// LargestSpindleShare is the largest share of the metres that can be spun by
// spindle within the time there is, at the likely rates, the rest by wheel; yarns
// with a share of their own keep it. False when the time is passed even with all
// the others by wheel.
func LargestSpindleShare(w Work, s Settings) (float64, bool) {
	limitH, _ := s.limit()
	return largest(limitH, func(share float64) float64 {
		s.SpindleShare = share
		return likely(w, s)
	})
}

// LargestHandShare is the largest share of the hidden seams that can be joined by
// hand within the time there is, the rest by machine.
func LargestHandShare(w Work, s Settings) (float64, bool) {
	limitH, _ := s.limit()
	return largest(limitH, func(share float64) float64 {
		s.MachineShare = 1 - share
		return likely(w, s)
	})
}

// advise says how much of the slow tools fits, and what to cut first.
func (r *Reckoning) advise(w Work, s Settings) {
	r.Savings = savings(w, s)
	if r.LimitBy == "" {
		return
	}
	spun := slices.ContainsFunc(r.Tasks, func(t Task) bool { return strings.HasPrefix(t.Key, "spin:") })
	sewn := slices.ContainsFunc(w.Seams, func(l Length) bool { return !l.Shows && l.CM > 0 && l.Times > 0 })
	add := func(there bool, key, name string, now float64, find func(Work, Settings) (float64, bool)) {
		if there {
			share, fits := find(w, s)
			r.Largest = append(r.Largest, LargestShare{key, name, now, math.Floor(share*1e4+1e-7) / 1e4, fits})
		}
	}
	add(spun, "spindle", "the yarn spun by spindle, the rest by wheel", s.SpindleShare, LargestSpindleShare)
	add(sewn, "hand_sewn_hidden_seams", "the seams that do not show sewn by hand, the rest by machine", 1-s.MachineShare, LargestHandShare)
	over := r.Total.Likely > r.LimitH
	if over && r.LimitBy != "the budget" {
		r.Verdict = append(r.Verdict, fmt.Sprintf("That is %.0f h more than there are until %s.", r.Total.Likely-r.LimitH, r.LimitBy))
	}
	for _, l := range r.Largest {
		if text := l.words(over, r.LimitBy); text != "" {
			r.Verdict = append(r.Verdict, text)
		}
	}
	if over && len(r.Savings) > 0 {
		var first []string
		for _, v := range r.Savings[:min(4, len(r.Savings))] {
			first = append(first, fmt.Sprintf("%s (%.0f h)", v.What, v.SavesH))
		}
		r.Verdict = append(r.Verdict, "To cut first, by what it saves: "+strings.Join(first, "; ")+".")
	}
}

// words says what a largest share means for the plan; "" where that goes without
// saying.
func (l LargestShare) words(over bool, by string) string {
	percent := num(math.Floor(l.Share*1000)/10) + " %"
	switch {
	case !l.Fits && l.Key == "spindle" && l.Now > 0:
		return "Spinning all of the yarn by wheel would not be enough by itself."
	case !l.Fits:
		return ""
	case over && l.Share < 0.001 && l.Key == "spindle":
		return "It fits only with all of the yarn spun by wheel."
	case over && l.Share < l.Now:
		return fmt.Sprintf("It fits with at most %s of %s.", percent, l.Name)
	case !over && l.Share >= 1 && l.Now < 1:
		return fmt.Sprintf("Within %s there is time for all of %s.", by, strings.SplitN(l.Name, ",", 2)[0])
	case !over && l.Share < 1:
		return fmt.Sprintf("Within %s there is time for at most %s of %s.", by, percent, l.Name)
	}
	return ""
}

// savings are what could be done in less time, the most saved first; what saves
// less than a quarter of an hour is left out.
func savings(w Work, s Settings) []Saving {
	now := likely(w, s)
	var out []Saving
	try := func(key, what string, change func(*Settings)) {
		other := s
		other.SpindleOf = map[string]float64{}
		for k, v := range s.SpindleOf {
			other.SpindleOf[k] = v
		}
		change(&other)
		if saved := now - likely(w, other); saved >= 0.25 {
			out = append(out, Saving{key, what, saved})
		}
	}
	for _, y := range w.Yarns {
		if y.LengthM > 0 {
			try("spin:"+y.Name, "spin all of "+y.Name+" by wheel", func(o *Settings) { o.SpindleOf[y.Name] = 0 })
		}
	}
	try("card:outer", "card the outer coat instead of combing it", func(o *Settings) { o.CombedOuter = 0 })
	try("card:inner", "card the inner coat instead of combing it", func(o *Settings) { o.CombedInner = 0 })
	try("card:whole", "card the whole fleece instead of combing it", func(o *Settings) { o.CombedWhole = 0 })
	if s.Weaving != ToolTreadle {
		try("weave:treadle", "weave on a treadle loom", func(o *Settings) { o.Weaving = ToolTreadle })
	}
	try("join:machine", "sew all seams that do not show by machine", func(o *Settings) { o.MachineShare = 1 })
	if s.FellPasses > 1 {
		try("fell:once", "fell the seams once", func(o *Settings) { o.FellPasses = 1 })
	}
	try("fell:none", "leave the seams' allowances open", func(o *Settings) { o.FellPasses = 0 })
	slices.SortStableFunc(out, func(a, b Saving) int { return cmp.Compare(b.SavesH, a.SavesH) })
	return out
}
