package layout

import (
	"errors"
	"fmt"
	"math"

	"ellwand/geometry"
)

// MaxItems is the most items that a problem may have.
const MaxItems = 5000

// maxCM bounds every length, so that positions stay exact on the check's grid.
const maxCM = 1e6

// Validate says in one sentence what makes the problem impossible to lay.
func (p Problem) Validate() error {
	if !(p.WidthCM > 0 && p.WidthCM <= maxCM) {
		return fmt.Errorf("the cloth's width is %v cm; accepted is more than 0 to %d cm", p.WidthCM, int(maxCM))
	}
	for _, r := range []float64{p.RepeatCM, p.RepeatAcrossCM} {
		if !(r == 0 || r >= 0.1 && r <= maxCM) {
			return fmt.Errorf("the pattern repeats after %v cm; accepted is 0 for no repeat, or 0.1 to %d cm", r, int(maxCM))
		}
	}
	if !(p.GapCM >= 0 && p.GapCM <= maxCM) {
		return fmt.Errorf("the gap between pieces is %v cm; accepted is 0 to %d cm", p.GapCM, int(maxCM))
	}
	if n := len(p.Items); n < 1 || n > MaxItems {
		return fmt.Errorf("there are %d pieces to lay; accepted are 1 to %d", n, MaxItems)
	}
	if err := p.validateGround(); err != nil {
		return err
	}
	for i := range p.Items {
		if i > 0 && len(p.Items[i].Outline) > 0 && len(p.Items[i-1].Outline) > 0 && sameItem(p.Items[i], p.Items[i-1]) {
			continue
		}
		if i > 0 && len(p.Items[i].Outline) > 0 && sameItem(p.Items[i], p.Items[i-1]) {
			continue
		}
		if err := p.validateItem(i); err != nil {
			return err
		}
	}
	return p.validatePins()
}

func (p Problem) validateItem(i int) error {
	it := p.Items[i]
	if err := geometry.Validate(it.Outline); err != nil {
		return fmt.Errorf("piece %s: %w", p.called(i), err)
	}
	if b := it.Outline.Bounds(); math.Max(math.Max(-b.MinX, b.MaxX), math.Max(-b.MinY, b.MaxY)) > maxCM {
		return fmt.Errorf("piece %s reaches further than %d cm from its own origin; accepted is less", p.called(i), int(maxCM))
	}
	if len(it.TurnsDeg) == 0 {
		return fmt.Errorf("piece %s has no allowed turn; at least one is needed", p.called(i))
	}
	for _, t := range it.TurnsDeg {
		if math.IsNaN(t) || math.Abs(t) > 1e6 {
			return fmt.Errorf("piece %s may be turned by %v degrees; accepted are plain angles", p.called(i), t)
		}
	}
	if err := p.validateTies(i); err != nil {
		return err
	}
	if least := narrowest(it); least > p.WidthCM+fitCM {
		return fmt.Errorf("piece %s does not fit: it is %.2f cm across the cloth at its narrowest allowed turn, and the cloth is %.2f cm wide",
			p.called(i), least, p.WidthCM)
	}
	return nil
}

// fitCM is how far past an edge a corner may be before it counts: the check's
// grid is 1e-6 cm, and half of it is rounded away.
const fitCM = 5e-7

func (p Problem) validatePins() error {
	var pins []int
	for i, it := range p.Items {
		if it.Pinned == nil {
			continue
		}
		if f := p.faultAlone(i, *it.Pinned, math.Inf(1)); f != nil {
			return fmt.Errorf("the pin cannot stay: %w", f)
		}
		pins = append(pins, i)
	}
	grounds := p.grounds()
	for k, i := range pins {
		a := gridded(Placed(p.Items[i], *p.Items[i].Pinned))
		for _, j := range pins[:k] {
			b := gridded(Placed(p.Items[j], *p.Items[j].Pinned))
			if f := p.faultBetween(j, i, b, a); f != nil {
				return fmt.Errorf("two pins conflict: %w", f)
			}
		}
		for _, g := range grounds {
			if f := p.faultGround(i, g, a, gridded(g.outline)); f != nil {
				return fmt.Errorf("the pin cannot stay: %w", f)
			}
		}
	}
	return nil
}

// narrowest is the item's least extent across the cloth over its allowed turns.
func narrowest(it Item) float64 {
	least := math.Inf(1)
	for _, q := range ways(it) {
		least = math.Min(least, q.Bounds().Height())
	}
	return least
}

// NarrowestCM is the least width at which every item fits by itself: the
// largest of the items' least extents across the cloth. 0 without items.
func NarrowestCM(p Problem) float64 {
	w := 0.0
	for _, it := range p.Items {
		w = math.Max(w, narrowest(it))
		if it.Pinned != nil {
			w = math.Max(w, Placed(it, *it.Pinned).Bounds().MaxY)
		}
	}
	return w
}

// errNoLay is what a search that found no legal lay says.
var errNoLay = errors.New("no lay was found that keeps clear of the pinned pieces and the flaws, and to the selvedges and repeats asked for")
