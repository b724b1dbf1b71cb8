package layout

import (
	"math"
	"sync"

	"ellwand/geometry"
)

// half is a half-plane of relative places: inside where nx·dx + ny·dy < c, with
// (nx, ny) of length 1, so that c − nx·dx − ny·dy is the depth inside in cm.
type half struct{ nx, ny, c float64 }

// nofit is the convex region of relative places at which two convex parts
// overlap (or are nearer than the gap): a box and the half-planes not along it.
type nofit struct {
	x0, y0, x1, y1 float64
	halves         []half
}

// pair is the no-fit regions of all parts of two forms, and the box around them.
type pair struct {
	x0, y0, x1, y1 float64
	parts          []nofit
	once           sync.Once // for field
	field          *field
}

func newPair(a, b *form, gap float64) *pair {
	pr := &pair{x0: math.Inf(1), y0: math.Inf(1), x1: math.Inf(-1), y1: math.Inf(-1)}
	for _, pa := range a.parts {
		for _, pb := range b.parts {
			q := newNofit(pa, pb, gap)
			pr.x0, pr.y0 = math.Min(pr.x0, q.x0), math.Min(pr.y0, q.y0)
			pr.x1, pr.y1 = math.Max(pr.x1, q.x1), math.Max(pr.y1, q.y1)
			pr.parts = append(pr.parts, q)
		}
	}
	return pr
}

// newNofit: two convex parts are clear when along some edge's normal b's
// nearest corner is beyond a's furthest by the gap. With a gap, normals between
// those of the edges are added, so that a corner is not kept off further than
// about 8 % of the gap.
func newNofit(a, b geometry.Polygon, gap float64) nofit {
	var q nofit
	q.x1, q.x0 = reach(a, b, 1, 0)+gap, -reach(a, b, -1, 0)-gap
	q.y1, q.y0 = reach(a, b, 0, 1)+gap, -reach(a, b, 0, -1)-gap
	var angles []float64
	for i, v := range a {
		w := a[(i+1)%len(a)]
		angles = append(angles, math.Atan2(v.X-w.X, w.Y-v.Y))
	}
	for i, v := range b {
		w := b[(i+1)%len(b)]
		angles = append(angles, math.Atan2(w.X-v.X, v.Y-w.Y))
	}
	if gap > 0 {
		for k := range 8 {
			angles = append(angles, (float64(k)+0.5)*math.Pi/4)
		}
	}
	order := sortedBy(len(angles), func(i int) float64 { return angles[i] })
	last := math.Inf(-1)
	for _, i := range order {
		t := angles[i]
		if quarter := math.Abs(math.Remainder(t, math.Pi/2)); t-last < 1e-10 || quarter < 1e-10 {
			continue
		}
		last = t
		ny, nx := math.Sincos(t)
		q.halves = append(q.halves, half{nx, ny, reach(a, b, nx, ny) + gap})
	}
	return q
}

// reach is how far b must go along (nx, ny) to be beyond a.
func reach(a, b geometry.Polygon, nx, ny float64) float64 {
	far, near := math.Inf(-1), math.Inf(1)
	for _, v := range a {
		far = math.Max(far, nx*v.X+ny*v.Y)
	}
	for _, v := range b {
		near = math.Min(near, nx*v.X+ny*v.Y)
	}
	return far - near
}

// depth is the least move, in cm, that takes b at (dx, dy) clear of a by −slack;
// of parts the sum. It falls evenly to 0 as the two part.
func (pr *pair) depth(dx, dy, slack float64) float64 {
	if !pr.boxed(dx, dy, slack) {
		return 0
	}
	return pr.inside(dx, dy, slack)
}

// boxed says whether the place is within the pair's box.
func (pr *pair) boxed(dx, dy, slack float64) bool {
	return dx > pr.x0+slack && dx < pr.x1-slack && dy > pr.y0+slack && dy < pr.y1-slack
}

// inside is depth for places known to be within the pair's box.
func (pr *pair) inside(dx, dy, slack float64) float64 {
	if len(pr.parts) == 1 {
		return pr.parts[0].depth(dx, dy, slack)
	}
	sum := 0.0
	for k := range pr.parts {
		sum += pr.parts[k].depth(dx, dy, slack)
	}
	return sum
}

func (q *nofit) depth(dx, dy, slack float64) float64 {
	d := min(dx-q.x0, q.x1-dx, dy-q.y0, q.y1-dy)
	if d <= slack {
		return 0
	}
	for i := range q.halves {
		h := &q.halves[i]
		if v := h.c - h.nx*dx - h.ny*dy; v < d {
			if v <= slack {
				return 0
			}
			d = v
		}
	}
	return d - slack
}

// alongX is the open span of dx at which the parts overlap, for a given dy.
func (q *nofit) alongX(dy float64) (lo, hi float64, any bool) {
	if dy <= q.y0 || dy >= q.y1 {
		return 0, 0, false
	}
	lo, hi = q.x0, q.x1
	for i := range q.halves {
		h := &q.halves[i]
		lo, hi = h.bound(h.nx, h.c-h.ny*dy, lo, hi)
	}
	return lo, hi, lo < hi
}

// alongY is the open span of dy at which the parts overlap, for a given dx.
func (q *nofit) alongY(dx float64) (lo, hi float64, any bool) {
	if dx <= q.x0 || dx >= q.x1 {
		return 0, 0, false
	}
	lo, hi = q.y0, q.y1
	for i := range q.halves {
		h := &q.halves[i]
		lo, hi = h.bound(h.ny, h.c-h.nx*dx, lo, hi)
	}
	return lo, hi, lo < hi
}

// bound narrows lo..hi to where n·v < c.
func (h *half) bound(n, c, lo, hi float64) (float64, float64) {
	if n > 0 {
		return lo, math.Min(hi, c/n)
	}
	return math.Max(lo, c/n), hi
}

// clearance is how far apart the forms are for certain, in cm; negative where
// some parts overlap or are nearer than the gap.
func (pr *pair) clearance(dx, dy float64) float64 {
	least := math.Inf(1)
	for k := range pr.parts {
		q := &pr.parts[k]
		c := max(q.x0-dx, dx-q.x1, q.y0-dy, dy-q.y1)
		for i := range q.halves {
			h := &q.halves[i]
			c = max(c, h.nx*dx+h.ny*dy-h.c)
		}
		least = min(least, c)
	}
	return least
}
