package plan

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

// woolPlankLog is put down for the plank of wool: 480 ends × 3.6 m + 2400 picks
// × 0.6 m = 3168 m of thread at 100 tex, 316.8 g, from 316.8 ÷ 0.95 ÷ 0.54 =
// 617.54 g raw. Spun: 400 m, 48 g and 600 m, 72 g: 120 tex, in 8 and 12 h: 50 m
// an hour. Left: 2168 m, 260.16 g, 273.85 g prepared. In all 380.16 g of yarn
// from 741.05 g raw.
const woolPlankLog = `hours: {rest_share: 0, per_week_h: 10, start: 2026-01-05, budget_h: 60}
log:
  skeins:
    - {date: 2026-01-12, yarn: thread, length_m: 400, mass_g: 48, hours: 8}
    - {date: 2026-01-26, yarn: thread, length_m: 600, mass_g: 72, hours: 12}
`

func progressOf(t *testing.T, p *Plan) (*Progress, *Result) {
	t.Helper()
	r := worked(t, p, Options{})
	if r.Progress == nil {
		t.Fatal("nothing is made of the log")
	}
	return r.Progress, r
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %g, want %g", what, got, want)
	}
}

func TestYarnSpunWorkedByHand(t *testing.T) {
	p := woolPlank(t, woolPlankLog)
	p.Fleeces[0].RawG = 700
	g, r := progressOf(t, p)
	y := g.Yarns[0]
	near(t, "needed", y.NeededM, 3168, 1e-6)
	near(t, "real grist", y.RealTex, 120, 1e-9)
	near(t, "left to spin", y.LeftM, 2168, 1e-6)
	near(t, "grams left", y.LeftG, 260.16, 1e-6)
	near(t, "prepared fibre left", y.FibreLeftG, 273.853, 0.001)
	near(t, "all of it", y.NeededG, 380.16, 1e-6)
	near(t, "rate", y.MPerHour, 50, 1e-9)
	f := g.Fleeces[0]
	near(t, "raw planned", f.PlannedRawG, 617.54, 0.01)
	near(t, "raw at the real grist", f.RawNeededG, 741.05, 0.01)
	near(t, "raw lacking", f.RawLackG, 41.05, 0.01)
	near(t, "worked rate", g.Hours.Rates["spindle_m_per_h"].Likely, 50, 1e-9)
	for _, task := range g.Hours.Tasks {
		if task.Key == "spin:thread:spindle" {
			near(t, "hours left of spinning", task.Remaining.Likely, 2168.0/50, 1e-6)
			near(t, "hours spun", task.WorkedH, 20, 1e-9)
		}
	}
	near(t, "hours worked", g.Hours.WorkedH, 20, 1e-9)
	near(t, "hours a week really worked", g.Hours.PerWeekH, 20.0/3, 1e-9)
	warned := strings.Join(g.Warnings, "\n")
	for _, want := range []string{"thread is drifting coarse: 120.0 tex", "(+20 %)", "will fall short by 42 g", "Running late"} {
		if !strings.Contains(warned, want) {
			t.Errorf("%q is not warned of in\n%s", want, warned)
		}
	}
	if !strings.Contains(strings.Join(r.Cautions, "\n"), "fall short by 42 g") {
		t.Error("the warning is not among the cautions")
	}
	if w := r.Reckoning.Yarns[0].MassG; math.Abs(w-316.8) > 1e-6 {
		t.Errorf("the plan's own figure has changed to %g g", w)
	}
}

// Woven 100 cm of 300 in 10 h with 880 picks: 8.8 per cm where 8 are planned;
// 200 cm remain, 1760 picks, 20 h. Sorting is done in 2 h; the hem, 4 m of it
// measured in 1 h, goes at 4 m an hour.
func TestClothOnTheLoomWorkedByHand(t *testing.T) {
	g, _ := progressOf(t, woolPlank(t, `hours: {rest_share: 0}
log:
  woven: [{woven_cm: 60, picks: 528, hours: 6}, {woven_cm: 40, picks: 352, hours: 4}]
  worked: [{task: sort, hours: 2, done: true}, {task: scour, hours: 0.5, quantity: 200}, {task: comb, hours: 1, quantity: 50}]
`))
	w := g.Web
	near(t, "left", w.LeftCM, 200, 1e-9)
	near(t, "picks per cm", w.RealPicksPerCM, 8.8, 1e-9)
	near(t, "picks left", w.PicksLeft, 1760, 1e-6)
	near(t, "cm an hour", w.CMPerHour, 10, 1e-9)
	left := map[string]TaskProgress{}
	for _, task := range g.Hours.Tasks {
		left[task.Key] = task
	}
	near(t, "hours left of weaving", left["weave"].Remaining.Likely, 20, 1e-9)
	near(t, "hours left of sorting", left["sort:white"].Remaining.Likely, 0, 1e-12)
	// 617.54 g raw are scoured at 400 g an hour; 200 of them are done.
	near(t, "hours left of scouring", left["scour:white"].Remaining.Likely, 417.54/400, 0.001)
	near(t, "combing rate", g.Hours.Rates["comb_g_per_h"].Likely, 50, 1e-9)
	if !strings.Contains(strings.Join(g.Warnings, "\n"), "8.80 picks per cm under tension where 8.00") {
		t.Errorf("warnings %v", g.Warnings)
	}
}

