package layout

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"time"
)

// Study is what is found at each of some widths, in the order they were asked.
type Study struct {
	// Lays is a lay for each width; without placements and of no length where
	// the items cannot be laid.
	Lays []Lay
	// Searched says where more was tried than a first lay, or no lay can be
	// shorter.
	Searched []bool
}

// Widths lays base at each of the widths, in cm. Each has a first lay; then as
// many widths as s.Threads are searched at a time, those first near which little
// was searched and whose cloth is most against widths near them. What is found
// is tried on the widths to either side: on wider cloth it is legal, unless
// ground is in the way, and is pushed together; on narrower cloth what sticks
// out is pushed in and driven apart. A lay that happens to leave a selvedge free
// serves narrower cloth as it is. So length does not grow with width. known is
// lays that there are already, of any width: they serve as if found first, and
// nothing is longer than they allow.
//
// The time in all is shared by the searches, first lays taking a part of it at
// most; with none, s.MaxSteps bounds each search instead, and without that the
// lays are first ones. The same seed, steps and threads give the same lays.
// progress (may be nil) is told the place in widthsCM of each lay as it becomes
// known or shorter, one at a time. When ctx is done, what there is so far is
// given with ctx's error.
func Widths(ctx context.Context, base Problem, widthsCM []float64, known []Lay, s Settings, inAll time.Duration, progress func(i int, l Lay)) (Study, error) {
	st := &widthStudy{ctx: ctx, base: base, widths: widthsCM, s: s, lays: make([]Lay, len(widthsCM)), progress: progress}
	least := NarrowestCM(base)
	for i, w := range widthsCM {
		if !(w > 0 && w <= maxCM) {
			return Study{}, fmt.Errorf("width %d is %v cm; accepted is more than 0 to %d cm", i+1, w, int(maxCM))
		}
		st.lays[i].WidthCM = w
	}
	for _, i := range sortedBy(len(widthsCM), func(i int) float64 { return widthsCM[i] }) {
		if widthsCM[i] >= least-fitCM {
			st.order = append(st.order, i)
		}
	}
	n := len(st.order)
	st.searched, st.inVain, st.floors, st.tried = make([]int, n), make([]int, n), make([]float64, n), make([]bool, n)
	now := nowOf(ctx)
	began := now()
	st.takeKnown(known)
	if err := st.first(inAll); err != nil || n == 0 {
		return st.study(), err
	}
	st.shareModel()
	searches := searchesEach * n
	waves := (searches + st.atOnce() - 1) / st.atOnce()
	for ; waves > 0; waves-- {
		var each time.Duration
		if inAll > 0 {
			each = (inAll - now().Sub(began)) / time.Duration(waves)
		}
		if inAll > 0 && each <= 0 || inAll <= 0 && s.MaxSteps <= 0 || !st.wave(each) {
			break
		}
		if err := ctx.Err(); err != nil {
			return st.study(), err
		}
	}
	return st.study(), nil
}

const (
	searchesEach = 1   // how often each width is searched, on average
	firstShare   = 0.3 // of the time in all, for first lays at most
	handOnShare  = 0.5 // of a search's time, for trying what it found on other widths
	nearWidths   = 5   // how many widths to either side a width is compared with
)

type widthStudy struct {
	ctx      context.Context
	base     Problem
	widths   []float64
	s        Settings
	order    []int // widths that take every item, rising
	lays     []Lay
	progress func(int, Lay)
	wide     *model    // of the widest cloth, from which those of narrower ones are taken; or nil
	floors   []float64 // by place in order: no lay there can be shorter
	searched []int     // by place in order: how often
	inVain   []int     // by place in order: how often without gain
	tried    []bool    // by place in order: whether any search ran there, or began from a lay near it
}

func (st *widthStudy) study() Study {
	out := Study{st.lays, make([]bool, len(st.lays))}
	for n, i := range st.order {
		l := st.lays[i]
		out.Searched[i] = st.tried[n] || len(l.Placements) > 0 && Shortest(l.LengthCM, st.floors[n])
	}
	return out
}

func (st *widthStudy) atOnce() int { return max(1, st.s.Threads) }

