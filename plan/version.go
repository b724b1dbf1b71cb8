package plan

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// older is a plan file as a program before this one wrote it.
type older struct {
	version int
	data    []byte
}

// upgrade brings a plan's tree from the version before to the one it stands
// under in upgrades. It moves and renames keys and drops nothing; what it
// cannot understand it leaves for the reader to name.
type upgrade func(root *yaml.Node)

// upgrades lead from each older version to the next: the first from 0 to 1.
func upgrades() []upgrade { return []upgrade{fromDraft} }

// fromDraft brings a plan from version 0, the draft of the file's form: there
// the units shown were `units`, and the room for the shears was `gap_cm` at the
// top of the file. No program given out has written it; it keeps the way from
// old to new in use and tried.
func fromDraft(root *yaml.Node) {
	renameKey(root, "units", "show_units")
	if i := keyAt(root, "gap_cm"); i >= 0 {
		key, value := root.Content[i], root.Content[i+1]
		if cutting := child(root, "cutting"); cutting != nil {
			if cutting.Kind != yaml.MappingNode || child(cutting, "gap_cm") != nil {
				return
			}
			root.Content = slices.Delete(root.Content, i, i+2)
			cutting.Content = append(cutting.Content, key, value)
			return
		}
		below := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: key.Line, Content: []*yaml.Node{key, value}}
		name := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: "cutting", Line: key.Line, HeadComment: key.HeadComment}
		key.HeadComment = ""
		root.Content[i], root.Content[i+1] = name, below
	}
}

// keyAt is where a key stands in a mapping, -1 for nowhere.
func keyAt(n *yaml.Node, name string) int {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == name {
			return i
		}
	}
	return -1
}

// renameKey gives a key another name where that is free.
func renameKey(n *yaml.Node, from, to string) {
	if i := keyAt(n, from); i >= 0 && keyAt(n, to) < 0 {
		n.Content[i].Value = to
	}
}

// upgradeTree brings the tree to this program's version.
func (r *reader) upgradeTree(root *yaml.Node, data []byte) {
	n := child(root, "ellwand")
	if n == nil {
		return
	}
	v, ok := number(n)
	if !ok || v != math.Trunc(v) || v < 0 || v >= Version {
		return
	}
	r.plan.original = &older{int(v), bytes.Clone(data)}
	for _, step := range upgrades()[int(v):] {
		step(root)
	}
	n.Value, n.Tag, n.Style = plain(Version), "!!int", 0
}

// UpgradedFrom is the version of the file that the plan was read from;
// Version when that is this program's own.
func (p *Plan) UpgradedFrom() int {
	if p.original == nil {
		return Version
	}
	return p.original.version
}

// keepOriginal keeps a file as an older program wrote it, under a name that is
// free, beside the one that will take its place.
func (o *older) keep(path string) error {
	for n := 1; ; n++ {
		kept := fmt.Sprintf("%s.v%d~", path, o.version)
		if n > 1 {
			kept = fmt.Sprintf("%s.v%d~%d", path, o.version, n)
		}
		there, err := os.ReadFile(kept)
		if err == nil && bytes.Equal(there, o.data) {
			return nil
		}
		if err == nil {
			continue
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return cannotWrite(kept, err)
		}
		if err := WriteFile(kept, func(w io.Writer) error { _, err := w.Write(o.data); return err }); err != nil {
			return fmt.Errorf("keeping the plan as it was before version %d: %w", Version, err)
		}
		return nil
	}
}

// NewerVersion is a plan from a newer program than this: it may hold what this
// one does not know, so that figures made from it may be wrong, and saving
// would lose it. It can be looked at, and that is all.
type NewerVersion struct {
	Version string
	Unread  []string // keys, with their lines, that this program does not know
}

// Error implements error.
func (n *NewerVersion) Error() string {
	text := fmt.Sprintf("this plan is version %s and comes from a newer Ellwand; this one knows version %d, so it is shown to be looked at, and is neither changed nor saved", n.Version, Version)
	switch len(n.Unread) {
	case 0:
		return text
	case 1:
		return text + "; not shown is " + n.Unread[0]
	}
	return text + "; not shown are " + strings.Join(n.Unread, ", ")
}

// LoadToLook reads a plan of any version: a newer one as far as this program
// knows its keys, with Newer set. Such a plan cannot be saved.
func LoadToLook(path string) (*Plan, Stamp, error) {
	data, err := readSource(path)
	if err != nil {
		return nil, Stamp{}, err
	}
	p, err := Parse(data, path)
	if ps, ok := errors.AsType[Problems](err); ok && slices.ContainsFunc(ps, func(p *Problem) bool { return p.newer }) {
		p, err = parseNewer(data, path)
	}
	return p, stampOf(data), err
}

// parseNewer reads what it can of a newer plan. What it cannot read it leaves
// out, as long as what is left is a plan.
func parseNewer(data []byte, name string) (*Plan, error) {
	root, err := parseSource(data, name)
	if err != nil {
		return nil, err
	}
	n := child(root, "ellwand")
	newer := &NewerVersion{Version: n.Value}
	n.Value = plain(Version)
	const mostTries = 200
	for range mostTries {
		r := &reader{plan: blank(), file: name}
		r.top(root)
		if len(r.problems) == 0 {
			r.problems = r.plan.problems(name)
		}
		if len(r.problems) == 0 {
			r.plan.stamp = stampOf(data)
			r.plan.Newer, r.plan.root, r.plan.spaced = newer, root, spacingOf(root, data)
			return r.plan, nil
		}
		gone := ""
		for _, p := range r.problems {
			if gone = removeField(root, p.Field); gone != "" {
				newer.Unread = append(newer.Unread, fmt.Sprintf("%s (line %d)", gone, p.Line))
				break
			}
		}
		if gone == "" {
			return nil, tooNew(name, n, r.problems[0])
		}
	}
	return nil, tooNew(name, n, nil)
}

func tooNew(name string, n *yaml.Node, why *Problem) error {
	text := "is from a newer Ellwand, and so much of it is unknown to this one that it cannot even be shown"
	if why != nil {
		text += " (" + strings.TrimSpace(strings.TrimSuffix(cmp.Or(why.Field, "the file")+" "+why.Text, ".")) + ")"
	}
	return &Problem{File: name, Line: n.Line, Field: "ellwand", Text: text, Accepted: fmt.Sprintf("a plan of version %d, or a newer Ellwand to open this one", Version)}
}

// removeField takes a field out of the tree and names it; "" when it cannot be
// found, and nothing is taken.
func removeField(root *yaml.Node, field string) string {
	n := root
	parts := splitField(field)
	for i, part := range parts {
		if n.Kind == yaml.SequenceNode {
			at := slices.IndexFunc(n.Content, func(item *yaml.Node) bool {
				named := cmp.Or(child(item, "name"), child(item, "component"))
				return named != nil && named.Value == part
			})
			if at < 0 {
				return ""
			}
			if i == len(parts)-1 {
				n.Content = slices.Delete(n.Content, at, at+1)
				return field
			}
			n = n.Content[at]
			continue
		}
		at := keyAt(n, part)
		if n.Kind != yaml.MappingNode || at < 0 {
			return ""
		}
		if i == len(parts)-1 {
			n.Content = slices.Delete(n.Content, at, at+2)
			return field
		}
		n = n.Content[at+1]
	}
	return ""
}
