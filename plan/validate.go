package plan

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
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
	c.sizes()
	c.dyes()
	c.coats()
	c.spindleYarns()
	c.blends()
	c.body()
	c.drawn()
	c.pieces()
	c.log()
	c.samples()
	c.realCloth()
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
	if len(c.problems) >= maxProblems {
		return
	}
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
			for i, item := range n.Content {
				if part == strconv.Itoa(i+1) && child(item, "name") == nil {
					next = item
				}
				if named := cmp.Or(child(item, "name"), child(item, "component")); named != nil && named.Value == part {
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
	twice := func(list, key string, names []string) {
		seen := map[string]bool{}
		for _, n := range names {
			if seen[n] {
				c.wrong(fmt.Sprintf("%s[%s].%s", list, n, key), "is given twice", "a name of its own for each")
			}
			if strings.TrimSpace(n) == "" {
				c.wrong(list, "has an entry whose name is empty", "a name for each")
			}
			seen[n] = true
		}
	}
	var yarns, fleeces, pieces, choices []string
	for _, y := range c.plan.Yarns {
		yarns = append(yarns, y.Name)
	}
	for _, f := range c.plan.Fleeces {
		fleeces = append(fleeces, f.Name)
	}
	for _, s := range c.plan.Pieces {
		pieces = append(pieces, s.Name)
	}
	for _, ch := range c.plan.Choices {
		choices = append(choices, ch.Component)
	}
	var seams []string
	for _, s := range c.plan.Seams {
		seams = append(seams, s.Name)
	}
	twice("seams", "name", seams)
	twice("yarns", "name", yarns)
	twice("fleeces", "name", fleeces)
	twice("pieces", "name", pieces)
	twice("choices", "component", choices)
	var lengths, flaws []string
	for _, l := range c.plan.Real.Lengths {
		lengths = append(lengths, l.Name)
	}
	for _, f := range c.plan.Real.Flaws {
		flaws = append(flaws, f.Name)
	}
	twice("real_cloth.lengths", "name", lengths)
	twice("real_cloth.flaws", "name", flaws)
	var matches []string
	for _, m := range c.plan.Matches {
		matches = append(matches, m.Name)
	}
	twice("match", "name", matches)
}

func (c *checker) yarns() {
	var yarns, fleeces []string
	for _, y := range c.plan.AllYarns() {
		yarns = append(yarns, y.Name)
	}
	for _, f := range c.plan.Fleeces {
		fleeces = append(fleeces, f.Name)
	}
	for _, d := range c.plan.Dyes {
		if d.Stage == cloth.DyeFleece {
			fleeces = append(fleeces, d.Name)
		}
	}
	known := func(field, name, what string, list []string) {
		for _, n := range list {
			if n == name {
				return
			}
		}
		if len(list) == 0 {
			c.wrong(field, fmt.Sprintf("is %q, but the plan has no %s", name, what), fmt.Sprintf("the name of a %s listed under %ss", what, what))
			return
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
	c.orders(yarns)
	if w := c.plan.Cloth.Weave; w != "" && len(c.plan.Cloth.Draft) == 0 {
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

// coats refuses a yarn from a coat that its fleece has none of: no amount of
// that fleece would serve.
func (c *checker) coats() {
	for _, y := range c.plan.dyedYarns()[:len(c.plan.Yarns)] {
		for _, part := range y.Parts() {
			for _, f := range c.plan.Fleeces {
				field := fmt.Sprintf("fleeces[%s].outer_share", f.Name)
				switch {
				case part.Lot != f.Name || f.Kind == cloth.LotPlant || f.Kind == cloth.LotPrepared:
				case part.Coat == cloth.CoatOuter && f.OuterShare == 0:
					c.wrong(field, fmt.Sprintf("is 0, but the yarn %s is spun from its outer coat", y.Name), "a share above 0, or another coat for that yarn")
				case part.Coat == cloth.CoatInner && f.OuterShare == 1:
					c.wrong(field, fmt.Sprintf("is 1, but the yarn %s is spun from its inner coat", y.Name), "a share below 1, or another coat for that yarn")
				}
			}
		}
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
			for _, d := range sortedKeys(s.Dims) {
				c.wrong(fmt.Sprintf("pieces[%s].%s", s.Name, d), "is given without a shape, and would change nothing", "a shape besides, for a piece of your own; what a draft gives is sized under garment")
			}
			if len(s.Points) > 0 {
				c.wrong(fmt.Sprintf("pieces[%s].points", s.Name), "are given without a shape, and would change nothing", "`shape: polygon` besides, for a piece of your own")
			}
			if c.plan.Draft == "" {
				c.wrong(fmt.Sprintf("pieces[%s]", s.Name), "has no shape, and there is no draft it could be a piece of", "a shape")
			}
			continue
		}
		var err error
		if s.Shape != "polygon" && len(s.Points) > 0 {
			c.wrong(fmt.Sprintf("pieces[%s].points", s.Name), "belong to `shape: polygon`, but the shape is "+s.Shape, "points with polygon, or else the sizes of that shape")
		}
		if s.Shape == "polygon" {
			for _, d := range sortedKeys(s.Dims) {
				c.wrong(fmt.Sprintf("pieces[%s].%s", s.Name, d), "does not belong to a polygon, whose size is in its points", "another shape, or no "+d)
			}
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