func (st *widthStudy) at(i int) Problem {
	p := st.base
	p.WidthCM = st.widths[i]
	return p
}

// takeKnown takes lays that there are already wherever they serve.
func (st *widthStudy) takeKnown(known []Lay) {
	for _, l := range known {
		if len(l.Placements) != len(st.base.Items) || len(l.Placements) == 0 {
			continue
		}
		l.LengthCM = ReachCM(st.base, l.Placements)
		st.take(-1, l)
	}
}

// first is a first lay at every width, as far as a share of the time goes. Then
// the lays of narrower cloth serve, or the pieces' boxes in rows where ground
// forbids that. Widths are taken far apart at first, then between, so that none
// is far from one that had its time.
func (st *widthStudy) first(inAll time.Duration) error {
	ctx, cancel := st.within(inAll, firstShare)
	defer cancel()
	spread := spreadOut(len(st.order))
	lays, floors := make([]Lay, len(st.order)), make([]float64, len(st.order))
	for len(spread) > 0 {
		some := spread[:min(st.atOnce(), len(spread))]
		spread = spread[len(some):]
		st.sideBySide(some, func(_, n int) {
			p := st.at(st.order[n])
			if ctx.Err() == nil || len(st.lays[st.order[n]].Placements) == 0 {
				lays[n], _ = FirstContext(ctx, p)
			}
			floors[n] = quickBound(ctx, p)
		})
		if err := st.ctx.Err(); err != nil {
			return err
		}
		for _, n := range some {
			if st.floors[n] = floors[n]; len(lays[n].Placements) > 0 {
				st.take(st.order[n], lays[n])
			}
		}
	}
	return nil
}

// spreadOut is the numbers 0 to n−1, both ends first and then always the middle
// of what lies between.
func spreadOut(n int) []int {
	if n < 2 {
		return []int{0}[:n]
	}
	out := []int{0, n - 1}
	for between := [][2]int{{0, n - 1}}; len(between) > 0; between = between[1:] {
		from, to := between[0][0], between[0][1]
		if mid := (from + to) / 2; mid > from {
			out = append(out, mid)
			between = append(between, [2]int{from, mid}, [2]int{mid, to})
		}
	}
	return out
}

// sideBySide does some at the same time and waits for all.
func (st *widthStudy) sideBySide(some []int, do func(k, n int)) {
	var wg sync.WaitGroup
	for k, n := range some {
		wg.Add(1)
		go func() {
			defer wg.Done()
			do(k, n)
		}()
	}
	wg.Wait()
}

// shareModel makes what all widths have in common ready once: what pairs of
// pieces must keep apart. Where places hang on the width (a selvedge, a repeat,
// measured edges) each search makes its own.
func (st *widthStudy) shareModel() {
	if len(st.base.Lengths) > 0 || len(st.base.Items) <= fewRectangles {
		return
	}
	for _, it := range st.base.Items {
		if it.tied() {
			return
		}
	}
	m := newModel(st.ctx, st.at(st.order[len(st.order)-1]))
	if !m.cancelled() && !m.heavy() {
		st.wide = m
	}
}

// wave searches some widths side by side; false when there is nothing to gain.
func (st *widthStudy) wave(each time.Duration) bool {
	some := st.choose()
	if len(some) == 0 {
		return false
	}
	found := make([]lookedAt, len(some))
	st.sideBySide(some, func(k, n int) { found[k] = st.search(n, each) })
	for k, n := range some {
		if _, ok := found[k].lays[n]; !ok {
			st.inVain[n]++
		}
		for n := range st.order {
			st.tried[n] = st.tried[n] || found[k].tried[n]
			if l, ok := found[k].lays[n]; ok {
				st.take(st.order[n], l)
			}
		}
	}
	return true
}

// choose is the places in order to search next, counted as searched.
func (st *widthStudy) choose() []int {
	var some []int
	for range st.atOnce() {
		best, most := -1, 0.0
		for n, i := range st.order {
			l := st.lays[i]
			if slices.Contains(some, n) || len(l.Placements) == 0 || Shortest(l.LengthCM, st.floors[n]) {
				continue
			}
			if u := st.urge(n); u > most {
				best, most = n, u
			}
		}
		if best < 0 {
			break
		}
		some = append(some, best)
		st.searched[best]++
	}
	return some
}

