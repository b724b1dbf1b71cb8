package plan

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// Values that a new plan was given by default stand in the list `unconfirmed`
// by their paths ("cloth.take_up") until somebody has looked at them: setting
// such a field, or confirming it, takes it off the list.

func unconfirmedKey(p *Plan) key {
	k := textsKey("unconfirmed", "Defaults not yet confirmed", &p.Unconfirmed)
	write := k.write
	k.write = func() *yaml.Node {
		n := write()
		if n != nil {
			n.Style = 0 // one to a line
		}
		return n
	}
	return k
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

// NewDraft takes the marks of the former draft's eases and options off, and
// where there were any marks those of the present draft.
func (p *Plan) NewDraft() {
	of := func(path string) bool {
		return strings.HasPrefix(path, "garment.ease.") || strings.HasPrefix(path, "garment.options.")
	}
	if !slices.ContainsFunc(p.Unconfirmed, of) {
		return
	}
	list := slices.DeleteFunc(slices.Clone(p.Unconfirmed), of)
	d, _ := draftOf(p.Draft)
	for _, q := range d.Ease {
		list = append(list, "garment.ease."+q.Key)
	}
	for _, q := range d.Options {
		list = append(list, "garment.options."+q.Key)
	}
	p.Unconfirmed = list
}
