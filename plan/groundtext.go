package plan

import (
	"fmt"
	"math"
	"strings"

	"ellwand/layout"
	"ellwand/layout/drawing"
)

// ClothCM is the length of cloth that the lay takes, of all lengths together.
func (r *Result) ClothCM() float64 { return layout.ClothCM(r.Prepared.Problem, r.Lay) }

// writeLengths says what lies on which length of cloth, and the flaws.
func (r *Result) writeLengths(b *strings.Builder, units string) {
	var whole []string
	for _, u := range r.Lengths {
		if len(u.Pieces) == 0 && u.LengthCM > 0 {
			whole = append(whole, fmt.Sprintf("%s, %s", u.Name, lengthText(u.LengthCM, units)))
			continue
		}
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
	if len(whole) > 0 {
		fmt.Fprintf(b, "  Left whole: %s\n", strings.Join(whole, "; "))
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

// sheetGround puts the flaws, the measured edges and the lengths of cloth on the
// cutting diagram, as far as the strip is drawn.
func (r *Result) sheetGround(s *drawing.Sheet) {
	p := r.Prepared.Problem
	for _, f := range p.Flaws {
		s.Flaws, s.FlawNames = append(s.Flaws, f.Outline), append(s.FlawNames, f.Name)
	}
	s.ClothCM = r.ClothCM()
	for k, l := range p.Lengths {
		inHand := !r.Prepared.warps && k != r.Prepared.wanting && !math.IsInf(l.ToCM, 1)
		if l.FromCM >= r.Lay.LengthCM && k > 0 && !inHand {
			break // of cloth in hand what is left whole is drawn too
		}
		name := l.Name
		if name == "" {
			name = "the cloth"
		}
		left, right := l.Edges()
		to := l.ToCM
		if !inHand {
			to = min(to, max(r.Lay.LengthCM, l.FromCM))
		}
		s.Lengths = append(s.Lengths, drawing.Length{Name: name, FromCM: l.FromCM, ToCM: to, Left: left, Right: right})
		s.NoCloth = append(s.NoCloth, l.Beyond(p.WidthCM)...)
	}
	if len(s.Lengths) > 0 {
		if last := s.Lengths[len(s.Lengths)-1]; !r.Prepared.warps {
			s.LengthCM = max(s.LengthCM, last.ToCM)
		}
	}
}
