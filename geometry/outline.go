package geometry

import (
	"fmt"
	"math"
)

// CutOutline is p with allowanceCM[i] added outside edge i. Corners are
// mitred; where a mitre would run more than maxTipCM past the finished corner
// beyond the larger of the two allowances, it is cut square across there, so
// that a gore's point does not run away. Where edges in one line, or nearly,
// have different allowances, a step at the corner joins them instead, so that
// each keeps its allowance. The outline holds p to within a millionth of a cm;
// allowances that do not fit the shape, as in a narrow notch, are refused with
// the edge named, counted from 1.
func CutOutline(p Polygon, allowanceCM []float64, maxTipCM float64) (Polygon, error) {
	n := len(p)
	if err := Validate(p); err != nil {
		return nil, err
	}
	if len(allowanceCM) != n {
		return nil, fmt.Errorf("the piece has %d edges but %d allowances are given", n, len(allowanceCM))
	}
	for i, a := range allowanceCM {
		if !(a >= 0 && a <= 50) {
			return nil, fmt.Errorf("the allowance of edge %d is %v cm; accepted is 0 to 50 cm", i+1, a)
		}
	}
	if !(maxTipCM >= 0 && maxTipCM <= 100) {
		return nil, fmt.Errorf("the longest tip is %v cm; accepted is 0 to 100 cm", maxTipCM)
	}
	corners := make([][]Point, n)
	for i := range p {
		k := (i + n - 1) % n
		corners[i] = corner(p[k], p[i], p[(i+1)%n], allowanceCM[k], allowanceCM[i], maxTipCM)
	}
	return joinCorners(p, allowanceCM, corners)
}

// joinCorners makes the cut outline of what it has at each finished corner,
// or says which edge's allowance does not fit.
func joinCorners(p Polygon, allowanceCM []float64, corners [][]Point) (Polygon, error) {
	n := len(p)
	var out []Point
	var edge []int // the finished edge that each point of out begins, or leads to
	for i, c := range corners {
		d, next := unit(p[i], p[(i+1)%n]), corners[(i+1)%n][0]
		last := c[len(c)-1]
		if (next.X-last.X)*d.X+(next.Y-last.Y)*d.Y < -1e-9 {
			return nil, fmt.Errorf("the allowance of edge %d, %g cm, does not fit: with its neighbours' allowances nothing is left of its cut line", i+1, allowanceCM[i])
		}
		for _, v := range c {
			if len(out) == 0 || !together(v, out[len(out)-1]) {
				out, edge = append(out, v), append(edge, i)
			}
		}
	}
	if len(out) > 1 && together(out[0], out[len(out)-1]) {
		out = out[:len(out)-1]
	}
	for i := range out {
		if j := meetsLater(out, i); j >= 0 {
			return nil, fmt.Errorf("the allowances of edge %d, %g cm, and edge %d, %g cm, do not fit: their cut lines meet",
				edge[i]+1, allowanceCM[edge[i]], edge[j]+1, allowanceCM[edge[j]])
		}
	}
	q, err := New(out)
	if err != nil {
		return nil, fmt.Errorf("the allowances do not fit this shape: %w", err)
	}
	if i := leftOut(p, q); i >= 0 {
		return nil, fmt.Errorf("the allowance of edge %d, %g cm, does not fit: the cut outline would run inside the piece there", i+1, allowanceCM[i])
	}
	return q, nil
}

// leftOut is the first edge of p that q does not hold to within a millionth
// of a cm, or -1. The slack is for rounding where an allowance is 0.
func leftOut(p, q Polygon) int {
	const slack = 1e-6
	for i, v := range p {
		if Locate(q, v) == Outside && q.distance(v) > slack {
			return i
		}
	}
	for _, v := range q {
		if Locate(p, v) == Inside && p.distance(v) > slack {
			return p.nearestEdge(v)
		}
	}
	return -1
}

// distance is how far v is from p's nearest edge, in cm.
func (p Polygon) distance(v Point) float64 { return p.edgeDistance(p.nearestEdge(v), v) }

