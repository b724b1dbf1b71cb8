package cloth

import (
	"fmt"
	"strings"
)

// Coat is the part of a lot that a yarn is spun from: a coat of a fleece, or
// the line or the tow of a plant.
type Coat string

const (
	CoatOuter Coat = "outer"
	CoatInner Coat = "inner"
	CoatWhole Coat = "whole" // of a fleece not separated, or of fibre bought ready to spin
	CoatLine  Coat = "line"  // the long fibre of a hackled plant
	CoatTow   Coat = "tow"   // the short fibre that the hackle leaves
)

// Coats are all of them.
func Coats() []Coat { return []Coat{CoatOuter, CoatInner, CoatWhole, CoatLine, CoatTow} }

// LotKind is what a lot is made of, which says how it is worked.
type LotKind string

const (
	LotFleece   LotKind = "fleece"   // skirted, scoured, parted, combed or carded
	LotPlant    LotKind = "plant"    // rippled, retted, scutched, hackled
	LotPrepared LotKind = "prepared" // bought ready to spin
)

// LotKinds are all of them.
func LotKinds() []LotKind { return []LotKind{LotFleece, LotPlant, LotPrepared} }

// Coats are the coats that a lot of that kind has.
func (k LotKind) Coats() []Coat {
	switch k {
	case LotPlant:
		return []Coat{CoatLine, CoatTow}
	case LotPrepared:
		return []Coat{CoatWhole}
	}
	return []Coat{CoatOuter, CoatInner, CoatWhole}
}

// Fleece is one lot of raw fibre and what its working loses. The yields of a
// fleece are used for a fleece, those of a plant for a plant.
type Fleece struct {
	Name           string
	Kind           LotKind // "" is a fleece
	RawG           float64 // fleece as shorn, plant as pulled, prepared fibre as bought
	Regain         float64 // water ÷ dry fibre, of the clean fibre as weighed; 0: as the yarn's
	SkirtingLoss   float64 // fraction of raw
	ScouredYield   float64 // scoured ÷ skirted
	SeparationLoss float64 // fraction of scoured lost when the coats are parted
	OuterShare     float64 // outer ÷ (outer + inner), after separation
	OuterYield     float64 // prepared (top, or carded) ÷ separated outer coat
	InnerYield     float64
	WholeYield     float64 // prepared ÷ scoured when the coats are not separated
	OuterNoil      float64 // noil left in the comb ÷ separated outer coat; what is neither top nor noil is waste
	InnerNoil      float64
	WholeNoil      float64
	RippledYield   float64 // rippled and dried ÷ pulled
	RettedYield    float64 // retted and dried ÷ rippled; 1 where the scutched yield counts it
	ScutchedYield  float64 // broken and scutched ÷ retted
	HackledYield   float64 // line ÷ scutched
	TowYield       float64 // tow ÷ scutched
}

// PlantSource says where the yields of UsualPlant come from.
const PlantSource = "flax at Ribe 2010: 54 kg pulled, 25 kg rippled and dried, 4.25 kg scutched (retting in it), 2.0 kg line and 2.25 kg tow; bertas-flachs.at, viborg-shirt"

// UsualPlant gives a lot the yields of PlantSource: 0.463, 1, 0.17, 0.471 and 0.529.
func UsualPlant(f Fleece) Fleece {
	f.RippledYield, f.RettedYield, f.ScutchedYield = 25.0/54, 1, 4.25/25
	f.HackledYield, f.TowYield = 2.0/4.25, 2.25/4.25
	return f
}

// FibrePart is one fibre of a yarn.
type FibrePart struct {
	Lot   string
	Coat  Coat
	Share float64 // of the prepared fibre's mass; all parts of a yarn make 1
}

// Parts are the fibres that a yarn is spun from; none for bought yarn.
func (y Yarn) Parts() []FibrePart {
	switch {
	case len(y.Blend) > 0:
		return y.Blend
	case y.Fleece == "":
		return nil
	}
	return []FibrePart{{y.Fleece, y.Coat, 1}}
}

