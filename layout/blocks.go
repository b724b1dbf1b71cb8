package layout

import (
	"math"
	"math/rand/v2"
)

// Gores and their like lie well head to tail in a row, and a row fits among
// panels as a rectangle does. So equal pieces are laid in rows of so many, each
// as a block, and the blocks' boxes packed like rectangles, which is quick. What
// the boxes waste is left to the search that starts from there.

// block is pieces of one kind that lie together: their forms and places, and the
// length and width of their box, which begins at (0, 0).
type block struct {
	at   []body
	l, w float64
}

// blockKind is equal pieces: each alone in every way, and in rows, by how many.
type blockKind struct {
	items []int
	alone []block
	rows  [][]block // rows[n] of n pieces, the tightest first
}

// blocks is a problem's kinds, and the boxes of one choice of rows.
type blocks struct {
	m     *model
	kinds []blockKind
	// Of the choice that is being packed:
	chosen [][]block // by the skyline's kinds, in all their ways
	of     []int     // the blocks' kind of each of the skyline's
	sky    skyline
}

const (
	mostBlockItems = 120
	mostRow        = 12 // pieces
	waysOfRow      = 3  // kept, of each number
)

// firstBlocks is the shortest of some lays with equal pieces in rows.
func (m *model) firstBlocks() (Lay, bool) {
	if m.cancelled() {
		return Lay{}, false
	}
	b := newBlocks(m)
	if b == nil {
		return Lay{}, false
	}
	const choices, rounds = 24, 60
	rng := rand.New(rand.NewPCG(1, 1))
	var best []body
	least := math.Inf(1)
	for turn := range choices {
		if all, far := b.pack(rng, turn, rounds); all != nil && far < least {
			best, least = all, far
		}
	}
	if best == nil || m.cancelled() {
		return Lay{}, false
	}
	return m.settle(best)
}

// newBlocks is nil where pieces may not lie anywhere, where there are too many,
// or where none of them gain by lying in rows.
func newBlocks(m *model) *blocks {
	if len(m.flaws) > 0 || len(m.p.Items) > mostBlockItems || m.heavy() {
		return nil
	}
	b := &blocks{m: m}
	known := map[int32]int{}
	gains := false
	for i, it := range m.p.Items {
		if it.Pinned != nil || it.tied() || len(m.ofItem[i]) == 0 {
			return nil
		}
		f := m.ofItem[i][0]
		k, ok := known[f]
		if !ok {
			k = len(b.kinds)
			known[f] = k
			b.kinds = append(b.kinds, blockKind{alone: m.alone(m.ofItem[i])})
		}
		b.kinds[k].items = append(b.kinds[k].items, i)
	}
	for k := range b.kinds {
		kind := &b.kinds[k]
		fs := m.ofItem[kind.items[0]]
		if m.cancelled() {
			return nil
		}
		kind.rows = make([][]block, 2)
		if isBox(m.forms[fs[0]].poly) {
			continue
		}
		for n := 2; n <= min(mostRow, len(kind.items)); n++ {
			kind.rows = append(kind.rows, m.rowsOf(fs, n))
			gains = gains || len(kind.rows[n]) > 0
		}
	}
	if !gains {
		return nil
	}
	return b
}

// alone is one piece in each way that has a box of its own.
func (m *model) alone(fs []int32) []block {
	var out []block
	for _, f := range fs {
		box := m.forms[f].box
		known := false
		for _, o := range out {
			known = known || math.Abs(o.l-box.Width()) < sameCM && math.Abs(o.w-box.Height()) < sameCM
		}
		if !known {
			out = append(out, m.newBlock([]body{m.body(f, -box.MinX, -box.MinY)}))
		}
	}
	return out
}

func (m *model) newBlock(at []body) block {
	b := block{at: at}
	for _, o := range at {
		b.l, b.w = max(b.l, o.box.MaxX), max(b.w, o.box.MaxY)
	}
	return b
}

