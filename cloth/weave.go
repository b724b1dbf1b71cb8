package cloth

import (
	"fmt"
	"math"
)

// Weave is an interlacing: how many threads its repeat has, and how often the
// crossing thread changes face within it.
type Weave struct {
	Name          string
	RepeatThreads int     // R
	Intersections int     // I
	brierleyM     float64 // exponent of the average float in Brierley's rule
}

// Weaves are the weaves that a plan may name. Their R and I are those of
// Ashenhurst's rule (faena.medievaltextiles.org, ash). Brierley's m: 0.39 for
// twill (GATE 2006, Q66, textiletriangle.com), 0.45 for basket (from memory).
func Weaves() []Weave {
	return []Weave{
		{"tabby", 2, 2, 0}, {"2/1 twill", 3, 2, 0.39}, {"2/2 twill", 4, 2, 0.39}, {"3/1 twill", 4, 2, 0.39},
		{"3/3 twill", 6, 2, 0.39}, {"2/2 basket", 4, 2, 0.45},
	}
}

// WeaveByName finds a weave.
func WeaveByName(name string) (Weave, bool) {
	for _, w := range Weaves() {
		if w.Name == name {
			return w, true
		}
	}
	return Weave{}, false
}

// AverageFloat is R ÷ I, the mean length of a float in threads.
func (w Weave) AverageFloat() float64 { return float64(w.RepeatThreads) / float64(w.Intersections) }

// Ashenhurst's k, diameters to the inch = k·√(yards per pound).
const (
	AshenhurstWoollen = 0.84 // woollen, soft (medievaltextiles.org, ash)
	AshenhurstWorsted = 0.90 // worsted and firm yarns (the same)
	AshenhurstCotton  = 0.95 // J. T. Taylor, Cotton Weaving and Designing, 6th ed.: √ypp less 5 %
)

const cmPerInch = 2.54

// DiametersPerCM is how many threads of that grist lie side by side in 1 cm by
// Ashenhurst's rule, k being one of the constants above.
// Worked: 3360 yd/lb (147.6 tex), k 0.9: 52.17 per inch = 20.54 per cm.
func DiametersPerCM(tex, k float64) float64 {
	return k * math.Sqrt(YardsPerPound(tex)) / cmPerInch
}

// MaxSettPerCM is the closest square setting by Ashenhurst: D·R/(R+I).
func (w Weave) MaxSettPerCM(tex, k float64) float64 {
	r, i := float64(w.RepeatThreads), float64(w.Intersections)
	return DiametersPerCM(tex, k) * r / (r + i)
}

// BrierleySettPerCM is the closest square setting by Brierley's rule,
// √(K·Ne)·f^m per inch with K 200 for cotton; an upper bound for power looms.
// m depends on the weave and is 0 for tabby.
// Worked: 60 tex, 2/2 twill: 22.9 per cm.
func (w Weave) BrierleySettPerCM(tex float64) float64 {
	return math.Sqrt(200*CottonCount(tex)) * math.Pow(w.AverageFloat(), w.brierleyM) / cmPerInch
}

// WorkingRange is the part of the closest sett that a cloth for one use is set at.
type WorkingRange struct {
	Use       string
	Low, High float64 // fractions of the closest sett
	Source    string
}

// SettPerCM is the range in threads per cm for a closest sett.
func (r WorkingRange) SettPerCM(closestPerCM float64) (low, high float64) {
	return r.Low * closestPerCM, r.High * closestPerCM
}

// WorkingRanges are the usual ranges, firmest first.
func WorkingRanges() []WorkingRange {
	return []WorkingRange{
		{"firm suiting", 0.80, 0.90, "from memory"},
		{"general wear", 0.70, 0.80, "about three quarters of the closest (faena.medievaltextiles.org, ash); bounds from memory"},
		{"cloth to be fulled", 0.60, 0.70, "from memory"},
		{"soft shawl", 0.50, 0.60, "from memory"},
	}
}

// TaylorContraction is the warp's contraction, a fraction, by J. T. Taylor's
// mill rule for cotton: intersections per inch × 4 ÷ weft count in per cent
// for heavy cloths, × 3 for medium. It does not hold for wool.
func TaylorContraction(intersectionsPerInch, weftNe float64, heavy bool) float64 {
	factor := 3.0
	if heavy {
		factor = 4
	}
	return intersectionsPerInch * factor / weftNe / 100
}

// settCaution says when a set of threads is closer than the rule allows.
func settCaution(which string, perCM, tex float64, w Weave) string {
	limit := w.MaxSettPerCM(tex, AshenhurstWorsted)
	if perCM <= limit {
		return ""
	}
	return fmt.Sprintf("%.1f %s per cm on the loom is closer than the %.1f that Ashenhurst's rule allows for %s in %.0f tex; weave a sample before trusting it.",
		perCM, which, limit, w.Name, tex)
}
