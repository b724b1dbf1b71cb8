package garment

import (
	"fmt"

	"ellwand/geometry"
)

// bodied is what tunic, shift, gown and coat share: a straight body, two sleeves
// with underarm gussets, gores and a neck. All lengths are cm; depths are
// measured down from the shoulder line.
type bodied struct {
	*worked
	widthCM       float64 // of one half of the body, front or back
	lengthCM      float64 // shoulder line to hem
	armholeCM     float64 // half the sleeve's width at the top
	gussetCM      float64 // 0 without gussets
	goreTopCM     float64 // depth at which the side gores start
	ventCM        float64 // how far the sides are left open above the hem, for a step; 0 for none
	slitCM        float64 // length of the slits for the centre gores; 0 for none
	sleeveCM      float64
	topCM, cuffCM float64 // the sleeve's width at head and cuff
	neck          neckShape
	inOne         bool
	middleSeams   bool    // fronts and backs in halves, and not in one
	open          bool    // down the middle of the front
	backInTwo     bool    // of an open body: a seam down the middle of the back
	overlapCM     float64 // how far each front edge reaches beyond the middle
}

// workBodied works the garment out; lengthCM is shoulder line to hem.
func workBodied(w *worked, lengthCM float64, lengthFrom string) error {
	middle := w.v["middle_seams"] == 1
	b := &bodied{worked: w, middleSeams: middle, inOne: w.v["body_in_one"] == 1 && !middle}
	return b.work(lengthCM, lengthFrom)
}

