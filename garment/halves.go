package garment

import (
	"slices"

	"ellwand/geometry"
)

// Fronts and backs cut as two halves, one the mirror image of the other.

// halved says whether a face is cut as a half and its mirror image.
func (b *bodied) halved(face string) bool {
	if b.inOne {
		return false
	}
	return b.middleSeams || b.open && (face == "front" || b.backInTwo)
}

// goreLengthCM is how far a face's middle seam is left open for its gore.
func (b *bodied) goreLengthCM(face string) float64 {
	if slices.Contains(b.gored(), face) {
		return b.slitCM
	}
	return 0
}

// halfFront is the wearer's left half of a front with a seam down its middle,
// its side at y = 0; the right one is cut mirrored. The seam ends below the
// slit of the neck, and above a centre gore.
func (b *bodied) halfFront() Piece {
	mid, top := b.widthCM/2, b.lengthCM-b.neck.dropCM-b.neck.slitLenCM
	o := b.halfSide(b.neck.leftFront(), 1).to(top, mid, neckSlit, b.neckFinish())
	return b.closeHalf("front", o)
}

// halfBack is the wearer's right half of a back with a seam down its middle, its
// side at y = 0; the left one is cut mirrored.
func (b *bodied) halfBack() Piece {
	return b.closeHalf("back", b.halfSide(b.neck.rightBack(), -1))
}

func (b *bodied) closeHalf(face string, o *outline) Piece {
	mid := b.widthCM / 2
	points, edges := o.to(b.goreLengthCM(face), mid, "centre "+face, FinishSeam).
		to(0, mid, "centre gore seam", FinishSeam).
		close("hem", FinishHem)
	b.sew("centre "+face, face, "centre "+face, face, "centre "+face, 1)
	return Piece{Name: face, Copies: 2, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: b.turnedNeck(edges)}
}

// halfSide walks a half's side, shoulder and neck to the middle; dir is -1 when
// the neck line has to be turned round.
func (b *bodied) halfSide(neck []geometry.Point, dir float64) *outline {
	l, mid := b.lengthCM, b.widthCM/2
	o := startAt(0, 0)
	for _, r := range b.runs() {
		o.to(r.upTo, 0, r.what, r.finish)
	}
	o.to(l, mid-b.neck.halfWidthCM, "shoulder", FinishSeam)
	for _, p := range neck[1:] {
		o.to(l+dir*p.X, mid+dir*p.Y, "neck", b.neckFinish())
	}
	return o
}

func (b *bodied) turnedNeck(edges []Edge) []Edge {
	turning := b.v[b.turning()]
	for i := range edges {
		if edges[i].Name == "neck" || edges[i].Name == neckSlit {
			edges[i].AllowanceCM = &turning
		}
	}
	return edges
}

// sewCentreGores sews the gores into the lower ends of the middle seams.
func (b *bodied) sewCentreGores() error {
	faces := b.gored()
	p, err := isosceles("centre gore", len(faces), b.slitCM, b.v["centre_gore_width_cm"], "left side", "right side")
	if err != nil {
		return err
	}
	p.Mirrored = false
	p.Note = "Set into the lower end of the seam in the middle."
	b.add(p)
	for _, face := range faces {
		for _, side := range []string{"left", "right"} {
			b.sew("centre "+face+" gore, "+side, face, "centre gore seam", p.Name, side+" side", 1)
		}
	}
	return nil
}

// faceHalves sews the neck of a body in halves to its facing, from the left
// shoulder round the front.
func (b *bodied) faceHalves(facing string) {
	f := b.neck.frontShare()
	at := []float64{0, f / 2, f, (1 + f) / 2, 1}
	for i, where := range [][2]string{{"front", "left"}, {"front", "right"}, {"back", "right"}, {"back", "left"}} {
		b.sewPart(where[1]+" "+where[0]+" neck to facing", whole(where[0], "neck"), part(facing, neckOpening, at[i], at[i+1]), 1)
	}
	if b.neck.slitLenCM >= shortestEdgeCM {
		left, right := Mark{Name: neckSlit}.Lips()
		b.sew("neck slit to facing, left", "front", neckSlit, facing, left, 1)
		b.sew("neck slit to facing, right", "front", neckSlit, facing, right, 1)
	}
}
