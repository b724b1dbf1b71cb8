package flat

import "math"

// spread opens a slit by turning the cloth on its two sides apart, as cloth
// does: lengths along the warp and along the weft stay, only the angle between
// them changes (the pin-jointed model of a plain web).
type spread struct {
	name     string // the slit, or the edge that a gore is set into
	end      point  // where the slit ends
	down     point  // from there to the hem, a unit
	across   point  // at right angles to it, a unit
	sin, cos float64
	only     float64 // 0: both sides move; ±1: all moves to that side
}

func (s *spread) at(p point) point {
	q := minus(p, s.end)
	t, side := dot(q, s.down), dot(q, s.across)
	if t <= 0 {
		return p
	}
	move := s.only
	if move == 0 {
		move = math.Copysign(1, side)
	}
	return add(s.end, add(times(s.down, t*s.cos), times(s.across, side+move*t*s.sin)))
}

// bend lays a straight strip along a curve: what lies t along the strip's edge
// lies t along the curve.
type bend struct {
	curve []point // on the paper
	from  point   // where the strip's edge begins, in its own frame
	dir   point   // along that edge, a unit
	flip  float64 // -1 for a strip turned over
}

func (b *bend) at(p point) point {
	q := minus(p, b.from)
	t, off := dot(q, b.dir), cross(b.dir, q)*b.flip
	for i := 1; i < len(b.curve); i++ {
		l := between(b.curve[i-1], b.curve[i])
		if t <= l || i == len(b.curve)-1 {
			u := unit(minus(b.curve[i], b.curve[i-1]))
			return add(add(b.curve[i-1], times(u, t)), times(toLeft(u), off))
		}
		t -= l
	}
	return p
}

// arch is half an ellipse of a given length that stands on two points.
func arch(a, b point, lengthCM float64) []point {
	half := between(a, b) / 2
	mid, u := mix(a, b, 0.5), unit(minus(b, a))
	up := toLeft(u)
	if up.Y < 0 {
		up = times(up, -1)
	}
	curve := func(high float64) []point {
		var out []point
		for i := range 81 {
			s, c := math.Sincos(math.Pi * (1 - float64(i)/80))
			out = append(out, add(mid, add(times(u, half*c), times(up, high*s))))
		}
		return out
	}
	low, high := 0.0, lengthCM
	for range 50 {
		h, total := (low+high)/2, 0.0
		line := curve(h)
		for i := 1; i < len(line); i++ {
			total += between(line[i-1], line[i])
		}
		if total < lengthCM {
			low = h
		} else {
			high = h
		}
	}
	return curve(high)
}
