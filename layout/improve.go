package layout

import (
	"context"
	"math"
	"math/rand/v2"
	"sort"
	"sync"
)

// Settings of a search. The same seed and MaxSteps with one thread give the
// same lay on every machine.
type Settings struct {
	Seed     uint64
	Threads  int // searches side by side; 0 counts as 1
	MaxSteps int // passes over the colliding pieces per thread; 0 is no bound
}

// Improve shortens a lay until ctx is done or the steps are used up, and
// returns the best there is. A start without placements, or one that is not
// legal, is replaced by First's. Every strictly shorter legal lay is given to
// found (which may be nil) once, one at a time, already checked.
func Improve(ctx context.Context, p Problem, start Lay, s Settings, found func(Lay)) (Lay, error) {
	if err := p.Validate(); err != nil {
		return Lay{}, err
	}
	p = p.phased(ctx, start)
	m := newModel(ctx, p)
	if !m.cancelled() && m.heavy() {
		m = newModelOf(ctx, p, heavySpread)
	}
	best := &record{p: p, found: found}
	if len(start.Placements) == 0 || Check(p, start) != nil {
		l, err := first(m)
		if err != nil {
			return Lay{}, err
		}
		best.offer(l)
	} else {
		best.lay = start
	}
	if ctx.Err() != nil {
		return best.lay, nil
	}
	floor := quickBound(ctx, p)
	sky := newSkyline(m)
	floor = sky.bound(floor)
	if sky != nil && len(p.Items) <= fewRectangles && proveShortest(m, sky, floor, best) {
		return best.lay, nil
	}
	var wg sync.WaitGroup
	for t := range max(1, s.Threads) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			rng := rand.New(rand.NewPCG(s.Seed, uint64(t)))
			newSearch(m, rng, newClock(ctx, s.MaxSteps), best, floor).run()
		}()
	}
	wg.Wait()
	return best.lay, nil
}

// record is the shortest lay known to all threads.
type record struct {
	mu    sync.Mutex
	p     Problem
	lay   Lay
	found func(Lay)
}

// offer takes l if it is shorter than what is known.
func (r *record) offer(l Lay) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if len(r.lay.Placements) > 0 && l.LengthCM >= r.lay.LengthCM-1e-9 {
		return false
	}
	r.lay = l
	if r.found != nil {
		r.found(Lay{l.WidthCM, l.LengthCM, append([]Placement(nil), l.Placements...)})
	}
	return true
}

func (r *record) length() float64 {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.lay.LengthCM
}

func (r *record) get() Lay {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.lay
}

// search is one thread's way to shorter lays: explore in large shrinks with
// disturbance between, then compress the best in small ones.
type search struct {
	m     *model
	rng   *rand.Rand
	clock *clock
	best  *record
	sep   *separation
	floor float64 // no lay can be shorter
}

func newSearch(m *model, rng *rand.Rand, c *clock, best *record, floor float64) *search {
	return &search{m, rng, c, best, newSeparation(m, rng, c), floor}
}

func (s *search) run() {
	if len(s.sep.loose) == 0 {
		return
	}
	s.searchRectangles(newSkyline(s.m), rectangleShare)
	for !s.done() {
		s.explore()
		s.compress()
	}
}

// done also when the bound is met to within the grid of places.
func (s *search) done() bool {
	return s.clock.over() || s.best.length() <= s.floor+4*exactCM
}

const (
	exploreShare   = 0.8 // of the time
	rectangleShare = 0.7 // of the time, where all items are rectangles
	giveUp         = 12  // failures in a row after which exploring ends when time is unbounded
	fewFails       = 20  // failures in a row after which exchanging two items seems not to be enough
)

// tried is a state that still overlaps, kept for another try.
type tried struct {
	all  []body
	loss float64
}

func (s *search) explore() {
	at := s.m.bodiesOf(s.best.get())
	known := s.best.length()
	shrink := 0.01
	var pool []tried
	s.sep.load(at, s.target(known, shrink))
	for fails := 0; !s.done() && s.clock.spent() < exploreShare && fails < giveUp+s.patience(); {
		if now := s.best.length(); now < known-1e-9 { // another thread is ahead
			known = now
			pool = pool[:0]
			s.sep.load(s.sep.all[:len(s.m.p.Items)], s.target(known, shrink))
		}
		s.clock.tick() // so that steps pass even where nothing overlaps
		ok, loss := s.sep.separate(s.perseverance(fails))
		if ok && s.take() {
			fails, known, pool = 0, s.best.length(), pool[:0]
			s.cut(s.target(known, shrink))
			continue
		}
		fails++
		shrink = max(0.001, shrink*0.8)
		pool = keepTried(pool, tried{append([]body(nil), s.sep.all[:len(s.m.p.Items)]...), loss})
		pick := pool[int(float64(len(pool))*math.Pow(s.rng.Float64(), 2.5))]
		s.sep.load(pick.all, s.target(known, shrink))
		if fails > fewFails && s.rng.IntN(4) == 0 {
			s.scatter(float64(1+s.rng.IntN(4)) / 8)
		}
		s.disturb()
	}
}

