package garment

import (
	"fmt"
	"math"
)

// Shapes of a sleeve, as sleeve_shape numbers them.
const (
	sleeveStraight = 0
	sleeveTapered  = 1
	sleeveGored    = 2
)

// sleeveGore is the name of the gores of a gored sleeve.
const sleeveGore = "sleeve gore"

// makeSleeves: the head is sewn to the armhole, half in front and half behind.
func (b *bodied) makeSleeves() error {
	if b.v["sleeve_shape"] == sleeveGored {
		return b.makeGoredSleeves()
	}
	mid := max(b.topCM, b.cuffCM) / 2
	slant := math.Hypot(b.sleeveCM, (b.topCM-b.cuffCM)/2)
	at := func(along float64) (x, half float64) { // along the slanted side from the head
		t := along / slant
		return t * b.sleeveCM, (b.topCM + t*(b.cuffCM-b.topCM)) / 2
	}
	gx, gh := at(b.gussetCM)
	points, edges := startAt(0, mid-b.topCM/2).
		to(gx, mid-gh, "front gusset seam", FinishSeam).
		to(b.sleeveCM, mid-b.cuffCM/2, "front underarm", FinishSeam).
		to(b.sleeveCM, mid+b.cuffCM/2, "cuff", FinishHem).
		to(gx, mid+gh, "back underarm", FinishSeam).
		to(0, mid+b.topCM/2, "back gusset seam", FinishSeam).
		close("head", FinishSeam)
	b.add(Piece{
		Name: "sleeve", Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges,
		Note: "Both halves are alike: either long side may go to the front.",
	})
	b.sew("underarm", "sleeve", "front underarm", "sleeve", "back underarm", 2)
	for _, side := range []string{"left", "right"} {
		f, fe := b.at("front", side, "armhole")
		k, ke := b.at("back", side, "armhole")
		b.sewPart(side+" armhole, front", whole(f, fe), part("sleeve", "head", 0.5, 1), 1)
		b.sewPart(side+" armhole, back", whole(k, ke), part("sleeve", "head", 0, 0.5), 1)
	}
	return nil
}

func (b *bodied) makeGussets() error {
	if b.gussetCM == 0 {
		return nil
	}
	p := squareGusset(b.gussetCM)
	if b.v["underarm_gusset"] == 2 {
		var err error
		if p, err = pointedGusset(b.gussetCM, b.v["pointed_gusset_wide_cm"]); err != nil {
			return err
		}
	}
	b.add(p)
	for _, face := range []string{"front", "back"} {
		if b.v["sleeve_shape"] == sleeveGored {
			b.sew("gusset to sleeve, "+face, sleeveGore, "gusset seam", p.Name, face+" sleeve side", 2)
		} else {
			b.sew("gusset to sleeve, "+face, "sleeve", face+" gusset seam", p.Name, face+" sleeve side", 2)
		}
		for _, side := range []string{"left", "right"} {
			piece, edge := b.at(face, side, "gusset seam")
			b.sew(side+" gusset to "+face, piece, edge, p.Name, face+" body side", 1)
		}
	}
	return nil
}

// makeGoredSleeves: a strip as wide as the cuff, and at each of its sides a
// right-angled gore that widens it to the top; the gores' slanted sides are the
// underarm seam. Two gores lie in one rectangle without waste.
func (b *bodied) makeGoredSleeves() error {
	base := (b.topCM - b.cuffCM) / 2
	if base < 1.5 {
		return fmt.Errorf("the sleeve's gores would be %.1f cm wide; accepted is 1.5 cm or more, by a larger upper_arm_ease_cm, a smaller cuff_ease_cm or another sleeve_shape", base)
	}
	points, edges := startAt(0, 0).
		to(b.sleeveCM, 0, "front gore seam", FinishSeam).
		to(b.sleeveCM, b.cuffCM, "cuff", FinishHem).
		to(0, b.cuffCM, "back gore seam", FinishSeam).
		close("head", FinishSeam)
	b.add(Piece{Name: "sleeve", Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges,
		Note: "Both halves are alike: either long side may go to the front."})
	t := b.gussetCM / math.Hypot(b.sleeveCM, base)
	points, edges = startAt(0, 0).
		to(b.sleeveCM, 0, "straight side", FinishSeam).
		to(t*b.sleeveCM, (1-t)*base, "underarm", FinishSeam).
		to(0, base, "gusset seam", FinishSeam).
		close("top", FinishSeam)
	b.add(Piece{Name: sleeveGore, Copies: 4, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges})
	b.sew("underarm", sleeveGore, "underarm", sleeveGore, "underarm", 2)
	for _, face := range []string{"front", "back"} {
		b.sew("sleeve gore, "+face, "sleeve", face+" gore seam", sleeveGore, "straight side", 2)
		for _, side := range []string{"left", "right"} {
			b.sewGoredHead(face, side)
		}
	}
	return nil
}

// sewGoredHead: of the armhole's half, the part next to the shoulder line goes
// to the strip's head, the rest to the top of the gore.
func (b *bodied) sewGoredHead(face, side string) {
	piece, edge := b.at(face, side, "armhole")
	strip := b.cuffCM / b.topCM
	head := part("sleeve", "head", 0, 0.5)
	if face == "front" {
		head = part("sleeve", "head", 0.5, 1)
	}
	toStrip, toGore := part(piece, edge, 0, strip), part(piece, edge, strip, 1)
	if b.fromUnderarm(face, side) {
		toStrip, toGore = part(piece, edge, 1-strip, 1), part(piece, edge, 0, 1-strip)
	}
	b.sewPart(side+" armhole, "+face, toStrip, head, 1)
	b.sewPart(side+" armhole, "+face+" gore", toGore, whole(sleeveGore, "top"), 1)
}

// fromUnderarm says whether an armhole's edge is walked from the underarm up to
// the shoulder line, rather than down.
func (b *bodied) fromUnderarm(face, side string) bool {
	if b.halved(face) {
		return true
	}
	return (face == "front") == (side == "left")
}
