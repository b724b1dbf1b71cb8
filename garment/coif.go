package garment

import (
	"fmt"

	"ellwand/geometry"
)

// coifInfo: a close linen cap of a middle strip and two sides.
func coifInfo() DraftInfo {
	return DraftInfo{
		Key: "coif", Label: "Coif",
		About: "A close cap of linen: a strip from the brow over the crown to the nape, two sides rounded behind, and a band along the neck whose ends tie under the chin.",
		Needs: []Measure{HeadGirth, NeckGirth},
		Ease: []Param{
			{"front_share", "Front edge", "from jaw over the crown to jaw, as a share of the head girth", "", 0.88, 0.7, 1.1, commonPractice, nil},
			{"depth_share", "Depth of a side", "from the front edge to the back of the head, as a share of the head girth", "", 0.34, 0.24, 0.5, commonPractice, nil},
			lengthParam("strip_width_cm", "Width of the middle strip", "finished", 9, 4, 18, commonPractice),
			lengthParam("rounding_cm", "Rounding behind", "radius of the sides' upper corner behind", 11, 3, 16, commonPractice),
			lengthParam("tie_length_cm", "Length of a tie", "each end of the neck band beyond the front edge", 35, 15, 80, commonPractice),
			lengthParam("band_width_cm", "Width of the neck band", "finished; it is cut twice as wide and folded", 1.5, 0.8, 4, commonPractice),
			lengthParam("band_turning_cm", "Turning of the neck band", "allowance turned in along its edges", 0.7, 0, 2, commonPractice),
		},
		Options: []Param{
			{"coif_sides", "Middle strip", "with a strip between the sides, or the sides sewn to each other", "", 1, 0, 1, commonPractice, []Choice{{0, "no strip"}, {1, "strip"}}},
		},
	}
}

// workCoif: with a strip, the front edge is twice a side's height and the
// strip's width. Worked: head 57, front 0.88 × 57 = 50.16, strip 9: sides
// (50.16 − 9) ÷ 2 = 20.58 high, 0.34 × 57 = 19.38 deep; rounded to 11 cm the seam
// is 8.38 + ½ π × 11 + 9.58 = 35.24; the neck 2 × 19.38 + 9 = 47.76.
func workCoif(w *worked) error {
	head, strip := w.cm(HeadGirth), w.v["strip_width_cm"]*w.v["coif_sides"]
	front, deep := w.v["front_share"]*head, w.v["depth_share"]*head
	high, round := (front-strip)/2, w.v["rounding_cm"]
	if most := min(high, deep) - 1; round > most {
		return fmt.Errorf("rounding_cm is %g cm on sides of %.1f × %.1f cm; accepted is up to %.1f cm", round, high, deep, most)
	}
	neck := 2*deep + strip
	w.size("coif_front_cm", "Front edge", front, "%.2g × head girth %g cm", w.v["front_share"], head)
	w.size("coif_round_cm", "Round the head from front edge to front edge", neck, "2 × depth %.1f cm + strip %g cm", deep, strip)
	w.size("coif_band_cm", "Neck band with its ties", neck+2*w.v["tie_length_cm"], "neck %.1f cm + 2 × tie %g cm", neck, w.v["tie_length_cm"])
	o := startAt(0, 0).
		to(high, 0, "front edge", FinishHem).
		to(high, deep-round, "crown seam", FinishSeam)
	if err := o.arc(geometry.Point{X: high - round, Y: deep - round}, round, 0, 90, "crown seam", FinishSeam, false); err != nil {
		return err
	}
	points, edges := o.to(0, deep, "crown seam", FinishSeam).close("neck edge", FinishSeam)
	side := Piece{Name: "side", Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges}
	w.add(side)
	w.add(tiedBand("neck band", neck, w.v["tie_length_cm"], w.v["band_width_cm"], w.v["band_turning_cm"]))
	w.sewPart("left side to band", whole("side", "neck edge"), part("neck band", "band seam", 0, deep/neck), 1)
	w.sewPart("right side to band", whole("side", "neck edge"), part("neck band", "band seam", 1-deep/neck, 1), 1)
	seam := EdgeLengthsCM(side)["crown seam"]
	w.size("coif_seam_cm", "Brow to nape, along the seam", seam, "straight, round and straight along a side")
	if strip == 0 {
		w.sew("crown", "side", "crown seam", "side", "crown seam", 1)
		return nil
	}
	points, edges = startAt(0, 0).
		to(seam, 0, "left seam", FinishSeam).
		to(seam, strip, "nape", FinishSeam).
		to(0, strip, "right seam", FinishSeam).
		close("brow", FinishHem)
	w.add(Piece{Name: "middle strip", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges})
	w.sew("left side to strip", "side", "crown seam", "middle strip", "left seam", 1)
	w.sew("right side to strip", "side", "crown seam", "middle strip", "right seam", 1)
	w.sewPart("strip to band", whole("middle strip", "nape"), part("neck band", "band seam", deep/neck, 1-deep/neck), 1)
	return nil
}

// coif: it covers the head from jaw to jaw and from temple to temple, and ties.
func (f *fitter) coif() {
	front, head, ok := f.have("coif_front_cm", HeadGirth)
	if !ok {
		return
	}
	f.check("jaw to jaw over the crown", front, 0.8*head, "front edge", "head from jaw to jaw", "the front edge is at least 0.8 times the head girth", "from memory: a head is about that far round from jaw over the crown to jaw")
	if s, b, ok := f.have("coif_round_cm", HeadGirth); ok {
		f.check("temple to temple behind", s, 0.65*b, "round the head", "head behind the temples", "the cap is at least 0.65 times the head girth round behind", "from memory: the face takes about a third of the head girth")
	}
	if s, b, ok := f.have("coif_seam_cm", HeadGirth); ok {
		f.check("brow to nape", s, 0.5*b, "seam from front edge to neck", "head from front edge to nape", "the seam over the crown is at least half the head girth", "from memory")
	}
	if s, b, ok := f.have("coif_band_cm", NeckGirth); ok {
		f.check("ties under the chin", s, b+40, "band with its ties", "neck girth and a knot", "band and ties are at least the neck girth and 40 cm", commonPractice)
	}
}
