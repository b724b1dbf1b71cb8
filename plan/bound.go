package plan

import (
	"context"
	"fmt"
	"reflect"
	"sync"
	"sync/atomic"
	"time"

	"ellwand/layout"
)

// bounding is below what length no lay can be, worked out when first asked for:
// it takes tenths of a second, and most plans that are read are never shown.
type bounding struct {
	problem layout.Problem
	lessCM  float64 // taken from the problem's bound
	some    func() float64
	work    sync.Once
	whole   atomic.Pointer[float64]
}

func newBounding(p layout.Problem, lessCM float64) *bounding {
	return &bounding{problem: p, lessCM: lessCM, some: sync.OnceValue(func() float64 { return max(0, layout.QuickBound(p)-lessCM) })}
}

// cm is the bound, worked out if it is not known yet.
func (b *bounding) cm() float64 {
	b.work.Do(func() {
		if b.whole.Load() == nil {
			low := max(0, layout.LowerBound(b.problem)-b.lessCM)
			b.whole.Store(&low)
		}
	})
	return *b.whole.Load()
}

// LowerBoundCM is a length that no lay at this width is below. It is worked out
// when first asked for, which takes some tenths of a second.
func (r *Result) LowerBoundCM() float64 { return r.Prepared.bound.cm() }

// BoundSoFarCM is LowerBoundCM where that is known, else, and whole is false, what
// is quickly told: the same or a little less.
func (r *Result) BoundSoFarCM() (cm float64, whole bool) {
	if low := r.Prepared.bound.whole.Load(); low != nil {
		return *low, true
	}
	return r.Prepared.bound.some(), false
}

// TakeBound takes over the bound of a result of the same pieces on the same cloth,
// where that is known already.
func (r *Result) TakeBound(before *Result) {
	to, from := r.Prepared.bound, before.Prepared.bound
	if low := from.whole.Load(); low != nil && to != from && to.lessCM == from.lessCM && reflect.DeepEqual(to.problem, from.problem) {
		to.whole.CompareAndSwap(nil, low)
	}
}

// ProvedShortest says whether the lay is as short as can be at its width, to
// within 0.001 cm, because the lower bound proves it.
func (r *Result) ProvedShortest() bool {
	return len(r.Faults) == 0 && layout.Shortest(r.ClothCM(), r.LowerBoundCM())
}

// BoundText is the lower bound as a sentence, the length in cm or inches.
func (r *Result) BoundText(units string) string {
	if r.ProvedShortest() {
		return "This lay is proved: no lay at this width can be shorter."
	}
	return fmt.Sprintf("No lay at this width can be shorter than %s.", lengthText(r.LowerBoundCM(), units))
}

// ProvedShortest says the same of a row of the width study.
func (r WidthRow) ProvedShortest() bool { return layout.Shortest(r.LengthCM, r.LowerBoundCM) }

// boundsAtOnce is the number of pieces up to which the whole bound of a width is
// worked out in some tenths of a second; with more the quick one serves.
const boundsAtOnce = 24

// boundTime is what the bounds of all widths may take of a study's seconds.
func (st *widthStudy) boundTime() time.Duration {
	if len(st.base.Items) > boundsAtOnce {
		return 0
	}
	return max(time.Second, seconds(st.o.Seconds)/10)
}

// boundAll works out the length that no lay can be below at the widths that
// have a lay, several at a time: quick ones all, whole ones as long as there is
// time. What holds of wider cloth holds of narrower too, for a lay on that lies
// on the wider as well.
func (st *widthStudy) boundAll() {
	ctx, cancel := context.WithTimeout(st.ctx, st.boundTime())
	defer cancel()
	todo := make(chan int)
	var wg sync.WaitGroup
	bounds := make([]float64, len(st.widthsCM))
	for range max(1, st.o.Threads) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range todo {
				p := st.base
				p.WidthCM = st.widthsCM[i]
				if bounds[i] = layout.QuickBound(p); ctx.Err() == nil {
					bounds[i] = max(bounds[i], layout.LowerBoundContext(ctx, p))
				}
			}
		}()
	}
	for _, i := range thinnedFirst(sortedKeys(st.lays)) {
		todo <- i
	}
	close(todo)
	wg.Wait()
	least := 0.0
	for i := len(bounds) - 1; i >= 0; i-- {
		least = max(least, bounds[i])
		st.bounds[i] = least
	}
}

// thinnedFirst is every fourth from the last down, then those between.
func thinnedFirst(all []int) []int {
	var out []int
	for k := range 4 {
		for i := len(all) - 1 - k; i >= 0; i -= 4 {
			out = append(out, all[i])
		}
	}
	return out
}
