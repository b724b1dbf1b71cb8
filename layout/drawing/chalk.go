package drawing

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// ChalkCSV writes what each piece is chalked by, in the order of cutting, as a
// table of comma-separated values (RFC 4180). Lengths are always in cm: along
// the warp from the first cut end of its length of cloth, across from the left selvedge.
func ChalkCSV(w io.Writer, s Sheet) error {
	if err := s.validate(); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{{"piece", "copy", "number", "cut_length_cm", "cut_width_cm",
		"along_from_cm", "along_to_cm", "across_from_cm", "across_to_cm", "turned_deg", "turned_over"}}
	if len(s.Lengths) > 0 {
		rows[0] = append(rows[0], "on_length")
	}
	for _, p := range s.inCuttingOrder() {
		m := p.Cut.Bounds()
		from, on := s.start(m.MinX)
		row := []string{notFormula(clean(p.Name)), strconv.Itoa(p.Copy), strconv.Itoa(p.Number)}
		for _, cm := range []float64{m.Width(), m.Height(), m.MinX - from, m.MaxX - from, m.MinY, m.MaxY} {
			row = append(row, hundredth(cm))
		}
		over := "no"
		if p.TurnedOver {
			over = "yes"
		}
		row = append(row, fmt.Sprintf("%g", p.TurnDeg), over)
		if len(s.Lengths) > 0 {
			row = append(row, notFormula(on))
		}
		rows = append(rows, row)
	}
	return out.WriteAll(rows)
}

func (s Sheet) inCuttingOrder() []Piece {
	order := slices.Clone(s.Pieces)
	slices.SortStableFunc(order, func(p, q Piece) int { return p.Number - q.Number })
	return order
}

// notFormula keeps a spreadsheet from working a name out: the leading
// apostrophe makes the cell text.
func notFormula(name string) string {
	if strings.IndexAny(strings.TrimSpace(name), "=+-@") == 0 {
		return "'" + name
	}
	return name
}

func hundredth(cm float64) string {
	t := strconv.FormatFloat(cm, 'f', 2, 64)
	if t == "-0.00" {
		return "0.00"
	}
	return t
}
