package garment

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/geometry"
)

// PiecingEdge is the name of the edges at which a piece cut in two is joined; at
// further lines it has their number, "piecing 2".
const PiecingEdge = "piecing"

// PartName is what a part of a pieced piece is called, from 1.
func PartName(piece string, part int) string { return fmt.Sprintf("%s part %d", piece, part) }

// PiecingSeam is the name of the seam that joins a part to the next, from 1.
func PiecingSeam(piece string, line int) string {
	return piece + ", " + numbered(piecedWord, line)
}

// piecedWord tells piecing seams from all others.
const piecedWord = "pieced"

func numbered(word string, line int) string {
	if line == 1 {
		return word
	}
	return fmt.Sprintf("%s %d", word, line)
}

// PieceApart cuts a piece along straight lines in its own frame, along its
// length at each y = atCM or across it at each x = atCM, the least first, and
// joins each part to the next by a seam; every other seam is shared out between
// them. An error says what stands in the way: a mark that a line would cut
// through, or an outline that it cuts more than twice.
func PieceApart(g Garment, name string, along bool, atCM []float64) (Garment, error) {
	if err := mayBePieced(g, name); err != nil {
		return Garment{}, err
	}
	return cutAt(g, name, name, along, atCM, 1, func(k int) string { return PartName(name, k) })
}

func mayBePieced(g Garment, name string) error {
	p, ok := g.Piece(name)
	if !ok {
		return fmt.Errorf("there is no piece %q", name)
	}
	for _, e := range p.Edges {
		if e.Name == PiecingEdge {
			return fmt.Errorf("piece %q is pieced already", name)
		}
	}
	return nil
}

// cutAt cuts what is left of the whole piece by the name of rest at each of the
// lines, which are numbered from first on; called names the parts, from 1.
func cutAt(g Garment, whole, rest string, along bool, atCM []float64, first int, called func(k int) string) (Garment, error) {
	for k, at := range atCM {
		c := &cutInTwo{piece: whole, names: [2]string{called(k + 1), called(k + 2)}, edge: numbered(PiecingEdge, first+k), along: along, at: at}
		var err error
		if g, err = c.apply(g, rest, PiecingSeam(whole, first+k)); err != nil {
			return Garment{}, err
		}
		rest = c.names[1]
	}
	return g, nil
}

// WithJoins is a garment with marks on each piece where apart, the garment with
// some of its pieces cut, has it joined of parts.
func WithJoins(whole, apart Garment) Garment {
	out := whole
	out.Pieces = slices.Clone(whole.Pieces)
	for i := range out.Pieces {
		p := &out.Pieces[i]
		for k := 1; ; k++ {
			part, ok := apart.Piece(PartName(p.Name, k))
			if !ok {
				break
			}
			p.Marks = append(slices.Clone(p.Marks), joins(part, p.Name)...)
		}
	}
	return out
}

// joins are marks where a part is joined to those after it: each piecing edge that
// has the part on the side from which its line is numbered, below or before it.
func joins(part Piece, whole string) []Mark {
	var out []Mark
	mid := part.Outline.Centroid()
	for j, e := range part.Edges {
		a, b := part.Outline[j], part.Outline[(j+1)%len(part.Outline)]
		line, found := strings.CutPrefix(e.Name, PiecingEdge)
		along := math.Abs(a.Y-b.Y) < math.Abs(a.X-b.X)
		if !found || along && mid.Y > a.Y || !along && mid.X > a.X {
			continue
		}
		out = append(out, Mark{Name: PiecingSeam(whole, 1) + line, Kind: MarkJoin, Line: []geometry.Point{a, b}})
	}
	return out
}

// apply is the garment with one of its pieces cut in two and seamed again.
func (c *cutInTwo) apply(g Garment, piece, seam string) (Garment, error) {
	i := slices.IndexFunc(g.Pieces, func(p Piece) bool { return p.Name == piece })
	c.whole = g.Pieces[i]
	if err := c.cut(); err != nil {
		return Garment{}, err
	}
	out := g
	out.Pieces = slices.Concat(g.Pieces[:i], c.parts[:], g.Pieces[i+1:])
	out.Seams = nil
	for _, s := range g.Seams {
		out.Seams = append(out.Seams, c.share(s)...)
	}
	side := func(k int) Side { return Side{Piece: c.parts[k].Name, Edges: []string{c.edge}, To: 1} }
	out.Seams = append(out.Seams, Seam{Name: seam, Times: max(1, c.whole.Copies), A: side(0), B: side(1)})
	return out, nil
}