// perseverance is how long one separation is tried. Many items take long to
// find their places; few are better begun again soon. It grows while nothing is
// gained.
func (s *search) perseverance(fails int) (strikes, patience int) {
	many := max(0, min(17, len(s.sep.loose)-26))
	return 1 + min(2, fails/6), 60 + 8*many
}

// patience without a bound on time is short; with one, exploring goes on.
func (s *search) patience() int {
	if s.clock.maxSteps > 0 || !s.clock.deadline.IsZero() {
		return math.MaxInt / 2
	}
	return 0
}

func keepTried(pool []tried, t tried) []tried {
	const most = 12
	pool = append(pool, t)
	sort.SliceStable(pool, func(a, b int) bool { return pool[a].loss < pool[b].loss })
	return pool[:min(most, len(pool))]
}

// target is the length to try next: below what is known by a share, but no
// shorter than can be.
func (s *search) target(known, share float64) float64 {
	return math.Max(s.floor, known*(1-share))
}

// take settles the separated state and offers it. Where items on the grid of
// places would collide, they are first given room for that.
func (s *search) take() bool {
	n := len(s.m.p.Items)
	if l, ok := s.m.settle(s.sep.all[:n]); ok && s.best.offer(l) {
		return true
	}
	const room = 1.5 * placeGridCM
	s.sep.slack = -room
	ok, _ := s.sep.separate(1, 40)
	s.sep.slack = s.m.slack
	if !ok {
		return false
	}
	l, ok := s.m.settle(s.sep.all[:n])
	return ok && s.best.offer(l)
}

// cut shortens the strip at a random place: what lies beyond moves in with it.
func (s *search) cut(length float64) {
	by := s.sep.length - length
	at := s.rng.Float64() * s.sep.length
	items := append([]body(nil), s.sep.all[:len(s.m.p.Items)]...)
	for _, i := range s.sep.loose {
		b := items[i]
		if (b.box.MinX+b.box.MaxX)/2 > at {
			items[i] = s.m.body(b.form, b.x-by, b.y)
		}
	}
	s.sep.load(items, length)
}

// disturb swaps two large items of unlike shape, centre for centre.
func (s *search) disturb() {
	loose := append([]int(nil), s.sep.loose...)
	if len(loose) < 2 {
		return
	}
	size := func(i int) float64 { return s.m.forms[s.sep.all[i].form].size }
	sort.SliceStable(loose, func(a, b int) bool { return size(loose[a]) > size(loose[b]) })
	// Large: the first that make up three quarters of the area.
	sum, large := 0.0, 0
	for large < len(loose) && sum < 0.75*s.m.area {
		sum += size(loose[large]) * size(loose[large])
		large++
	}
	large = max(2, large)
	for range 20 {
		i, j := loose[s.rng.IntN(large)], loose[s.rng.IntN(large)]
		a, b := s.sep.all[i], s.sep.all[j]
		if i == j || math.Abs(size(i)-size(j)) < 1e-9*size(i) {
			continue
		}
		s.sep.all[i] = s.sep.within(s.centred(a, b))
		s.sep.all[j] = s.sep.within(s.centred(b, a))
		return
	}
	i := loose[s.rng.IntN(len(loose))]
	var t trial
	forms := s.m.ofItem[i]
	s.sep.anywhere(&t, forms)
	s.sep.all[i] = s.m.body(forms[t.k], t.x, t.y)
}

// scatter strews the items of a stretch of the strip, a share of it long, over
// that stretch.
func (s *search) scatter(share float64) {
	long := share * s.sep.length
	from := s.rng.Float64() * (s.sep.length - long)
	for _, i := range s.sep.loose {
		b := s.sep.all[i]
		if x := (b.box.MinX + b.box.MaxX) / 2; x < from || x > from+long {
			continue
		}
		var t trial
		forms := s.m.ofItem[i]
		s.sep.anywhere(&t, forms)
		e := &s.sep.fast[forms[t.k]]
		x := from + s.rng.Float64()*long - (e.minX+e.maxX)/2
		x, y := s.sep.clamp(forms[t.k], x, t.y)
		s.sep.all[i] = s.m.body(forms[t.k], x, y)
	}
}

// centred is a with its box's centre where b's is.
func (s *search) centred(a, b body) body {
	return s.m.body(a.form, a.x+(b.box.MinX+b.box.MaxX-a.box.MinX-a.box.MaxX)/2,
		a.y+(b.box.MinY+b.box.MaxY-a.box.MinY-a.box.MaxY)/2)
}

// compress shrinks the best lay by little, and by less where that fails.
func (s *search) compress() {
	shrink := 0.002
	began := s.clock.spent()
	for !s.done() && shrink > 2e-5 {
		s.clock.tick()
		l := s.best.get()
		s.sep.load(s.m.bodiesOf(l), l.LengthCM)
		s.cut(s.target(l.LengthCM, shrink))
		if ok, _ := s.sep.separate(5, 100); ok && s.take() {
			continue
		}
		if s.clock.spent() > 0 { // bounded: the step falls as time runs out
			part := (s.clock.spent() - began) / max(1e-9, 1-began)
			shrink = 0.002 * math.Pow(0.01, min(0.999, part))
		} else {
			shrink *= 0.7
		}
	}
}
