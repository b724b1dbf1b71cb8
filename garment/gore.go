package garment

import (
	"fmt"
	"math"
)

// Gores and gussets, in the frame of geometry's shapes: base at x = 0.

// isosceles is a gore whose two sides are each sideCM long, so that they match
// the straight edges they are sewn to; its height is √(side² − (base/2)²). The
// hem is rounded off where it hangs, not on the piece.
func isosceles(name string, copies int, sideCM, baseCM float64, left, right string) (Piece, error) {
	if baseCM/2 >= 0.7*sideCM {
		return Piece{}, fmt.Errorf("%s: a base of %g cm is too wide for sides of %.1f cm; accepted is less than %.1f cm", name, baseCM, sideCM, 1.4*sideCM)
	}
	height := math.Sqrt(sideCM*sideCM - baseCM*baseCM/4)
	points, edges := startAt(0, 0).
		to(height, baseCM/2, left, FinishSeam).
		to(0, baseCM, right, FinishSeam).
		close("base", FinishHem)
	return Piece{Name: name, Copies: copies, Mirrored: copies > 1, Grain: GrainWarp, Outline: points, Edges: edges}, nil
}

// halfGore is a right-angled gore: its straight side, with the warp, goes to the
// straight edge of the panel, its slanted side to that of its pair. Two lie in
// one rectangle without waste.
func halfGore(name string, copies int, straightCM, baseCM float64) (Piece, error) {
	if baseCM >= straightCM {
		return Piece{}, fmt.Errorf("%s: a base of %g cm is too wide for a straight side of %.1f cm; accepted is less than the straight side", name, baseCM, straightCM)
	}
	points, edges := startAt(0, 0).
		to(straightCM, 0, "straight side", FinishSeam).
		to(0, baseCM, "slanted side", FinishSeam).
		close("base", FinishHem)
	return Piece{Name: name, Copies: copies, Mirrored: true, Grain: GrainWarp, Outline: points, Edges: edges}, nil
}

// sideGores are the gores between a front and a back panel at both sides; seam
// names the panels' edges. count is 2 (one isosceles gore a side) or 4 (a pair
// of right-angled gores a side).
func (w *worked) sideGores(count int, sideCM, baseCM float64, seam func(face, side string) (piece, edge string)) error {
	name, build := "side gore", func(name string) (Piece, error) {
		return isosceles(name, 2, sideCM, baseCM, "front side", "back side")
	}
	if count == 4 {
		name, build = "side half-gore", func(name string) (Piece, error) {
			return halfGore(name, 4, sideCM, baseCM)
		}
	}
	p, err := build(name)
	if err != nil {
		return err
	}
	w.add(p)
	for _, side := range []string{"left", "right"} {
		for _, face := range []string{"front", "back"} {
			piece, edge := seam(face, side)
			goreEdge := "straight side"
			if count == 2 {
				goreEdge = face + " side"
			}
			w.sew(side+" gore to "+face, piece, edge, name, goreEdge, 1)
		}
	}
	if count == 4 {
		w.sew("half-gores together", name, "slanted side", name, "slanted side", 2)
	}
	return nil
}

// centreGores are the gores set into slits cut up from the hem of the faces
// given; slit names the piece and the slit of each face.
func (w *worked) centreGores(faces []string, slitCM, baseCM float64, slit func(face string) (piece string, m Mark)) error {
	p, err := isosceles("centre gore", len(faces), slitCM, baseCM, "left side", "right side")
	if err != nil {
		return err
	}
	p.Mirrored = false
	p.Note = "Set into the slit cut in the middle of the panel."
	w.add(p)
	for _, face := range faces {
		piece, m := slit(face)
		left, right := m.Lips()
		w.sew("centre "+face+" gore, left", piece, left, p.Name, "left side", 1)
		w.sew("centre "+face+" gore, right", piece, right, p.Name, "right side", 1)
	}
	return nil
}

// squareGusset is the underarm gusset: two of its sides go to the sleeve, two
// to the body; the corner between the body's sides points down.
func squareGusset(sideCM float64) Piece {
	points, edges := startAt(0, 0).
		to(sideCM, 0, "front sleeve side", FinishSeam).
		to(sideCM, sideCM, "front body side", FinishSeam).
		to(0, sideCM, "back body side", FinishSeam).
		close("back sleeve side", FinishSeam)
	return Piece{Name: "underarm gusset", Copies: 2, Mirrored: true, Grain: GrainFree, Outline: points, Edges: edges}
}

// pointedGusset is a diamond whose sides are as long as a square gusset's, but
// which is narrower from front to back: its upper point runs up the sleeve, its
// lower one down the body.
func pointedGusset(sideCM, wideCM float64) (Piece, error) {
	if wideCM > 1.8*sideCM {
		return Piece{}, fmt.Errorf("a pointed gusset with sides of %g cm cannot be %g cm wide; accepted is up to %.1f cm", sideCM, wideCM, 1.8*sideCM)
	}
	half := math.Sqrt(sideCM*sideCM - wideCM*wideCM/4)
	points, edges := startAt(0, wideCM/2).
		to(half, 0, "front sleeve side", FinishSeam).
		to(2*half, wideCM/2, "front body side", FinishSeam).
		to(half, wideCM, "back body side", FinishSeam).
		close("back sleeve side", FinishSeam)
	return Piece{Name: "underarm gusset", Copies: 2, Mirrored: true, Grain: GrainFree, Outline: points, Edges: edges}, nil
}
