package garment

// gownInfo: a long outer dress, wide at the hem by gores on all sides.
func gownInfo() DraftInfo {
	return DraftInfo{
		Key: "gown", Label: "Gored gown",
		About: "A long dress of wool, pulled over the head: a straight body, close sleeves with gussets under the arm, and a wide skirt made by pairs of gores in the sides and gores in the middle of front and back.",
		Needs: bodiedNeeds(),
		Ease: append([]Param{
			lengthParam("body_ease_cm", "Ease of the body", "added to half the bust girth for each half of the body", 8, 2, 45, fromThursfield+": 8 to 20 cm or more"),
			lengthParam("hem_above_floor_cm", "Hem above the floor", "how high the hem hangs", 5, 1, 90, commonPractice),
			lengthParam("upper_arm_ease_cm", "Ease of the upper arm", "added to the upper arm girth for the sleeve's top", 12, 4, 45, fromThursfield+", by the sleeve's width: 40 to 60 cm"),
			lengthParam("side_gore_width_cm", "Width of a side gore", "base of each side gore", 30, 5, 80, fromThursfield+": 25 cm serves for most; a gown is fuller"),
			lengthParam("cuff_ease_cm", "Ease of the cuff", "added to the hand girth for a narrowed sleeve's cuff", 2, 0, 40, "from memory: 1 to 2 cm more than the hand"),
		}, bodiedEase()...),
		Options: bodiedOptions(4, 2),
	}
}
