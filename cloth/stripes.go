package cloth

import (
	"fmt"
	"strings"
)

// Stripe is one yarn's turn in an order of ends or picks.
type Stripe struct {
	Yarn    string
	Threads int // ends or picks; at least 1
}

// maxStripes is the most turns of one order.
const maxStripes = 500

// Yarns are all yarns of the input, each name once: warp, weft, then the others.
func (in Input) Yarns() []Yarn {
	var out []Yarn
	seen := map[string]bool{}
	for _, y := range append([]Yarn{in.Warp, in.Weft}, in.Others...) {
		if !seen[y.Name] {
			seen[y.Name] = true
			out = append(out, y)
		}
	}
	return out
}

// yarn finds a yarn by its name.
func (in Input) yarn(name string) (Yarn, bool) {
	for _, y := range in.Yarns() {
		if y.Name == name {
			return y, true
		}
	}
	return Yarn{}, false
}

// orDefault is the name given, or else that of the main yarn.
func orDefault(name, main string) string {
	if name == "" {
		return main
	}
	return name
}

// Threads lays n threads in the order, begun again as often as needed and cut
// off where the threads end. No order: all of the main yarn.
func Threads(order []Stripe, main string, n int) []Stripe {
	if n <= 0 {
		return nil
	}
	if len(order) == 0 {
		return []Stripe{{main, n}}
	}
	var out []Stripe
	for i := 0; n > 0 && len(out) < 1e6; i++ {
		s := order[i%len(order)]
		if s.Threads < 1 {
			continue
		}
		out = append(out, Stripe{s.Yarn, min(s.Threads, n)})
		n -= s.Threads
	}
	return merged(out)
}

// merged joins neighbours of one yarn.
func merged(list []Stripe) []Stripe {
	var out []Stripe
	for _, s := range list {
		if last := len(out) - 1; last >= 0 && out[last].Yarn == s.Yarn {
			out[last].Threads += s.Threads
		} else if s.Threads > 0 {
			out = append(out, s)
		}
	}
	return out
}

// countThreads is how many of n threads are of each yarn. It does not walk the
// threads, so it is as quick for a warp of a mile as for one of a yard.
func countThreads(order []Stripe, main string, n int) map[string]int {
	out := map[string]int{}
	round := 0
	for _, s := range order {
		round += s.Threads
	}
	if round == 0 {
		out[main] = max(0, n)
		return out
	}
	for _, s := range order {
		out[s.Yarn] += n / round * s.Threads
	}
	left := n % round
	for _, s := range order {
		take := min(left, s.Threads)
		out[s.Yarn] += take
		left -= take
	}
	return out
}

// warpStripes are the ends from the left selvedge to the right: the selvedge's
// own and doubled ends, the order between them, and the selvedge again. Of an
// odd number of doubled ends the left selvedge has the one more.
func (in Input) warpStripes(endsInDents int) []Stripe {
	s := in.Setting
	edge := orDefault(s.SelvedgeYarn, in.Warp.Name)
	own := min(s.SelvedgeEnds, endsInDents/2)
	right := s.SelvedgeExtraEnds / 2
	list := []Stripe{{edge, own + s.SelvedgeExtraEnds - right}}
	list = append(list, Threads(s.WarpOrder, in.Warp.Name, endsInDents-2*own)...)
	return merged(append(list, Stripe{edge, own + right}))
}

// endsOf is how many ends are of each yarn.
func (in Input) endsOf(endsInDents int) map[string]int {
	s := in.Setting
	own := min(s.SelvedgeEnds, endsInDents/2)
	out := countThreads(s.WarpOrder, in.Warp.Name, endsInDents-2*own)
	out[orDefault(s.SelvedgeYarn, in.Warp.Name)] += 2*own + s.SelvedgeExtraEnds
	return out
}

// picksOf is how many of n picks are of each yarn.
func (in Input) picksOf(n int) map[string]int {
	return countThreads(in.Setting.WeftOrder, in.Weft.Name, n)
}

// validStripes refuses orders with turns of no thread or of a yarn not there.
func (in Input) validStripes() error {
	s := in.Setting
	for _, o := range []struct {
		what  string
		order []Stripe
	}{{"the warp order", s.WarpOrder}, {"the weft order", s.WeftOrder}} {
		if len(o.order) > maxStripes {
			return &FieldError{"the number of turns of " + o.what, len(o.order), fmt.Sprintf("at most %d", maxStripes)}
		}
		for _, stripe := range o.order {
			if _, ok := in.yarn(stripe.Yarn); !ok {
				return &FieldError{"a yarn of " + o.what, stripe.Yarn, "the name of a yarn given"}
			}
			if stripe.Threads < 1 || stripe.Threads > 1e6 {
				return &FieldError{"the threads of " + stripe.Yarn + " in " + o.what, stripe.Threads, "a whole number from 1 to 1000000"}
			}
		}
	}
	for _, o := range []struct{ what, name string }{{"the selvedge's yarn", s.SelvedgeYarn}, {"the headings' yarn", s.HeadingYarn}} {
		if _, ok := in.yarn(o.name); o.name != "" && !ok {
			return &FieldError{o.what, o.name, "the name of a yarn given"}
		}
	}
	return within("the selvedge's own ends", float64(s.SelvedgeEnds), s.SelvedgeEnds >= 0 && s.SelvedgeEnds <= 1000, "0 to 1000")
}

// StripesText is an order in words: "20 grey, 4 red".
func StripesText(order []Stripe) string {
	var parts []string
	for _, s := range order {
		parts = append(parts, fmt.Sprintf("%d %s", s.Threads, s.Yarn))
	}
	return strings.Join(parts, ", ")
}
