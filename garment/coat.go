package garment

import "ellwand/geometry"

// coatInfo: cut like the tunic, open down the middle of the front.
func coatInfo() DraftInfo {
	options := []Param{
		yesNo("body_in_one", "Body in one", "front and back in one length of cloth over the shoulders, cut open down the front; otherwise two fronts that may lap, and a back", 0, commonPractice),
	}
	options = append(options, yesNo("back_seam", "Seam down the back", "the back in two halves, for narrow cloth; a body in one has none", 1, commonPractice))
	for _, p := range bodiedOptions(4, 1) {
		switch p.Key {
		case "body_in_one", "middle_seams", "neck_facing":
			continue
		case "centre_gores":
			p.Meaning = "a gore set into a slit cut up from the hem to the waist, behind"
			p.Max, p.Choices = 1, []Choice{{0, "none"}, {1, "back"}}
		}
		options = append(options, p)
	}
	ease := []Param{
		lengthParam("body_ease_cm", "Ease of the body", "added to half the bust girth for each half of the body, which goes over other clothes", 14, 2, 45, fromThursfield+": 8 to 20 cm or more"),
		lengthParam("front_overlap_cm", "Lap of the fronts", "how far each front reaches beyond the middle; a body in one has none", 4, 0, 25, commonPractice),
		lengthParam("hem_below_knee_cm", "Hem below the knee", "how far the hem hangs below the middle of the kneecap; negative is above it", 5, -35, 45, commonPractice),
		lengthParam("upper_arm_ease_cm", "Ease of the upper arm", "added to the upper arm girth for the sleeve's top", 18, 4, 45, fromThursfield+", by the sleeve's width: 40 to 60 cm"),
		lengthParam("side_gore_width_cm", "Width of a side gore", "base of each side gore", 25, 5, 80, fromThursfield+": 25 cm serves for most"),
		lengthParam("cuff_ease_cm", "Ease of the cuff", "added to the hand girth for a narrowed sleeve's cuff", 6, 0, 40, "from memory: 1 to 2 cm more than the hand; more over other sleeves"),
		lengthParam("neck_turning_cm", "Turning of the neck", "allowance along the neck of the fronts and the back, which is hemmed", 1, 0, 1.5, "common practice: 1 cm, a plain seam"),
	}
	for _, p := range bodiedEase() {
		switch p.Key {
		case "neck_slit_cm", "facing_width_cm", "facing_turning_cm":
			continue
		}
		ease = append(ease, p)
	}
	return DraftInfo{
		Key: "coat", Label: "Open-fronted coat",
		About: "An outer garment of wool, open down the middle of the front: two fronts that lap and a back of one piece or two, or one length over the shoulders cut open in front; sleeves with gussets under the arm, gores in the sides and behind.",
		Needs: append(bodiedNeeds(), KneeHeight),
		Ease:  ease, Options: options,
	}
}

// workCoat: the length is the back neck point's height less the knee's, less or
// more as the hem is wanted.
func workCoat(w *worked) error {
	neck, knee, below := w.cm(BackNeckHeight), w.cm(KneeHeight), w.v["hem_below_knee_cm"]
	hem := w.hemHeight("Hem above the floor", knee-below, "knee height %g cm − %g cm below it", knee, below)
	b := &bodied{worked: w, open: true, inOne: w.v["body_in_one"] == 1}
	if !b.inOne {
		b.overlapCM = w.v["front_overlap_cm"]
		b.backInTwo = w.v["back_seam"] == 1
	}
	return b.work(neck-hem, downTo(neck, hem))
}

// frontCut is the cut that opens a body in one down the middle of the front.
func (b *bodied) frontCut() Mark {
	top := b.lengthCM - b.neck.dropCM
	return Mark{"front opening", MarkCut, []geometry.Point{{Y: b.widthCM / 2}, {X: top, Y: b.widthCM / 2}}, false, FinishHem}
}

// turning is the name of the parameter that holds the neck's own allowance.
func (b *bodied) turning() string {
	if b.open {
		return "neck_turning_cm"
	}
	return "facing_turning_cm"
}

// openFront is half the front of a garment that is open down the middle: the
// wearer's left one, its side at y = 0; the right one is cut mirrored.
func (b *bodied) openFront() Piece {
	l, mid := b.lengthCM, b.widthCM/2
	o := b.halfSide(b.neck.leftFront(), 1)
	points, edges := o.to(l-b.neck.dropCM, mid+b.overlapCM, "neck", b.neckFinish()).
		to(0, mid+b.overlapCM, "front edge", FinishHem).
		close("hem", FinishHem)
	return Piece{Name: "front", Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: b.turnedNeck(edges)}
}
