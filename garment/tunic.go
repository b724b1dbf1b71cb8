package garment

import "fmt"

// tunicInfo: a straight body, sleeves, underarm gussets, gores at the sides and,
// if wanted, in the middle of front and back.
func tunicInfo() DraftInfo {
	return DraftInfo{
		Key: "tunic", Label: "Tunic",
		About: "An outer garment of wool, pulled over the head: a straight body, in one piece over the shoulders or in two, sleeves with gussets under the arm, gores in the sides and in the middle.",
		Needs: append(bodiedNeeds(), KneeHeight),
		Ease: append([]Param{
			lengthParam("body_ease_cm", "Ease of the body", "added to half the bust girth for each half of the body", 10, 2, 45, fromThursfield+": 8 to 20 cm or more"),
			lengthParam("hem_below_knee_cm", "Hem below the knee", "how far the hem hangs below the middle of the kneecap, belted; negative is above it", 0, -35, 45, commonPractice),
			lengthParam("blousing_cm", "Blousing over the belt", "extra length that is pulled up over the belt", 10, 0, 30, fromThursfield+": 5 to 20 cm"),
			lengthParam("upper_arm_ease_cm", "Ease of the upper arm", "added to the upper arm girth for the sleeve's top; a cote's sleeve is 40 to 60 cm there", 15, 4, 45, fromThursfield+", by the sleeve's width"),
			lengthParam("side_gore_width_cm", "Width of a side gore", "base of each side gore", 25, 5, 80, fromThursfield+": 25 cm serves for most"),
			lengthParam("cuff_ease_cm", "Ease of the cuff", "added to the hand girth for a tapered sleeve's cuff", 2, 0, 40, "from memory: 1 to 2 cm more than the hand"),
		}, bodiedEase()...),
		Options: bodiedOptions(2, 2),
	}
}

// workTunic: the length is the back neck point's height less the knee's, less
// or more as the hem is wanted, and what is bloused over the belt.
func workTunic(w *worked) error {
	neck, knee := w.cm(BackNeckHeight), w.cm(KneeHeight)
	below, bloused := w.v["hem_below_knee_cm"], w.v["blousing_cm"]
	hem := w.hemHeight("Hem above the floor, belted", knee-below, "knee height %g cm − %g cm below it", knee, below)
	return workBodied(w, neck-hem+bloused, fmt.Sprintf("%s + %g cm bloused", downTo(neck, hem), bloused))
}

// bodiedNeeds are the measurements that tunic and shift use, for drafting and
// for the checks of fit.
func bodiedNeeds() []Measure {
	return []Measure{Stature, BackNeckHeight, BustGirth, WaistGirth, HipGirth, NeckBaseGirth, HeadGirth, ShoulderLength, ArmLength,
		BackNeckToWaist, ScyeDepth, BackNeckToWrist, UpperArmGirth, HandGirth, InsideLeg, ThighGirth}
}

// bodiedEase are the proportions that tunic and shift share.
func bodiedEase() []Param {
	return []Param{
		lengthParam("hip_ease_cm", "Least ease at waist and hips", "the straight body goes round waist and hips with at least this to spare", 6, 0, 60, commonPractice),
		lengthParam("sleeve_extra_cm", "Sleeve longer or shorter", "added to the length that reaches the wrist bone; negative makes a short sleeve", 0, -60, 40, commonPractice),
		lengthParam("gusset_side_cm", "Side of the underarm gusset", "each side of the square under the arm", 10, 4, 20, fromThursfield+": 8 to 12 cm; 15 cm in "+fromShirt),
		lengthParam("pointed_gusset_wide_cm", "Width of a pointed gusset", "from front to back; each of its sides is as long as a square gusset's", 10, 3, 30, commonPractice),
		lengthParam("no_gusset_extra_cm", "Sleeve wider without gusset", "added to the sleeve's top when there is no underarm gusset", 8, 0, 25, fromThursfield+": 5 to 10 cm"),
		lengthParam("centre_gore_width_cm", "Width of a centre gore", "base of each gore set into the middle of front and back", 25, 5, 80, fromThursfield+": 25 cm serves for most"),
		lengthParam("neck_ease_cm", "Ease of the neck opening", "added to the girth of the neck's base for the opening", 4, 0, 60, commonPractice),
		lengthParam("neck_slit_cm", "Slit at the neck", "cut down in front from the neck opening, to let the head through; 0 for none", 12, 0, 35, commonPractice+"; 10 cm at Herjolfsnes no. 60"),
		lengthParam("neck_back_drop_cm", "Drop of the neck behind", "how far the opening is cut down behind the shoulder line", 2, 1.5, 8, commonPractice),
		{"neck_half_width_share", "Half width of the neck", "half the opening's width, as a share of its girth", "", 0.19, 0.12, 0.24, commonPractice, nil},
		lengthParam("facing_width_cm", "Width of the neck facing", "finished, from the opening to the outer edge", 4, 1.5, 12, commonPractice),
		lengthParam("facing_turning_cm", "Turning of the neck facing", "allowance at the neck and at the facing's outer edges", 1, 0, 1.5, "common practice: 1 cm, a plain seam"),
	}
}

// bodiedOptions are how tunic and shift are built.
func bodiedOptions(sideGores, centreGores float64) []Param {
	return []Param{
		yesNo("body_in_one", "Body in one", "front and back in one length of cloth over the shoulders, without shoulder seams", 1, commonPractice+"; so made at Bocksten"),
		yesNo("middle_seams", "Seams down the middle", "front and back each in two halves, for narrow cloth; the body is then not in one length", 0, commonPractice),
		{"sleeve_shape", "Shape of the sleeve", "straight, narrowing evenly to the cuff, or a strip as wide as the cuff with a gore at each side", "", 1, 0, 2, commonPractice, []Choice{{sleeveStraight, "straight"}, {sleeveTapered, "tapered"}, {sleeveGored, "straight strip with two gores"}}},
		{"underarm_gusset", "Underarm gussets", "a square under each arm, for reach, or a pointed one: a diamond with sides as long", "", 1, 0, 2, commonPractice, []Choice{{0, "none"}, {1, "square"}, {2, "pointed"}}},
		{"side_gores", "Side gores", "none, one isosceles gore a side, or a pair of right-angled gores a side, straight edge to straight edge", "", sideGores, 0, 4, commonPractice, []Choice{{0, "none"}, {2, "one a side, isosceles"}, {4, "two a side, right-angled"}}},
		{"centre_gores", "Centre gores", "gores set into slits cut up from the hem to the waist", "", centreGores, 0, 2, commonPractice, []Choice{{0, "none"}, {1, "front only"}, {2, "front and back"}}},
		{"gores_from", "Side gores start", "at the waist, or right under the underarm gusset", "", 1, 0, 1, fromThursfield, []Choice{{0, "underarm"}, {1, "waist"}}},
		{"neck_shape", "Shape of the neck", "round, a slit along the shoulder line, or square", "", 0, 0, 2, commonPractice, []Choice{{neckRound, "round"}, {neckSlitAcross, "slit"}, {neckSquare, "square"}}},
		hemAt(),
		yesNo("neck_facing", "Neck facing", "the neck is faced with a piece of its own; without it, it is hemmed", 1, commonPractice),
	}
}
