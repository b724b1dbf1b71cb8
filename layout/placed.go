package layout

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// Placed is the item's outline where pl puts it on the strip, in cm.
func Placed(item Item, pl Placement) geometry.Polygon {
	q := item.Outline
	if pl.Flip {
		q = q.MirrorX()
	}
	return q.Turn(pl.TurnDeg).Translate(pl.X, pl.Y)
}

// UsePercent is the items' area in percent of the lay's cloth; 0 for a lay
// without cloth.
func UsePercent(p Problem, l Lay) float64 {
	cloth := l.WidthCM * ClothCM(p, l)
	if !(cloth > 0) {
		return 0
	}
	return 100 * itemsArea(p) / cloth
}

func itemsArea(p Problem) float64 {
	sum := 0.0
	for _, it := range p.Items {
		sum += it.Outline.Area()
	}
	return sum
}

// ReachCM is the cloth that the placed items reach, in cm from the cut end.
func ReachCM(p Problem, pls []Placement) float64 {
	far := 0.0
	for i, it := range p.Items {
		far = math.Max(far, Placed(it, pls[i]).Bounds().MaxX)
	}
	return far
}

// called is what a sentence calls item i: its ID, or its number from 1.
func (p Problem) called(i int) string {
	if id := p.Items[i].ID; id != "" {
		return fmt.Sprintf("%q", id)
	}
	return fmt.Sprintf("number %d", i+1)
}

// ways is the item's outline in every turn it is allowed, turned over too where
// that is allowed; where it lies means nothing.
func ways(it Item) []geometry.Polygon {
	var out []geometry.Polygon
	for _, t := range it.TurnsDeg {
		out = append(out, Placed(it, Placement{TurnDeg: t}))
		if it.MayFlip {
			out = append(out, Placed(it, Placement{TurnDeg: t, Flip: true}))
		}
	}
	return out
}
