package prints

import (
	"fmt"
	"math"
	"strings"

	"ellwand/cautions"
	"ellwand/garment"
	"ellwand/geometry"
	"ellwand/layout/drawing"
	"ellwand/paper"
	"ellwand/plan"
)

type drawingPiece = drawing.Piece

// cutting is the card to cut by: the cloth small, and the pieces in order.
func (m *maker) cutting() []paper.Sheet {
	s, u := m.r.Sheet(m.date), m.u
	table := paper.Table{Head: []string{"", "piece", "along", "across", "length × width"}, Figures: []bool{true}}
	for _, p := range drawing.InCuttingOrder(s.Pieces) {
		b := p.Cut.Bounds()
		table.Rows = append(table.Rows, []string{fmt.Sprint(p.Number), pieceName(p), along(s, b, u), u.bare(b.MinY) + " – " + u.bare(b.MaxY), u.bare(b.Width()) + " × " + u.bare(b.Height())})
	}
	all := []any{caution(cautions.Cutting),
		paper.Facts{{Label: "Cloth", Value: fmt.Sprintf("%s × %s", u.length(m.r.ClothCM()), u.length(s.WidthCM)), From: "measure it before the first cut; if it is smaller, work the lay out anew"}},
		stripFigure(s),
		paper.Note(fmt.Sprintf("In %s: along from the first cut end, across from the left selvedge, in the order of cutting. Chalk every piece before cutting any.", unitWord(u))), table}
	for _, n := range pieceNotes(m.r) {
		all = append(all, paper.Note(n))
	}
	return []paper.Sheet{m.card("Cutting", counted(len(s.Pieces), "piece", "pieces")+" in order", blocks(all...)...)}
}

// along is where a piece begins and ends along its length of cloth.
func along(s drawing.Sheet, b geometry.Rect, u units) string {
	from, on := s.Start(b.MinX)
	text := u.bare(b.MinX-from) + " – " + u.bare(b.MaxX-from)
	if on != "" {
		text = on + ": " + text
	}
	return text
}

func unitWord(u units) string {
	if u.inch {
		return "inches"
	}
	return "cm"
}

func pieceName(p drawing.Piece) string {
	name := p.Title(true)
	if p.TurnedOver {
		name += " (turned over)"
	}
	return name
}

func pieceNotes(r *plan.Result) []string {
	var out []string
	for i, p := range r.Pieces {
		if note := r.NoteOn(i); note != "" {
			out = append(out, note)
		}
		for _, k := range p.Piece.Marks {
			if k.Kind == garment.MarkCut {
				out = append(out, fmt.Sprintf("%s: cut inside it along %s, after its outline.", p.Piece.Name, k.Name))
			}
		}
	}
	return out
}

// stripFigure is the cloth over the card's width, with numbered pieces.
func stripFigure(s drawing.Sheet) paper.Block {
	const wide = 17.5
	scale := min(wide/s.LengthCM, 7/s.WidthCM)
	return paper.Figure{HighCM: s.WidthCM*scale + 0.3, Draw: func(c *paper.Canvas, _ float64) {
		at := func(line []geometry.Point) []geometry.Point {
			out := make([]geometry.Point, len(line))
			for i, v := range line {
				out[i] = geometry.Point{X: v.X * scale, Y: 0.1 + v.Y*scale}
			}
			return out
		}
		whole := paper.Rect(0, 0.1, s.LengthCM*scale, s.WidthCM*scale)
		c.Fill(whole, paper.Rule)
		for _, p := range s.Pieces {
			c.Fill(at(p.Cut), paper.Tint)
			c.Stroke(at(p.Cut), true, paper.Line{Width: 0.025, Colour: paper.Ink})
			for _, k := range p.Marks {
				c.Stroke(at(k), false, paper.Line{Width: 0.015, Colour: paper.Ink})
			}
		}
		c.Stroke(whole, true, paper.Line{Width: 0.04, Colour: paper.Ink})
		for _, p := range s.Pieces {
			numberOn(c, fmt.Sprint(p.Number), at(p.Cut))
		}
	}}
}

