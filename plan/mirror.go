package plan

import (
	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

// mirrorKey is a place about which the cloth's pattern is the same both ways;
// empty for none that is said.
func mirrorKey(name, label string, at **float64) key {
	var cm float64
	k := numberKey(name, label, "cm", &cm, bounds{min: 0, max: 1e4})
	plain := k.read
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == "" {
			*at = nil
			return ""
		}
		if wrong := plain(n); wrong != "" {
			return wrong
		}
		v := cm
		*at = &v
		return ""
	}
	k.write = func() *yaml.Node {
		if *at == nil {
			return nil
		}
		return numberNode(**at)
	}
	return k
}

// mirrors is the places about which the pattern is the same both ways, along
// from the first cut end and across from the left selvedge: as the plan says,
// or else by the order of picks and ends, which begin there; nil for none.
func (p *Plan) mirrors() (along, across *float64) {
	of := func(said *float64, repeatCM float64, order []cloth.Stripe, perCM float64) *float64 {
		if said != nil || repeatCM > 0 || len(order) < 2 || perCM <= 0 {
			return said
		}
		threads, ok := mirrorOf(order)
		if !ok {
			return nil
		}
		cm := threads / perCM
		return &cm
	}
	return of(p.MirrorCM, p.RepeatCM, p.Cloth.WeftOrder, p.Cloth.FinishedPicksPerCM),
		of(p.MirrorAcrossCM, p.RepeatAcrossCM, p.Cloth.WarpOrder, p.Cloth.FinishedEndsPerCM)
}

// mostMirrored is the most threads of a repeat that is looked through for a
// mirror; longer ones are taken to have none.
const mostMirrored = 4000

// mirrorOf is the first place in an order that is repeated without end, in
// threads from its beginning, about which it reads the same both ways.
func mirrorOf(order []cloth.Stripe) (threads float64, ok bool) {
	var yarns []string
	for _, s := range order {
		if s.Threads < 0 || len(yarns)+s.Threads > mostMirrored {
			return 0, false
		}
		for range s.Threads {
			yarns = append(yarns, s.Yarn)
		}
	}
	n := len(yarns)
	// About the place c threads i and 2c − 1 − i change places.
	for twice := range n {
		same := true
		for i := 0; i < n && same; i++ {
			same = yarns[i] == yarns[((twice-1-i)%n+n)%n]
		}
		if same {
			return float64(twice) / 2, true
		}
	}
	return 0, false
}
