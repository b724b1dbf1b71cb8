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

// Widths lays base at each of the widths, in cm, and gives the lays in the
// order asked. Each width has a first lay; then as many widths as s.Threads are
// searched at a time, those first near which little was searched and whose cloth
// is most against widths near them. What is found is tried on the widths to
// either side: on wider cloth it is legal, unless ground is in the way, and is
// pushed together; on narrower cloth what sticks out is pushed in and driven
// apart. A lay that happens to leave a selvedge free serves narrower cloth as it
// is. So length does not grow with width.
//
// The time in all is shared by the searches; with none, s.MaxSteps bounds each
// instead, and without that the lays are first ones. The same seed, steps and
// threads give the same lays. A width at which the items cannot be laid gets a
// lay without placements and of no length. progress (may be nil) is told the
// place in widthsCM of each lay as it becomes known or shorter, one at a time.
// When ctx is done, the lays so far are given with ctx's error.
func Widths(ctx context.Context, base Problem, widthsCM []float64, s Settings, inAll time.Duration, progress func(i int, l Lay)) ([]Lay, error) {
	st := &widthStudy{ctx: ctx, base: base, widths: widthsCM, s: s, lays: make([]Lay, len(widthsCM)), progress: progress}
	least := NarrowestCM(base)
	for i, w := range widthsCM {
		if !(w > 0 && w <= maxCM) {
			return nil, fmt.Errorf("width %d is %v cm; accepted is more than 0 to %d cm", i+1, w, int(maxCM))
		}
		st.lays[i].WidthCM = w
	}
	for _, i := range sortedBy(len(widthsCM), func(i int) float64 { return widthsCM[i] }) {
		if widthsCM[i] >= least-fitCM {
			st.order = append(st.order, i)
		}
	}
	now := nowOf(ctx)
	began := now()
	if err := st.first(); err != nil || len(st.order) == 0 {
		return st.lays, err
	}
	st.shareModel()
	searches := searchesEach * len(st.order)
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
			return st.lays, err
		}
	}
	return st.lays, nil
}

const (
	searchesEach = 1    // how often each width is searched, on average
	handOnShare  = 0.25 // of a search's time, for trying what it found on other widths
	nearWidths   = 5    // how many widths to either side a width is compared with
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
}

func (st *widthStudy) atOnce() int { return max(1, st.s.Threads) }

func (st *widthStudy) at(i int) Problem {
	p := st.base
	p.WidthCM = st.widths[i]
	return p
}

// first is a first lay at every width.
func (st *widthStudy) first() error {
	for _, i := range st.order {
		l, err := FirstContext(st.ctx, st.at(i))
		if st.ctx.Err() != nil {
			return st.ctx.Err()
		}
		if err == nil {
			st.take(i, l)
		}
	}
	st.searched, st.inVain, st.floors = make([]int, len(st.order)), make([]int, len(st.order)), make([]float64, len(st.order))
	for n, i := range st.order {
		st.floors[n] = quickBound(st.ctx, st.at(i))
	}
	return nil
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
	found := make([]map[int]Lay, len(some))
	var wg sync.WaitGroup
	for k, n := range some {
		wg.Add(1)
		go func() {
			defer wg.Done()
			found[k] = st.search(n, each)
		}()
	}
	wg.Wait()
	for k, n := range some {
		if _, ok := found[k][n]; !ok {
			st.inVain[n]++
		}
		for n := range st.order {
			if l, ok := found[k][n]; ok {
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

// search is lays for the width at place n in order, and for others near it, that
// are shorter than what is known there.
func (st *widthStudy) search(n int, each time.Duration) map[int]Lay {
	i := st.order[n]
	s := Settings{Seed: st.s.Seed + uint64(st.searched[n]), Threads: 1, MaxSteps: st.s.MaxSteps}
	known := st.lays[i]
	if st.wide == nil {
		ctx, cancel := st.within(each, 1)
		defer cancel()
		if l, err := Improve(ctx, st.at(i), known, s, nil); err == nil && l.LengthCM < known.LengthCM {
			return map[int]Lay{n: l}
		}
		return nil
	}
	ctx, cancel := st.within(each, 1-handOnShare)
	defer cancel()
	w := st.searchAt(ctx, n, known, s.MaxSteps)
	w.run()
	l := w.best.get()
	found := map[int]Lay{}
	if l.LengthCM < known.LengthCM {
		found[n] = l
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

// take keeps l for width i, and for every other width that it serves better
// than what is known.
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
