package plan

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"gopkg.in/yaml.v3"

	"ellwand/geometry"
)

// RealCloth is the finished cloth as it really is: its lengths, its width where
// it was measured, and its flaws. Places are in cm from a length's first cut
// end and from the left selvedge. Empty: the cloth is as planned.
type RealCloth struct {
	Lengths []ClothLength
	Widths  []MeasuredWidth
	Flaws   []Flaw
}

// ClothLength is one length of cloth in hand.
type ClothLength struct {
	Name     string
	LengthCM float64 // 0: as long as needed, or as far as its width was measured
	WidthCM  float64 // 0: the cloth's finished width
}

// MeasuredWidth is the cloth's width at one place along a length.
type MeasuredWidth struct {
	On      string // the length's name; "" for the first
	AtCM    float64
	WidthCM float64
	LeftCM  float64 // how far the left edge lies in from the strip's left selvedge there
}

// Flaw is ground that no piece may touch: a stripe right across, from FromCM
// to ToCM, or any outline.
type Flaw struct {
	Name, On     string
	FromCM, ToCM float64
	OutlineCM    [][2]float64
}

// Empty says that the cloth is as planned.
func (c RealCloth) Empty() bool { return len(c.Lengths)+len(c.Widths)+len(c.Flaws) == 0 }

func (c RealCloth) clone() RealCloth {
	c.Lengths, c.Widths, c.Flaws = slices.Clone(c.Lengths), slices.Clone(c.Widths), slices.Clone(c.Flaws)
	for i := range c.Flaws {
		c.Flaws[i].OutlineCM = slices.Clone(c.Flaws[i].OutlineCM)
	}
	return c
}

func clothLengthKeys(l *ClothLength) []key {
	return []key{
		need(textKey("name", "Name", &l.Name)),
		numberKey("length_cm", "Length (0: no end)", "cm", &l.LengthCM, bounds{min: 0, max: 1e5}),
		numberKey("width_cm", "Width (0: as planned)", "cm", &l.WidthCM, widthCM),
	}
}

func measuredWidthKeys(w *MeasuredWidth) []key {
	return []key{
		textKey("on", "On the length", &w.On),
		need(numberKey("at_cm", "Along", "cm", &w.AtCM, bounds{min: 0, max: 1e5})),
		need(numberKey("width_cm", "Width there", "cm", &w.WidthCM, bounds{min: 0, max: 500, above: true})),
		numberKey("left_cm", "Left edge in from the straight", "cm", &w.LeftCM, widthCM),
	}
}

func flawKeys(f *Flaw) []key {
	along := bounds{min: 0, max: 1e5}
	return []key{
		need(textKey("name", "Name", &f.Name)),
		textKey("on", "On the length", &f.On),
		numberKey("from_cm", "From, right across", "cm", &f.FromCM, along),
		numberKey("to_cm", "To, right across", "cm", &f.ToCM, along),
	}
}

func (r *reader) realCloth(n *yaml.Node) {
	c := &r.plan.Real
	const at = "real_cloth"
	r.mapping(n, at, nil, map[string]func(*yaml.Node){
		"lengths": func(n *yaml.Node) {
			readList(r, n, at+".lengths", &c.Lengths, func(n *yaml.Node, field string) (l ClothLength) {
				r.mapping(n, field, clothLengthKeys(&l), nil)
				return l
			})
		},
		"widths": func(n *yaml.Node) {
			readList(r, n, at+".widths", &c.Widths, func(n *yaml.Node, field string) (w MeasuredWidth) {
				r.mapping(n, field, measuredWidthKeys(&w), nil)
				return w
			})
		},
		"flaws": func(n *yaml.Node) {
			readList(r, n, at+".flaws", &c.Flaws, func(n *yaml.Node, field string) (f Flaw) {
				r.mapping(n, field, flawKeys(&f), map[string]func(*yaml.Node){
					"outline_cm": func(n *yaml.Node) { f.OutlineCM = r.points(n, join(field, "outline_cm")) }})
				return f
			})
		},
	})
}

