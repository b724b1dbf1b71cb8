package cloth

import (
	"fmt"
	"math"
)

// SettLimit is the closest square setting by one published rule.
type SettLimit struct {
	Rule, Source                      string
	EndsPerCMOnLoom, PicksPerCMOnLoom float64
}

// SettRange is what a cloth for one use is usually set at, on the loom.
type SettRange struct {
	WorkingRange
	EndsLow, EndsHigh, PicksLow, PicksHigh float64 // per cm
}

// SettingResult is how close the cloth is, against how close it can be.
type SettingResult struct {
	Weave                          Weave
	WarpTex, WeftTex               float64 // the mean over the threads
	WarpDiameterMM, WeftDiameterMM float64 // the same
	Limits                         []SettLimit
	Ranges                         []SettRange
	Figures                        []Figure
}

func (r *SettingResult) figure(key, label string, value float64, unit, from string, a ...any) float64 {
	r.Figures = append(r.Figures, Figure{key, label, value, unit, fmt.Sprintf(from, a...) + " = " + num(value) + unitAfter(unit)})
	return value
}

// weave is the cloth's weave: its own draft, or the one that it names.
func (s Setting) weave() (Weave, bool) {
	if len(s.Draft) > 0 {
		d, err := ParseDraft(s.Draft)
		if err != nil {
			return Weave{}, false
		}
		name := s.Weave
		if name == "" {
			name = "the draft given"
		}
		return WeaveOfDraft(name, d), true
	}
	return WeaveByName(s.Weave)
}

// MaxPicksPerCM is MaxSettPerCM for the picks, by how the ends change face.
func (w Weave) MaxPicksPerCM(tex, k float64) float64 {
	return DiametersPerCM(tex, k) * w.picksShare()
}

// endsShare and picksShare are R ÷ (R + I): the part of the room that threads
// side by side take.
func (w Weave) endsShare() float64 {
	return float64(w.RepeatThreads) / float64(w.RepeatThreads+w.Intersections)
}
func (w Weave) picksShare() float64 {
	return float64(w.RepeatPicks) / float64(w.RepeatPicks+w.PickChanges)
}

// picksFloat is the average float of the ends, over and under the picks.
func (w Weave) picksFloat() float64 { return float64(w.RepeatPicks) / float64(w.PickChanges) }

// setting works out how close the cloth is set.
func (w *work) setting() {
	weave, ok := w.s.weave()
	if !ok {
		return
	}
	r := &SettingResult{Weave: weave}
	w.r.Setting = r
	r.WarpTex, r.WarpDiameterMM = w.meanThread(func(n YarnNeed) int { return n.Ends })
	r.WeftTex, r.WeftDiameterMM = w.meanThread(func(n YarnNeed) int { return n.Picks })
	if r.WarpTex <= 0 || r.WeftTex <= 0 {
		return
	}
	r.limits(w.in.Warp.rule())
	r.ranges()
	r.closeness(w.r.EndsPerCMOnLoom, w.r.PicksPerCMOnLoom)
	r.covers("on_loom", "on the loom", w.r.EndsPerCMOnLoom, w.r.PicksPerCMOnLoom)
	r.covers("finished", "finished, the yarn no thicker than it was spun", w.r.EndsPerCMFinished, w.r.PicksPerCMFinished)
	r.crimps(w.r.EndsPerCMOnLoom, w.r.PicksPerCMOnLoom)
}

// meanThread is the mean grist and diameter of the threads that n counts.
func (w *work) meanThread(n func(YarnNeed) int) (tex, diameterMM float64) {
	count := 0.0
	for _, need := range w.r.Yarns {
		y, _ := w.in.yarn(need.Name)
		k := float64(n(need))
		mm, _ := y.DiameterMM()
		tex, diameterMM, count = tex+k*y.Tex, diameterMM+k*mm, count+k
	}
	if count == 0 {
		return 0, 0
	}
	return tex / count, diameterMM / count
}

