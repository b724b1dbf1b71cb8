package garment

import (
	"fmt"
	"math"
	"sort"
)

// Body is one wearer's measurements in cm.
type Body struct {
	Name string
	// Table says whose survey figures fill in what was not measured: "women",
	// "men", or "" for both taken together, which is rougher.
	Table string
	CM    map[Measure]float64
}

// Check is everything that cannot be right: a value out of its range, or two
// that cannot belong to one body. Empty means plausible.
func (b Body) Check() []error {
	var errs []error
	if _, err := tableIndex(b.Table); err != nil {
		errs = append(errs, err)
	}
	for _, m := range b.given() {
		if err := CheckOne(m, b.CM[m]); err != nil {
			errs = append(errs, err)
		}
	}
	if len(errs) > 0 {
		return errs
	}
	for _, o := range bodyOrder() {
		small, ok := b.CM[o.small]
		large, ok2 := b.CM[o.large]
		if ok && ok2 && small >= large {
			errs = append(errs, fmt.Errorf("%s is %g cm and %s is %g cm; accepted is a %s below the %s", o.small, small, o.large, large, o.small, o.large))
		}
	}
	return errs
}

// bodyOrder is what must be less than what on any body.
func bodyOrder() []struct{ small, large Measure } {
	return []struct{ small, large Measure }{
		{BackNeckHeight, Stature}, {WaistHeight, BackNeckHeight}, {InsideLeg, WaistHeight},
		{KneeHeight, InsideLeg}, {ArmLength, BackNeckToWrist}, {ScyeDepth, BackNeckToWaist},
		{WristGirth, HandGirth}, {AnkleGirth, CalfGirth}, {CalfGirth, ThighGirth},
		{ThighGirth, HipGirth}, {AnkleGirth, FootGirth}, {UpperArmGirth, BustGirth}, {NeckGirth, BustGirth},
	}
}

// given is the measurements that have a value, in the order of Measures, then
// unknown ones by name.
func (b Body) given() []Measure {
	var out, unknown []Measure
	for _, i := range Measures() {
		if _, ok := b.CM[i.Key]; ok {
			out = append(out, i.Key)
		}
	}
	for m := range b.CM {
		if _, known := measureInfo(m); !known {
			unknown = append(unknown, m)
		}
	}
	sort.Slice(unknown, func(i, j int) bool { return unknown[i] < unknown[j] })
	return append(out, unknown...)
}

// doubtSD is how far from its estimate a measurement may lie before it is
// doubted: hardly any of the survey's people lie further than four standard
// deviations off.
const doubtSD = 4

// Doubts names, in words, measurements that would be unusual together with the
// stature and the bust girth given: a slip of tape or pen rather than an error.
func (b Body) Doubts() []string {
	var out []string
	for _, m := range b.given() {
		cm := b.CM[m]
		e, err := b.estimate(m)
		if err != nil || math.Abs(cm-e.CM) <= doubtSD*e.SDCM {
			continue
		}
		out = append(out, fmt.Sprintf("%s is %g cm; with this stature and bust girth about %.0f cm would be usual. Measure again to be sure.", m, cm, e.CM))
	}
	return out
}

// Estimate is a measurement that was not taken but worked out.
type Estimate struct {
	Measure Measure
	CM      float64
	SDCM    float64 // one standard deviation: two people in three lie within it
	From    string  // the formula with its numbers, and its source
}

func (e Estimate) String() string {
	return fmt.Sprintf("%s was not measured; %.1f cm is an estimate, give or take %.1f cm: %s", e.Measure, e.CM, e.SDCM, e.From)
}

// Complete fills in every measurement that is missing, from stature and bust
// girth, and says which they are. What cannot be estimated stays missing: all
// of it when stature or bust girth is not given.
func (b Body) Complete() (Body, []Estimate) {
	full := Body{Name: b.Name, Table: b.Table, CM: map[Measure]float64{}}
	for m, cm := range b.CM {
		full.CM[m] = cm
	}
	var estimates []Estimate
	for _, i := range Measures() {
		if _, ok := full.CM[i.Key]; ok {
			continue
		}
		e, err := full.estimate(i.Key)
		if err != nil {
			continue
		}
		full.CM[i.Key] = e.CM
		estimates = append(estimates, e)
	}
	return full, estimates
}
