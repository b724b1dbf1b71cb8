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
	FinishFaced    Finish = "facing"   // faced with a strip of its own, which is turned in
	FinishBound    Finish = "bound"    // a strip sewn round the cut edge: no allowance
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
// the piece's length and y across; Edges[i] is outline edge i. Left and right in
// edge names are the wearer's. The cloth is chalked on its wrong side: with x
// away from the reader and y to the right, the wrong side is up.
type Piece struct {
	Name   string
	Copies int
	// Mirrored means half the copies (rounded down) are cut mirrored; on cloth
	// with two right faces turning the piece over does instead.
	Mirrored bool
	Grain    Grain
	Outline  geometry.Polygon
	Edges    []Edge
	Marks    []Mark
	Note     string // shown with the piece, for example "cut one slit of 10 cm"
}

// MarkKind says what a line inside a piece is for.
type MarkKind string

const (
	MarkCut   MarkKind = "cut"   // cut on this line: a neck opening, a slit for a gore
	MarkFold  MarkKind = "fold"  // fold here, do not cut
	MarkPlace MarkKind = "place" // another piece's edge is sewn onto this line
	MarkJoin  MarkKind = "join"  // the piece is made of parts that are seamed here
)

// Mark is a line inside a piece, in the piece's own frame. A closed cut (a neck
// opening) is one edge under its own name, and what lies inside it is cut away.
// An open cut (a slit) has two lips, named "<name>, left lip" and "<name>,
// right lip" after the wearer's left and right. A place line is one edge under
// its own name. A fold is no edge.
type Mark struct {
	Name   string
	Kind   MarkKind
	Line   []geometry.Point
	Closed bool
	Finish Finish // of the edge or lips; "" for a fold
}

// Size is one finished size of a garment, with how it was found.
type Size struct {
	Key   string // stable: "hem_girth_cm"
	Label string
	CM    float64
	From  string // the formula with its numbers
}

// Side is one side of a seam: one or more named edges laid end to end.
// Part is the fraction of the edges' whole length that takes part: 0 to 1.
type Side struct {
	Piece    string
	Edges    []string // outline edges, or the edges that a piece's marks make
	From, To float64  // fractions along the run of edges; 0 and 1 for all of it
}

// Seam says that side A is sewn to side B, Times times in the whole garment.
type Seam struct {
	Name  string
	A, B  Side
	Times int
	Shows bool // its stitches are seen from the right side; sewn by hand then
	Own   bool // paired in the plan, not by the draft
}

// Finishes are all of them, in the order in which they are offered.
func Finishes() []Finish {
	return []Finish{FinishSeam, FinishHem, FinishFaced, FinishBound, FinishSelvedge, FinishFold, FinishRaw}
}

// Garment is what a draft gives.
type Garment struct {
	Draft  string
	Pieces []Piece
	Seams  []Seam
	Sizes  []Size   // finished sizes: chest, hem, cuff, neck opening and so on
	Notes  []string // remarks in words: estimates used, what was widened and why
}
