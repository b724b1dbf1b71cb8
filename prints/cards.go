package prints

import (
	"fmt"
	"slices"
	"strings"

	"ellwand/cautions"
	"ellwand/hours"
	"ellwand/paper"
	"ellwand/plan"
)

// Stages are the names of the work cards, as an option says them.
func Stages() []string {
	var out []string
	for _, s := range stages() {
		out = append(out, s.name)
	}
	return out
}

// stage is one part of the work and its cards: none when the plan asks for no
// such work, one for each yarn when spinning.
type stage struct {
	name  string
	cards func(c *maker) []paper.Sheet
}

func stages() []stage {
	return []stage{
		{"fibre", (*maker).fibre}, {"spinning", (*maker).spinning}, {"dyeing", (*maker).dyeing}, {"warping", (*maker).warping},
		{"sleying", (*maker).sleying}, {"hanging", (*maker).hanging}, {"weaving", (*maker).weaving}, {"finishing", (*maker).finishing},
		{"cutting", (*maker).cutting}, {"sewing", (*maker).sewing},
	}
}

// maker makes the cards of one plan worked out.
type maker struct {
	r    *plan.Result
	u    units
	date string
}

// cardSheets are the work cards, in the order of the work.
func cardSheets(r *plan.Result, o Options) ([]paper.Sheet, error) {
	m := &maker{r, unitsOf(r), o.Date}
	if o.Only != "" && !slices.Contains(Stages(), o.Only) {
		return nil, fmt.Errorf("the stage is %q; accepted is %s", o.Only, strings.Join(Stages(), ", "))
	}
	var out []paper.Sheet
	for _, s := range stages() {
		if o.Only == "" || o.Only == s.name {
			out = append(out, s.cards(m)...)
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("this plan asks for no work of that stage, so there is no card; accepted is another stage, or all of them")
	}
	out[0].Blocks = append(wrongs(r), out[0].Blocks...)
	return out, nil
}

// card is a sheet that keeps to one page.
func (m *maker) card(name, under string, blocks ...paper.Block) paper.Sheet {
	return paper.Sheet{Title: name, Under: title(m.r) + "  ·  " + under, Blocks: blocks, OnePage: true}
}

// time is what the plan's hours say of the tasks whose keys begin so.
func (m *maker) time(keys ...string) paper.Facts {
	var sum hours.Range
	for _, t := range m.r.Hours.Tasks {
		if slices.ContainsFunc(keys, func(k string) bool { return t.Key == k || strings.HasPrefix(t.Key, k+":") }) {
			sum.Low += t.Hours.Low
			sum.Likely += t.Hours.Likely
			sum.High += t.Hours.High
		}
	}
	if sum.Likely == 0 {
		return nil
	}
	return paper.Facts{{Label: "Time", Value: hoursText(sum), From: "rest breaks come on top"}}
}

func hoursText(r hours.Range) string {
	if r.High-r.Low < 0.05 {
		return number(r.Likely, 1) + " h"
	}
	return fmt.Sprintf("%s h likely, %s to %s h", number(r.Likely, 1), number(r.Low, 1), number(r.High, 1))
}

func caution(s cautions.Stage) paper.Block { return paper.Caution(cautions.Of(s)) }

// blocks puts blocks and lists of blocks one after the other, without the empty ones.
func blocks(all ...any) []paper.Block {
	var out []paper.Block
	for _, b := range all {
		switch b := b.(type) {
		case []paper.Block:
			out = append(out, b...)
		case paper.Facts:
			if len(b) > 0 {
				out = append(out, b)
			}
		case paper.Block:
			out = append(out, b)
		}
	}
	return out
}
