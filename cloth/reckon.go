package cloth

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Reckon works the chain of figures out:
// finished, off the loom, on the loom, warp, weft, yarn, fleece. Losses are
// fractions of the earlier state and are undone by division. Every figure
// carries its formula with its numbers. What cannot be met is a Shortfall,
// not an error; an error is an input that no cloth can have (*FieldError).
func Reckon(in Input) (Reckoning, error) {
	in, err := in.worked()
	if err != nil {
		return Reckoning{}, err
	}
	if err := in.Validate(); err != nil {
		return Reckoning{}, err
	}
	w := &work{in: in, s: in.Setting}
	w.width()
	w.length()
	w.yarns()
	w.hang()
	w.setting()
	w.r.Fleeces = w.fleeces()
	w.limits()
	w.r.Cautions = append(w.r.Cautions, Cautions(in)...)
	return w.r, nil
}

// work is a reckoning being worked out.
type work struct {
	in   Input
	s    Setting
	sley sley
	r    Reckoning
}

func (w *work) figure(key, label string, value float64, unit, from string, a ...any) {
	w.r.Figures = append(w.r.Figures, Figure{key, label, value, unit, fmt.Sprintf(from, a...) + " = " + num(value) + unitAfter(unit)})
}

func unitAfter(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

// num writes a number with enough digits to work the formula again to 0.1 %.
func num(v float64) string {
	switch a := math.Abs(v); {
	case v == math.Trunc(v) && a < 1e9:
		return strconv.FormatFloat(v, 'f', 0, 64)
	case a >= 1000:
		return strconv.FormatFloat(v, 'f', 1, 64)
	case a >= 1:
		return trimZeros(strconv.FormatFloat(v, 'f', 3, 64))
	case a > 1e-9 && a < 0.1:
		return trimZeros(strconv.FormatFloat(v, 'f', 3-int(math.Floor(math.Log10(a))), 64))
	}
	return trimZeros(strconv.FormatFloat(v, 'f', 5, 64))
}

func trimZeros(s string) string {
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}

func (w *work) short(key, format string, a ...any) {
	w.r.Shortfalls = append(w.r.Shortfalls, Shortfall{key, fmt.Sprintf(format, a...)})
}

// width works from the finished cloth back to dents and ends.
func (w *work) width() {
	s, r := w.s, &w.r
	r.FinishedWidthCM = w.in.widthCM()
	if s.FinishedWidthCM > 0 {
		w.figure("finished_width_cm", "Finished width", r.FinishedWidthCM, "cm", "wanted")
	} else {
		w.figure("finished_width_cm", "Finished width", r.FinishedWidthCM, "cm", "width of the lay")
	}
	r.OffLoomWidthCM = r.FinishedWidthCM / (1 - s.ShrinkWidth)
	w.figure("off_loom_width_cm", "Width off the loom", r.OffLoomWidthCM, "cm", "%s cm finished ÷ (1 − %s shrinkage)", num(r.FinishedWidthCM), num(s.ShrinkWidth))
	w.sley = chooseSley(s, w.in.Loom)
	r.ReedDentsPer10CM, r.DentOrder, r.Sleys = w.sley.dentsPer10CM, w.sley.order, Sleys(s, w.in.Loom)
	w.figure("wanted_ends_per_cm", "Sett wanted in the reed", s.OnLoomEndsPerCM(), "ends per cm", "%s ends per cm finished × (1 − %s shrinkage) × (1 − %s draw-in)", num(s.FinishedEndsPerCM), num(s.ShrinkWidth), num(s.DrawIn))
	r.EndsPerCMOnLoom = w.sley.endsPerCM()
	w.figure("ends_per_cm_on_loom", "Sett in the reed", r.EndsPerCMOnLoom, "ends per cm", "%s", w.settFrom())
	exact := r.OffLoomWidthCM / (1 - s.DrawIn)
	r.Dents = s.dentsFor(r.FinishedWidthCM, r.ReedDentsPer10CM) + s.ExtraDents
	spare := ""
	if s.ExtraDents > 0 {
		spare = fmt.Sprintf(", + %d to spare", s.ExtraDents)
	}
	dents, each := "Dents", "dents per 10 cm"
	if w.sley.reedless {
		dents, each = "Ends spaced by hand", "ends per 10 cm"
	}
	w.figure("dents", dents, float64(r.Dents), "", "%s cm off the loom ÷ (1 − %s draw-in) = %s cm × %s %s ÷ 10, rounded up%s", num(r.OffLoomWidthCM), num(s.DrawIn), num(exact), num(r.ReedDentsPer10CM), each, spare)
	r.ReedWidthCM = float64(r.Dents) / r.ReedDentsPer10CM * 10
	w.figure("reed_width_cm", "Width in the reed", r.ReedWidthCM, "cm", "%d ÷ %s %s × 10", r.Dents, num(r.ReedDentsPer10CM), each)
	w.figure("real_width_cm", "Finished width of those dents", w.realWidthCM(), "cm", "%s cm in the reed × (1 − %s draw-in) × (1 − %s shrinkage)", num(r.ReedWidthCM), num(s.DrawIn), num(s.ShrinkWidth))
	r.Ends = w.sley.endsIn(r.Dents) + s.SelvedgeExtraEnds
	w.figure("ends", "Ends", float64(r.Ends), "", "%d dents filled %s = %d ends + %d at the selvedges", r.Dents, OrderText(r.DentOrder), w.sley.endsIn(r.Dents), s.SelvedgeExtraEnds)
	r.EndsPerCMFinished = r.EndsPerCMOnLoom / ((1 - s.ShrinkWidth) * (1 - s.DrawIn))
	w.figure("ends_per_cm_finished", "Ends per cm, finished, as it will be", r.EndsPerCMFinished, "ends per cm", "%s in the reed ÷ ((1 − %s shrinkage) × (1 − %s draw-in))", num(r.EndsPerCMOnLoom), num(s.ShrinkWidth), num(s.DrawIn))
}

// settFrom says how the sett comes about.
func (w *work) settFrom() string {
	k, s := w.sley, w.s
	if k.reedless {
		return "no reed: the ends are spaced as wanted, " + num(k.endsPerCM())
	}
	why := "the nearest of the reeds owned"
	if s.ReedDentsPer10CM > 0 || len(s.DentOrder) > 0 {
		why = "as the plan names it"
	}
	return fmt.Sprintf("%s: reed of %s dents per 10 cm, %s to the dent: %s ÷ 10 × %s", why, num(k.dentsPer10CM), OrderText(k.order), num(k.dentsPer10CM), num(k.endsPerDent()))
}

// realWidthCM is the finished width that the whole dents become.
func (w *work) realWidthCM() float64 {
	return w.r.ReedWidthCM * (1 - w.s.DrawIn) * (1 - w.s.ShrinkWidth)
}

// length works from the finished cloth back to warp length and picks.
func (w *work) length() {
	s, l, r := w.s, w.in.Loom, &w.r
	r.FinishedLengthCM = w.in.LayLengthCM + s.ExtraLengthCM
	if s.ExtraLengthCM > 0 {
		w.figure("finished_length_cm", "Finished length", r.FinishedLengthCM, "cm", "length of the lay %s cm + %s cm to spare", num(w.in.LayLengthCM), num(s.ExtraLengthCM))
	} else {
		w.figure("finished_length_cm", "Finished length", r.FinishedLengthCM, "cm", "length of the lay")
	}
	r.OffLoomLengthCM = r.FinishedLengthCM / (1 - s.ShrinkLength)
	w.figure("off_loom_length_cm", "Length off the loom", r.OffLoomLengthCM, "cm", "%s cm finished ÷ (1 − %s shrinkage)", num(r.FinishedLengthCM), num(s.ShrinkLength))
	r.WovenLengthCM = s.wovenCM(r.FinishedLengthCM)
	w.figure("woven_length_cm", "Length woven, under tension", r.WovenLengthCM, "cm", "%s cm off the loom ÷ (1 − %s take-up)", num(r.OffLoomLengthCM), num(s.TakeUp))
	waste, wasteFrom := l.LoomWasteCM()
	extra := s.SampleCM + s.HeadingCM + waste
	r.Warps = max(1, len(w.in.WarpsCM))
	if limit := l.MaxWarpM * 100; limit > 0 && r.WovenLengthCM+extra > limit+1e-9 {
		if limit <= extra {
			w.short("warp_length_cm", "The loom holds %s m of warp, but loom waste, samples and headings alone take %s cm; a longer beam or less waste is needed.", num(l.MaxWarpM), num(extra))
		} else if len(w.in.WarpsCM) == 0 {
			r.Warps = whole(math.Ceil(r.WovenLengthCM/(limit-extra) - 1e-9))
			r.Cautions = append(r.Cautions, fmt.Sprintf("The cloth takes %d warps, for one would be longer than the %s m that the loom holds; no piece can run across the end of a warp, so lay the pieces in lengths of at most %s cm finished cloth each.", r.Warps, num(l.MaxWarpM), num((limit-extra)*(1-s.TakeUp)*(1-s.ShrinkLength))))
		}
	}
	n := float64(r.Warps)
	r.WarpLengthCM = r.WovenLengthCM + n*extra
	w.figure("warp_length_cm", "Warp length, each end", r.WarpLengthCM, "cm", "%s cm woven + %d × (%s samples + %s headings + %s loom waste)", num(r.WovenLengthCM), r.Warps, num(s.SampleCM), num(s.HeadingCM), num(waste))
	if wasteFrom != "" {
		r.Cautions = append(r.Cautions, fmt.Sprintf("The plan gives no loom waste; %s cm is usual for a %s loom (%s). Measure your own.", num(waste), l.Kind, wasteFrom))
	}
	w.figure("warps", "Warps", n, "", "%s", warpsFrom(w.in, r.WovenLengthCM, extra))
	r.PicksPerCMOnLoom = s.OnLoomPicksPerCM()
	w.figure("picks_per_cm_on_loom", "Picks per cm, under tension", r.PicksPerCMOnLoom, "picks per cm", "%s picks per cm finished × (1 − %s shrinkage) × (1 − %s take-up)", num(s.FinishedPicksPerCM), num(s.ShrinkLength), num(s.TakeUp))
	r.Picks = whole(math.Ceil(r.PicksPerCMOnLoom*r.WovenLengthCM - 1e-6))
	r.PicksPerCMFinished = float64(r.Picks) / r.FinishedLengthCM
	w.figure("picks", "Picks", float64(r.Picks), "", "%s picks per cm × %s cm woven, rounded up", num(r.PicksPerCMOnLoom), num(r.WovenLengthCM))
	w.figure("picks_per_cm_finished", "Picks per cm, finished, as it will be", r.PicksPerCMFinished, "picks per cm", "%d picks ÷ %s cm finished", r.Picks, num(r.FinishedLengthCM))
}

func warpsFrom(in Input, wovenCM, extraCM float64) string {
	l := in.Loom
	if len(in.WarpsCM) > 0 {
		text := "counted, as the pieces are laid, none across the end of a warp: cloths of"
		for i, cm := range in.WarpsCM {
			if i > 0 {
				text += " and"
			}
			text += " " + num(cm) + " cm"
		}
		return text
	}
	if l.MaxWarpM == 0 {
		return "the loom's warp has no limit"
	}
	if l.MaxWarpM*100 <= extraCM {
		return "counted as one, though the loom's warp is too short for any"
	}
	return fmt.Sprintf("%s cm woven ÷ (%s m the loom holds × 100 − %s cm not woven as cloth), rounded up", num(wovenCM), num(l.MaxWarpM), num(extraCM))
}

// limits says what the loom, the yarn in hand and the lay do not allow.
func (w *work) limits() {
	r, l, in := &w.r, w.in.Loom, w.in
	if r.ReedWidthCM > l.MaxReedWidthCM+1e-6 {
		w.short("reed_width_cm", "The cloth is %s cm wide in the reed, but the loom weaves at most %s cm: %s cm finished.", num(r.ReedWidthCM), num(l.MaxReedWidthCM), num(MaxFinishedWidthCM(w.s, l)))
	}
	if r.FinishedWidthCM < in.LayWidthCM-1e-6 {
		w.short("finished_width_cm", "The lay needs cloth %s cm wide, but %s cm is to be woven.", num(in.LayWidthCM), num(r.FinishedWidthCM))
	}
	w.shortOfYarn()
	for _, f := range r.Fleeces {
		if f.RawNeededG > f.RawHaveG+1e-6 {
			w.short("fleece:"+f.Name, "%s g of raw fleece %s are needed, but %s g are in hand: short by %s g, and %s sets it.", num(math.Ceil(f.RawNeededG)), f.Name, num(f.RawHaveG), num(math.Ceil(f.RawNeededG-f.RawHaveG)), coatWords(f.ShortCoat))
		}
	}
	w.reedCautions()
	w.settCautions()
}

// reedCautions says when the reed is none of those owned, and when the sett to
// be had is farther from the one wanted than a sample would leave unnoticed
// (3 %, common practice).
func (w *work) reedCautions() {
	const unnoticed = 0.03
	r, s := &w.r, w.s
	if owned := w.in.Loom.ReedsDentsPer10CM; s.ReedDentsPer10CM > 0 && len(owned) > 0 && !slices.Contains(owned, s.ReedDentsPer10CM) {
		r.Cautions = append(r.Cautions, fmt.Sprintf("The reed of %s dents per 10 cm is none of those owned; it would have to be had first.", num(s.ReedDentsPer10CM)))
	}
	if off := r.EndsPerCMFinished/s.FinishedEndsPerCM - 1; math.Abs(off) > unnoticed {
		than := "more"
		if off < 0 {
			than = "fewer"
		}
		why := fmt.Sprintf("no reed owned comes nearer in any dent order up to %d dents long", maxDentOrder)
		if s.ReedDentsPer10CM > 0 || len(s.DentOrder) > 0 {
			why = "the reed or dent order that the plan names comes no nearer"
		}
		r.Cautions = append(r.Cautions, fmt.Sprintf("The cloth will have %.2f ends per cm finished, %.1f %% %s than the %s wanted: %s.",
			r.EndsPerCMFinished, math.Abs(off)*100, than, num(s.FinishedEndsPerCM), why))
	}
}
