package garment

import (
	"fmt"
	"strings"
)

// PieceBothWays is PieceApart along the piece's length at each y = alongCM and
// across it at each x = acrossCM: the parts are numbered along the length first,
// row after row.
func PieceBothWays(g Garment, name string, alongCM, acrossCM []float64) (Garment, error) {
	if err := mayBePieced(g, name); err != nil {
		return Garment{}, err
	}
	row := func(r int) string { return fmt.Sprintf("%s row %d", name, r) }
	for r := range len(alongCM) + 1 {
		if _, taken := g.Piece(row(r + 1)); taken {
			return Garment{}, fmt.Errorf("the name %q, which a row of parts has on the way, is taken", row(r+1))
		}
	}
	out, err := cutAt(g, name, name, true, alongCM, 1, row)
	if err != nil {
		return Garment{}, err
	}
	// The lines across are numbered on after those along, row after row.
	for r := range len(alongCM) + 1 {
		part := func(k int) string { return PartName(name, r*(len(acrossCM)+1)+k) }
		if out, err = cutAt(out, name, row(r+1), false, acrossCM, len(alongCM)+r*len(acrossCM)+1, part); err != nil {
			return Garment{}, err
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
