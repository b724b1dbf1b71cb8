package plan

import (
	"fmt"
	"math"
	"strconv"

	"ellwand/garment"
)

// draftKnob is the parameter of a draft that makes it longer or fuller.
type draftKnob struct {
	param    string
	down     bool     // more garment is a smaller number
	sizes    []string // labels of what was asked for, the first that the draft gives
	together []string // parameters that grow by the same part with it
}

// lengthKnobs are the parameters of the length, by draft.
func lengthKnobs() map[string]draftKnob {
	shoulder := []string{"Length, shoulder to hem"}
	return map[string]draftKnob{
		"tunic": {param: "hem_below_knee_cm", sizes: shoulder}, "coat": {param: "hem_below_knee_cm", sizes: shoulder},
		"shift": {param: "hem_above_floor_cm", down: true, sizes: shoulder}, "gown": {param: "hem_above_floor_cm", down: true, sizes: shoulder},
		"overdress":         {param: "hem_above_floor_cm", down: true, sizes: []string{"Length, upper edge to hem"}},
		"trousers":          {param: "hem_above_floor_cm", down: true, sizes: []string{"Length, waist to hem"}},
		"rectangular_cloak": {param: "hem_below_knee_cm", sizes: []string{"Cloak, nape to lower edge"}},
		"half_circle_cloak": {param: "hem_below_knee_cm", sizes: []string{"Cloak, nape to hem"}},
		"apron":             {param: "hem_below_knee_cm", sizes: []string{"Length, waist to hem"}},
		"hood":              {param: "cape_cm", sizes: []string{"Hood, crown to hem"}},
		"bag":               {param: "bag_height_cm"},
		"leg_wraps":         {param: "tuck_cm", sizes: []string{"Length of a wrap"}},
	}
}

// hemKnobs are the parameters of the width below, by draft.
func hemKnobs() map[string]draftKnob {
	gores := draftKnob{param: "side_gore_width_cm", together: []string{"centre_gore_width_cm"}, sizes: []string{"Hem"}}
	return map[string]draftKnob{
		"tunic": gores, "shift": gores, "gown": gores, "coat": gores, "overdress": gores,
		"trousers":          {param: "ankle_ease_cm", sizes: []string{"Hem of a leg"}},
		"rectangular_cloak": {param: "lap_cm", sizes: []string{"Cloak, round the body"}},
		"half_circle_cloak": {param: "hem_below_knee_cm", sizes: []string{"Hem"}},
		"apron":             {param: "cover_share", sizes: []string{"Width of the panel"}},
		"hood":              {param: "shoulder_ease_cm", sizes: []string{"Hem, straight across the gores", "Hem"}},
		"bag":               {param: "bag_width_cm", sizes: []string{"Round the mouth"}},
	}
}

// knobFor is what to turn for a question, or why it cannot be asked.
func (p *Plan) knobFor(q Question, base *Result) (knob, string) {
	if q == ClosestSett {
		return p.settKnob(), ""
	}
	words, table := "longer", lengthKnobs()
	if q == FullestHem {
		words, table = "fuller at the hem", hemKnobs()
	}
	if p.Draft == "" {
		if q == FullestHem {
			return knob{}, "The garment is of the plan's own pieces, and which of them make its hem is not known; ask for the length or the sett, or use a draft."
		}
		return p.ownPiecesKnob()
	}
	d, ok := table[p.Draft]
	if !ok {
		return knob{}, fmt.Sprintf("A %s has no measure that makes it %s.", p.draftLabel(), words)
	}
	k, ok := p.paramKnob(d, base)
	if !ok {
		return knob{}, fmt.Sprintf("The draft of the %s has no %s.", p.draftLabel(), d.param)
	}
	if q == FullestHem && len(d.together) > 0 && p.paramValue("side_gores") == 0 && p.paramValue("centre_gores") == 0 {
		return knob{}, "The garment has no gores, and its hem is as wide as its body; give it gores first."
	}
	return k, ""
}

func (p *Plan) draftLabel() string {
	d, _ := draftOf(p.Draft)
	return d.Label
}

func (p *Plan) param(key string) (garment.Param, string, bool) {
	d, _ := draftOf(p.Draft)
	for _, q := range d.Ease {
		if q.Key == key {
			return q, "garment.ease." + key, true
		}
	}
	for _, q := range d.Options {
		if q.Key == key {
			return q, "garment.options." + key, true
		}
	}
	return garment.Param{}, "", false
}

