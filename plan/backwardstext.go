package plan

import (
	"encoding/json"
	"fmt"
	"strings"
)

type answerJSON struct {
	For    string            `json:"for"`
	Found  bool              `json:"found"`
	Why    string            `json:"why"` // when not found
	What   string            `json:"what"`
	Unit   string            `json:"unit"`
	Was    float64           `json:"was"`
	Is     float64           `json:"is"`
	Set    []answerFieldJSON `json:"set"`   // what the answer sets in the plan
	Limit  string            `json:"limit"` // what stops a hundredth more
	Lay    *layJSON          `json:"lay,omitempty"`
	Yarns  []needJSON        `json:"yarns"`
	Fleece []fleeceJSON      `json:"fleeces"`
}

type answerFieldJSON struct {
	Field string  `json:"field"`
	Was   float64 `json:"was"`
	Is    float64 `json:"is"`
}

type needJSON struct {
	Name    string  `json:"name"`
	LengthM float64 `json:"length_m"`
	MassG   float64 `json:"mass_g"`
}

// AnswersJSON is the answers' figures as JSON, rounded to a ten-thousandth.
func AnswersJSON(all []Answer) ([]byte, error) {
	out := struct {
		Answers []answerJSON `json:"answers"`
	}{[]answerJSON{}}
	for _, a := range all {
		j := answerJSON{For: string(a.Question), Found: a.Found, Why: a.Why, What: a.Label, Unit: a.Unit, Was: fourth(a.Was), Is: fourth(a.Is),
			Limit: a.Limit, Set: []answerFieldJSON{}, Yarns: []needJSON{}, Fleece: []fleeceJSON{}}
		for _, f := range a.Fields {
			j.Set = append(j.Set, answerFieldJSON{f.Path, fourth(f.Was), fourth(f.Is)})
		}
		if r := a.Result; a.Found && r != nil {
			j.Lay = &layJSON{fourth(r.Lay.WidthCM), fourth(r.Lay.LengthCM), fourth(r.UsePercent), fourth(r.LowerBoundCM())}
			for _, y := range r.Reckoning.Yarns {
				j.Yarns = append(j.Yarns, needJSON{y.Name, fourth(y.LengthM), fourth(y.MassG)})
			}
			for _, f := range r.Reckoning.Fleeces {
				j.Fleece = append(j.Fleece, fleeceAsJSON(f))
			}
		}
		out.Answers = append(out.Answers, j)
	}
	return json.MarshalIndent(out, "", "  ")
}

// Words names a question: "the longest garment".
func (q Question) Words() string {
	return map[Question]string{LongestGarment: "the longest garment", FullestHem: "the fullest hem", ClosestSett: "the closest sett"}[q]
}

// Lines is an answer in sentences.
func (a Answer) Lines() []string {
	if !a.Found {
		return []string{a.Why}
	}
	unit := ""
	if a.Unit != "" && a.Question != ClosestSett { // its label says it
		unit = " " + a.Unit
	}
	places := 1
	if a.Question == ClosestSett {
		places = 2
	}
	out := []string{fmt.Sprintf("%s: %.*f%s (now %.*f).", a.Label, places, a.Is, unit, places, a.Was)}
	for _, f := range a.Fields {
		label := f.Label
		if label == "length_cm" {
			label = f.Path
		}
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s: %s instead of %s %s", label, plain(roundTo(f.Is, 3)), plain(roundTo(f.Was, 3)), f.Unit))+".")
	}
	if r := a.Result; r != nil {
		out = append(out, fmt.Sprintf("It takes cloth of %.1f × %.1f cm.", r.Lay.WidthCM, r.ClothCM()))
		for _, f := range r.Reckoning.Fleeces {
			out = append(out, fmt.Sprintf("Of %s it takes %.0f g of %.0f g.", f.Name, f.RawNeededG, f.RawHaveG))
		}
		if a.Question == ClosestSett {
			out = append(out, fmt.Sprintf("As the reed gives it: %.2f ends and %.2f picks per cm, finished.", r.Reckoning.EndsPerCMFinished, r.Reckoning.PicksPerCMFinished))
		}
	}
	return append(out, "What stops more: "+a.Limit)
}

// AnswersText is the answers as they are printed.
func AnswersText(all []Answer) string {
	var b strings.Builder
	for i, a := range all {
		if i > 0 {
			b.WriteString("\n")
		}
		words := a.Question.Words()
		fmt.Fprintf(&b, "%s of what is in hand\n", strings.ToUpper(words[:1])+words[1:])
		for _, l := range a.Lines() {
			fmt.Fprintf(&b, "  %s\n", l)
		}
	}
	return b.String()
}
