package drawing

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"ellwand/geometry"
	"ellwand/paper"
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
		"along_from_cm", "along_to_cm", "across_from_cm", "across_to_cm", "turned_deg", "turned_over", "corners_along_across_cm"}}
	if len(s.Lengths) > 0 {
		rows[0] = append(rows[0], "on_length")
	}
	for _, p := range InCuttingOrder(s.Pieces) {
		m := p.Cut.Bounds()
		from, on := s.Start(m.MinX)
		row := []string{notFormula(paper.Clean(p.Name)), strconv.Itoa(p.Copy), strconv.Itoa(p.Number)}
		for _, cm := range []float64{m.Width(), m.Height(), m.MinX - from, m.MaxX - from, m.MinY, m.MaxY} {
			row = append(row, hundredth(cm))
		}
		over := "no"
		if p.TurnedOver {
			over = "yes"
		}
		row = append(row, fmt.Sprintf("%g", p.TurnDeg), over, cornersCSV(p.Cut, from))
		if len(s.Lengths) > 0 {
			row = append(row, notFormula(on))
		}
		rows = append(rows, row)
	}
	return out.WriteAll(rows)
}

// cornersCSV is the corners as "along across" in cm, with semicolons between.
func cornersCSV(cut geometry.Polygon, fromCM float64) string {
	var parts []string
	points, _ := Corners(cut)
	for _, v := range points {
		parts = append(parts, hundredth(v.X-fromCM)+" "+hundredth(v.Y))
	}
	return strings.Join(parts, "; ")
}

// mostCorners is how many points of a piece are chalked, and sharp how far an
// outline turns at a corner that is not part of a curve.
const (
	mostCorners = 16
	sharp       = 25 * math.Pi / 180
)

// Corners are the points that a piece is chalked by: all its corners, and of a
// curve so many as make mostCorners in all, evenly spread. curved says that
// there is one, which the points alone do not give.
func Corners(cut geometry.Polygon) (points geometry.Polygon, curved bool) {
	var soft []int
	keep := map[int]bool{}
	n := len(cut)
	for i := range cut {
		a, b, c := cut[(i-1+n)%n], cut[i], cut[(i+1)%n]
		turn := math.Abs(math.Remainder(math.Atan2(c.Y-b.Y, c.X-b.X)-math.Atan2(b.Y-a.Y, b.X-a.X), 2*math.Pi))
		switch {
		case turn >= sharp:
			keep[i] = true
		case turn > 1e-3:
			soft = append(soft, i)
		}
	}
	// A few blunt corners are corners; many soft ones are a curve.
	room := max(mostCorners-len(keep), 4)
	curved = len(soft) > 6
	for k := range min(room, len(soft)) {
		keep[soft[k*len(soft)/min(room, len(soft))]] = true
	}
	for i, v := range cut {
		if keep[i] {
			points = append(points, v)
		}
	}
	return points, curved
}

// InCuttingOrder is the pieces in the order of their numbers.
func InCuttingOrder(pieces []Piece) []Piece {
	order := slices.Clone(pieces)
	slices.SortStableFunc(order, func(p, q Piece) int { return p.Number - q.Number })
	return order
}

// notFormula keeps a spreadsheet from working a name out: the leading
// apostrophe makes the cell text. The wide signs of East Asian writing count
// too: some spreadsheets read them as the narrow ones.
func notFormula(name string) string {
	if strings.IndexAny(strings.TrimSpace(name), "=+-@＝＋－＠") == 0 {
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
