package garment

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// bagInfo: a folded length of cloth with a flap, and a strap.
func bagInfo() DraftInfo {
	return DraftInfo{
		Key: "bag", Label: "Shoulder bag",
		About: "One length of cloth folded up into front and back, its end a flap over the mouth; a strap over the opposite shoulder, sewn on behind or running down both sides as the bag's depth.",
		Needs: []Measure{BustGirth, BackNeckToWaist, HeadGirth, UpperArmGirth, HandGirth},
		Ease: []Param{
			lengthParam("bag_width_cm", "Width of the bag", "finished", 30, 12, 60, commonPractice),
			lengthParam("bag_height_cm", "Height of the bag", "from mouth to bottom", 32, 12, 60, commonPractice),
			lengthParam("flap_cm", "Length of the flap", "over the mouth; 0 for none", 18, 0, 50, commonPractice),
			lengthParam("strap_width_cm", "Width of the strap", "finished; the bag's depth where the strap runs down its sides", 6, 2, 20, commonPractice),
			lengthParam("mouth_below_waist_cm", "Mouth below the waist", "how far below the waist the mouth hangs", 4, -20, 30, commonPractice),
			lengthParam("strap_ease_cm", "Ease of the strap", "added to the way from the mouth over the shoulder and back", 8, 0, 40, commonPractice),
			lengthParam("strap_turning_cm", "Turning of the strap", "allowance turned in along the strap's edges and ends", 1, 0, 3, "common practice: 1 cm, a plain seam"),
		},
		Options: []Param{
			{"bag_sides", "Sides of the bag", "front and back sewn together, or to a strap that runs down both sides", "", 0, 0, 1, commonPractice, []Choice{{0, "flat"}, {1, "strap as sides"}}},
		},
	}
}

// bag is the draft being worked out; the cloth's length is x, front first.
type bag struct {
	*worked
	wideCM, highCM, flapCM float64
	strapCM, strapWideCM   float64
	depthCM                float64 // of the bottom; 0 for a flat bag
}

// workBag: the strap's way on each face goes from the mouth at the side to the
// opposite shoulder: down from the nape to the mouth, and a quarter of the bust
// girth across. Worked: 46 + 4 down, 100 ÷ 4 across: √(50² + 25²) = 55.9;
// 2 × 55.9 + 8 = 119.8 cm.
func workBag(w *worked) error {
	b := &bag{worked: w, wideCM: w.v["bag_width_cm"], highCM: w.v["bag_height_cm"], flapCM: w.v["flap_cm"], strapWideCM: w.v["strap_width_cm"]}
	down, across := w.cm(BackNeckToWaist)+w.v["mouth_below_waist_cm"], w.cm(BustGirth)/4
	b.strapCM = 2*math.Hypot(down, across) + w.v["strap_ease_cm"]
	if b.strapWideCM > b.wideCM/2 {
		return fmt.Errorf("the strap is %g cm wide on a bag of %g cm; accepted is up to half the bag's width", b.strapWideCM, b.wideCM)
	}
	w.size("strap_length_cm", "Strap, mouth to mouth", b.strapCM, "2 × √((nape to waist %g cm + %g cm)² + (¼ × bust girth %g cm)²) + %g cm ease",
		w.cm(BackNeckToWaist), w.v["mouth_below_waist_cm"], w.cm(BustGirth), w.v["strap_ease_cm"])
	mouth, from := 2*b.wideCM, fmt.Sprintf("2 × width %g cm", b.wideCM)
	if w.v["bag_sides"] == 1 {
		b.depthCM = b.strapWideCM
		mouth += 2 * b.depthCM
		from += fmt.Sprintf(" + 2 × depth %g cm", b.depthCM)
	}
	w.size("bag_mouth_cm", "Round the mouth", mouth, "%s", from)
	b.add(b.body())
	b.add(b.strap())
	if b.depthCM > 0 {
		b.sewDeep()
	} else {
		b.sewFlat()
	}
	return nil
}