// numberOn writes a piece's number in its middle, as large as the piece lets it
// be, and not at all where it would be too small to read.
func numberOn(c *paper.Canvas, text string, shape geometry.Polygon) {
	mid := shape.Centroid()
	for size := 10.0; size >= 4; size -= 0.5 {
		w, h := c.TextWidth(text, size, true), c.TextHeight(size)
		if geometry.Contains(shape, paper.Rect(mid.X-w/2, mid.Y-h/2, w, h)) {
			c.Text(text, mid.X-w/2, mid.Y-h/2, size, true, paper.Ink)
			return
		}
	}
}

// sewing is the card of seams and hems in order, with their lengths.
func (m *maker) sewing() []paper.Sheet {
	u, h := m.u, m.r.Plan().Hours
	seams, hems := 0.0, 0.0
	var order paper.Order
	for _, s := range m.r.Sewing() {
		for _, l := range s.Lines {
			if l.Hem {
				hems += l.CM * float64(l.Times)
			} else {
				seams += l.CM * float64(l.Times)
			}
		}
		order = append(order, m.sewn(s, h.MachineShare))
	}
	facts := paper.Facts{
		{Label: "Seams", Value: u.far(seams / 100), From: seamWork(h.FellPasses)},
		{Label: "Hems", Value: u.far(hems / 100)},
		{Label: "Stitch", Value: fmt.Sprintf("%s, %s mm", h.Stitch, number(h.StitchMM, 1)), From: fmt.Sprintf("%s stitches to 10 cm", number(100/h.StitchMM, 0))},
		{Label: "Sewing thread, about", Value: u.far(math.Ceil((seams*(2+3*float64(h.FellPasses)) + hems*3) / 100)), From: "twice the length of a running seam, three times that of a felled edge or a hem: from memory"},
	}
	under := "in order"
	if d := m.r.Garment.Draft; d != "" {
		under = strings.ReplaceAll(d, "_", " ") + ", in order"
	}
	return []paper.Sheet{m.card("Sewing", under, blocks(facts, m.time("join", "fell", "hem"), order, caution(cautions.LongWork))...)}
}

// sewn is a step of the order: its lines with their lengths, and by what they are
// sewn where that is not alike.
func (m *maker) sewn(s garment.Step, machineShare float64) paper.Step {
	alike := true
	for _, l := range s.Lines {
		alike = alike && howSewn(l, machineShare) == howSewn(s.Lines[0], machineShare)
	}
	head := fmt.Sprintf("%s: %s", s.What, m.u.length(s.TotalCM()))
	if alike {
		head += ", " + howSewn(s.Lines[0], machineShare)
	}
	var parts []string
	for _, l := range s.Lines {
		text := l.Name + "\u00a0" + strings.ReplaceAll(m.u.length(l.CM), " ", "\u00a0")
		if l.Times > 1 {
			text += fmt.Sprintf("\u00a0×\u00a0%d", l.Times)
		}
		if !alike {
			text += ", " + howSewn(l, machineShare)
		}
		parts = append(parts, text)
	}
	return paper.Step{Head: head, Text: strings.Join(parts, ";  ")}
}

// howSewn says by what a line is sewn: what shows, and every hem, by hand.
func howSewn(l garment.StepLine, machineShare float64) string {
	switch {
	case l.Hem:
		return "hemmed by hand"
	case l.Shows:
		return "by hand, shows"
	case machineShare >= 1:
		return "by machine"
	case machineShare > 0:
		return "by hand or machine"
	}
	return "by hand"
}

func seamWork(passes int) string {
	switch passes {
	case 0:
		return "allowances left open"
	case 1:
		return "each felled once, one allowance over the other"
	}
	return "each felled twice, every allowance to its own side"
}
