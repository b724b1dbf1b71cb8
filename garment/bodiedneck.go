package garment

import "fmt"

// slitForHead is the slit that is wanted, or one long enough to let the head
// through with headRoomCM; a neck without slit stays without.
func (b *bodied) slitForHead(openingCM float64) float64 {
	wanted := b.v["neck_slit_cm"]
	least := (b.cm(HeadGirth) + headRoomCM - openingCM) / 2
	if wanted < shortestEdgeCM || least <= wanted {
		return wanted
	}
	b.note("The slit at the neck is %.1f cm long instead of %g cm, so that the head goes through.", least, wanted)
	return least
}

// measureNeck: the opening is the neck's base plus ease.
func (b *bodied) measureNeck() error {
	base, ease := b.cm(NeckBaseGirth), b.v["neck_ease_cm"]
	n, err := shapeNeck(int(b.v["neck_shape"]), base+ease, b.v["neck_half_width_share"], b.v["neck_back_drop_cm"], b.slitForHead(base+ease))
	if err != nil {
		return err
	}
	b.neck = n
	if turning := b.v[b.turning()]; !b.inOne && turning > 0.9*n.curveCM {
		return fmt.Errorf("%s is %g cm; accepted at so flat a neck is up to %.1f cm, or take a smaller neck_half_width_share", b.turning(), turning, 0.9*n.curveCM)
	}
	if room := b.widthCM/2 - n.halfWidthCM; room < 3 {
		return fmt.Errorf("the neck opening leaves %.1f cm of shoulder; accepted is 3 cm or more, by a smaller neck_ease_cm", room)
	}
	if deep := b.lengthCM - b.slitCM; n.dropCM+n.slitLenCM > deep-5 {
		return fmt.Errorf("the neck opening and slit reach %.1f cm down; accepted is less than %.1f cm", n.dropCM+n.slitLenCM, deep-5)
	}
	b.size("neck_opening_cm", "Neck opening", n.girthCM, "neck base girth %g cm + %g cm ease", base, ease)
	if b.open {
		return nil
	}
	b.size("head_passage_cm", "Neck opening with its slit", n.passageCM(), "opening %.1f cm + 2 × slit %.4g cm", n.girthCM, n.slitLenCM)
	return nil
}

func (b *bodied) neckFinish() Finish {
	if b.v["neck_facing"] == 1 {
		return FinishSeam
	}
	return FinishHem
}

func (b *bodied) makeFacing() error {
	if b.v["neck_facing"] == 0 {
		return nil
	}
	p := b.neck.facing(b.v["facing_width_cm"], b.v["facing_turning_cm"])
	if wide := p.Outline.Bounds().Height(); wide > b.widthCM {
		return fmt.Errorf("the neck facing would be %.1f cm wide on a body of %.1f cm; accepted is a smaller facing_width_cm", wide, b.widthCM)
	}
	b.add(p)
	if b.middleSeams {
		b.faceHalves(p.Name)
		return nil
	}
	slitIn := "front"
	if b.inOne {
		slitIn = "body"
		b.sew("neck to facing", "body", neckOpening, p.Name, neckOpening, 1)
	} else {
		f := b.neck.frontShare()
		b.sewPart("front neck to facing", whole("front", "neck"), part(p.Name, neckOpening, 0, f), 1)
		b.sewPart("back neck to facing", whole("back", "neck"), part(p.Name, neckOpening, f, 1), 1)
	}
	if b.neck.slitLenCM >= shortestEdgeCM {
		left, right := Mark{Name: neckSlit}.Lips()
		b.sew("neck slit to facing, left", slitIn, left, p.Name, left, 1)
		b.sew("neck slit to facing, right", slitIn, right, p.Name, right, 1)
	}
	return nil
}
