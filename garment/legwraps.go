package garment

import "fmt"

// legWrapsInfo: two long strips wound round the legs from the ankle to below
// the knee.
func legWrapsInfo() DraftInfo {
	return DraftInfo{
		Key: "leg_wraps", Label: "Leg wraps",
		About: "Two long strips, wound from the ankle upwards to below the knee, each turn lying partly on the one before.",
		Needs: []Measure{KneeHeight, CalfGirth, AnkleGirth},
		Ease: []Param{
			lengthParam("wrap_width_cm", "Width of a wrap", "finished", 10, 5, 20, commonPractice),
			{"overlap_share", "Overlap of the turns", "how much of its width each turn lies on the one before", "", 0.5, 0.1, 0.8, commonPractice, nil},
			lengthParam("starts_above_floor_cm", "Lowest edge above the floor", "where the winding starts, over the shoe", 8, 0, 25, commonPractice),
			lengthParam("ends_below_knee_cm", "Upper edge below the knee", "how far below the middle of the kneecap the winding ends", 5, 0, 20, commonPractice),
			lengthParam("tuck_cm", "To tuck in and tie", "length left over at both ends together", 40, 0, 150, commonPractice),
		},
		Options: []Param{
			{"long_edges", "Long edges", "woven as bands of their own width, or cut and hemmed", "", 0, 0, 1, commonPractice, []Choice{{0, "selvedge"}, {1, "hemmed"}}},
			{"wrap_lengths", "Lengths in a wrap", "each wrap in one length, or two sewn end to end", "", 1, 1, 2, commonPractice, []Choice{{1, "one"}, {2, "two"}}},
		},
	}
}

// workLegWraps: a strip laid in turns covers the leg's side once with what
// each turn adds, so the length is the area of the leg over that width. Worked:
// ankle 22, calf 38 cm: mean 30; from 8 to 42 cm above the floor: 30 × 34 =
// 1020 cm²; strip 10 cm, half covered: 1020 ÷ 5 = 204 cm, and 40 cm to tuck in.
func workLegWraps(w *worked) error {
	low, high := w.v["starts_above_floor_cm"], w.cm(KneeHeight)-w.v["ends_below_knee_cm"]
	wide, over := w.v["wrap_width_cm"], w.v["overlap_share"]
	if high-low < wide {
		return fmt.Errorf("the wraps would cover %.1f cm of leg with strips of %g cm; accepted is at least their width, by a lower start or narrower strips", high-low, wide)
	}
	mean := (w.cm(CalfGirth) + w.cm(AnkleGirth)) / 2
	length := mean*(high-low)/(wide*(1-over)) + w.v["tuck_cm"]
	w.size("wrap_length_cm", "Length of a wrap", length, "½ × (ankle girth %g cm + calf girth %g cm) × %.1f cm of leg ÷ (%g cm × %.2g) + %g cm to tuck in",
		w.cm(AnkleGirth), w.cm(CalfGirth), high-low, wide, 1-over, w.v["tuck_cm"])
	w.size("wrap_gain_cm", "Height that a turn adds", wide*(1-over), "width %g cm × (1 − overlap %.2g)", wide, over)
	w.size("wrap_tuck_cm", "To tuck in and tie", w.v["tuck_cm"], "as wanted (tuck_cm)")
	w.size("wrap_cover_cm", "Leg that is covered", high-low, "knee height %g cm − %g cm − %g cm", w.cm(KneeHeight), w.v["ends_below_knee_cm"], low)
	if w.v["wrap_lengths"] == 1 {
		w.add(w.wrap("wrap", length, FinishHem, FinishHem))
		return nil
	}
	w.add(w.wrap("lower wrap", length/2, FinishHem, FinishSeam))
	w.add(w.wrap("upper wrap", length/2, FinishSeam, FinishHem))
	w.sew("wrap, end to end", "lower wrap", "upper end", "upper wrap", "lower end", 2)
	return nil
}

func (w *worked) wrap(name string, lengthCM float64, lower, upper Finish) Piece {
	long := FinishSelvedge
	if w.v["long_edges"] == 1 {
		long = FinishHem
	}
	wide := w.v["wrap_width_cm"]
	points, edges := startAt(0, 0).
		to(lengthCM, 0, "left edge", long).
		to(lengthCM, wide, "upper end", upper).
		to(0, wide, "right edge", long).
		close("lower end", lower)
	return Piece{Name: name, Copies: 2, Grain: GrainWarp, Outline: points, Edges: edges}
}

// legWraps: the strips reach up the leg of this body, and lie flat on it.
func (f *fitter) legWraps() {
	length, calf, ok := f.have("wrap_length_cm", CalfGirth)
	cover, ankle, ok2 := f.have("wrap_cover_cm", AnkleGirth)
	gain, knee, ok3 := f.have("wrap_gain_cm", KneeHeight)
	tuck, ok4 := f.g.SizeCM("wrap_tuck_cm")
	if !ok || !ok2 || !ok3 || !ok4 {
		return
	}
	reaches := (length - tuck) * gain / ((calf + ankle) / 2)
	f.check("wraps up the leg", reaches, cover, "turns reach up", "leg to cover",
		"the length without what is tucked in, over the leg's mean girth, times the height a turn adds, is at least the leg to be covered", "geometry of the turns")
	f.check("wraps end below the knee", knee, cover, "knee height", "leg to cover", "the wraps end at or below the middle of the kneecap", commonPractice)
	f.check("turns of a wrap", length-tuck, 3*calf, "wrap without its ends", "three times round the calf",
		"there are at least three turns, or they slip down", commonPractice)
	if p, found := f.g.Piece("wrap"); found {
		f.check("wrap lies flat", calf/2, p.Outline.Bounds().Height(), "half the calf girth", "wrap's width", "a wrap is no wider than half the calf girth", commonPractice)
	}
}
