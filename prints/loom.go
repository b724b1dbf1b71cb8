package prints

import (
	"fmt"
	"slices"
	"strings"

	"ellwand/cautions"
	"ellwand/cloth"
	"ellwand/paper"
)

// aboutEnds is how many ends a bout has, about: what one hand holds (common
// practice).
const aboutEnds = 40

// bout is one handful of ends of the warp, with its yarns in their order.
type bout struct {
	from, to int // ends, from 1
	yarns    []cloth.Stripe
}

// bouts parts the order of the ends of one warp into bouts: of as many ends as
// fill whole dent orders.
func bouts(stripes []cloth.Stripe, order []int) []bout {
	repeat := 0
	for _, n := range order {
		repeat += n
	}
	size := aboutEnds
	if repeat > 0 {
		size = max(1, aboutEnds/repeat) * repeat
	}
	var out []bout
	at, room := 1, 0
	for _, s := range stripes {
		for left := s.Threads; left > 0; {
			if room == 0 {
				out, room = append(out, bout{from: at, to: at - 1}), size
			}
			n := min(left, room)
			last := &out[len(out)-1]
			last.to += n
			last.yarns = append(last.yarns, cloth.Stripe{Yarn: s.Yarn, Threads: n})
			at, room, left = at+n, room-n, left-n
		}
	}
	return out
}

// eachWarpM is the length of each end of one warp.
func (m *maker) eachWarpM() float64 {
	return m.r.Reckoning.WarpLengthCM / 100 / float64(max(1, m.r.Reckoning.Warps))
}

func (m *maker) warping() []paper.Sheet {
	r, u, p := m.r.Reckoning, m.u, m.r.Plan()
	parts := bouts(r.WarpStripes, r.DentOrder)
	waste, _ := p.Loom.LoomWasteCM()
	facts := paper.Facts{
		{Label: "Length of each end", Value: u.far(m.eachWarpM()), From: fmt.Sprintf("cloth, samples, headings and %s of loom waste", u.length(waste))},
		{Label: "Ends", Value: fmt.Sprintf("%d in %s", r.Ends, counted(len(parts), "bout", "bouts"))},
	}
	var names []string
	for _, n := range r.Yarns {
		if n.WarpM > 0 {
			facts = append(facts, paper.Fact{Label: "Warp of " + n.Name, Value: u.far(n.WarpM), From: fmt.Sprintf("%d ends", n.Ends)})
			names = append(names, n.Name)
		}
	}
	if r.Warps > 1 {
		facts = append(facts, paper.Fact{Label: "Warps", Value: fmt.Sprint(r.Warps), From: "each wound like this one; their lengths may differ as the lay says, the one given is the mean"})
	}
	table := paper.Table{Head: []string{"bout", "ends", "from end", "to end", "yarn, in order"}, Figures: []bool{true, true, true, true}}
	for i, b := range parts {
		yarns := b.yarns[0].Yarn
		if len(b.yarns) > 1 {
			yarns = cloth.StripesText(b.yarns)
		}
		table.Rows = append(table.Rows, []string{fmt.Sprint(i + 1), fmt.Sprint(b.to - b.from + 1), fmt.Sprint(b.from), fmt.Sprint(b.to), yarns})
	}
	return []paper.Sheet{m.card("Warping", strings.Join(names, ", "), blocks(facts, m.time("wind"), paper.Heading("Ends by bout, from the left selvedge"),
		paper.Note("Wind each bout at one tension, tie its cross before it leaves the pegs, and chain it."), table, caution(cautions.LongWork))...)}
}

func orderText(order []int) string {
	var parts []string
	for _, n := range order {
		parts = append(parts, fmt.Sprint(n))
	}
	return strings.Join(parts, "-")
}

// fill is how many ends go in each dent: the order, with the extra ends one by
// one in the outermost dents, left and right in turn.
func fill(dents, extra int, order []int) []int {
	out := make([]int, dents)
	for i := range out {
		if len(order) > 0 {
			out[i] = order[i%len(order)]
		}
	}
	for i := range extra {
		if dents == 0 {
			break
		}
		at := i / 2 % dents
		if i%2 == 1 {
			at = dents - 1 - at
		}
		out[at]++
	}
	return out
}

// run is a stretch of dents filled alike: by one number, or in the order.
type run struct {
	from, to int // from 1
	how      string
	ends     int
}

// runs are the stretches from the left: selvedges apart, the rest in order.
func runs(filled []int, extra int, order []int) []run {
	left, right := (extra+1)/2, extra/2
	left, right = min(left, len(filled)), min(right, len(filled))
	if left+right > len(filled) {
		left, right = len(filled), 0
	}
	sum := func(a, b int) (n int) {
		for _, v := range filled[a:b] {
			n += v
		}
		return n
	}
	list := func(a, b int) string { return orderText(filled[a:b]) }
	var out []run
	add := func(a, b int, how string) {
		if a < b {
			out = append(out, run{a + 1, b, how, sum(a, b)})
		}
	}
	add(0, left, list(0, left)+" (selvedge)")
	add(left, len(filled)-right, orderText(rotated(order, left))+", over and over")
	add(len(filled)-right, len(filled), list(len(filled)-right, len(filled))+" (selvedge)")
	return out
}

