package plan

import (
	"fmt"
	"math"
	"slices"

	"ellwand/cloth"
	"ellwand/layout"
)

// Progress is what the log says: what is done, what remains at the grist, the
// shrinkage and the rates really found, and what to be warned of.
type Progress struct {
	Yarns    []YarnProgress
	Fleeces  []FleeceProgress
	Web      WebProgress
	OffLoom  *ClothCheck // nil while it is on the loom
	Finished *ClothCheck // nil while it is not finished
	Hours    HoursProgress
	Warnings []string

	past []string // heads of the tasks that the cloth's state says are over
}

// YarnProgress is one yarn against what the cloth takes of it.
type YarnProgress struct {
	Name            string
	Skeins          int
	NeededM         float64
	SpunM, SpunG    float64
	LeftM           float64 // still to spin; 0 when there is enough
	PlannedTex      float64
	RealTex         float64 // grams of the skeins weighed ÷ their km; 0 when none is
	LatestTex       float64 // of the last three skeins weighed; 0 when there are not six
	PlannedG        float64 // all of it, as planned
	NeededG         float64 // all of it, at the real grist
	LeftG           float64 // still to spin, at the real grist
	FibreLeftG      float64 // prepared fibre that takes
	SpunH, MPerHour float64 // of the skeins timed; 0 when none is
}

// FleeceProgress is what a lot must give in all at the grist really spun.
type FleeceProgress struct {
	Name               string
	PlannedRawG        float64
	RawNeededG         float64 // for what is spun and what is left to spin
	RawHaveG, RawLackG float64 // lack is 0 when it is enough
}

// WebProgress is the cloth on the loom.
type WebProgress struct {
	PlannedCM, WovenCM, LeftCM float64 // under tension, cloth, samples and headings
	PlannedPicksPerCM          float64
	RealPicksPerCM             float64 // of the stretches whose picks were counted; 0 for none
	PicksLeft                  float64
	Hours, CMPerHour           float64 // of the stretches timed
}

// ClothCheck is cloth measured, against the plan.
type ClothCheck struct {
	MeasuredCloth
	LengthLoss, WidthLoss   float64 // take-up and draw-in, or shrinkage; NaN when the earlier state is not known
	PlannedLength           float64 // the loss in length planned
	PlannedWidth            float64
	FinishCM, FinishWidthCM float64 // what it is, or what it should finish at
	NeedLengthCM, NeedCM    float64 // what the lay takes, length and width
	MassGPerM2              float64 // 0: not weighed
	PlannedGPerM2           float64
}

// Holds says whether the lay has room.
func (c ClothCheck) Holds() bool {
	return c.FinishWidthCM >= c.NeedCM-1e-6 && c.FinishCM >= c.NeedLengthCM-1e-6
}

// progress works the log out; nil while nothing is in it.
func (p *Plan) progress(pr *Prepared, lay layout.Lay, r *Result) (*Progress, error) {
	if p.Log.Empty() {
		return nil, nil
	}
	g := &Progress{past: p.Log.past()}
	g.yarns(p, r.Reckoning)
	if err := g.fleeces(p, pr, lay, r); err != nil {
		return nil, err
	}
	g.web(p, r.Reckoning)
	g.cloths(p, pr, lay, r.Reckoning)
	if err := g.hours(p, pr, r); err != nil {
		return nil, err
	}
	return g, nil
}

// past is the tasks that are over once the cloth is off the loom, or finished.
func (l Log) past() []string {
	if !l.OffLoom.Measured() && !l.Finished.Measured() {
		return nil
	}
	out := []string{"sort", "scour", "comb", "card", "spin", "ply", "wind", "beam", "thread", "sley", "weave"}
	if l.Finished.Measured() {
		out = append(out, "finish")
	}
	return out
}

// coarseBy is how far a grist may be off before it is said (3 %, what a sample
// would leave unnoticed; common practice).
const coarseBy = 0.03

func (g *Progress) yarns(p *Plan, r cloth.Reckoning) {
	for _, need := range r.Yarns {
		y, err := p.yarn("yarns", need.Name)
		if err == nil {
			y, err = y.Worked()
		}
		if err != nil || len(y.Parts()) == 0 && !slices.ContainsFunc(p.Log.Skeins, func(s Skein) bool { return s.Yarn == y.Name }) {
			continue
		}
		out := YarnProgress{Name: y.Name, NeededM: need.LengthM, PlannedTex: y.Tex, PlannedG: need.MassG}
		out.count(p.Log.Skeins)
		grist := y.Tex
		if out.RealTex > 0 {
			grist = out.RealTex
		}
		out.LeftM = math.Max(0, need.LengthM-out.SpunM)
		if len(g.past) > 0 {
			out.LeftM = 0 // the cloth is woven of it
		}
		out.LeftG = out.LeftM * grist / 1000
		out.NeededG = need.LengthM * grist / 1000
		out.FibreLeftG = out.LeftG / (1 - y.SpinLoss)
		g.Yarns = append(g.Yarns, out)
		g.warnOfGrist(out)
	}
}

