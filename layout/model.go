package layout

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"

	"ellwand/geometry"
)

// form is one shape in one allowed turn, as it lies when placed at (0, 0).
type form struct {
	turn    float64
	flip    bool
	poly    geometry.Polygon   // exact outline
	box     geometry.Rect      // of poly
	parts   []geometry.Polygon // convex, together covering poly and little more
	size    float64            // side of the square of poly's area, cm
	base    int                // which of model.turned it belongs to, or -1
	quarter int                // quarter turns from that
	// ground is a form on which no item may lie; the gap is not kept from it.
	ground bool
	tie    *tie // where it may lie; nil: anywhere
}

// model is a problem made ready for searching: forms worked out once, and what
// each pair of forms must keep apart, worked out when first asked.
type model struct {
	ctx    context.Context // once done, what is under way is given up
	p      Problem
	forms  []form
	ofItem [][]int32   // allowed forms; a pinned item has one
	turned [][4]int32  // forms that are quarter turns of one outline, -1 where there is none
	flaws  []int32     // ground: a form each, lying at (0, 0)
	area   float64     // of all items
	spread float64     // share of its area by which a form may grow to have fewer corners
	slack  float64     // overlap, in cm, too small to count while searching
	pairs  []atomicPtr // forms × forms, nil when there are too many
	sparse sync.Map    // then by index
	// fieldCells is how finely fields are divided, so that memory has a bound; 0
	// for no fields.
	fieldCells int
}

type atomicPtr = atomic.Pointer[pair]

// densePairs is the most forms for which every pair has a slot of its own.
const densePairs = 2000

// newModel is unfinished when ctx is done; then nothing must be laid by it.
func newModel(ctx context.Context, p Problem) *model { return newModelOf(ctx, p, fineSpread) }

// How much forms may grow: as good as nothing, and for a first lay of many corners.
const (
	fineSpread   = 0.001
	heavySpread  = 0.005 // for a search that would else be slow
	coarseSpread = 0.02
)

func newModelOf(ctx context.Context, p Problem, spread float64) *model {
	m := &model{ctx: ctx, p: p, spread: spread, area: itemsArea(p), slack: 1e-6 * math.Max(1, p.WidthCM/100)}
	known := map[string]int32{}
	for i, it := range p.Items {
		if m.cancelled() {
			return m
		}
		if i > 0 && sameItem(it, p.Items[i-1]) {
			m.ofItem = append(m.ofItem, m.ofItem[i-1])
			continue
		}
		m.ofItem = append(m.ofItem, m.formsOf(it, known))
	}
	reach := p.reach()
	for _, g := range p.grounds() {
		f := m.addForm(pastTheEdge(g.outline, p.WidthCM, reach), Placement{})
		m.forms[f].ground = true
		m.flaws = append(m.flaws, f)
	}
	if n := len(m.forms); n <= densePairs {
		m.pairs = make([]atomicPtr, n*n)
	}
	m.fieldCells = fieldCells(m)
	return m
}

// fieldCells shares some memory among the fields of all pairs.
func fieldCells(m *model) int {
	if !m.cancelled() && m.heavy() {
		return 0 // borders of many parts take longer to work out than they save
	}
	forms := len(m.forms)
	pairs := float64(forms) * float64(forms)
	if len(m.turned) > 0 {
		pairs /= max(1, float64(forms)/float64(len(m.turned)))
	}
	const memory, perCell, least, most = 200e6, 8, 60, 900
	if cells := memory / perCell / pairs; cells >= least {
		return min(most, int(cells))
	}
	return 0
}

func (m *model) cancelled() bool { return m.ctx.Err() != nil }

// sameItem says of two items that they are copies, by the same outline in memory.
func sameItem(a, b Item) bool {
	return a.Pinned == nil && a.Selvedge == b.Selvedge && a.Along == b.Along && a.Across == b.Across && b.Pinned == nil && a.MayFlip == b.MayFlip && slices.Equal(a.TurnsDeg, b.TurnsDeg) &&
		len(a.Outline) == len(b.Outline) && &a.Outline[0] == &b.Outline[0]
}

