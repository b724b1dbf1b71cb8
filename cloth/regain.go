package cloth

// Regain is the water that a fibre is agreed to hold when it is bought and sold.
type Regain struct {
	Fibre    string
	Fraction float64 // water ÷ dry fibre
	Source   string
}

// AgreedRegains are the allowances of EU regulation 1007/2011, annex IX. They
// are commercial figures, not what a fibre holds at any one weather.
func AgreedRegains() []Regain {
	return []Regain{
		{"wool, combed", 0.1825, "EU 1007/2011 annex IX (hstts.co.uk; stage.langyarns.com)"},
		{"wool, carded", 0.17, "EU 1007/2011 annex IX (wordscope.be)"},
		{"cotton", 0.085, "EU 1007/2011 annex IX (wordscope.be)"},
		{"flax", 0.12, "from memory"},
		{"hemp", 0.12, "from memory"},
		{"silk", 0.11, "from memory"},
	}
}

// RegainFromContent is water ÷ dry fibre from water ÷ the whole.
func RegainFromContent(contentShare float64) float64 { return contentShare / (1 - contentShare) }

// MassAtRegainG is what a mass at one regain weighs at another, in g.
func MassAtRegainG(massG, regainNow, regainThen float64) float64 {
	return massG / (1 + regainNow) * (1 + regainThen)
}

// ConditionedMassG is a lot's mass in g at an agreed regain, from a sample of it
// weighed as it is and dried (method: textileengineering.softecks.in/368).
func ConditionedMassG(lotG, sampleG, driedG, regain float64) float64 {
	return lotG * driedG / sampleG * (1 + regain)
}
