package prints

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/cautions"
	"ellwand/cloth"
	"ellwand/hours"
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

// draft is the plan's interlacing; nil when it names none that is known.
func (m *maker) draft() cloth.Draft {
	s := m.r.Plan().Cloth
	if len(s.Draft) > 0 {
		d, err := cloth.ParseDraft(s.Draft)
		if err != nil {
			return nil
		}
		return d
	}
	w, ok := cloth.WeaveByName(s.Weave)
	if !ok {
		return nil
	}
	return w.Draft
}

// mostShafts is the most shafts that sheds are told in; beyond it the picture of
// the draft has to do.
const mostShafts = 8

// sheds are the shafts raised pick by pick, ends that are woven alike being on
// one shaft, counted in the order in which they come; "" for too many shafts.
func sheds(d cloth.Draft) (lifts, drawnIn string) {
	var shafts [][]bool
	var in []string
	for e := range len(d[0]) {
		column := make([]bool, len(d))
		for p := range d {
			column[p] = d[p][e]
		}
		at := slices.IndexFunc(shafts, func(o []bool) bool { return slices.Equal(o, column) })
		if at < 0 {
			at, shafts = len(shafts), append(shafts, column)
		}
		in = append(in, fmt.Sprint(at+1))
	}
	if len(shafts) > mostShafts {
		return "", ""
	}
	var picks []string
	for p := range d {
		var up []string
		for i, s := range shafts {
			if s[p] {
				up = append(up, fmt.Sprint(i+1))
			}
		}
		picks = append(picks, strings.Join(up, "+"))
	}
	return strings.Join(picks, " · "), strings.Join(in, "-")
}

// draftFigure is the interlacing: dark where the warp lies over the weft, the
// first pick below.
func draftFigure(d cloth.Draft) paper.Block {
	cell := min(0.32, 16.0/float64(len(d[0])), 6/float64(len(d)))
	times := max(1, min(3, int(2.6/(cell*float64(len(d))))))
	high := cell * float64(len(d)*times)
	return paper.Figure{HighCM: high + 0.1, Draw: func(c *paper.Canvas, _ float64) {
		across := max(1, min(6, int(16/(cell*float64(len(d[0]))))))
		for p := range len(d) * times {
			for e := range len(d[0]) * across {
				square := paper.Rect(float64(e)*cell, high-float64(p+1)*cell, cell, cell)
				if d[p%len(d)][e%len(d[0])] {
					c.Fill(square, paper.Ink)
				}
				c.Stroke(square, true, paper.Line{Width: 0.01, Colour: paper.Rule})
			}
		}
	}}
}

// mark is a place to weave to, in cm of finished cloth from its first pick.
type mark struct {
	finishedCM float64
	what       string
}

// stretch is a length of cloth that is woven by itself: all of it, or what the
// lay takes of one of several warps.
type stretch struct {
	name             string
	fromCM, lengthCM float64 // finished, on the strip of the lay
}

// stretches are the lengths that are woven.
func (m *maker) stretches() []stretch {
	s := m.r.Sheet("")
	if len(s.Lengths) == 0 {
		return []stretch{{"", 0, m.r.Reckoning.FinishedLengthCM}}
	}
	var out []stretch
	for _, l := range s.Lengths {
		used := l.ToCM - l.FromCM
		for _, u := range m.r.Lengths {
			if u.Name == l.Name {
				used = u.UsedCM
			}
		}
		if used > 0 {
			out = append(out, stretch{l.Name, l.FromCM, used})
		}
	}
	return out
}

// marks are every 50 cm (20 in) under tension, every place where the cloth is cut
// across, and the end of a stretch. tension is cm under tension for one finished.
func (m *maker) marks(at stretch, tension float64) []mark {
	var out []mark
	step := m.u.tape()
	for at.lengthCM*tension/step > 40 {
		step *= 2
	}
	for cm := step; cm < at.lengthCM*tension-1; cm += step {
		out = append(out, mark{cm / tension, "mark the selvedge"})
	}
	if at.name == "" {
		out = append(out, m.colourChanges(tension)...)
	}
	for _, x := range m.cuts() {
		if x -= at.fromCM; x > 0.05 && x < at.lengthCM-0.05 {
			out = append(out, mark{x, "a cut across: beat the next pick as any other"})
		}
	}
	out = append(out, mark{at.lengthCM, "end of the cloth"})
	slices.SortStableFunc(out, func(a, b mark) int { return cmp.Compare(a.finishedCM, b.finishedCM) })
	return out
}

// mostChanges is the most changes of the weft's yarn that the card lists one by
// one; beyond it the order alone is told.
const mostChanges = 40

