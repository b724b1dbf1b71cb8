package plan

import (
	"strings"

	"ellwand/cloth"
)

// valuesOf are figures by their keys alone.
func valuesOf(list []cloth.Figure) map[string]any {
	out := map[string]any{}
	for _, f := range list {
		out[f.Key] = sixth(f.Value)
	}
	return out
}

type yarnJSON struct {
	Name         string             `json:"name"`
	LengthM      float64            `json:"length_m"`
	MassG        float64            `json:"mass_g"`
	Ends         int                `json:"ends"`
	Picks        int                `json:"picks"`
	WarpM        float64            `json:"warp_m"`
	WeftM        float64            `json:"weft_m"`
	HeadingM     float64            `json:"heading_m"`
	Tex          float64            `json:"tex"`
	TexFrom      string             `json:"tex_from"`
	Plies        int                `json:"plies"`
	SinglesTex   float64            `json:"singles_tex"`
	SinglesM     float64            `json:"singles_m"`
	Counts       map[string]float64 `json:"counts"` // the yarn in every count system, and in wraps by its rule
	DiameterMM   float64            `json:"diameter_mm"`
	DiameterFrom string             `json:"diameter_from"`
	Diameters    []diameterJSON     `json:"diameters"`
	Twist        string             `json:"twist"`
	TwistPerCM   float64            `json:"twist_per_cm"`
	TwistPerInch float64            `json:"twist_per_inch"`
	TwistAngle   float64            `json:"twist_angle_deg"`
	TwistFactor  float64            `json:"tex_twist_multiplier"`
	Skein        *skeinJSON         `json:"skein,omitempty"`
}

type diameterJSON struct {
	Rule       string  `json:"rule"`
	Label      string  `json:"label"`
	Source     string  `json:"source"`
	DiameterMM float64 `json:"diameter_mm"`
	WrapsPerCM float64 `json:"wraps_per_cm"`
	PerInch    float64 `json:"diameters_per_inch"`
}

type skeinJSON struct {
	Tex             float64 `json:"tex"`
	MassAtStandardG float64 `json:"mass_at_standard_g"`
	Regain          float64 `json:"regain"`
	StandardRegain  float64 `json:"standard_regain"`
	PlannedTex      float64 `json:"planned_tex"`
}

func yarnAsJSON(n cloth.YarnNeed) yarnJSON {
	y := n.Yarn
	mm, from := y.DiameterMM()
	out := yarnJSON{Name: n.Name, LengthM: fourth(n.LengthM), MassG: fourth(n.MassG), Ends: n.Ends, Picks: n.Picks,
		WarpM: fourth(n.WarpM), WeftM: fourth(n.WeftM), HeadingM: fourth(n.HeadingM), Tex: sixth(y.Tex), TexFrom: y.GristFrom(), Plies: max(1, y.Plies),
		SinglesTex: sixth(y.SinglesTex()), SinglesM: fourth(y.SinglesM(n.LengthM)), Counts: map[string]float64{},
		DiameterMM: sixth(mm), DiameterFrom: from, Diameters: []diameterJSON{}, Twist: y.Twist, TwistPerCM: sixth(y.TwistPerCM), TwistPerInch: sixth(y.TwistPerCM * cmPerInch),
		TwistAngle: sixth(y.SurfaceAngleDeg()), TwistFactor: sixth(cloth.TexTwistMultiplier(y.TwistPerCM, y.Tex))}
	for _, s := range cloth.SizeSystems() {
		out.Counts[s.Key] = sixth(y.CountIn(s.Key))
	}
	for _, d := range y.Diameters() {
		out.Diameters = append(out.Diameters, diameterJSON{d.Rule.Key, d.Rule.Label, d.Rule.Source, sixth(d.DiameterMM), sixth(d.WrapsPerCM), sixth(d.WrapsPerCM * cmPerInch)})
	}
	if k := y.Skein; k.Given() {
		now, standard := k.Regains()
		out.Skein = &skeinJSON{sixth(k.Tex()), sixth(k.MassAtStandardG()), sixth(now), sixth(standard), sixth(y.PlannedTex)}
	}
	return out
}

// otherYarnsJSON are the plan's yarns that this cloth does not take.
func (r *Result) otherYarnsJSON() []yarnJSON {
	used := map[string]bool{}
	for _, n := range r.Reckoning.Yarns {
		used[n.Name] = true
	}
	out := []yarnJSON{}
	for _, y := range r.plan.Yarns {
		if worked, err := y.Worked(); err == nil && !used[y.Name] {
			out = append(out, yarnAsJSON(cloth.YarnNeed{Name: y.Name, Yarn: worked}))
		}
	}
	return out
}