// fillRealCloth brings the tree to what the plan holds of the real cloth.
func (p *Plan) fillRealCloth(root *yaml.Node) {
	if p.Real.Empty() {
		put(root, "real_cloth", nil, nil)
		return
	}
	n := under(root, "real_cloth")
	fillList(n, "lengths", p.Real.Lengths, func(l *ClothLength) string { return l.Name }, func(n *yaml.Node, l *ClothLength) {
		putKeys(n, clothLengthKeys(l), clothLengthKeys(&ClothLength{}))
	})
	fillList(n, "widths", p.Real.Widths, func(*MeasuredWidth) string { return "\x00" }, func(n *yaml.Node, w *MeasuredWidth) {
		n.Style = yaml.FlowStyle
		putKeys(n, measuredWidthKeys(w), measuredWidthKeys(&MeasuredWidth{}))
	})
	fillList(n, "flaws", p.Real.Flaws, func(f *Flaw) string { return f.Name }, func(n *yaml.Node, f *Flaw) {
		putKeys(n, flawKeys(f), flawKeys(&Flaw{}))
		outline := pointsNode(f.OutlineCM)
		if outline != nil {
			outline.Style = yaml.FlowStyle
		}
		put(n, "outline_cm", outline, nil)
	})
}

func realClothSchema() object {
	corner := object{"type": "array", "items": object{"type": "number"}, "minItems": 2, "maxItems": 2}
	return object{"type": "object", "additionalProperties": false, "properties": object{
		"lengths": listOf(mapping(clothLengthKeys(&ClothLength{}))),
		"widths":  listOf(mapping(measuredWidthKeys(&MeasuredWidth{}))),
		"flaws":   listOf(with(mapping(flawKeys(&Flaw{})), object{"outline_cm": object{"type": "array", "items": corner}})),
	}}
}

// warpNamed is what the cloths of several warps are called when the plan names
// no lengths: "warp 2".
var warpNamed = regexp.MustCompile(`^warp [1-9][0-9]?$`)

// realCloth checks that what is said of the real cloth belongs together.
func (c *checker) realCloth() {
	real := c.plan.Real
	var lengths []string
	for _, l := range real.Lengths {
		lengths = append(lengths, l.Name)
	}
	for i, l := range real.Lengths {
		if i < len(real.Lengths)-1 && c.endOf(l) == 0 {
			c.wrong(fmt.Sprintf("real_cloth.lengths[%s].length_cm", l.Name), "is missing, but another length comes after", "a length above 0; only the last may go on without end")
		}
	}
	known := func(field, on string) {
		switch {
		case on == "" || slices.Contains(lengths, on) || len(lengths) == 0 && warpNamed.MatchString(on):
		case len(lengths) == 0:
			c.wrong(field, fmt.Sprintf("is %q, but the plan names no lengths of cloth", on), "no such key for the first, or `warp 2` for the cloth of the second warp")
		default:
			c.wrong(field, fmt.Sprintf("is %q, which is none of the lengths", on), oneOf(lengths))
		}
	}
	for i, w := range real.Widths {
		known(fmt.Sprintf("real_cloth.widths[%d].on", i+1), w.On)
	}
	c.measuredWidths()
	for _, f := range real.Flaws {
		field := fmt.Sprintf("real_cloth.flaws[%s]", f.Name)
		known(field+".on", f.On)
		switch {
		case len(f.OutlineCM) > 0 && f.ToCM > 0:
			c.wrong(field+".outline_cm", "stands beside to_cm", "an outline, or a stripe right across from from_cm to to_cm")
		case len(f.OutlineCM) > 0:
			if _, err := f.outline(0); err != nil {
				c.wrong(field+".outline_cm", "is no outline: "+err.Error(), "at least three corners, each [along, across] in cm")
			}
		case !(f.ToCM > f.FromCM):
			c.wrong(field+".to_cm", fmt.Sprintf("is %s, not beyond from_cm, %s", plain(f.ToCM), plain(f.FromCM)), "a stripe right across from from_cm to to_cm, or outline_cm with corners")
		}
	}
}

