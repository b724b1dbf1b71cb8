package plan

import (
	"fmt"
	"math"
	"strings"
	"time"

	"ellwand/hours"
)

type logJSON struct {
	Yarns    []logYarnJSON   `json:"yarns"`
	Fleeces  []logFleeceJSON `json:"fleeces"`
	Web      logWebJSON      `json:"web"`
	OffLoom  *logClothJSON   `json:"cloth_off_loom,omitempty"`
	Finished *logClothJSON   `json:"cloth_finished,omitempty"`
	Hours    logHoursJSON    `json:"hours"`
	Warnings []string        `json:"warnings"`
}

type logYarnJSON struct {
	Name       string  `json:"name"`
	Skeins     int     `json:"skeins"`
	NeededM    float64 `json:"needed_m"`
	SpunM      float64 `json:"spun_m"`
	SpunG      float64 `json:"spun_g"`
	LeftM      float64 `json:"left_m"`
	LeftG      float64 `json:"left_g"`
	FibreLeftG float64 `json:"prepared_left_g"`
	PlannedTex float64 `json:"planned_tex"`
	RealTex    float64 `json:"real_tex"`
	LatestTex  float64 `json:"latest_tex"`
	PlannedG   float64 `json:"planned_g"`
	NeededG    float64 `json:"needed_g"`
	Hours      float64 `json:"hours"`
	MPerHour   float64 `json:"m_per_h"`
}

type logFleeceJSON struct {
	Name        string  `json:"name"`
	PlannedRawG float64 `json:"planned_raw_g"`
	RawNeededG  float64 `json:"raw_needed_g"`
	RawHaveG    float64 `json:"raw_have_g"`
	ShortG      float64 `json:"short_g"`
}

type logWebJSON struct {
	PlannedCM         float64 `json:"planned_cm"`
	WovenCM           float64 `json:"woven_cm"`
	LeftCM            float64 `json:"left_cm"`
	PlannedPicksPerCM float64 `json:"planned_picks_per_cm"`
	RealPicksPerCM    float64 `json:"real_picks_per_cm"`
	PicksLeft         float64 `json:"picks_left"`
	Hours             float64 `json:"hours"`
	CMPerHour         float64 `json:"cm_per_h"`
}

type logClothJSON struct {
	WidthCM       float64  `json:"width_cm"`
	LengthCM      float64  `json:"length_cm"`
	MassGPerM2    float64  `json:"mass_g_per_m2"`
	LengthLoss    *float64 `json:"length_loss,omitempty"`
	WidthLoss     *float64 `json:"width_loss,omitempty"`
	PlannedLength float64  `json:"planned_length_loss"`
	PlannedWidth  float64  `json:"planned_width_loss"`
	FinishWidthCM float64  `json:"finish_width_cm"`
	FinishCM      float64  `json:"finish_length_cm"`
	NeedWidthCM   float64  `json:"need_width_cm"`
	NeedLengthCM  float64  `json:"need_length_cm"`
	Holds         bool     `json:"holds"`
}

type logHoursJSON struct {
	WorkedH    float64            `json:"worked_h"`
	RemainingH spanJSON           `json:"remaining_h"`
	TotalH     spanJSON           `json:"total_h"`
	PlannedH   float64            `json:"planned_h"`
	BudgetH    float64            `json:"budget_h"`
	PerWeekH   float64            `json:"per_week_h"`
	Finish     string             `json:"finish_likely"`
	Rates      map[string]float64 `json:"worked_rates"`
	Tasks      []logTaskJSON      `json:"tasks"`
}

type spanJSON struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

type logTaskJSON struct {
	Name       string  `json:"name"`
	PlannedH   float64 `json:"planned_h"`
	WorkedH    float64 `json:"worked_h"`
	LeftPart   float64 `json:"left_part"`
	RemainingH float64 `json:"remaining_h"`
}