// rowsOf is the tightest rows of n pieces, across or along, in two forms by
// turns, that fit on the cloth.
func (m *model) rowsOf(fs []int32, n int) []block {
	var all []block
	for _, f := range fs {
		for _, g := range fs {
			for _, along := range []bool{false, true} {
				if b := m.row(f, g, n, along); b.w <= m.p.WidthCM {
					all = append(all, b)
				}
			}
		}
	}
	var out []block
	for _, i := range sortedBy(len(all), func(i int) float64 { return (all[i].l + m.p.GapCM) * (all[i].w + m.p.GapCM) }) {
		same := false
		for _, o := range out {
			same = same || math.Abs(o.l-all[i].l) < 0.01 && math.Abs(o.w-all[i].w) < 0.01
		}
		if !same && len(out) < waysOfRow {
			out = append(out, all[i])
		}
	}
	return out
}

// row is n pieces in forms f and g by turns, each against those before it.
func (m *model) row(f, g int32, n int, along bool) block {
	const room = 1.5 * placeGridCM // so that nothing collides on the grid
	s := sheet{m: m}
	for k := range n {
		form := f
		if k%2 == 1 {
			form = g
		}
		box := m.forms[form].box
		x, y := -box.MinX, -box.MinY
		switch {
		case k == 0:
		case along:
			x = s.firstX(form, x, y) + room
		default:
			y = s.firstY(form, x, y) + room
		}
		s.bodies = append(s.bodies, m.body(form, x, y))
	}
	return m.newBlock(s.bodies)
}

// choose is rows for every kind: all in as long rows as may be for a start,
// then any.
func (b *blocks) choose(rng *rand.Rand, turn int) {
	b.chosen, b.of = b.chosen[:0], b.of[:0]
	b.sky = skyline{m: b.m, width: b.m.p.WidthCM + b.m.p.GapCM, segs: b.sky.segs}
	for k := range b.kinds {
		kind := &b.kinds[k]
		for left := len(kind.items); left > 0; {
			n := min(left, len(kind.rows)-1)
			if turn > 0 && n > 1 {
				n = 1 + rng.IntN(n)
			}
			for n > 1 && len(kind.rows[n]) == 0 {
				n--
			}
			ways := kind.alone
			if n > 1 {
				w := 0
				if turn > 0 {
					w = rng.IntN(len(kind.rows[n]))
				}
				ways = kind.rows[n][w : w+1]
			}
			b.add(k, ways)
			left -= n
		}
	}
	b.sky.left, b.sky.rank = make([]int, len(b.chosen)), make([]int, len(b.chosen))
}

// add is one more block of a kind.
func (b *blocks) add(k int, ways []block) {
	gap := b.m.p.GapCM
	if last := len(b.of) - 1; last >= 0 && b.of[last] == k && &b.chosen[last][0] == &ways[0] {
		b.sky.kinds[last].n++
		return
	}
	r := rectKind{n: 1}
	for w := range ways {
		r.ways = append(r.ways, rectWay{int32(w), ways[w].l + gap, ways[w].w + gap})
	}
	b.sky.kinds = append(b.sky.kinds, r)
	b.chosen, b.of = append(b.chosen, ways), append(b.of, k)
}

// pack chooses rows and packs them, trying so many orders; it gives the places
// by item and the length they take. It gives none when the search is cancelled.
func (b *blocks) pack(rng *rand.Rand, turn, rounds int) ([]body, float64) {
	b.choose(rng, turn)
	starts := b.sky.starts()
	var best, try []laid
	var order []int
	far := math.Inf(1)
	for _, s := range starts {
		var end float64
		if try, end = b.sky.pack(s, far, try); end < far {
			far, order, best = end, s, append(best[:0], try...)
		}
	}
	for r := 0; r < rounds && order != nil && (r%16 > 0 || !b.m.cancelled()); r++ {
		next := append([]int(nil), order...)
		changeOrder(next, rng)
		var end float64
		if try, end = b.sky.pack(next, far, try); end <= far && end < math.Inf(1) {
			far, order, best = end, next, append(best[:0], try...)
		}
	}
	if order == nil || b.m.cancelled() {
		return nil, 0
	}
	return b.bodies(best), far - b.m.p.GapCM
}

// bodies is the blocks laid as bodies by item.
func (b *blocks) bodies(ls []laid) []body {
	all := make([]body, len(b.m.p.Items))
	next := make([]int, len(b.kinds))
	for _, l := range ls {
		k := b.of[l.kind]
		for _, o := range b.chosen[l.kind][l.way].at {
			all[b.kinds[k].items[next[k]]] = b.m.body(o.form, o.x+l.x, o.y+l.y)
			next[k]++
		}
	}
	return all
}
