package layout

import (
	"fmt"
	"math"
	"strconv"

	"ellwand/geometry"
)

// FaultKind says what rule of a lay is broken.
type FaultKind int

const (
	Malformed   FaultKind = iota + 1 // the lay as a whole: width, length or number of placements
	NotAPlace                        // a position that is no number
	BadTurn                          // a turn that the item does not allow
	BadFlip                          // turned over though it must not be
	Outside                          // beyond a selvedge or a cut end
	Overlapping                      // two items share ground
	TooClose                         // two items are nearer than the gap
	OnFlaw                           // an item lies on a flaw
	Unpinned                         // a pinned item was moved
	AcrossEnds                       // an item lies where one length of cloth has ended
	OffSelvedge                      // an item that is to have an edge on a selvedge has none there
	OutOfPhase                       // two items lie at different places in the cloth's repeat
)

// Fault is one rule of a lay broken. ItemA and ItemB are indices into
// Problem.Items, Flaw into Problem.Flaws; -1 where none is concerned.
type Fault struct {
	Kind         FaultKind
	ItemA, ItemB int
	Flaw         int
	Text         string // one sentence
}

func (f *Fault) Error() string { return f.Text }

// checkGridCM is the grid to which corners are rounded before they are tested
// exactly: coordinates become whole numbers below 2⁵³. It is a thousandth of
// what shears can follow, and hides the last bits that a sum or a turn leaves.
const checkGridCM = 1e-6

// gridded is q in whole multiples of checkGridCM.
func gridded(q geometry.Polygon) geometry.Polygon {
	out := make(geometry.Polygon, len(q))
	for i, v := range q {
		out[i] = geometry.Point{X: math.Round(v.X / checkGridCM), Y: math.Round(v.Y / checkGridCM)}
	}
	return out
}

// Check says whether l is a legal lay of p, by exact tests on corners rounded
// to 1e-6 cm; it shares nothing with the search. The error is the first *Fault.
func Check(p Problem, l Lay) error {
	if fs := faults(p, l, 1); len(fs) > 0 {
		return &fs[0]
	}
	return nil
}

// Faults is everything that is wrong with l; empty for a legal lay. Items may
// lie anywhere, as while one is dragged.
func Faults(p Problem, l Lay) []Fault { return faults(p, l, math.MaxInt) }

func faults(p Problem, l Lay, most int) []Fault {
	if f := malformed(p, l); f != nil {
		return []Fault{*f}
	}
	var out []Fault
	add := func(f *Fault) bool {
		if f != nil {
			out = append(out, *f)
		}
		return len(out) < most
	}
	n := len(p.Items)
	placed := make([]geometry.Polygon, n)
	for i, pl := range l.Placements {
		f := p.faultAlone(i, pl, l.LengthCM)
		if !add(f) {
			return out
		}
		if f == nil || f.Kind != NotAPlace {
			placed[i] = gridded(Placed(p.Items[i], pl))
		}
	}
	for _, g := range p.grounds() {
		q := gridded(g.outline)
		for i := range placed {
			if placed[i] != nil && !add(p.faultGround(i, g, placed[i], q)) {
				return out
			}
		}
	}
	for _, f := range p.faultsTied(l.Placements) {
		if !add(&f) {
			return out
		}
	}
	eachClosePair(placed, p.GapCM/checkGridCM, func(i, j int) bool {
		return add(p.faultBetween(i, j, placed[i], placed[j]))
	})
	return out
}

func malformed(p Problem, l Lay) *Fault {
	whole := func(format string, args ...any) *Fault {
		return &Fault{Malformed, -1, -1, -1, fmt.Sprintf(format, args...)}
	}
	switch {
	case len(l.Placements) != len(p.Items):
		return whole("the lay places %d pieces; there are %d", len(l.Placements), len(p.Items))
	case !(l.WidthCM <= p.WidthCM+fitCM):
		return whole("the lay is %s cm wide; the cloth is %s cm", short(l.WidthCM), short(p.WidthCM))
	case !(l.LengthCM >= 0 && l.LengthCM < 1e9):
		return whole("the lay is %s cm long; accepted is a length in cm", short(l.LengthCM))
	}
	return nil
}

