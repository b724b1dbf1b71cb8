package prints

import (
	"fmt"
	"strings"

	"ellwand/cautions"
	"ellwand/cloth"
	"ellwand/paper"
)

// fibre is the card for working the lots up: how much of each to take, what it
// weighs after each step, and what is prepared for each yarn.
func (m *maker) fibre() []paper.Sheet {
	spun := m.toSpin()
	if len(spun) == 0 {
		return nil
	}
	all := []any{}
	kinds := map[cloth.LotKind]bool{}
	for _, f := range m.r.Reckoning.Fleeces {
		kinds[f.Kind] = true
		facts := m.lotFacts(f)
		for _, n := range spun {
			facts = append(facts, m.preparedFacts(f, n.Yarn)...)
		}
		all = append(all, paper.Heading(f.Name), facts, m.stages(f))
	}
	if kinds[cloth.LotFleece] {
		all = append([]any{caution(cautions.RawFleece)}, all...)
	}
	all = append(all, m.time("sort", "scour", "comb", "card"))
	if kinds[cloth.LotFleece] {
		all = append(all, caution(cautions.Scouring))
	}
	if m.hasTask("comb") {
		all = append(all, caution(cautions.Combing), caution(cautions.HeatedCombs))
	}
	if m.hasTask("card") || kinds[cloth.LotPlant] {
		all = append(all, caution(cautions.Carding))
	}
	return []paper.Sheet{m.card("Fibre", "sorting, scouring and preparing", blocks(all...)...)}
}

// lotFacts are what to take of a lot.
func (m *maker) lotFacts(f cloth.FleeceNeed) paper.Facts {
	facts := paper.Facts{{Label: "Take of it", Value: grams(f.RawNeededG), From: fmt.Sprintf("raw; in hand %s", grams(f.RawHaveG))}}
	return facts
}

// stages is what the part of a lot that is taken weighs after each step.
func (m *maker) stages(f cloth.FleeceNeed) []paper.Block {
	if f.RawHaveG <= 0 || len(f.Stages) == 0 {
		return nil
	}
	table := paper.Table{Head: []string{"after each step it weighs, dry", "", "weighed"}, Figures: []bool{false, true}}
	for _, s := range f.Stages { // they are of all in hand
		name := s.Name
		if s.Coat != "" && s.Coat != cloth.CoatWhole {
			name = strings.TrimPrefix(cloth.CoatWords(s.Coat), "the ") + ", " + name
		}
		table.Rows = append(table.Rows, []string{name, grams(s.G * f.RawNeededG / f.RawHaveG), "………… g"})
	}
	return []paper.Block{table}
}

// preparedFacts are what of a lot is prepared for a yarn.
func (m *maker) preparedFacts(f cloth.FleeceNeed, y cloth.Yarn) paper.Facts {
	var out paper.Facts
	for _, part := range y.Parts() {
		if part.Lot != f.Name {
			continue
		}
		for _, figure := range f.Figures {
			if figure.Key == cloth.PreparedKey(y, part) {
				out = append(out, paper.Fact{Label: "Prepare for " + y.Name, Value: grams(figure.Value), From: strings.TrimPrefix(cloth.CoatWords(part.Coat), "the ") + m.prepared(y)})
			}
		}
	}
	return out
}

func (m *maker) hasTask(kind string) bool {
	for _, t := range m.r.Hours.Tasks {
		if strings.HasPrefix(t.Key, kind+":") {
			return true
		}
	}
	return false
}

// prepared says how much of a yarn's fibre is combed and how much is carded.
func (m *maker) prepared(y cloth.Yarn) string {
	out := ""
	for _, how := range []struct{ key, word string }{{"comb", "combed"}, {"card", "carded"}} {
		for _, t := range m.r.Hours.Tasks {
			if t.Key == how.key+":"+y.Name {
				out += fmt.Sprintf(", %s %s", grams(t.Quantity), how.word)
			}
		}
	}
	return out
}
