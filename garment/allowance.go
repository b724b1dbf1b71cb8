package garment

import (
	"fmt"

	"ellwand/geometry"
)

// Allowances is what is added outside each edge when a piece is cut, in cm of
// finished cloth.
type Allowances struct {
	SeamCM         float64 // each side of a seam
	HemCM          float64 // turned up, both folds together
	SelvedgeEdgeCM float64 // an edge that lies on a selvedge
	MaxTipCM       float64 // how far a gore's cut point may run past its finished point, beyond the allowance
}

// DefaultAllowances are 1.5 cm for a seam (home-sewing norm, and trousers in
// re-enactment wool), 2.5 cm for the hem of an unfulled handwoven cloth (2 to
// 3 cm, from memory), 0.8 cm on a selvedge and 2 cm of tip (common practice).
func DefaultAllowances() Allowances {
	return Allowances{SeamCM: 1.5, HemCM: 2.5, SelvedgeEdgeCM: 0.8, MaxTipCM: 2}
}

// ForEdge is the allowance of one edge in cm: the edge's own if it has one,
// else that of its finish: a faced edge has a seam's; a fold, a raw and a bound
// edge have none.
func (a Allowances) ForEdge(e Edge) (float64, error) {
	if e.AllowanceCM != nil {
		return *e.AllowanceCM, nil
	}
	switch e.Finish {
	case FinishSeam, FinishFaced:
		return a.SeamCM, nil
	case FinishHem:
		return a.HemCM, nil
	case FinishSelvedge:
		return a.SelvedgeEdgeCM, nil
	case FinishFold, FinishRaw, FinishBound:
		return 0, nil
	}
	return 0, fmt.Errorf("edge %q has the finish %q; accepted are seam, hem, facing, bound, selvedge, fold and raw", e.Name, e.Finish)
}

// CutOutline is the piece with its allowances added, in the piece's own frame.
// Cuts inside the piece (marks) need none: their allowance lies in what is cut
// away, or, along a slit, is taken from the piece itself.
func CutOutline(p Piece, a Allowances) (geometry.Polygon, error) {
	if len(p.Edges) != len(p.Outline) {
		return nil, fmt.Errorf("piece %q has %d outline edges but %d are named", p.Name, len(p.Outline), len(p.Edges))
	}
	each := make([]float64, len(p.Edges))
	for i, e := range p.Edges {
		cm, err := a.ForEdge(e)
		if err != nil {
			return nil, fmt.Errorf("piece %q: %w", p.Name, err)
		}
		each[i] = cm
	}
	out, err := geometry.CutOutline(p.Outline, each, a.MaxTipCM)
	if err != nil {
		return nil, fmt.Errorf("piece %q: %w", p.Name, err)
	}
	return out, nil
}