// stretchOf is a stretch of a named edge of the whole piece, in cm from its
// start, and the part that it goes to.
type stretchOf struct {
	from, to float64
	part     int
}

type cutInTwo struct {
	piece string    // what is said to be cut
	names [2]string // of the parts
	edge  string    // where they are joined
	whole Piece
	along bool
	at    float64
	parts [2]Piece
	runs  map[string][]stretchOf // by edge name
}

// side is how far a place is beyond the line; below is the first part's.
func (c *cutInTwo) side(v geometry.Point) float64 {
	if c.along {
		return v.Y - c.at
	}
	return v.X - c.at
}

func (c *cutInTwo) cut() error {
	q := c.whole.Outline
	points, edges, crossed := c.withCrossings(q)
	if crossed != 2 {
		return fmt.Errorf("piece %q cannot be cut there: the line meets its outline %d times, not twice", c.piece, crossed)
	}
	c.runs = map[string][]stretchOf{}
	along := map[string]float64{}
	for part, name := range c.names {
		p := c.whole
		p.Name, p.Outline, p.Edges, p.Marks = name, nil, nil, nil
		c.parts[part] = p
	}
	n := len(points)
	for j, v := range points {
		w := points[(j+1)%n]
		mid := geometry.Point{X: (v.X + w.X) / 2, Y: (v.Y + w.Y) / 2}
		part := 0
		if c.side(mid) > 0 {
			part = 1
		}
		p := &c.parts[part]
		p.Outline, p.Edges = append(p.Outline, v), append(p.Edges, edges[j])
		l := math.Hypot(w.X-v.X, w.Y-v.Y)
		at := along[edges[j].Name]
		c.runs[edges[j].Name] = append(c.runs[edges[j].Name], stretchOf{at, at + l, part})
		along[edges[j].Name] = at + l
		if math.Abs(c.side(w)) < 1e-9 && c.beyond(points, j+1) != part {
			// Here the line is met: it closes the part, back to where it left.
			p.Outline, p.Edges = append(p.Outline, w), append(p.Edges, Edge{Name: c.edge, Finish: FinishSeam})
		}
	}
	for part := range c.parts {
		p := &c.parts[part]
		made, err := geometry.New(p.Outline)
		if err != nil || len(made) != len(p.Outline) {
			return fmt.Errorf("piece %q cannot be cut there: a part would have no plain outline", c.piece)
		}
	}
	return c.marks()
}

// beyond is the part that the outline runs on in after corner j.
func (c *cutInTwo) beyond(points geometry.Polygon, j int) int {
	n := len(points)
	v, w := points[j%n], points[(j+1)%n]
	if c.side(geometry.Point{X: (v.X + w.X) / 2, Y: (v.Y + w.Y) / 2}) > 0 {
		return 1
	}
	return 0
}

// withCrossings is the outline with corners where the line crosses it, each
// edge keeping its name, and how often it is crossed.
func (c *cutInTwo) withCrossings(q geometry.Polygon) (points geometry.Polygon, edges []Edge, crossed int) {
	for j, v := range q {
		w := q[(j+1)%len(q)]
		points, edges = append(points, v), append(edges, c.whole.Edges[j])
		a, b := c.side(v), c.side(w)
		if math.Abs(a) < 1e-9 {
			u := c.side(q[(j+len(q)-1)%len(q)])
			if u*b < 0 {
				crossed++
			}
			continue
		}
		if a*b < 0 && math.Abs(b) >= 1e-9 {
			t := a / (a - b)
			x := geometry.Point{X: v.X + t*(w.X-v.X), Y: v.Y + t*(w.Y-v.Y)}
			if c.along {
				x.Y = c.at
			} else {
				x.X = c.at
			}
			points, edges = append(points, x), append(edges, c.whole.Edges[j])
			crossed++
		}
	}
	return points, edges, crossed
}

// marks gives each mark to the part that it lies in.
func (c *cutInTwo) marks() error {
	for _, m := range c.whole.Marks {
		if m.Kind == MarkFold && !m.Closed {
			c.fold(m)
			continue
		}
		var on [2]bool
		for _, v := range m.Line {
			if s := c.side(v); s < -1e-9 {
				on[0] = true
			} else if s > 1e-9 {
				on[1] = true
			}
		}
		if on[0] == on[1] {
			return fmt.Errorf("piece %q cannot be cut there: the line meets its %q", c.piece, m.Name)
		}
		part := 0
		if on[1] {
			part = 1
		}
		c.parts[part].Marks = append(c.parts[part].Marks, m)
		for _, name := range m.edgeNames() {
			c.runs[name] = append(c.runs[name], stretchOf{0, m.lengthCM(), part})
		}
	}
	return nil
}

