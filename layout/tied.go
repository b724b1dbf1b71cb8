package layout

import (
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
	canNot         bool // so no side that is wanted can lie on a selvedge, or the pattern runs wrong
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
	pl.X, pl.Y = 0, 0
	for _, a := range p.matches(it) {
		if !a.asks() {
			continue
		}
		backwards, can := a.runs(pl)
		if !can {
			t.canNot = true
			continue
		}
		at := a.phase(p.phases[a.key()], backwards) - a.on(a.At, pl)
		if a.across {
			t.stepY, t.atY, t.groupsY = a.repeatCM, at, a.Group
		} else {
			t.stepX, t.atX, t.group = a.repeatCM, at, a.Group
		}
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
	if !it.tied() {
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
	if it.Selvedge == 0 {
		return fmt.Errorf("piece %s is to match the cloth's pattern, and in no turn that it may have can that be", p.called(i))
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
