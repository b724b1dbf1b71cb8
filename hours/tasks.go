package hours

import (
	"fmt"
	"strings"
)

// Task is one kind of work: how much of it, at which rate, and so how long.
type Task struct {
	Key      string // stable: "spin:grey-warp:spindle"
	Name     string // "Spin grey-warp by spindle"
	Quantity float64
	Unit     string // of the quantity: "m", "g", "ends", …; "" for counted hours
	Rate     Rate   // Range is zero where the hours are not worked from a rate
	Hours    Range
	From     string // the formula with its numbers, and who says the rate
}

// tasks gathers what is to be done, in the order of the work.
type tasks struct {
	s    Settings
	list []Task
}

// add puts a task down unless there is nothing of it. perHour turns the rate's
// own unit into quantities an hour; how says that in words, "" when it is 1.
func (t *tasks) add(key, name string, quantity float64, unit, rateKey string, perHour float64, how, quantityFrom string) {
	if !(quantity > 0) {
		return
	}
	rate := t.s.rate(rateKey)
	speed := rate.times(perHour)
	hours := Range{quantity / speed.High, quantity / speed.Likely, quantity / speed.Low}
	from := fmt.Sprintf("%s = %s %s", quantityFrom, num(quantity), unit)
	if how == "" {
		from += fmt.Sprintf("; ÷ %s %s", spanText(rate.Range), rate.Unit)
	} else {
		from += fmt.Sprintf("; %s %s %s = %s %s per h", spanText(rate.Range), rate.Unit, how, spanText(speed), unit)
	}
	from += fmt.Sprintf(" = %s h; rate: %s", spanText(Range{hours.High, hours.Likely, hours.Low}), rate.Source)
	t.list = append(t.list, Task{key, name, quantity, unit, rate, hours, from})
}

// fleece: every lot is skirted and sorted raw, and scoured once skirted.
func (t *tasks) fleece(lots []Lot) {
	for _, l := range lots {
		t.add("sort:"+l.Name, "Skirt and sort "+l.Name, l.RawG, "g", RateSort, 1, "", "raw fleece to be worked")
	}
	for _, l := range lots {
		t.add("scour:"+l.Name, "Scour "+l.Name, l.RawG*(1-l.SkirtingLoss), "g", RateScour, 1, "",
			fmt.Sprintf("%s g raw × (1 − %s skirting)", num(l.RawG), num(l.SkirtingLoss)))
	}
}

// combed is the share of a coat that is combed.
func (s Settings) combed(c Coat) float64 {
	switch c {
	case CoatOuter:
		return s.CombedOuter
	case CoatInner:
		return s.CombedInner
	}
	return s.CombedWhole
}

func (t *tasks) preparation(yarns []Yarn) {
	for _, y := range yarns {
		share := t.s.combed(y.Coat)
		t.add("comb:"+y.Name, "Comb for "+y.Name, y.PreparedG*share, "g", RateComb, 1, "", fmt.Sprintf("%s g prepared fibre × %s combed", num(y.PreparedG), num(share)))
		t.add("card:"+y.Name, "Card for "+y.Name, y.PreparedG*(1-share), "g", RateCard, 1, "", fmt.Sprintf("%s g prepared fibre × (1 − %s combed)", num(y.PreparedG), num(share)))
	}
}

// spinning: each ply is spun by itself. Plying goes over the yarn's length once
// more; no rate for it is known, and the singles' rate is the careful guess.
func (t *tasks) spinning(yarns []Yarn) {
	for _, tool := range []struct{ word, rate string }{{"spindle", RateSpindle}, {"wheel", RateWheel}} {
		for _, y := range yarns {
			share := t.s.spindleShare(y)
			shareText := num(share) + " by spindle"
			if tool.word == "wheel" {
				share, shareText = 1-share, fmt.Sprintf("(1 − %s by spindle)", num(share))
			}
			what := fmt.Sprintf("%s m of singles × %s", num(y.singlesM()), shareText)
			if y.Plies == 1 {
				what = fmt.Sprintf("%s m of yarn × %s", num(y.LengthM), shareText)
			}
			t.add("spin:"+y.Name+":"+tool.word, "Spin "+y.Name+" by "+tool.word, y.singlesM()*share, "m", tool.rate, 1, "", what)
			if y.Plies > 1 {
				t.add("ply:"+y.Name+":"+tool.word, "Ply "+y.Name+" by "+tool.word, y.LengthM*share, "m", tool.rate, 1, "",
					fmt.Sprintf("no rate for plying is known, counted as for singles: %s m of yarn × %s", num(y.LengthM), shareText))
			}
		}
	}
}

// dyeing: the baths of one stage.
func (t *tasks) dyeing(baths []Bath, before Stage) {
	for _, b := range baths {
		if b.Before == before {
			t.add("dye:"+b.Name, "Dye "+b.Name, b.FibreG, "g", RateDye, 1, "", "fibre in the bath, mordant and dye")
		}
	}
}

