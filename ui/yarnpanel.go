package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/theme"

	"ellwand/cloth"
	"ellwand/cloth/picture"
	"ellwand/plan"
)

// yarnShape changes with the yarns, the lots and the dyeings.
func yarnShape(b *bench) string {
	var names []string
	for _, y := range b.plan().Yarns {
		names = append(names, y.Name, fmt.Sprint(len(y.Blend), y.Fleece == ""))
	}
	for _, l := range b.plan().Fleeces {
		names = append(names, l.Name)
	}
	for _, d := range b.plan().Dyes {
		names = append(names, d.Name+":"+string(d.Stage))
	}
	return strings.Join(names, "|")
}

func fillYarn(f *form) {
	for _, y := range f.b.plan().Yarns {
		f.yarn(y.Name)
	}
	f.gap(8)
	f.button("Add a yarn", func() error {
		return f.b.do("add a yarn", func(p *plan.Plan) error {
			name := freshName("yarn", func(n string) bool {
				return slices.ContainsFunc(p.AllYarns(), func(y cloth.Yarn) bool { return y.Name == n })
			})
			p.Yarns = append(p.Yarns, cloth.Yarn{Name: name, Tex: 100, Plies: 1, Twist: "Z", Coat: cloth.CoatWhole})
			return nil
		})
	})
	f.dyeing()
}

func (f *form) yarn(name string) {
	under := "yarns[" + name + "]."
	f.heading(name)
	f.picture(46, func() drawn { return strandOf(f.b.plan(), name) })
	f.said(func() string { return yarnNeed(f.b.shown, name) + "\n" + yarnWords(f.b.plan(), name) })
	title := f.plain(under+"name", "Name", "")
	title.set = func(text string) error { return f.b.do("rename "+name, renameYarn(name, text)) }
	f.put(title)
	f.size(name)
	for _, key := range []string{"plies", "ply_take_up", "twist", "twist_per_cm", "singles_twist", "singles_twist_per_cm", "colour"} {
		f.field(under + key)
	}
	f.note("Fibre")
	lot := f.plain(under+"fibre.lot", "Spun from lot", "")
	lot.options = append([]option{{"", "none: bought"}}, lotOptions(f.b.plan())...)
	lot.set = f.fitting(under+"fibre.lot", "lot")
	f.put(lot)
	f.field(under + "fibre.coat")
	f.blend(name)
	for _, key := range []string{"spin_loss", "in_hand_m"} {
		f.field(under + key)
	}
	f.note("A measured skein goes before the planned size. How damp it was is told by one of humidity, water of all, or water of the dry fibre.")
	for _, key := range []string{"skein.length_m", "skein.mass_g", "skein.humidity_percent", "skein.moisture_content", "skein.regain", "skein.standard_regain"} {
		f.field(under + key)
	}
	f.note("Thickness")
	for _, key := range []string{"wraps_per_cm", "diameter_rule", "density_g_per_cm3", "packing"} {
		f.field(under + key)
	}
	f.note("In every count")
	f.said(func() string { return yarnCounts(f.b.plan(), name) })
	f.button("Remove this yarn", func() error {
		return f.b.do("remove "+name, func(p *plan.Plan) error {
			p.Yarns = slices.DeleteFunc(p.Yarns, func(y cloth.Yarn) bool { return y.Name == name })
			delete(p.Hours.SpindleOf, name)
			return nil
		})
	})
}

// strandOf is the yarn to scale.
func strandOf(p *plan.Plan, name string) drawn {
	y, ok := workedYarn(p, name)
	if !ok {
		return nil
	}
	mm, _ := y.DiameterMM()
	return picture.Strand{Colour: yarnColour(p, name), Ground: plainColour(theme.ColorNameBackground), Ink: plainColour(theme.ColorNamePlaceHolder),
		DiameterMM: mm, AngleDeg: y.SurfaceAngleDeg(), S: y.Twist == "S", WidthMM: max(10, 8*mm)}
}

// yarnWords is a yarn's grist, thickness and twist.
func yarnWords(p *plan.Plan, name string) string {
	y, ok := workedYarn(p, name)
	if !ok {
		return "Its size is not known."
	}
	lines := []string{fmt.Sprintf("%.4g tex: %s", y.Tex, y.GristFrom())}
	return strings.Join(append(lines, plan.TwistText(y)...), "\n") + "\nThe ticks of the picture are millimetres."
}

// yarnCounts is a yarn in every count, and its thickness by every rule.
func yarnCounts(p *plan.Plan, name string) string {
	y, ok := workedYarn(p, name)
	if !ok {
		return "Its size is not known."
	}
	lines := plan.CountsText(y)
	for _, d := range y.Diameters() {
		lines = append(lines, fmt.Sprintf("%.3f mm: %s", d.DiameterMM, d.Rule.Label))
	}
	return strings.Join(lines, "\n")
}