func (b *bodied) work(lengthCM float64, lengthFrom string) error {
	b.lengthCM = lengthCM
	b.size("length_cm", "Length, shoulder to hem", lengthCM, "%s", lengthFrom)
	for _, step := range []func() error{
		b.measureBody, b.measureSleeve, b.measureGores, b.measureNeck,
		b.makeBody, b.makeSleeves, b.makeGussets, b.makeGores, b.makeFacing,
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// measureBody: each half of the body is half the bust girth plus body_ease_cm
// (Thursfield: half the chest plus 8 to 20 cm or more), and never less than
// goes round waist and hips with hip_ease_cm to spare in the whole girth.
func (b *bodied) measureBody() error {
	ease, around := b.v["body_ease_cm"], b.v["hip_ease_cm"]
	bust, waist, hip := b.cm(BustGirth), b.cm(WaistGirth), b.cm(HipGirth)
	b.widthCM = bust/2 + ease
	from := fmt.Sprintf("2 × (½ × bust girth %g cm + %g cm ease)", bust, ease)
	if wide := (max(waist, hip) + around) / 2; wide > b.widthCM {
		b.note("The body is %.1f cm wide instead of %.1f cm, so that it goes round waist and hips.", wide, b.widthCM)
		b.widthCM = wide
		from = fmt.Sprintf("the larger of waist girth %g cm and hip girth %g cm + %g cm ease", waist, hip, around)
	}
	over := overShouldersCM(b.cm(ShoulderLength), b.cm(NeckBaseGirth), b.cm(UpperArmGirth))
	if !b.open && over > 2*b.widthCM {
		b.note("The body is %.1f cm wide instead of %.1f cm, so that it goes over the shoulders.", over/2, b.widthCM)
		b.widthCM = over / 2
		from = fmt.Sprintf("a loop over both shoulders %g cm and the neck between, one arm's thickness deep", b.cm(ShoulderLength))
	}
	b.size("chest_cm", "Girth of the body", 2*b.widthCM, "%s", from)
	return nil
}

// measureSleeve: the top is the upper arm plus ease; the length is what is left
// of nape to wrist beyond half the body's width; the cuff lets the hand through.
// A sleeve shorter than the arm is the long one cut off.
func (b *bodied) measureSleeve() error {
	arm, wrist, hand := b.cm(UpperArmGirth), b.cm(BackNeckToWrist), b.cm(HandGirth)
	b.topCM = arm + b.v["upper_arm_ease_cm"]
	topFrom := fmt.Sprintf("upper arm girth %g cm + %g cm ease", arm, b.v["upper_arm_ease_cm"])
	if b.v["underarm_gusset"] != 0 {
		b.gussetCM = b.v["gusset_side_cm"]
	} else {
		b.topCM += b.v["no_gusset_extra_cm"]
		topFrom += fmt.Sprintf(" + %g cm in place of a gusset", b.v["no_gusset_extra_cm"])
	}
	b.armholeCM = b.topCM / 2
	toWrist := wrist - b.widthCM/2
	b.sleeveCM = toWrist + b.v["sleeve_extra_cm"]
	if least := max(10, b.gussetCM+3); b.sleeveCM < least {
		return fmt.Errorf("the sleeve would be %.1f cm long; accepted is %.1f cm or more, by a larger sleeve_extra_cm", b.sleeveCM, least)
	}
	b.lengthenForReach(toWrist)
	b.cuffCM = b.topCM
	cuffFrom := topFrom
	if b.v["sleeve_shape"] != sleeveStraight {
		atWrist := hand + b.v["cuff_ease_cm"]
		b.cuffCM = b.topCM + (atWrist-b.topCM)*min(1, b.sleeveCM/toWrist)
		cuffFrom = fmt.Sprintf("hand girth %g cm + %g cm ease", hand, b.v["cuff_ease_cm"])
		if b.sleeveCM < toWrist {
			cuffFrom = fmt.Sprintf("the taper from %.1f cm to %.1f cm at the wrist, cut off at %.1f of %.1f cm", b.topCM, atWrist, b.sleeveCM, toWrist)
		}
	}
	b.size("sleeve_length_cm", "Length of the sleeve", b.sleeveCM, "back neck to wrist %g cm − ½ × body width %.1f cm, and %+g cm", wrist, b.widthCM, b.v["sleeve_extra_cm"])
	b.size("sleeve_top_cm", "Sleeve at the top", b.topCM, "%s", topFrom)
	b.size("cuff_cm", "Sleeve at the cuff", b.cuffCM, "%s", cuffFrom)
	b.measureUnderarm(toWrist)
	b.size("armhole_depth_cm", "Depth of armhole and gusset", b.armholeCM+b.gussetCM, "½ × sleeve top %.1f cm + gusset %g cm", b.topCM, b.gussetCM)
	return nil
}

// measureGores: gores start at the waist (Thursfield: gore length is garment
// length less back length) or right below the gusset.
func (b *bodied) measureGores() error {
	under := b.armholeCM + b.gussetCM
	waist := max(b.cm(BackNeckToWaist), under)
	if least := waist + 8; b.lengthCM < least {
		return fmt.Errorf("the body would be %.1f cm long; accepted is %.1f cm or more, by a lower hem", b.lengthCM, least)
	}
	b.goreTopCM = waist
	if b.v["gores_from"] == 0 {
		b.goreTopCM = under
	}
	hem := 2 * b.widthCM
	from := fmt.Sprintf("2 × body width %.1f cm", b.widthCM)
	if b.overlapCM > 0 {
		hem += 2 * b.overlapCM
		from += fmt.Sprintf(" + 2 × lap %g cm", b.overlapCM)
	}
	if n := b.v["side_gores"]; n > 0 {
		if !b.open {
			b.widenForStep(hem + b.v["centre_gores"]*b.v["centre_gore_width_cm"])
		}
		b.narrowForLength("side_gore_width_cm", b.lengthCM-b.goreTopCM, map[float64]float64{2: 1.4, 4: 1}[n])
		hem += n * b.v["side_gore_width_cm"]
		from += fmt.Sprintf(" + %g side gores × %g cm", n, b.v["side_gore_width_cm"])
		b.size("side_gore_length_cm", "Side gores, along the seam", b.lengthCM-b.goreTopCM, "length %.1f cm − gore start %.1f cm", b.lengthCM, b.goreTopCM)
	}
	if n := b.v["centre_gores"]; n > 0 {
		b.slitCM = b.lengthCM - waist
		b.narrowForLength("centre_gore_width_cm", b.slitCM, 1.4)
		hem += n * b.v["centre_gore_width_cm"]
		from += fmt.Sprintf(" + %g centre gores × %g cm", n, b.v["centre_gore_width_cm"])
		b.size("centre_gore_length_cm", "Centre gores, along the slit", b.slitCM, "length %.1f cm − waist %.1f cm", b.lengthCM, waist)
	}
	b.size("hem_girth_cm", "Hem", hem, "%s", from)
	if b.v["side_gores"] == 0 && !b.open {
		b.ventCM = b.ventForStep(hem, b.slitCM, b.lengthCM-under-4)
	}
	return nil
}

// at names the edge of the body that is on the given face and side.
func (b *bodied) at(face, side, what string) (piece, edge string) {
	if b.inOne {
		return "body", side + " " + face + " " + what
	}
	if b.halved(face) {
		return face, what // the piece is cut twice, once mirrored
	}
	return face, side + " " + what
}

func (b *bodied) edge(face, side, what string) string {
	_, edge := b.at(face, side, what)
	return edge
}

// runs are the edges along one side of one face, from the hem up to the
// shoulder line, with the height above the hem at which each ends.
func (b *bodied) runs() []run {
	l := b.lengthCM
	runs := []run{
		{"gore seam", l - b.goreTopCM, FinishSeam},
		{"side", l - b.armholeCM - b.gussetCM, FinishSeam},
		{"gusset seam", l - b.armholeCM, FinishSeam},
		{"armhole", l, FinishSeam},
	}
	switch {
	case b.v["side_gores"] > 0:
		return runs
	case b.ventCM > 0:
		runs[0] = run{sideVent, b.ventCM, FinishHem}
		return runs
	}
	return runs[1:]
}

type run struct {
	what   string
	upTo   float64
	finish Finish
}

// makeBody: in one piece over the shoulders the front hem is at x = 0 and the
// back hem at twice the length; as two pieces each has its hem at x = 0. Right
// side up, the front has the wearer's left at y = 0 and the back the right.
func (b *bodied) makeBody() error {
	switch {
	case b.inOne:
		b.add(b.bodyInOne())
	case b.middleSeams:
		b.add(b.halfFront())
		b.add(b.halfBack())
	case b.open:
		b.add(b.openFront())
		if b.backInTwo {
			b.add(b.halfBack())
		} else {
			b.add(b.bodyHalf("back", "right", "left", b.neck.back, 1))
		}
	default:
		b.add(b.bodyHalf("front", "left", "right", b.neck.front, -1))
		b.add(b.bodyHalf("back", "right", "left", b.neck.back, 1))
	}
	for _, side := range []string{"left", "right"} {
		f, fe := b.at("front", side, "side")
		k, ke := b.at("back", side, "side")
		if b.hasEdge(f, fe) {
			b.sew(side+" side", f, fe, k, ke, 1)
		}
		if !b.inOne {
			b.sew(side+" shoulder", f, b.edge("front", side, "shoulder"), k, b.edge("back", side, "shoulder"), 1)
		}
	}
	return nil
}

func (b *bodied) hasEdge(piece, edge string) bool {
	p, ok := b.g.Piece(piece)
	return ok && EdgeLengthsCM(p)[edge] > 0
}

func (b *bodied) bodyInOne() Piece {
	l, wide := b.lengthCM, b.widthCM
	o, runs := startAt(0, 0), b.runs()
	up := func(side, face string, y float64, place func(float64) float64) {
		for _, r := range runs {
			o.to(place(r.upTo), y, side+" "+face+" "+r.what, r.finish)
		}
	}
	down := func(side, face string, y float64, place func(float64) float64) {
		for i := len(runs) - 1; i >= 0; i-- {
			end := 0.0
			if i > 0 {
				end = runs[i-1].upTo
			}
			o.to(place(end), y, side+" "+face+" "+runs[i].what, runs[i].finish)
		}
	}
	front := func(h float64) float64 { return h }
	back := func(h float64) float64 { return 2*l - h }
	up("left", "front", 0, front)
	down("left", "back", 0, back)
	o.to(2*l, wide, "back hem", FinishHem)
	up("right", "back", wide, back)
	down("right", "front", wide, front)
	points, edges := o.close("front hem", FinishHem)
	p := Piece{Name: "body", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges, Note: b.bodyNote()}
	p.Marks = append(b.neck.marks(l, wide/2, b.neckFinish()), b.shoulderLines()...)
	if b.open {
		p.Marks = append(p.Marks, b.frontCut())
	}
	for _, face := range b.gored() {
		_, m := b.goreSlit(face)
		p.Marks = append(p.Marks, m)
	}
	return p
}

func (b *bodied) bodyNote() string {
	note := "Cut the neck opening out only when the facing is sewn round it."
	if b.v["neck_facing"] == 0 {
		note = "Cut the neck opening out inside its line, leaving enough to hem."
	}
	if b.open {
		note += " Cut the front open down its middle."
	}
	if b.slitCM > 0 {
		note += fmt.Sprintf(" Cut a slit of %.1f cm for each centre gore.", b.slitCM)
	}
	return note
}

func (b *bodied) shoulderLines() []Mark {
	l, mid, half := b.lengthCM, b.widthCM/2, b.neck.halfWidthCM
	return []Mark{
		{"left shoulder line", MarkFold, []geometry.Point{{X: l}, {X: l, Y: mid - half}}, false, ""},
		{"right shoulder line", MarkFold, []geometry.Point{{X: l, Y: mid + half}, {X: l, Y: b.widthCM}}, false, ""},
	}
}

// bodyHalf is the front or the back as a piece of its own; low is the wearer's
// side at y = 0. neckLine runs along the neck about the middle of the shoulder
// line; dir is +1 when its drop has to be turned round to point to the hem.
func (b *bodied) bodyHalf(face, low, high string, neckLine []geometry.Point, dir float64) Piece {
	l, wide, runs := b.lengthCM, b.widthCM, b.runs()
	o := startAt(0, 0)
	for _, r := range runs {
		o.to(r.upTo, 0, low+" "+r.what, r.finish)
	}
	mid, half := wide/2, b.neck.halfWidthCM
	o.to(l, mid-half, low+" shoulder", FinishSeam)
	for _, p := range neckLine[1:] {
		o.to(l-dir*p.X, mid-dir*p.Y, "neck", b.neckFinish())
	}
	o.to(l, wide, high+" shoulder", FinishSeam)
	for i := len(runs) - 1; i >= 0; i-- {
		end := 0.0
		if i > 0 {
			end = runs[i-1].upTo
		}
		o.to(end, wide, high+" "+runs[i].what, runs[i].finish)
	}
	points, edges := o.close("hem", FinishHem)
	p := Piece{Name: face, Copies: 1, Grain: GrainWarp, Outline: points, Edges: b.turnedNeck(edges)}
	if face == "front" {
		p.Marks = b.neck.slit(l, mid, b.neckFinish())
	}
	for _, f := range b.gored() {
		if piece, m := b.goreSlit(f); piece == face {
			p.Marks = append(p.Marks, m)
			p.Note = fmt.Sprintf("Cut a slit of %.1f cm for the centre gore.", b.slitCM)
		}
	}
	return p
}

// gored is the faces that have a centre gore.
func (b *bodied) gored() []string {
	if b.open {
		return []string{"back"}[:int(b.v["centre_gores"])]
	}
	return []string{"front", "back"}[:int(b.v["centre_gores"])]
}

// goreSlit is the slit for the centre gore of a face, and the piece it is in.
func (b *bodied) goreSlit(face string) (string, Mark) {
	piece, hem, end := face, 0.0, b.slitCM
	if b.inOne {
		piece = "body"
		if face == "back" {
			hem, end = 2*b.lengthCM, 2*b.lengthCM-b.slitCM
		}
	}
	line := []geometry.Point{{X: hem, Y: b.widthCM / 2}, {X: end, Y: b.widthCM / 2}}
	return piece, Mark{face + " gore slit", MarkCut, line, false, FinishSeam}
}

func (b *bodied) makeGores() error {
	if n := int(b.v["side_gores"]); n > 0 {
		seam := func(face, side string) (string, string) { return b.at(face, side, "gore seam") }
		if err := b.sideGores(n, b.lengthCM-b.goreTopCM, b.v["side_gore_width_cm"], seam); err != nil {
			return err
		}
	}
	if n := int(b.v["centre_gores"]); n > 0 {
		if b.halved("back") {
			return b.sewCentreGores()
		}
		return b.centreGores(b.gored(), b.slitCM, b.v["centre_gore_width_cm"], b.goreSlit)
	}
	return nil
}
