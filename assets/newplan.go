package assets

import _ "embed"

//go:embed plans/new-plan.yaml
var newPlan []byte

// NewPlan is the text of the plan that a new one begins with, its defaults
// filled in; the caller may change it.
func NewPlan() []byte { return append([]byte(nil), newPlan...) }
