package cloth

import (
	"fmt"
	"math"
)

// FleeceNeed is what the yarns ask of one lot against what is in hand of it.
type FleeceNeed struct {
	Name                   string
	Kind                   LotKind
	RawNeededG             float64
	RawHaveG               float64
	ShortCoat              Coat    // the coat that runs out first, that sets the need
	LeftOuterG, LeftInnerG float64 // prepared fibre left over at RawHaveG
	Parts                  []PartNeed
	Stages                 []StageMass // of the whole raw lot in hand
	Figures                []Figure
}

// PartNeed is one coat of a lot, prepared, in g. Left and noil are of the whole
// raw lot in hand worked up.
type PartNeed struct {
	Coat       Coat
	NeededG    float64 // prepared fibre for the yarns
	RawNeededG float64 // raw lot that it takes
	HaveG      float64 // prepared fibre that the raw lot in hand gives
	LeftG      float64 // prepared fibre left when the yarns are spun; 0 when it does not reach
	NoilG      float64 // left in the combs
}

// StageMass is what a lot weighs after one step of its working.
type StageMass struct {
	Key, Name string
	Coat      Coat // "" for the whole lot
	G         float64
}

// fleeces works out raw fibre needed against raw fibre in hand, lot by lot.
// Outer and inner coat come from the same raw wool, line and tow from the same
// straw, so a lot's need is the larger of the two; yarn from the whole fleece
// takes raw wool of its own.
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

// preparedNeed is the prepared fibre that the yarns ask of each coat of a lot,
// at the lot's own regain.
func (w *work) preparedNeed(f Fleece) (map[Coat]float64, []Figure) {
	prepared, figures := map[Coat]float64{}, []Figure(nil)
	for _, n := range w.r.Yarns {
		y, _ := w.in.yarn(n.Name)
		for _, part := range y.Parts() {
			if part.Lot != f.Name || part.Share == 0 {
				continue
			}
			need := PreparedG(y, n.MassG, part, f)
			from := fmt.Sprintf("%s g of yarn ÷ (1 − %s lost in spinning and handling)", num(n.MassG), num(y.SpinLoss))
			if part.Share != 1 {
				from += fmt.Sprintf(" × %s of the blend", num(part.Share))
			}
			if y.Regain > 0 && f.Regain > 0 && y.Regain != f.Regain {
				from += fmt.Sprintf(" ÷ (1 + %s regain of the yarn) × (1 + %s regain of the lot)", num(y.Regain), num(f.Regain))
			}
			prepared[part.Coat] += need
			figures = append(figures, Figure{PreparedKey(y, part), "Prepared fibre for " + y.Name + ", " + coatWords(part.Coat), need, "g", from + " = " + num(need) + " g"})
		}
	}
	return prepared, figures
}

// PreparedKey is the key of the figure for one fibre of a yarn.
func PreparedKey(y Yarn, part FibrePart) string {
	if len(y.Blend) > 0 {
		return "prepared_g:" + y.Name + ":" + string(part.Coat)
	}
	return "prepared_g:" + y.Name
}

// noSuchRawG stands for a lot that has none of a coat: no amount of it serves.
const noSuchRawG = 1e12

func (f Fleece) need(prepared map[Coat]float64, figures []Figure) FleeceNeed {
	n := FleeceNeed{Name: f.Name, Kind: f.kind(), RawHaveG: f.RawG}
	raw := map[Coat]float64{}
	for _, c := range Coats() {
		g, wanted := prepared[c]
		if !wanted {
			continue
		}
		kept, words := f.keptShare(c)
		raw[c] = noSuchRawG
		if kept > 0 {
			raw[c] = math.Min(g/kept, noSuchRawG)
		}
		figures = append(figures, Figure{"raw_g:" + string(c), "Raw lot for " + coatWords(c), raw[c], "g",
			fmt.Sprintf("%s g prepared ÷ (%s) = %s g", num(g), words, num(raw[c]))})
	}
	first, second := CoatOuter, CoatInner
	if f.kind() == LotPlant {
		first, second = CoatLine, CoatTow
	}
	if n.ShortCoat = first; raw[second] > raw[first] {
		n.ShortCoat = second
	}
	parted := math.Max(raw[first], raw[second])
	if parted == 0 {
		n.ShortCoat = CoatWhole
	}
	n.RawNeededG = parted + raw[CoatWhole]
	figures = append(figures, f.rawFigure(n, first, second, raw))
	n.Parts = f.parts(prepared, raw, first, second)
	for _, p := range n.Parts {
		switch p.Coat {
		case CoatOuter:
			n.LeftOuterG = p.LeftG
		case CoatInner:
			n.LeftInnerG = p.LeftG
		}
		figures = append(figures, f.leftFigures(p, f.rawFor(p.Coat, raw))...)
	}
	n.Stages = f.stageMasses(n.Parts, raw)
	n.Figures = figures
	return n
}

