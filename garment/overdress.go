package garment

import (
	"fmt"

	"ellwand/geometry"
)

// overdressInfo: two straight panels from the armpits down, gores, two straps.
func overdressInfo() DraftInfo {
	return DraftInfo{
		Key: "overdress", Label: "Strapped overdress",
		About: "A sleeveless dress of wool from the armpits down, worn over a shift: a front and a back panel, gores in the sides and, if wanted, in the middle, and two straps over the shoulders. It has no opening: it is pulled on over the head.",
		Needs: []Measure{Stature, BackNeckHeight, BustGirth, WaistGirth, HipGirth, BackNeckToWaist, ScyeDepth, ShoulderLength, AcrossBack, InsideLeg, ThighGirth, NeckBaseGirth, UpperArmGirth},
		Ease: []Param{
			lengthParam("body_ease_cm", "Ease of the body", "added to half the bust girth for each panel", 5, 0, 40, commonPractice),
			lengthParam("hip_ease_cm", "Least ease at waist and hips", "the panels go round waist and hips with at least this to spare", 4, 0, 60, commonPractice),
			lengthParam("top_below_armpit_cm", "Upper edge below the armpit", "how far below the armpit the upper edge lies", 2, -4, 12, commonPractice),
			lengthParam("hem_above_floor_cm", "Hem above the floor", "how high the hem hangs", 15, 2, 90, commonPractice),
			lengthParam("side_gore_width_cm", "Width of a side gore", "base of each side gore", 25, 5, 80, fromThursfield+": 25 cm serves for most"),
			lengthParam("centre_gore_width_cm", "Width of a centre gore", "base of each gore set into the middle of front and back", 25, 5, 80, fromThursfield+": 25 cm serves for most"),
			lengthParam("strap_width_cm", "Width of a strap", "finished", 4, 1, 12, commonPractice),
			lengthParam("strap_ease_cm", "Ease of a strap", "added to the way from upper edge over the shoulder to upper edge", 4, 0, 30, commonPractice),
			lengthParam("strap_set_in_cm", "Strap below the upper edge", "how far below the upper edge a strap's end is sewn on, inside", 3, 0.5, 8, commonPractice),
			lengthParam("strap_turning_cm", "Turning of a strap", "allowance turned in along the strap's long edges and ends", 1, 0, 3, "common practice: 1 cm, a plain seam"),
		},
		Options: []Param{
			{"side_gores", "Side gores", "none, one isosceles gore a side, or a pair of right-angled gores a side, straight edge to straight edge", "", 4, 0, 4, commonPractice, []Choice{{0, "none"}, {2, "one a side, isosceles"}, {4, "two a side, right-angled"}}},
			{"centre_gores", "Centre gores", "gores set into slits cut up from the hem to the waist", "", 0, 0, 2, commonPractice, []Choice{{0, "none"}, {1, "front only"}, {2, "front and back"}}},
			{"gores_from", "Side gores start", "at the waist, or at the upper edge", "", 1, 0, 1, fromThursfield, []Choice{{0, "upper edge"}, {1, "waist"}}},
			hemAt(),
		},
	}
}

// overdress is the draft being worked out; depths are below the upper edge.
type overdress struct {
	*worked
	widthCM, lengthCM float64
	waistCM           float64 // depth of the waist
	goreCM            float64 // length of the side gores' seams, 0 for none
	slitCM            float64 // length of the centre gores' slits, 0 for none
	ventCM            float64 // how far the sides are left open above the hem, 0 for not
	strapMidCM        float64 // from the middle of the panel to the middle of a strap
}

