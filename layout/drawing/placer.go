package drawing

import (
	"cmp"
	"math"
	"slices"

	"ellwand/geometry"
)

// box is a rectangle on the picture, in px.
type box struct{ x, y, w, h float64 }

func (b box) meets(c box) bool {
	return b.x < c.x+c.w && c.x < b.x+b.w && b.y < c.y+c.h && c.y < b.y+b.h
}

// inset is b made smaller by so much on every side.
func inset(b box, by float64) box { return box{b.x + by, b.y + by, b.w - 2*by, b.h - 2*by} }

// nearest is the point of b nearest to c.
func (b box) nearest(c geometry.Point) geometry.Point {
	return geometry.Point{X: min(max(c.X, b.x), b.x+b.w), Y: min(max(c.Y, b.y), b.y+b.h)}
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
	return geometry.Rect{MinX: b.x, MinY: b.y, MaxX: b.x + b.w, MaxY: b.y + b.h}.Crosses(u, v)
}

// placer remembers what is taken, so that no writing stands on other writing.
type placer struct {
	taken   []box
	leaders [][]geometry.Point
}

func (p *placer) free(b box) bool {
	for _, t := range p.taken {
		if b.meets(t) {
			return false
		}
	}
	return !b.crossed(p.leaders)
}

func (p *placer) take(b box) { p.taken = append(p.taken, b) }

// inside finds a place for a w × h box wholly inside shape and within, off all
// the lines, the nearest to the middle, and takes it.
func (p *placer) inside(shape geometry.Polygon, lines [][]geometry.Point, within box, w, h float64) (box, bool) {
	r := shape.Bounds()
	x0, x1 := max(r.MinX, within.x), min(r.MaxX, within.x+within.w)
	y0, y1 := max(r.MinY, within.y), min(r.MaxY, within.y+within.h)
	if x1-x0 < w || y1-y0 < h {
		return box{}, false
	}
	c := shape.Centroid()
	if (x0-r.MinX)+(r.MaxX-x1) > 0.1*r.Width() {
		c.X = (x0 + x1) / 2 // part of it lies in another row
	}
	for _, b := range grid(box{x0, y0, x1 - x0, y1 - y0}, w, h, 40, 20, c) {
		if p.free(b) && !b.crossed(lines) && geometry.Contains(shape, b.polygon()) {
			p.take(b)
			return b, true
		}
	}
	return box{}, false
}

// grid is w × h boxes spread evenly over room, those with their middle nearest
// to c first.
func grid(room box, w, h float64, along, across int, c geometry.Point) []box {
	away := func(b box) float64 { return math.Hypot(b.x+w/2-c.X, b.y+h/2-c.Y) }
	out := make([]box, 0, (along+1)*(across+1)+1)
	middle := box{min(max(c.X-w/2, room.x), room.x+room.w-w), min(max(c.Y-h/2, room.y), room.y+room.h-h), w, h}
	out = append(out, middle)
	for i := range along + 1 {
		for j := range across + 1 {
			out = append(out, box{room.x + float64(i)/float64(along)*(room.w-w), room.y + float64(j)/float64(across)*(room.h-h), w, h})
		}
	}
	slices.SortStableFunc(out, func(a, b box) int { return cmp.Compare(away(a), away(b)) })
	return out
}

// near finds a free place for a w × h box within, as near as can be to c and off
// all the shapes, such that a line from c to it is at most so long and crosses
// nothing written, and takes it.
func (p *placer) near(c geometry.Point, within box, w, h, most float64, off []geometry.Polygon) (box, bool) {
	if within.w < w || within.h < h {
		return box{}, false
	}
	for _, b := range grid(within, w, h, 120, 40, c) {
		end := b.nearest(c)
		if math.Hypot(end.X-c.X, end.Y-c.Y) > most {
			continue
		}
		if !p.free(b) || onAny(b, off) || p.crossed(end, c) {
			continue
		}
		p.take(b)
		p.leaders = append(p.leaders, []geometry.Point{end, c})
		return b, true
	}
	return box{}, false
}

// crossed says whether the line u-v runs over anything written.
func (p *placer) crossed(u, v geometry.Point) bool {
	for _, t := range p.taken {
		if t.cutBy(u, v) {
			return true
		}
	}
	return false
}

func onAny(b box, shapes []geometry.Polygon) bool {
	q := b.polygon()
	for _, s := range shapes {
		m := s.Bounds()
		if b.meets(box{m.MinX, m.MinY, m.Width(), m.Height()}) && geometry.Overlap(q, s) {
			return true
		}
	}
	return false
}
