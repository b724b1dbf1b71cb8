package plan

import (
	"context"
	"math"
	"math/bits"
	"slices"

	"ellwand/layout"
)

// mostChosen is the most lengths of cloth of which every choice is tried; of
// more, they are filled one after the other.
const mostChosen = 8

// fewestLengths is the problem with those lengths of cloth in hand shut that
// can be left whole, and a first lay on the others: the fewest lengths on which
// everything finds room, as far as was found, and of as many those with the
// least cloth. Where there is nothing to choose it is the problem as it is.
func (pr *Prepared) fewestLengths(ctx context.Context, o Options) (layout.Problem, layout.Lay, error) {
	n := pr.wanting
	if n >= 2 && n <= mostChosen {
		for count := 1; count < n; count++ {
			// A first lay tells most; a search is worth its while where that
			// just fails.
			for _, searched := range []bool{false, true} {
				if searched && !(o.Seconds > 0) {
					continue
				}
				choices := pr.choicesOf(count)
				for k, open := range choices {
					share := o.Seconds / 4 / float64(n*max(1, len(choices)-k))
					if p, lay, ok := pr.roomOn(ctx, open, searched, share, o); ok {
						return p, lay, nil
					}
				}
			}
		}
	}
	lay, err := FirstLay(pr)
	return pr.Problem, lay, err
}

// choicesOf is the sets of so many lengths, as bits, that could hold all pieces
// by their area and the longest piece's length, those with the least cloth first.
func (pr *Prepared) choicesOf(count int) []uint {
	need, longest := 0.0, pr.longest()
	for _, it := range pr.Problem.Items {
		need += it.Outline.Area()
	}
	var out []uint
	cloth := map[uint]float64{}
	for set := uint(1); set < 1<<pr.wanting; set++ {
		if bits.OnesCount(set) != count {
			continue
		}
		area, longEnough := 0.0, false
		for k, l := range pr.Problem.Lengths[:pr.wanting] {
			if set>>k&1 == 1 {
				area += l.AreaCM2(pr.Problem.WidthCM)
				longEnough = longEnough || l.ToCM-l.FromCM >= longest-1e-6
			}
		}
		if area >= need && longEnough {
			out, cloth[set] = append(out, set), area
		}
	}
	slices.SortStableFunc(out, func(a, b uint) int {
		switch {
		case cloth[a] < cloth[b]-1e-6:
			return -1
		case cloth[a] > cloth[b]+1e-6:
			return 1
		}
		return 0
	})
	return out
}

// roomOn lays everything on the open lengths alone; ok is false where not all
// of it finds room there.
func (pr *Prepared) roomOn(ctx context.Context, open uint, searched bool, share float64, o Options) (layout.Problem, layout.Lay, bool) {
	p := pr.Problem
	p.Lengths = slices.Clone(p.Lengths)
	for k := range p.Lengths[:pr.wanting] {
		p.Lengths[k].Shut = open>>k&1 == 0
	}
	if p.Validate() != nil { // a piece is pinned on one of those shut
		return p, layout.Lay{}, false
	}
	lay, err := layout.First(p)
	if err != nil {
		return p, lay, false
	}
	end := p.Lengths[pr.wanting-1].ToCM
	if searched && lay.LengthCM > end {
		ctx, cancel := context.WithTimeout(ctx, seconds(share))
		defer cancel()
		better, err := layout.Improve(ctx, p, lay, layout.Settings{Seed: o.Seed, Threads: o.Threads}, func(l layout.Lay) {
			if l.LengthCM <= end {
				cancel()
			}
		})
		if err == nil {
			lay = better
		}
	}
	return p, lay, lay.LengthCM <= end+1e-6 && checked(pr, lay) == nil
}

// Shorter says whether a's lay is worth taking for b's: more of it finds room,
// or it lies on fewer lengths of cloth, or it is shorter on as many.
func Shorter(a, b *Result) bool {
	use := func(r *Result) (wantingCM float64, lengths int) {
		for _, u := range r.Lengths {
			if u.Wanting {
				wantingCM = u.UsedCM
			}
			if u.UsedCM > 0 {
				lengths++
			}
		}
		return wantingCM, lengths
	}
	wantA, onA := use(a)
	wantB, onB := use(b)
	switch {
	case math.Abs(wantA-wantB) > 1e-6:
		return wantA < wantB
	case !a.Prepared.warps && onA != onB:
		return onA < onB
	}
	return a.Lay.LengthCM < b.Lay.LengthCM-1e-6
}
