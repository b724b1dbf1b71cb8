package hours

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// Reckoning is the hours of a making.
type Reckoning struct {
	Tasks   []Task // in the order of the work; rest breaks are the last
	Total   Range  // h, rest counted
	BudgetH float64
	LimitH  float64       // the budget, or less where the day asks for it; 0: none
	LimitBy string        // which of the two sets it, in words
	Finish  *[3]time.Time // earliest, likely, latest; nil when start or weekly hours are not said
	// Largest are the largest shares of the slow tools that fit the limit.
	Largest []LargestShare
	// Savings are what could be cut, the most hours first.
	Savings  []Saving
	Verdict  []string // against the budget, by the calendar, and what would help, in sentences
	Cautions []string
	Notes    []string // what is not reckoned
}

// Reckon works out the hours. An error is a quantity or setting that no work
// can have.
func Reckon(w Work, s Settings) (Reckoning, error) {
	if err := w.Validate(); err != nil {
		return Reckoning{}, err
	}
	if err := s.Validate(); err != nil {
		return Reckoning{}, err
	}
	r := Reckoning{BudgetH: s.BudgetH}
	r.Tasks = append(listed(w, s), rest(listed(w, s), s)...)
	r.Total = total(r.Tasks)
	r.LimitH, r.LimitBy = s.limit()
	r.Verdict = append(r.Verdict, budgetWords(r.Total, s.BudgetH)...)
	r.calendar(s)
	r.advise(w, s)
	r.Cautions = cautions(r, s)
	r.Notes = notes(w, s)
	return r, nil
}

// listed is the tasks without rest.
func listed(w Work, s Settings) []Task {
	t := &tasks{s: s}
	t.fleece(w.Lots)
	t.dyeing(w.Baths, StagePreparation)
	t.preparation(w.Yarns)
	t.spinning(w.Yarns)
	t.dyeing(w.Baths, StageDressing)
	t.dressing(w.Web)
	t.weaving(w.Web)
	t.dyeing(w.Baths, StageFinishing)
	t.finishing(w)
	t.sewing(w.Seams, w.Hems)
	if s.OtherH > 0 {
		t.list = append(t.list, Task{Key: "other", Name: "Other work", Quantity: s.OtherH, Unit: "h", Hours: One(s.OtherH),
			From: num(s.OtherH) + " h as the plan says, for what no rate counts"})
	}
	return t.list
}

// rest is a share of the time at work, so the work divides by what is left.
func rest(list []Task, s Settings) []Task {
	work := total(list)
	if s.RestShare == 0 || work.Likely == 0 {
		return nil
	}
	part := s.RestShare / (1 - s.RestShare)
	h := work.times(part)
	return []Task{{Key: "rest", Name: "Rest breaks", Quantity: work.Likely, Unit: "h", Hours: h,
		From: fmt.Sprintf("%s h of work ÷ (1 − %s rest) − the work itself = %s h", spanText(work), num(s.RestShare), spanText(h))}}
}

func total(list []Task) Range {
	var sum Range
	for _, t := range list {
		sum = sum.plus(t.Hours)
	}
	return sum
}

func budgetWords(t Range, budgetH float64) []string {
	if budgetH == 0 {
		return []string{fmt.Sprintf("Likely %.0f h, from %.0f h if all goes quickly to %.0f h if all goes slowly; no budget is set.", t.Likely, t.Low, t.High)}
	}
	var text string
	switch {
	case t.High <= budgetH:
		text = fmt.Sprintf("fits the budget of %s h even if all goes slowly", num(budgetH))
	case t.Likely <= budgetH:
		text = fmt.Sprintf("fits the budget of %s h with %.0f h to spare, but not if all goes slowly", num(budgetH), budgetH-t.Likely)
	case t.Low <= budgetH:
		text = fmt.Sprintf("is %.0f h over the budget of %s h, and fits only if most goes quickly", t.Likely-budgetH, num(budgetH))
	default:
		text = fmt.Sprintf("is %.0f h over the budget of %s h, and does not fit even if all goes quickly", t.Likely-budgetH, num(budgetH))
	}
	return []string{fmt.Sprintf("Likely %.0f h (%.0f to %.0f h) %s.", t.Likely, t.Low, t.High, text)}
}

