// Package layout lays cut outlines on a strip of finished cloth: first lays,
// better lays, exact checks and lower bounds. It knows nothing of garments or
// yarn. x runs along the warp from the first cut end, y across from the left
// selvedge; lengths are cm.
package layout

import "ellwand/geometry"

// Item is one piece to be cut, once. Outline is the cut outline.
type Item struct {
	ID       string
	Outline  geometry.Polygon
	TurnsDeg []float64 // allowed turns, at least one; 0, 90, 180, 270 are exact
	MayFlip  bool      // may be turned over (mirrored in x before it is turned)
	Pinned   *Placement
	// Selvedge is the sides of which at least one must lie on a selvedge; 0: none.
	Selvedge Side
	// Along and Across tie it to the phase of other items; see Match.
	Along, Across Match
}

// Problem is a strip of given width and the items that must lie on it.
type Problem struct {
	WidthCM float64
	Items   []Item
	GapCM   float64 // room left for the shears between any two items
	Flaws   []Flaw  // forbidden ground
	// RepeatCM is after how much the cloth's pattern repeats along the warp,
	// RepeatAcrossCM across it; 0: not at all.
	RepeatCM, RepeatAcrossCM float64
	// MirrorCM is a place along the strip, MirrorAcrossCM one across it, about
	// which the pattern is the same both ways; nil: it is nowhere.
	MirrorCM, MirrorAcrossCM *float64
	Lengths                  []Length // lengths of cloth one behind the other; none: one strip without end
	// phases is the place in the repeat that each group keeps to: by group along
	// the cloth, by its negative across. Chosen by phased.
	phases map[int]float64
}

// Placement puts an item on the strip. A vertex p of the outline lands at
// Turn(TurnDeg) · (Flip ? mirror-x p : p) + (X, Y).
type Placement struct {
	TurnDeg float64
	Flip    bool
	X, Y    float64
}

// Lay is all items placed: Placements[i] belongs to Problem.Items[i].
type Lay struct {
	WidthCM    float64
	LengthCM   float64
	Placements []Placement
}
