package layout

import (
	"cmp"
	"context"
	"math"
	"slices"

	"ellwand/geometry"
)

// LowerBound is a length in cm below which no lay of p at its width can be. It
// is the largest of: the area over the width; the longest piece's least extent
// along the warp; the reach of the pins; what flaws and cut ends leave; chords
// under dual feasible functions; and the bar relaxation (see barBound). At any x
// the pieces' chords across the cloth, each with the gap, fit into the width
// with one gap more. A dual feasible function f has Σ f(cᵢ/W) ≤ 1 whenever
// Σ cᵢ ≤ W, so Σᵢ ∫ f(chordᵢ(x)/W) dx ≤ L (Fekete and Schepers' functions, from
// memory). Integrals are summed from below.
//
// For up to eight rectangles it is the shortest length itself, where that is
// proved quickly and no gap, flaw, pin or tie makes it longer.
func LowerBound(p Problem) float64 { return LowerBoundContext(context.Background(), p) }

// LowerBoundContext is LowerBound, or less once ctx is done.
func LowerBoundContext(ctx context.Context, p Problem) float64 {
	low := quickBound(ctx, p)
	if low == 0 {
		return 0
	}
	low = max(low, barsOf(ctx, p)*(1-1e-9))
	if len(p.Items) <= fewRectangles {
		low = max(low, rectanglesBound(ctx, p, low, quickNodes))
	}
	return low
}

// QuickBound is LowerBound without what takes more than some thousandths of a
// second: the same or a little less.
func QuickBound(p Problem) float64 { return quickBound(context.Background(), p) }

// barsOf is the bar relaxation of the pieces across the cloth.
func barsOf(ctx context.Context, p Problem) float64 {
	var outlines [][]geometry.Polygon
	for _, it := range p.Items {
		var turns []geometry.Polygon
		for _, q := range ways(it) {
			if q.Bounds().Height() <= p.WidthCM+fitCM {
				turns = append(turns, q)
			}
		}
		if it.Pinned != nil {
			turns = []geometry.Polygon{Placed(it, *it.Pinned)}
		}
		outlines = append(outlines, turns)
	}
	return barBound(ctx, outlines, p.GapCM, p.WidthCM+p.GapCM)
}

// rectanglesBound is the shortest length of rectangles that lie free on clear
// cloth, where it is proved within so many places; else 0. Two rectangles past
// each other's corner keep the gap slantwise, so that along or across they may
// be nearer: by the root of two at most, which is what they are given here.
func rectanglesBound(ctx context.Context, p Problem, low float64, maxNodes int) float64 {
	p.Flaws, p.Lengths, p.GapCM = nil, nil, p.GapCM/math.Sqrt2
	p.Items = slices.Clone(p.Items)
	for i := range p.Items {
		it := &p.Items[i]
		if it.Pinned != nil {
			it.TurnsDeg, it.MayFlip = []float64{it.Pinned.TurnDeg}, false
		}
		it.Pinned, it.Selvedge, it.Along, it.Across = nil, 0, Match{}, Match{}
	}
	m := newModel(ctx, p)
	if m.cancelled() {
		return 0
	}
	sky := newSkyline(m)
	if sky == nil {
		return 0
	}
	start, err := first(m)
	if err != nil {
		return 0
	}
	ls, proved := exactly(ctx, m, sky, low, start.LengthCM, maxNodes)
	if !proved {
		return 0
	}
	return sky.provedLength(ls, start.LengthCM)
}

// Shortest says whether a lay of the length is proved as short as can be, to
// within the grid of places, by the lower bound of its problem. All in cm.
func Shortest(lengthCM, boundCM float64) bool { return lengthCM < boundCM+placeGridCM }

// quickNodes bounds the time that a lower bound may take to some tenths of a second.
const quickNodes = 200_000

// provedLength is the length that no lay can be below, once all was tried and
// ls found, or nothing shorter than known. What the check rounds away may be
// won once at each rectangle.
func (s *skyline) provedLength(ls []laid, known float64) float64 {
	far := known
	if len(ls) > 0 {
		far = 0
		for _, l := range ls {
			far = max(far, l.x+s.kinds[l.kind].ways[l.way].l-s.m.p.GapCM)
		}
	}
	return far - exactCM*float64(len(s.m.p.Items)+2)
}

// quickBound is LowerBound without the proof for rectangles; less once ctx is done.
func quickBound(ctx context.Context, p Problem) float64 {
	if !(p.WidthCM > 0) || len(p.Items) == 0 {
		return 0
	}
	best := areaBound(p)
	for _, it := range p.Items {
		best = math.Max(best, shortest(it, p.WidthCM))
		if it.Pinned != nil {
			best = math.Max(best, Placed(it, *it.Pinned).Bounds().MaxX)
		}
	}
	best = math.Max(best, chordBound(ctx, p))
	best = math.Max(best, groundBound(p))
	return best * (1 - 1e-9) // what the sums may have been rounded up by
}

// areaBound spreads each piece by half the gap: those still do not overlap and
// lie on a strip one gap wider and longer. The spread area is at least that of
// a circle's (Brunn and Minkowski's inequality).
func areaBound(p Problem) float64 {
	sum, r := 0.0, p.GapCM/2
	for _, it := range p.Items {
		a := it.Outline.Area()
		sum += a + 2*r*math.Sqrt(math.Pi*a) + math.Pi*r*r
	}
	return sum/(p.WidthCM+p.GapCM) - p.GapCM
}

