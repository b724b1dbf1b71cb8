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
	FinishEarliest string     `json:"finish_earliest"`
	FinishLikely   string     `json:"finish_likely"`
	FinishLatest   string     `json:"finish_latest"`
	Verdict        []string   `json:"verdict"`
	Tasks          []taskJSON `json:"tasks"`
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
	for _, t := range r.Hours.Tasks {
		fmt.Fprintf(b, "  %s: %.1f h", t.Name, t.Hours.Likely)
		if t.Hours.Low < t.Hours.High {
			fmt.Fprintf(b, " (%.1f to %.1f h)", t.Hours.Low, t.Hours.High)
		}
		fmt.Fprintf(b, "\n      from: %s\n", t.From)
	}
}
