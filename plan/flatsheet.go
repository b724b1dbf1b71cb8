package plan

import (
	"fmt"

	"ellwand/garment"
	"ellwand/garment/flat"
	"ellwand/layout/drawing"
)

// Flat is the garment laid flat, front and back, from its own pieces and seams;
// pieces that are cut apart are drawn whole, with the lines where they are joined.
func (r *Result) Flat() flat.Drawing {
	return flat.Lay(garment.WithJoins(r.Prepared.whole, r.Garment))
}

// FlatSheet is the garment laid flat, with the order of sewing, ready to be
// drawn. A seam's number is that of its line in the order.
func (r *Result) FlatSheet(date string) drawing.FlatSheet {
	s := drawing.FlatSheet{Title: r.plan.Title, Date: date, Unit: drawing.Centimetres}
	if r.plan.ShowUnits == "inch" {
		s.Unit = drawing.Inches
	}
	number := map[string]int{}
	for _, step := range r.Sewing() {
		out := drawing.FlatStep{Head: fmt.Sprintf("%d. %s: %s", step.Number, step.What, lengthText(step.TotalCM(), r.plan.ShowUnits))}
		for _, l := range step.Lines {
			text := "· " + StepLineText(l, r.plan.ShowUnits)
			if !l.Hem {
				number[l.Name] = len(number) + 1
				text = fmt.Sprintf("(%d) %s", number[l.Name], StepLineText(l, r.plan.ShowUnits))
			}
			out.Lines = append(out.Lines, text)
		}
		s.Steps = append(s.Steps, out)
	}
	for _, v := range r.Flat().Views {
		s.Views = append(s.Views, flatView(v, number))
	}
	return s
}

func flatView(v flat.View, number map[string]int) drawing.FlatView {
	out := drawing.FlatView{Name: v.Name}
	lines := func(list []flat.Edge) []drawing.FlatLine {
		var all []drawing.FlatLine
		for _, e := range list {
			style := map[flat.Kind]drawing.LineStyle{flat.KindSeam: drawing.StyleSeam, flat.KindFold: drawing.StyleFold, flat.KindCut: drawing.StyleCut}[e.Kind]
			all = append(all, drawing.FlatLine{Style: style, Line: e.Line})
		}
		return all
	}
	for _, p := range v.Parts {
		out.Parts = append(out.Parts, drawing.FlatPart{Name: p.Piece, Through: p.Through, Edges: lines(p.Edges), Holes: lines(p.Holes), Lines: lines(p.Lines)})
	}
	for _, s := range v.Seams {
		out.Seams = append(out.Seams, drawing.FlatSeam{Number: number[s.Name], Line: s.Line})
	}
	return out
}