// limits are the closest setts by every rule, and the figures of the warp's own.
func (r *SettingResult) limits(own DiameterRule) {
	w := r.Weave
	for _, rule := range DiameterRules() {
		d := func(tex float64) float64 { return 10 / rule.DiameterMM(tex, 0, 0) }
		r.Limits = append(r.Limits, SettLimit{"diameters and intersections, " + rule.Label, rule.Source, d(r.WarpTex) * w.endsShare(), d(r.WeftTex) * w.picksShare()})
	}
	warp := r.figure("warp_diameter_mm", "Diameter of the warp yarn", r.WarpDiameterMM, "mm", "by the yarn's own rule or as wrapped, the mean of its ends")
	weft := r.figure("weft_diameter_mm", "Diameter of the weft yarn", r.WeftDiameterMM, "mm", "by the yarn's own rule or as wrapped, the mean of its picks")
	perCM := r.figure("warp_diameters_per_cm", "Warp threads side by side in 1 cm", 10/warp, "per cm", "10 mm ÷ %s mm", num(warp))
	r.figure("max_ends_per_cm", "Closest ends, square cloth of the warp's yarn", perCM*w.endsShare(), "ends per cm", "%s (diameters and intersections, T. R. Ashenhurst): %s side by side × %d ends of the repeat ÷ (%d ends + %d changes of face)", own.Label, num(perCM), w.RepeatThreads, w.RepeatThreads, w.Intersections)
	perCM = r.figure("weft_diameters_per_cm", "Weft threads side by side in 1 cm", 10/weft, "per cm", "10 mm ÷ %s mm", num(weft))
	r.figure("max_picks_per_cm", "Closest picks, square cloth of the weft's yarn", perCM*w.picksShare(), "picks per cm", "the same rule: %s side by side × %d picks of the repeat ÷ (%d picks + %d changes of face)", num(perCM), w.RepeatPicks, w.RepeatPicks, w.PickChanges)
	if math.Abs(warp-weft) > 1e-9*warp {
		r.figure("max_ends_with_weft_per_cm", "Closest ends with this weft between them", 10*float64(w.RepeatThreads)/(float64(w.RepeatThreads)*warp+float64(w.Intersections)*weft), "ends per cm",
			"each change of face takes a weft's room: 10 × %d ÷ (%d × %s mm + %d × %s mm)", w.RepeatThreads, w.RepeatThreads, num(warp), w.Intersections, num(weft))
	}
	brierley := func(key, label string, tex, float float64, unit string) float64 {
		ne := CottonCount(tex)
		v := math.Sqrt(200*ne) * math.Pow(float, w.brierleyM) / cmPerInch
		return r.figure(key, label, v, unit, "S. Brierley, counted as a %s, an upper bound for power looms: √(200 × %s cotton count) × %s float^%s ÷ 2.54", w.Class, num(ne), num(float), num(w.brierleyM))
	}
	ends := brierley("brierley_ends_per_cm", "Closest ends by Brierley", r.WarpTex, w.AverageFloat(), "ends per cm")
	picks := brierley("brierley_picks_per_cm", "Closest picks by Brierley", r.WeftTex, w.picksFloat(), "picks per cm")
	r.Limits = append(r.Limits, SettLimit{"Brierley, an upper bound for power looms", "GATE 2006, Q66, textiletriangle.com; other weaves than twill from memory", ends, picks})
}

func (r *SettingResult) ranges() {
	ends, picks := figureNamed(r.Figures, "max_ends_per_cm"), figureNamed(r.Figures, "max_picks_per_cm")
	for _, u := range WorkingRanges() {
		g := SettRange{WorkingRange: u}
		g.EndsLow, g.EndsHigh = u.SettPerCM(ends)
		g.PicksLow, g.PicksHigh = u.SettPerCM(picks)
		r.Ranges = append(r.Ranges, g)
	}
}

// figureNamed is the value of a figure by its key; 0 when it is not there.
func figureNamed(list []Figure, key string) float64 {
	for _, f := range list {
		if f.Key == key {
			return f.Value
		}
	}
	return 0
}

// closeness is the cloth's sett against the closest.
func (r *SettingResult) closeness(endsPerCM, picksPerCM float64) {
	maxEnds, maxPicks := figureNamed(r.Figures, "max_ends_per_cm"), figureNamed(r.Figures, "max_picks_per_cm")
	e := r.figure("ends_of_closest", "Ends, of the closest", endsPerCM/maxEnds, "", "%s on the loom ÷ %s", num(endsPerCM), num(maxEnds))
	p := r.figure("picks_of_closest", "Picks, of the closest", picksPerCM/maxPicks, "", "%s on the loom ÷ %s", num(picksPerCM), num(maxPicks))
	r.figure("tightness", "Tightness", (e+p)/2, "", "the mean of both ways: (%s + %s) ÷ 2", num(e), num(p))
}

