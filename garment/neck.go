package garment

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// Shapes of a neck opening, as neck_shape numbers them.
const (
	neckRound = iota
	neckSlitAcross
	neckSquare
)

// neckShape is a neck opening about the middle of the shoulder line, with
// the front towards smaller x and the wearer's left towards smaller y. A round
// one is half an ellipse in front and a flat arc of a circle behind, a square one
// has right angles, a slit lies along the shoulder line.
type neckShape struct {
	front, back                      []geometry.Point // left to right; right to left; ends on the shoulder line
	halfWidthCM, dropCM, backDropCM  float64
	girthCM, frontGirthCM, slitLenCM float64
	curveCM                          float64 // an allowance inside the opening has to be less than this
}

// How many chords the neck is cut in; on a neck 20 cm wide no chord leaves the
// curve by more than 0.5 mm. The flat curve behind has few and long ones, so
// that its allowance can meet that of the shoulder.
const (
	frontChords = 24
	backChords  = 8
)

// shapeNeck is the opening of a kind with the given girth. A slit is half its
// girth wide, whatever the share; a square is as deep in front as its girth
// leaves: ½ girth less the width and the drop behind.
func shapeNeck(kind int, girthCM, share, backDropCM, slitCM float64) (neckShape, error) {
	switch kind {
	case neckSlitAcross:
		half := girthCM / 4
		left, right := geometry.Point{Y: -half}, geometry.Point{Y: half}
		return neckShape{front: []geometry.Point{left, right}, back: []geometry.Point{right, left},
			halfWidthCM: half, girthCM: girthCM, frontGirthCM: girthCM / 2, slitLenCM: slitCM, curveCM: math.Inf(1)}, nil
	case neckSquare:
		return squareNeck(girthCM, share, backDropCM, slitCM)
	}
	return roundNeck(girthCM, share, backDropCM, slitCM)
}

func squareNeck(girthCM, share, backDropCM, slitCM float64) (neckShape, error) {
	half := share * girthCM
	drop := girthCM/2 - 2*half - backDropCM
	if drop < 2 {
		return neckShape{}, fmt.Errorf("a square neck opening of %.1f cm that is %.1f cm wide would be %.1f cm deep in front; accepted is 2 cm or more, by a smaller neck_half_width_share or neck_back_drop_cm", girthCM, 2*half, drop)
	}
	return neckShape{
		front:       []geometry.Point{{Y: -half}, {X: -drop, Y: -half}, {X: -drop, Y: half}, {Y: half}},
		back:        []geometry.Point{{Y: half}, {X: backDropCM, Y: half}, {X: backDropCM, Y: -half}, {Y: -half}},
		halfWidthCM: half, dropCM: drop, backDropCM: backDropCM, girthCM: girthCM,
		frontGirthCM: 2*half + 2*drop, slitLenCM: slitCM, curveCM: min(half, drop, backDropCM),
	}, nil
}

// roundNeck finds the opening of the given girth: its half width is share of the
// girth, its drop behind is given, and its drop in front is what makes the
// girth, measured along the chords, come out.
func roundNeck(girthCM, share, backDropCM, slitCM float64) (neckShape, error) {
	n := neckShape{halfWidthCM: share * girthCM, backDropCM: backDropCM, girthCM: girthCM, slitLenCM: slitCM}
	n.back = backNeck(n.halfWidthCM, backDropCM)
	n.frontGirthCM = girthCM - Mark{Line: n.back}.lengthCM()
	low, high := 0.0, girthCM
	for range 60 {
		n.dropCM = (low + high) / 2
		n.front = frontNeck(n.halfWidthCM, n.dropCM)
		if (Mark{Line: n.front}).lengthCM() < n.frontGirthCM {
			low = n.dropCM
		} else {
			high = n.dropCM
		}
	}
	if n.dropCM < max(2, backDropCM/2) {
		return neckShape{}, fmt.Errorf("a neck opening of %.1f cm that is %.1f cm wide leaves no depth in front; accepted is a smaller neck_half_width_share or neck_back_drop_cm", girthCM, 2*n.halfWidthCM)
	}
	w, d := n.halfWidthCM, n.dropCM
	n.curveCM = min(d*d/w, w*w/d) // the front curve's smallest radius
	return n, nil
}

