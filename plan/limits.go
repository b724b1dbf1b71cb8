package plan

import (
	"fmt"

	"ellwand/layout"
)

// maxCorners is the most corners that all pieces to be laid may have together.
// It bounds the memory and the time that opening any plan can take.
const maxCorners = 100_000

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
