package plan

import "ellwand/cloth"

// reedJSON is the reed taken and how its dents are filled.
type reedJSON struct {
	DentsPer10CM float64 `json:"dents_per_10cm"`
	DentOrder    []int   `json:"dent_order"`
}

// figureJSON is one figure with the formula it comes from. Of says what it is a
// figure of: the garment, the cloth, a yarn or a fleece.
type figureJSON struct {
	Of    string  `json:"of"`
	Key   string  `json:"key"`
	Label string  `json:"label"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	From  string  `json:"from"`
}

// figuresAsJSON is every figure that can be asked "from what?".
func (r *Result) figuresAsJSON() []figureJSON {
	out := []figureJSON{}
	for _, z := range r.Garment.Sizes {
		out = append(out, figureJSON{"garment", z.Key, z.Label, fourth(z.CM), "cm", z.From})
	}
	add := func(of string, all []cloth.Figure) {
		for _, f := range all {
			out = append(out, figureJSON{of, f.Key, f.Label, sixth(f.Value), f.Unit, f.From})
		}
	}
	add("cloth", r.Reckoning.Figures)
	if s := r.Reckoning.Setting; s != nil {
		add("setting", s.Figures)
	}
	if h := r.Reckoning.Hanging; h != nil {
		add("weights", h.Figures)
	}
	for _, y := range r.Reckoning.Yarns {
		add("yarn "+y.Name, y.Figures)
	}
	for _, d := range r.Dyes {
		add("dye "+d.Name, d.Figures)
	}
	for _, f := range r.Reckoning.Fleeces {
		add("fleece "+f.Name, f.Figures)
	}
	return out
}
