package layout

import (
	"context"
	"fmt"
	"math"

	"ellwand/geometry"
)

// Side is a side of an outline's box in the item's own frame.
type Side uint8

// The four sides, to be joined by |.
const (
	LowY Side = 1 << iota
	HighY
	LowX
	HighX
)

// Match asks that all items of a group lie at the same phase of the cloth's
// repeat: that the places where their At comes to lie are whole repeats apart.
type Match struct {
	Group int            // from 1; 0 asks nothing
	At    geometry.Point // in the item's own frame
}

// tiedCM is how far from where it should be a tied item may lie: two grid places.
const tiedCM = 0.002

// halfGrid is as far as rounding takes a place, and a little more.
const halfGrid = 0.6 * placeGridCM

// tied says whether the item may not lie anywhere on the cloth.
func (it Item) tied() bool { return it.Selvedge != 0 || it.Along.Group != 0 || it.Across.Group != 0 }

// sidesAt is which sides of the item, turned and turned over, lie towards the
// left and the right selvedge.
func sidesAt(pl Placement) (left, right Side) {
	lowX, highX := LowX, HighX
	if pl.Flip {
		lowX, highX = highX, lowX
	}
	switch q := math.Mod(math.Mod(pl.TurnDeg, 360)+360, 360); {
	case math.Abs(q) < 1e-9:
		return LowY, HighY
	case math.Abs(q-90) < 1e-9:
		return lowX, highX
	case math.Abs(q-180) < 1e-9:
		return HighY, LowY
	case math.Abs(q-270) < 1e-9:
		return highX, lowX
	}
	return 0, 0
}

// tie is where a form of a tied item may lie.
type tie struct {
	left, right    bool    // on a selvedge: at least on one that is said
	stepX, stepY   float64 // places are whole steps from atX, atY; 0: anywhere
	atX, atY       float64
	canNot         bool // no side that is wanted can lie on a selvedge so
	group, groupsY int
}

// tieOf is where the item may lie in that turn; ok is false for one tied to
// nothing.
func (p Problem) tieOf(it Item, pl Placement) (t tie, ok bool) {
	if !it.tied() {
		return t, false
	}
	if it.Selvedge != 0 {
		left, right := sidesAt(pl)
		t.left, t.right = it.Selvedge&left != 0, it.Selvedge&right != 0
		t.canNot = !t.left && !t.right
	}
	at := func(v geometry.Point) geometry.Point {
		return Placed(Item{Outline: geometry.Polygon{v}}, Placement{TurnDeg: pl.TurnDeg, Flip: pl.Flip})[0]
	}
	if g := it.Along.Group; g != 0 && p.RepeatCM > 0 {
		t.stepX, t.atX, t.group = p.RepeatCM, p.phases[g]-at(it.Along.At).X, g
	}
	if g := it.Across.Group; g != 0 && p.RepeatAcrossCM > 0 {
		t.stepY, t.atY, t.groupsY = p.RepeatAcrossCM, p.phases[-g]-at(it.Across.At).Y, g
	}
	return t, true
}

// snapped is the place nearest to (x, y) at which form f may lie.
func (m *model) snapped(f int32, x, y float64) (float64, float64) {
	t := m.forms[f].tie
	if t == nil {
		return x, y
	}
	b := m.forms[f].box
	if t.stepX > 0 {
		x = toGrid(t.atX + math.Round((x-t.atX)/t.stepX)*t.stepX)
		if b.MinX+x < -tiedCM {
			x = toGrid(x + t.stepX)
		}
	}
	if t.stepY > 0 {
		y = toGrid(t.atY + math.Round((y-t.atY)/t.stepY)*t.stepY)
		switch {
		case b.MinY+y < -tiedCM:
			y = toGrid(y + t.stepY)
		case b.MaxY+y > m.p.WidthCM+tiedCM:
			y = toGrid(y - t.stepY)
		}
	}
	if lo, hi := m.selvedges(f); t.left || t.right {
		if !t.left || t.right && math.Abs(y-hi) < math.Abs(y-lo) {
			y = hi
		} else {
			y = lo
		}
	}
	return x, y
}

// selvedges is the places across, on the grid where they can be, at which form
// f lies on the left and on the right selvedge.
func (m *model) selvedges(f int32) (lo, hi float64) {
	b := m.forms[f].box
	lo, hi = -b.MinY, math.Max(-b.MinY, m.p.WidthCM-b.MaxY)
	if l, h := upToGrid(lo), downToGrid(hi); l <= h {
		return l, h
	}
	return lo, hi
}

