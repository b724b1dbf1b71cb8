package geometry

import (
	"math"
	"slices"
)

// Translate moves p by (dx, dy) cm.
func (p Polygon) Translate(dx, dy float64) Polygon {
	return p.each(func(v Point) Point { return Point{v.X + dx, v.Y + dy} })
}

// Turn turns p counter-clockwise about the origin. Multiples of 90° are exact.
func (p Polygon) Turn(deg float64) Polygon {
	s, c := sinCos(deg)
	return p.each(func(v Point) Point { return Point{c*v.X - s*v.Y, s*v.X + c*v.Y} })
}

func sinCos(deg float64) (s, c float64) {
	switch math.Mod(math.Mod(deg, 360)+360, 360) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(deg * math.Pi / 180)
}

// MirrorX takes x to −x. The order of vertices is reversed, so that the result
// is counter-clockwise again: its edge i is edge n−2−i (mod n) of p.
func (p Polygon) MirrorX() Polygon {
	out := make(Polygon, len(p))
	for i, v := range p {
		out[len(p)-1-i] = Point{-v.X, v.Y}
	}
	return out
}

// Snap rounds every coordinate to a multiple of gridCM; a grid that is not
// above 0 leaves p as it is. Small shapes may fall together: see Validate.
func (p Polygon) Snap(gridCM float64) Polygon {
	if !(gridCM > 0) {
		return slices.Clone(p)
	}
	return p.each(func(v Point) Point {
		return Point{math.Round(v.X/gridCM) * gridCM, math.Round(v.Y/gridCM) * gridCM}
	})
}

func (p Polygon) each(f func(Point) Point) Polygon {
	out := make(Polygon, len(p))
	for i, v := range p {
		out[i] = f(v)
	}
	return out
}