// count adds a yarn's skeins up. Those not weighed count for length alone,
// those not timed for no rate.
func (y *YarnProgress) count(all []Skein) {
	var weighed []Skein
	m, g, timedM := 0.0, 0.0, 0.0
	for _, s := range all {
		if s.Yarn != y.Name {
			continue
		}
		y.Skeins++
		y.SpunM += s.LengthM
		if s.MassG > 0 {
			weighed = append(weighed, s)
			m, g = m+s.LengthM, g+s.MassG
		}
		if s.Hours > 0 {
			timedM, y.SpunH = timedM+s.LengthM, y.SpunH+s.Hours
		}
	}
	if m > 0 {
		y.RealTex = g / m * 1000
		y.SpunG = g + (y.SpunM-m)*y.RealTex/1000
	} else {
		y.SpunG = y.SpunM * y.PlannedTex / 1000
	}
	if y.SpunH > 0 {
		y.MPerHour = timedM / y.SpunH
	}
	if n := len(weighed); n >= 6 {
		m, g = 0, 0
		for _, s := range weighed[n-3:] {
			m, g = m+s.LengthM, g+s.MassG
		}
		y.LatestTex = g / m * 1000
	}
}

func (g *Progress) warn(format string, a ...any) {
	g.Warnings = append(g.Warnings, fmt.Sprintf(format, a...))
}

func (g *Progress) warnOfGrist(y YarnProgress) {
	if y.RealTex == 0 || len(g.past) > 0 {
		return
	}
	word := func(off float64) string {
		if off > 0 {
			return "coarse"
		}
		return "fine"
	}
	if off := y.RealTex/y.PlannedTex - 1; math.Abs(off) > coarseBy {
		g.warn("%s is drifting %s: %.1f tex spun so far where %.1f are planned (%+.0f %%); all of it will weigh %.0f g instead of %.0f g.",
			y.Name, word(off), y.RealTex, y.PlannedTex, 100*off, y.NeededG, y.PlannedG)
	}
	if y.LatestTex > 0 {
		if off := y.LatestTex/y.RealTex - 1; math.Abs(off) > coarseBy {
			g.warn("The last three skeins of %s run %s: %.1f tex, %.1f in all so far.", y.Name, word(off), y.LatestTex, y.RealTex)
		}
	}
}

// atRealGrist is the plan with each yarn as coarse as it is really spun.
func (g *Progress) atRealGrist(p *Plan) *Plan {
	c := p.Clone()
	for _, y := range g.Yarns {
		for i := range c.Yarns {
			if at := &c.Yarns[i]; at.Name == y.Name && y.RealTex > 0 {
				at.Tex, at.Size, at.Singles, at.Skein = y.RealTex, cloth.Size{}, cloth.Size{}, cloth.Skein{}
			}
		}
	}
	return c
}

func (g *Progress) fleeces(p *Plan, pr *Prepared, lay layout.Lay, r *Result) error {
	if !slices.ContainsFunc(g.Yarns, func(y YarnProgress) bool { return y.RealTex > 0 }) {
		return nil
	}
	real, err := g.atRealGrist(p).reckonLengths(pr, lay, r.Lengths)
	if err != nil {
		return err
	}
	for i, f := range real.Fleeces {
		planned := r.Reckoning.Fleeces[i]
		at := FleeceProgress{f.Name, planned.RawNeededG, f.RawNeededG, f.RawHaveG, math.Max(0, f.RawNeededG-f.RawHaveG)}
		g.Fleeces = append(g.Fleeces, at)
		if at.RawLackG > 0.5 && len(g.past) == 0 {
			g.warn("At the grist spun so far the lot %s will fall short by %.0f g: %.0f g raw are needed in all, %.0f g were planned and %.0f g were in hand; %s sets it.",
				f.Name, math.Ceil(at.RawLackG), f.RawNeededG, at.PlannedRawG, f.RawHaveG, cloth.CoatWords(f.ShortCoat))
		}
	}
	return nil
}

