package ui

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"ellwand/plan"
)

// readNumber reads a number as makers write it: with a point or a comma, or as
// on an inch tape, 63 3/4, with or without the mark for inches behind it.
func readNumber(text string) (float64, bool) {
	text = strings.TrimSpace(strings.TrimRight(strings.TrimSpace(text), `"″”`))
	text = strings.ReplaceAll(text, ",", ".")
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return v, !math.IsNaN(v) && !math.IsInf(v, 0)
	}
	parts := strings.Fields(text)
	if len(parts) == 0 || len(parts) > 2 {
		return 0, false
	}
	above, below, ok := strings.Cut(parts[len(parts)-1], "/")
	over, errOver := strconv.ParseUint(above, 10, 16)
	under, errUnder := strconv.ParseUint(below, 10, 16)
	if !ok || errOver != nil || errUnder != nil || under == 0 {
		return 0, false
	}
	v := float64(over) / float64(under)
	if len(parts) == 2 {
		whole, err := strconv.ParseUint(parts[0], 10, 16)
		if err != nil {
			return 0, false
		}
		v += float64(whole)
	}
	return v, true
}

// cmOfInches is a length in cm, without the crumbs of the conversion: to the
// hundredth of a millimetre.
func cmOfInches(v float64) float64 { return math.Round(v*cmPerInch*1000) / 1000 }

// inchesOfCM is a text in cm as it stands in a field of a plan shown in inches;
// what is no number stays as it is.
func inchesOfCM(text string) string {
	bare := strings.TrimPrefix(text, "≈ ")
	v, err := strconv.ParseFloat(bare, 64)
	if err != nil {
		return text
	}
	shown := strconv.FormatFloat(math.Round(v/cmPerInch*1000)/1000, 'f', -1, 64)
	if bare != text {
		return "≈ " + strconv.FormatFloat(v/cmPerInch, 'f', 2, 64)
	}
	return shown
}

// inches makes a field of a length follow the units that the plan is shown in.
// The plan keeps cm.
func (f *form) inches(spec fieldSpec) fieldSpec {
	if spec.unit != "cm" || len(spec.options) > 0 {
		return spec
	}
	on := func() bool { return f.b.plan().ShowUnits == "inch" }
	get, try, set, hint := spec.get, spec.try, spec.set, spec.hint
	cm := func(text string) string {
		if v, ok := readNumber(text); ok && on() {
			return strconv.FormatFloat(cmOfInches(v), 'f', -1, 64)
		}
		return text
	}
	said := func(err error, text string) error {
		var p *plan.Problem
		if v, ok := readNumber(text); ok && on() && errors.As(err, &p) {
			own := *p
			own.Text += words(" (%s in × 2.54)", strconv.FormatFloat(v, 'f', -1, 64))
			return &own
		}
		return err
	}
	spec.units = func() string {
		if on() {
			return "in"
		}
		return "cm"
	}
	spec.get = func() string {
		if on() {
			return inchesOfCM(get())
		}
		return get()
	}
	spec.try = func(text string) error { return said(try(cm(text)), text) }
	spec.set = func(text string) error { return said(set(cm(text)), text) }
	if hint != nil {
		spec.hint = func() string {
			if on() {
				return inchesOfCM(hint())
			}
			return hint()
		}
	}
	return spec
}
