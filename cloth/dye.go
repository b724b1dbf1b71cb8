package cloth

import (
	"fmt"
	"strings"
	"unicode"
)

// DyeStage is what is dyed.
type DyeStage string

const (
	DyeFleece DyeStage = "fleece" // fibre, scoured and parted, before it is combed or carded
	DyeYarn   DyeStage = "yarn"
	DyeCloth  DyeStage = "cloth"
)

// DyeStages are all of them, in the order of the work.
func DyeStages() []DyeStage { return []DyeStage{DyeFleece, DyeYarn, DyeCloth} }

// Dye is one dyeing. What it dyes is from then on a lot of its own, under its
// name. Amounts are per cent of the weight of fibre; there is no usual one, for
// they hang on the dyestuff's strength and on the maker's own trials.
type Dye struct {
	Name                                              string
	Stage                                             DyeStage
	Of                                                string // the lot, or the yarn, that is dyed; "" for the cloth
	Mordant, Assistant, Dyestuff                      string
	MordantPercent, AssistantPercent, DyestuffPercent float64 // of the weight of fibre
	Colour                                            string
}

// DyeNeed is what a dyeing takes.
type DyeNeed struct {
	Dye
	FibreG                          float64
	MordantG, AssistantG, DyestuffG float64
	Figures                         []Figure
	Cautions                        []string
}

// Reckon is what a dyeing takes for so much fibre; from says how that comes about.
func (d Dye) Reckon(fibreG float64, from string) DyeNeed {
	n := DyeNeed{Dye: d, FibreG: fibreG, Cautions: d.Cautions()}
	n.Figures = []Figure{{"dye_fibre_g:" + d.Name, "Fibre to be dyed " + d.Name, fibreG, "g", from + " = " + num(fibreG) + " g"}}
	take := func(key, what string, percent float64) float64 {
		g := fibreG * percent / 100
		if percent > 0 {
			if what == "" {
				what = strings.ReplaceAll(key, "_", " ")
			}
			n.Figures = append(n.Figures, Figure{key + "_g:" + d.Name, strings.ToUpper(what[:1]) + what[1:] + " for " + d.Name, g, "g",
				fmt.Sprintf("%s g of fibre × %s %% ÷ 100 = %s g", num(fibreG), num(percent), num(g))})
		}
		return g
	}
	n.MordantG = take("mordant", d.Mordant, d.MordantPercent)
	n.AssistantG = take("assistant", d.Assistant, d.AssistantPercent)
	n.DyestuffG = take("dyestuff", d.Dyestuff, d.DyestuffPercent)
	return n
}

// Cautions are those of the dyeing: of dye pots at all, and of its mordant (trade
// knowledge after HSE's textile sheets on dyes, chemknits.com and
// rebeccadesnos.com, safety). They name no recipe.
func (d Dye) Cautions() []string {
	out := []string{"Dye pots scald and their steam carries what is in them: gloves, open air or good ventilation, vessels and spoons kept for dyeing alone and never used for food; follow each product's safety data sheet."}
	words := strings.FieldsFunc(strings.ToLower(d.Mordant+" "+d.Assistant), func(r rune) bool { return !unicode.IsLetter(r) })
	has := func(stems ...string) bool {
		for _, w := range words {
			for _, stem := range stems {
				if w == stem || len(stem) > 3 && strings.HasPrefix(w, stem) {
					return true
				}
			}
		}
		return false
	}
	for _, c := range []struct {
		stems []string
		text  string
	}{
		{[]string{"chrom"}, "Potassium dichromate is very toxic, harms by skin and breath, and feeds fire: do without it if you can; local law and its safety data sheet come first."},
		{[]string{"tin", "stann"}, "Tin salts are corrosive: goggles and gloves, no breathing in of the powder; their safety data sheet comes first."},
		{[]string{"copper", "blue vitriol"}, "Copper salts irritate and harm water life: goggles and gloves, nothing of them down the drain; their safety data sheet comes first."},
		{[]string{"iron", "ferrous", "copperas"}, "Iron salts irritate, and a child that swallows them is poisoned: goggles and gloves, locked away; their safety data sheet comes first."},
		{[]string{"alum", "aluminium"}, "Alum irritates eyes and lungs as a powder: add it to water without raising dust; its safety data sheet comes first."},
		{[]string{"lye", "ammonia", "soda", "urine", "lime"}, "Alkali burns skin and eyes: goggles and gloves, and mind that it also harms wool; its safety data sheet comes first."},
	} {
		if has(c.stems...) {
			out = append(out, c.text)
		}
	}
	return out
}

// PreparedG is the prepared fibre that one part of a yarn takes of its lot, at
// the lot's own regain, for so much yarn.
func PreparedG(y Yarn, yarnG float64, part FibrePart, lot Fleece) float64 {
	g := yarnG / (1 - y.SpinLoss) * part.Share
	if y.Regain > 0 && lot.Regain > 0 {
		g = MassAtRegainG(g, y.Regain, lot.Regain)
	}
	return g
}

// ToPrepareG is the fibre of a coat from which so much prepared fibre comes: as
// it lies when it is dyed in the fleece.
func (f Fleece) ToPrepareG(c Coat, preparedG float64) (g float64, from string) {
	stages := f.stages(c)
	last := stages[len(stages)-1]
	if f.kind() != LotFleece || last.Kept <= 0 {
		return preparedG, num(preparedG) + " g prepared"
	}
	return preparedG / last.Kept, fmt.Sprintf("%s g prepared ÷ %s", num(preparedG), num(last.Kept))
}
