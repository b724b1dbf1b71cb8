// Package geometry holds points, simple polygons, transforms, cut outlines
// and robust overlap tests. Lengths are centimetres. It knows nothing of
// garments, cloth or layouts.
package geometry

// Point is a place on the cloth, in cm: X along the warp, Y across it.
type Point struct{ X, Y float64 }

// Polygon is a simple polygon, counter-clockwise, without a repeated closing
// vertex. Edge i runs from vertex i to vertex i+1 (the last back to 0).
type Polygon []Point