// size adds the three fields that say how coarse a yarn is: of what, in which
// count, and how much. Another count shows the same yarn in that count.
func (f *form) size(name string) {
	path := "yarns[" + name + "].size"
	now := func() (ofSingles bool, s cloth.Size) { return sizeOf(f.b.plan(), name) }
	change := func(what string, to func(y *cloth.Yarn) error) error {
		return f.b.do(what+" of "+name, func(p *plan.Plan) error {
			for i := range p.Yarns {
				if p.Yarns[i].Name == name {
					return to(&p.Yarns[i])
				}
			}
			return nil
		})
	}
	free := func(string) error { return nil }
	of := fieldSpec{path: path + " of", label: "Size is that", options: []option{{"yarn", "of the finished yarn"}, {"singles", "of its singles"}}, try: free}
	of.get = func() string {
		if singles, _ := now(); singles {
			return "singles"
		}
		return "yarn"
	}
	of.set = func(text string) error {
		return change("size", func(y *cloth.Yarn) error { _, s := sizeOfYarn(*y); return resize(y, text == "singles", s.System) })
	}
	f.put(of)
	system := fieldSpec{path: path + " in", label: "Counted in", try: free}
	for _, s := range cloth.SizeSystems() {
		system.options = append(system.options, option{s.Key, s.Label})
	}
	system.get = func() string { _, s := now(); return s.System }
	system.set = func(text string) error {
		return change("size", func(y *cloth.Yarn) error { singles, _ := sizeOfYarn(*y); return resize(y, singles, text) })
	}
	f.put(system)
	value := fieldSpec{path: path, label: "Size"}
	value.hint = func() string { return "from the skein" }
	value.get = func() string {
		if _, s := now(); s.Count > 0 {
			return strconv.FormatFloat(s.Count, 'f', -1, 64)
		}
		return ""
	}
	read := func(text string) (float64, error) {
		v, err := strconv.ParseFloat(text, 64)
		if text == "" {
			return 0, nil
		}
		if err != nil || !(v > 0 && v <= 1e7) {
			return 0, &plan.Problem{Field: path, Text: "is " + strconv.Quote(text), Accepted: "a bare number above 0"}
		}
		return v, nil
	}
	value.try = func(text string) error { _, err := read(text); return err }
	value.set = func(text string) error {
		v, err := read(text)
		if err != nil {
			return err
		}
		return change("size", func(y *cloth.Yarn) error {
			singles, s := sizeOfYarn(*y)
			setSize(y, singles, cloth.Size{System: s.System, Count: v})
			return nil
		})
	}
	f.put(value)
}

func sizeOf(p *plan.Plan, name string) (ofSingles bool, s cloth.Size) {
	for _, y := range p.Yarns {
		if y.Name == name {
			return sizeOfYarn(y)
		}
	}
	return false, cloth.Size{System: "tex"}
}

// sizeOfYarn is the size that the plan gives, whichever way.
func sizeOfYarn(y cloth.Yarn) (ofSingles bool, s cloth.Size) {
	switch {
	case y.Singles.Given():
		return true, y.Singles
	case y.Size.Given():
		return false, y.Size
	}
	return false, cloth.Size{System: "tex", Count: y.Tex}
}

// setSize gives a yarn one size in place of any other; a count of 0 takes it away.
func setSize(y *cloth.Yarn, ofSingles bool, s cloth.Size) {
	y.Tex, y.Size, y.Singles = 0, cloth.Size{}, cloth.Size{}
	switch {
	case s.Count <= 0:
	case ofSingles:
		y.Singles = s
	case s.System == "tex":
		y.Tex = s.Count
	default:
		y.Size = s
	}
}

// resize says the same size of another thing or in another count, to seven digits.
func resize(y *cloth.Yarn, ofSingles bool, system string) error {
	planned := *y
	planned.Skein = cloth.Skein{}
	worked, err := planned.Worked()
	if err != nil || worked.Tex <= 0 {
		return err
	}
	if ofSingles {
		worked.Tex = worked.SinglesTex()
	}
	count, _ := strconv.ParseFloat(strconv.FormatFloat(worked.CountIn(system), 'g', 7, 64), 64)
	setSize(y, ofSingles, cloth.Size{System: system, Count: count})
	return nil
}

func yarnNeed(r *plan.Result, name string) string {
	if r == nil {
		return words("Nothing is worked out yet.")
	}
	for _, y := range r.Reckoning.Yarns {
		if y.Name != name {
			continue
		}
		text := fmt.Sprintf("Needed: %.0f m, %.0f g", y.LengthM, y.MassG)
		if y.Ends > 0 && y.Picks > 0 {
			text += fmt.Sprintf(": %.0f m in the warp, %.0f m in the weft", y.WarpM, y.WeftM)
		}
		return text
	}
	return words("Not used in this cloth.")
}

// renameYarn gives a yarn another name everywhere in the plan.
func renameYarn(from, to string) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		if err := plan.SetField(p, "yarns["+from+"].name", to); err != nil {
			return err
		}
		c := &p.Cloth
		uses := []*string{&p.WarpYarn, &p.WeftYarn, &c.SelvedgeYarn, &c.HeadingYarn}
		for i := range c.WarpOrder {
			uses = append(uses, &c.WarpOrder[i].Yarn)
		}
		for i := range c.WeftOrder {
			uses = append(uses, &c.WeftOrder[i].Yarn)
		}
		for i := range p.Log.Skeins {
			uses = append(uses, &p.Log.Skeins[i].Yarn)
		}
		for i := range p.Dyes {
			if p.Dyes[i].Stage == cloth.DyeYarn {
				uses = append(uses, &p.Dyes[i].Of)
			}
		}
		for _, use := range uses {
			if *use == from {
				*use = to
			}
		}
		p.RenameInHours(from, to)
		return nil
	}
}
