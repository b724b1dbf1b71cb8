package layout

import (
	"context"
	"fmt"
	"math"
	"sync"
	"time"
)

// Widths lays base at each of the widths, in cm, and gives the lays in the
// order asked. From the narrowest up, as many widths as s.Threads are searched
// at a time, each starting from the shortest lay of a narrower cloth, which is
// legal here too unless ground is in the way; then all once more from the best
// there is by then. So length does not grow with width. A lay that happens to
// leave a selvedge free serves narrower cloth as well.
//
// The time in all is shared evenly; with none, s.MaxSteps bounds each search
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
	if err := st.first(); err != nil {
		return st.lays, err
	}
	waves := float64(2 * ((len(st.order) + st.atOnce() - 1) / st.atOnce()))
	for pass := range 2 {
		for at := 0; at < len(st.order); at += st.atOnce() {
			var each time.Duration
			if inAll > 0 {
				each = time.Duration(float64(inAll-now().Sub(began)) / waves)
			}
			waves--
			if inAll > 0 && each > 0 || inAll <= 0 && s.MaxSteps > 0 {
				st.wave(st.order[at:min(len(st.order), at+st.atOnce())], pass, each)
			}
			if err := ctx.Err(); err != nil {
				return st.lays, err
			}
		}
	}
	return st.lays, nil
}

type widthStudy struct {
	ctx      context.Context
	base     Problem
	widths   []float64
	s        Settings
	order    []int // widths that take every item, rising
	lays     []Lay
	progress func(int, Lay)
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
	return nil
}

// wave searches some widths side by side.
func (st *widthStudy) wave(some []int, pass int, each time.Duration) {
	ctx := st.ctx
	if each > 0 {
		var cancel context.CancelFunc
		ctx, cancel = Within(ctx, each)
		defer cancel()
	}
	found := make([]Lay, len(some))
	var wg sync.WaitGroup
	for k, i := range some {
		if len(st.lays[i].Placements) == 0 {
			continue
		}
		wg.Add(1)
		go func() {
			defer wg.Done()
			s := Settings{Seed: st.s.Seed + uint64(pass), Threads: 1, MaxSteps: st.s.MaxSteps}
			if l, err := Improve(ctx, st.at(i), st.lays[i], s, nil); err == nil {
				found[k] = l
			}
		}()
	}
	wg.Wait()
	for k, i := range some {
		if len(found[k].Placements) > 0 {
			st.take(i, found[k])
		}
	}
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
