package ui

import "ellwand/plan"

// boundSentence says below what length no lay can be, or that this one is proved
// as short as can be.
func boundSentence(r *plan.Result, units string) string {
	if r.ProvedShortest() {
		return words("This lay is proved: no lay at this width can be shorter.")
	}
	return words("No lay at this width can be shorter than %s.", length(r.LowerBoundCM, units))
}
