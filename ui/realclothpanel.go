package ui

import (
	"fmt"
	"slices"
	"strings"

	"ellwand/plan"
)

func realClothShape(b *bench) string {
	var parts []string
	c := b.plan().Real
	for _, l := range c.Lengths {
		parts = append(parts, l.Name)
	}
	for _, f := range c.Flaws {
		parts = append(parts, f.Name, fmt.Sprint(len(f.OutlineCM) > 0))
	}
	return strings.Join(append(parts, fmt.Sprint(len(c.Widths))), "|")
}

func fillRealCloth(f *form) {
	f.note("What is measured here takes the place of the cloth as planned. Places count from a length's first cut end and from the left selvedge. Lay, What must move?, keeps what can stay.")
	f.field("cloth.finished_width_cm")
	f.flaws()
	f.measuredWidths()
	f.clothLengths()
	f.heading("What lies where")
	f.said(func() string { return whatLiesWhere(f.b.shown, f.b.plan().ShowUnits) })
}

func whatLiesWhere(r *plan.Result, units string) string {
	if r == nil || len(r.Lengths) == 0 {
		return words("The cloth is all one.")
	}
	var lines []string
	for _, u := range r.Lengths {
		of := ""
		if u.LengthCM > 0 {
			of = " of " + length(u.LengthCM, units)
		}
		lines = append(lines, fmt.Sprintf("%s, %s%s: %s", u.Name, length(u.UsedCM, units), of, strings.Join(u.Pieces, ", ")))
	}
	return strings.Join(lines, "\n")
}

// changeReal is a step of the history that changes the real cloth.
func (f *form) changeReal(name string, change func(*plan.RealCloth)) error {
	return f.b.do(name, func(p *plan.Plan) error { change(&p.Real); return nil })
}

// on offers the lengths of cloth for a flaw or a measured width.
func (f *form) on(path string) {
	lengths := f.b.plan().Real.Lengths
	if len(lengths) < 2 {
		return
	}
	spec := f.plain(path, "On the length", "")
	spec.options = []option{{"", lengths[0].Name}}
	for _, l := range lengths[1:] {
		spec.options = append(spec.options, option{l.Name, l.Name})
	}
	f.put(spec)
}

func (f *form) flaws() {
	f.heading("Flaws")
	for _, flaw := range f.b.plan().Real.Flaws {
		under := "real_cloth.flaws[" + flaw.Name + "]."
		f.put(f.plain(under+"name", "Name", ""))
		f.on(under + "on")
		if len(flaw.OutlineCM) > 0 {
			f.flawCorners(flaw.Name)
			f.said(func() string { return f.whereFlaw(flaw.Name) })
		} else {
			f.field(under + "from_cm")
			f.field(under + "to_cm")
		}
		f.button("Remove this flaw", func() error {
			return f.changeReal("remove "+flaw.Name, func(c *plan.RealCloth) {
				c.Flaws = slices.DeleteFunc(c.Flaws, func(g plan.Flaw) bool { return g.Name == flaw.Name })
			})
		})
		f.gap(6)
	}
	f.button("Add a flaw with corners", func() error {
		if f.b.shown == nil {
			return errNotLaid
		}
		return f.b.addFlaw(plan.Flaw{OutlineCM: [][2]float64{{0, 0}, {5, 0}, {5, 5}, {0, 5}}})
	})
	f.button("Add a stripe flawed right across", func() error {
		return f.changeReal("add a flaw", func(c *plan.RealCloth) {
			name := freshName("flaw", func(n string) bool {
				return slices.ContainsFunc(c.Flaws, func(g plan.Flaw) bool { return g.Name == n })
			})
			c.Flaws = append(c.Flaws, plan.Flaw{Name: name, FromCM: 0, ToCM: 1})
		})
	})
}

// whereFlaw says where a flaw with an outline lies now.
func (f *form) whereFlaw(name string) string {
	for _, flaw := range f.b.plan().Real.Flaws {
		if flaw.Name == name && len(flaw.OutlineCM) > 0 {
			return outlineWords(flaw.OutlineCM, f.b.plan().ShowUnits)
		}
	}
	return ""
}

// outlineWords says where a flaw with an outline lies.
func outlineWords(corners [][2]float64, units string) string {
	x0, x1, y0, y1 := corners[0][0], corners[0][0], corners[0][1], corners[0][1]
	for _, c := range corners {
		x0, x1, y0, y1 = min(x0, c[0]), max(x1, c[0]), min(y0, c[1]), max(y1, c[1])
	}
	return words("An outline of %d corners, %s to %s along, %s to %s across.", len(corners),
		length(x0, units), length(x1, units), length(y0, units), length(y1, units))
}

func (f *form) measuredWidths() {
	f.heading("Width, measured along the cloth")
	for i := range f.b.plan().Real.Widths {
		under := fmt.Sprintf("real_cloth.widths[%d].", i+1)
		f.on(under + "on")
		for _, key := range []string{"at_cm", "width_cm", "left_cm"} {
			f.field(under + key)
		}
		f.button("Remove this width", func() error {
			return f.changeReal("remove a width", func(c *plan.RealCloth) { c.Widths = slices.Delete(slices.Clone(c.Widths), i, i+1) })
		})
		f.gap(6)
	}
	f.button("Add a width", func() error {
		long, wide := 0.0, 0.0
		if f.b.shown != nil {
			long, wide = f.b.shown.ClothCM(), f.b.shown.Lay.WidthCM
		}
		return f.changeReal("add a width", func(c *plan.RealCloth) {
			if len(c.Widths) == 0 { // one place alone says nothing of the length
				c.Widths = append(c.Widths, plan.MeasuredWidth{AtCM: 0, WidthCM: wide}, plan.MeasuredWidth{AtCM: max(1, long), WidthCM: wide})
				return
			}
			last := c.Widths[len(c.Widths)-1]
			last.AtCM += 10
			c.Widths = append(c.Widths, last)
		})
	})
}

func (f *form) clothLengths() {
	f.heading("Lengths of cloth in hand")
	for _, l := range f.b.plan().Real.Lengths {
		under := "real_cloth.lengths[" + l.Name + "]."
		name := f.plain(under+"name", "Name", "")
		name.set = func(text string) error { return f.b.do("rename "+l.Name, renameLength(l.Name, text)) }
		f.put(name)
		f.field(under + "length_cm")
		f.field(under + "width_cm")
		f.button("Remove this length", func() error {
			return f.changeReal("remove "+l.Name, func(c *plan.RealCloth) {
				c.Lengths = slices.DeleteFunc(c.Lengths, func(m plan.ClothLength) bool { return m.Name == l.Name })
			})
		})
		f.gap(6)
	}
	f.button("Add a length", func() error {
		return f.changeReal("add a length of cloth", func(c *plan.RealCloth) {
			name := freshName("length", func(n string) bool {
				return slices.ContainsFunc(c.Lengths, func(m plan.ClothLength) bool { return m.Name == n })
			})
			c.Lengths = append(c.Lengths, plan.ClothLength{Name: name, LengthCM: 200})
		})
	})
}

// renameLength gives a length of cloth another name, wherever it is meant.
func renameLength(from, to string) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		if err := plan.SetField(p, "real_cloth.lengths["+from+"].name", to); err != nil {
			return err
		}
		for i := range p.Real.Widths {
			if p.Real.Widths[i].On == from {
				p.Real.Widths[i].On = to
			}
		}
		for i := range p.Real.Flaws {
			if p.Real.Flaws[i].On == from {
				p.Real.Flaws[i].On = to
			}
		}
		return nil
	}
}
