// Package assets holds what ships inside the program: the starter plan, the
// icon and the licences.
package assets

import _ "embed"

//go:embed plans/ferrymans-tunic.yaml
var starter []byte

//go:embed icon/ellwand.svg
var icon []byte

//go:embed licences.txt
var licences string

// StarterPlan is the text of the starter plan; the caller may change it.
func StarterPlan() []byte { return append([]byte(nil), starter...) }

// Icon is the program's icon, an SVG; the caller may change it.
func Icon() []byte { return append([]byte(nil), icon...) }

// Licences is the licence of the program and of everything linked into it: a
// list, then each text. scripts/licences.sh makes it.
func Licences() string { return licences }
