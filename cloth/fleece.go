package cloth

import (
	"fmt"
	"math"
)

func coatWords(c Coat) string {
	if c == CoatWhole {
		return "the whole fleece"
	}
	return "the " + string(c) + " coat"
}

// keptShare is prepared fibre of a coat ÷ raw fleece, and how it comes about.
func (f Fleece) keptShare(c Coat) (float64, string) {
	clean := (1 - f.SkirtingLoss) * f.ScouredYield
	words := fmt.Sprintf("(1 − %s skirting) × %s scoured yield", num(f.SkirtingLoss), num(f.ScouredYield))
	part := func(share, prepared float64) (float64, string) {
		return clean * (1 - f.SeparationLoss) * share * prepared,
			words + fmt.Sprintf(" × (1 − %s separation) × %s share × %s prepared", num(f.SeparationLoss), num(share), num(prepared))
	}
	switch c {
	case CoatOuter:
		return part(f.OuterShare, f.OuterYield)
	case CoatInner:
		return part(1-f.OuterShare, f.InnerYield)
	}
	return clean * f.WholeYield, words + fmt.Sprintf(" × %s prepared", num(f.WholeYield))
}

// fleeces works out raw fleece needed against raw fleece in hand, lot by lot.
// Outer and inner coat come from the same raw wool, so a lot's need is the
// larger of the two; yarn from the whole fleece takes raw wool of its own.
func (w *work) fleeces() []FleeceNeed {
	out := []FleeceNeed{}
	for _, f := range w.in.Fleeces {
		prepared, from := w.preparedNeed(f)
		if len(prepared) > 0 {
			out = append(out, f.need(prepared, from))
		}
	}
	return out
}

// preparedNeed is the prepared fibre that the yarns ask of each coat of a lot.
func (w *work) preparedNeed(f Fleece) (map[Coat]float64, []Figure) {
	prepared, figures := map[Coat]float64{}, []Figure(nil)
	for _, n := range w.r.Yarns {
		y, _ := w.in.yarn(n.Name)
		if y.Fleece != f.Name {
			continue
		}
		need := n.MassG / (1 - y.SpinLoss)
		prepared[y.Coat] += need
		figures = append(figures, Figure{"prepared_g:" + y.Name, "Prepared fibre for " + y.Name + ", " + coatWords(y.Coat), need, "g",
			fmt.Sprintf("%s g of yarn ÷ (1 − %s lost in spinning and handling) = %s g", num(n.MassG), num(y.SpinLoss), num(need))})
	}
	return prepared, figures
}

func (f Fleece) need(prepared map[Coat]float64, figures []Figure) FleeceNeed {
	n := FleeceNeed{Name: f.Name, RawHaveG: f.RawG}
	raw := map[Coat]float64{}
	for _, c := range []Coat{CoatOuter, CoatInner, CoatWhole} {
		g, wanted := prepared[c]
		if !wanted {
			continue
		}
		kept, words := f.keptShare(c)
		raw[c] = math.Inf(1)
		if kept > 0 {
			raw[c] = g / kept
		}
		if raw[c] > 1e12 { // no such coat in this fleece: no amount serves
			raw[c] = 1e12
		}
		figures = append(figures, Figure{"raw_g:" + string(c), "Raw fleece for " + coatWords(c), raw[c], "g",
			fmt.Sprintf("%s g prepared ÷ (%s) = %s g", num(g), words, num(raw[c]))})
	}
	n.ShortCoat = CoatOuter
	if raw[CoatInner] > raw[CoatOuter] {
		n.ShortCoat = CoatInner
	}
	parted := math.Max(raw[CoatOuter], raw[CoatInner])
	if parted == 0 {
		n.ShortCoat = CoatWhole
	}
	n.RawNeededG = parted + raw[CoatWhole]
	left := math.Max(0, f.RawG-raw[CoatWhole])
	outer, _ := f.keptShare(CoatOuter)
	inner, _ := f.keptShare(CoatInner)
	n.LeftOuterG = math.Max(0, left*outer-prepared[CoatOuter])
	n.LeftInnerG = math.Max(0, left*inner-prepared[CoatInner])
	figures = append(figures, Figure{"raw_needed_g", "Raw fleece " + f.Name + " needed", n.RawNeededG, "g",
		fmt.Sprintf("the larger of outer coat %s g and inner coat %s g, + whole fleece %s g = %s g; in hand %s g", num(raw[CoatOuter]), num(raw[CoatInner]), num(raw[CoatWhole]), num(n.RawNeededG), num(f.RawG))})
	if parted > 0 {
		figures = append(figures, f.leftFigure(CoatOuter, n.LeftOuterG, left, prepared[CoatOuter]), f.leftFigure(CoatInner, n.LeftInnerG, left, prepared[CoatInner]))
	}
	n.Figures = figures
	return n
}

// leftFigure is what the yarns leave of one prepared coat of the fleece in hand.
func (f Fleece) leftFigure(c Coat, leftG, rawG, usedG float64) Figure {
	_, words := f.keptShare(c)
	from := fmt.Sprintf("%s g raw in hand × %s − %s g for the yarns = %s g", num(rawG), words, num(usedG), num(leftG))
	if leftG == 0 {
		from = fmt.Sprintf("%s g raw in hand × %s is no more than the %s g for the yarns: nothing left, 0 g", num(rawG), words, num(usedG))
	}
	return Figure{"left_g:" + string(c), "Left of " + coatWords(c) + ", prepared", leftG, "g", from}
}
