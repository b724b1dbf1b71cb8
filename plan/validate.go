package plan

import (
	"errors"
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
	"ellwand/garment"
)

// Validate says what in a plan does not belong together: names that stand for
// nothing, measurements of no one body, a garment that cannot be drafted.
// The error is Problems, with lines when the plan came from a file.
func (p *Plan) Validate() error {
	if ps := p.problems(""); len(ps) > 0 {
		return ps
	}
	return nil
}

func (p *Plan) problems(file string) Problems {
	c := &checker{plan: p, file: file}
	c.names()
	c.yarns()
	c.body()
	c.pieces()
	if len(c.problems) == 0 {
		c.garment()
	}
	return c.problems
}

type checker struct {
	plan     *Plan
	file     string
	problems Problems
}

func (c *checker) wrong(field, text, accepted string) {
	c.problems = append(c.problems, &Problem{File: c.file, Line: lineOf(c.plan.root, field), Field: field, Text: text, Accepted: accepted})
}

// lineOf is the line on which a field stands, or the nearest one above it.
func lineOf(root *yaml.Node, field string) int {
	if root == nil {
		return 0
	}
	n, line := root, root.Line
	for _, part := range splitField(field) {
		next := child(n, part)
		if next == nil && n.Kind == yaml.SequenceNode {
			for _, item := range n.Content {
				if named := child(item, "name"); named != nil && named.Value == part {
					next = item
				}
			}
		}
		if next == nil {
			break
		}
		n, line = next, next.Line
	}
	return line
}

// splitField parts "yarns[grey-warp].tex" into yarns, grey-warp, tex.
func splitField(field string) []string {
	var out []string
	for field != "" {
		if strings.HasPrefix(field, "[") {
			if end := strings.Index(field, "]"); end > 0 {
				out, field = append(out, field[1:end]), strings.TrimPrefix(field[end+1:], ".")
				continue
			}
		}
		end := strings.IndexAny(field, ".[")
		if end < 0 {
			return append(out, field)
		}
		if end == 0 {
			return append(out, field)
		}
		out, field = append(out, field[:end]), strings.TrimPrefix(field[end:], ".")
	}
	return out
}

// names refuses two of one name: nothing could then be said of one of them.
func (c *checker) names() {
	twice := func(list string, names []string) {
		seen := map[string]bool{}
		for _, n := range names {
			if seen[n] {
				c.wrong(fmt.Sprintf("%s[%s].name", list, n), "is given twice", "a name of its own for each")
			}
			if strings.TrimSpace(n) == "" {
				c.wrong(list, "has an entry whose name is empty", "a name for each")
			}
			seen[n] = true
		}
	}
	var yarns, fleeces, pieces []string
	for _, y := range c.plan.Yarns {
		yarns = append(yarns, y.Name)
	}
	for _, f := range c.plan.Fleeces {
		fleeces = append(fleeces, f.Name)
	}
	for _, s := range c.plan.Pieces {
		pieces = append(pieces, s.Name)
	}
	twice("yarns", yarns)
	twice("fleeces", fleeces)
	twice("pieces", pieces)
}

func (c *checker) yarns() {
	var yarns, fleeces []string
	for _, y := range c.plan.Yarns {
		yarns = append(yarns, y.Name)
	}
	for _, f := range c.plan.Fleeces {
		fleeces = append(fleeces, f.Name)
	}
	known := func(field, name, what string, list []string) {
		for _, n := range list {
			if n == name {
				return
			}
		}
		text := fmt.Sprintf("is %q, but there is no %s of that name", name, what)
		if near := nearest(name, list); near != "" {
			text += " (did you mean " + near + "?)"
		}
		c.wrong(field, text, oneOf(list))
	}
	known("cloth.warp", c.plan.WarpYarn, "yarn", yarns)
	known("cloth.weft", c.plan.WeftYarn, "yarn", yarns)
	for _, y := range c.plan.Yarns {
		if y.Fleece != "" {
			known(fmt.Sprintf("yarns[%s].fibre.lot", y.Name), y.Fleece, "fleece", fleeces)
		}
	}
	if w := c.plan.Cloth.Weave; w != "" {
		var weaves []string
		for _, k := range cloth.Weaves() {
			weaves = append(weaves, k.Name)
		}
		known("cloth.weave", w, "weave", weaves)
	}
	for _, ends := range c.plan.Cloth.DentOrder {
		if ends > 0 {
			return
		}
	}
	if len(c.plan.Cloth.DentOrder) > 0 {
		c.wrong("cloth.dent_order", "leaves every dent empty", "at least one dent with an end in it")
	}
}

func (c *checker) body() {
	for _, err := range c.plan.Body.Check() {
		field := "body"
		for _, m := range garment.Measures() {
			if strings.HasPrefix(err.Error(), string(m.Key)) {
				field = "body." + string(m.Key)
			}
		}
		c.wrong(field, "cannot be right: "+strings.TrimSuffix(err.Error(), "."), "")
	}
}

// pieces checks own pieces' shapes; overrides are checked once the draft is made.
func (c *checker) pieces() {
	for _, s := range c.plan.Pieces {
		if s.Shape == "" {
			if c.plan.Draft == "" {
				c.wrong(fmt.Sprintf("pieces[%s]", s.Name), "has no shape, and there is no draft it could be a piece of", "a shape")
			}
			continue
		}
		var err error
		if s.Shape == "polygon" {
			_, _, err = garment.FromPoints(s.Points)
		} else {
			_, _, err = garment.FromShape(s.Shape, s.Dims)
		}
		if err != nil {
			c.wrong(fmt.Sprintf("pieces[%s]", s.Name), "cannot be made: "+err.Error(), "")
		}
	}
	if c.plan.Draft == "" && len(c.plan.Pieces) == 0 {
		c.wrong("garment.draft", "is missing and there are no pieces", "a draft, or pieces of your own")
	}
}

// garment drafts the garment and makes its cut outlines: what fails there is
// a fault of the plan as well.
func (c *checker) garment() {
	_, err := Prepare(c.plan)
	var one *Problem
	var many Problems
	var cannot *Unmakeable
	switch {
	case err == nil, errors.As(err, &cannot): // well written, if not to be made on this loom
	case errors.As(err, &many):
		for _, p := range many {
			c.wrong(p.Field, p.Text, p.Accepted)
		}
	case errors.As(err, &one):
		c.wrong(one.Field, one.Text, one.Accepted)
	default:
		c.wrong("garment", "cannot be made: "+strings.TrimSuffix(strings.ReplaceAll(err.Error(), "\n", "; "), "."), "")
	}
}
