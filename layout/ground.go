package layout

import (
	"fmt"
	"math"
	"slices"

	"ellwand/geometry"
)

// Flaw is ground on which no piece may lie, in strip coordinates. Pieces may
// touch it, as they may touch the cloth's edge; the gap is not kept from it.
type Flaw struct {
	Name    string // "" is called by its number
	Outline geometry.Polygon
}

// Length is one length of cloth. Several lie one behind the other on the strip,
// with room between that is no cloth: FromCM and ToCM are where it begins and
// ends along the strip. The last goes on without end (ToCM +Inf).
type Length struct {
	Name         string
	FromCM, ToCM float64
	// Sides are its two edges where they were measured; before the first place
	// and after the last they go on as they are there. None: straight, the
	// strip's width apart.
	Sides []Sides
	Shut  bool // nothing is to be laid on it
}

// Sides is where a length's edges were measured across, AtCM from its own first
// end. Between two measured places each edge runs straight.
type Sides struct{ AtCM, LeftCM, RightCM float64 }

// FarCM is as good as without end along the cloth.
const FarCM = 20000

// ground is a part of the strip on which nothing may lie.
type ground struct {
	flaw    int // index into Problem.Flaws; -1 for what is no cloth
	length  int // index into Problem.Lengths, for what is no cloth; else -1
	side    bool
	outline geometry.Polygon
}

// grounds is the flaws, then what lies beyond the measured edges and between
// the lengths of cloth.
func (p Problem) grounds() []ground {
	var out []ground
	for k, f := range p.Flaws {
		out = append(out, ground{flaw: k, length: -1, outline: f.Outline})
	}
	for k, l := range p.Lengths {
		for _, q := range l.Beyond(p.WidthCM) {
			out = append(out, ground{-1, k, true, q})
		}
		if l.Shut && !math.IsInf(l.ToCM, 1) {
			out = append(out, ground{-1, k, false, box(l.FromCM, 0, l.ToCM, p.WidthCM)})
		}
		if k+1 < len(p.Lengths) && l.ToCM < p.Lengths[k+1].FromCM {
			out = append(out, ground{-1, k, false, box(l.ToCM, 0, p.Lengths[k+1].FromCM, p.WidthCM)})
		}
	}
	return out
}

