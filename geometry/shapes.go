package geometry

import (
	"fmt"
	"math"
)

// size refuses a dimension that is no length a piece can have.
func size(name string, cm float64) error {
	if !(cm > 0.01 && cm <= 5000) {
		return fmt.Errorf("%s is %v cm; accepted is more than 0.01 to 5000 cm", name, cm)
	}
	return nil
}

func sizes(pairs ...any) error {
	for i := 0; i < len(pairs); i += 2 {
		if err := size(pairs[i].(string), pairs[i+1].(float64)); err != nil {
			return err
		}
	}
	return nil
}

// Rectangle has its length along x: (0,0), (L,0), (L,W), (0,W), in cm.
func Rectangle(lengthCM, widthCM float64) (Polygon, error) {
	if err := sizes("the length", lengthCM, "the width", widthCM); err != nil {
		return nil, err
	}
	return New([]Point{{0, 0}, {lengthCM, 0}, {lengthCM, widthCM}, {0, widthCM}})
}

// IsoscelesGore has its base at x = 0 and its tip at x = length, half-way across.
func IsoscelesGore(lengthCM, baseCM float64) (Polygon, error) {
	if err := sizes("the gore's length", lengthCM, "the gore's base", baseCM); err != nil {
		return nil, err
	}
	return New([]Point{{0, 0}, {lengthCM, baseCM / 2}, {0, baseCM}})
}

// RightGore is half a gore: its straight side lies along y = 0, with the warp.
func RightGore(lengthCM, baseCM float64) (Polygon, error) {
	if err := sizes("the gore's length", lengthCM, "the gore's base", baseCM); err != nil {
		return nil, err
	}
	return New([]Point{{0, 0}, {lengthCM, 0}, {0, baseCM}})
}

// TrapezoidGore narrows evenly from its base at x = 0 to its top at x = length.
func TrapezoidGore(lengthCM, baseCM, topCM float64) (Polygon, error) {
	if err := sizes("the length", lengthCM, "the base", baseCM, "the top", topCM); err != nil {
		return nil, err
	}
	m := max(baseCM, topCM) / 2
	return New([]Point{{0, m - baseCM/2}, {lengthCM, m - topCM/2}, {lengthCM, m + topCM/2}, {0, m + baseCM/2}})
}

// SquareGusset is a square with its sides along warp and weft.
func SquareGusset(sideCM float64) (Polygon, error) { return Rectangle(sideCM, sideCM) }

// DiamondGusset has its long diagonal along x.
func DiamondGusset(longCM, shortCM float64) (Polygon, error) {
	if err := sizes("the long diagonal", longCM, "the short diagonal", shortCM); err != nil {
		return nil, err
	}
	return New([]Point{{0, shortCM / 2}, {longCM / 2, 0}, {longCM, shortCM / 2}, {longCM / 2, shortCM}})
}

// Arc is the points of a circle's arc about c from angle from to angle to
// (degrees, counter-clockwise when to > from), both ends included; no chord
// lies further than toleranceCM from the arc.
func Arc(c Point, radiusCM, fromDeg, toDeg, toleranceCM float64) ([]Point, error) {
	if err := sizes("the radius", radiusCM); err != nil {
		return nil, err
	}
	if !(toleranceCM >= 0.001 && toleranceCM < radiusCM) {
		return nil, fmt.Errorf("the tolerance is %v cm; accepted is 0.001 cm to below the radius of %g cm", toleranceCM, radiusCM)
	}
	if !(math.Abs(toDeg-fromDeg) <= 360) {
		return nil, fmt.Errorf("the arc runs from %v to %v degrees; accepted is up to one whole turn", fromDeg, toDeg)
	}
	step := 2 * math.Acos(1-toleranceCM/radiusCM)
	n := max(1, int(math.Ceil(math.Abs(toDeg-fromDeg)*math.Pi/180/step)))
	pts := make([]Point, n+1)
	for i := range pts {
		s, cos := sinCos(fromDeg + (toDeg-fromDeg)*float64(i)/float64(n))
		pts[i] = Point{c.X + radiusCM*cos, c.Y + radiusCM*s}
	}
	return pts, nil
}

// ArcEdge is the points of an arc from one corner to the next, both included.
// bulgeCM is the arc's rise over the middle of the chord: positive bulges to
// the right of the way from-to, which is outwards on a counter-clockwise
// piece, negative hollows it out. No chord lies further than toleranceCM from
// the arc.
func ArcEdge(from, to Point, bulgeCM, toleranceCM float64) ([]Point, error) {
	chord := math.Hypot(to.X-from.X, to.Y-from.Y)
	if err := size("the arc's chord", chord); err != nil {
		return nil, err
	}
	rise := math.Abs(bulgeCM)
	if !(rise <= chord) {
		return nil, fmt.Errorf("the arc's bulge is %v cm; accepted is up to its chord of %g cm either way", bulgeCM, chord)
	}
	if !(toleranceCM >= 0.001 && toleranceCM <= 100) {
		return nil, fmt.Errorf("the tolerance is %v cm; accepted is 0.001 to 100 cm", toleranceCM)
	}
	if rise <= toleranceCM {
		return []Point{from, to}, nil
	}
	// Half the arc's angle follows from chord and rise: tan(half/2) = 2·rise/chord.
	half := 2 * math.Atan2(2*rise, chord)
	radius := chord / 2 / math.Sin(half)
	if half > math.Pi/2 {
		radius = (chord*chord/4 + rise*rise) / (2 * rise) // steady near a whole turn
	}
	n := int(math.Ceil(2 * half / (2 * math.Acos(1-min(toleranceCM/radius, 1)))))
	d := unit(from, to)
	right := Point{d.Y, -d.X}
	middle := shift(from, d, chord/2)
	pts := []Point{from}
	for i := 1; i < n; i++ {
		angle := half * (2*float64(i)/float64(n) - 1) // from the arc's crown
		up := math.Copysign(rise-radius*(1-math.Cos(angle)), bulgeCM)
		pts = append(pts, shift(shift(middle, d, radius*math.Sin(angle)), right, up))
	}
	return append(pts, to), nil
}

// HalfCircle has its straight edge along y = 0 from (0,0) to (2r,0).
func HalfCircle(radiusCM, toleranceCM float64) (Polygon, error) {
	pts, err := Arc(Point{radiusCM, 0}, radiusCM, 0, 180, toleranceCM)
	if err != nil {
		return nil, err
	}
	return New(pts)
}

// HalfCircleCloak is a half-circle with a half-round neck cut from its straight edge.
func HalfCircleCloak(radiusCM, neckRadiusCM, toleranceCM float64) (Polygon, error) {
	if !(neckRadiusCM < radiusCM) {
		return nil, fmt.Errorf("the neck radius is %v cm; accepted is less than the cloak's radius of %g cm", neckRadiusCM, radiusCM)
	}
	c := Point{radiusCM, 0}
	outer, err := Arc(c, radiusCM, 0, 180, toleranceCM)
	if err != nil {
		return nil, err
	}
	neck, err := Arc(c, neckRadiusCM, 180, 0, toleranceCM)
	if err != nil {
		return nil, err
	}
	return New(append(outer, neck...))
}
