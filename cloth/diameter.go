package cloth

import "math"

// DiameterRule is a published way to a yarn's diameter from its grist.
type DiameterRule struct {
	Key, Label, Source string
	k                  float64 // Ashenhurst's: diameters to the inch = k·√(yd/lb); 0: another rule
}

// Keys of the diameter rules.
const (
	RuleWoollen      = "ashenhurst woollen"
	RuleWoollenFirm  = "ashenhurst woollen, 0.86"
	RuleWorsted      = "ashenhurst worsted"
	RuleSilk         = "ashenhurst silk, cotton, linen"
	RuleTaylorCotton = "taylor cotton"
	RulePeirce       = "peirce"
	RuleRound        = "round yarn"
)

// Wool's density at 65 % relative humidity, g/cm³ (Morton and Hearle, Physical
// Properties of Textile Fibres, table 5.1), and a packing for hand-spun yarn
// that is drafted between worsted and woollen (from memory).
const (
	WoolDensityGPerCM3 = 1.31
	UsualPacking       = 0.5
)

// DiameterRules are the rules known, the one taken when a plan names none first.
func DiameterRules() []DiameterRule {
	return []DiameterRule{
		{RuleWorsted, "Ashenhurst, worsted and firm yarns, k 0.90", "faena.medievaltextiles.org, ash", AshenhurstWorsted},
		{RuleWoollen, "Ashenhurst, woollen and soft yarns, k 0.84", "faena.medievaltextiles.org, ash", AshenhurstWoollen},
		{RuleWoollenFirm, "Ashenhurst, woollen, k 0.86", "quiltingclimber.blogspot.com, 2017/09", 0.86},
		{RuleSilk, "Ashenhurst, silk, cotton and linen, k 0.91", "schoolofsweetgeorgia.com, avoid the wrap", 0.91},
		{RuleTaylorCotton, "J. T. Taylor, cotton, √(yd/lb) less 5 %", "J. T. Taylor, Cotton Weaving and Designing, 6th ed.", AshenhurstCotton},
		{RulePeirce, "Peirce, 1 ÷ (28 √Ne) inch, made for cotton", "F. T. Peirce, J. Text. Inst. 28, 1937, T45", 0},
		{RuleRound, "a round yarn of the density and packing given", "geometry; density: Morton and Hearle, table 5.1", 0},
	}
}

// DiameterRuleByKey finds a rule; "" is the first.
func DiameterRuleByKey(key string) (DiameterRule, bool) {
	for i, r := range DiameterRules() {
		if r.Key == key || key == "" && i == 0 {
			return r, true
		}
	}
	return DiameterRule{}, false
}

// DiameterMM is the diameter in mm of a yarn of tex by the rule. Density and
// packing count only for a round yarn; 0 takes wool's and the usual one.
func (r DiameterRule) DiameterMM(tex, densityGPerCM3, packingShare float64) float64 {
	if densityGPerCM3 == 0 {
		densityGPerCM3 = WoolDensityGPerCM3
	}
	if packingShare == 0 {
		packingShare = UsualPacking
	}
	switch r.Key {
	case RulePeirce:
		return PeirceDiameterMM(tex)
	case RuleRound:
		return DiameterMM(tex, densityGPerCM3, packingShare)
	}
	return 10 / DiametersPerCM(tex, r.k)
}

// Tex is the grist of a yarn of that diameter by the rule: in every rule the
// diameter grows as the square root of the grist.
func (r DiameterRule) Tex(diameterMM, densityGPerCM3, packingShare float64) float64 {
	one := r.DiameterMM(1, densityGPerCM3, packingShare)
	return diameterMM / one * diameterMM / one
}

// YarnDiameter is one rule's diameter of a yarn.
type YarnDiameter struct {
	Rule       DiameterRule
	DiameterMM float64
	WrapsPerCM float64 // threads side by side in 1 cm
}

// rule is the yarn's own diameter rule.
func (y Yarn) rule() DiameterRule {
	r, _ := DiameterRuleByKey(y.DiameterRule)
	return r
}

// Diameters are the yarn's diameters by every rule.
func (y Yarn) Diameters() []YarnDiameter {
	var out []YarnDiameter
	for _, r := range DiameterRules() {
		d := r.DiameterMM(y.Tex, y.DensityGPerCM3, y.PackingShare)
		out = append(out, YarnDiameter{r, d, 10 / d})
	}
	return out
}

// DiameterMM is the yarn's diameter, as wrapped if that was measured, or else by
// its rule; from says which.
func (y Yarn) DiameterMM() (mm float64, from string) {
	if y.WrapsPerCM > 0 {
		return DiameterOfWrapsMM(y.WrapsPerCM), "10 mm ÷ " + num(y.WrapsPerCM) + " wraps per cm, measured"
	}
	r := y.rule()
	return r.DiameterMM(y.Tex, y.DensityGPerCM3, y.PackingShare), r.Label + " (" + r.Source + ")"
}

// SurfaceAngleDeg is the angle of the surface fibres to the yarn's length; 0
// when the twist is not known.
func (y Yarn) SurfaceAngleDeg() float64 {
	if y.TwistPerCM <= 0 {
		return 0
	}
	mm, _ := y.DiameterMM()
	return TwistAngleDeg(mm, y.TwistPerCM)
}

// TwistPerCMForAngle is the turns per cm that give the surface fibres that angle.
func TwistPerCMForAngle(diameterMM, angleDeg float64) float64 {
	return math.Tan(angleDeg*math.Pi/180) / (math.Pi * diameterMM / 10)
}