// body: along each side the front, the bottom (where the bag has depth), the
// back, the flap.
func (b *bag) body() Piece {
	ends := []run{{"front", b.highCM, FinishSeam}, {"bottom", b.highCM + b.depthCM, FinishSeam},
		{"back", 2*b.highCM + b.depthCM, FinishSeam}, {"flap", 2*b.highCM + b.depthCM + b.flapCM, FinishHem}}
	o := startAt(0, 0)
	for _, r := range ends {
		o.to(r.upTo, 0, "left "+r.what, r.finish)
	}
	o.to(ends[3].upTo, b.wideCM, "flap edge", FinishHem)
	for i := 3; i >= 0; i-- {
		end := 0.0
		if i > 0 {
			end = ends[i-1].upTo
		}
		o.to(end, b.wideCM, "right "+ends[i].what, ends[i].finish)
	}
	points, edges := o.close("front mouth", FinishHem)
	p := Piece{Name: "bag", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges,
		Note: fmt.Sprintf("Fold %.1f cm from the front mouth; the flap is the last %.1f cm.", b.highCM, b.flapCM)}
	if b.depthCM == 0 {
		x := 2*b.highCM - b.strapSetInCM()
		p.Marks = []Mark{
			placeLine("left strap place", x, 0, x, b.strapWideCM),
			placeLine("right strap place", x, b.wideCM-b.strapWideCM, x, b.wideCM),
			{"bottom fold", MarkFold, []geometry.Point{{X: b.highCM}, {X: b.highCM, Y: b.wideCM}}, false, ""},
		}
	}
	return p
}

// strapSetInCM is how far below the mouth a flat bag's strap is sewn on.
func (b *bag) strapSetInCM() float64 { return min(3, b.highCM/4) }

// strap: sewn on behind by its ends, or with a stretch at both ends as the
// bag's sides.
func (b *bag) strap() Piece {
	side, wide := b.highCM, b.strapWideCM
	length := b.strapCM + 2*side
	if b.depthCM == 0 {
		side, length = 0, b.strapCM+2*b.strapSetInCM()
	}
	loop := length - 2*side
	points, edges := startAt(0, 0).
		to(side, 0, "left front side", FinishSeam).
		to(side+loop, 0, "front edge", FinishHem).
		to(length, 0, "right front side", FinishSeam).
		to(length, wide, "right end", FinishSeam).
		to(side+loop, wide, "right back side", FinishSeam).
		to(side, wide, "back edge", FinishHem).
		to(0, wide, "left back side", FinishSeam).
		close("left end", FinishSeam)
	return Piece{Name: "strap", Copies: 1, Grain: GrainWarp, Outline: points, Edges: allAllowances(edges, b.v["strap_turning_cm"])}
}

func (b *bag) sewFlat() {
	for _, side := range []string{"left", "right"} {
		b.sew(side+" side", "bag", side+" front", "bag", side+" back", 1)
		b.sew(side+" strap end", "bag", side+" strap place", "strap", side+" end", 1)
	}
}

func (b *bag) sewDeep() {
	for _, side := range []string{"left", "right"} {
		b.sew(side+" front to strap", "bag", side+" front", "strap", side+" front side", 1)
		b.sew(side+" bottom to strap", "bag", side+" bottom", "strap", side+" end", 1)
		b.sew(side+" back to strap", "bag", side+" back", "strap", side+" back side", 1)
	}
}

// bag: the strap goes over head and shoulder, the hand into the mouth, and the
// mouth hangs within reach.
func (f *fitter) bag() {
	mouth, hand, ok := f.have("bag_mouth_cm", HandGirth)
	strap, head, ok2 := f.have("strap_length_cm", HeadGirth)
	arm, ok3 := f.b.CM[UpperArmGirth]
	if !ok || !ok2 || !ok3 {
		return
	}
	f.check("hand into the bag", mouth, hand+10, "round the mouth", "hand girth with room", "the mouth is at least the hand girth and 10 cm round", commonPractice)
	f.check("strap over head and arm", strap, head+arm, "strap", "head girth and upper arm girth", "the strap alone is at least as long as head and upper arm are round", commonPractice)
	down, ok := f.b.CM[BackNeckToWaist]
	across, ok2 := f.b.CM[BustGirth]
	if ok && ok2 {
		f.check("mouth within reach", strap, 2*math.Hypot(max(0, down-20), across/4), "strap", "way over the shoulder to 20 cm above the waist",
			"the mouth hangs no higher than 20 cm above the waist", commonPractice)
	}
}
