package flat

import (
	"strings"

	"ellwand/garment"
	"ellwand/geometry"
)

// corner is a point of an outline, with what the edge from it on is.
type corner struct {
	p      point
	name   string
	finish garment.Finish // "" for a fold
}

// half is the side of a line that is seen: where normal points to.
type half struct{ at, normal point }

func (h half) side(p point) float64 { return dot(minus(p, h.at), h.normal) }

// sheet is one copy of a piece laid down: what is seen of it, and where its
// points lie.
type sheet struct {
	piece    garment.Piece
	mirrored bool
	corners  []corner
	halves   []half // what is seen, in the piece's frame
	fold     *half  // of those the one that hides the other half behind
	spread   *spread
	bent     *bend
	to       affine
	inside   bool
	through  bool // inside, and seen through the cloth as a line only
	used     map[string]bool
	side     string // the wearer's left or right, where a piece and its mirror image are seen
	level    int    // drawn above those with a lower one
}

func newSheet(p garment.Piece, mirrored bool) *sheet {
	s := &sheet{piece: p, mirrored: mirrored, used: map[string]bool{}}
	for i, e := range p.Edges {
		s.corners = append(s.corners, corner{p.Outline[i], e.Name, e.Finish})
	}
	return s
}

// place is where a point of the piece lies.
func (s *sheet) place(p point) point {
	if s.fold != nil && s.fold.side(p) < 0 { // behind the fold it shows turned over
		p = reflected(p, s.fold.at, toLeft(s.fold.normal))
	}
	if s.bent != nil {
		return s.bent.at(p)
	}
	if s.spread != nil {
		p = s.spread.at(p)
	}
	return s.to.at(p)
}

func (s *sheet) placed(line []point) []point {
	out := make([]point, len(line))
	for i, p := range line {
		out[i] = s.place(p)
	}
	return out
}

// show hides what lies beyond h; folded says that the rest lies behind.
func (s *sheet) show(h half, folded bool) {
	s.corners = clipped(s.corners, h)
	s.halves = append(s.halves, h)
	if folded {
		s.fold = &h
	}
}

// sees says whether a line of the piece lies in what is seen.
func (s *sheet) sees(line []point) bool {
	m := middle(line)
	for _, h := range s.halves {
		if h.side(m) < -1e-6 {
			return false
		}
	}
	return true
}

// clipped is an outline's part in h; the line of h becomes a fold.
func clipped(cs []corner, h half) []corner {
	const near = 1e-7
	var out []corner
	for i, a := range cs {
		b := cs[(i+1)%len(cs)]
		sa, sb := h.side(a.p), h.side(b.p)
		cut := func() point { return mix(a.p, b.p, sa/(sa-sb)) }
		switch {
		case sa > near:
			out = append(out, a)
			if sb < -near {
				out = append(out, corner{cut(), foldName, ""})
			}
		case sa >= -near:
			if sb < -near || sb <= near && !(sb >= -near) {
				out = append(out, corner{a.p, foldName, ""})
			} else {
				out = append(out, a)
			}
		case sb > near:
			out = append(out, corner{cut(), a.name, a.finish})
		}
	}
	return out
}

const foldName = "fold"

// middleOf is the middle of what is seen, in the piece's frame.
func (s *sheet) middleOf() point {
	var q geometry.Polygon
	for _, c := range s.corners {
		q = append(q, c.p)
	}
	if len(q) < 3 {
		return middle(q)
	}
	return q.Centroid()
}

// edgeLine is a named edge of a piece as it is walked, with ok false when there
// is none such. A lip is walked from the hem to the end of its slit.
func edgeLine(p garment.Piece, name string) ([]point, bool) {
	n := len(p.Edges)
	for i := range p.Edges {
		if p.Edges[i].Name != name || n > 1 && p.Edges[(i+n-1)%n].Name == name && (i > 0 || !allNamed(p, name)) {
			continue
		}
		line := []point{p.Outline[i]}
		for k := i; k < i+n && p.Edges[k%n].Name == name; k++ {
			line = append(line, p.Outline[(k+1)%n])
		}
		return line, true
	}
	for _, m := range p.Marks {
		left, right := m.Lips()
		switch {
		case m.Kind == garment.MarkFold, m.Kind == garment.MarkJoin:
		case m.Name == name && m.Closed:
			return append(append([]point(nil), m.Line...), m.Line[0]), true
		case m.Name == name, m.Kind == garment.MarkCut && (name == left || name == right):
			return m.Line, true
		}
	}
	return nil, false
}

func allNamed(p garment.Piece, name string) bool {
	for _, e := range p.Edges {
		if e.Name != name {
			return false
		}
	}
	return true
}

// sideLine is one side of a seam in its piece's frame.
func sideLine(p garment.Piece, s garment.Side) ([]point, bool) {
	var all []point
	for _, name := range s.Edges {
		line, ok := edgeLine(p, name)
		if !ok {
			return nil, false
		}
		all = append(all, line...)
	}
	out := run(all, s.From, s.To)
	return out, len(out) > 1
}

// hasWord says whether a name has a word in it.
func hasWord(name, word string) bool {
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == ',' }) {
		if w == word {
			return true
		}
	}
	return false
}

// twoSides parts a piece by its edges' names: from the middle of the edges that
// have neither word, or from the corner where one word's edges meet the other's.
// The half is the one of word a; ok is false for a piece that does not part so.
func twoSides(p garment.Piece, a, b string) (half, bool) {
	n := len(p.Edges)
	class := make([]int, n)
	for i, e := range p.Edges {
		if hasWord(e.Name, a) {
			class[i] = 1
		} else if hasWord(e.Name, b) {
			class[i] = 2
		}
	}
	var cuts, ofA []point
	for i := range n {
		if class[i] == 1 {
			ofA = append(ofA, mix(p.Outline[i], p.Outline[(i+1)%n], 0.5))
		}
		if class[i] == 0 || n < 2 {
			continue
		}
		line := []point{p.Outline[(i+1)%n]}
		k := (i + 1) % n
		for class[k] == 0 {
			k = (k + 1) % n
			line = append(line, p.Outline[k])
		}
		if class[k] != class[i] {
			if len(line) > 1 {
				line = run(line, 0, 0.5)
			}
			cuts = append(cuts, line[len(line)-1])
		}
	}
	if len(cuts) != 2 || between(cuts[0], cuts[1]) < 1e-6 {
		return half{}, false
	}
	h := half{cuts[0], toLeft(unit(minus(cuts[1], cuts[0])))}
	if h.side(middle(ofA)) < 0 {
		h.normal = times(h.normal, -1)
	}
	return h, true
}