// measuredWidths checks the places at which each length's width was measured.
func (c *checker) measuredWidths() {
	last, count, field := map[string]float64{}, map[string]int{}, map[string]string{}
	for i, w := range c.plan.Real.Widths {
		on := c.plan.Real.first(w.On)
		field[on] = fmt.Sprintf("real_cloth.widths[%d].at_cm", i+1)
		if count[on] > 0 && w.AtCM <= last[on] {
			c.wrong(field[on], fmt.Sprintf("is %s, not beyond the place before, %s", plain(w.AtCM), plain(last[on])), "the places of a length in the order along it")
		}
		last[on] = w.AtCM
		count[on]++
		if warpNamed.MatchString(w.On) && len(c.plan.Real.Lengths) == 0 {
			c.wrong(fmt.Sprintf("real_cloth.widths[%d].on", i+1), "is "+fmt.Sprintf("%q", w.On)+", a warp and no length of cloth in hand", "the name of one of real_cloth.lengths")
		}
		for _, l := range c.plan.Real.Lengths {
			if l.Name == on && l.LengthCM > 0 && w.AtCM > l.LengthCM {
				c.wrong(field[on], fmt.Sprintf("is %s, beyond the length's end", plain(w.AtCM)), "0 to "+plain(l.LengthCM)+" cm")
			}
		}
	}
	for _, on := range sortedKeys(count) {
		if last[on] == 0 {
			c.wrong(field[on], "is 0, the only place measured", "at least one place further along, at best the far end")
		}
	}
}

// first is the name of a length, the first's for "".
func (c RealCloth) first(on string) string {
	if on == "" && len(c.Lengths) > 0 {
		return c.Lengths[0].Name
	}
	return on
}

// endOf is a length's own length: as given, or as far as it was measured; 0 for
// one without end.
func (c *checker) endOf(l ClothLength) float64 { return c.plan.Real.endOf(l) }

func (c RealCloth) endOf(l ClothLength) float64 {
	end := l.LengthCM
	if end == 0 {
		for _, w := range c.Widths {
			if c.first(w.On) == l.Name {
				end = max(end, w.AtCM)
			}
		}
	}
	return end
}

// outline is the flaw's outline on its length; a stripe is acrossCM wide.
func (f Flaw) outline(acrossCM float64) (geometry.Polygon, error) {
	var pts []geometry.Point
	for _, v := range f.OutlineCM {
		pts = append(pts, geometry.Point{X: v[0], Y: v[1]})
	}
	if len(pts) == 0 {
		pts = []geometry.Point{{X: f.FromCM}, {X: f.ToCM}, {X: f.ToCM, Y: acrossCM}, {X: f.FromCM, Y: acrossCM}}
	}
	return geometry.New(pts)
}

// keysOf is the keys of one entry: of a list and its name, or its number for
// the widths.
func (c *RealCloth) keysOf(parts []string) []key {
	if len(parts) != 2 {
		return nil
	}
	switch parts[0] {
	case "lengths":
		for i := range c.Lengths {
			if c.Lengths[i].Name == parts[1] {
				return clothLengthKeys(&c.Lengths[i])
			}
		}
	case "flaws":
		for i := range c.Flaws {
			if c.Flaws[i].Name == parts[1] {
				return flawKeys(&c.Flaws[i])
			}
		}
	case "widths":
		if n, err := strconv.Atoi(parts[1]); err == nil && n >= 1 && n <= len(c.Widths) {
			return measuredWidthKeys(&c.Widths[n-1])
		}
	}
	return nil
}