// nextX is the least place along, from x on, at which form f may lie; nextY the
// same across, +Inf for none.
func (m *model) nextX(f int32, x float64) float64 {
	t := m.forms[f].tie
	if t == nil || t.stepX == 0 {
		return x
	}
	return max(x, toGrid(t.atX+math.Ceil((x-t.atX-halfGrid)/t.stepX)*t.stepX))
}

func (m *model) nextY(f int32, y float64) float64 {
	t := m.forms[f].tie
	switch {
	case t == nil:
		return y
	case t.left || t.right:
		lo, hi := m.selvedges(f)
		switch {
		case t.left && y <= lo+tiedCM:
			return lo
		case t.right && y <= hi+tiedCM:
			return hi
		}
		return math.Inf(1)
	case t.stepY > 0:
		return max(y, toGrid(t.atY+math.Ceil((y-t.atY-halfGrid)/t.stepY)*t.stepY))
	}
	return y
}

// snappedWithin is snapped, a repeat back where the form would reach past the
// strip's end.
func (m *model) snappedWithin(f int32, x, y, length float64) (float64, float64) {
	x, y = m.snapped(f, x, y)
	t, b := m.forms[f].tie, m.forms[f].box
	if t != nil && t.stepX > 0 && x+b.MaxX > length+fitCM && x+b.MinX >= t.stepX-tiedCM {
		x = toGrid(x - t.stepX)
	}
	return x, y
}

// matched says whether any items are to lie at one phase.
func (p Problem) matched() bool {
	for _, it := range p.Items {
		if it.Along.Group != 0 && p.RepeatCM > 0 || it.Across.Group != 0 && p.RepeatAcrossCM > 0 {
			return true
		}
	}
	return false
}

// phased is the problem with each group's phase chosen: that of its pinned
// items, else of the lay given where that is a legal one, else that of the
// quickest first lay, over phases at which some item of a group begins at the
// cut end or the left selvedge.
func (p Problem) phased(ctx context.Context, start Lay) Problem {
	if !p.matched() || p.phases != nil {
		return p
	}
	if len(start.Placements) == len(p.Items) && Check(p, start) == nil {
		return p.withPhases(start.Placements)
	}
	best, length := p, math.Inf(1)
	for n := range 4 {
		pls := make([]Placement, len(p.Items))
		for i, it := range p.Items {
			b := Placed(it, Placement{TurnDeg: it.TurnsDeg[0]}).Bounds()
			pls[i] = Placement{TurnDeg: it.TurnsDeg[0], X: upToGrid(-b.MinX), Y: upToGrid(-b.MinY)}
		}
		try := p.withPhasesFrom(pls, n)
		if l, err := first(newModel(ctx, try)); err == nil && l.LengthCM < length {
			best, length = try, l.LengthCM
		} else if best.phases == nil {
			best = try
		}
		if ctx.Err() != nil {
			break
		}
	}
	return best
}

// withPhases takes each group's phase from its first item.
func (p Problem) withPhases(pls []Placement) Problem { return p.withPhasesFrom(pls, 0) }

// withPhasesFrom takes each group's phase from its nth item, or its first where
// there are fewer; a pinned item's comes before all.
func (p Problem) withPhasesFrom(pls []Placement, nth int) Problem {
	p.phases = map[int]float64{}
	seen := map[int]int{}
	pinned := map[int]bool{}
	take := func(g, key int, v float64, pin bool) {
		if g == 0 || pinned[key] {
			return
		}
		if seen[key] == 0 || seen[key] == nth || pin {
			p.phases[key] = v
		}
		seen[key]++
		pinned[key] = pin
	}
	for i, it := range p.Items {
		pl := pls[i]
		if it.Pinned != nil {
			pl = *it.Pinned
		}
		at := func(m Match) geometry.Point { return Placed(Item{Outline: geometry.Polygon{m.At}}, pl)[0] }
		take(it.Along.Group, it.Along.Group, at(it.Along).X, it.Pinned != nil)
		take(it.Across.Group, -it.Across.Group, at(it.Across).Y, it.Pinned != nil)
	}
	return p
}

