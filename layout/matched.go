package layout

import (
	"context"
	"fmt"
	"math"

	"ellwand/geometry"
)

// Match asks that all items of a group lie at the same phase of the cloth's
// repeat: that the places where their At comes to lie are whole repeats apart.
// An item turned or turned over so that the pattern runs backwards on it lies
// in phase where the pattern is the same both ways and its At lies as far from
// the mirror as another's on the mirror's other side; else it may not lie so.
type Match struct {
	Group int            // from 1; 0 asks nothing
	At    geometry.Point // in the item's own frame
	// Toward is which way the pattern is to run on the item, in its own frame;
	// none: it does not matter.
	Toward geometry.Point
}

// along is how a match of an item lies in one direction of the cloth.
type along struct {
	Match
	across   bool
	repeatCM float64
	mirror   *float64
}

// matches is what is asked of an item along and across the cloth.
func (p Problem) matches(it Item) [2]along {
	return [2]along{{it.Along, false, p.RepeatCM, p.MirrorCM}, {it.Across, true, p.RepeatAcrossCM, p.MirrorAcrossCM}}
}

// asks says whether anything is asked at all.
func (a along) asks() bool { return a.Group != 0 && a.repeatCM > 0 }

// key tells the groups along the cloth from those across it.
func (a along) key() int {
	if a.across {
		return -a.Group
	}
	return a.Group
}

// on is a point of the item's frame, put as pl says, in the match's direction.
func (a along) on(v geometry.Point, pl Placement) float64 {
	w := Placed(Item{Outline: geometry.Polygon{v}}, pl)[0]
	if a.across {
		return w.Y
	}
	return w.X
}

// runs says whether the pattern can run on the item as it is turned, and
// whether it then runs backwards.
func (a along) runs(pl Placement) (backwards, can bool) {
	if a.Toward == (geometry.Point{}) {
		return false, true
	}
	pl.X, pl.Y = 0, 0
	switch to := a.on(a.Toward, pl); {
	case to > 0.5:
		return false, true
	case to < -0.5:
		return true, a.mirror != nil
	}
	return false, false
}

// phase is the place that an item's match has in the pattern read forwards;
// the same rule gives back the place from the phase.
func (a along) phase(placeCM float64, backwards bool) float64 {
	if backwards {
		return 2**a.mirror - placeCM
	}
	return placeCM
}

// matched says whether any items are to lie at one phase.
func (p Problem) matched() bool {
	for _, it := range p.Items {
		if m := p.matches(it); m[0].asks() || m[1].asks() {
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
		for _, a := range p.matches(it) {
			if backwards, can := a.runs(pl); can {
				take(a.Group, a.key(), a.phase(a.on(a.At, pl), backwards), it.Pinned != nil)
			}
		}
	}
	return p
}

// faultsTied is the items that lie on no selvedge though they should, and those
// off the phase of the first of their group.
func (p Problem) faultsTied(pls []Placement) []Fault {
	var out []Fault
	type place struct {
		item  int
		phase float64
	}
	first := map[int]place{}
	for i, it := range p.Items {
		if f := p.faultSelvedge(i, pls[i]); f != nil {
			out = append(out, *f)
		}
		for _, a := range p.matches(it) {
			if !a.asks() || math.IsNaN(pls[i].X+pls[i].Y+pls[i].TurnDeg) {
				continue
			}
			word := map[bool]string{false: "along", true: "across"}[a.across]
			backwards, can := a.runs(pls[i])
			if !can {
				out = append(out, Fault{OutOfPhase, i, -1, -1, fmt.Sprintf("piece %s is to match %s the cloth, and is turned so that the pattern runs the wrong way on it", p.called(i), word)})
				continue
			}
			is := place{i, a.phase(a.on(a.At, pls[i]), backwards)}
			was, ok := first[a.key()]
			if !ok {
				first[a.key()] = is
				continue
			}
			if off := math.Abs(math.Remainder(is.phase-was.phase, a.repeatCM)); off > tiedCM {
				out = append(out, Fault{OutOfPhase, was.item, i, -1, fmt.Sprintf("pieces %s and %s are to lie at the same place in the repeat of %s cm %s the cloth, and are %s cm off it",
					p.called(was.item), p.called(i), short(a.repeatCM), word, short(off))})
			}
		}
	}
	return out
}
