package layout

import (
	"context"
	"math"
	"slices"

	"ellwand/geometry"
)

// The bar relaxation: every piece is cut across into bars, each as wide as the
// piece is there, which may go anywhere along the cloth; at any place along
// bars of no more than the cloth's width lie side by side, of each piece one at
// most. What a bar is wider than the nearest level below counts as loose
// cloth that fills what the levels leave. The least length of that is a linear
// program over all sets of levels that fit side by side, of which those that
// help are made one by one (Gilmore and Gomory's column generation; bars after
// Scheithauer, both from memory). The bound itself does not rest on the program:
// its prices, divided by the dearest set there is, prove it whatever they are.

// barKind is equal pieces in bars, as shares of the cloth's width.
type barKind struct {
	count  int
	levels []float64 // rising
	turns  []barTurn
	row    int // first of its rows: a level each, then the choice of a turn if there is one
}

// barTurn is how long the piece has each level, and its loose area: lengths in
// cm, loose in cm times the cloth's width.
type barTurn struct {
	along []float64
	loose float64
}

const (
	barLevels  = 12   // levels of a kind, besides those of its straight stretches
	barCells   = 3000 // cells of the width, rounded down: so sets count as narrower than they are
	barCopies  = 120  // most pieces; with more the program takes too long
	barRounds  = 300  // most sets made
	barWork    = 30e6 // most sums looked at: some hundredths of a second
	barGuardCM = 2e-6 // what the check rounds away
)

// barBound is a length along in cm that no lay can be below; 0 where the
// relaxation is too large. outlines is each item's in every turn it may have,
// wideCM the cloth across, with the gap, as chords are.
func barBound(ctx context.Context, outlines [][]geometry.Polygon, gapCM, wideCM float64) float64 {
	if len(outlines) > barCopies {
		return 0
	}
	kinds := barKinds(outlines, gapCM, wideCM)
	if len(kinds) == 0 {
		return 0
	}
	b := newBars(kinds)
	for b.rounds, b.work = 0, 0; b.rounds < barRounds && b.work < barWork && ctx.Err() == nil; b.rounds++ {
		if !b.round() {
			break
		}
	}
	return b.best
}

// stretch is where a piece's width across goes evenly from one share to another.
type stretch struct{ along, from, to float64 }

// barKinds is the items in bars, equal ones together.
func barKinds(outlines [][]geometry.Polygon, gapCM, wideCM float64) []barKind {
	var kinds []barKind
	var all [][][]stretch // by kind and turn
	known := map[string]int{}
	for _, turns := range outlines {
		if len(turns) == 0 {
			continue
		}
		key := ""
		for _, q := range turns {
			key += shapeKey(q) + "|"
		}
		if k, ok := known[key]; ok {
			kinds[k].count++
			continue
		}
		known[key] = len(kinds)
		kinds = append(kinds, barKind{count: 1})
		var of [][]stretch
		for _, q := range turns {
			of = append(of, stretches(q, gapCM, wideCM))
		}
		all = append(all, of)
	}
	for k := range kinds {
		kinds[k].turn(all[k])
	}
	return kinds
}

