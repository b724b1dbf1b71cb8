package plan

import (
	"cmp"
	"math"
	"slices"

	"ellwand/garment"
	"ellwand/geometry"
	"ellwand/layout/drawing"
)

// Sheet is the cutting diagram of the result, ready to be drawn. date stands in
// the title block as it is given.
func (r *Result) Sheet(date string) drawing.Sheet {
	s := drawing.Sheet{
		Title:   r.plan.Title,
		WidthCM: r.Lay.WidthCM, LengthCM: r.Lay.LengthCM, UsePercent: r.UsePercent,
		Warp: r.warpText(), Weft: r.weftText(),
		Date: date, Notes: r.sheetNotes(), Unit: drawing.Centimetres,
	}
	r.sheetGround(&s)
	if r.plan.ShowUnits == "inch" {
		s.Unit = drawing.Inches
	}
	faulty := map[int]bool{}
	for _, f := range r.Faults {
		faulty[f.ItemA], faulty[f.ItemB] = true, true
	}
	for i := range r.Prepared.Problem.Items {
		piece := r.sheetPiece(i)
		piece.Fault = faulty[i]
		s.Pieces = append(s.Pieces, piece)
	}
	orderCuts(s.Pieces)
	return s
}

// sheetPiece is item i where it lies, with its seam line and marks.
func (r *Result) sheetPiece(i int) drawing.Piece {
	c, at := r.Prepared.Copies[i], r.Lay.Placements[i]
	p := r.Prepared.Pieces[c.Piece]
	out := drawing.Piece{
		Name: p.Piece.Name, Copy: c.Number, Copies: p.Piece.Copies,
		Cut:      r.Prepared.Place(i, p.Cut, at),
		Seam:     r.Prepared.Place(i, p.Piece.Outline, at),
		GrainDeg: r.grainDeg(i),
		TurnDeg:  at.TurnDeg, TurnedOver: at.Flip,
		Pinned: r.Prepared.Problem.Items[i].Pinned != nil,
	}
	for _, m := range p.Piece.Marks {
		line := r.Prepared.Place(i, m.Line, at)
		if m.Closed && len(line) > 0 {
			line = append(line, line[0])
		}
		out.Marks = append(out.Marks, line)
	}
	return out
}

// grainDeg is the way item i's own length, or width for a piece laid across,
// points along the warp: 0 or 180. A piece turned square to the warp though it
// need not follow it has 0.
func (r *Result) grainDeg(i int) float64 {
	along := geometry.Point{X: 1}
	if r.Prepared.Pieces[r.Prepared.Copies[i].Piece].Piece.Grain == garment.GrainWeft {
		along = geometry.Point{Y: 1}
	}
	at := r.Lay.Placements[i]
	ends := []geometry.Point{r.Prepared.Place(i, []geometry.Point{{}}, at)[0], r.Prepared.Place(i, []geometry.Point{along}, at)[0]}
	if dx := ends[1].X - ends[0].X; dx < -0.5 {
		return 180
	}
	return 0
}

// orderCuts gives the pieces the order in which they are cut from the cloth: by
// their nearest end, then from the left selvedge.
func orderCuts(pieces []drawing.Piece) {
	order := make([]int, len(pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		p, q := pieces[a].Cut.Bounds(), pieces[b].Cut.Bounds()
		return cmp.Or(cmp.Compare(tenth(p.MinX), tenth(q.MinX)), cmp.Compare(p.MinY, q.MinY))
	})
	for n, i := range order {
		pieces[i].Number = n + 1
	}
}

// tenth rounds to a millimetre, so that pieces at one cut count from the selvedge.
func tenth(cm float64) float64 { return math.Round(cm * 10) }

func (r *Result) sheetNotes() []string {
	notes := shortfallTexts(r.CannotBeMade)
	if r.plan.Nap {
		notes = append(notes, "The nap runs one way: every piece points the same way along the cloth.")
	}
	for k := range r.Pieces {
		if note := r.NoteOn(k); note != "" {
			notes = append(notes, note)
		}
	}
	return notes
}

// NoteOn is what is noted of piece k, for a list of all of them: under the name
// of the whole piece where that is cut apart, and then with its first part alone.
func (r *Result) NoteOn(k int) string {
	note, whole := r.Pieces[k].Piece.Note, r.WholeOf(r.Pieces[k].Piece.Name)
	said := slices.ContainsFunc(r.Pieces[:k], func(p PieceResult) bool {
		return p.Piece.Note == note && r.WholeOf(p.Piece.Name) == whole
	})
	if note == "" || said {
		return ""
	}
	return whole + ": " + note
}

// WholeOf is the name of the piece that a part is of; else the name itself.
func (r *Result) WholeOf(name string) string { return r.plan.WholeOf(name) }
