package plan

import (
	"fmt"
	"strings"

	"ellwand/garment"
)

type stepJSON struct {
	Number  int        `json:"number"`
	What    string     `json:"what"`
	TotalCM float64    `json:"total_cm"`
	Lines   []lineJSON `json:"lines"`
}

type lineJSON struct {
	Name     string  `json:"name"`
	LengthCM float64 `json:"length_cm"`
	Times    int     `json:"times"`
	Shows    bool    `json:"shows"`
}

// Sewing is the order of sewing with finished lengths.
func (r *Result) Sewing() []garment.Step { return garment.SewingOrder(r.Garment) }

func (r *Result) sewingAsJSON() []stepJSON {
	out := []stepJSON{}
	for _, s := range r.Sewing() {
		step := stepJSON{s.Number, s.What, fourth(s.TotalCM()), []lineJSON{}}
		for _, l := range s.Lines {
			step.Lines = append(step.Lines, lineJSON{l.Name, fourth(l.CM), l.Times, l.Shows})
		}
		out = append(out, step)
	}
	return out
}

func (r *Result) writeSewing(b *strings.Builder, units string) {
	steps := r.Sewing()
	if len(steps) == 0 {
		return
	}
	b.WriteString("\nSewing, in order, with finished lengths\n")
	for _, s := range steps {
		fmt.Fprintf(b, "  %d. %s: %s\n", s.Number, s.What, lengthText(s.TotalCM(), units))
		for _, l := range s.Lines {
			fmt.Fprintf(b, "      %s\n", StepLineText(l, units))
		}
	}
}

// StepLineText is one line of the sewing order: name, length, how often, and
// whether a seam shows.
func StepLineText(l garment.StepLine, units string) string {
	text := fmt.Sprintf("%s: %s", l.Name, lengthText(l.CM, units))
	if l.Times > 1 {
		text += fmt.Sprintf(", %d times", l.Times)
	}
	if l.Shows && !l.Hem {
		text += ", shows"
	}
	return text
}