func (p Polygon) nearestEdge(v Point) int {
	best := 0
	for i := range p {
		if p.edgeDistance(i, v) < p.edgeDistance(best, v) {
			best = i
		}
	}
	return best
}

func (p Polygon) edgeDistance(i int, v Point) float64 {
	a, b := p[i], p[(i+1)%len(p)]
	x, y := b.X-a.X, b.Y-a.Y
	t := ((v.X-a.X)*x + (v.Y-a.Y)*y) / (x*x + y*y)
	t = max(0, min(1, t))
	return math.Hypot(v.X-a.X-t*x, v.Y-a.Y-t*y)
}

// corner is what the cut outline has at finished corner v, between the edge
// u-v with allowance a and the edge v-w with allowance b.
func corner(u, v, w Point, a, b, maxTip float64) []Point {
	d, e := unit(u, v), unit(v, w)
	na, nb := Point{d.Y, -d.X}, Point{e.Y, -e.X} // outward, p being counter-clockwise
	cross, dot := d.X*e.Y-d.Y*e.X, d.X*e.X+d.Y*e.Y
	pa, pb := shift(v, na, a), shift(v, nb, b)
	if math.Abs(cross) < 1e-6 {
		if math.Abs(a-b) < 1e-9 && dot > 0 {
			return []Point{pa}
		}
		return []Point{pa, pb}
	}
	// The mitre solves na·m = a and nb·m = b, measured from v.
	m := Point{(a*nb.Y - b*na.Y) / cross, (b*na.X - a*nb.X) / cross}
	reach, limit := math.Hypot(m.X, m.Y), math.Max(a, b)+maxTip
	if reach <= limit {
		return []Point{{v.X + m.X, v.Y + m.Y}}
	}
	// A far mitre lies ahead of both edges' ends where the corner is sharp and
	// behind both in a notch; beside them only where one allowance overtops
	// the other along nearly the same line.
	if a*dot > b || b*dot > a {
		return step(pa, pb, d, e, a > b, cross < 0)
	}
	if cross < 0 {
		return []Point{{v.X + m.X, v.Y + m.Y}}
	}
	return bluntTip(v, m, d, e, limit)
}

// step joins the ends pa and pb of two cut lines that run along d and on along
// e. In a hollow corner the wider allowance is kept to its edge's very end, and
// the step goes square to the other cut line, not back to the corner.
func step(pa, pb, d, e Point, widerFirst, hollow bool) []Point {
	along := func(from, to, dir Point) float64 { return (to.X-from.X)*dir.X + (to.Y-from.Y)*dir.Y }
	switch {
	case !hollow:
		return []Point{pa, pb}
	case widerFirst:
		return []Point{pa, shift(pb, e, along(pb, pa, e))}
	}
	return []Point{shift(pa, d, along(pa, pb, d)), pb}
}

// bluntTip cuts the mitre m square across at limit from v.
func bluntTip(v, m, d, e Point, limit float64) []Point {
	reach := math.Hypot(m.X, m.Y)
	dir := Point{m.X / reach, m.Y / reach}
	back := reach - limit
	ca, cb := d.X*dir.X+d.Y*dir.Y, -(e.X*dir.X + e.Y*dir.Y)
	tip := Point{v.X + m.X, v.Y + m.Y}
	if ca < 1e-9 || cb < 1e-9 { // an edge square to the mitre has nothing to lose
		return []Point{tip}
	}
	// Along each offset edge back from the mitre to the cut: the cut loses
	// `back` along dir, and an edge loses back/cos of that along itself.
	return []Point{shift(tip, d, -back/ca), shift(tip, e, back/cb)}
}

func unit(a, b Point) Point {
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	return Point{(b.X - a.X) / l, (b.Y - a.Y) / l}
}

func shift(v, dir Point, by float64) Point { return Point{v.X + dir.X*by, v.Y + dir.Y*by} }

func together(a, b Point) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) <= 1e-9 }
