package plan

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

// threadKeys are what a yarn is, besides its name, its fibre and how much there is.
func threadKeys(y *cloth.Yarn) []key {
	turns := bounds{min: 0, max: 100}
	rules := []string{""}
	for _, r := range cloth.DiameterRules() {
		rules = append(rules, r.Key)
	}
	return []key{
		numberKey("ply_take_up", "Ply take-up", "", &y.PlyTakeUp, fraction),
		numberKey("twist_per_cm", "Twist of the yarn (0: not known)", "turns per cm", &y.TwistPerCM, turns),
		wordKey("singles_twist", "Twist of the singles, if plied", &y.SinglesTwist, "", "Z", "S"),
		numberKey("singles_twist_per_cm", "Twist of the singles (0: not known)", "turns per cm", &y.SinglesTwistPerCM, turns),
		numberKey("wraps_per_cm", "Wraps measured (0: by the rule)", "per cm", &y.WrapsPerCM, bounds{min: 0, max: 500}),
		wordKey("diameter_rule", "Diameter by", &y.DiameterRule, rules...),
		numberKey("density_g_per_cm3", "Fibre's density (0: wool's, 1.31)", "g/cm³", &y.DensityGPerCM3, bounds{min: 0, max: 10}),
		numberKey("packing", "Part of a round yarn that is fibre (0: 0.5)", "", &y.PackingShare, bounds{min: 0, max: 1}),
		colourKey("colour", "Colour", &y.Colour),
	}
}

// threadBelow are the mappings below a yarn that say how coarse it is.
func threadBelow(y *cloth.Yarn) (names []string, keys map[string][]key) {
	k := &y.Skein
	return []string{"size", "singles", "skein"}, map[string][]key{
		"size": sizeKeys(&y.Size), "singles": sizeKeys(&y.Singles),
		"skein": {
			numberKey("length_m", "Length of the skein", "m", &k.LengthM, bounds{min: 0, max: 1e6}),
			numberKey("mass_g", "Mass of the skein", "g", &k.MassG, bounds{min: 0, max: 1e6}),
			numberKey("humidity_percent", "Humidity of the room it lay in (0: not known)", "%", &k.HumidityPercent, bounds{min: 0, max: 100}),
			numberKey("moisture_content", "Water in it, of all (0: not known)", "", &k.ContentShare, fraction),
			numberKey("regain", "Water in it, of the dry fibre (0: not known)", "", &k.RegainShare, fraction),
			numberKey("standard_regain", "Standard regain (0: 0.1825, combed wool)", "", &k.StandardRegain, fraction),
		},
	}
}

// sizeKeys are one key for each way to give a size; only one of them can be.
func sizeKeys(s *cloth.Size) []key {
	b := bounds{min: 0, max: 1e7, above: true}
	var keys []key
	for _, system := range cloth.SizeSystems() {
		k := key{name: system.Key, label: system.Label, kind: kindNumber, accepted: b.words("") + ", and one size only", min: b.min, max: b.max}
		k.read = func(n *yaml.Node) string {
			if n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == "" {
				if s.System == system.Key {
					*s = cloth.Size{}
				}
				return ""
			}
			v, ok := number(n)
			if !ok || !b.holds(v) {
				return said(n)
			}
			if s.Given() && s.System != system.Key {
				return fmt.Sprintf("is given besides %s", s.System)
			}
			*s = cloth.Size{System: system.Key, Count: v}
			return ""
		}
		k.write = func() *yaml.Node {
			if s.System != system.Key {
				return nil
			}
			return numberNode(s.Count)
		}
		keys = append(keys, k)
	}
	return keys
}

// gristKey is the size in tex; absent when the size is given otherwise.
func gristKey(y *cloth.Yarn) key {
	k := numberKey("tex", "Grist of the finished yarn", "tex", &y.Tex, bounds{min: 0, max: 20000, above: true})
	k.write = func() *yaml.Node {
		if y.Tex == 0 {
			return nil
		}
		return numberNode(y.Tex)
	}
	return k
}

func (r *reader) thread(y *cloth.Yarn, field string, below map[string]func(*yaml.Node)) {
	names, keys := threadBelow(y)
	for _, name := range names {
		below[name] = func(n *yaml.Node) { r.mapping(n, join(field, name), keys[name], nil) }
	}
}

func fillThread(n *yaml.Node, y *cloth.Yarn) {
	def := blankYarn()
	names, keys := threadBelow(y)
	_, defaults := threadBelow(&def)
	for _, name := range names {
		putBelow(n, name, keys[name], defaults[name])
		if c := child(n, name); c != nil && len(c.Content) == 0 {
			put(n, name, nil, nil)
		}
	}
}

func threadSchema(y *cloth.Yarn) object {
	out := object{}
	names, keys := threadBelow(y)
	for _, name := range names {
		m := mapping(keys[name])
		if name != "skein" {
			m["maxProperties"] = 1
		}
		out[name] = m
	}
	return out
}

// sizes refuses a yarn of no size, and one of several.
func (c *checker) sizes() {
	for _, y := range c.plan.Yarns {
		under := fmt.Sprintf("yarns[%s].", y.Name)
		one := "one of tex, size and singles, or a measured skein alone"
		switch {
		case y.Tex > 0 && y.Size.Given():
			c.wrong(under+"size", "is given besides tex", one)
		case y.Tex > 0 && y.Singles.Given():
			c.wrong(under+"singles", "is given besides tex", one)
		case y.Size.Given() && y.Singles.Given():
			c.wrong(under+"singles", "is given besides size", one)
		case y.Tex == 0 && !y.Size.Given() && !y.Singles.Given() && !y.Skein.Given():
			c.wrong(under+"tex", "is missing", "tex, or a size in another count, or that of the singles, or a measured skein")
		}
		damp := 0
		for _, v := range []float64{y.Skein.HumidityPercent, y.Skein.ContentShare, y.Skein.RegainShare} {
			if v > 0 {
				damp++
			}
		}
		if damp > 1 {
			c.wrong(under+"skein", "says twice how damp it was", "one of humidity_percent, moisture_content and regain")
		}
	}
}

// skeinNotes name the skeins that are only half measured, and so not used.
func (p *Plan) skeinNotes() []string {
	var out []string
	for _, y := range p.Yarns {
		if k := y.Skein; (k.LengthM > 0) != (k.MassG > 0) {
			missing := "mass"
			if k.LengthM <= 0 {
				missing = "length"
			}
			out = append(out, fmt.Sprintf("The measured skein of %s has no %s, so it is not used.", y.Name, missing))
		}
	}
	return out
}
