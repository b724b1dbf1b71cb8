package ui

import (
	"slices"
	"strings"

	"ellwand/plan"
)

func matchingShape(b *bench) string {
	var names []string
	for _, m := range b.plan().Matches {
		names = append(names, m.Name)
	}
	return "|" + strings.Join(names, "|")
}

// matching adds the repeat of the cloth's pattern, and which pieces are to lie
// at one place in it.
func (f *form) matching() {
	f.heading("Repeat and matching")
	f.field("cloth.repeat_cm")
	f.field("cloth.repeat_mirror_cm")
	f.field("cloth.repeat_across_cm")
	f.field("cloth.repeat_mirror_across_cm")
	f.note("Pieces that are matched lie at the same place in the repeat, so that a band runs on from one to the next. Where the pattern looks the same turned round, say where the middle of a band or stripe lies, in cm from each first cut end or from the left selvedge: pieces may then be turned round too. Left empty, it is read off the order of picks or ends. Names are written with commas between; an edge of each piece says where they meet.")
	for _, m := range f.b.plan().Matches {
		under := "match[" + m.Name + "]."
		for _, key := range []string{"name", "pieces", "edges", "direction"} {
			f.field(under + key)
		}
		f.button("Remove this match", func() error {
			return f.b.do("remove "+m.Name, func(p *plan.Plan) error {
				p.Matches = slices.DeleteFunc(p.Matches, func(n plan.MatchSpec) bool { return n.Name == m.Name })
				return nil
			})
		})
		f.gap(6)
	}
	f.button("Match pieces", func() error {
		var pieces []string
		if f.b.shown != nil {
			for _, r := range f.b.shown.Pieces[:min(2, len(f.b.shown.Pieces))] {
				pieces = append(pieces, r.Piece.Name)
			}
		}
		return f.b.do("match pieces", func(p *plan.Plan) error {
			name := freshName("bands", func(n string) bool {
				return slices.ContainsFunc(p.Matches, func(m plan.MatchSpec) bool { return m.Name == n })
			})
			p.Matches = append(p.Matches, plan.MatchSpec{Name: name, Pieces: pieces, Direction: "along"})
			return nil
		})
	})
}
