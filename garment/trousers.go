package garment

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// trousersInfo: straight-cut legs, a diamond in the seat, a waistband.
func trousersInfo() DraftInfo {
	return DraftInfo{
		Key: "trousers", Label: "Trousers",
		About: "Loose trousers of wool or linen: legs with a straight outer side, of two panels or of one, a diamond gusset in the seat, and a folded waistband through which a cord is drawn.",
		Needs: []Measure{WaistGirth, HipGirth, WaistHeight, InsideLeg, BodyRise, KneeHeight, ThighGirth, CalfGirth, FootGirth},
		Ease: []Param{
			lengthParam("rise_ease_cm", "Ease of the rise", "added to the body rise, waist to crotch", 6, 0, 20, "a reconstruction of braies: waist to crotch and 5 to 8 cm"),
			lengthParam("hip_ease_cm", "Ease at the hips", "added to the hip girth for the waist's opening, which has to go over the hips", 6, 2, 60, commonPractice),
			lengthParam("thigh_ease_cm", "Ease of the thigh", "added to the thigh girth for a leg at the crotch", 10, 2, 60, "a reconstruction of braies: half the thigh and 5 cm, front and back"),
			lengthParam("ankle_ease_cm", "Ease of the leg's hem", "added to the girth round heel and ankle, so that the foot goes through", 4, 0, 60, commonPractice),
			lengthParam("hem_above_floor_cm", "Hem above the floor", "how high the legs end", 8, 2, 60, commonPractice),
			lengthParam("gusset_long_cm", "Length of the seat gusset", "its diagonal from front to back", 22, 8, 45, commonPractice),
			lengthParam("gusset_wide_cm", "Width of the seat gusset", "its diagonal from leg to leg", 16, 6, 40, commonPractice),
			lengthParam("waistband_height_cm", "Height of the waistband", "finished; it is cut twice as wide and folded", 4, 1.5, 12, commonPractice),
			lengthParam("waistband_turning_cm", "Turning of the waistband", "allowance along its inner edge, which is turned in and felled", 1, 0, 3, "common practice: 1 cm, a plain seam"),
		},
		Options: []Param{
			{"leg_panels", "Panels of a leg", "a front and a back panel, or one panel round the whole leg, without a seam outside", "", 2, 1, 2, commonPractice, []Choice{{1, "one"}, {2, "front and back"}}},
		},
	}
}

// trousers is the draft being worked out. Widths are of half a leg, front or
// back; depths are below the waistband's lower edge.
type trousers struct {
	*worked
	topCM, crotchCM, ankleCM float64
	riseCM, lengthCM         float64
	gussetCM                 float64 // side of the diamond
	openingCM                float64
}