// Stage is what is left of a lot after one step of its working.
type Stage struct {
	Key  string // "skirted"
	Name string // "skirted"
	Coat Coat   // "" for the whole lot
	Kept float64
	How  string // the factor in words, "(1 − 0.12 skirting)"
}

func (f Fleece) kind() LotKind {
	if f.Kind == "" {
		return LotFleece
	}
	return f.Kind
}

// stages are the steps from the raw lot to the prepared fibre of a coat, each
// with the part of the step before that it keeps.
func (f Fleece) stages(c Coat) []Stage {
	switch f.kind() {
	case LotPrepared:
		return []Stage{{"bought", "bought ready to spin", c, 1, "1, bought ready to spin"}}
	case LotPlant:
		return f.plantStages(c)
	}
	out := []Stage{
		{"skirted", "skirted", "", 1 - f.SkirtingLoss, fmt.Sprintf("(1 − %s skirting)", num(f.SkirtingLoss))},
		{"scoured", "scoured", "", f.ScouredYield, num(f.ScouredYield) + " scoured yield"},
	}
	share, prepared := f.OuterShare, f.OuterYield
	switch c {
	case CoatWhole:
		return append(out, Stage{"prepared", "prepared", c, f.WholeYield, num(f.WholeYield) + " prepared"})
	case CoatInner:
		share, prepared = 1-f.OuterShare, f.InnerYield
	}
	return append(out,
		Stage{"parted", "coats parted", "", 1 - f.SeparationLoss, fmt.Sprintf("(1 − %s separation)", num(f.SeparationLoss))},
		Stage{"separated", "separated", c, share, num(share) + " share"},
		Stage{"prepared", "prepared", c, prepared, num(prepared) + " prepared"})
}

func (f Fleece) plantStages(c Coat) []Stage {
	last := Stage{"hackled", "hackled line", c, f.HackledYield, num(f.HackledYield) + " hackled to line"}
	if c == CoatTow {
		last = Stage{"tow", "tow", c, f.TowYield, num(f.TowYield) + " left as tow"}
	}
	return []Stage{
		{"rippled", "rippled and dried", "", f.RippledYield, num(f.RippledYield) + " rippled"},
		{"retted", "retted and dried", "", f.RettedYield, num(f.RettedYield) + " retted"},
		{"scutched", "scutched", "", f.ScutchedYield, num(f.ScutchedYield) + " scutched"},
		last,
	}
}

// keptShare is prepared fibre of a coat ÷ raw lot, and how it comes about.
func (f Fleece) keptShare(c Coat) (float64, string) {
	kept, words := 1.0, []string{}
	for _, s := range f.stages(c) {
		kept *= s.Kept
		words = append(words, s.How)
	}
	return kept, strings.Join(words, " × ")
}

// noilShare is noil ÷ raw lot for a coat that is combed.
func (f Fleece) noilShare(c Coat) (float64, string) {
	noil := map[Coat]float64{CoatOuter: f.OuterNoil, CoatInner: f.InnerNoil, CoatWhole: f.WholeNoil}[c]
	if f.kind() != LotFleece || noil == 0 {
		return 0, ""
	}
	kept, words := noil, []string{}
	steps := f.stages(c)
	for _, s := range steps[:len(steps)-1] {
		kept *= s.Kept
		words = append(words, s.How)
	}
	return kept, strings.Join(append(words, num(noil)+" noil"), " × ")
}

func coatWords(c Coat) string {
	switch c {
	case CoatWhole:
		return "the whole fleece"
	case CoatLine:
		return "the line"
	case CoatTow:
		return "the tow"
	}
	return "the " + string(c) + " coat"
}

// CoatWords names a coat in a sentence: "the outer coat".
func CoatWords(c Coat) string { return coatWords(c) }
