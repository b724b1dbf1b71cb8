package layout

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"math"
)

// Branch and bound for rectangles. Of any lay the rectangles can be put in an
// order in which none has an earlier one to its right or above it (left of and
// below make no circle). Laid in that order each goes outside the staircase
// over those before it, and pushed left and down comes to rest in a corner of
// the staircase, which takes no room from the later ones. So trying every
// rectangle in every corner of the staircase, in turn, meets a shortest lay
// (after Martello, Pisinger and Vigo, Operations Research 48, 2000, from memory).

// fewRectangles is the number up to which the shortest lay is proved in seconds.
const fewRectangles = 8

// stair is a corner of the staircase: above y, and up to the corner before, the
// cloth is free from x on.
type stair struct{ x, y float64 }

type exact struct {
	ctx      context.Context
	sky      *skyline
	floor    float64 // no lay can be shorter; with the gap, as all lengths here
	limit    float64 // only shorter lays are looked for
	nodes    int
	maxNodes int
	stopped  bool // not all was tried
	mirror   int  // kind laid in the near half only, as lays may be mirrored; or -1
	order    []int
	now      []laid
	best     []laid
	levels   [][]stair
	seen     map[[16]byte]bool
}

const (
	exactCM    = 1e-6    // a lay must be shorter by this to count
	seenStates = 400_000 // at most kept, so that memory has a bound
)

// exactly looks for the shortest lay below limit cm; proved says that all was
// tried, so that there is none shorter than the one given, or than the limit
// when none is. It counts at most maxNodes places.
func exactly(ctx context.Context, m *model, sky *skyline, floor, limit float64, maxNodes int) (best []laid, proved bool) {
	gap := m.p.GapCM
	e := &exact{ctx: ctx, sky: sky, floor: floor + gap, limit: limit + gap, maxNodes: maxNodes, mirror: -1, seen: map[[16]byte]bool{}}
	area := 0.0
	for k := range sky.kinds {
		sky.left[k] = sky.kinds[k].n
		w := sky.kinds[k].ways[0]
		area += w.l * w.w * float64(sky.kinds[k].n)
	}
	size := func(k int) float64 { w := sky.kinds[k].ways[0]; return w.l * w.w }
	e.order = sortedBy(len(sky.kinds), func(k int) float64 { return -size(k) })
	for _, k := range e.order {
		if sky.kinds[k].n == 1 {
			e.mirror = k
			break
		}
	}
	e.levels = make([][]stair, len(m.p.Items)+1)
	e.levels[0] = []stair{{0, 0}}
	e.lay(0, area)
	return e.best, !e.stopped
}

// lay lays what is left, of so much area, round the staircase of the depth.
func (e *exact) lay(depth int, area float64) {
	if depth == len(e.levels)-1 {
		stairs := e.levels[depth]
		e.limit = stairs[len(stairs)-1].x - exactCM
		e.best = append(e.best[:0], e.now...)
		return
	}
	if e.nodes++; e.nodes > e.maxNodes || e.nodes%256 == 0 && e.ctx.Err() != nil {
		e.stopped = true
	}
	if e.over() || !e.worth(depth, area) {
		return
	}
	for _, k := range e.order {
		if e.sky.left[k] == 0 {
			continue
		}
		e.sky.left[k]--
		for w, way := range e.sky.kinds[k].ways {
			for c := 0; c < len(e.levels[depth]) && !e.over(); c++ {
				at := e.levels[depth][c]
				if at.y+way.w > e.sky.width+exactCM || at.x+way.l > e.limit {
					continue
				}
				if k == e.mirror && (2*at.y+way.w > e.sky.width+exactCM || 2*at.x+way.l > e.limit+exactCM) {
					continue
				}
				e.levels[depth+1] = climbed(e.levels[depth+1][:0], e.levels[depth], c, way)
				e.now = append(e.now, laid{k, w, at.x, at.y})
				e.lay(depth+1, area-way.l*way.w)
				e.now = e.now[:len(e.now)-1]
			}
		}
		e.sky.left[k]++
	}
}

func (e *exact) over() bool { return e.stopped || e.limit < e.floor-exactCM }

