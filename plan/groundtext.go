package plan

import (
	"fmt"
	"strings"

	"ellwand/layout"
)

// ClothCM is the length of cloth that the lay takes, of all lengths together.
func (r *Result) ClothCM() float64 { return layout.ClothCM(r.Prepared.Problem, r.Lay) }

// writeLengths says what lies on which length of cloth, and the flaws.
func (r *Result) writeLengths(b *strings.Builder, units string) {
	for _, u := range r.Lengths {
		of := ""
		if u.LengthCM > 0 {
			of = " of " + lengthText(u.LengthCM, units)
		}
		pieces := strings.Join(u.Pieces, ", ")
		if pieces == "" {
			pieces = "nothing"
		}
		fmt.Fprintf(b, "  On %s, %s%s: %s\n", u.Name, lengthText(u.UsedCM, units), of, pieces)
	}
	if names := r.flawNames(); len(names) > 0 {
		fmt.Fprintf(b, "  Flaws kept clear of: %s\n", strings.Join(names, ", "))
	}
}

// flawNames is the flaws on the strip, by name.
func (r *Result) flawNames() []string {
	names := []string{}
	for _, f := range r.Prepared.Problem.Flaws {
		names = append(names, f.Name)
	}
	return names
}

type lengthJSON struct {
	Name     string   `json:"name"`
	LengthCM float64  `json:"length_cm"` // 0 for no end
	UsedCM   float64  `json:"used_cm"`
	Pieces   []string `json:"pieces"`
	Wanting  bool     `json:"wanting"` // not there: the pieces on it find no room
}

func (r *Result) lengthsAsJSON() []lengthJSON {
	out := []lengthJSON{}
	for _, u := range r.Lengths {
		out = append(out, lengthJSON{u.Name, fourth(u.LengthCM), fourth(u.UsedCM), append([]string{}, u.Pieces...), u.Wanting})
	}
	return out
}
