package cloth

import "ellwand/cautions"

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
		out = append(out, cautions.Of(cautions.RawFleece), cautions.Of(cautions.Scouring))
	}
	if combed {
		out = append(out, cautions.Of(cautions.Combing))
	}
	if in.Loom.Kind == WarpWeighted {
		out = append(out, cautions.Of(cautions.WarpWeighted))
	}
	return append(out, cautions.Of(cautions.LongWork), cautions.Of(cautions.Cutting))
}
