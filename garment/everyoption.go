package garment

import "maps"

// EveryOption is a draft's options one at a time: nothing set, then each choice
// of each option set alone. With pairs, each two choices of two options besides.
func EveryOption(d DraftInfo, pairs bool) []map[string]float64 {
	out := []map[string]float64{{}}
	for i, p := range d.Options {
		for _, c := range p.Choices {
			alone := map[string]float64{p.Key: c.Value}
			if c.Value != p.Default {
				out = append(out, alone)
			}
			if !pairs {
				continue
			}
			for _, q := range d.Options[i+1:] {
				for _, e := range q.Choices {
					if c.Value == p.Default || e.Value == q.Default {
						continue
					}
					both := maps.Clone(alone)
					both[q.Key] = e.Value
					out = append(out, both)
				}
			}
		}
	}
	return out
}