func (g *Progress) web(p *Plan, r cloth.Reckoning) {
	w := &g.Web
	w.PlannedCM = r.WovenLengthCM + (p.Cloth.SampleCM+p.Cloth.HeadingCM)*float64(r.Warps)
	w.PlannedPicksPerCM = r.PicksPerCMOnLoom
	picks, countedCM, timedCM := 0.0, 0.0, 0.0
	for _, e := range p.Log.Woven {
		w.WovenCM += e.WovenCM
		if e.Picks > 0 {
			picks, countedCM = picks+float64(e.Picks), countedCM+e.WovenCM
		}
		if e.Hours > 0 {
			timedCM, w.Hours = timedCM+e.WovenCM, w.Hours+e.Hours
		}
	}
	if countedCM > 0 {
		w.RealPicksPerCM = picks / countedCM
	}
	if w.Hours > 0 {
		w.CMPerHour = timedCM / w.Hours
	}
	if p.Log.OffLoom.Measured() || p.Log.Finished.Measured() {
		return // off the loom: nothing is left to weave
	}
	w.LeftCM = math.Max(0, w.PlannedCM-w.WovenCM)
	perCM := w.PlannedPicksPerCM
	if w.RealPicksPerCM > 0 {
		perCM = w.RealPicksPerCM
		if off := perCM/w.PlannedPicksPerCM - 1; math.Abs(off) > coarseBy {
			g.warn("The cloth is beaten at %.2f picks per cm under tension where %.2f are planned (%+.0f %%); the weft will come out %+.0f %% against the plan.", perCM, w.PlannedPicksPerCM, 100*off, 100*off)
		}
	}
	w.PicksLeft = w.LeftCM * perCM
}

// cloths checks the cloth off the loom and finished against what the plan and
// the lay ask for.
func (g *Progress) cloths(p *Plan, pr *Prepared, lay layout.Lay, r cloth.Reckoning) {
	s, l := p.setting(), p.Log
	loss := func(before, after float64) float64 {
		if !(before > 0) || !(after > 0) {
			return math.NaN()
		}
		return cloth.TakeUpOf(before, after)
	}
	check := func(m MeasuredCloth) *ClothCheck {
		return &ClothCheck{MeasuredCloth: m, LengthLoss: math.NaN(), WidthLoss: math.NaN(), FinishCM: m.LengthCM, FinishWidthCM: m.WidthCM,
			NeedCM: acrossCM(pr, lay), NeedLengthCM: lay.LengthCM, PlannedGPerM2: r.MassGPerM2}
	}
	if off := l.OffLoom; off.Measured() {
		c := check(off)
		c.LengthLoss, c.WidthLoss, c.PlannedLength, c.PlannedWidth = loss(g.Web.WovenCM, off.LengthCM), loss(r.ReedWidthCM, off.WidthCM), s.TakeUp, s.DrawIn
		c.FinishCM, c.FinishWidthCM = off.LengthCM*(1-s.ShrinkLength), off.WidthCM*(1-s.ShrinkWidth)
		g.OffLoom = c
		if !l.Finished.Measured() && !c.Holds() {
			g.warn("Off the loom the cloth is %.1f × %.1f cm and should finish at %.1f × %.1f cm, but the lay takes %.1f × %.1f cm.", off.WidthCM, off.LengthCM, c.FinishWidthCM, c.FinishCM, c.NeedCM, c.NeedLengthCM)
		}
	}
	if fin := l.Finished; fin.Measured() {
		c := check(fin)
		c.LengthLoss, c.WidthLoss, c.PlannedLength, c.PlannedWidth = loss(l.OffLoom.LengthCM, fin.LengthCM), loss(l.OffLoom.WidthCM, fin.WidthCM), s.ShrinkLength, s.ShrinkWidth
		if fin.MassG > 0 {
			c.MassGPerM2 = fin.MassG / (fin.WidthCM * fin.LengthCM / 1e4)
		}
		g.Finished = c
		if !c.Holds() {
			g.warn("The cloth finished at %.1f × %.1f cm, but the lay takes %.1f × %.1f cm: see what must move.", fin.WidthCM, fin.LengthCM, c.NeedCM, c.NeedLengthCM)
		}
	}
}

// RawNeededG is what a lot must give in all: at the grist really spun, once the
// log tells it and while there is still yarn to spin, else as planned.
func (r *Result) RawNeededG(f cloth.FleeceNeed) float64 {
	if r.Progress != nil && len(r.Progress.past) == 0 {
		for _, at := range r.Progress.Fleeces {
			if at.Name == f.Name {
				return at.RawNeededG
			}
		}
	}
	return f.RawNeededG
}

// LikelyH is the likely hours in all: those worked and those that remain at the
// rates really worked, once there is a log, else as planned.
func (r *Result) LikelyH() float64 {
	if r.Progress != nil {
		return r.Progress.Hours.Total.Likely
	}
	return r.Hours.Total.Likely
}