func (g *Progress) asJSON() *logJSON {
	if g == nil {
		return nil
	}
	out := &logJSON{Yarns: []logYarnJSON{}, Fleeces: []logFleeceJSON{}, Warnings: append([]string{}, g.Warnings...)}
	for _, y := range g.Yarns {
		out.Yarns = append(out.Yarns, logYarnJSON{y.Name, y.Skeins, fourth(y.NeededM), fourth(y.SpunM), fourth(y.SpunG), fourth(y.LeftM), fourth(y.LeftG), fourth(y.FibreLeftG),
			fourth(y.PlannedTex), fourth(y.RealTex), fourth(y.LatestTex), fourth(y.PlannedG), fourth(y.NeededG), fourth(y.SpunH), fourth(y.MPerHour)})
	}
	for _, f := range g.Fleeces {
		out.Fleeces = append(out.Fleeces, logFleeceJSON{f.Name, fourth(f.PlannedRawG), fourth(f.RawNeededG), fourth(f.RawHaveG), fourth(f.RawLackG)})
	}
	w := g.Web
	out.Web = logWebJSON{fourth(w.PlannedCM), fourth(w.WovenCM), fourth(w.LeftCM), fourth(w.PlannedPicksPerCM), fourth(w.RealPicksPerCM), fourth(w.PicksLeft), fourth(w.Hours), fourth(w.CMPerHour)}
	out.OffLoom, out.Finished = g.OffLoom.asJSON(), g.Finished.asJSON()
	out.Hours = g.Hours.asJSON()
	return out
}

func (c *ClothCheck) asJSON() *logClothJSON {
	if c == nil {
		return nil
	}
	return &logClothJSON{fourth(c.WidthCM), fourth(c.LengthCM), fourth(c.MassGPerM2), eighthOf(c.LengthLoss, !math.IsNaN(c.LengthLoss)), eighthOf(c.WidthLoss, !math.IsNaN(c.WidthLoss)),
		eighth(c.PlannedLength), eighth(c.PlannedWidth), fourth(c.FinishWidthCM), fourth(c.FinishCM), fourth(c.NeedCM), fourth(c.NeedLengthCM), c.Holds()}
}

func (h HoursProgress) asJSON() logHoursJSON {
	span := func(r hours.Range) spanJSON { return spanJSON{fourth(r.Low), fourth(r.Likely), fourth(r.High)} }
	out := logHoursJSON{WorkedH: fourth(h.WorkedH), RemainingH: span(h.Remaining), TotalH: span(h.Total), PlannedH: fourth(h.PlannedH), BudgetH: fourth(h.BudgetH),
		PerWeekH: fourth(h.PerWeekH), Rates: map[string]float64{}, Tasks: []logTaskJSON{}}
	if h.Finish != nil {
		out.Finish = h.Finish[1].Format(time.DateOnly)
	}
	for k, v := range h.Rates {
		out.Rates[k] = eighth(v.Likely)
	}
	for _, t := range h.Tasks {
		out.Tasks = append(out.Tasks, logTaskJSON{t.Name, fourth(t.PlannedH), fourth(t.WorkedH), eighth(t.LeftPart), fourth(t.Remaining.Likely)})
	}
	return out
}

// YarnLines is what is spun and what remains, a sentence for each yarn.
func (g *Progress) YarnLines() []string {
	var out []string
	for _, y := range g.Yarns {
		line := fmt.Sprintf("%s: %.0f m spun of %.0f m, %s, %.0f g", y.Name, y.SpunM, y.NeededM, counted(y.Skeins, "skein"), y.SpunG)
		if y.RealTex > 0 {
			line += fmt.Sprintf(", %.1f tex (planned %.1f)", y.RealTex, y.PlannedTex)
		}
		if y.MPerHour > 0 {
			line += fmt.Sprintf(", %.1f m an hour", y.MPerHour)
		}
		if y.LeftM == 0 {
			if line += "; enough is spun."; len(g.past) > 0 {
				line = strings.TrimSuffix(line, "enough is spun.") + "the cloth is woven of it."
			}
		} else {
			line += fmt.Sprintf("; %.0f m remain, %.0f g of yarn, %.0f g of prepared fibre", y.LeftM, y.LeftG, y.FibreLeftG)
			if y.MPerHour > 0 {
				line += fmt.Sprintf(", %.1f h at that rate", y.LeftM/y.MPerHour)
			}
			line += "."
		}
		out = append(out, line)
	}
	for _, f := range g.Fleeces {
		out = append(out, fmt.Sprintf("Lot %s at the grist spun: %.0f g raw in all (planned %.0f g), %.0f g in hand.", f.Name, f.RawNeededG, f.PlannedRawG, f.RawHaveG))
	}
	return out
}

