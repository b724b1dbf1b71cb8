// Package assets holds what ships inside the program: the starter plan.
package assets

import _ "embed"

//go:embed plans/ferrymans-tunic.yaml
var starter []byte

// StarterPlan is the text of the starter plan; the caller may change it.
func StarterPlan() []byte { return append([]byte(nil), starter...) }
