package garment

import (
	"fmt"
	"math"
	"sort"

	"ellwand/geometry"
)

// SeamToleranceCM is how far the two sides of a seam may differ: 1 mm.
const SeamToleranceCM = 0.1

// SeamFault is one thing wrong with a garment's seams, as a sentence.
type SeamFault struct {
	Seam string // empty when an edge, not a seam, is at fault
	Text string
}

func (f SeamFault) Error() string { return f.Text }

// EdgeLengthsCM is the length in cm of every named edge of a piece, over the
// whole run of outline edges of that name, and of every edge its marks make.
func EdgeLengthsCM(p Piece) map[string]float64 {
	out := map[string]float64{}
	for i, e := range p.Edges {
		if i < len(p.Outline) {
			out[e.Name] += p.Outline.EdgeLength(i)
		}
	}
	for _, m := range p.Marks {
		for _, name := range m.edgeNames() {
			out[name] += m.lengthCM()
		}
	}
	return out
}

// Lips are the edge names of an open cut: the wearer's left, then the right.
func (m Mark) Lips() (left, right string) {
	return m.Name + ", left lip", m.Name + ", right lip"
}

func (m Mark) edgeNames() []string {
	switch {
	case m.Kind == MarkFold, m.Kind == MarkJoin:
		return nil
	case m.Kind == MarkCut && !m.Closed:
		left, right := m.Lips()
		return []string{left, right}
	}
	return []string{m.Name}
}

func (m Mark) lengthCM() float64 {
	n := len(m.Line)
	s := 0.0
	for i := 0; i+1 < n; i++ {
		s += distance(m.Line[i], m.Line[i+1])
	}
	if m.Closed && n > 0 {
		s += distance(m.Line[n-1], m.Line[0])
	}
	return s
}

func distance(a, b geometry.Point) float64 { return math.Hypot(b.X-a.X, b.Y-a.Y) }

// SideLengthCM is the length of one side of a seam, in cm. An unknown piece or
// edge, or a part outside 0 to 1, is an error.
func SideLengthCM(g Garment, s Side) (float64, error) {
	p, ok := g.Piece(s.Piece)
	if !ok {
		return 0, fmt.Errorf("there is no piece %q in the %s", s.Piece, g.Draft)
	}
	if !(s.From >= 0 && s.From < s.To && s.To <= 1) {
		return 0, fmt.Errorf("piece %q is sewn from %g to %g of its edge; accepted are fractions from 0 to 1, the smaller first", s.Piece, s.From, s.To)
	}
	if len(s.Edges) == 0 {
		return 0, fmt.Errorf("a seam side of piece %q names no edge", s.Piece)
	}
	lengths, total := EdgeLengthsCM(p), 0.0
	for _, name := range s.Edges {
		l, ok := lengths[name]
		if !ok {
			return 0, fmt.Errorf("piece %q has no edge %q", s.Piece, name)
		}
		total += l
	}
	return total * (s.To - s.From), nil
}

// Piece finds a piece by name.
func (g Garment) Piece(name string) (Piece, bool) {
	for _, p := range g.Pieces {
		if p.Name == name {
			return p, true
		}
	}
	return Piece{}, false
}

// Mismatch is everything wrong with a garment's seams: sides that differ by
// more than 1 mm, names that are not there, and seam edges of which some part
// is not sewn exactly as many times as there are copies. Empty means that the
// garment can be sewn up with nothing left over.
func Mismatch(g Garment) []SeamFault {
	var faults []SeamFault
	for _, s := range g.Seams {
		if err := seamLengths(g, s); err != nil {
			faults = append(faults, SeamFault{s.Name, fmt.Sprintf("seam %q: %v", s.Name, err)})
		}
	}
	for _, p := range g.Pieces {
		faults = append(faults, unsewn(g, p)...)
	}
	return faults
}

func seamLengths(g Garment, s Seam) error {
	a, err := SideLengthCM(g, s.A)
	if err != nil {
		return err
	}
	b, err := SideLengthCM(g, s.B)
	if err != nil {
		return err
	}
	if math.IsNaN(a-b) || math.Abs(a-b) > SeamToleranceCM {
		return fmt.Errorf("%q is %.2f cm and %q is %.2f cm; they may differ by %g cm", s.A.Piece, a, s.B.Piece, b, SeamToleranceCM)
	}
	if s.Times < 1 {
		return fmt.Errorf("it is sewn %d times; accepted is 1 or more", s.Times)
	}
	return nil
}

// stretch is part of an edge, as fractions of its length, sewn so many times.
type stretch struct {
	from, to float64
	times    int
}

// unsewn checks that every part of every seam edge of p is sewn exactly
// p.Copies times.
func unsewn(g Garment, p Piece) []SeamFault {
	lengths, sewn := EdgeLengthsCM(p), map[string][]stretch{}
	for _, s := range g.Seams {
		for _, side := range []Side{s.A, s.B} {
			if side.Piece == p.Name {
				addStretches(sewn, lengths, side, s.Times)
			}
		}
	}
	var faults []SeamFault
	seam := seamEdges(p)
	for _, name := range sortedNames(lengths) {
		switch {
		case seam[name]:
			if text := uneven(sewn[name], p.Copies, lengths[name]); text != "" {
				faults = append(faults, SeamFault{"", fmt.Sprintf("edge %q of piece %q %s; it is cut %d times", name, p.Name, text, p.Copies)})
			}
		case len(sewn[name]) > 0:
			faults = append(faults, SeamFault{"", fmt.Sprintf("edge %q of piece %q is in a seam but is not finished as one", name, p.Name)})
		}
	}
	return faults
}

func sortedNames(m map[string]float64) []string {
	names := make([]string, 0, len(m))
	for name := range m {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

func seamEdges(p Piece) map[string]bool {
	out := map[string]bool{}
	for _, e := range p.Edges {
		if e.Finish == FinishSeam {
			out[e.Name] = true
		}
	}
	for _, m := range p.Marks {
		for _, name := range m.edgeNames() {
			out[name] = m.Finish == FinishSeam
		}
	}
	return out
}

// addStretches shares a side's part of its run of edges out among the edges.
func addStretches(sewn map[string][]stretch, lengths map[string]float64, s Side, times int) {
	total := 0.0
	for _, name := range s.Edges {
		total += lengths[name]
	}
	start := 0.0
	for _, name := range s.Edges {
		l := lengths[name]
		if l <= 0 {
			continue
		}
		from, to := max(0, (s.From*total-start)/l), min(1, (s.To*total-start)/l)
		if from < to {
			sewn[name] = append(sewn[name], stretch{from, to, times})
		}
		start += l
	}
}

// uneven says where an edge is not sewn just copies times, or "". Parts shorter
// than the seam tolerance are passed over.
func uneven(parts []stretch, copies int, lengthCM float64) string {
	cuts := []float64{0, 1}
	for _, p := range parts {
		cuts = append(cuts, p.from, p.to)
	}
	sort.Float64s(cuts)
	for i := 0; i+1 < len(cuts); i++ {
		a, b := cuts[i], cuts[i+1]
		if (b-a)*lengthCM <= SeamToleranceCM {
			continue
		}
		n := 0
		for _, p := range parts {
			if p.from <= (a+b)/2 && (a+b)/2 <= p.to {
				n += p.times
			}
		}
		if n != copies {
			return fmt.Sprintf("is sewn %d times from %.1f to %.1f cm", n, a*lengthCM, b*lengthCM)
		}
	}
	return ""
}
