package plan

import (
	"fmt"

	"ellwand/layout"
)

// maxCorners is the most corners that all pieces to be laid may have together.
// It bounds the memory and the time that opening any plan can take.
const maxCorners = 100_000

// maxDrawn is the most corners that all pieces may have written out, each piece
// once: a garment of a dozen traced pieces stays far below, and the tree of
// values that a file is read into takes most of the memory.
const maxDrawn = 25_000

// drawn refuses more corners written out than that, at the piece that is one
// too many.
func (c *checker) drawn() {
	all := 0
	for _, piece := range c.plan.Pieces {
		if all += len(piece.Points); all > maxDrawn {
			c.wrong(pieceField(piece.Name)+".points", fmt.Sprintf("brings the corners written out in all pieces to %d", all), fmt.Sprintf("at most %d in one plan", maxDrawn))
			return
		}
	}
}

// within refuses more pieces, or more corners, than can be laid.
func (pr *Prepared) within(name string, copies, corners int) error {
	if n := len(pr.Problem.Items) + copies; n > layout.MaxItems {
		return &Problem{Field: pieceField(name), Text: fmt.Sprintf("makes %d pieces to lay with those before it", n), Accepted: fmt.Sprintf("at most %d in all", layout.MaxItems)}
	}
	all := copies * corners
	for _, it := range pr.Problem.Items {
		all += len(it.Outline)
	}
	if all > maxCorners {
		return &Problem{Field: pieceField(name), Text: fmt.Sprintf("brings the corners of all pieces to %d", all), Accepted: fmt.Sprintf("at most %d in all, copies counted", maxCorners)}
	}
	return nil
}