// urge is how much searching the width promises: how much more cloth it takes
// than widths near it, and a little besides, less the more was searched there
// and near there, and the more of that was in vain. Wider cloth counts half: it
// may hold side by side what does not go on this.
func (st *widthStudy) urge(n int) float64 {
	area := func(n int) float64 { return st.widths[st.order[n]] * st.lays[st.order[n]].LengthCM }
	lag, near := 0.0, float64(st.inVain[n])
	for k := max(0, n-nearWidths); k <= min(len(st.order)-1, n+nearWidths); k++ {
		if len(st.lays[st.order[k]].Placements) > 0 {
			more := area(n)/area(k) - 1
			if k > n {
				more /= 2
			}
			lag = max(lag, more)
		}
		near += float64(st.searched[k]) * math.Pow(0.5, math.Abs(float64(k-n)))
	}
	return (lag + 0.02) / (1 + near)
}

// lookedAt is what one search gives, by place in order: lays shorter than what is
// known there, and where any were looked for.
type lookedAt struct {
	lays  map[int]Lay
	tried map[int]bool
}

// search is lays for the width at place n in order, and for others near it.
func (st *widthStudy) search(n int, each time.Duration) lookedAt {
	i := st.order[n]
	s := Settings{Seed: st.s.Seed + uint64(st.searched[n]), Threads: 1, MaxSteps: st.s.MaxSteps}
	known := st.lays[i]
	found := lookedAt{map[int]Lay{}, map[int]bool{}}
	if st.wide == nil {
		ctx, cancel := st.within(each, 1)
		defer cancel()
		l, err := Improve(ctx, st.at(i), known, s, nil)
		found.tried[n] = err == nil
		if err == nil && l.LengthCM < known.LengthCM {
			found.lays[n] = l
		}
		return found
	}
	ctx, cancel := st.within(each, 1-handOnShare)
	defer cancel()
	w := st.searchAt(ctx, n, known, s.MaxSteps)
	w.run()
	l := w.best.get()
	found.tried[n] = true
	if l.LengthCM < known.LengthCM {
		found.lays[n] = l
	}
	for _, step := range []int{-1, 1} {
		ctx, cancel := st.within(each, handOnShare/2)
		st.handOn(ctx, n, step, l, found)
		cancel()
	}
	return found
}

// within is a share of the time for a search, or all the time where steps count.
func (st *widthStudy) within(each time.Duration, share float64) (context.Context, context.CancelFunc) {
	if each <= 0 {
		return context.WithCancel(st.ctx)
	}
	return Within(st.ctx, time.Duration(float64(each)*share))
}

// searchAt is a search at place n in order that knows a lay.
func (st *widthStudy) searchAt(ctx context.Context, n int, known Lay, maxSteps int) *search {
	m := st.wide.narrowed(ctx, st.widths[st.order[n]])
	rng := rand.New(rand.NewPCG(st.s.Seed+uint64(st.searched[n]), uint64(n)))
	return newSearch(m, rng, newClock(ctx, maxSteps), &record{p: m.p, lay: known}, newSkyline(m).bound(st.floors[n]))
}

// take keeps l, checked at width i, for that and for every other width that it
// serves better than what is known. Where i is below 0 nothing is checked yet.
func (st *widthStudy) take(i int, l Lay) {
	needs := 0.0
	for k, pl := range l.Placements {
		needs = math.Max(needs, Placed(st.base.Items[k], pl).Bounds().MaxY)
	}
	for _, j := range st.order {
		known := &st.lays[j]
		if len(known.Placements) > 0 && known.LengthCM <= l.LengthCM+1e-9 || st.widths[j] < needs-fitCM {
			continue
		}
		served := l
		served.WidthCM = st.widths[j]
		if j != i && Check(st.at(j), served) != nil {
			continue
		}
		*known = served
		if st.progress != nil {
			st.progress(j, served)
		}
	}
}
