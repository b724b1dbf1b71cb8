package cloth

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// sley is a reed with the order in which its dents are filled.
type sley struct {
	dentsPer10CM float64
	order        []int
	reedless     bool // no reed: each end is spaced by itself, as if in a dent of its own
}

// endsPerDent is the mean over the dent order.
func (s sley) endsPerDent() float64 {
	sum := 0
	for _, n := range s.order {
		sum += n
	}
	return float64(sum) / float64(len(s.order))
}

// endsPerCM is the sett in the reed.
func (s sley) endsPerCM() float64 { return s.dentsPer10CM / 10 * s.endsPerDent() }

// endsIn is how many ends that many dents hold, filled in order from the first.
func (s sley) endsIn(dents int) int {
	ends, whole := 0, 0
	for _, n := range s.order {
		whole += n
	}
	ends = dents / len(s.order) * whole
	for i := range dents % len(s.order) {
		ends += s.order[i]
	}
	return ends
}

// maxDentOrder is the most dents in the repeat of an order that is tried when
// the plan names none: what can be sleyed without counting wrong, common practice.
const maxDentOrder = 6

// sleyNear is how much farther from the sett wanted than the nearest an order
// may be to be taken because it is plainer.
const sleyNear = 0.005

// evenOrder spreads ends over so many dents as evenly as can be, fewer first.
func evenOrder(ends, dents int) []int {
	order := make([]int, dents)
	for i := range order {
		order[i] = ends*(i+1)/dents - ends*i/dents
	}
	return order
}

// ordersNear are the orders of up to maxDentOrder dents that come nearest from
// below and from above to so many ends a dent.
func ordersNear(endsPerDent float64) [][]int {
	var out [][]int
	for dents := 1; dents <= maxDentOrder; dents++ {
		low := whole(math.Floor(math.Min(endsPerDent, 1000) * float64(dents)))
		for _, ends := range []int{low, low + 1} {
			if ends > 0 && gcd(ends, dents) == 1 {
				out = append(out, evenOrder(ends, dents))
			}
		}
	}
	return out
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Sley is a reed and a dent order that could be used.
type Sley struct {
	ReedDentsPer10CM  float64
	DentOrder         []int
	EndsPerCMOnLoom   float64
	EndsPerCMFinished float64
	OffPercent        float64 // from the count wanted
}

// Sleys are the best order for each reed that may be used, the one to be taken
// first, then by how near they come. Empty for a loom without a reed.
func Sleys(s Setting, l Loom) []Sley {
	taken := chooseSley(s, l)
	if taken.reedless {
		return nil
	}
	list := []sley{}
	for _, r := range reedsFor(s, l) {
		if r == taken.dentsPer10CM {
			list = append(list, taken)
			continue
		}
		list = append(list, plainest(s.OnLoomEndsPerCM(), sleysFor(s, l, []float64{r})))
	}
	var out []Sley
	want := s.OnLoomEndsPerCM()
	slices.SortStableFunc(list, func(a, b sley) int {
		first := func(k sley) bool { return k.dentsPer10CM == taken.dentsPer10CM }
		if first(a) != first(b) {
			return map[bool]int{true: -1, false: 1}[first(a)]
		}
		return cmp.Compare(math.Abs(a.endsPerCM()-want), math.Abs(b.endsPerCM()-want))
	})
	for _, k := range list {
		finished := k.endsPerCM() / ((1 - s.ShrinkWidth) * (1 - s.DrawIn))
		out = append(out, Sley{k.dentsPer10CM, k.order, k.endsPerCM(), finished, 100 * (k.endsPerCM()/want - 1)})
	}
	return out
}

// reedsFor are the reeds that may be used, each once.
func reedsFor(s Setting, l Loom) []float64 {
	if s.ReedDentsPer10CM > 0 {
		return []float64{s.ReedDentsPer10CM}
	}
	reeds := slices.Clone(l.ReedsDentsPer10CM)
	slices.Sort(reeds)
	return slices.Compact(reeds)
}

// sleysFor are the ways to sley that are tried. A rigid heddle takes one end, or
// two as one, in each slot and eye.
func sleysFor(s Setting, l Loom, reeds []float64) []sley {
	var out []sley
	for _, r := range reeds {
		orders := ordersNear(s.OnLoomEndsPerCM() * 10 / r)
		if l.Kind == RigidFrame {
			orders = [][]int{{1}, {2}}
		}
		if len(s.DentOrder) > 0 {
			orders = [][]int{s.DentOrder}
		}
		for _, o := range orders {
			out = append(out, sley{dentsPer10CM: r, order: o})
		}
	}
	return out
}

// plainest is, of the sleys no more than sleyNear farther from the sett wanted
// than the nearest, the one with the shortest order; then the nearest; then the
// one with fewest ends in a dent; then the coarsest reed.
func plainest(want float64, list []sley) sley {
	off := func(k sley) float64 { return math.Abs(k.endsPerCM() - want) }
	nearest := math.Inf(1)
	for _, k := range list {
		nearest = math.Min(nearest, off(k))
	}
	var best sley
	for _, k := range list {
		if off(k) > nearest+sleyNear*want {
			continue
		}
		if best.order == nil || cmp.Or(
			cmp.Compare(len(k.order), len(best.order)),
			cmp.Compare(math.Round(off(k)*1e9), math.Round(off(best)*1e9)),
			cmp.Compare(slices.Max(k.order), slices.Max(best.order)),
			cmp.Compare(k.dentsPer10CM, best.dentsPer10CM)) < 0 {
			best = k
		}
	}
	return best
}

// chooseSley takes the reed and dent order that come nearest to the sett
// wanted, of all reeds that may be used. With no reed at all the ends are
// spaced as wanted.
func chooseSley(s Setting, l Loom) sley {
	reeds := reedsFor(s, l)
	if len(reeds) == 0 {
		return sley{dentsPer10CM: s.OnLoomEndsPerCM() * 10, order: []int{1}, reedless: true}
	}
	return plainest(s.OnLoomEndsPerCM(), sleysFor(s, l, reeds))
}

// OrderText is a dent order in words: "1-2-2".
func OrderText(order []int) string {
	text := ""
	for i, n := range order {
		if i > 0 {
			text += "-"
		}
		text += fmt.Sprint(n)
	}
	return text
}