// rotated is the order as it goes on after so many dents.
func rotated(order []int, by int) []int {
	if len(order) == 0 {
		return nil
	}
	k := by % len(order)
	return append(slices.Clone(order[k:]), order[:k]...)
}

func (m *maker) sleying() []paper.Sheet {
	p, r, u := m.r.Plan(), m.r.Reckoning, m.u
	if len(r.Sleys) == 0 {
		return m.spacing() // a loom without a reed
	}
	extra := p.Cloth.SelvedgeExtraEnds
	filled := fill(r.Dents, extra, r.DentOrder)
	facts := paper.Facts{
		{Label: "Reed", Value: number(r.ReedDentsPer10CM, 2) + " dents per 10 cm"},
		{Label: "Dent order", Value: orderText(r.DentOrder), From: fmt.Sprintf("that is %s in the reed", u.perLength(r.EndsPerCMOnLoom))},
		{Label: "Dents", Value: fmt.Sprint(r.Dents), From: fmt.Sprintf("begin %s from the middle of the reed", u.length(r.ReedWidthCM/2))},
		{Label: "Width in the reed", Value: u.length(r.ReedWidthCM)},
		{Label: "Ends", Value: fmt.Sprint(r.Ends), From: fmt.Sprintf("%d of them double the selvedges", extra)},
	}
	table := paper.Table{Head: []string{"from dent", "to dent", "ends in each dent", "ends"}, Figures: []bool{true, true, false, true}}
	for _, s := range runs(filled, extra, r.DentOrder) {
		table.Rows = append(table.Rows, []string{fmt.Sprint(s.from), fmt.Sprint(s.to), s.how, fmt.Sprint(s.ends)})
	}
	steps := paper.Steps{
		"Mark the middle of the reed, and the first dent as far to the left of it as said above.",
		"Sley from the left in the order of the table; count the ends again every 10 dents.",
		"Tie on at one tension and weave a few picks of waste: a crossed or missing end shows now.",
	}
	return []paper.Sheet{m.card("Sleying", p.Loom.Name, blocks(facts, m.time("thread", "sley", "beam"), table,
		paper.Heading("The first dents from the left, true to scale"), reedFigure(filled, r.ReedDentsPer10CM), steps)...)}
}

// reedFigure shows the first dents of the reed at 1 : 1, a dot for each end.
func reedFigure(filled []int, dentsPer10CM float64) paper.Block {
	return paper.Figure{HighCM: 2.2, Draw: func(c *paper.Canvas, wide float64) {
		pitch := 10 / dentsPer10CM
		n := min(len(filled), int(min(wide, 16)/pitch))
		dot := min(0.09, pitch*0.35)
		for i := range n + 1 {
			c.Segment(float64(i)*pitch, 0.1, float64(i)*pitch, 1.2, paper.Line{Width: 0.02, Colour: paper.Faint})
		}
		for i := range n {
			for k := range filled[i] {
				x, y := (float64(i)+0.5)*pitch, 0.25+float64(k)*0.22
				c.Fill(paper.Rect(x-dot, y-dot, 2*dot, 2*dot), paper.Ink)
			}
		}
		c.Segment(0, 1.45, float64(n)*pitch, 1.45, paper.Line{Width: 0.02, Colour: paper.Ink})
		for cm := 0; float64(cm) <= float64(n)*pitch; cm++ {
			c.Segment(float64(cm), 1.35, float64(cm), 1.55, paper.Line{Width: 0.02, Colour: paper.Ink})
		}
		c.Text("the rule below is in cm", 0, 1.65, 8.5, false, paper.Faint)
	}}
}

// spacing is the card for a loom without a reed.
func (m *maker) spacing() []paper.Sheet {
	r, u := m.r.Reckoning, m.u
	facts := paper.Facts{
		{Label: "Ends", Value: fmt.Sprint(r.Ends)},
		{Label: "Width of the warp", Value: u.length(r.ReedWidthCM)},
		{Label: "Spacing", Value: u.perLength(r.EndsPerCMOnLoom), From: fmt.Sprintf("%s in 10 cm, spaced by the starting border or a spacing cord", number(r.EndsPerCMOnLoom*10, 1))},
	}
	return []paper.Sheet{m.card("Spacing the ends", m.r.Plan().Loom.Name, blocks(facts, m.time("thread", "sley", "beam"),
		paper.Steps{"Mark every 10 cm on the beam and count the ends between two marks.", "Chain a spacing cord behind the sheds, and count again.", "Weave a few picks and measure the width: it is to be as above."})...)}
}

// hanging is the card for the weights of a warp-weighted loom.
func (m *maker) hanging() []paper.Sheet {
	h := m.r.Reckoning.Hanging
	if h == nil {
		return nil
	}
	var facts paper.Facts
	for _, f := range h.Figures {
		value := number(f.Value, 2)
		if f.Unit == "cm" {
			value = m.u.length(f.Value)
		} else if f.Unit != "" {
			value += " " + f.Unit
		}
		facts = append(facts, paper.Fact{Label: f.Label, Value: value, From: f.From})
	}
	all := []any{caution(cautions.WarpWeighted), facts}
	for _, remark := range h.Remarks {
		all = append(all, paper.Text(remark))
	}
	return []paper.Sheet{m.card("Hanging the weights", m.r.Plan().Loom.Name, blocks(all...)...)}
}
