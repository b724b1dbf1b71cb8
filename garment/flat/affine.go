package flat

import (
	"math"

	"ellwand/geometry"
)

type point = geometry.Point

func add(a, b point) point            { return point{X: a.X + b.X, Y: a.Y + b.Y} }
func minus(a, b point) point          { return point{X: a.X - b.X, Y: a.Y - b.Y} }
func times(a point, k float64) point  { return point{X: a.X * k, Y: a.Y * k} }
func dot(a, b point) float64          { return a.X*b.X + a.Y*b.Y }
func cross(a, b point) float64        { return a.X*b.Y - a.Y*b.X }
func long(a point) float64            { return math.Hypot(a.X, a.Y) }
func between(a, b point) float64      { return long(minus(a, b)) }
func mix(a, b point, t float64) point { return add(a, times(minus(b, a), t)) }
func toLeft(a point) point            { return point{X: -a.Y, Y: a.X} }
func unit(a point) point {
	if l := long(a); l > 0 {
		return times(a, 1/l)
	}
	return point{X: 1}
}

// affine takes (x, y) to origin + x·along + y·across.
type affine struct{ along, across, origin point }

func (t affine) at(p point) point {
	return add(t.origin, add(times(t.along, p.X), times(t.across, p.Y)))
}

// rigid puts segment a–b on c–d, their starts together; mirrored turns the
// piece over.
func rigid(a, b, c, d point, mirrored bool) affine {
	u, w := unit(minus(b, a)), unit(minus(d, c))
	flip := 1.0
	if mirrored {
		flip = -1
	}
	// The frame (u, left of u) goes to (w, ± left of w).
	along := add(times(w, u.X), times(toLeft(w), -flip*u.Y))
	across := add(times(w, u.Y), times(toLeft(w), flip*u.X))
	t := affine{along: along, across: across}
	mid, to := mix(a, b, 0.5), mix(c, d, 0.5)
	t.origin = minus(to, t.at(mid))
	return t
}

// onto takes three points to three others; false when they lie in a line.
func onto(from, to [3]point) (affine, bool) {
	u, v := minus(from[1], from[0]), minus(from[2], from[0])
	area := cross(u, v)
	if math.Abs(area) < 1e-9 {
		return affine{}, false
	}
	p, q := minus(to[1], to[0]), minus(to[2], to[0])
	t := affine{
		along:  times(minus(times(p, v.Y), times(q, u.Y)), 1/area),
		across: times(minus(times(q, u.X), times(p, v.X)), 1/area),
	}
	t.origin = minus(to[0], t.at(from[0]))
	return t, true
}

// reflected is p on the other side of the line through a along d.
func reflected(p, a, d point) point {
	u := unit(d)
	foot := add(a, times(u, dot(minus(p, a), u)))
	return minus(times(foot, 2), p)
}

func middle(points []point) point {
	var sum point
	for _, p := range points {
		sum = add(sum, p)
	}
	return times(sum, 1/float64(max(1, len(points))))
}

// run is the part of a line from and to fractions of its length.
func run(line []point, from, to float64) []point {
	total := 0.0
	for i := 1; i < len(line); i++ {
		total += between(line[i-1], line[i])
	}
	low, high, done := from*total, to*total, 0.0
	var out []point
	for i := 1; i < len(line); i++ {
		l := between(line[i-1], line[i])
		if l > 0 && done+l > low-1e-9 && done < high+1e-9 {
			a, b := max(0, (low-done)/l), min(1, (high-done)/l)
			if a < b+1e-12 {
				if len(out) == 0 {
					out = append(out, mix(line[i-1], line[i], a))
				}
				if b*l > 1e-9 {
					out = append(out, mix(line[i-1], line[i], b))
				}
			}
		}
		done += l
	}
	return out
}

// straight says whether a line hardly leaves its chord.
func straight(line []point) bool {
	if len(line) < 3 {
		return true
	}
	a, u := line[0], unit(minus(line[len(line)-1], line[0]))
	for _, p := range line {
		if math.Abs(cross(u, minus(p, a))) > 0.3 {
			return false
		}
	}
	return true
}
