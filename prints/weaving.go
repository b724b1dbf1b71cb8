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
