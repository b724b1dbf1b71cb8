package garment

import "ellwand/geometry"

// tiedBand is a band folded over a raw edge and run on at both ends as ties: cut
// twice its width, its middle part sewn along its outer edge, the inner edge
// felled down. The seam's edge is "band seam". All lengths are cm.
func tiedBand(name string, seamCM, tieCM, wideCM, turningCM float64) Piece {
	length := seamCM + 2*tieCM
	o := startAt(0, 0).
		to(tieCM, 0, "left tie edge", FinishHem).
		to(tieCM+seamCM, 0, "band seam", FinishSeam).
		to(length, 0, "right tie edge", FinishHem).
		to(length, 2*wideCM, "right end", FinishHem).
		to(0, 2*wideCM, "inner edge", FinishHem)
	points, edges := o.close("left end", FinishHem)
	return Piece{
		Name: name, Copies: 1, Grain: GrainWarp, Outline: points, Edges: allAllowances(edges, turningCM),
		Marks: []Mark{{"fold", MarkFold, []geometry.Point{{Y: wideCM}, {X: length, Y: wideCM}}, false, ""}},
		Note:  "Fold along the middle; the ends beyond the seam are the ties.",
	}
}

func placeLine(name string, x0, y0, x1, y1 float64) Mark {
	return Mark{name, MarkPlace, []geometry.Point{{X: x0, Y: y0}, {X: x1, Y: y1}}, false, FinishSeam}
}

// allAllowances gives every edge the same allowance of its own.
func allAllowances(edges []Edge, cm float64) []Edge {
	for i := range edges {
		edges[i].AllowanceCM = &cm
	}
	return edges
}