func (f Fleece) rawFigure(n FleeceNeed, first, second Coat, raw map[Coat]float64) Figure {
	from := fmt.Sprintf("%s of %s, which is not parted, = %s g; in hand %s g", num(raw[CoatWhole])+" g", f.Name, num(n.RawNeededG), num(f.RawG))
	if raw[first]+raw[second] > 0 {
		from = fmt.Sprintf("the larger of %s %s g and %s %s g", coatWords(first), num(raw[first]), coatWords(second), num(raw[second]))
		if f.kind() == LotFleece {
			from += fmt.Sprintf(", + whole fleece %s g", num(raw[CoatWhole]))
		}
		from += fmt.Sprintf(" = %s g; in hand %s g", num(n.RawNeededG), num(f.RawG))
	}
	return Figure{"raw_needed_g", "Raw lot " + f.Name + " needed", n.RawNeededG, "g", from}
}

// rawFor is the raw lot in hand that a coat can be had from: what yarn of the
// whole fleece takes is not parted into coats.
func (f Fleece) rawFor(c Coat, raw map[Coat]float64) float64 {
	if c == CoatWhole {
		return math.Min(f.RawG, raw[CoatWhole])
	}
	return math.Max(0, f.RawG-raw[CoatWhole])
}

// parts are the coats that the lot is worked into, those that no yarn uses too.
func (f Fleece) parts(prepared, raw map[Coat]float64, first, second Coat) []PartNeed {
	var out []PartNeed
	for _, c := range Coats() {
		parted := c == first || c == second
		if _, wanted := prepared[c]; !wanted && !(parted && raw[first]+raw[second] > 0) {
			continue
		}
		from := f.rawFor(c, raw)
		if c == CoatWhole && raw[first]+raw[second] == 0 {
			from = f.RawG
		}
		kept, _ := f.keptShare(c)
		noil, _ := f.noilShare(c)
		have := from * kept
		left := have - prepared[c]
		if left <= 1e-9*have {
			left = 0
		}
		out = append(out, PartNeed{Coat: c, NeededG: prepared[c], RawNeededG: raw[c], HaveG: have, LeftG: left, NoilG: from * noil})
	}
	return out
}

// leftFigures is what the yarns leave of one prepared coat of the lot in hand,
// and the noil of it.
func (f Fleece) leftFigures(p PartNeed, rawG float64) []Figure {
	kept, words := f.keptShare(p.Coat)
	if p.Coat == CoatWhole && kept > 0 {
		rawG = p.HaveG / kept
	}
	from := fmt.Sprintf("%s g raw in hand × %s − %s g for the yarns = %s g", num(rawG), words, num(p.NeededG), num(p.LeftG))
	if p.LeftG == 0 {
		from = fmt.Sprintf("%s g raw in hand × %s is no more than the %s g for the yarns: nothing left, 0 g", num(rawG), words, num(p.NeededG))
	}
	var out []Figure
	if p.Coat != CoatWhole || rawG == f.RawG { // beside parted coats the whole takes just what it needs
		out = append(out, Figure{"left_g:" + string(p.Coat), "Left of " + coatWords(p.Coat) + ", prepared", p.LeftG, "g", from})
	}
	if p.NoilG > 0 {
		_, words := f.noilShare(p.Coat)
		out = append(out, Figure{"noil_g:" + string(p.Coat), "Noil of " + coatWords(p.Coat), p.NoilG, "g",
			fmt.Sprintf("%s g raw in hand × %s = %s g", num(rawG), words, num(p.NoilG))})
	}
	return out
}

// stageMasses is what the lot in hand weighs after each step. Where part of it
// goes unparted, the steps after scouring are those of each part.
func (f Fleece) stageMasses(parts []PartNeed, raw map[Coat]float64) []StageMass {
	out := []StageMass{{"raw", "raw", "", f.RawG}}
	said := map[string]bool{}
	for _, p := range parts {
		kept, _ := f.keptShare(p.Coat)
		if kept <= 0 {
			continue
		}
		from := p.HaveG / kept
		g := 1.0
		for _, s := range f.stages(p.Coat) {
			g *= s.Kept
			mass := StageMass{s.Key, s.Name, s.Coat, from * g}
			switch {
			case s.Coat == "" && s.Key != "parted" && !said[s.Key]: // of the whole lot
				mass.G = f.RawG * g
			case s.Coat == "" && said[s.Key]:
				continue
			}
			said[s.Key] = s.Coat == "" || said[s.Key]
			out = append(out, mass)
		}
	}
	return out
}

// Scarcest is the lot that runs out first, and how much of its need is in hand
// (1 is just enough, 2 twice); false when no yarn is spun from any.
func (r Reckoning) Scarcest() (FleeceNeed, float64, bool) {
	var out FleeceNeed
	least := math.Inf(1)
	for _, f := range r.Fleeces {
		if f.RawNeededG > 0 && f.RawHaveG/f.RawNeededG < least {
			out, least = f, f.RawHaveG/f.RawNeededG
		}
	}
	return out, least, !math.IsInf(least, 1)
}
