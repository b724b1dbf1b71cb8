package plan

import (
	"fmt"
	"strings"
	"time"

	"ellwand/hours"
)

type hoursJSON struct {
	LowH    float64 `json:"low_h"`
	LikelyH float64 `json:"likely_h"`
	HighH   float64 `json:"high_h"`
	BudgetH float64 `json:"budget_h"`
	// The days on which it is done; empty without a start and weekly hours.
	FinishEarliest string `json:"finish_earliest"`
	FinishLikely   string `json:"finish_likely"`
	FinishLatest   string `json:"finish_latest"`
	// The hours there are, and what sets them: the budget or the day; 0 and "" for none.
	LimitH  float64       `json:"limit_h"`
	LimitBy string        `json:"limit_by"`
	Largest []largestJSON `json:"largest_shares"`
	Savings []savingJSON  `json:"cut_first"`
	Verdict []string      `json:"verdict"`
	Tasks   []taskJSON    `json:"tasks"`
}

// largestJSON is the most of a slow tool that fits the hours there are.
type largestJSON struct {
	Key   string  `json:"key"`
	Name  string  `json:"name"`
	Now   float64 `json:"now"`
	Share float64 `json:"share"`
	Fits  bool    `json:"fits"` // false: not even without the slow tool
}

// savingJSON is one thing that could be cut; the most hours saved stand first.
type savingJSON struct {
	Key    string  `json:"key"`
	What   string  `json:"what"`
	SavesH float64 `json:"saves_h"`
}

type taskJSON struct {
	Name     string  `json:"name"`
	Quantity float64 `json:"quantity"`
	Unit     string  `json:"unit"`
	LowH     float64 `json:"low_h"`
	LikelyH  float64 `json:"likely_h"`
	HighH    float64 `json:"high_h"`
	From     string  `json:"from"`
}

func hoursAsJSON(h hours.Reckoning) hoursJSON {
	out := hoursJSON{LowH: fourth(h.Total.Low), LikelyH: fourth(h.Total.Likely), HighH: fourth(h.Total.High), BudgetH: fourth(h.BudgetH),
		Verdict: append([]string{}, h.Verdict...), Tasks: []taskJSON{}}
	if h.Finish != nil {
		day := func(i int) string { return h.Finish[i].Format(time.DateOnly) }
		out.FinishEarliest, out.FinishLikely, out.FinishLatest = day(0), day(1), day(2)
	}
	out.LimitH, out.LimitBy = fourth(h.LimitH), h.LimitBy
	out.Largest, out.Savings = []largestJSON{}, []savingJSON{}
	for _, l := range h.Largest {
		out.Largest = append(out.Largest, largestJSON{l.Key, l.Name, fourth(l.Now), l.Share, l.Fits})
	}
	for _, s := range h.Savings {
		out.Savings = append(out.Savings, savingJSON{s.Key, s.What, fourth(s.SavesH)})
	}
	for _, t := range h.Tasks {
		out.Tasks = append(out.Tasks, taskJSON{t.Name, fourth(t.Quantity), t.Unit, fourth(t.Hours.Low), fourth(t.Hours.Likely), fourth(t.Hours.High), t.From})
	}
	return out
}

func (r *Result) writeHours(b *strings.Builder) {
	b.WriteString("\nHours\n")
	for _, v := range r.Hours.Verdict {
		fmt.Fprintf(b, "  %s\n", v)
	}
	for _, v := range r.Hours.Savings {
		fmt.Fprintf(b, "  To save %.1f h: %s.\n", v.SavesH, v.What)
	}
	for _, t := range r.Hours.Tasks {
		fmt.Fprintf(b, "  %s: %.1f h", t.Name, t.Hours.Likely)
		if t.Hours.Low < t.Hours.High {
			fmt.Fprintf(b, " (%.1f to %.1f h)", t.Hours.Low, t.Hours.High)
		}
		fmt.Fprintf(b, "\n      from: %s\n", t.From)
	}
}