// shortest is the item's least extent along the warp over the turns that fit.
func shortest(it Item, widthCM float64) float64 {
	least := math.Inf(1)
	for _, q := range ways(it) {
		if b := q.Bounds(); b.Height() <= widthCM+fitCM {
			least = math.Min(least, b.Width())
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// slice is a stretch of a piece along the warp, with a chord no piece's chord
// there falls below, as a share of the width.
type slice struct{ along, chord float64 }

// kind is equal items: the slices of each turn, and how many there are.
type kind struct {
	turns [][]slice
	count float64
}

func chordBound(ctx context.Context, p Problem) float64 {
	wide := p.WidthCM + p.GapCM
	var kinds []kind
	known := map[string]int{}
	for _, it := range p.Items {
		if ctx.Err() != nil {
			return 0
		}
		key := ""
		for _, q := range ways(it) {
			key += shapeKey(q) + "|"
		}
		k, ok := known[key]
		if !ok {
			k = len(kinds)
			known[key] = k
			kinds = append(kinds, kind{turns: slicesOf(p, it, wide)})
		}
		kinds[k].count++
	}
	best := 0.0
	for _, f := range feasible(kinds) {
		if ctx.Err() != nil {
			return best
		}
		sum := 0.0
		for _, k := range kinds {
			sum += k.count * k.least(f)
		}
		best = math.Max(best, sum)
	}
	return best
}

// least is the kind's integral of f over its chords, in the turn where it is least.
func (k kind) least(f func(float64) float64) float64 {
	least := math.Inf(1)
	for _, ss := range k.turns {
		v := 0.0
		for _, s := range ss {
			v += s.along * f(s.chord)
		}
		least = math.Min(least, v)
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

func slicesOf(p Problem, it Item, wide float64) [][]slice {
	var out [][]slice
	seen := map[string]bool{}
	for _, q := range ways(it) {
		if key := shapeKey(q); seen[key] || q.Bounds().Height() > p.WidthCM+fitCM {
			continue
		} else {
			seen[key] = true
		}
		out = append(out, chordSlices(q, p.GapCM, wide))
	}
	return out
}

// chordSlices cuts q across at every corner and a few times between. Within
// such a stretch each chord is a straight-line function of x, least at an end.
// Where a shape with hollows has several chords each counts for itself; with a
// gap, which is kept only from other pieces, one of them with the gap.
func chordSlices(q geometry.Polygon, gap, wide float64) []slice {
	between := 24
	if len(q) > 60 {
		between = 4
	}
	xs := sortedBy(len(q), func(i int) float64 { return q[i].X })
	var out []slice
	for k := 1; k < len(xs); k++ {
		x0, x1 := q[xs[k-1]].X, q[xs[k]].X
		if x1-x0 < 1e-9 {
			continue
		}
		for _, c := range chordsBetween(q, x0, x1, gap > 0) {
			n := between
			if math.Abs(c[1]-c[0]) < 1e-9 {
				n = 1
			}
			for j := range n {
				u, v := float64(j)/float64(n), float64(j+1)/float64(n)
				least := math.Min(c[0]+(c[1]-c[0])*u, c[0]+(c[1]-c[0])*v)
				out = append(out, slice{(x1 - x0) / float64(n), math.Max(0, (least+gap)/wide-1e-9)})
			}
		}
	}
	return out
}

// chordsBetween is the chords of q, each at x0 and at x1, between which q has
// no corner; the longest alone if so asked.
func chordsBetween(q geometry.Polygon, x0, x1 float64, longest bool) [][2]float64 {
	mid := (x0 + x1) / 2
	type line struct{ at0, at1 float64 }
	var lines []line
	for i, a := range q {
		b := q[(i+1)%len(q)]
		if (a.X > mid) == (b.X > mid) {
			continue
		}
		up := (b.Y - a.Y) / (b.X - a.X)
		lines = append(lines, line{a.Y + up*(x0-a.X), a.Y + up*(x1-a.X)})
	}
	slices.SortFunc(lines, func(a, b line) int { return cmp.Compare(a.at0+a.at1, b.at0+b.at1) })
	var out [][2]float64
	for k := 0; k+1 < len(lines); k += 2 {
		lo, hi := lines[k], lines[k+1]
		out = append(out, [2]float64{math.Max(0, hi.at0-lo.at0), math.Max(0, hi.at1-lo.at1)})
	}
	if longest && len(out) > 1 {
		slices.SortFunc(out, func(a, b [2]float64) int { return cmp.Compare(b[0]+b[1], a[0]+a[1]) })
		out = out[:1]
	}
	return out
}

// feasible is the dual feasible functions worth trying: those whose steps fall
// on the chords there are, and some at even places.
func feasible(kinds []kind) []func(float64) float64 {
	steps := map[float64]bool{}
	for _, k := range kinds {
		for _, ss := range k.turns {
			for _, s := range ss {
				if len(ss) <= 2 && len(steps) < 400 {
					steps[math.Min(s.chord, 1-s.chord+1e-9)] = true
				}
			}
		}
	}
	for k := 1; k <= 25; k++ {
		steps[float64(k)/50] = true
	}
	var fs []func(float64) float64
	for e := range steps {
		if e <= 0 || e > 0.5 {
			continue
		}
		fs = append(fs, func(c float64) float64 {
			switch {
			case c > 1-e:
				return 1
			case c < e:
				return 0
			}
			return c
		})
	}
	for k := 1; k <= 30; k++ {
		fs = append(fs, func(c float64) float64 { return math.Floor(float64(k+1)*c) / float64(k) })
	}
	return fs
}