func workTrousers(w *worked) error {
	t := &trousers{worked: w}
	for _, step := range []func() error{t.measureWidths, t.measureLengths, t.makeLegs, t.makeGusset, t.makeWaistband} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// measureWidths: the waist goes over the hips, or round the waist where that is
// larger; the leg at the crotch is the thigh plus ease; its hem lets the foot
// through, and is no narrower than the calf at its lower end would need.
func (t *trousers) measureWidths() error {
	hip, waist, ease := t.cm(HipGirth), t.cm(WaistGirth), t.v["hip_ease_cm"]
	t.openingCM = max(hip, waist) + ease
	t.topCM = t.openingCM / 4
	t.crotchCM = (t.cm(ThighGirth) + t.v["thigh_ease_cm"]) / 2
	t.ankleCM = (t.cm(FootGirth) + t.v["ankle_ease_cm"]) / 2
	t.size("waist_opening_cm", "Waist opening", t.openingCM, "the larger of hip girth %g cm and waist girth %g cm + %g cm ease", hip, waist, ease)
	t.size("leg_crotch_cm", "Leg at the crotch", 2*t.crotchCM, "thigh girth %g cm + %g cm ease", t.cm(ThighGirth), t.v["thigh_ease_cm"])
	t.size("leg_hem_cm", "Hem of a leg", 2*t.ankleCM, "heel and ankle girth %g cm + %g cm ease", t.cm(FootGirth), t.v["ankle_ease_cm"])
	return nil
}

// measureLengths: the outer side is the waist's height less the hem's; the rise
// is the body rise plus ease; the waistband is part of both.
func (t *trousers) measureLengths() error {
	band, hem := t.v["waistband_height_cm"], t.v["hem_above_floor_cm"]
	t.riseCM = t.cm(BodyRise) + t.v["rise_ease_cm"] - band
	t.lengthCM = t.cm(WaistHeight) - hem - band
	t.gussetCM = math.Hypot(t.v["gusset_long_cm"], t.v["gusset_wide_cm"]) / 2
	if t.riseCM < 3 {
		return fmt.Errorf("the rise below the waistband would be %.1f cm; accepted is 3 cm or more, by a larger rise_ease_cm or a lower waistband", t.riseCM)
	}
	if least := t.riseCM + t.gussetCM + 5; t.lengthCM < least {
		return fmt.Errorf("the legs would be %.1f cm long; accepted is %.1f cm or more, by a smaller hem_above_floor_cm", t.lengthCM, least)
	}
	t.size("length_cm", "Length, waist to hem", t.lengthCM+band, "waist height %g cm − hem %g cm above the floor", t.cm(WaistHeight), hem)
	t.size("rise_cm", "Rise, waist to crotch", t.riseCM+band, "body rise %g cm + %g cm ease", t.cm(BodyRise), t.v["rise_ease_cm"])
	t.size("hem_height_cm", "Hem above the floor", hem, "as wanted (hem_above_floor_cm)")
	t.size("gusset_length_cm", "Length of the seat gusset", t.v["gusset_long_cm"], "as wanted (gusset_long_cm)")
	t.size("gusset_side_cm", "Side of the seat gusset", t.gussetCM, "½ × √(%g² + %g²)", t.v["gusset_long_cm"], t.v["gusset_wide_cm"])
	return nil
}

// inner is the inner side of half a leg from waist to hem: the waist, the
// crotch, the lower end of the gusset, the hem; y is the half leg's width.
func (t *trousers) inner() [4]geometry.Point {
	waist, crotch := geometry.Point{Y: t.topCM}, geometry.Point{X: t.riseCM, Y: t.crotchCM}
	hem := geometry.Point{X: t.lengthCM, Y: t.ankleCM}
	f := t.gussetCM / distance(crotch, hem)
	end := geometry.Point{X: crotch.X + f*(hem.X-crotch.X), Y: crotch.Y + f*(hem.Y-crotch.Y)}
	return [4]geometry.Point{waist, crotch, end, hem}
}

func (t *trousers) makeLegs() error {
	if t.v["leg_panels"] == 2 {
		t.add(t.legPanel("leg front"))
		t.add(t.legPanel("leg back"))
		t.sew("outside leg", "leg front", "outside leg", "leg back", "outside leg", 2)
	} else {
		t.add(t.wholeLeg())
	}
	front, back := t.half("front"), t.half("back")
	t.sew("inside leg", front.piece, front.edge("inside leg"), back.piece, back.edge("inside leg"), 2)
	t.sew("front rise", front.piece, front.edge("rise"), front.piece, front.edge("rise"), 1)
	t.sew("back rise", back.piece, back.edge("rise"), back.piece, back.edge("rise"), 1)
	return nil
}

// legHalf says where the front or back half of a leg is.
type legHalf struct{ piece, prefix string }

func (h legHalf) edge(what string) string { return h.prefix + what }

func (t *trousers) half(face string) legHalf {
	if t.v["leg_panels"] == 2 {
		return legHalf{"leg " + face, ""}
	}
	return legHalf{"leg", face + " "}
}

// legPanel is half a leg; its straight outer side is at y = 0, the waist at x = 0.
func (t *trousers) legPanel(name string) Piece {
	in := t.inner()
	points, edges := startAt(0, 0).
		to(t.lengthCM, 0, "outside leg", FinishSeam).
		to(in[3].X, in[3].Y, "hem", FinishHem).
		to(in[2].X, in[2].Y, "inside leg", FinishSeam).
		to(in[1].X, in[1].Y, "gusset seam", FinishSeam).
		to(in[0].X, in[0].Y, "rise", FinishSeam).
		close("waist", FinishSeam)
	return Piece{Name: name, Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges}
}

// wholeLeg is both halves in one, the outer side along the middle.
func (t *trousers) wholeLeg() Piece {
	in := t.inner()
	mid := max(t.crotchCM, t.topCM, t.ankleCM)
	o := startAt(0, mid-in[0].Y).
		to(in[1].X, mid-in[1].Y, "front rise", FinishSeam).
		to(in[2].X, mid-in[2].Y, "front gusset seam", FinishSeam).
		to(in[3].X, mid-in[3].Y, "front inside leg", FinishSeam).
		to(in[3].X, mid+in[3].Y, "hem", FinishHem).
		to(in[2].X, mid+in[2].Y, "back inside leg", FinishSeam).
		to(in[1].X, mid+in[1].Y, "back gusset seam", FinishSeam).
		to(0, mid+in[0].Y, "back rise", FinishSeam).
		to(0, mid, "back waist", FinishSeam)
	points, edges := o.close("front waist", FinishSeam)
	return Piece{Name: "leg", Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges}
}

// makeGusset: the diamond's long diagonal runs from front to back in the crotch;
// each of its sides is sewn to one half leg below the rise.
func (t *trousers) makeGusset() error {
	long, wide := t.v["gusset_long_cm"], t.v["gusset_wide_cm"]
	points, edges := startAt(0, wide/2).
		to(long/2, 0, "left front side", FinishSeam).
		to(long, wide/2, "left back side", FinishSeam).
		to(long/2, wide, "right back side", FinishSeam).
		close("right front side", FinishSeam)
	t.add(Piece{Name: "seat gusset", Copies: 1, Grain: GrainFree, Outline: points, Edges: edges})
	for _, face := range []string{"front", "back"} {
		h := t.half(face)
		for _, side := range []string{"left", "right"} {
			t.sew("seat gusset to "+side+" "+face, h.piece, h.edge("gusset seam"), "seat gusset", side+" "+face+" side", 1)
		}
	}
	return nil
}

// makeWaistband: cut twice as wide as it is high and folded; the outer edge is
// sewn to the legs from the middle of the back round to the left, the inner
// edge felled down inside, the ends sewn together.
func (t *trousers) makeWaistband() error {
	band, turning := t.v["waistband_height_cm"], t.v["waistband_turning_cm"]
	points, edges := startAt(0, 0).
		to(t.openingCM, 0, "outer edge", FinishSeam).
		to(t.openingCM, 2*band, "right end", FinishSeam).
		to(0, 2*band, "inner edge", FinishHem).
		close("left end", FinishSeam)
	edges[2].AllowanceCM = &turning
	t.add(Piece{
		Name: "waistband", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges,
		Marks: []Mark{{"fold", MarkFold, []geometry.Point{{Y: band}, {X: t.openingCM, Y: band}}, false, ""}},
		Note:  "Leave a gap in the seam of the ends for the cord.",
	})
	t.sew("waistband ends", "waistband", "left end", "waistband", "right end", 1)
	for i, where := range [][2]string{{"back", "left"}, {"front", "left"}, {"front", "right"}, {"back", "right"}} {
		h := t.half(where[0])
		t.sewPart("waistband to "+where[1]+" "+where[0], part("waistband", "outer edge", float64(i)/4, float64(i+1)/4), whole(h.piece, h.edge("waist")), 1)
	}
	return nil
}
