package prints

import (
	"fmt"
	"strings"

	"ellwand/plan"
)

// units are what lengths are shown in.
type units struct{ inch bool }

func unitsOf(r *plan.Result) units { return units{r.Plan().ShowUnits == "inch"} }

const cmPerInch = 2.54

// bare is a length without its unit: cm to a tenth, inches to a hundredth.
func (u units) bare(cm float64) string {
	if u.inch {
		return number(cm/cmPerInch, 2)
	}
	return number(cm, 1)
}

func (u units) name() string {
	if u.inch {
		return "in"
	}
	return "cm"
}

func (u units) length(cm float64) string { return u.bare(cm) + " " + u.name() }

// tape is a round length to measure by, in cm: 50 cm, or 20 in.
func (u units) tape() float64 {
	if u.inch {
		return 20 * cmPerInch
	}
	return 50
}

// far is a length of yarn or warp.
func (u units) far(m float64) string {
	places := 0
	if m < 100 {
		places = 2
	}
	if u.inch {
		return fmt.Sprintf("%s yd (%s m)", number(m/0.9144, places), number(m, places))
	}
	return number(m, places) + " m"
}

// perLength is a count per cm, or per inch.
func (u units) perLength(perCM float64) string { return u.count(perCM) + " " + u.each() }

// count is a count per cm as a bare number, per inch where inches are shown; each
// says which.
func (u units) count(perCM float64) string {
	if u.inch {
		return number(perCM*cmPerInch, 1)
	}
	return number(perCM, 2)
}

func (u units) each() string {
	if u.inch {
		return "per inch"
	}
	return "per cm"
}

// number writes a number with at most so many places, none of them idle.
func number(v float64, places int) string {
	s := fmt.Sprintf("%.*f", places, v)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

func grams(g float64) string { return number(g, 0) + " g" }

func percent(fraction float64) string { return number(fraction*100, 1) + " %" }

// counted is a number of things, in the singular for one.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
