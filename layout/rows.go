package layout

import (
	"math"
	"sort"

	"ellwand/geometry"
)

// rowsOfBoxes is the items' boxes in rows across the cloth, the longest first,
// beyond all pins and flaws: poor, but there at once whatever the outlines.
func rowsOfBoxes(p Problem) Lay {
	l := Lay{WidthCM: p.WidthCM, Placements: make([]Placement, len(p.Items))}
	boxes := make([]geometry.Rect, len(p.Items))
	x := 0.0 // where the row begins
	var loose []int
	for i, it := range p.Items {
		if it.Pinned != nil {
			l.Placements[i] = *it.Pinned
			x = math.Max(x, Placed(it, *it.Pinned).Bounds().MaxX+p.GapCM)
			continue
		}
		loose = append(loose, i)
		if i > 0 && sameItem(it, p.Items[i-1]) {
			l.Placements[i], boxes[i] = l.Placements[i-1], boxes[i-1]
			continue
		}
		l.Placements[i], boxes[i] = lowestTurn(it)
	}
	for _, g := range p.grounds() {
		x = math.Max(x, g.outline.Bounds().MaxX)
	}
	sort.SliceStable(loose, func(a, b int) bool { return boxes[loose[a]].Width() > boxes[loose[b]].Width() })
	up := func(v float64) float64 { return toGrid(math.Ceil(v/placeGridCM-1e-9) * placeGridCM) }
	y, next := 0.0, x // where the row goes on, and where the one after it begins
	for _, i := range loose {
		b := boxes[i]
		if it := p.Items[i]; it.tied() { // in a row of its own
			if y > 0 {
				x = next + p.GapCM
			}
			l.Placements[i], b = p.tiedPlace(it, x)
			next = math.Max(next, l.Placements[i].X+b.MaxX)
			y = p.WidthCM + 1
			continue
		}
		if y > 0 && up(y-b.MinY)+b.MaxY > p.WidthCM {
			x, y = next+p.GapCM, 0
		}
		at := &l.Placements[i]
		at.X, at.Y = up(x-b.MinX), up(-b.MinY)
		if at.Y+b.MaxY > p.WidthCM {
			at.Y = -b.MinY
		}
		if y > 0 {
			at.Y = up(y - b.MinY)
		}
		next = math.Max(next, at.X+b.MaxX)
		y = at.Y + b.MaxY + p.GapCM
	}
	l.LengthCM = ReachCM(p, l.Placements)
	return l
}

// lowestTurn is the turn in which the item takes least across the cloth, and
// its box so, lying at (0, 0).
func lowestTurn(it Item) (Placement, geometry.Rect) {
	best, box := Placement{}, geometry.Rect{}
	for k, t := range it.TurnsDeg {
		pl := Placement{TurnDeg: t}
		if b := Placed(it, pl).Bounds(); k == 0 || b.Height() < box.Height() {
			best, box = pl, b
		}
	}
	if it.MayFlip {
		for _, t := range it.TurnsDeg {
			pl := Placement{TurnDeg: t, Flip: true}
			if b := Placed(it, pl).Bounds(); b.Height() < box.Height() {
				best, box = pl, b
			}
		}
	}
	return best, box
}