func box(x0, y0, x1, y1 float64) geometry.Polygon {
	return geometry.Polygon{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// sidesThrough is Sides from the one end of the length to the other.
func (l Length) sidesThrough() []Sides {
	if len(l.Sides) == 0 {
		return nil
	}
	first, last := l.Sides[0], l.Sides[len(l.Sides)-1]
	all := slices.Clone(l.Sides)
	if first.AtCM > 0 {
		first.AtCM = 0
		all = slices.Insert(all, 0, first)
	}
	if end := min(l.ToCM-l.FromCM, FarCM); last.AtCM < end {
		last.AtCM = end
		all = append(all, last)
	}
	return all
}

// Beyond is what of the strip lies outside the measured edges, as convex pieces.
func (l Length) Beyond(widthCM float64) []geometry.Polygon {
	var out []geometry.Polygon
	add := func(pts ...geometry.Point) {
		var q geometry.Polygon
		for i, v := range pts {
			if i == 0 || v != q[len(q)-1] {
				q = append(q, v)
			}
		}
		if len(q) > 1 && q[0] == q[len(q)-1] {
			q = q[:len(q)-1]
		}
		if len(q) >= 3 && q.Area() > 0 {
			out = append(out, q)
		}
	}
	sides := l.sidesThrough()
	for k := 1; k < len(sides); k++ {
		a, b := sides[k-1], sides[k]
		x0, x1 := l.FromCM+a.AtCM, l.FromCM+b.AtCM
		add(geometry.Point{X: x0}, geometry.Point{X: x1}, geometry.Point{X: x1, Y: b.LeftCM}, geometry.Point{X: x0, Y: a.LeftCM})
		add(geometry.Point{X: x0, Y: a.RightCM}, geometry.Point{X: x1, Y: b.RightCM},
			geometry.Point{X: x1, Y: max(widthCM, b.RightCM)}, geometry.Point{X: x0, Y: max(widthCM, a.RightCM)})
	}
	return out
}

// AreaCM2 is the cloth's area, +Inf for a length without end.
func (l Length) AreaCM2(widthCM float64) float64 {
	area := (l.ToCM - l.FromCM) * widthCM
	for _, q := range l.Beyond(widthCM) {
		area -= q.Area()
	}
	return area
}

// Edges is the measured edges, left and right, in strip coordinates.
func (l Length) Edges() (left, right []geometry.Point) {
	for _, s := range l.Sides {
		left = append(left, geometry.Point{X: l.FromCM + s.AtCM, Y: s.LeftCM})
		right = append(right, geometry.Point{X: l.FromCM + s.AtCM, Y: s.RightCM})
	}
	return left, right
}

// At is the two edges where the length is cut across at x, in strip coordinates.
func (l Length) At(x, widthCM float64) (leftCM, rightCM float64) {
	s := l.Sides
	if len(s) == 0 {
		return 0, widthCM
	}
	x -= l.FromCM
	for k := 1; k < len(s); k++ {
		if x <= s[k].AtCM || k == len(s)-1 {
			t := 0.0
			if d := s[k].AtCM - s[k-1].AtCM; d > 0 {
				t = min(1, max(0, (x-s[k-1].AtCM)/d))
			}
			return s[k-1].LeftCM + t*(s[k].LeftCM-s[k-1].LeftCM), s[k-1].RightCM + t*(s[k].RightCM-s[k-1].RightCM)
		}
	}
	return s[0].LeftCM, s[0].RightCM
}

func (p Problem) validateGround() error {
	for i, f := range p.Flaws {
		if err := geometry.Validate(f.Outline); err != nil {
			return fmt.Errorf("%s: %w", p.flawCalled(i), err)
		}
		if b := f.Outline.Bounds(); max(-b.MinX, b.MaxX, -b.MinY, b.MaxY) > maxCM {
			return fmt.Errorf("%s reaches further than %d cm; accepted is less", p.flawCalled(i), int(maxCM))
		}
	}
	at := 0.0
	for k, l := range p.Lengths {
		if !(l.FromCM >= at && l.ToCM > l.FromCM && l.FromCM <= maxCM) || math.IsInf(l.ToCM, 1) != (k == len(p.Lengths)-1) {
			return fmt.Errorf("the cloth %s goes from %g to %g cm; accepted are lengths one behind the other within %d cm, the last without end", l.called(k), l.FromCM, l.ToCM, int(maxCM))
		}
		at = l.ToCM
		for i, s := range l.Sides {
			if !(s.LeftCM >= 0 && s.RightCM > s.LeftCM && s.RightCM <= p.WidthCM+fitCM) || i > 0 && !(s.AtCM > l.Sides[i-1].AtCM) || len(l.Sides) < 2 {
				return fmt.Errorf("the cloth %s is measured from %g to %g cm across at %g cm; accepted are at least two places, one after the other, within the strip's %g cm",
					l.called(k), s.LeftCM, s.RightCM, s.AtCM, p.WidthCM)
			}
		}
	}
	return nil
}

func (p Problem) flawCalled(k int) string {
	if n := p.Flaws[k].Name; n != "" {
		return fmt.Sprintf("the flaw %q", n)
	}
	return fmt.Sprintf("flaw %d", k+1)
}

func (l Length) called(k int) string {
	if l.Name != "" {
		return fmt.Sprintf("%q", l.Name)
	}
	return fmt.Sprintf("length %d", k+1)
}

// faultGround is what is wrong with item i lying at a, both in grid units, by
// ground g; nil where they do not share ground.
func (p Problem) faultGround(i int, g ground, a, q geometry.Polygon) *Fault {
	if !overlaps(a, q) {
		return nil
	}
	if g.flaw >= 0 {
		return &Fault{OnFlaw, i, -1, g.flaw, fmt.Sprintf("piece %s lies on %s", p.called(i), p.flawCalled(g.flaw))}
	}
	l := p.Lengths[g.length]
	if !g.side {
		return &Fault{AcrossEnds, i, -1, -1, fmt.Sprintf("piece %s lies across the end of the cloth %s", p.called(i), l.called(g.length))}
	}
	b := a.Bounds()
	left, right := l.At((b.MinX+b.MaxX)/2*checkGridCM, p.WidthCM)
	return &Fault{Outside, i, -1, -1, fmt.Sprintf("piece %s reaches past the measured edge of the cloth %s, %.1f cm wide there", p.called(i), l.called(g.length), right-left)}
}

// LengthOf is the index of the length of cloth on which something lies whose
// nearest end is at x; 0 where the cloth is all one.
func (p Problem) LengthOf(x float64) int {
	at := 0
	for k, l := range p.Lengths {
		if x >= l.FromCM-fitCM {
			at = k
		}
	}
	return at
}

// UsedCM is how much of each length of cloth the lay takes, from the length's
// first end to the far end of the last piece on it; of cloth all one, the lay's
// length.
func UsedCM(p Problem, l Lay) []float64 {
	if len(p.Lengths) == 0 {
		return []float64{l.LengthCM}
	}
	used := make([]float64, len(p.Lengths))
	for i, it := range p.Items {
		b := Placed(it, l.Placements[i]).Bounds()
		k := p.LengthOf(b.MinX)
		used[k] = max(used[k], b.MaxX-p.Lengths[k].FromCM)
	}
	return used
}

// ClothCM is the length of cloth that the lay takes in all.
func ClothCM(p Problem, l Lay) float64 {
	sum := 0.0
	for _, u := range UsedCM(p, l) {
		sum += u
	}
	return sum
}

// pastTheEdge is ground that touches a selvedge, lengthened outwards by reach:
// what lies there is no cloth either, so that the way out across is never the
// nearest one for the search.
func pastTheEdge(q geometry.Polygon, widthCM, reach float64) geometry.Polygon {
	var out geometry.Polygon
	for i, v := range q {
		w := q[(i+1)%len(q)]
		out = append(out, v)
		switch {
		case v.Y <= 0 && w.Y <= 0:
			out = append(out, geometry.Point{X: v.X, Y: v.Y - reach}, geometry.Point{X: w.X, Y: w.Y - reach})
		case v.Y >= widthCM && w.Y >= widthCM:
			out = append(out, geometry.Point{X: v.X, Y: v.Y + reach}, geometry.Point{X: w.X, Y: w.Y + reach})
		}
	}
	if geometry.Validate(out) != nil {
		return q
	}
	return out
}

// reach is the greatest extent of any item.
func (p Problem) reach() float64 {
	far := 0.0
	for _, it := range p.Items {
		b := it.Outline.Bounds()
		far = max(far, b.Width(), b.Height())
	}
	return far
}

// groundBound is a length below which no lay can be for the ground that is no
// cloth or flawed: the area that is left must hold the pieces, and where the
// ground lies right across, no piece is longer than the cloth between.
func groundBound(p Problem) float64 {
	gs := p.grounds()
	if len(gs) == 0 {
		return 0
	}
	taken := apartBoxes(p, gs)
	need := itemsArea(p)
	// The free area up to x grows with x: find where it first holds the pieces.
	lo, hi := 0.0, need/p.WidthCM
	for _, r := range taken {
		hi += max(0, r.box.Width())
	}
	for range 60 {
		mid := (lo + hi) / 2
		free := p.WidthCM * mid
		for _, r := range taken {
			// Of ground cut through at mid, the least that may lie before it.
			if r.box.MaxX <= mid {
				free -= r.area
			}
		}
		if free >= need {
			hi = mid
		} else {
			lo = mid
		}
	}
	best := lo
	for _, it := range p.Items {
		best = max(best, p.earliestEnd(it, gs))
	}
	return best
}

// patch is ground on the strip with its area.
type patch struct {
	box  geometry.Rect
	area float64
}

// apartBoxes is ground of which no two boxes overlap, so that areas may be
// added; ground reaching past the strip counts only when it is a plain box.
func apartBoxes(p Problem, gs []ground) []patch {
	var out []patch
	for _, g := range gs {
		b := g.outline.Bounds()
		area := g.outline.Area()
		if isBox(g.outline) {
			b = geometry.Rect{MinX: max(0, b.MinX), MinY: max(0, b.MinY), MaxX: b.MaxX, MaxY: min(p.WidthCM, b.MaxY)}
			area = max(0, b.Width()) * max(0, b.Height())
		}
		if b.MinX < 0 || b.MinY < 0 || b.MaxY > p.WidthCM || area <= 0 {
			continue
		}
		clear := true
		for _, o := range out {
			if b.MinX < o.box.MaxX && o.box.MinX < b.MaxX && b.MinY < o.box.MaxY && o.box.MinY < b.MaxY {
				clear = false
			}
		}
		if clear {
			out = append(out, patch{b, area})
		}
	}
	return out
}

// earliestEnd is the least far end that the item can have for the ground that
// lies right across the strip.
func (p Problem) earliestEnd(it Item, gs []ground) float64 {
	long := shortest(it, p.WidthCM)
	at := 0.0
	for again := true; again; {
		again = false
		for _, g := range gs {
			b := g.outline.Bounds()
			if isBox(g.outline) && b.MinY <= 0 && b.MaxY >= p.WidthCM && b.MinX < at+long-fitCM && b.MaxX > at+fitCM {
				at, again = b.MaxX, true
			}
		}
	}
	return at + long
}
