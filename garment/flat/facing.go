package flat

import (
	"strings"

	"ellwand/garment"
)

// overlayFacings lays facings inside, their edge on the edge that they face.
func (l *layer) overlayFacings() {
	for _, a := range l.sheets {
		for _, seam := range l.g.Seams {
			sa, sb := seam.A, seam.B
			if sb.Piece == a.piece.Name {
				sa, sb = sb, sa
			}
			if sa.Piece != a.piece.Name || !strings.Contains(sb.Piece, "facing") || strings.Contains(seam.Name, "slit") {
				continue
			}
			piece, ok := l.g.Piece(sb.Piece)
			la, ok2 := sideLine(a.piece, sa)
			lb, ok3 := sideLine(piece, sb)
			if !ok || !ok2 || !ok3 || a.side != "" {
				continue
			}
			if b := overlaid(a, la, lb, piece); b != nil {
				l.sheets = append(l.sheets, b)
				if len(a.halves) > 0 {
					la = a.seenOf(la)
				}
				l.note(seam.Name, a.placed(la))
			}
		}
	}
}

// seenOf is what is seen of a line.
func (s *sheet) seenOf(line []point) []point {
	if len(line) == 2 {
		if !s.hides(line) {
			if seen := s.seenPart(line[0], line[1]); len(seen) == 2 && between(seen[0], seen[1]) > 1e-6 {
				return seen
			}
		}
		return line
	}
	var out []point
	for _, p := range line {
		if s.sees([]point{p}) {
			out = append(out, p)
		}
	}
	if len(out) < 2 {
		return line
	}
	return out
}

func overlaid(a *sheet, la, lb []point, piece garment.Piece) *sheet {
	b := newSheet(piece, a.mirrored)
	b.inside, b.through, b.level = true, true, a.level+1
	if between(la[0], la[len(la)-1]) < 1e-6 { // all round: the frames differ by a shift
		shift := minus(la[0], lb[0])
		for _, h := range a.halves {
			b.show(half{minus(h.at, shift), h.normal}, false)
		}
		b.to = a.to
		b.to.origin = a.to.at(shift)
	} else {
		on := a.placed(la)
		b.to = rigid(lb[0], lb[len(lb)-1], on[0], on[len(on)-1], b.mirrored)
		n := toLeft(unit(minus(lb[len(lb)-1], lb[0])))
		h := half{lb[0], n}
		if h.side(middle(lb)) < -1e-6 {
			h.normal = times(n, -1)
		}
		b.show(h, false)
	}
	if len(b.corners) < 3 {
		return nil
	}
	return b
}