type stripeJSON struct {
	Yarn    string `json:"yarn"`
	Threads int    `json:"threads"`
}

func stripesAsJSON(list []cloth.Stripe) []stripeJSON {
	const most = 5000
	out := []stripeJSON{}
	for _, s := range list[:min(most, len(list))] {
		out = append(out, stripeJSON{s.Yarn, s.Threads})
	}
	return out
}

type loomJSON struct {
	Name        string         `json:"name"`
	Kind        string         `json:"kind"`
	WasteCM     float64        `json:"waste_cm"`
	WasteSource string         `json:"waste_source"`
	Warps       int            `json:"warps"`
	Reeds       []sleyJSON     `json:"reeds"` // the best of each reed, the one taken first
	WarpStripes []stripeJSON   `json:"warp_stripes"`
	WeftStripes []stripeJSON   `json:"weft_stripes"`
	Weights     map[string]any `json:"weights,omitempty"`
}

type sleyJSON struct {
	ReedDentsPer10CM  float64 `json:"reed_dents_per_10cm"`
	DentOrder         []int   `json:"dent_order"`
	EndsPerCMOnLoom   float64 `json:"ends_per_cm_on_loom"`
	EndsPerCMFinished float64 `json:"ends_per_cm_finished"`
	OffPercent        float64 `json:"off_percent"`
}

func (r *Result) loomAsJSON() loomJSON {
	c, l := r.Reckoning, r.plan.Loom
	out := loomJSON{Name: l.Name, Kind: string(l.Kind), Warps: c.Warps, Reeds: []sleyJSON{}, WarpStripes: stripesAsJSON(c.WarpStripes), WeftStripes: stripesAsJSON(c.WeftStripes)}
	out.WasteCM, out.WasteSource = l.LoomWasteCM()
	for _, k := range c.Sleys {
		out.Reeds = append(out.Reeds, sleyJSON{k.ReedDentsPer10CM, k.DentOrder, sixth(k.EndsPerCMOnLoom), sixth(k.EndsPerCMFinished), sixth(k.OffPercent)})
	}
	if h := c.Hanging; h != nil {
		out.Weights = valuesOf(h.Figures)
		out.Weights["remarks"] = append([]string{}, h.Remarks...)
	}
	return out
}

type settLimitJSON struct {
	Rule         string  `json:"rule"`
	Source       string  `json:"source"`
	EndsPerCM    float64 `json:"ends_per_cm"`
	PicksPerCM   float64 `json:"picks_per_cm"`
	EndsPerInch  float64 `json:"ends_per_inch"`
	PicksPerInch float64 `json:"picks_per_inch"`
}

type settRangeJSON struct {
	Use            string  `json:"use"`
	Source         string  `json:"source"`
	LowEndsPerCM   float64 `json:"low_ends_per_cm"`
	HighEndsPerCM  float64 `json:"high_ends_per_cm"`
	LowPicksPerCM  float64 `json:"low_picks_per_cm"`
	HighPicksPerCM float64 `json:"high_picks_per_cm"`
}

// settingAsJSON is every figure of the setting by its key, with the limits by
// each rule and the usual ranges.
func (r *Result) settingAsJSON() map[string]any {
	c := r.Reckoning
	if c.Setting == nil {
		return map[string]any{}
	}
	s := c.Setting
	out := valuesOf(s.Figures)
	limits, ranges, draft := []settLimitJSON{}, []settRangeJSON{}, []string{}
	for _, l := range s.Limits {
		limits = append(limits, settLimitJSON{l.Rule, l.Source, sixth(l.EndsPerCMOnLoom), sixth(l.PicksPerCMOnLoom), sixth(l.EndsPerCMOnLoom * cmPerInch), sixth(l.PicksPerCMOnLoom * cmPerInch)})
	}
	for _, g := range s.Ranges {
		ranges = append(ranges, settRangeJSON{g.Use, g.Source, sixth(g.EndsLow), sixth(g.EndsHigh), sixth(g.PicksLow), sixth(g.PicksHigh)})
	}
	for _, row := range s.Weave.Draft {
		marks := map[bool]string{true: "X", false: "."}
		var b strings.Builder
		for _, m := range row {
			b.WriteString(marks[m])
		}
		draft = append(draft, b.String())
	}
	out["weave"], out["draft"], out["limits"], out["working_ranges"] = s.Weave.Name, draft, limits, ranges
	out["repeat_ends"], out["intersections"], out["repeat_picks"], out["pick_changes"] = s.Weave.RepeatThreads, s.Weave.Intersections, s.Weave.RepeatPicks, s.Weave.PickChanges
	out["average_float"] = sixth(s.Weave.AverageFloat())
	return out
}