// ClothLines is the cloth on the loom, off it and finished.
func (g *Progress) ClothLines() []string {
	var out []string
	if w := g.Web; w.WovenCM > 0 {
		line := fmt.Sprintf("Woven: %.0f cm of %.0f cm under tension (samples and headings in both)", w.WovenCM, w.PlannedCM)
		if w.RealPicksPerCM > 0 {
			line += fmt.Sprintf(", %.2f picks per cm (planned %.2f)", w.RealPicksPerCM, w.PlannedPicksPerCM)
		}
		if w.CMPerHour > 0 {
			line += fmt.Sprintf(", %.1f cm an hour", w.CMPerHour)
		}
		if w.LeftCM > 0 {
			line += fmt.Sprintf("; %.0f cm remain, %.0f picks", w.LeftCM, w.PicksLeft)
			if w.CMPerHour > 0 {
				line += fmt.Sprintf(", %.1f h at that rate", w.LeftCM/w.CMPerHour)
			}
		}
		out = append(out, line+".")
	}
	add := func(c *ClothCheck, what, lengthWord, widthWord string) {
		if c == nil {
			return
		}
		line := fmt.Sprintf("%s: %.1f × %.1f cm", what, c.WidthCM, c.LengthCM)
		if !math.IsNaN(c.LengthLoss) {
			line += fmt.Sprintf("; %s %.3f (planned %.3g)", lengthWord, c.LengthLoss, c.PlannedLength)
		}
		if !math.IsNaN(c.WidthLoss) {
			line += fmt.Sprintf("; %s %.3f (planned %.3g)", widthWord, c.WidthLoss, c.PlannedWidth)
		}
		if c.MassGPerM2 > 0 {
			line += fmt.Sprintf("; %.0f g/m² (planned %.0f)", c.MassGPerM2, c.PlannedGPerM2)
		}
		room := "room for the lay"
		if !c.Holds() {
			room = "too small for the lay"
		}
		out = append(out, fmt.Sprintf("%s; %.1f × %.1f cm finished, %s of %.1f × %.1f cm.", line, c.FinishWidthCM, c.FinishCM, room, c.NeedCM, c.NeedLengthCM))
	}
	add(g.OffLoom, "Off the loom", "take-up", "draw-in")
	add(g.Finished, "Finished", "shrinkage in length", "in width")
	return out
}

// HoursLines is the hours worked, those that remain, and when it is done.
func (g *Progress) HoursLines() []string {
	h := g.Hours
	line := fmt.Sprintf("Hours: %.1f h worked; likely %.0f h remain (%.0f to %.0f), rests counted, at the rates worked and else at the plan's; %.0f h in all, %.0f h were planned", h.WorkedH, h.Remaining.Likely, h.Remaining.Low, h.Remaining.High, h.Total.Likely, h.PlannedH)
	if h.BudgetH > 0 {
		line += fmt.Sprintf(", the budget is %.0f h", h.BudgetH)
	}
	out := []string{line + "."}
	if h.Finish != nil {
		out = append(out, fmt.Sprintf("From %s at %.1f h a week it is done about %s, between %s and %s.", h.LastDate, h.PerWeekH, h.Finish[1].Format(time.DateOnly), h.Finish[0].Format(time.DateOnly), h.Finish[2].Format(time.DateOnly)))
	}
	return out
}

func (r *Result) writeProgress(b *strings.Builder) {
	g := r.Progress
	if g == nil {
		return
	}
	b.WriteString("\nAs it really goes\n")
	for _, w := range g.Warnings {
		fmt.Fprintf(b, "  ! %s\n", w)
	}
	for _, list := range [][]string{g.YarnLines(), g.ClothLines(), g.HoursLines()} {
		for _, l := range list {
			fmt.Fprintf(b, "  %s\n", l)
		}
	}
	for _, key := range sortedKeys(g.Hours.Rates) {
		fmt.Fprintf(b, "  Worked rate %s: %.4g\n", key, g.Hours.Rates[key].Likely)
	}
	for _, t := range g.Hours.Tasks {
		if t.WorkedH > 0 || t.LeftPart < 1 {
			fmt.Fprintf(b, "  %s: %.1f h worked, %.0f %% left, likely %.1f h more (%.1f h were planned)\n", t.Name, t.WorkedH, 100*t.LeftPart, t.Remaining.Likely, t.PlannedH)
		}
	}
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
