package prints

import (
	"fmt"
	"io"
	"math"

	"ellwand/garment"
	"ellwand/geometry"
	"ellwand/paper"
	"ellwand/plan"
)

// straightCM is how far an edge may lean from the warp's way or across it and
// still be chalked by a square.
const straightCM = 0.05

// slanted says that a line from a to b runs neither along the warp nor across.
func slanted(a, b geometry.Point) bool {
	return math.Abs(a.X-b.X) > straightCM && math.Abs(a.Y-b.Y) > straightCM
}

// hardLines are what of a piece is hard to chalk: edges and marks on the slant
// or in a curve, as lines of two points in the piece's own frame.
func hardLines(p plan.PieceResult) [][2]geometry.Point {
	var out [][2]geometry.Point
	add := func(line []geometry.Point, closed bool) {
		for i, a := range line {
			if i+1 == len(line) && !closed {
				break
			}
			if b := line[(i+1)%len(line)]; slanted(a, b) || curveStep(line, i, closed) {
				out = append(out, [2]geometry.Point{a, b})
			}
		}
	}
	add(p.Cut, true)
	for _, m := range p.Piece.Marks {
		if m.Kind != garment.MarkFold {
			add(m.Line, m.Closed)
		}
	}
	return out
}

// curveStep says that the step from point i is part of a curve though it happens
// to run straight along or across: its neighbours are on the slant and short.
func curveStep(line []geometry.Point, i int, closed bool) bool {
	n := len(line)
	if !closed || n < 8 {
		return false
	}
	a, b := line[i], line[(i+1)%n]
	if math.Hypot(b.X-a.X, b.Y-a.Y) > 5 {
		return false
	}
	return slanted(line[(i-1+n)%n], a) && slanted(b, line[(i+2)%n])
}

// FullSizePieces are the names of the pieces that full-size pages are for.
func FullSizePieces(r *plan.Result) []string {
	var out []string
	for _, p := range r.Pieces {
		if len(hardLines(p)) > 0 {
			out = append(out, p.Piece.Name)
		}
	}
	return out
}

func writeFullSize(w io.Writer, r *plan.Result, o Options) error {
	d := paper.New(paper.Options{Paper: o.Paper, Title: title(r), Date: o.Date})
	names := FullSizePieces(r)
	done := false
	for _, p := range r.Pieces {
		if o.Only != "" && p.Piece.Name != o.Only {
			continue
		}
		if len(hardLines(p)) == 0 && o.Only == "" {
			continue
		}
		d.Plate(piecePlate(r, p, o.Only != ""))
		done = true
	}
	switch {
	case !done && o.Only != "":
		var all []string
		for _, p := range r.Pieces {
			all = append(all, p.Piece.Name)
		}
		return fmt.Errorf("there is no piece %q; accepted is %s", o.Only, oneOf(all))
	case !done && len(names) == 0:
		return fmt.Errorf("no piece of this plan has a curve or a slant, so the chalk list is enough; to print one full size nevertheless, name it")
	}
	return d.Write(w)
}

func oneOf(list []string) string {
	out := ""
	for i, s := range list {
		switch {
		case i == 0:
		case i == len(list)-1:
			out += " or "
		default:
			out += ", "
		}
		out += s
	}
	return out
}

// piecePlate is one piece full size: its length down the page, its wrong side
// up, as the cloth is chalked.
func piecePlate(r *plan.Result, p plan.PieceResult, whole bool) paper.Plate {
	const bare = 0.5 // cm round it
	b, u := p.Cut.Bounds(), unitsOf(r)
	at := func(v geometry.Point) geometry.Point {
		return geometry.Point{X: v.Y - b.MinY + bare, Y: b.MaxX - v.X + bare}
	}
	hard := hardLines(p)
	plate := paper.Plate{
		Title: p.Piece.Name, Scale: "full size",
		WideCM: b.Height() + 2*bare, HighCM: b.Width() + 2*bare,
		About: []string{fmt.Sprintf("%s. Cut out it is %s × %s. Solid line: cut here; dashed: the seam or fold. The printed side lies as the cloth is chalked, wrong side up.", copies(p.Piece), u.length(b.Width()), u.length(b.Height()))},
		Draw:  func(c *paper.Canvas) { drawPiece(c, p, at) },
		Place: func(part geometry.Rect) string {
			return fmt.Sprintf("%s to %s across, %s to %s down the piece, as cut", u.bare(part.MinX-bare), u.bare(part.MaxX-bare), u.bare(part.MinY-bare), u.length(part.MaxY-bare))
		},
	}
	if !whole && len(hard) > 0 {
		plate.About = append(plate.About, "Only sheets with a curve or a slant are printed; the rest is chalked by the chalk list.")
		plate.Wanted = func(part geometry.Rect) bool {
			for _, l := range hard {
				if part.Crosses(at(l[0]), at(l[1])) {
					return true
				}
			}
			return false
		}
	}
	return plate
}

func copies(p garment.Piece) string {
	out := fmt.Sprintf("Cut %d", p.Copies)
	if p.Mirrored && p.Copies > 1 {
		out += fmt.Sprintf(", %d of them turned over", p.Copies/2)
	}
	return out
}

func drawPiece(c *paper.Canvas, p plan.PieceResult, at func(geometry.Point) geometry.Point) {
	on := func(line []geometry.Point) geometry.Polygon {
		out := make(geometry.Polygon, len(line))
		for i, v := range line {
			out[i] = at(v)
		}
		return out
	}
	cut := on(p.Cut)
	c.Stroke(on(p.Piece.Outline), true, paper.Line{Width: 0.03, Dash: 0.4, Gap: 0.25, Colour: paper.Faint})
	c.Stroke(cut, true, paper.Line{Width: 0.06, Colour: paper.Ink})
	for _, m := range p.Piece.Marks {
		line := paper.Line{Width: 0.04, Colour: paper.Ink}
		if m.Kind != garment.MarkCut {
			line.Dash, line.Gap = 0.15, 0.15
		}
		c.Stroke(on(m.Line), m.Closed, line)
	}
	grainArrow(c, p, cut)
}

// grainArrow shows the warp's way in the piece's middle, with its name.
func grainArrow(c *paper.Canvas, p plan.PieceResult, cut geometry.Polygon) {
	mid, b := cut.Centroid(), cut.Bounds()
	line := paper.Line{Width: 0.04, Colour: paper.Ink}
	long := min(6, b.Height()*0.3)
	if p.Piece.Grain == garment.GrainWeft {
		long = min(6, b.Width()*0.3)
		c.Segment(mid.X-long/2, mid.Y, mid.X+long/2, mid.Y, line)
		c.Fill([]geometry.Point{{X: mid.X + long/2, Y: mid.Y}, {X: mid.X + long/2 - 0.5, Y: mid.Y - 0.18}, {X: mid.X + long/2 - 0.5, Y: mid.Y + 0.18}}, paper.Ink)
	} else {
		c.Segment(mid.X, mid.Y-long/2, mid.X, mid.Y+long/2, line)
		c.Fill([]geometry.Point{{X: mid.X, Y: mid.Y - long/2}, {X: mid.X - 0.18, Y: mid.Y - long/2 + 0.5}, {X: mid.X + 0.18, Y: mid.Y - long/2 + 0.5}}, paper.Ink)
	}
	for size := 14.0; size >= 6; size-- {
		if w := c.TextWidth(p.Piece.Name, size, true); w < b.Width()*0.4 || size == 6 {
			c.Text(p.Piece.Name, mid.X+0.4, mid.Y+0.2, size, true, paper.Ink)
			break
		}
	}
}
