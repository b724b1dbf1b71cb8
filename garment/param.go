package garment

import (
	"fmt"
	"math"
	"sort"
)

// Param is one named ease, proportion or option of a draft. Its key carries its
// unit; a plan may set it to any value from Min to Max.
type Param struct {
	Key               string
	Label             string
	Meaning           string // what it does to the garment, in words
	Unit              string // "cm", or "" for a count, a share or a choice
	Default, Min, Max float64
	Source            string   // where the default comes from
	Choices           []Choice // when not empty, only these values are accepted
}

// Choice is one value an option may take.
type Choice struct {
	Value float64
	Label string
}

// Sources of proportions, as named to the user.
const (
	fromThursfield = "S. Thursfield, 2001"
	fromShirt      = "an old-Russian man's shirt (zastava.ee)"
	commonPractice = "common practice"
)

// DraftInfo describes a draft for a form.
type DraftInfo struct {
	Key     string
	Label   string
	About   string
	Needs   []Measure
	Ease    []Param // ease and proportions
	Options []Param // how it is built
}

// Params are all parameters: ease, then options.
func (d DraftInfo) Params() []Param {
	return append(append([]Param(nil), d.Ease...), d.Options...)
}

// Check says whether v is accepted for this parameter.
func (p Param) Check(v float64) error {
	if len(p.Choices) > 0 {
		var names []string
		for _, c := range p.Choices {
			if c.Value == v {
				return nil
			}
			names = append(names, fmt.Sprintf("%g (%s)", c.Value, c.Label))
		}
		return fmt.Errorf("%s is %g; accepted is %s", p.Key, v, list(names))
	}
	if math.IsNaN(v) || v < p.Min || v > p.Max {
		unit := p.Unit
		if unit != "" {
			unit = " " + unit
		}
		return fmt.Errorf("%s is %g%s; accepted is %g to %g%s", p.Key, v, unit, p.Min, p.Max, unit)
	}
	return nil
}

// values are a draft's settled parameters by key.
type values map[string]float64

// settle is the given values over the defaults, all checked; the first fault in
// the order of the draft's parameters is the error.
func settle(d DraftInfo, given map[string]float64) (values, error) {
	out, known := values{}, []string{}
	for _, p := range d.Params() {
		known = append(known, p.Key)
		out[p.Key] = p.Default
		if v, ok := given[p.Key]; ok {
			if err := p.Check(v); err != nil {
				return nil, fmt.Errorf("%s: %w", d.Key, err)
			}
			out[p.Key] = v
		}
	}
	var names []string
	for key := range given {
		names = append(names, key)
	}
	sort.Strings(names)
	for _, key := range names {
		if _, ok := out[key]; !ok {
			return nil, fmt.Errorf("the %s has no parameter %q%s", d.Key, key, didYouMean(key, known))
		}
	}
	return out, nil
}

func yesNo(key, label, meaning string, byDefault float64, source string) Param {
	return Param{key, label, meaning, "", byDefault, 0, 1, source, []Choice{{0, "no"}, {1, "yes"}}}
}

func lengthParam(key, label, meaning string, byDefault, least, most float64, source string) Param {
	return Param{key, label, meaning, "cm", byDefault, least, most, source, nil}
}
