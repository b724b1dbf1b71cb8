package plan

import (
	"slices"

	"gopkg.in/yaml.v3"
)

// Values that a new plan was given by default stand in the list `unconfirmed`
// by their paths ("cloth.take_up") until somebody has looked at them: setting
// such a field, or confirming it, takes it off the list.

func unconfirmedKey(p *Plan) key {
	return textsKey("unconfirmed", "Defaults not yet confirmed", &p.Unconfirmed)
}

// IsDefault says whether a field holds a default that is not confirmed yet.
func (p *Plan) IsDefault(path string) bool { return slices.Contains(p.Unconfirmed, path) }

// Confirm takes fields off the list of defaults; all of them when none is named.
func (p *Plan) Confirm(paths ...string) {
	if len(paths) == 0 {
		p.Unconfirmed = nil
		return
	}
	p.Unconfirmed = slices.DeleteFunc(slices.Clone(p.Unconfirmed), func(path string) bool { return slices.Contains(paths, path) })
}

func (p *Plan) fillUnconfirmed(root *yaml.Node) {
	put(root, "unconfirmed", unconfirmedKey(p).write(), nil)
}
