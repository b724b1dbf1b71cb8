// Package hours reckons the hours of a making, task by task from sorting the
// fleece to the last hem: a quantity and a rate for each. It knows nothing of
// polygons or plans. Units are in the names: g, m, cm, m², h.
package hours

import (
	"fmt"
	"math"
	"time"
)

// Tool is what the cloth is woven on.
type Tool string

const (
	ToolFrame        Tool = "frame" // rigid heddle or frame, the weft put through by hand
	ToolTreadle      Tool = "treadle"
	ToolPit          Tool = "pit"
	ToolWarpWeighted Tool = "warp-weighted"
)

// Tools are all of them.
func Tools() []Tool { return []Tool{ToolFrame, ToolTreadle, ToolPit, ToolWarpWeighted} }

// Stitch is how the seams are joined by hand.
type Stitch string

const (
	StitchRunning Stitch = "running"
	StitchBack    Stitch = "backstitch"
)

// Settings are what the maker decides about the work. Shares are fractions
// from 0 to 1.
type Settings struct {
	BudgetH  float64 // 0: none
	PerWeekH float64 // 0: not said, and no date is given
	Start    string  // "2026-03-01"; "": not said
	FinishBy string  // the day by which it is to be done; "": not said
	// RestShare is the part of the time at work that is rest, below 1.
	RestShare float64
	OtherH    float64 // hours for what is not reckoned: mending, the making of tools

	Weaving  Tool
	Stitch   Stitch
	StitchMM float64
	// FellPasses is how many times each seam is gone along to fell its
	// allowances: 0 left open, 1 one over the other, 2 each to its own side.
	FellPasses int

	SpindleShare float64 // of the metres spun; the rest by wheel
	// SpindleOf is the share of a yarn, by its name, where it is another.
	SpindleOf    map[string]float64
	MachineShare float64 // of the seams joined, which nobody sees; felling and hems stay by hand
	CombedOuter  float64 // of the outer coat; the rest is carded
	CombedInner  float64
	CombedWhole  float64

	// Own are the maker's own timed rates, by key, in place of the published.
	Own map[string]Range
}

// DefaultSettings are all work by hand: spindle, frame, running stitch of 3 mm,
// each seam felled once; outer coat combed and the rest carded (common
// practice); a tenth of the time rest (5 to 10 minutes in the hour, from memory).
func DefaultSettings() Settings {
	return Settings{
		RestShare: 0.1, Weaving: ToolFrame, Stitch: StitchRunning, StitchMM: 3, FellPasses: 1,
		SpindleShare: 1, SpindleOf: map[string]float64{}, CombedOuter: 1, Own: map[string]Range{},
	}
}

// ParseDate reads a date written year-month-day.
func ParseDate(s string) (time.Time, error) {
	d, err := time.Parse(time.DateOnly, s)
	if err != nil || d.Year() < 1900 || d.Year() > 2200 {
		return time.Time{}, fmt.Errorf("the date is %q; accepted is year-month-day, as 2026-03-01", s)
	}
	return d, nil
}

// Validate says what no work can have, in one sentence.
func (s Settings) Validate() error {
	for _, c := range []struct {
		what     string
		v        float64
		min, max float64
		accepted string
	}{
		{"the budget in hours", s.BudgetH, 0, 1e6, "0 to 1000000"},
		{"the hours a week", s.PerWeekH, 0, 168, "0 to 168"},
		{"the share of rest", s.RestShare, 0, 0.9, "a fraction from 0 to 0.9"},
		{"the hours for other work", s.OtherH, 0, 1e6, "0 to 1000000"},
		{"the stitch in mm", s.StitchMM, 0.5, 50, "0.5 to 50"},
		{"the felling of each seam", float64(s.FellPasses), 0, 2, "0, 1 or 2 times"},
		{"the share spun by spindle", s.SpindleShare, 0, 1, "a fraction from 0 to 1"},
		{"the share of seams by machine", s.MachineShare, 0, 1, "a fraction from 0 to 1"},
		{"the share combed of the outer coat", s.CombedOuter, 0, 1, "a fraction from 0 to 1"},
		{"the share combed of the inner coat", s.CombedInner, 0, 1, "a fraction from 0 to 1"},
		{"the share combed of the whole fleece", s.CombedWhole, 0, 1, "a fraction from 0 to 1"},
	} {
		if math.IsNaN(c.v) || c.v < c.min || c.v > c.max {
			return fmt.Errorf("%s is %g; accepted is %s", c.what, c.v, c.accepted)
		}
	}
	for _, day := range []string{s.Start, s.FinishBy} {
		if day != "" {
			if _, err := ParseDate(day); err != nil {
				return err
			}
		}
	}
	for yarn, v := range s.SpindleOf {
		if math.IsNaN(v) || v < 0 || v > 1 {
			return fmt.Errorf("the share of %s spun by spindle is %g; accepted is a fraction from 0 to 1", yarn, v)
		}
	}
	return s.ownRates()
}

func (s Settings) ownRates() error {
	for key, r := range s.Own {
		if _, ok := published(key); !ok {
			return fmt.Errorf("%q is no rate that is known here", key)
		}
		if !(r.Low > 0) || !(r.Low <= r.Likely && r.Likely <= r.High) || r.High > 1e7 {
			return fmt.Errorf("the rate %s is %g, %g, %g; accepted are numbers above 0, the slow one first", key, r.Low, r.Likely, r.High)
		}
	}
	return nil
}

// spindleShare is the part of a yarn that is spun by spindle: its own, that of
// the yarn of which it is dyed, or that of all.
func (s Settings) spindleShare(y Yarn) float64 {
	for _, name := range []string{y.Name, y.Of} {
		if v, ok := s.SpindleOf[name]; ok {
			return v
		}
	}
	return s.SpindleShare
}

// rate is the maker's own rate if there is one, else the published.
func (s Settings) rate(key string) Rate {
	r, _ := published(key)
	if own, ok := s.Own[key]; ok {
		r.Range, r.Source = own, "your own timing"
	}
	return r
}
