package garment

import (
	"fmt"
	"strings"
)

// PieceBothWays is PieceApart along the piece's length at each y = alongCM and
// across it at each x = acrossCM: the parts are numbered along the length first,
// row after row.
func PieceBothWays(g Garment, name string, alongCM, acrossCM []float64) (Garment, error) {
	row := func(r int) string { return fmt.Sprintf("%s row %d", name, r) }
	for r := range len(alongCM) + 1 {
		if _, taken := g.Piece(row(r + 1)); taken {
			return Garment{}, fmt.Errorf("the name %q, which a row of parts has on the way, is taken", row(r+1))
		}
	}
	out, rest := g, name
	for k, at := range alongCM {
		c := &cutInTwo{piece: name, names: [2]string{row(k + 1), row(k + 2)}, edge: numbered(PiecingEdge, k+1), along: true, at: at}
		var err error
		if out, err = c.apply(out, rest, PiecingSeam(name, k+1)); err != nil {
			return Garment{}, err
		}
		rest = c.names[1]
	}
	// The lines across are numbered on after those along, row after row.
	for r := range len(alongCM) + 1 {
		rest := row(r + 1)
		for k, at := range acrossCM {
			n, part := len(alongCM)+r*len(acrossCM)+k+1, r*(len(acrossCM)+1)+k+1
			c := &cutInTwo{piece: name, names: [2]string{PartName(name, part), PartName(name, part+1)}, edge: numbered(PiecingEdge, n), at: at}
			var err error
			if out, err = c.apply(out, rest, PiecingSeam(name, n)); err != nil {
				return Garment{}, err
			}
			rest = c.names[1]
		}
	}
	// Each row is sewn together before the rows are.
	joinsRows := func(s Seam) bool {
		for k := range alongCM {
			if first := PiecingSeam(name, k+1); s.Name == first || strings.HasPrefix(s.Name, first+" (") {
				return true
			}
		}
		return false
	}
	var rows, others []Seam
	for _, s := range out.Seams {
		if joinsRows(s) {
			rows = append(rows, s)
		} else {
			others = append(others, s)
		}
	}
	out.Seams = append(others, rows...)
	return out, nil
}
