package plan

import (
	"maps"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

// lossKey is a loss of the cloth. Given, it is fixed; left out, the samples say
// it, and nothing is lost where there are none.
func lossKey(l cloth.Loss, label string, c *cloth.Setting, fixed map[cloth.Loss]bool) key {
	at := c.At(l)
	k := numberKey(string(l), label, "", at, fraction)
	read := k.read
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == "" {
			*at = 0
			delete(fixed, l)
			return ""
		}
		wrong := read(n)
		if wrong == "" {
			fixed[l] = true
		}
		return wrong
	}
	k.write = func() *yaml.Node {
		if !fixed[l] && *at == 0 {
			return nil
		}
		return numberNode(*at)
	}
	return k
}

// losesAsFixed says whether the plan itself gives a loss.
func (p *Plan) losesAsFixed(l cloth.Loss) bool { return p.FixedLosses[l] || *p.Cloth.At(l) != 0 }

// setting is the cloth wanted, with the losses that the plan does not fix as
// the samples have them.
func (p *Plan) setting() cloth.Setting {
	s := p.Cloth
	for _, l := range cloth.Losses() {
		if spread := cloth.LossSpread(p.Samples, l); !p.losesAsFixed(l) && spread.N > 0 {
			*s.At(l) = spread.Mean
		}
	}
	return s
}

func sampleKeys(s *cloth.Sample) []key {
	return []key{
		need(textKey("name", "Name", &s.Name)),
		numberKey("on_loom_length_cm", "Woven, under tension", "cm", &s.OnLoomLengthCM, lengthCM),
		numberKey("on_loom_width_cm", "Width in the reed", "cm", &s.OnLoomWidthCM, widthCM),
		numberKey("off_loom_length_cm", "Length off the loom", "cm", &s.OffLoomLengthCM, lengthCM),
		numberKey("off_loom_width_cm", "Width off the loom", "cm", &s.OffLoomWidthCM, widthCM),
		numberKey("finished_length_cm", "Length finished", "cm", &s.FinishedLengthCM, lengthCM),
		numberKey("finished_width_cm", "Width finished", "cm", &s.FinishedWidthCM, widthCM),
		numberKey("mass_g", "Mass finished (0: not weighed)", "g", &s.MassG, logMass),
	}
}

func simulationKeys(p *Plan) []key {
	s := &p.Simulation
	return []key{
		numberKey("chance", "Chance wanted that the cloth holds the lay", "", &s.Chance, bounds{min: 0.5, max: 0.999}),
		integerKey("seed", "Seed: the same gives the same figures", &s.Seed, 0, 1e9),
		integerKey("trials", "Cloths woven in trial", &s.Trials, 100, 1e6),
		numberKey("spread", "Usual spread of one weaver's cloths", "", &s.Spread, bounds{min: 0, max: 0.2}),
	}
}

func (r *reader) sample(n *yaml.Node, field string) cloth.Sample {
	var s cloth.Sample
	r.mapping(n, field, sampleKeys(&s), nil)
	return s
}

func (p *Plan) fillSamples(root *yaml.Node) {
	fillList(root, "samples", p.Samples, func(s *cloth.Sample) string { return s.Name }, func(n *yaml.Node, s *cloth.Sample) {
		putKeys(n, sampleKeys(s), sampleKeys(&cloth.Sample{}))
	})
}

// samples refuses two samples of one name, and cloth that grew.
func (c *checker) samples() {
	seen := map[string]bool{}
	for _, s := range c.plan.Samples {
		field := "samples[" + s.Name + "]"
		if seen[s.Name] || strings.TrimSpace(s.Name) == "" {
			c.wrong(field+".name", "is empty or given twice", "a name of its own for each")
		}
		seen[s.Name] = true
		if err := s.Validate(); err != nil {
			c.wrong(field, "cannot be right: "+err.Error(), "")
		}
	}
}

// cloneSamples copies what of the samples can change.
func (p *Plan) cloneSamples(from *Plan) {
	p.Samples = append([]cloth.Sample(nil), from.Samples...)
	p.FixedLosses = maps.Clone(from.FixedLosses)
}