// distinct is the values in rising order that are a share of the width worth
// counting, each once.
func distinct(v []float64) []float64 {
	slices.Sort(v)
	v = slices.CompactFunc(v, func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
	return slices.DeleteFunc(v, func(v float64) bool { return v < 1e-3 })
}

func (s stretch) straight() bool { return math.Abs(s.to-s.from) < 1e-6 }

// turn works out the kind's levels, and how much it has of each in every turn.
func (k *barKind) turn(turns [][]stretch) {
	k.levels = levelsOf(turns)
	for _, ss := range turns {
		t := barTurn{along: make([]float64, len(k.levels))}
		for _, s := range ss {
			t.add(s, k.levels)
		}
		if !slices.ContainsFunc(k.turns, t.same) {
			k.turns = append(k.turns, t)
		}
	}
}

// stretches is a piece's width across, all its parts there together, between
// every two of its corners along.
func stretches(q geometry.Polygon, gapCM, wideCM float64) []stretch {
	xs := sortedBy(len(q), func(i int) float64 { return q[i].X })
	var out []stretch
	for k := 1; k < len(xs); k++ {
		x0, x1 := q[xs[k-1]].X, q[xs[k]].X
		if x1-x0 < 1e-9 {
			continue
		}
		s := stretch{along: x1 - x0, from: gapCM - barGuardCM, to: gapCM - barGuardCM}
		for _, c := range chordsBetween(q, x0, x1, false) {
			s.from += c[0]
			s.to += c[1]
		}
		s.from, s.to = min(1, max(0, s.from/wideCM)), min(1, max(0, s.to/wideCM))
		out = append(out, s)
	}
	return out
}

// levelsOf is the widths of straight stretches, and some between the ends of
// those that slant.
func levelsOf(turns [][]stretch) []float64 {
	var out []float64
	lo, hi := math.Inf(1), 0.0
	for _, ss := range turns {
		for _, s := range ss {
			if s.straight() {
				out = append(out, min(s.from, s.to))
			} else {
				lo, hi = min(lo, s.from, s.to), max(hi, s.from, s.to)
			}
		}
	}
	for k := range barLevels {
		if v := lo + (hi-lo)*(float64(k)+0.5)/barLevels; hi > lo {
			out = append(out, v)
		}
	}
	return distinct(out)
}

// add counts a stretch: split where it passes a level, each part at the level
// below it and the rest as loose cloth.
func (t *barTurn) add(s stretch, levels []float64) {
	lo, hi := min(s.from, s.to), max(s.from, s.to)
	per := s.along / max(hi-lo, 1e-300)
	t.loose += s.along * (lo + hi) / 2
	for j, level := range levels {
		long := s.along
		if hi-lo >= 1e-9 {
			top := hi
			if j+1 < len(levels) {
				top = min(top, levels[j+1])
			}
			long = per * max(0, top-max(lo, level))
		} else if level > lo || j+1 < len(levels) && levels[j+1] <= lo {
			long = 0
		}
		t.along[j] += long
		t.loose -= long * level
	}
}

func (t barTurn) same(o barTurn) bool {
	for j := range t.along {
		if math.Abs(t.along[j]-o.along[j]) > 1e-9 {
			return false
		}
	}
	return math.Abs(t.loose-o.loose) < 1e-9
}

// bars is the linear program and the best that its prices have proved.
type bars struct {
	kinds  []barKind
	lp     simplex
	fixed  []column // of turns and of what is more than asked for
	loose  int      // row of loose cloth, the last
	best   float64
	rounds int
	work   float64
	value  []float64
	chosen [][]uint8
}

// newBars begins with each level in sets of its own and the first turn of every kind.
func newBars(kinds []barKind) *bars {
	b := &bars{kinds: kinds}
	rows := 0
	for k := range kinds {
		kinds[k].row = rows
		rows += len(kinds[k].levels)
		if len(kinds[k].turns) > 1 {
			rows++
		}
	}
	b.loose = rows
	rows++
	b.lp = simplex{make([]column, rows), make([][]float64, rows), make([]float64, rows)}
	for i := range b.lp.inverse {
		b.lp.inverse[i] = make([]float64, rows)
	}
	b.start(b.loose, column{1, []int{b.loose}, []float64{1}})
	for k := range kinds {
		b.begin(&kinds[k])
	}
	return b
}

// start puts a column that has one row alone in the basis.
func (b *bars) start(row int, c column) {
	b.lp.basis[row] = c
	b.lp.inverse[row][row] = 1 / c.at[0]
	b.fixed = append(b.fixed, column{0, []int{row}, []float64{-1}})
}

func (b *bars) begin(k *barKind) {
	n := float64(k.count)
	for j, level := range k.levels {
		fit := min(n, math.Floor(1/level))
		b.start(k.row+j, column{1, []int{k.row + j}, []float64{fit}})
		b.lp.x[k.row+j] = n * k.turns[0].along[j] / fit
	}
	b.lp.x[b.loose] += n * k.turns[0].loose
	if len(k.turns) == 1 {
		return
	}
	choice := k.row + len(k.levels)
	for t := range k.turns {
		c := column{0, []int{choice}, []float64{1}}
		for j, v := range k.turns[t].along {
			c.rows, c.at = append(c.rows, k.row+j), append(c.at, -v)
		}
		c.rows, c.at = append(c.rows, b.loose), append(c.at, -k.turns[t].loose)
		b.fixed = append(b.fixed, c)
		if t > 0 {
			continue
		}
		b.lp.basis[choice], b.lp.x[choice] = c, n
		b.lp.inverse[choice][choice] = 1
		for j, r := range c.rows[1:] { // what the turn asks for, by the sets that give it
			b.lp.inverse[r][choice] = -c.at[j+1] * b.lp.inverse[r][r]
		}
	}
}

// round makes the program better by one column; false when none helps.
func (b *bars) round() bool {
	const enough = 1e-7
	prices := b.lp.duals()
	best, gain := -1, enough
	for i, c := range b.fixed {
		if g := c.gain(prices); g > gain {
			best, gain = i, g
		}
	}
	if best >= 0 {
		return b.lp.enter(b.fixed[best])
	}
	set, dearest := b.dearest(prices)
	b.best = max(b.best, b.worth(prices)/dearest)
	return dearest > 1+1e-6 && set.gain(prices) > enough && b.lp.enter(set)
}

// worth is what all pieces cost at the prices, each in its cheapest turn.
func (b *bars) worth(prices []float64) float64 {
	sum := 0.0
	for _, k := range b.kinds {
		least := math.Inf(1)
		for _, t := range k.turns {
			v := max(0, prices[b.loose]) * t.loose
			for j, a := range t.along {
				v += max(0, prices[k.row+j]) * a
			}
			least = min(least, v)
		}
		sum += float64(k.count) * least
	}
	return sum
}

// dearest is the set of levels side by side that is worth most at the prices,
// and a worth that none passes: widths are rounded down to cells for it.
func (b *bars) dearest(prices []float64) (column, float64) {
	loose := max(0, prices[b.loose])
	b.value = b.value[:0]
	for range barCells + 1 {
		b.value = append(b.value, math.Inf(-1))
	}
	b.value[0] = 0
	steps, of := 0, []int(nil)
	for k := range b.kinds {
		for range b.kinds[k].count {
			if b.step(steps, &b.kinds[k], prices) {
				steps, of = steps+1, append(of, k)
			}
		}
	}
	at, most := 0, math.Inf(-1)
	for g, v := range b.value {
		if v += loose * (1 - float64(g)/barCells); v > most {
			at, most = g, v
		}
	}
	count := map[int]float64{}
	left := 1.0
	for s := steps - 1; s >= 0; s-- {
		j := int(b.chosen[s][at])
		if j == 0 {
			continue
		}
		k := &b.kinds[of[s]]
		count[k.row+j-1]++
		left -= k.levels[j-1]
		at -= cellsOf(k.levels[j-1])
	}
	c := column{1, []int{b.loose}, []float64{max(0, left)}}
	for row := range b.loose {
		if n := count[row]; n > 0 {
			c.rows, c.at = append(c.rows, row), append(c.at, n)
		}
	}
	return c, most
}

func cellsOf(level float64) int { return int(level * barCells) }

// step lets one piece of kind k lie in the sets; false when that brings nothing.
func (b *bars) step(s int, k *barKind, prices []float64) bool {
	if s == len(b.chosen) {
		b.chosen = append(b.chosen, make([]uint8, barCells+1))
	}
	chosen := b.chosen[s]
	clear(chosen)
	any := false
	for g := barCells; g >= 0; g-- {
		best, pick := b.value[g], uint8(0)
		for j, level := range k.levels {
			u := prices[k.row+j]
			if u <= 0 {
				continue
			}
			if c := cellsOf(level); c <= g && b.value[g-c]+u > best {
				best, pick = b.value[g-c]+u, uint8(j+1)
			}
		}
		if pick > 0 {
			b.value[g], chosen[g], any = best, pick, true
		}
	}
	b.work += float64(barCells * len(k.levels))
	return any
}
