package ui

import (
	"errors"
	"slices"

	"ellwand/geometry"
	"ellwand/layout"
)

// side is what pieces are brought in line by.
type side int

const (
	sideStart side = iota // nearest the first cut end
	sideEnd               // farthest from it
	sideLeft              // nearest the left selvedge
	sideRight
)

// toEdge lays the picked pieces, as they lie to each other, against the cut end
// or a selvedge.
func (b *bench) toEdge(s side) error {
	items, err := b.movables()
	if err != nil {
		return err
	}
	all, p := boxOf(b.shown, items), b.shown.Prepared.Problem
	dx, dy := 0.0, 0.0
	switch s {
	case sideStart:
		dx = -all.MinX
	case sideLeft:
		dy = -all.MinY
	case sideRight:
		dy = p.WidthCM - all.MaxY
	default:
		return errors.New(words("the far end is where the last piece ends"))
	}
	return b.placeAll("align", b.shifted(items, dx, dy))
}

// inLine brings one side of each picked piece in line with the outermost.
func (b *bench) inLine(s side) error {
	items, err := b.several()
	if err != nil {
		return err
	}
	all, to := boxOf(b.shown, items), places{}
	for _, i := range items {
		at := b.shown.Lay.Placements[i]
		r := layout.Placed(b.shown.Prepared.Problem.Items[i], at).Bounds()
		switch s {
		case sideStart:
			at.X += all.MinX - r.MinX
		case sideEnd:
			at.X += all.MaxX - r.MaxX
		case sideLeft:
			at.Y += all.MinY - r.MinY
		case sideRight:
			at.Y += all.MaxY - r.MaxY
		}
		to[i] = at
	}
	return b.placeAll("align", to)
}

// several are the pieces picked, when they are two or more and may be moved.
func (b *bench) several() ([]int, error) {
	items, err := b.movables()
	if err == nil && len(items) < 2 {
		err = errors.New(words("pick two pieces or more: Shift and a click add one"))
	}
	return items, err
}

// spaceEvenly leaves the same room between the picked pieces, along the cloth or
// across it; the first and the last stay where they are.
func (b *bench) spaceEvenly(across bool) error {
	items, err := b.several()
	if err != nil {
		return err
	}
	if len(items) < 3 {
		return errors.New(words("pick three pieces or more: the first and the last stay where they are"))
	}
	span := func(i int) (from, to float64) {
		r := layout.Placed(b.shown.Prepared.Problem.Items[i], b.shown.Lay.Placements[i]).Bounds()
		if across {
			return r.MinY, r.MaxY
		}
		return r.MinX, r.MaxX
	}
	slices.SortStableFunc(items, func(a, c int) int {
		x, _ := span(a)
		y, _ := span(c)
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	room := 0.0
	for k := 1; k < len(items); k++ {
		_, end := span(items[k-1])
		start, _ := span(items[k])
		room += start - end
	}
	room /= float64(len(items) - 1)
	to := places{}
	_, at := span(items[0])
	for _, i := range items[1 : len(items)-1] {
		from, end := span(i)
		pl := b.shown.Lay.Placements[i]
		if across {
			pl.Y += at + room - from
		} else {
			pl.X += at + room - from
		}
		to[i] = pl
		at += room + end - from
	}
	return b.placeAll("space evenly", to)
}

// putAt lays the picked pieces so that what they take up together begins at a
// place, in cm from the cut end and from the left selvedge.
func (b *bench) putAt(place geometry.Point) error {
	items, err := b.movables()
	if err != nil {
		return err
	}
	all := boxOf(b.shown, items)
	return b.placeAll("move", b.shifted(items, place.X-all.MinX, place.Y-all.MinY))
}

// turnTo gives the picked piece one of its allowed turns, about its middle.
func (b *bench) turnTo(deg float64) error {
	i := b.item()
	it, err := b.movable(i)
	if err != nil {
		return err
	}
	turn, ok := allowedTurn(it, deg)
	if !ok {
		return errors.New(words("%s may not lie so: allowed is %s", it.ID, turnsWords(it)))
	}
	at := b.shown.Lay.Placements[i]
	return b.place("turn", i, aboutMiddle(b.shown.Prepared.Problem, it, at, layout.Placement{TurnDeg: turn, Flip: at.Flip}))
}