// dressing the loom. A warp-weighted loom has neither beamed warp nor reed;
// its heddles are counted as threading.
func (t *tasks) dressing(w Web) {
	ends := float64(w.Ends) * float64(w.Warps)
	each := "each end once"
	if w.Warps > 1 {
		each = fmt.Sprintf("%d ends × %d warps", w.Ends, w.Warps)
	}
	t.add("wind", "Wind the warp", ends, "ends", RateWind, 1, "", each)
	if t.s.Weaving == ToolWarpWeighted {
		t.add("thread", "Knit the heddles", ends, "ends", RateThread, 1, "", each)
		return
	}
	t.add("beam", "Beam the warp", float64(w.Ends)*w.WarpLengthCM/100, "m", RateBeam, 1, "", fmt.Sprintf("%d ends × %s m", w.Ends, num(w.WarpLengthCM/100)))
	t.add("thread", "Thread the heddles", ends, "ends", RateThread, 1, "", each)
	t.add("sley", "Sley the reed", ends, "ends", RateSley, 1, "", each)
}

func (t *tasks) weaving(w Web) {
	switch t.s.Weaving {
	case ToolTreadle:
		t.add("weave", "Weave", float64(w.Picks), "picks", RateTreadle, 60, "× 60", "cloth, samples and headings")
	case ToolPit:
		t.add("weave", "Weave", w.FinishedM2, "m²", RatePit, 1, "", "cloth, samples and headings")
	case ToolWarpWeighted:
		t.add("weave", "Weave", w.FinishedM2, "m²", RateWarpWeighted, 1, "", "cloth, samples and headings")
	default:
		t.add("weave", "Weave", w.WovenCM, "cm", RateFrame, 1, "", "cloth, samples and headings under tension")
	}
}

// finishing: the cloth is washed and fulled, then chalked and cut.
func (t *tasks) finishing(w Work) {
	t.add("finish", "Wash and full the cloth", w.Web.FinishedM2, "m²", RateFinish, 1, "", "finished cloth, with samples and headings")
	t.add("cut", "Chalk and cut out", w.CutM, "m", RateCut, 1, "", "outlines of all pieces and the cuts in them")
}

// sewing: seams are joined by hand or machine, then felled and hems turned by hand.
func (t *tasks) sewing(seams, hems []Length) {
	total, _ := sum(seams)
	shown, listedShown := sum(only(seams, true))
	hidden, listed := sum(only(seams, false))
	byHand := shown + hidden*(1-t.s.MachineShare)
	var hand string
	switch {
	case hidden == 0:
		hand = listedShown
	case shown == 0:
		hand = fmt.Sprintf("(%s) × (1 − %s by machine)", listed, num(t.s.MachineShare))
	default:
		hand = fmt.Sprintf("(%s) × (1 − %s by machine) + %s, which show", listed, num(t.s.MachineShare), listedShown)
	}
	stitched := fmt.Sprintf("× 60 × %s mm ÷ 1000", num(t.s.StitchMM))
	perHour := 60 * t.s.StitchMM / 1000
	if t.s.Stitch == StitchBack {
		t.add("join", "Join the seams by backstitch", byHand, "m", RateBackstitch, 1, "", hand)
	} else {
		t.add("join", "Join the seams by running stitch", byHand, "m", RateRunningStitch, perHour, stitched, hand)
	}
	t.add("join:machine", "Join the seams by machine", hidden*t.s.MachineShare, "m", RateMachine, perHour, stitched,
		fmt.Sprintf("(%s) × %s by machine", listed, num(t.s.MachineShare)))
	t.add("fell", "Fell the seams", total*float64(t.s.FellPasses), "m", RateFell, 1, "", fmt.Sprintf("%s m of seams × %d", num(total), t.s.FellPasses))
	total, listed = sum(hems)
	t.add("hem", "Hem", total, "m", RateHem, 1, "", listed)
}

// only are the seams that show, or those that do not.
func only(list []Length, shows bool) []Length {
	var out []Length
	for _, l := range list {
		if l.Shows == shows {
			out = append(out, l)
		}
	}
	return out
}

// sum is the length of a list in m, and the list in words.
func sum(list []Length) (m float64, words string) {
	var parts []string
	for _, l := range list {
		if l.Times < 1 || l.CM <= 0 {
			continue
		}
		m += l.CM / 100 * float64(l.Times)
		part := fmt.Sprintf("%s %.3f m", l.Name, l.CM/100)
		if l.Times > 1 {
			part += fmt.Sprintf(" × %d", l.Times)
		}
		parts = append(parts, part)
	}
	return m, strings.Join(parts, " + ")
}