// maxDays keeps a date within what a calendar shows.
const maxDays = 200 * 365

// calendar counts weeks and, from the start, the day on which it is done.
func (r *Reckoning) calendar(s Settings) {
	if s.PerWeekH == 0 {
		return
	}
	weeks := r.Total.times(1 / s.PerWeekH)
	text := fmt.Sprintf("At %s h a week it takes %.0f weeks (%.0f to %.0f)", num(s.PerWeekH), weeks.Likely, weeks.Low, weeks.High)
	start, err := ParseDate(s.Start)
	if err != nil || weeks.High*7 > maxDays {
		r.Verdict = append(r.Verdict, text+".")
		return
	}
	day := func(weeks float64) time.Time { return start.AddDate(0, 0, int(math.Ceil(weeks*7-1e-9))) }
	r.Finish = &[3]time.Time{day(weeks.Low), day(weeks.Likely), day(weeks.High)}
	r.Verdict = append(r.Verdict, fmt.Sprintf("%s: begun on %s, done about %s, between %s and %s.", text, s.Start,
		r.Finish[1].Format(time.DateOnly), r.Finish[0].Format(time.DateOnly), r.Finish[2].Format(time.DateOnly)))
}

// longMovement is how many likely hours of one movement are told as such.
const longMovement = 20

// cautions are on the strain of movements repeated for long.
func cautions(r Reckoning, s Settings) []string {
	var out []string
	names := map[string]string{"spin": "Spinning", "ply": "Spinning", "comb": "Combing and carding", "card": "Combing and carding", "weave": "Weaving", "join": "Sewing", "fell": "Sewing", "hem": "Sewing"}
	sums := map[string]float64{}
	for _, t := range r.Tasks {
		kind, _, _ := strings.Cut(t.Key, ":")
		sums[names[kind]] += t.Hours.Likely
	}
	var long []string
	for _, name := range []string{"Combing and carding", "Spinning", "Weaving", "Sewing"} {
		if sums[name] >= longMovement {
			long = append(long, fmt.Sprintf("%s %.0f h", strings.ToLower(name), sums[name]))
		}
	}
	if len(long) > 0 {
		out = append(out, fmt.Sprintf("Hours of one movement strain hands, shoulders and back: %s. Take turns with other work, rest often, and stop on pain; guidance on upper limb disorders at work (HSE, HSG60) comes first.", strings.Join(long, ", ")))
	}
	if s.PerWeekH > 30 {
		out = append(out, fmt.Sprintf("%s h a week of one movement is much for hands and back: vary the work, rest often, and stop on pain; guidance on upper limb disorders at work (HSE, HSG60) comes first.", num(s.PerWeekH)))
	}
	if s.RestShare == 0 && r.Total.Likely > 0 {
		out = append(out, "No rest breaks are counted in the hours; repeated movement needs them: pace and vary the work, and stop on pain (HSE, HSG60).")
	}
	return out
}

func notes(w Work, s Settings) []string {
	var out []string
	if s.OtherH == 0 {
		out = append(out, "Hours for mending and for the making of tools are not counted, for no rates are known; put your own under hours.other_h.")
	}
	if s.Weaving == ToolWarpWeighted {
		out = append(out, "For the warp-weighted loom the weaving of the starting band and the hanging of the weights are not counted apart; it is not known whether the published weaving hours hold them.")
	}
	if l := w.Web.WarpLengthCM / float64(max(1, w.Web.Warps)) / 100; l > 8 {
		out = append(out, fmt.Sprintf("The hours for winding are for ends of 4 to 8 m; these are %s m, and will take longer.", num(l)))
	}
	return append(out, "Hours are reckoned from experiments and single makers' claims; time yourself on a sample and put your own rates in.")
}

// spanText writes a range as low–likely–high, or as one figure when it is one.
func spanText(r Range) string {
	if r.Low == r.High {
		return num(r.Likely)
	}
	return num(r.Low) + "–" + num(r.Likely) + "–" + num(r.High)
}

// num writes a number with four figures or more.
func num(v float64) string {
	places := 0
	for a := math.Abs(v); a < 1000 && places < 6 && a > 0; a *= 10 {
		places++
	}
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}
