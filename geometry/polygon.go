// Package geometry holds points, simple polygons, transforms, cut outlines
// and robust overlap tests. Lengths are centimetres. It knows nothing of
// garments, cloth or layouts.
package geometry

import (
	"fmt"
	"math"
	"slices"
)

// Point is a place on the cloth, in cm: X along the warp, Y across it.
type Point struct{ X, Y float64 }

// Polygon is a simple polygon, counter-clockwise, without a repeated closing
// vertex. Edge i runs from vertex i to vertex i+1 (the last back to 0).
type Polygon []Point

// Rect is an axis-parallel box in cm.
type Rect struct{ MinX, MinY, MaxX, MaxY float64 }

// Width is the box's extent along x, in cm.
func (r Rect) Width() float64 { return r.MaxX - r.MinX }

// Height is the box's extent along y, in cm.
func (r Rect) Height() float64 { return r.MaxY - r.MinY }

// Crosses says whether the line from a to b touches or runs into the rectangle.
func (r Rect) Crosses(a, b Point) bool {
	from, to := 0.0, 1.0
	clip := func(start, move, low, high float64) bool {
		if move == 0 {
			return start >= low && start <= high
		}
		t0, t1 := (low-start)/move, (high-start)/move
		from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
		return from <= to
	}
	return clip(a.X, b.X-a.X, r.MinX, r.MaxX) && clip(a.Y, b.Y-a.Y, r.MinY, r.MaxY)
}

// MaxVertices is the most vertices a polygon may have.
const MaxVertices = 2000

// New checks the points and makes them a counter-clockwise polygon. A repeated
// closing vertex is dropped. An error names the vertex, counted from 1.
func New(pts []Point) (Polygon, error) {
	p := append(Polygon(nil), pts...)
	if n := len(p); n > 1 && p[0] == p[n-1] {
		p = p[:n-1]
	}
	if len(p) > MaxVertices {
		return nil, fmt.Errorf("the shape has %d corners; accepted are 3 to %d", len(p), MaxVertices)
	}
	for i, v := range p {
		if math.IsNaN(v.X+v.Y) || math.Abs(v.X) > 1e6 || math.Abs(v.Y) > 1e6 {
			return nil, fmt.Errorf("corner %d is (%v, %v) cm; accepted are numbers from -1000000 to 1000000", i+1, v.X, v.Y)
		}
	}
	if len(p) < 3 {
		return nil, fmt.Errorf("the shape has %d corners; at least 3 are needed", len(p))
	}
	// Checked in the order given, so that an error counts as the giver does.
	if err := simple(p); err != nil {
		return nil, err
	}
	if p.signedArea() < 0 {
		slices.Reverse(p)
	}
	return p, nil
}

// Validate says whether p is a simple counter-clockwise polygon with an area;
// the error names the first vertex at fault, counted from 1.
func Validate(p Polygon) error {
	if err := simple(p); err != nil {
		return err
	}
	if p.signedArea() < 0 {
		return fmt.Errorf("the outline from corner 1 at (%g, %g) cm runs clockwise; accepted is counter-clockwise", p[0].X, p[0].Y)
	}
	return nil
}

// simple is Validate for either direction of going round.
func simple(p Polygon) error {
	n := len(p)
	if n < 3 {
		return fmt.Errorf("the shape has %d corners; at least 3 are needed", n)
	}
	for i, v := range p {
		if math.IsNaN(v.X+v.Y) || math.IsInf(v.X, 0) || math.IsInf(v.Y, 0) {
			return fmt.Errorf("corner %d is (%v, %v); accepted are numbers in cm", i+1, v.X, v.Y)
		}
		if v == p[(i+1)%n] {
			return fmt.Errorf("corner %d at (%g, %g) cm is there twice", i+1, v.X, v.Y)
		}
	}
	for i := range p {
		if err := crossesLater(p, i); err != nil {
			return err
		}
	}
	if p.Area() <= 1e-9 {
		return fmt.Errorf("the shape from corner 1 at (%g, %g) cm has no area", p[0].X, p[0].Y)
	}
	return nil
}

// crossesLater finds an edge after edge i that meets it where it must not.
func crossesLater(p Polygon, i int) error {
	n := len(p)
	a, b := p[i], p[(i+1)%n]
	c := p[(i+2)%n]
	if Orient(a, b, c) == 0 && (b.X-a.X)*(c.X-b.X)+(b.Y-a.Y)*(c.Y-b.Y) < 0 {
		return fmt.Errorf("the outline turns back on itself at corner %d at (%g, %g) cm", (i+1)%n+1, b.X, b.Y)
	}
	if j := meetsLater(p, i); j >= 0 {
		return fmt.Errorf("the edge after corner %d at (%g, %g) cm meets the edge after corner %d at (%g, %g) cm; the outline must not cross itself",
			i+1, a.X, a.Y, j+1, p[j].X, p[j].Y)
	}
	return nil
}

// meetsLater is the first edge after i, and not next to it, that meets edge i;
// -1 for none.
func meetsLater(p Polygon, i int) int {
	n := len(p)
	for j := i + 2; j < n; j++ {
		if i == 0 && j == n-1 {
			continue
		}
		if segmentsTouch(p[i], p[(i+1)%n], p[j], p[(j+1)%n]) {
			return j
		}
	}
	return -1
}

func (p Polygon) signedArea() float64 {
	s := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		s += (a.X-p[0].X)*(b.Y-p[0].Y) - (b.X-p[0].X)*(a.Y-p[0].Y)
	}
	return s / 2
}

// Area is the area in cm².
func (p Polygon) Area() float64 { return math.Abs(p.signedArea()) }

// Bounds is the smallest box around p; zero for no vertices.
func (p Polygon) Bounds() Rect {
	if len(p) == 0 {
		return Rect{}
	}
	r := Rect{p[0].X, p[0].Y, p[0].X, p[0].Y}
	for _, v := range p[1:] {
		r.MinX, r.MaxX = math.Min(r.MinX, v.X), math.Max(r.MaxX, v.X)
		r.MinY, r.MaxY = math.Min(r.MinY, v.Y), math.Max(r.MaxY, v.Y)
	}
	return r
}

// EdgeLength is the length of edge i in cm.
func (p Polygon) EdgeLength(i int) float64 {
	a, b := p[i], p[(i+1)%len(p)]
	return math.Hypot(b.X-a.X, b.Y-a.Y)
}

// Perimeter is the length of all edges in cm.
func (p Polygon) Perimeter() float64 {
	s := 0.0
	for i := range p {
		s += p.EdgeLength(i)
	}
	return s
}

// Centroid is the centre of area; the origin for no vertices.
func (p Polygon) Centroid() Point {
	if len(p) == 0 {
		return Point{}
	}
	var c Point
	a := 0.0
	o := p[0]
	for i := range p {
		u, v := p[i], p[(i+1)%len(p)]
		w := (u.X-o.X)*(v.Y-o.Y) - (v.X-o.X)*(u.Y-o.Y)
		a += w
		c.X += w * (u.X + v.X - 2*o.X)
		c.Y += w * (u.Y + v.Y - 2*o.Y)
	}
	return Point{o.X + c.X/(3*a), o.Y + c.Y/(3*a)}
}

// IsConvex says whether no corner turns inwards.
func (p Polygon) IsConvex() bool {
	n := len(p)
	for i := range p {
		if Orient(p[i], p[(i+1)%n], p[(i+2)%n]) < 0 {
			return false
		}
	}
	return true
}