// eachClosePair calls f for i < j whose boxes are nearer than gap, until f says
// stop. Boxes are swept along x, so that far pieces cost nothing.
func eachClosePair(placed []geometry.Polygon, gap float64, f func(i, j int) bool) {
	boxes := make([]geometry.Rect, len(placed))
	for i, q := range placed {
		boxes[i] = q.Bounds()
	}
	order := sortedBy(len(placed), func(i int) float64 { return boxes[i].MinX })
	for k, i := range order {
		if placed[i] == nil {
			continue
		}
		for _, j := range order[k+1:] {
			if boxes[j].MinX >= boxes[i].MaxX+gap {
				break
			}
			apart := boxes[j].MinY >= boxes[i].MaxY+gap || boxes[i].MinY >= boxes[j].MaxY+gap
			if placed[j] != nil && !apart && !f(min(i, j), max(i, j)) {
				return
			}
		}
	}
}

// faultAlone is what is wrong with item i placed at pl on length cm of cloth,
// whatever else lies there.
func (p Problem) faultAlone(i int, pl Placement, lengthCM float64) *Fault {
	it := p.Items[i]
	fault := func(k FaultKind, format string, args ...any) *Fault {
		return &Fault{k, i, -1, -1, "piece " + p.called(i) + " " + fmt.Sprintf(format, args...)}
	}
	if math.IsNaN(pl.X+pl.Y+pl.TurnDeg) || math.Abs(pl.X) > 1e9 || math.Abs(pl.Y) > 1e9 || math.Abs(pl.TurnDeg) > 1e6 {
		return fault(NotAPlace, "is at (%v, %v) cm turned %v degrees, which is no place", pl.X, pl.Y, pl.TurnDeg)
	}
	if it.Pinned != nil && pl != *it.Pinned {
		return fault(Unpinned, "is pinned at (%s, %s) cm but lies at (%s, %s) cm", short(it.Pinned.X), short(it.Pinned.Y), short(pl.X), short(pl.Y))
	}
	if !turnAllowed(it, pl.TurnDeg) {
		return fault(BadTurn, "is turned %g degrees; allowed is %s", pl.TurnDeg, turnsText(it.TurnsDeg))
	}
	if pl.Flip && !it.MayFlip {
		return fault(BadFlip, "is turned over, which it must not be")
	}
	b := Placed(it, pl).Bounds()
	switch {
	case b.MinX < -fitCM:
		return fault(Outside, "reaches %s cm past the first cut end", short(-b.MinX))
	case b.MaxX > lengthCM+fitCM:
		return fault(Outside, "reaches %s cm past the cloth's length of %s cm", short(b.MaxX-lengthCM), short(lengthCM))
	case b.MinY < -fitCM:
		return fault(Outside, "reaches %s cm past the left selvedge", short(-b.MinY))
	case b.MaxY > p.WidthCM+fitCM:
		return fault(Outside, "reaches %s cm past the right selvedge", short(b.MaxY-p.WidthCM))
	}
	return nil
}

// short is a length to the grid of places, with no more digits than it has; a
// length too small for it is not written as none.
func short(cm float64) string {
	if math.Abs(cm) < 0.001 && cm != 0 {
		return "less than 0.001"
	}
	return strconv.FormatFloat(math.Round(cm*1000)/1000, 'f', -1, 64)
}

// turnsText is the turns allowed: "0°, 90° or 180°".
func turnsText(turns []float64) string {
	text := ""
	for i, t := range turns {
		switch {
		case i == 0:
		case i == len(turns)-1:
			text += " or "
		default:
			text += ", "
		}
		text += strconv.FormatFloat(t, 'f', -1, 64) + "°"
	}
	return text
}