func (p *Plan) paramValue(key string) float64 {
	q, _, ok := p.param(key)
	if v, given := p.Params[key]; given {
		return v
	}
	if !ok {
		return 0
	}
	return q.Default
}

// paramKnob turns a parameter of the draft, and others by the same part.
func (p *Plan) paramKnob(d draftKnob, base *Result) (knob, bool) {
	q, path, ok := p.param(d.param)
	if !ok {
		return knob{}, false
	}
	k := knob{label: q.Label, unit: q.Unit, paths: []string{path}, least: q.Min, most: q.Max, now: p.paramValue(d.param)}
	if d.down {
		k.least, k.most = q.Max, q.Min
	}
	places := 1.0
	if q.Unit == "" {
		places = 3
	}
	type other struct {
		path     string
		now      float64
		min, max float64
	}
	var others []other
	for _, key := range d.together {
		if o, at, ok := p.param(key); ok {
			others = append(others, other{at, p.paramValue(key), o.Min, o.Max})
			k.paths = append(k.paths, at)
		}
	}
	main := p.paramValue(d.param)
	k.at = func(t float64) (map[string]float64, error) {
		out := map[string]float64{path: roundTo(t, places)}
		for _, o := range others {
			out[o.path] = roundTo(min(o.max, max(o.min, o.now*t/main)), places)
		}
		return out, nil
	}
	k.size = func(r *Result) float64 {
		for _, label := range d.sizes {
			for _, s := range r.Garment.Sizes {
				if s.Label == label {
					return s.CM
				}
			}
		}
		return r.plan.paramValue(d.param)
	}
	if base != nil {
		for _, label := range d.sizes {
			for _, s := range base.Garment.Sizes {
				if s.Label == label && k.unit == q.Unit {
					k.label, k.unit = label, "cm"
				}
			}
		}
	}
	return k, true
}

// roundTo rounds to so many places after the point.
func roundTo(v, places float64) float64 {
	f := math.Pow(10, places)
	return math.Round(v*f) / f
}

// ownPiecesKnob makes all of the plan's own pieces longer by the same part.
func (p *Plan) ownPiecesKnob() (knob, string) {
	type length struct {
		path string
		cm   float64
	}
	var all []length
	longest := 0.0
	for _, s := range p.Pieces {
		if cm, ok := s.Dims["length_cm"]; ok {
			all = append(all, length{fmt.Sprintf("pieces[%s].length_cm", s.Name), cm})
			longest = max(longest, cm)
		}
	}
	if longest == 0 {
		return knob{}, "None of the plan's own pieces has a length_cm that could grow."
	}
	k := knob{label: "Longest piece", unit: "cm", least: longest / 10, most: min(5000, longest*50), now: longest}
	for _, l := range all {
		k.paths = append(k.paths, l.path)
	}
	k.at = func(t float64) (map[string]float64, error) {
		out := map[string]float64{}
		for _, l := range all {
			out[l.path] = max(0.01, roundTo(l.cm*t/longest, 2))
		}
		return out, nil
	}
	k.size = func(r *Result) float64 {
		most := 0.0
		for _, s := range r.plan.Pieces {
			most = max(most, s.Dims["length_cm"])
		}
		return most
	}
	return k, ""
}

// settKnob sets ends and picks closer by the same part.
func (p *Plan) settKnob() knob {
	ends, picks := p.Cloth.FinishedEndsPerCM, p.Cloth.FinishedPicksPerCM
	top := min(100, 100*ends/max(ends, picks))
	return knob{
		label: "Ends per cm, finished", unit: "ends per cm", paths: []string{"cloth.finished_ends_per_cm", "cloth.finished_picks_per_cm"},
		least: ends / 20, most: top, now: ends,
		at: func(t float64) (map[string]float64, error) {
			return map[string]float64{"cloth.finished_ends_per_cm": roundTo(t, 3), "cloth.finished_picks_per_cm": roundTo(t*picks/ends, 3)}, nil
		},
		size: func(r *Result) float64 { return r.plan.Cloth.FinishedEndsPerCM },
	}
}

// numberOf is the number in a field of the plan, or what the draft takes for it.
func numberOf(p *Plan, path string) (float64, bool) {
	v, err := strconv.ParseFloat(GetField(p, path), 64)
	if err == nil {
		return v, true
	}
	parts := splitField(path)
	if len(parts) == 3 && parts[0] == "garment" {
		return p.paramValue(parts[2]), true
	}
	return 0, false
}
