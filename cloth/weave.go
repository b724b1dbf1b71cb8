package cloth

import (
	"fmt"
	"math"
)

// Weave is an interlacing: its draft, and how often the threads of one way
// change face within the repeat of the other.
type Weave struct {
	Name          string
	Draft         Draft
	RepeatThreads int     // R: ends in the repeat
	Intersections int     // I: the most that a pick changes face across them
	RepeatPicks   int     // the same for the picks
	PickChanges   int     // the most that an end changes face along them
	brierleyM     float64 // exponent of the average float in Brierley's rule
	Class         string  // the class of weave that the exponent is of
}

// Classes of weave that Brierley's rule tells apart. m: 0.39 for twill (GATE
// 2006, Q66, textiletriangle.com), the others from memory.
const (
	classTabby  = "tabby"
	classTwill  = "twill"
	classSatin  = "satin"
	classBasket = "basket"
)

func brierleyExponent(class string) float64 {
	return map[string]float64{classTabby: 0, classTwill: 0.39, classSatin: 0.42, classBasket: 0.45}[class]
}

func newWeave(name, class string, d Draft) Weave {
	pick, end := d.mostChanges()
	return Weave{name, d, len(d[0]), pick, len(d), end, brierleyExponent(class), class}
}

// WeaveOfDraft is a weave of one's own, from its interlacing repeat. A repeat in
// which every float is of one thread counts as a tabby in Brierley's rule, any
// other as a twill.
func WeaveOfDraft(name string, d Draft) Weave {
	w := newWeave(name, classTwill, d)
	if w.RepeatThreads == w.Intersections && w.RepeatPicks == w.PickChanges {
		w = newWeave(name, classTabby, d)
	}
	return w
}

// Weaves are the weaves that a plan may name. Ashenhurst's R and I follow from
// their drafts; those of tabby and the common twills are as printed by
// faena.medievaltextiles.org, ash.
func Weaves() []Weave {
	twill := func(up, down int) Draft { return stepped(floats(up, down), 1) }
	tabby := twill(1, 1)
	return []Weave{
		newWeave("tabby", classTabby, tabby),
		newWeave("2/1 twill", classTwill, twill(2, 1)), newWeave("1/2 twill", classTwill, twill(1, 2)),
		newWeave("2/2 twill", classTwill, twill(2, 2)), newWeave("3/1 twill", classTwill, twill(3, 1)),
		newWeave("1/3 twill", classTwill, twill(1, 3)), newWeave("3/3 twill", classTwill, twill(3, 3)),
		newWeave("2/2 broken twill", classTwill, picked(twill(2, 2), 0, 1, 3, 2)),
		newWeave("2/2 diamond twill", classTwill, pointed(twill(2, 2), 10, 9)),
		newWeave("2/2 basket", classBasket, blocks(tabby, 2, 2)), newWeave("3/3 basket", classBasket, blocks(tabby, 3, 3)),
		newWeave("half basket, paired ends", classBasket, blocks(tabby, 2, 1)),
		newWeave("5-end satin", classSatin, stepped(floats(4, 1), 2)), newWeave("8-end satin", classSatin, stepped(floats(7, 1), 3)),
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

// settCautions say when a set of threads is closer than the rule allows.
func (w *work) settCautions() {
	r := w.r.Setting
	if r == nil {
		return
	}
	for _, c := range []struct {
		which                  string
		perCM, limitPerCM, tex float64
	}{
		{"ends", w.r.EndsPerCMOnLoom, figureNamed(r.Figures, "max_ends_per_cm"), r.WarpTex},
		{"picks", w.r.PicksPerCMOnLoom, figureNamed(r.Figures, "max_picks_per_cm"), r.WeftTex},
	} {
		if c.perCM > c.limitPerCM && c.limitPerCM > 0 {
			w.r.Cautions = append(w.r.Cautions, fmt.Sprintf("%.1f %s per cm on the loom is closer than the %.1f that Ashenhurst's rule allows for %s in %.0f tex; weave a sample before trusting it.",
				c.perCM, c.which, c.limitPerCM, r.Weave.Name, c.tex))
		}
	}
}
