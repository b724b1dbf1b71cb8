package garment

import "fmt"

// apronInfo: a straight panel, gores at its sides if wanted, a band with ties.
func apronInfo() DraftInfo {
	return DraftInfo{
		Key: "apron", Label: "Apron",
		About: "A straight panel hung from a folded band whose ends are the ties; right-angled gores at both sides widen the hem if wanted, and a bib covers the chest.",
		Needs: []Measure{BustGirth, WaistGirth, HipGirth, WaistHeight, KneeHeight, BackNeckToWaist, NeckBaseGirth, HeadGirth},
		Ease: []Param{
			{"cover_share", "Part of the hips covered", "the panel's width as a share of the hip girth", "", 0.5, 0.25, 0.9, commonPractice, nil},
			lengthParam("hem_below_knee_cm", "Hem below the knee", "how far the hem hangs below the middle of the kneecap; negative is above it", 15, -35, 40, commonPractice),
			lengthParam("tie_length_cm", "Length of a tie beyond half the waist", "each tie goes round to the middle of the back, and this much more to tie", 40, 15, 120, commonPractice),
			lengthParam("band_width_cm", "Width of the band", "finished; it is cut twice as wide and folded", 4, 1.5, 12, commonPractice),
			lengthParam("side_gore_width_cm", "Width of a side gore", "base of each of the two gores", 15, 5, 60, fromThursfield+": smock, 15 cm or more"),
			lengthParam("turning_cm", "Turning of band, bib and loop", "allowance turned in along their edges", 1, 0, 3, "common practice: 1 cm, a plain seam"),
			lengthParam("bib_width_cm", "Width of the bib", "finished", 26, 12, 50, commonPractice),
			lengthParam("bib_height_cm", "Height of the bib", "from the band to the bib's upper edge", 26, 12, 45, commonPractice),
			lengthParam("neck_loop_ease_cm", "Ease of the neck loop", "added to the neck base girth and to the two ways from the loop down to the bib", 24, 0, 80, commonPractice),
		},
		Options: []Param{
			yesNo("apron_gores", "Side gores", "a right-angled gore at each side, straight side to the panel", 0, commonPractice),
			yesNo("bib", "Bib", "a piece over the chest, held by a loop round the neck", 0, commonPractice),
		},
	}
}

// workApron: the panel covers a share of the hips from the waist to the hem.
func workApron(w *worked) error {
	hip, waist, knee := w.cm(HipGirth), w.cm(WaistHeight), w.cm(KneeHeight)
	wide, hem, band := w.v["cover_share"]*hip, knee-w.v["hem_below_knee_cm"], w.v["band_width_cm"]
	length := waist - hem - band
	if length < 15 {
		return fmt.Errorf("the panel would be %.1f cm long; accepted is 15 cm or more, by a lower hem", length)
	}
	if hem < 0 {
		return fmt.Errorf("the hem would lie %.1f cm below the floor; accepted is a smaller hem_below_knee_cm", -hem)
	}
	w.size("apron_width_cm", "Width of the panel", wide, "%.2g × hip girth %g cm", w.v["cover_share"], hip)
	w.size("length_cm", "Length, waist to hem", length+band, "waist height %g cm − knee height %g cm + %g cm below it", waist, knee, w.v["hem_below_knee_cm"])
	w.size("hem_height_cm", "Hem above the floor", hem, "knee height %g cm − %g cm below it", knee, w.v["hem_below_knee_cm"])
	tie := max(0, w.cm(WaistGirth)-wide)/2 + w.v["tie_length_cm"]
	w.size("apron_band_cm", "Band with its ties", wide+2*tie, "panel %.1f cm + 2 × tie %.1f cm (half of waist girth %g cm not covered, and %g cm to tie)", wide, tie, w.cm(WaistGirth), w.v["tie_length_cm"])
	side := FinishHem
	if w.v["apron_gores"] == 1 {
		side = FinishSeam
	}
	points, edges := startAt(0, 0).
		to(length, 0, "left side", side).
		to(length, wide, "waist", FinishSeam).
		to(0, wide, "right side", side).
		close("hem", FinishHem)
	w.add(Piece{Name: "panel", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges})
	w.add(tiedBand("band", wide, tie, band, w.v["turning_cm"]))
	w.sew("band to panel", "panel", "waist", "band", "band seam", 1)
	return w.apronExtras(length)
}

