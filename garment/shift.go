package garment

// shiftInfo: a linen underdress, cut like the tunic with proportions of its own.
func shiftInfo() DraftInfo {
	return DraftInfo{
		Key: "shift", Label: "Shift",
		About: "An underdress of linen: a straight body, sleeves with square gussets under the arm, pairs of right-angled gores in the sides, without waste.",
		Needs: bodiedNeeds(),
		Ease: append([]Param{
			lengthParam("body_ease_cm", "Ease of the body", "added to half the bust girth for each half of the body", 10, 2, 45, fromThursfield+": smock, 10 cm or more"),
			lengthParam("hem_above_floor_cm", "Hem above the floor", "how high the hem hangs", 25, 3, 100, commonPractice),
			lengthParam("upper_arm_ease_cm", "Ease of the upper arm", "added to the upper arm girth for the sleeve's top; a smock's sleeve is 35 to 50 cm there", 10, 4, 45, fromShirt+": upper arm and 10 cm"),
			lengthParam("side_gore_width_cm", "Width of a side gore", "base of each side gore", 20, 5, 80, fromThursfield+": smock, 15 cm or more"),
			lengthParam("cuff_ease_cm", "Ease of the cuff", "added to the hand girth for a tapered sleeve's cuff", 3, 0, 40, "from memory: 1 to 2 cm more than the hand; linen gives less"),
		}, bodiedEase()...),
		Options: bodiedOptions(4, 0),
	}
}

// workToHem, for shift and gown: the length is the back neck point's height less the hem's.
func workToHem(w *worked) error {
	neck := w.cm(BackNeckHeight)
	hem := w.hemHeight("Hem above the floor", w.v["hem_above_floor_cm"], "as wanted (hem_above_floor_cm)")
	return workBodied(w, neck-hem, downTo(neck, hem))
}
