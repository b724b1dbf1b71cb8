package plan

import "ellwand/assets"

// StarterName is the file that the starter plan comes from.
const StarterName = "ferrymans-tunic.yaml"

// Starter is the plan that the program opens with: a river ferryman's tunic.
// It is part of the program and checked by its tests, so it always parses.
func Starter() *Plan {
	p, err := Parse(assets.StarterPlan(), StarterName)
	if err != nil {
		panic("the embedded starter plan is broken: " + err.Error())
	}
	return p
}
