// Package garment turns body measurements into pieces with named edges and
// says which edge is sewn to which. It knows nothing of cloth, looms or lays.
package garment

import "ellwand/geometry"

// Grain says how a piece may lie on the cloth.
type Grain string

const (
	GrainWarp Grain = "warp" // length along the warp: turned 0° or 180°
	GrainWeft Grain = "weft" // length across the cloth: turned 90° or 270°
	GrainFree Grain = "free" // any right-angled turn: 0°, 90°, 180°, 270°
)

// Finish says what is done with an edge; the allowance follows from it.
type Finish string

const (
	FinishSeam     Finish = "seam"     // sewn to another edge
	FinishHem      Finish = "hem"      // turned up
	FinishSelvedge Finish = "selvedge" // lies on, or is treated as, a selvedge
	FinishFold     Finish = "fold"     // folded, not cut: no allowance
	FinishRaw      Finish = "raw"      // cut, no allowance
)

// Edge is one named side of a piece. Several outline edges in a row may carry
// the same name (a curved neck, say); a named edge is then the whole run.
type Edge struct {
	Name   string
	Finish Finish
	// AllowanceCM overrides the plan's allowance for the finish when not nil.
	AllowanceCM *float64
}

// Piece is a finished shape. Outline is in the piece's own frame with x along
// the piece's length and y across; Edges[i] is outline edge i.
type Piece struct {
	Name   string
	Copies int
	// Mirrored means half the copies (rounded down) are cut mirrored; on cloth
	// with two right faces turning the piece over does instead.
	Mirrored bool
	Grain    Grain
	Outline  geometry.Polygon
	Edges    []Edge
	Note     string // shown with the piece, for example "cut one slit of 10 cm"
}

// Side is one side of a seam: one or more named edges laid end to end.
// Part is the fraction of the edges' whole length that takes part: 0 to 1.
type Side struct {
	Piece    string
	Edges    []string
	From, To float64 // fractions along the run of edges; 0 and 1 for all of it
}

// Seam says that side A is sewn to side B, Times times in the whole garment.
type Seam struct {
	Name  string
	A, B  Side
	Times int
}

// Garment is what a draft gives.
type Garment struct {
	Draft  string
	Pieces []Piece
	Seams  []Seam
	Notes  []string // fit remarks in words
}