// colourChanges are where the weft changes its yarn.
func (m *maker) colourChanges(tension float64) []mark {
	r := m.r.Reckoning
	if len(r.WeftStripes) < 2 || len(r.WeftStripes) > mostChanges || r.PicksPerCMOnLoom <= 0 {
		return nil
	}
	var out []mark
	picks := 0
	for i, s := range r.WeftStripes {
		if i > 0 {
			out = append(out, mark{float64(picks) / r.PicksPerCMOnLoom / tension, fmt.Sprintf("after pick %d: change to %s, %d picks", picks, s.Yarn, s.Threads)})
		}
		picks += s.Threads
	}
	return out
}

// cuts are the places along the cloth at which it can be cut right across,
// going through no piece.
func (m *maker) cuts() []float64 {
	pieces := m.r.Sheet("").Pieces
	var out []float64
	for _, p := range pieces {
		x := p.Cut.Bounds().MaxX
		through := slices.ContainsFunc(pieces, func(q drawingPiece) bool {
			b := q.Cut.Bounds()
			return b.MinX < x-0.05 && b.MaxX > x+0.05
		})
		same := slices.ContainsFunc(out, func(o float64) bool { return math.Abs(o-x) < 0.5 })
		if !through && !same {
			out = append(out, x)
		}
	}
	return out
}

func (m *maker) weaving() []paper.Sheet {
	p, r, u := m.r.Plan(), m.r.Reckoning, m.u
	tension := r.WovenLengthCM / r.FinishedLengthCM
	facts := paper.Facts{
		{Label: "Picks, under tension", Value: u.perLength(r.PicksPerCMOnLoom), From: fmt.Sprintf("%s picks in 5 cm; finished they will be %s", number(r.PicksPerCMOnLoom*5, 1), u.perLength(r.PicksPerCMFinished))},
		{Label: "Weave to", Value: u.length(r.WovenLengthCM) + " under tension", From: fmt.Sprintf("%d picks; %s finished", r.Picks, u.length(r.FinishedLengthCM))},
		{Label: "Width", Value: u.length(r.ReedWidthCM) + map[bool]string{true: " in the reed", false: " across the warp"}[len(r.Sleys) > 0], From: fmt.Sprintf("%s off the loom: if it draws in more, leave more weft in each shed", u.length(r.OffLoomWidthCM))},
	}
	for _, n := range r.Yarns {
		if n.WeftM > 0 {
			facts = append(facts, paper.Fact{Label: "Weft of " + n.Name, Value: u.far(n.WeftM), From: fmt.Sprintf("%d picks", n.Picks)})
		}
	}
	if len(p.Cloth.WeftOrder) > 0 {
		facts = append(facts, paper.Fact{Label: "Order of the weft", Value: cloth.StripesText(p.Cloth.WeftOrder), From: "picks, over and over"})
	}
	draft := m.draft()
	if draft != nil {
		if lifts, in := sheds(draft); lifts != "" {
			facts = append(facts, paper.Fact{Label: "Raise", Value: lifts, From: "shafts, over and over; ends drawn in " + in})
		}
	}
	table := paper.Table{Head: []string{"woven, under tension", "that is finished", ""}, Figures: []bool{true, true}}
	table.Strong = map[int]bool{}
	for _, at := range m.stretches() {
		if at.name != "" {
			table.Strong[len(table.Rows)] = true
			table.Rows = append(table.Rows, []string{"", "", at.name})
		}
		for _, k := range m.marks(at, tension) {
			table.Rows = append(table.Rows, []string{u.length(k.finishedCM * tension), u.length(k.finishedCM), k.what})
		}
	}
	before := "Measure under tension, from the first pick of the cloth"
	if h := p.Cloth.HeadingCM + p.Cloth.SampleCM; h > 0 {
		before += fmt.Sprintf(", after %s of heading and %s of sample", u.length(p.Cloth.HeadingCM), u.length(p.Cloth.SampleCM))
	}
	before += "; a tape pinned along the selvedge does not slip when the cloth is wound on."
	if r.Warps > 1 {
		before += fmt.Sprintf(" The cloth is woven on %d warps, each measured from its own first pick.", r.Warps)
	}
	all := []any{facts}
	if draft != nil {
		all = append(all, paper.Note("Dark: the warp lies over the weft; the first pick is the lowest row."), draftFigure(draft))
	}
	all = append(all, m.time("weave"), paper.Heading("Weave to"), paper.Note(before), table, caution(cautions.LongWork))
	if p.Hours.Weaving == hours.ToolWarpWeighted || p.Loom.Kind == cloth.WarpWeighted {
		all = append(all, caution(cautions.WarpWeighted))
	}
	return []paper.Sheet{m.card("Weaving", p.Cloth.Weave, blocks(all...)...)}
}