func frontNeck(half, drop float64) []geometry.Point {
	pts := make([]geometry.Point, frontChords+1)
	for i := range pts {
		s, c := math.Sincos(math.Pi * float64(i) / frontChords)
		pts[i] = geometry.Point{X: -drop * s, Y: -half * c}
	}
	pts[0], pts[frontChords] = geometry.Point{Y: -half}, geometry.Point{Y: half}
	return pts
}

// backNeck is the arc through both shoulder points that drops backDrop in the
// middle: radius (half² + drop²) / (2 drop).
func backNeck(half, drop float64) []geometry.Point {
	radius := (half*half + drop*drop) / (2 * drop)
	reach := 2 * math.Atan2(drop, half)
	pts := make([]geometry.Point, backChords+1)
	for i := range pts {
		s, c := math.Sincos(reach * (1 - 2*float64(i)/backChords))
		pts[i] = geometry.Point{X: radius*c - (radius - drop), Y: radius * s}
	}
	pts[0], pts[backChords] = geometry.Point{Y: half}, geometry.Point{Y: -half}
	return pts
}

// passageCM is the girth that a head has to go through: the opening and both
// lips of the slit.
func (n neckShape) passageCM() float64 { return n.girthCM + 2*n.slitLenCM }

// frontShare is the front's part of the whole opening, walked from the left
// shoulder round the front.
func (n neckShape) frontShare() float64 { return n.frontGirthCM / n.girthCM }

// Names of the cuts a neck makes.
const (
	neckOpening = "neck opening"
	neckSlit    = "neck slit"
)

// marks are the neck cut within a piece with the middle of the shoulder line at
// (x, y). The opening starts at the left shoulder and goes round the front.
func (n neckShape) marks(x, y float64, f Finish) []Mark {
	var line []geometry.Point
	for _, p := range append(append([]geometry.Point(nil), n.front...), n.back[1:len(n.back)-1]...) {
		line = append(line, geometry.Point{X: x + p.X, Y: y + p.Y})
	}
	return append([]Mark{{neckOpening, MarkCut, line, true, f}}, n.slit(x, y, f)...)
}

func (n neckShape) slit(x, y float64, f Finish) []Mark {
	if n.slitLenCM < shortestEdgeCM {
		return nil
	}
	top := geometry.Point{X: x - n.dropCM, Y: y}
	end := geometry.Point{X: top.X - n.slitLenCM, Y: y}
	return []Mark{{neckSlit, MarkCut, []geometry.Point{end, top}, false, f}}
}

// facing is the piece that is sewn to the neck, turned in and felled down: a
// rectangle as much larger than the opening as it is wide.
func (n neckShape) facing(widthCM, turningCM float64) Piece {
	front := n.dropCM + n.slitLenCM + widthCM
	length, width := front+n.backDropCM+widthCM, 2*(n.halfWidthCM+widthCM)
	o := startAt(0, 0).
		to(length, 0, "left edge", FinishHem).
		to(length, width, "back edge", FinishHem).
		to(0, width, "right edge", FinishHem)
	points, edges := o.close("front edge", FinishHem)
	for i := range edges {
		edges[i].AllowanceCM = &turningCM
	}
	return Piece{
		Name: "neck facing", Copies: 1, Grain: GrainWarp, Outline: points, Edges: edges,
		Marks: n.marks(front, width/2, FinishSeam),
		Note:  "Sew round the neck before cutting it out, turn in, fell the outer edges down.",
	}
}

// rightBack is the back's half from the right shoulder to the middle.
func (n neckShape) rightBack() []geometry.Point {
	var out []geometry.Point
	for _, p := range n.back {
		if p.Y > 1e-6 {
			out = append(out, p)
		}
	}
	return append(out, geometry.Point{X: n.backDropCM})
}

// leftFront is the front's half from the left shoulder to the middle.
func (n neckShape) leftFront() []geometry.Point {
	var out []geometry.Point
	for _, p := range n.front {
		if p.Y < -1e-6 {
			out = append(out, p)
		}
	}
	return append(out, geometry.Point{X: -n.dropCM})
}
