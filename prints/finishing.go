package prints

import (
	"fmt"

	"ellwand/cautions"
	"ellwand/paper"
)

// finishing is the card to full and wash by: sizes at which to stop.
func (m *maker) finishing() []paper.Sheet {
	r, u, s := m.r.Reckoning, m.u, m.r.Plan().Cloth
	between := u.tape()
	facts := paper.Facts{
		{Label: "Off the loom", Value: fmt.Sprintf("%s × %s", u.length(r.OffLoomLengthCM), u.length(r.OffLoomWidthCM)), From: "length × width, at rest a day after it is cut off"},
		{Label: "Stop at", Value: fmt.Sprintf("%s × %s", u.length(r.FinishedLengthCM), u.length(r.FinishedWidthCM)), From: fmt.Sprintf("shrinkage %s in length, %s in width", percent(s.ShrinkLength), percent(s.ShrinkWidth))},
		{Label: fmt.Sprintf("Two threads %s apart", u.length(between)), Value: fmt.Sprintf("stop at %s along, %s across", u.length(between*(1-s.ShrinkLength)), u.length(between*(1-s.ShrinkWidth))), From: "sewn in by contrasting thread before the first washing"},
		{Label: "Count then", Value: fmt.Sprintf("ends %s, picks %s", u.perLength(r.EndsPerCMFinished), u.perLength(r.PicksPerCMFinished))},
		{Label: "Mass then", Value: number(r.MassGPerM2, 0) + " g/m²", From: "fibre lost in fulling not taken off"},
	}
	table := paper.Table{Head: []string{"of the way", "length", "width", "two threads along", "two threads across"}, Figures: []bool{true, true, true, true, true}}
	for _, part := range []float64{0, 0.25, 0.5, 0.75, 1} {
		at := func(from, loss float64) string { return u.length(from * (1 - loss*part)) }
		table.Rows = append(table.Rows, []string{number(part*100, 0) + " %",
			at(r.OffLoomLengthCM, s.ShrinkLength), at(r.OffLoomWidthCM, s.ShrinkWidth), at(between, s.ShrinkLength), at(between, s.ShrinkWidth)})
	}
	steps := paper.Steps{
		"Mend, and sew the cut ends so that they cannot ravel.",
		"Wash and full a little, rinse, press the water out, lay flat and measure.",
		"Go on by short turns, measuring each time: what has shrunk does not come back.",
		"Stop when length or width has come to its size, whichever is first; the other can be eased by pulling while wet, or the lay worked out anew for the cloth there is.",
		"Dry flat or under even tension, then measure and count: put what you find in the plan before you cut.",
	}
	return []paper.Sheet{m.card("Wet finishing", "sizes at which to stop", blocks(caution(cautions.Finishing), facts, m.time("finish"),
		paper.Heading("On the way"), table, steps)...)}
}
