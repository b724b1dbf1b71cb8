package cloth

import (
	"fmt"
	"math"
)

// Exact by definition: 1 lb = 453.59237 g, 1 yd = 0.9144 m.
const (
	gramsPerPound  = 453.59237
	metresPerYard  = 0.9144
	texYardsPerLb  = gramsPerPound / metresPerYard * 1000 // tex × yd/lb
	sideRuleFactor = 0.0356825                            // d mm = 0.0356825·√(tex/(ρφ)), a circle's area
)

// CountSystem is a way of saying how coarse a yarn is.
type CountSystem struct {
	Key, Label string
	direct     bool    // mass for a length; else length for a mass
	factor     float64 // tex = count × factor, or factor ÷ count
}

// CountSystems are the systems known. Factors follow from each system's unit
// length and mass (ISO 1144; textilecalculations.com, different yarn count system).
func CountSystems() []CountSystem {
	hank := func(yards float64) float64 { return texYardsPerLb / yards }
	return []CountSystem{
		{"tex", "tex, g per km", true, 1},
		{"dtex", "decitex, g per 10 km", true, 0.1},
		{"denier", "denier, g per 9 km", true, 1.0 / 9},
		{"nm", "metric Nm, km per kg", false, 1000},
		{"worsted", "worsted, 560 yd hanks per lb", false, hank(560)},
		{"run", "woollen run, 1600 yd per lb", false, hank(1600)},
		{"cut", "woollen cut, 300 yd per lb", false, hank(300)},
		{"yorkshire_skein", "Yorkshire skein, 256 yd per lb", false, hank(256)},
		{"dewsbury", "Dewsbury, yd per oz", false, hank(16)},
		{"cotton", "cotton Ne, 840 yd hanks per lb", false, hank(840)},
		{"linen", "linen lea, 300 yd per lb", false, hank(300)},
		{"jute", "jute, lb per spyndle of 14400 yd", true, texYardsPerLb / 14400},
		{"m_per_100g", "metres per 100 g", false, 100000},
		{"yd_per_lb", "yards per pound", false, hank(1)},
	}
}

// CountSystemByKey finds a system.
func CountSystemByKey(key string) (CountSystem, bool) {
	for _, s := range CountSystems() {
		if s.Key == key {
			return s, true
		}
	}
	return CountSystem{}, false
}

// Folded is the resultant count of plies threads of one count, ply take-up not
// counted: Nm 60/2 is Nm 30, 2 × 40 tex is 80 tex.
func (s CountSystem) Folded(count float64, plies int) float64 {
	if s.direct {
		return count * float64(plies)
	}
	return count / float64(plies)
}

// Tex turns a count in this system into tex. Folded yarn: give the resultant count.
func (s CountSystem) Tex(count float64) float64 {
	if s.direct {
		return count * s.factor
	}
	return s.factor / count
}

// Count turns tex into a count in this system.
func (s CountSystem) Count(tex float64) float64 {
	if s.direct {
		return tex / s.factor
	}
	return s.factor / tex
}

// YardsPerPound is the yarn's length in yards for one pound.
func YardsPerPound(tex float64) float64 { return texYardsPerLb / tex }

// CottonCount is the English cotton count Ne.
func CottonCount(tex float64) float64 { return texYardsPerLb / 840 / tex }

// DiameterMM is a round yarn's diameter from its grist, the fibre's density in
// g/cm³ (wool 1.31: Morton and Hearle, Physical Properties of Textile Fibres,
// table 5.1) and the part of the yarn that is fibre.
// Worked: 100 tex wool, packing 0.5: 0.441 mm.
func DiameterMM(tex, densityGPerCM3, packingShare float64) float64 {
	return sideRuleFactor * math.Sqrt(tex/(densityGPerCM3*packingShare))
}

// PeirceDiameterMM is Peirce's rule 1/(28√Ne) inch, made for cotton and too
// thin for woollen yarn (F. T. Peirce, J. Text. Inst. 28, 1937, T45).
func PeirceDiameterMM(tex float64) float64 {
	return cmPerInch * 10 / (28 * math.Sqrt(CottonCount(tex)))
}

// DiameterOfWrapsMM is the diameter of a yarn of which so many wraps lie side by
// side in 1 cm (definition).
func DiameterOfWrapsMM(wrapsPerCM float64) float64 { return 10 / wrapsPerCM }

// TexTwistMultiplier is turns per cm × √tex; yarns of one multiplier have one
// surface angle (rieter.com, derivation of the twist equation).
func TexTwistMultiplier(turnsPerCM, tex float64) float64 { return turnsPerCM * math.Sqrt(tex) }

// TwistAngleDeg is the angle of the surface fibres: tanθ = π·d·T.
func TwistAngleDeg(diameterMM, turnsPerCM float64) float64 {
	return math.Atan(math.Pi*diameterMM/10*turnsPerCM) * 180 / math.Pi
}

// Crimp is (yarn − cloth) ÷ cloth; TakeUpOf is (yarn − cloth) ÷ yarn. They
// differ by their base and are easily mistaken for each other.
func Crimp(yarnM, clothM float64) float64 { return (yarnM - clothM) / clothM }

// TakeUpOf is the part of the yarn's length that the cloth lacks.
func TakeUpOf(yarnM, clothM float64) float64 { return (yarnM - clothM) / yarnM }

// SampleLosses are the losses of one sample measured in its three states, all
// in one unit: take-up or draw-in from the loom, then shrinkage from finishing.
// A state longer than the one before it is refused: such a sample was measured
// wrongly, or its threads were not held when it was.
// Worked: 75 under tension, 65 off the loom: 13.3 % (therogueweaver.com, 2025/8/22).
func SampleLosses(onLoomCM, offLoomCM, finishedCM float64) (loomLoss, shrink float64, err error) {
	for _, e := range []error{
		positive("the sample on the loom", onLoomCM),
		within("the sample off the loom", offLoomCM, offLoomCM > 0 && offLoomCM <= onLoomCM, fmt.Sprintf("above 0 and at most %s, its size on the loom", num(onLoomCM))),
		within("the sample finished", finishedCM, finishedCM > 0 && finishedCM <= offLoomCM, fmt.Sprintf("above 0 and at most %s, its size off the loom", num(offLoomCM))),
	} {
		if e != nil {
			return 0, 0, e
		}
	}
	return TakeUpOf(onLoomCM, offLoomCM), TakeUpOf(offLoomCM, finishedCM), nil
}

// PeirceCrimp is Peirce's working approximation of the crimp of a thread
// displaced by h and crossed at spacing p, both in mm: c = (9/16)(h/p)²
// (F. T. Peirce, 1937, after business.vsnl.com/balasubramanian).
func PeirceCrimp(hMM, pMM float64) float64 { return 9.0 / 16 * (hMM / pMM) * (hMM / pMM) }
