package drawing

import "ellwand/geometry"

// box is a rectangle on the picture, in px.
type box struct{ x, y, w, h float64 }

func (b box) meets(c box) bool {
	return b.x < c.x+c.w && c.x < b.x+b.w && b.y < c.y+c.h && c.y < b.y+b.h
}

func (b box) polygon() geometry.Polygon {
	return geometry.Polygon{{X: b.x, Y: b.y}, {X: b.x + b.w, Y: b.y}, {X: b.x + b.w, Y: b.y + b.h}, {X: b.x, Y: b.y + b.h}}
}

// crossed says whether any of the lines runs into the box.
func (b box) crossed(lines [][]geometry.Point) bool {
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			if b.cutBy(l[i-1], l[i]) {
				return true
			}
		}
	}
	return false
}

// cutBy clips the segment u-v to the box and says whether anything is left.
func (b box) cutBy(u, v geometry.Point) bool {
	from, to := 0.0, 1.0
	clip := func(start, move, low, high float64) bool {
		if move == 0 {
			return start >= low && start <= high
		}
		t0, t1 := (low-start)/move, (high-start)/move
		from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
		return from <= to
	}
	return clip(u.X, v.X-u.X, b.x, b.x+b.w) && clip(u.Y, v.Y-u.Y, b.y, b.y+b.h)
}

// placer remembers what is taken, so that no writing stands on other writing.
type placer struct{ taken []box }

func (p *placer) free(b box) bool {
	for _, t := range p.taken {
		if b.meets(t) {
			return false
		}
	}
	return true
}

func (p *placer) take(b box) { p.taken = append(p.taken, b) }

// inside finds a place for a w × h box wholly inside shape and within, off all
// the lines, near the middle first, and takes it.
func (p *placer) inside(shape geometry.Polygon, lines [][]geometry.Point, within box, w, h float64) (box, bool) {
	r := shape.Bounds()
	x0, x1 := max(r.MinX, within.x), min(r.MaxX, within.x+within.w)-w
	y0, y1 := max(r.MinY, within.y), min(r.MaxY, within.y+within.h)-h
	if x1 < x0 || y1 < y0 {
		return box{}, false
	}
	for _, fx := range outwards(25) {
		for _, fy := range outwards(15) {
			b := box{x0 + fx*(x1-x0), y0 + fy*(y1-y0), w, h}
			if p.free(b) && !b.crossed(lines) && geometry.Contains(shape, b.polygon()) {
				p.take(b)
				return b, true
			}
		}
	}
	return box{}, false
}

// outwards is n fractions of 0 to 1, the middle first.
func outwards(n int) []float64 {
	out := []float64{0.5}
	for i := 1; i <= n/2; i++ {
		d := 0.5 * float64(i) / float64(n/2)
		out = append(out, 0.5-d, 0.5+d)
	}
	return out
}

// near finds a free place for a w × h box within, as near as can be to (x, y),
// off all the shapes if there is such a place, and takes it.
func (p *placer) near(x, y float64, within box, w, h float64, shapes []geometry.Polygon) (box, bool) {
	for _, offShapes := range []bool{true, false} {
		best, least := box{}, -1.0
		for fx := 0.0; fx <= 1; fx += 1.0 / 120 {
			for fy := 0.0; fy <= 1; fy += 1.0 / 40 {
				b := box{within.x + fx*(within.w-w), within.y + fy*(within.h-h), w, h}
				dx, dy := b.x+w/2-x, b.y+h/2-y
				d := dx*dx + dy*dy
				if least >= 0 && d >= least || !p.free(b) || offShapes && onAny(b, shapes) {
					continue
				}
				best, least = b, d
			}
		}
		if least >= 0 {
			p.take(best)
			return best, true
		}
	}
	return box{}, false
}

func onAny(b box, shapes []geometry.Polygon) bool {
	q := b.polygon()
	for _, s := range shapes {
		if geometry.Overlap(q, s) {
			return true
		}
	}
	return false
}