func turnAllowed(it Item, deg float64) bool {
	for _, t := range it.TurnsDeg {
		if math.Abs(math.Remainder(t-deg, 360)) < 1e-9 {
			return true
		}
	}
	return false
}

// faultBetween is what is wrong between items i and j, both in grid units.
func (p Problem) faultBetween(i, j int, a, b geometry.Polygon) *Fault {
	if overlaps(a, b) {
		return &Fault{Overlapping, i, j, -1, fmt.Sprintf("pieces %s and %s overlap", p.called(i), p.called(j))}
	}
	if p.GapCM == 0 {
		return nil
	}
	if d := apart(a, b) * checkGridCM; d < p.GapCM-2*checkGridCM {
		return &Fault{TooClose, i, j, -1, fmt.Sprintf("pieces %s and %s are %s cm apart; the gap is to be %s cm",
			p.called(i), p.called(j), short(d), short(p.GapCM))}
	}
	return nil
}

// overlaps is geometry.Overlap, sooner answered where the outlines do not touch:
// then one lies in the other, or they are apart. All tests are exact.
func overlaps(a, b geometry.Polygon) bool {
	ra, rb := a.Bounds(), b.Bounds()
	if ra.MaxX <= rb.MinX || rb.MaxX <= ra.MinX || ra.MaxY <= rb.MinY || rb.MaxY <= ra.MinY {
		return false
	}
	near := edgesIn(b, ra)
	touch := false
	for _, e := range edgesIn(a, rb) {
		for _, f := range near {
			switch contact(e, f) {
			case crossing:
				return true
			case touching:
				touch = true
			}
		}
	}
	if touch {
		return geometry.Overlap(a, b)
	}
	return geometry.Locate(a, b[0]) == geometry.Inside || geometry.Locate(b, a[0]) == geometry.Inside
}

type edge struct{ a, b geometry.Point }

// edgesIn is the edges of q whose boxes meet r.
func edgesIn(q geometry.Polygon, r geometry.Rect) []edge {
	var out []edge
	for i, v := range q {
		w := q[(i+1)%len(q)]
		if max(v.X, w.X) >= r.MinX && min(v.X, w.X) <= r.MaxX && max(v.Y, w.Y) >= r.MinY && min(v.Y, w.Y) <= r.MaxY {
			out = append(out, edge{v, w})
		}
	}
	return out
}

const (
	clearOf = iota
	touching
	crossing
)

// contact says how two edges meet. Touching is said too where an end lies on
// the other's line within its box, which costs time but never the answer.
func contact(e, f edge) int {
	if max(e.a.X, e.b.X) < min(f.a.X, f.b.X) || max(f.a.X, f.b.X) < min(e.a.X, e.b.X) ||
		max(e.a.Y, e.b.Y) < min(f.a.Y, f.b.Y) || max(f.a.Y, f.b.Y) < min(e.a.Y, e.b.Y) {
		return clearOf
	}
	p := geometry.Orient(e.a, e.b, f.a) * geometry.Orient(e.a, e.b, f.b)
	if p > 0 {
		return clearOf
	}
	q := geometry.Orient(f.a, f.b, e.a) * geometry.Orient(f.a, f.b, e.b)
	switch {
	case q > 0:
		return clearOf
	case p < 0 && q < 0:
		return crossing
	}
	return touching
}

// apart is the least distance between the outlines of a and b.
func apart(a, b geometry.Polygon) float64 {
	least := math.Inf(1)
	for i, v := range a {
		w := a[(i+1)%len(a)]
		for j, s := range b {
			t := b[(j+1)%len(b)]
			least = min(least, fromSegment(v, s, t), fromSegment(s, v, w))
		}
	}
	return least
}

// fromSegment is the distance of v from the segment a-b.
func fromSegment(v, a, b geometry.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(1, max(0, ((v.X-a.X)*dx+(v.Y-a.Y)*dy)/l))
	}
	return math.Hypot(v.X-a.X-t*dx, v.Y-a.Y-t*dy)
}
