package ui

import (
	"fmt"
	"math"

	"ellwand/geometry"
	"ellwand/plan"
)

// leastFlawCM is the least side of a flaw that is drawn: less is a slip of the
// hand.
const leastFlawCM = 0.3

// markFlaw keeps a flaw of the cloth where it was drawn, rounded to a
// millimetre; on cloth in several lengths it belongs to the one it begins on.
func (b *bench) markFlaw(part geometry.Rect) error {
	if b.shown == nil {
		return errNotLaid
	}
	wide := b.shown.Lay.WidthCM
	mm := func(v float64) float64 { return math.Round(v*10) / 10 }
	on, start := b.lengthAt(part.MinX)
	x0, x1 := mm(max(0, part.MinX-start)), mm(part.MaxX-start)
	y0, y1 := mm(max(0, part.MinY)), mm(min(wide, part.MaxY))
	if x1-x0 < leastFlawCM || y1-y0 < leastFlawCM {
		return fmt.Errorf(words("a flaw is at least %.1f cm long and wide; drag a frame round it"), leastFlawCM)
	}
	return b.addFlaw(plan.Flaw{On: on, OutlineCM: [][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}})
}

// addFlaw keeps a flaw with an outline under a fresh name.
func (b *bench) addFlaw(flaw plan.Flaw) error {
	if _, err := outlineOf(flaw.OutlineCM); err != nil {
		return err
	}
	taken := map[string]bool{}
	for _, f := range b.plan().Real.Flaws {
		taken[f.Name] = true
	}
	flaw.Name = freshName(words("flaw"), func(n string) bool { return taken[n] })
	return b.do("mark "+flaw.Name, func(p *plan.Plan) error {
		p.Real.Flaws = append(p.Real.Flaws, flaw)
		return nil
	})
}

// unmarkFlaw takes the flaw under a place on the cloth away; false when there is
// none.
func (b *bench) unmarkFlaw(at geometry.Point) bool {
	if b.shown == nil {
		return false
	}
	for _, f := range b.shown.Prepared.Problem.Flaws {
		if geometry.Locate(f.Outline, at) == geometry.Outside {
			continue
		}
		err := b.do("take away "+f.Name, func(p *plan.Plan) error {
			for i, g := range p.Real.Flaws {
				if g.Name == f.Name {
					p.Real.Flaws = append(p.Real.Flaws[:i:i], p.Real.Flaws[i+1:]...)
					break
				}
			}
			return nil
		})
		return err == nil
	}
	return false
}
