package plan

import (
	"fmt"
	"regexp"
	"strings"

	"ellwand/garment"
)

// mostParts is the most parts that a piece is cut into.
const mostParts = 12

// asides is how far, as shares of a part, all lines are moved aside where a mark
// such as the neck lies in the way of equal parts: only where the piece must be
// cut, for equal parts are what is sewn best.
func asides() []float64 { return []float64{0, 0.05, -0.05, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3} }

// cutApart cuts a piece into as many parts as the plan says, or as few as serve:
// two, or where it must be cut the fewest that there is cloth for.
func (p *Plan) cutApart(g garment.Garment, s PieceSpec, piece garment.Piece, line string, needed bool) (garment.Garment, error) {
	if line == bothWays {
		return p.cutBothWays(g, s, piece)
	}
	from, to := max(2, s.PiecingParts), max(2, s.PiecingParts)
	if s.PiecingParts == 0 && needed {
		to = mostParts
	}
	var wrong error
	for n := from; n <= to; n++ {
		for _, aside := range asides() {
			if aside != 0 && (!needed || s.PiecingShare > 0 && n == 2) {
				break
			}
			out, err := garment.PieceApart(g, s.Name, line == "along", piecingLines(s, piece, line, n, aside))
			switch {
			case err != nil:
				wrong = err
			case !needed || s.PiecingParts > 0 || p.partsFit(out, s.Name, line):
				return out, nil
			default:
				wrong = fmt.Errorf("in %d parts it still has more than the cloth gives room for", n)
			}
		}
	}
	return garment.Garment{}, wrong
}

// bothWays is the line of a piece that is too wide for the cloth and too long.
const bothWays = "along and across"

// cutBothWays cuts a piece along and across into as few rows as are narrow enough,
// and these into as few parts as are short enough.
func (p *Plan) cutBothWays(g garment.Garment, s PieceSpec, piece garment.Piece) (garment.Garment, error) {
	var wrong error
	s.PiecingShare = 0 // that is of a piece cut in two
	for rows := 2; rows <= mostParts/2; rows++ {
		for parts := 2; rows*parts <= mostParts; parts++ {
			out, err := cutInRows(g, s, piece, rows, parts)
			if err == nil && p.partsFit(out, s.Name, "along") && p.partsFit(out, s.Name, "across") {
				return out, nil
			}
			if wrong = err; err == nil {
				wrong = fmt.Errorf("in %d parts it still has more than the cloth gives room for", rows*parts)
			}
		}
	}
	return garment.Garment{}, wrong
}

// cutInRows cuts a piece into rows and each row into parts: equal ones, or with
// lines moved aside as far as a mark in their way makes them.
func cutInRows(g garment.Garment, s PieceSpec, piece garment.Piece, rows, parts int) (out garment.Garment, err error) {
	for _, up := range asides() {
		for _, on := range asides() {
			out, err = garment.PieceBothWays(g, s.Name, piecingLines(s, piece, "along", rows, up), piecingLines(s, piece, "across", parts, on))
			if err == nil {
				return out, nil
			}
		}
	}
	return out, err
}

// piecingLines is where a piece is cut into n parts, in its own frame.
func piecingLines(s PieceSpec, piece garment.Piece, line string, n int, aside float64) []float64 {
	b := piece.Outline.Bounds()
	from, whole := b.MinX, b.Width()
	if line == "along" {
		from, whole = b.MinY, b.Height()
	}
	if n == 2 && s.PiecingShare > 0 {
		return []float64{from + s.PiecingShare*whole}
	}
	var at []float64
	for k := 1; k < n; k++ {
		at = append(at, from+(float64(k)+aside)/float64(n)*whole)
	}
	return at
}

// partsFit says whether the cloth has room for each part, in the direction for
// which the piece was cut.
func (p *Plan) partsFit(g garment.Garment, name, line string) bool {
	mostWide, mostLong := p.clothThere()
	parts, _ := piecedInto(g, name)
	for k := range parts {
		part, _ := g.Piece(garment.PartName(name, k+1))
		wide, long, err := p.needs(part)
		if err != nil {
			return false
		}
		widthWise := (line == "along") == (part.Grain != garment.GrainWeft)
		if widthWise && wide > mostWide+1e-6 || !widthWise && long > mostLong+1e-6 {
			return false
		}
	}
	return true
}

// piecedInto is how many parts a piece is cut into, and the length of all
// piecing seams of one copy.
func piecedInto(g garment.Garment, name string) (parts int, seamCM float64) {
	for parts = 1; ; parts++ {
		if _, ok := g.Piece(garment.PartName(name, parts+1)); !ok {
			break
		}
	}
	for _, s := range g.Seams {
		if isPiecingSeam(s.Name, name) {
			if l, err := garment.SideLengthCM(g, s.A); err == nil {
				seamCM += l
			}
		}
	}
	return parts, seamCM
}

// isPiecingSeam says whether a seam joins parts of a piece.
func isPiecingSeam(seam, piece string) bool {
	first := garment.PiecingSeam(piece, 1)
	return seam == first || strings.HasPrefix(seam, first+" ")
}

var partNamed = regexp.MustCompile(`^(.*) part [1-9][0-9]?$`)

// WholeOf is the name of the piece that a part is of, where the plan lets that
// be cut apart; else the name itself.
func (p *Plan) WholeOf(name string) string {
	if m := partNamed.FindStringSubmatch(name); m != nil {
		for _, s := range p.Pieces {
			if s.Name == m[1] && s.Piecing != "" && s.Piecing != piecingNo {
				return s.Name
			}
		}
	}
	return name
}