// worth says whether what is left may still fit outside the staircase: by area,
// without the steps on which nothing fits, and whether it was not tried before.
func (e *exact) worth(depth int, area float64) bool {
	minL, minW := math.Inf(1), math.Inf(1)
	for k := range e.sky.kinds {
		if e.sky.left[k] == 0 {
			continue
		}
		for _, w := range e.sky.kinds[k].ways {
			minL, minW = min(minL, w.l), min(minW, w.w)
		}
	}
	stairs := e.levels[depth]
	for len(stairs) > 1 && e.sky.width-stairs[0].y < minW-exactCM {
		stairs = append(stairs[:0], stairs[1:]...)
	}
	e.levels[depth] = stairs
	room, top := 0.0, e.sky.width
	for _, s := range stairs {
		if e.limit-s.x >= minL-exactCM {
			room += (top - s.y) * (e.limit - s.x)
		}
		top = s.y
	}
	if room < area-exactCM*(e.limit+e.sky.width) {
		return false
	}
	key := e.key(stairs)
	if e.seen[key] {
		return false
	}
	if len(e.seen) < seenStates {
		e.seen[key] = true
	}
	return true
}

// key stands for a staircase and what is left to be laid.
func (e *exact) key(stairs []stair) (key [16]byte) {
	var buf [1024]byte
	b := buf[:0]
	for _, n := range e.sky.left {
		b = binary.LittleEndian.AppendUint16(b, uint16(n))
	}
	for _, s := range stairs {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(s.x))
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(s.y))
	}
	sum := sha256.Sum256(b)
	copy(key[:], sum[:])
	return key
}

// climbed is the staircase after a rectangle is laid in corner c.
func climbed(out, stairs []stair, c int, way rectWay) []stair {
	x, y := stairs[c].x+way.l, stairs[c].y+way.w
	first, last := c, c
	for first > 0 && stairs[first-1].y < y-sameCM {
		first--
	}
	for last+1 < len(stairs) && stairs[last+1].x < x-sameCM {
		last++
	}
	out = append(out, stairs[:first]...)
	if first == 0 || stairs[first-1].y > y+sameCM {
		out = append(out, stair{stairs[first].x, y})
	}
	if last+1 == len(stairs) || stairs[last+1].x > x+sameCM {
		out = append(out, stair{x, stairs[last].y})
	}
	return append(out, stairs[last+1:]...)
}

// proveNodes bounds the proof before a search; it takes some seconds.
const proveNodes = 5_000_000

// proveShortest offers the shortest lay of rectangles; false when it is not
// proved to be that.
func proveShortest(m *model, sky *skyline, floor float64, best *record) bool {
	ls, proved := exactly(m.ctx, m, sky, floor, best.length(), proveNodes)
	if len(ls) > 0 {
		l, ok := m.settle(sky.bodies(ls))
		if !ok {
			return false
		}
		best.offer(l)
	}
	if proved && m.p.GapCM > 0 { // shortest of those that keep the gap along or across
		proved = Shortest(best.length(), rectanglesBound(m.ctx, m.p, floor, proveNodes))
	}
	return proved
}

// Optimum is a shortest lay of up to about eight loose rectangles on cloth
// without flaws, and whether it is proved to be one; false also for problems of
// another sort or when ctx is done first. Lengths are exact to the grid of
// places, 0.001 cm. With a gap the lay is shortest of those in which every two
// keep it along or across, and proved only where slantwise would not help.
func Optimum(ctx context.Context, p Problem) (Lay, bool, error) {
	start, err := FirstContext(ctx, p)
	if err != nil {
		return Lay{}, false, err
	}
	m := newModel(ctx, p)
	if m.cancelled() {
		return start, false, nil
	}
	sky := newSkyline(m)
	if sky == nil {
		return start, false, nil
	}
	low := quickBound(ctx, p)
	ls, proved := exactly(ctx, m, sky, low, start.LengthCM, math.MaxInt)
	if len(ls) > 0 {
		l, ok := m.settle(sky.bodies(ls))
		if !ok || l.LengthCM > start.LengthCM+placeGridCM/2 {
			return start, false, nil
		}
		start = l
	}
	if proved && p.GapCM > 0 {
		proved = Shortest(start.LengthCM, rectanglesBound(ctx, p, low, math.MaxInt))
	}
	return start, proved, nil
}
