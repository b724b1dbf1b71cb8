package geometry

import (
	"fmt"
	"math"
)

// CutOutline is p with allowanceCM[i] added outside edge i. Corners are
// mitred; where a mitre would run more than maxTipCM past the finished corner
// beyond the larger of the two allowances, it is cut square across there, so
// that a gore's point does not run away. Neighbouring edges on one line with
// different allowances are joined by a step.
func CutOutline(p Polygon, allowanceCM []float64, maxTipCM float64) (Polygon, error) {
	n := len(p)
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
	var out []Point
	for i := range p {
		k := (i + n - 1) % n
		out = append(out, corner(p[k], p[i], p[(i+1)%n], allowanceCM[k], allowanceCM[i], maxTipCM)...)
	}
	q, err := New(dropRepeats(out))
	if err != nil {
		return nil, fmt.Errorf("the allowances do not fit this shape: %w", err)
	}
	return q, nil
}

// corner is what the cut outline has at finished corner v, between the edge
// u-v with allowance a and the edge v-w with allowance b.
func corner(u, v, w Point, a, b, maxTip float64) []Point {
	d, e := unit(u, v), unit(v, w)
	na, nb := Point{d.Y, -d.X}, Point{e.Y, -e.X} // outward, p being counter-clockwise
	cross := d.X*e.Y - d.Y*e.X
	if math.Abs(cross) < 1e-6 {
		pa, pb := shift(v, na, a), shift(v, nb, b)
		if math.Abs(a-b) < 1e-9 {
			return []Point{pa}
		}
		return []Point{pa, pb}
	}
	// The mitre solves na·m = a and nb·m = b, measured from v.
	m := Point{(a*nb.Y - b*na.Y) / cross, (b*na.X - a*nb.X) / cross}
	reach, limit := math.Hypot(m.X, m.Y), math.Max(a, b)+maxTip
	if cross > 0 && reach > limit && d.X*e.X+d.Y*e.Y > 0.98 {
		// A corner straight to within 11°, with unlike allowances: their lines meet far off.
		return []Point{shift(v, na, a), shift(v, nb, b)}
	}
	if cross < 0 || reach <= limit || reach == 0 {
		return []Point{{v.X + m.X, v.Y + m.Y}}
	}
	return bluntTip(v, m, d, e, limit)
}

// bluntTip cuts the mitre m square across at limit from v.
func bluntTip(v, m, d, e Point, limit float64) []Point {
	reach := math.Hypot(m.X, m.Y)
	dir := Point{m.X / reach, m.Y / reach}
	back := reach - limit
	// Along each offset edge back from the mitre to the cut: the cut loses
	// `back` along dir, and an edge loses back/cos of that along itself.
	sa := back / (d.X*dir.X + d.Y*dir.Y)
	sb := -back / (e.X*dir.X + e.Y*dir.Y)
	tip := Point{v.X + m.X, v.Y + m.Y}
	if !(sa > 0 && sb > 0) {
		return []Point{tip}
	}
	return []Point{shift(tip, d, -sa), shift(tip, e, sb)}
}

func unit(a, b Point) Point {
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	return Point{(b.X - a.X) / l, (b.Y - a.Y) / l}
}

func shift(v, dir Point, by float64) Point { return Point{v.X + dir.X*by, v.Y + dir.Y*by} }

func dropRepeats(pts []Point) []Point {
	var out []Point
	for i, v := range pts {
		if i == 0 || math.Hypot(v.X-out[len(out)-1].X, v.Y-out[len(out)-1].Y) > 1e-9 {
			out = append(out, v)
		}
	}
	return out
}