func workOverdress(w *worked) error {
	o := &overdress{worked: w}
	for _, step := range []func() error{o.measure, o.measureGores, o.makePanels, o.makeGores, o.makeStraps} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// measure: each panel is half the bust girth plus ease, and at least goes round
// waist and hips; the upper edge lies at the armpit or below, the hem where it
// is wanted.
func (o *overdress) measure() error {
	bust, around := o.cm(BustGirth), o.v["hip_ease_cm"]
	o.widthCM = bust/2 + o.v["body_ease_cm"]
	from := fmt.Sprintf("2 × (½ × bust girth %g cm + %g cm ease)", bust, o.v["body_ease_cm"])
	if widest := max(o.cm(WaistGirth), o.cm(HipGirth)); (widest+around)/2 > o.widthCM {
		o.widthCM = (widest + around) / 2
		from = fmt.Sprintf("the larger of waist and hip girth %g cm + %g cm ease", widest, around)
	}
	if over := overShouldersCM(o.cm(ShoulderLength), o.cm(NeckBaseGirth), o.cm(UpperArmGirth)); over > 2*o.widthCM {
		o.note("The dress is %.1f cm round instead of %.1f cm, so that it goes over the shoulders.", over, 2*o.widthCM)
		o.widthCM = over / 2
		from = fmt.Sprintf("a loop over both shoulders %g cm and the neck between, one arm's thickness deep", o.cm(ShoulderLength))
	}
	o.size("chest_cm", "Girth of the upper edge", 2*o.widthCM, "%s", from)
	drop := o.cm(ScyeDepth) + o.v["top_below_armpit_cm"]
	neck := o.cm(BackNeckHeight)
	hem := o.hemHeight("Hem above the floor", o.v["hem_above_floor_cm"], "as wanted (hem_above_floor_cm)")
	o.lengthCM = neck - drop - hem
	o.waistCM = o.cm(BackNeckToWaist) - drop
	if o.waistCM < 1 {
		return fmt.Errorf("the upper edge would lie %.1f cm below the nape, at the waist; accepted is less, by a smaller top_below_armpit_cm", drop)
	}
	if least := o.waistCM + 10; o.lengthCM < least {
		return fmt.Errorf("the dress would be %.1f cm long; accepted is %.1f cm or more, by a smaller hem_above_floor_cm", o.lengthCM, least)
	}
	o.size("length_cm", "Length, upper edge to hem", o.lengthCM, "back neck height %g cm − scye depth %g cm − %g cm − hem %g cm above the floor", neck, o.cm(ScyeDepth), o.v["top_below_armpit_cm"], hem)
	return o.measureStraps(drop)
}

// measureStraps: a strap goes from the upper edge behind over the middle of the
// shoulder to the upper edge in front, and in at both ends.
func (o *overdress) measureStraps(drop float64) error {
	across, shoulder, wide := o.cm(AcrossBack), o.cm(ShoulderLength), o.v["strap_width_cm"]
	o.strapMidCM = across/2 - shoulder/2
	if o.strapMidCM-wide/2 < 0.5 || o.strapMidCM+wide/2 > o.widthCM/2-0.5 {
		return fmt.Errorf("straps of %g cm do not fit beside each other %.1f cm from the middle of a panel of %.1f cm; accepted are narrower ones", wide, o.strapMidCM, o.widthCM)
	}
	length := 2*drop + o.v["strap_ease_cm"] + 2*o.v["strap_set_in_cm"]
	if length < 10 {
		return fmt.Errorf("the straps would be %.1f cm long; accepted is 10 cm or more", length)
	}
	o.size("strap_length_cm", "Length of a strap", length, "2 × upper edge %.1f cm below the nape + %g cm ease + 2 × %g cm sewn in", drop, o.v["strap_ease_cm"], o.v["strap_set_in_cm"])
	return nil
}

func (o *overdress) measureGores() error {
	hem, from := 2*o.widthCM, fmt.Sprintf("2 × panel %.1f cm", o.widthCM)
	if n := o.v["side_gores"]; n > 0 {
		o.widenForStep(hem + o.v["centre_gores"]*o.v["centre_gore_width_cm"])
		o.goreCM = o.lengthCM - o.waistCM*o.v["gores_from"]
		o.narrowForLength("side_gore_width_cm", o.goreCM, map[float64]float64{2: 1.4, 4: 1}[n])
		hem += n * o.v["side_gore_width_cm"]
		from += fmt.Sprintf(" + %g side gores × %g cm", n, o.v["side_gore_width_cm"])
		o.size("side_gore_length_cm", "Side gores, along the seam", o.goreCM, "length %.1f cm − gore start %.1f cm", o.lengthCM, o.lengthCM-o.goreCM)
	}
	if n := o.v["centre_gores"]; n > 0 {
		o.slitCM = o.lengthCM - o.waistCM
		o.narrowForLength("centre_gore_width_cm", o.slitCM, 1.4)
		hem += n * o.v["centre_gore_width_cm"]
		from += fmt.Sprintf(" + %g centre gores × %g cm", n, o.v["centre_gore_width_cm"])
		o.size("centre_gore_length_cm", "Centre gores, along the slit", o.slitCM, "length %.1f cm − waist %.1f cm", o.lengthCM, o.waistCM)
	}
	o.size("hem_girth_cm", "Hem", hem, "%s", from)
	if o.v["side_gores"] == 0 {
		o.ventCM = o.ventForStep(hem, o.slitCM, o.lengthCM-4)
	}
	return nil
}

// makePanels: hem at x = 0. Right side up, the front has the wearer's left at
// y = 0 and the back the right.
func (o *overdress) makePanels() error {
	for _, f := range [][3]string{{"front", "left", "right"}, {"back", "right", "left"}} {
		o.add(o.panel(f[0], f[1], f[2]))
	}
	if o.lengthCM-o.goreCM > shortestEdgeCM {
		for _, side := range []string{"left", "right"} {
			o.sew(side+" side", "front panel", side+" side", "back panel", side+" side", 1)
		}
	}
	return nil
}

func (o *overdress) panel(face, low, high string) Piece {
	l, wide := o.lengthCM, o.widthCM
	points, edges := startAt(0, 0).
		to(o.goreCM, 0, low+" gore seam", FinishSeam).
		to(max(o.goreCM, o.ventCM), 0, low+" "+sideVent, FinishHem).
		to(l, 0, low+" side", FinishSeam).
		to(l, wide, "upper edge", FinishHem).
		to(max(o.goreCM, o.ventCM), wide, high+" side", FinishSeam).
		to(o.goreCM, wide, high+" "+sideVent, FinishHem).
		to(0, wide, high+" gore seam", FinishSeam).
		close("hem", FinishHem)
	p := Piece{Name: face + " panel", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges}
	half, down := o.v["strap_width_cm"]/2, l-o.v["strap_set_in_cm"]
	for i, side := range []string{low, high} {
		mid := wide/2 + o.strapMidCM*float64(2*i-1)
		line := []geometry.Point{{X: down, Y: mid - half}, {X: down, Y: mid + half}}
		p.Marks = append(p.Marks, Mark{side + " strap place", MarkPlace, line, false, FinishSeam})
	}
	if int(o.v["centre_gores"]) > map[string]int{"front": 0, "back": 1}[face] {
		_, m := o.goreSlit(face)
		p.Marks = append(p.Marks, m)
		p.Note = fmt.Sprintf("Cut a slit of %.1f cm for the centre gore.", o.slitCM)
	}
	return p
}

func (o *overdress) goreSlit(face string) (string, Mark) {
	line := []geometry.Point{{Y: o.widthCM / 2}, {X: o.slitCM, Y: o.widthCM / 2}}
	return face + " panel", Mark{face + " gore slit", MarkCut, line, false, FinishSeam}
}

func (o *overdress) makeGores() error {
	if n := int(o.v["side_gores"]); n > 0 {
		seam := func(face, side string) (string, string) { return face + " panel", side + " gore seam" }
		if err := o.sideGores(n, o.goreCM, o.v["side_gore_width_cm"], seam); err != nil {
			return err
		}
	}
	if n := int(o.v["centre_gores"]); n > 0 {
		return o.centreGores([]string{"front", "back"}[:n], o.slitCM, o.v["centre_gore_width_cm"], o.goreSlit)
	}
	return nil
}

// makeStraps: one thickness of cloth with its long edges turned in; the ends
// are felled onto the panels' strap places.
func (o *overdress) makeStraps() error {
	length, _ := o.g.SizeCM("strap_length_cm")
	wide, turning := o.v["strap_width_cm"], o.v["strap_turning_cm"]
	points, edges := startAt(0, 0).
		to(length, 0, "outer edge", FinishHem).
		to(length, wide, "front end", FinishSeam).
		to(0, wide, "inner edge", FinishHem).
		close("back end", FinishSeam)
	for i := range edges {
		edges[i].AllowanceCM = &turning
	}
	o.add(Piece{Name: "strap", Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges,
		Note: fmt.Sprintf("Fell each end inside the panel, %g cm below its upper edge.", o.v["strap_set_in_cm"])})
	for _, side := range []string{"left", "right"} {
		for _, face := range []string{"front", "back"} {
			o.sew(side+" strap to "+face, "strap", face+" end", face+" panel", side+" strap place", 1)
		}
	}
	return nil
}