// faultsTied is the items that lie on no selvedge though they should, and those
// off the phase of the first of their group.
func (p Problem) faultsTied(pls []Placement) []Fault {
	var out []Fault
	first := map[int]int{}
	for i, it := range p.Items {
		if f := p.faultSelvedge(i, pls[i]); f != nil {
			out = append(out, *f)
		}
		for _, m := range []struct {
			Match
			key      int
			repeat   float64
			word     string
			distance func(a, b geometry.Point) float64
		}{
			{it.Along, it.Along.Group, p.RepeatCM, "along", func(a, b geometry.Point) float64 { return b.X - a.X }},
			{it.Across, -it.Across.Group, p.RepeatAcrossCM, "across", func(a, b geometry.Point) float64 { return b.Y - a.Y }},
		} {
			if m.Group == 0 || m.repeat <= 0 {
				continue
			}
			j, ok := first[m.key]
			if !ok {
				first[m.key] = i
				continue
			}
			other := p.Items[j].Along
			if m.key < 0 {
				other = p.Items[j].Across
			}
			a := Placed(Item{Outline: geometry.Polygon{other.At}}, pls[j])[0]
			b := Placed(Item{Outline: geometry.Polygon{m.At}}, pls[i])[0]
			if off := math.Abs(math.Remainder(m.distance(a, b), m.repeat)); off > tiedCM {
				out = append(out, Fault{OutOfPhase, j, i, -1, fmt.Sprintf("pieces %s and %s are to lie at the same place in the repeat of %s cm %s the cloth, and are %s cm off it",
					p.called(j), p.called(i), short(m.repeat), m.word, short(off))})
			}
		}
	}
	return out
}

// faultSelvedge is item i lying on no selvedge though it should.
func (p Problem) faultSelvedge(i int, pl Placement) *Fault {
	it := p.Items[i]
	if it.Selvedge == 0 || math.IsNaN(pl.X+pl.Y+pl.TurnDeg) {
		return nil
	}
	b := Placed(it, pl).Bounds()
	left, right := sidesAt(pl)
	least := math.Inf(1)
	if it.Selvedge&left != 0 {
		least = math.Abs(b.MinY)
	}
	if it.Selvedge&right != 0 {
		least = min(least, math.Abs(p.WidthCM-b.MaxY))
	}
	switch {
	case least <= tiedCM:
		return nil
	case math.IsInf(least, 1):
		return &Fault{OffSelvedge, i, -1, -1, fmt.Sprintf("piece %s is to have an edge on a selvedge, but is turned so that none can be", p.called(i))}
	}
	return &Fault{OffSelvedge, i, -1, -1, fmt.Sprintf("piece %s is to have an edge on a selvedge, and that edge lies %s cm from it", p.called(i), short(least))}
}

// validateTies refuses an item that may have no turn in which it could lie as it
// is tied, and repeats that are none.
func (p Problem) validateTies(i int) error {
	it := p.Items[i]
	if it.Selvedge == 0 {
		return nil
	}
	for _, flip := range []bool{false, true} {
		for _, turn := range it.TurnsDeg {
			pl := Placement{TurnDeg: turn, Flip: flip}
			if t, _ := p.tieOf(it, pl); (!flip || it.MayFlip) && !t.canNot && Placed(it, pl).Bounds().Height() <= p.WidthCM+fitCM {
				return nil
			}
		}
	}
	return fmt.Errorf("piece %s is to have an edge on a selvedge, and in no turn that it may have can that be", p.called(i))
}

// tiedPlace is a place for a tied item, turned as it must be, from x on along an
// otherwise empty strip, and its box lying at (0, 0).
func (p Problem) tiedPlace(it Item, x float64) (Placement, geometry.Rect) {
	up := func(v float64) float64 { return toGrid(math.Ceil(v/placeGridCM-1e-9) * placeGridCM) }
	var best Placement
	var box geometry.Rect
	for k := 2*len(it.TurnsDeg) - 1; k >= 0; k-- {
		pl := Placement{TurnDeg: it.TurnsDeg[k%len(it.TurnsDeg)], Flip: k >= len(it.TurnsDeg)}
		t, _ := p.tieOf(it, pl)
		b := Placed(it, pl).Bounds()
		if pl.Flip && !it.MayFlip || t.canNot || b.Height() > p.WidthCM+fitCM {
			continue
		}
		best, box = pl, b
		best.X, best.Y = up(x-b.MinX), upToGrid(-b.MinY)
		if t.stepX > 0 {
			best.X = toGrid(t.atX + math.Ceil((x-b.MinX-t.atX-halfGrid)/t.stepX)*t.stepX)
		}
		if t.stepY > 0 {
			best.Y = toGrid(t.atY + math.Ceil((-b.MinY-t.atY-halfGrid)/t.stepY)*t.stepY)
		}
		if t.right && !t.left {
			best.Y = downToGrid(p.WidthCM - b.MaxY)
		}
		if best.Y+b.MinY < -fitCM || best.Y+b.MaxY > p.WidthCM+fitCM {
			best.Y = -b.MinY
		}
	}
	return best, box
}
