package cloth

// Cautions are the usual reminders for the work this plan asks for. They say
// who to defer to and are no substitute for local rules.
func Cautions(in Input) []string {
	var out []string
	spun, combed := false, false
	for _, y := range in.Yarns() {
		for _, part := range y.Parts() {
			spun = spun || in.lotOf(part).kind() == LotFleece
			combed = combed || part.Coat != CoatWhole
		}
	}
	if spun {
		out = append(out,
			"Raw fleece can carry disease and dust: wash hands, damp the dust down, wear a mask, and keep it from anyone pregnant; follow your health authority's advice on diseases from animals.",
			"Scouring in hot water scalds, and alkali burns: gloves, no heavy lifts alone; follow local rules and the washing agent's safety data sheet.")
	}
	if combed {
		out = append(out, "Wool combs have long sharp tines: clamp the holder, guard the tines or turn them away, keep them from children; follow the maker's instructions.")
	}
	if in.Loom.Kind == WarpWeighted {
		out = append(out, "A warp-weighted loom can fall and its weights swing: fasten the beam, hang no weight where a foot or a child can be; follow the builder's instructions.")
	}
	return append(out,
		"Spinning, weaving and sewing repeat one movement for hours: pace it, vary it, rest, and stop on pain; local guidance on upper limb disorders comes first.",
		"Shears and knives: cut away from yourself and guard the blades; follow the maker's instructions.")
}