func (m *model) formsOf(it Item, known map[string]int32) []int32 {
	turns, flips := it.TurnsDeg, []bool{false, true}
	if !it.MayFlip {
		flips = flips[:1]
	}
	if it.Pinned != nil {
		turns, flips = []float64{it.Pinned.TurnDeg}, []bool{it.Pinned.Flip}
	}
	var out []int32
	seen := map[string]bool{}
	for _, flip := range flips {
		base := -1
		for _, turn := range turns {
			q := Placed(it, Placement{TurnDeg: turn, Flip: flip})
			// A form that equals one already there brings nothing; nor one too wide.
			shape := shapeKey(q)
			tied, isTied := m.p.tieOf(it, Placement{TurnDeg: turn, Flip: flip})
			if isTied {
				shape += fmt.Sprint(tied)
				if tied.canNot && it.Pinned == nil {
					continue
				}
			}
			if seen[shape] || it.Pinned == nil && q.Bounds().Height() > m.p.WidthCM+fitCM {
				continue
			}
			seen[shape] = true
			key := shape + placeKey(q, turn, flip)
			if isTied && it.Pinned != nil {
				key += "pinned"
			}
			f, ok := known[key]
			if !ok {
				f = m.addForm(q, Placement{TurnDeg: turn, Flip: flip})
				base = m.turn(f, base, turn)
				known[key] = f
				if isTied && it.Pinned == nil {
					m.forms[f].tie = &tied
				}
			}
			out = append(out, f)
		}
	}
	return out
}

func (m *model) addForm(q geometry.Polygon, pl Placement) int32 {
	f := form{turn: pl.TurnDeg, flip: pl.Flip, poly: q, box: q.Bounds(), size: math.Sqrt(q.Area()), base: -1}
	if q = simpler(m.ctx, q, m.spread); !m.cancelled() {
		f.parts = convexParts(q)
	}
	m.forms = append(m.forms, f)
	return int32(len(m.forms) - 1)
}

// turn notes form f as a quarter turn of others of its outline, if it is.
func (m *model) turn(f int32, base int, deg float64) int {
	k := int(math.Round(deg / 90))
	if math.Abs(deg) > 1e6 || float64(k)*90 != deg {
		return base
	}
	if base < 0 {
		base = len(m.turned)
		m.turned = append(m.turned, [4]int32{-1, -1, -1, -1})
	}
	k = (k%4 + 4) % 4
	m.turned[base][k] = f
	m.forms[f].base, m.forms[f].quarter = base, k
	return base
}

// shapeKey is the same for polygons that are equal after moving.
func shapeKey(q geometry.Polygon) string {
	b := q.Bounds()
	at := func(v geometry.Point) (float64, float64) {
		return math.Round((v.X - b.MinX) * 1e8), math.Round((v.Y - b.MinY) * 1e8)
	}
	first := 0
	for i := range q {
		x, y := at(q[i])
		u, v := at(q[first])
		if x < u || x == u && y < v {
			first = i
		}
	}
	var s strings.Builder
	for i := range q {
		x, y := at(q[(first+i)%len(q)])
		s.WriteString(strconv.FormatFloat(x, 'g', -1, 64))
		s.WriteByte(',')
		s.WriteString(strconv.FormatFloat(y, 'g', -1, 64))
		s.WriteByte(' ')
	}
	return s.String()
}

// placeKey tells apart equal shapes that lie or are turned differently.
func placeKey(q geometry.Polygon, turn float64, flip bool) string {
	f := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) + "/" }
	return f(q[0].X) + f(q[0].Y) + f(turn) + strconv.FormatBool(flip)
}

// pair is what form b at (dx, dy) from form a must keep clear of.
func (m *model) pair(a, b int32) *pair {
	k := int(a)*len(m.forms) + int(b)
	if m.pairs != nil {
		if pr := m.pairs[k].Load(); pr != nil {
			return pr
		}
		pr := newPair(&m.forms[a], &m.forms[b], m.gap(a, b))
		m.pairs[k].Store(pr)
		return pr
	}
	if v, ok := m.sparse.Load(k); ok {
		return v.(*pair)
	}
	pr := newPair(&m.forms[a], &m.forms[b], m.gap(a, b))
	m.sparse.Store(k, pr)
	return pr
}

// gap is the room that two forms keep between them.
func (m *model) gap(a, b int32) float64 {
	if m.forms[a].ground || m.forms[b].ground {
		return 0
	}
	return m.p.GapCM
}

// sortedBy is 0 to n-1 in rising order of key; equal keys keep their order.
func sortedBy(n int, key func(int) float64) []int {
	order := make([]int, n)
	keys := make([]float64, n)
	for i := range order {
		order[i], keys[i] = i, key(i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(keys[a], keys[b]) })
	return order
}