// covers are the cover factors in one state of the cloth.
func (r *SettingResult) covers(key, state string, endsPerCM, picksPerCM float64) {
	type way struct {
		name                   string
		perCM, tex, diameterMM float64
	}
	ways := []way{{"warp", endsPerCM, r.WarpTex, r.WarpDiameterMM}, {"weft", picksPerCM, r.WeftTex, r.WeftDiameterMM}}
	cover, peirce := map[string]float64{}, map[string]float64{}
	for _, w := range ways {
		cover[w.name] = r.figure(w.name+"_cover_"+key, "Cover of the "+w.name+" "+state, w.perCM*w.diameterMM/10, "", "%s per cm × %s mm ÷ 10", num(w.perCM), num(w.diameterMM))
		r.figure(w.name+"_si_cover_"+key, "SI cover factor of the "+w.name+" "+state, SICover(w.perCM, w.tex), "", "%s per cm × √%s tex ÷ 10", num(w.perCM), num(w.tex))
		peirce[w.name] = r.figure(w.name+"_peirce_cover_"+key, "Peirce's cover factor of the "+w.name+" "+state, PeirceCover(w.perCM, w.tex), "", "28 means that threads touch: %s per cm × 2.54 ÷ √%s cotton count", num(w.perCM), num(CottonCount(w.tex)))
	}
	a, b := math.Min(1, cover["warp"]), math.Min(1, cover["weft"])
	r.figure("cloth_cover_"+key, "Cover of the cloth "+state, ClothCover(a, b), "", "the part that is not bare: %s + %s − %s × %s", num(a), num(b), num(a), num(b))
	r.figure("cloth_peirce_cover_"+key, "Peirce's cover factor of the cloth "+state, peirce["warp"]+peirce["weft"]-peirce["warp"]*peirce["weft"]/28, "",
		"%s + %s − %s × %s ÷ 28", num(peirce["warp"]), num(peirce["weft"]), num(peirce["warp"]), num(peirce["weft"]))
}

// crimps are Peirce's estimates for a cloth on the loom: each thread displaced by
// half the sum of two of his diameters; in other weaves than tabby by as much
// less as the threads change face less often (from memory).
func (r *SettingResult) crimps(endsPerCM, picksPerCM float64) {
	w := r.Weave
	d1, d2 := PeirceDiameterMM(r.WarpTex), PeirceDiameterMM(r.WeftTex)
	h := (d1 + d2) / 2
	estimate := func(key, label string, crossedPerCM float64, changes, threads int) float64 {
		p := 10 / crossedPerCM
		return r.figure(key, label, PeirceCrimp(h, p)*float64(changes)/float64(threads), "",
			"Peirce's approximation, displaced by half of %s + %s mm, an estimate to compare with a sample: 9 ÷ 16 × (%s mm ÷ %s mm)^2 × %d ÷ %d", num(d1), num(d2), num(h), num(p), changes, threads)
	}
	warp := estimate("peirce_warp_crimp", "Crimp of the warp by Peirce", picksPerCM, w.PickChanges, w.RepeatPicks)
	weft := estimate("peirce_weft_crimp", "Crimp of the weft by Peirce", endsPerCM, w.Intersections, w.RepeatThreads)
	r.figure("peirce_mass_g_per_m2", "Mass by Peirce's crimps, on the loom", MassGPerM2(endsPerCM, r.WarpTex, warp, picksPerCM, r.WeftTex, weft), "g/m²",
		"(%s ends per cm × %s tex × (1 + %s) + %s picks per cm × %s tex × (1 + %s)) ÷ 10", num(endsPerCM), num(r.WarpTex), num(warp), num(picksPerCM), num(r.WeftTex), num(weft))
	square := w.Class == classTabby && math.Abs(endsPerCM-picksPerCM) < 1e-9*endsPerCM && math.Abs(r.WarpTex-r.WeftTex) < 1e-9*r.WarpTex
	if !square {
		return
	}
	if exact := PeirceExactCrimp(d1, 10/endsPerCM); !math.IsNaN(exact) {
		r.Figures = append(r.Figures, Figure{"peirce_exact_crimp", "Crimp of both ways by Peirce, exact", exact, "",
			fmt.Sprintf("Peirce's equations solved for a square tabby of %s mm diameter at %s mm spacing: %s", num(d1), num(10/endsPerCM), num(exact))})
	}
}