// apronExtras are the gores and the bib. A gore's base is hemmed with the
// panel's; its upper end is a point at the band.
func (w *worked) apronExtras(lengthCM float64) error {
	if w.v["apron_gores"] == 1 {
		g, err := apronGore(lengthCM, w.v["side_gore_width_cm"])
		if err != nil {
			return err
		}
		w.add(g)
		for _, side := range []string{"left", "right"} {
			w.sew(side+" gore to panel", "panel", side+" side", g.Name, "straight side", 1)
		}
	}
	if w.v["bib"] == 1 {
		return w.addBib()
	}
	return nil
}

func apronGore(lengthCM, baseCM float64) (Piece, error) {
	p, err := halfGore("side gore", 2, lengthCM, baseCM)
	for i := range p.Edges {
		if p.Edges[i].Name == "slanted side" {
			p.Edges[i].Finish = FinishHem
		}
	}
	return p, err
}

// addBib: the bib's lower edge is felled onto the band's inner half, the ends of
// the loop onto the bib's upper corners.
func (w *worked) addBib() error {
	wide, high, turning := w.v["bib_width_cm"], w.v["bib_height_cm"], w.v["turning_cm"]
	panel, _ := w.g.SizeCM("apron_width_cm")
	if wide > panel {
		return fmt.Errorf("the bib is %g cm wide on a panel of %.1f cm; accepted is no wider than the panel", wide, panel)
	}
	chest := w.cm(BackNeckToWaist) - high
	if chest < 5 {
		return fmt.Errorf("the bib of %g cm reaches above the neck of a back %g cm long; accepted is up to %.1f cm", high, w.cm(BackNeckToWaist), w.cm(BackNeckToWaist)-5)
	}
	loop := w.cm(NeckBaseGirth)/2 + 2*chest + w.v["neck_loop_ease_cm"]
	w.size("bib_loop_cm", "Loop round the neck", loop, "½ × neck base girth %g cm + 2 × %.1f cm down to the bib + %g cm ease", w.cm(NeckBaseGirth), chest, w.v["neck_loop_ease_cm"])
	w.size("bib_passage_cm", "Loop and bib, for the head", loop+wide, "loop %.1f cm + bib %g cm", loop, wide)
	band := &w.g.Pieces[1]
	mid := band.Outline.Bounds().Width() / 2
	y := band.Outline.Bounds().Height() * 0.75
	band.Marks = append(band.Marks, placeLine("bib place", mid-wide/2, y, mid+wide/2, y))
	loopWide := min(3, wide/4)
	points, edges := startAt(0, 0).
		to(high, 0, "left side", FinishHem).
		to(high, wide, "upper edge", FinishHem).
		to(0, wide, "right side", FinishHem).
		close("lower edge", FinishSeam)
	w.add(Piece{Name: "bib", Copies: 1, Grain: GrainWarp, Outline: points, Edges: allAllowances(edges, turning), Marks: []Mark{
		placeLine("left loop place", high-1, 0.5, high-1, 0.5+loopWide),
		placeLine("right loop place", high-1, wide-0.5-loopWide, high-1, wide-0.5),
	}})
	points, edges = startAt(0, 0).
		to(loop, 0, "outer edge", FinishHem).
		to(loop, loopWide, "right end", FinishSeam).
		to(0, loopWide, "inner edge", FinishHem).
		close("left end", FinishSeam)
	w.add(Piece{Name: "neck loop", Copies: 1, Grain: GrainWarp, Outline: points, Edges: allAllowances(edges, turning)})
	w.sew("bib to band", "band", "bib place", "bib", "lower edge", 1)
	w.sew("loop to bib, left", "bib", "left loop place", "neck loop", "left end", 1)
	w.sew("loop to bib, right", "bib", "right loop place", "neck loop", "right end", 1)
	return nil
}

// apron: the ties meet behind, the front is covered, the head goes through.
func (f *fitter) apron() {
	if s, b, ok := f.have("apron_band_cm", WaistGirth); ok {
		f.check("ties round the waist", s, b+30, "band with its ties", "waist girth and a knot", "band and ties are at least the waist girth and 30 cm to tie", commonPractice)
	}
	if s, b, ok := f.have("apron_width_cm", HipGirth); ok {
		f.check("apron over the thighs", s, b/4, "panel", "a quarter of the hip girth", "the panel covers at least half of the front, a quarter of the hip girth", commonPractice)
		if h, found := f.g.SizeCM("hem_height_cm"); found {
			f.check("apron clear of the floor", h, 2, "hem above the floor", "least height", "the hem hangs 2 cm or more above the floor", commonPractice)
		}
	}
	if s, b, ok := f.have("bib_passage_cm", HeadGirth); ok {
		f.check("head through the bib's loop", s, b+2, "loop and bib", "head girth with room", "loop and bib are together at least the head girth and 2 cm", "from memory: 2 to 4 cm")
	}
}