// fold gives each part what lies on it of a fold line, to which nothing is sewn;
// one that lies in the cut itself is the seam now.
func (c *cutInTwo) fold(m Mark) {
	var on [2][]geometry.Point
	for j, v := range m.Line {
		s := c.side(v)
		if j > 0 {
			u := m.Line[j-1]
			if r := c.side(u); r < -1e-9 && s > 1e-9 || r > 1e-9 && s < -1e-9 {
				t := r / (r - s)
				x := geometry.Point{X: u.X + t*(v.X-u.X), Y: u.Y + t*(v.Y-u.Y)}
				on[0], on[1] = append(on[0], x), append(on[1], x)
			}
		}
		if s <= 1e-9 {
			on[0] = append(on[0], v)
		}
		if s >= -1e-9 {
			on[1] = append(on[1], v)
		}
	}
	for part, line := range on {
		beyond := slices.ContainsFunc(line, func(v geometry.Point) bool { return math.Abs(c.side(v)) > 1e-9 })
		if len(line) >= 2 && beyond {
			n := m
			n.Line = line
			c.parts[part].Marks = append(c.parts[part].Marks, n)
		}
	}
}

// shareOf is a part of a seam's side that lies on one piece, and which part of
// the whole side it is.
type shareOf struct {
	side     Side
	from, to float64
}

// share is a seam with the whole piece's sides shared out between the parts.
func (c *cutInTwo) share(s Seam) []Seam {
	as, bs := c.shares(s.A), c.shares(s.B)
	if len(as) == 1 && len(bs) == 1 {
		s.A, s.B = as[0].side, bs[0].side
		return []Seam{s}
	}
	var out []Seam
	for _, a := range as {
		for _, b := range bs {
			from, to := max(a.from, b.from), min(a.to, b.to)
			if to-from < 1e-6 {
				continue
			}
			t := s
			t.A, t.B = within(a, from, to), within(b, from, to)
			out = append(out, t)
		}
	}
	for k := range out {
		out[k].Name = fmt.Sprintf("%s (%d)", s.Name, k+1)
	}
	return out
}

// within is the side of a share between two fractions of the whole side.
func within(s shareOf, from, to float64) Side {
	side, span := s.side, (s.side.To-s.side.From)/(s.to-s.from)
	start := s.side.From
	side.From, side.To = start+(from-s.from)*span, start+(to-s.from)*span
	return side
}

// shares is a side with what lies on the whole piece given to its parts.
func (c *cutInTwo) shares(s Side) []shareOf {
	if s.Piece != c.whole.Name {
		return []shareOf{{s, 0, 1}}
	}
	total := 0.0
	for _, name := range s.Edges {
		for _, r := range c.runs[name] {
			total += r.to - r.from
		}
	}
	if total == 0 {
		return []shareOf{{s, 0, 1}}
	}
	lo, hi := s.From*total, s.To*total
	var out []shareOf
	at := 0.0
	for _, name := range s.Edges {
		gone := [2]float64{} // of this edge, on each part, before here
		own := [2]float64{}
		for _, r := range c.runs[name] {
			own[r.part] += r.to - r.from
		}
		for _, r := range c.runs[name] {
			from, to := max(lo, at), min(hi, at+r.to-r.from)
			if to-from > 1e-9 {
				start := gone[r.part] + from - at
				out = joinShare(out, shareOf{Side{Piece: c.parts[r.part].Name, Edges: []string{name}, From: start / own[r.part], To: min(1, (start+to-from)/own[r.part])},
					(from - lo) / (hi - lo), (to - lo) / (hi - lo)})
			}
			gone[r.part] += r.to - r.from
			at += r.to - r.from
		}
	}
	return out
}

// joinShare adds a share, joined to the one before where it goes on on the same
// edge.
func joinShare(list []shareOf, s shareOf) []shareOf {
	if n := len(list); n > 0 {
		l := &list[n-1]
		if l.side.Piece == s.side.Piece && l.side.Edges[0] == s.side.Edges[0] && math.Abs(l.side.To-s.side.From) < 1e-9 && math.Abs(l.to-s.from) < 1e-9 {
			l.side.To, l.to = s.side.To, s.to
			return list
		}
	}
	return append(list, s)
}
