package prints

import (
	"fmt"
	"math"
	"strings"

	"ellwand/geometry"
	"ellwand/layout/drawing"
	"ellwand/paper"
	"ellwand/plan"
)

// chalkSheets are the chalk list: for every piece in cutting order where it
// begins and ends, and every corner of one that is no rectangle along the warp.
func chalkSheets(r *plan.Result, o Options) []paper.Sheet {
	s, u := r.Sheet(o.Date), unitsOf(r)
	table := paper.Table{Head: []string{"", "piece", "along", "across", "corners to chalk, along | across"}, Figures: []bool{true}}
	for _, p := range drawing.InCuttingOrder(s.Pieces) {
		b := p.Cut.Bounds()
		table.Rows = append(table.Rows, []string{fmt.Sprint(p.Number), pieceName(p), along(s, b, u),
			u.bare(b.MinY) + " – " + u.bare(b.MaxY), corners(s, p.Cut, u)})
	}
	sheet := paper.Sheet{Title: "Chalk list", Under: fmt.Sprintf("%s  ·  cloth %s × %s, in the order of cutting", title(r), u.length(r.ClothCM()), u.length(s.WidthCM)),
		Blocks: append(wrongs(r),
			paper.Text(fmt.Sprintf("Distances in %s: along from the first cut end, across from %s. Chalk every piece before cutting any.", unitWord(u), acrossFrom(r, u))),
			table)}
	for _, n := range pieceNotes(r) {
		sheet.Blocks = append(sheet.Blocks, paper.Note(n))
	}
	return []paper.Sheet{sheet}
}

// acrossFrom is the line that distances across the cloth are taken from: the left
// selvedge, or where that was measured to wander a straight line beside it.
func acrossFrom(r *plan.Result, u units) string {
	var at []string
	real, wanders := r.Plan().Real, false
	for _, w := range real.Widths {
		on := ""
		if len(real.Lengths) > 1 && w.On != "" {
			on = " of " + w.On
		}
		at = append(at, fmt.Sprintf("%s at %s%s", u.bare(w.LeftCM), u.bare(w.AtCM), on))
		wanders = wanders || w.LeftCM > 0
	}
	if !wanders {
		return "the left selvedge"
	}
	return "a straight line at the left, which the edge of the cloth lies in from by " + strings.Join(at, ", ") + " along the cloth"
}

// corners are a piece's corners as places on the cloth, "a rectangle" for one,
// and at most so many of a curve.
func corners(s drawing.Sheet, cut geometry.Polygon, u units) string {
	from, _ := s.Start(cut.Bounds().MinX)
	points, curved := drawing.Corners(cut)
	if len(points) == 4 && !curved && upright(points) {
		return "a rectangle"
	}
	var parts []string
	for _, v := range points {
		parts = append(parts, u.bare(v.X-from)+"\u00a0|\u00a0"+u.bare(v.Y))
	}
	out := strings.Join(parts, ", ")
	if curved {
		out += ";  a curve between the points: chalk round the full-size page"
	}
	return out
}

// upright says that all edges run along the warp or across it.
func upright(p geometry.Polygon) bool {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if math.Abs(a.X-b.X) > 0.05 && math.Abs(a.Y-b.Y) > 0.05 {
			return false
		}
	}
	return true
}

// reckoningSheets are the printed reckoning, as the command line gives it: heads
// at the margin, figures set in, and set in further what each comes from.
func reckoningSheets(r *plan.Result) []paper.Sheet {
	s := paper.Sheet{Title: "Reckoning", Under: title(r)}
	for _, line := range strings.Split(r.Text(r.Plan().ShowUnits), "\n") {
		text := strings.TrimSpace(line)
		last := len(s.Blocks) - 1
		switch {
		case text == "" || strings.Trim(text, "=") == "":
		case !strings.HasPrefix(line, " "):
			s.Blocks = append(s.Blocks, paper.Heading(text))
		case strings.HasPrefix(line, "      ") && last >= 0:
			if l, ok := s.Blocks[last].(paper.Listed); ok {
				l.From = strings.TrimSpace(l.From + "\n" + text)
				s.Blocks[last] = l
			}
		default:
			s.Blocks = append(s.Blocks, paper.Listed{Line: text})
		}
	}
	if len(s.Blocks) > 0 && r.Plan().Title != "" {
		s.Blocks = s.Blocks[1:] // the title, which stands over the sheet already
	}
	return []paper.Sheet{s}
}