// 300 cm woven come off the loom as 279 cm, 60 wide in the reed as 57: take-up
// 0.07, draw-in 0.05. Finished 251.1 × 54.15 cm: shrinkage 0.1 and 0.05; 260 g:
// 191.2 g/m². The lay takes 60 × 300.
func TestClothOffTheLoomWorkedByHand(t *testing.T) {
	g, r := progressOf(t, woolPlank(t, `log:
  woven: [{woven_cm: 300}]
  cloth_off_loom: {width_cm: 57, length_cm: 279}
  cloth_finished: {width_cm: 54.15, length_cm: 251.1, mass_g: 260}
`))
	near(t, "take-up", g.OffLoom.LengthLoss, 0.07, 1e-9)
	near(t, "draw-in", g.OffLoom.WidthLoss, 0.05, 1e-9)
	near(t, "shrinkage in length", g.Finished.LengthLoss, 0.1, 1e-9)
	near(t, "shrinkage in width", g.Finished.WidthLoss, 0.05, 1e-9)
	near(t, "mass", g.Finished.MassGPerM2, 191.22, 0.01)
	near(t, "left to weave", g.Web.LeftCM, 0, 0)
	near(t, "left to spin", g.Yarns[0].LeftM, 0, 0)
	for _, task := range g.Hours.Tasks {
		if over := task.Key == "weave" || task.Key == "finish" || strings.HasPrefix(task.Key, "spin:"); over != (task.LeftPart == 0) && (over || task.Key == "cut") {
			t.Errorf("%s: %g left", task.Name, task.LeftPart)
		}
	}
	if g.Finished.Holds() || !strings.Contains(strings.Join(g.Warnings, "\n"), "see what must move") || r.Holding != nil {
		t.Errorf("warnings %v, holding %v", g.Warnings, r.Holding)
	}
	data, err := r.JSON()
	var got struct {
		Log struct {
			Finished struct {
				Holds      bool
				LengthLoss float64 `json:"length_loss"`
			} `json:"cloth_finished"`
		}
	}
	if err == nil {
		err = json.Unmarshal(data, &got)
	}
	if err != nil || got.Log.Finished.Holds || got.Log.Finished.LengthLoss != 0.1 {
		t.Errorf("%v, %+v", err, got)
	}
}

func TestLatestSkeinsTellADrift(t *testing.T) {
	log := "log:\n  skeins:\n"
	for _, g := range []string{"10", "10", "10", "11.5", "12", "12.5"} {
		log += "    - {yarn: thread, length_m: 100, mass_g: " + g + "}\n"
	}
	g, _ := progressOf(t, woolPlank(t, log))
	near(t, "latest grist", g.Yarns[0].LatestTex, 120, 1e-9)
	if !strings.Contains(strings.Join(g.Warnings, "\n"), "The last three skeins of thread run coarse: 120.0 tex, 110.0 in all so far") {
		t.Errorf("warnings %v", g.Warnings)
	}
}

func TestEnoughSpunLeavesNothing(t *testing.T) {
	g, _ := progressOf(t, woolPlank(t, "log: {skeins: [{yarn: thread, length_m: 3200, mass_g: 320, hours: 60}]}\n"))
	near(t, "left", g.Yarns[0].LeftM, 0, 0)
	for _, task := range g.Hours.Tasks {
		if strings.HasPrefix(task.Key, "spin:") && task.LeftPart > 1e-9 {
			t.Errorf("%s: %g left", task.Name, task.LeftPart)
		}
	}
	if strings.Contains(strings.Join(g.Warnings, "\n"), "drifting") {
		t.Errorf("warnings %v", g.Warnings)
	}
}

// A plied skein passes the hand once for each ply and once to be plied: 100 m
// of 2-ply in 6 h are 300 m, 50 m an hour.
func TestPlyingCountsInTheRateWorked(t *testing.T) {
	p := woolPlank(t, "log: {skeins: [{yarn: thread, length_m: 100, hours: 6, tool: wheel}]}\n")
	p.Yarns[0].Plies = 2
	g, _ := progressOf(t, p)
	near(t, "wheel", g.Hours.Rates["wheel_m_per_h"].Likely, 50, 1e-9)
	p.Log.Worked = []Worked{{Task: "ply", Hours: 1.5}} // 300 m in 7.5 h
	g, _ = progressOf(t, p)
	near(t, "wheel, plying apart", g.Hours.Rates["wheel_m_per_h"].Likely, 40, 1e-9)
}
