package ui

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2/theme"

	"ellwand/cloth"
	"ellwand/cloth/picture"
	"ellwand/plan"
)

func clothShape(b *bench) string {
	return fmt.Sprintf("%s|%v", yarnShape(b), len(b.plan().Cloth.Draft) > 0) + samplesShape(b) + matchingShape(b)
}

func fillCloth(f *form) {
	f.weave()
	f.picture(190, func() drawn { return fabricOf(f.b) })
	f.said(func() string { return fabricWords(f.b) })
	f.picture(110, func() drawn { return stripesOf(f.b) })
	f.field("cloth.finished_width_cm")
	yarns := []option{}
	for _, y := range f.b.plan().AllYarns() {
		yarns = append(yarns, option{y.Name, y.Name})
	}
	for _, use := range []struct{ key, label string }{{"warp", "Warp yarn"}, {"weft", "Weft yarn"}} {
		spec := f.plain("cloth."+use.key, use.label, "")
		spec.options = yarns
		f.put(spec)
	}
	f.heading("Thread count and faces")
	for _, key := range []string{"finished_ends_per_cm", "finished_picks_per_cm", "nap", "two_faced"} {
		f.field("cloth." + key)
	}
	f.found()
	f.heading("Setting")
	f.said(func() string { return settingWords(f.b) })
	f.heading("Stripes and edges")
	f.note("An order is written so: 20 grey, 4 red. It is repeated from selvedge to selvedge, or along the cloth.")
	f.field("cloth.warp_order")
	f.field("cloth.weft_order")
	for _, use := range []struct{ key, label, none string }{
		{"selvedge_yarn", "Selvedge yarn", "the warp's"}, {"heading_yarn", "Weft of headings and samples", "not counted"},
	} {
		spec := f.plain("cloth."+use.key, use.label, "")
		spec.options = append([]option{{"", use.none}}, yarns...)
		f.put(spec)
	}
	for _, key := range []string{"selvedge_ends", "selvedge_extra_ends"} {
		f.field("cloth." + key)
	}
	f.heading("What it loses")
	f.note("Each as a fraction of the earlier state: 0.08 is eight parts in a hundred.")
	for _, key := range []string{"take_up", "draw_in", "shrink_length", "shrink_width"} {
		f.loss(key)
	}
	for _, key := range []string{"weft_crimp", "weft_turn_cm"} {
		f.field("cloth." + key)
	}
	f.heading("Reed and warp")
	for _, key := range []string{"reed_dents_per_10cm", "dent_order", "sample_cm", "heading_cm"} {
		f.field("cloth." + key)
	}
	f.matching()
	f.samples()
	f.heading("Cutting")
	f.field("cutting.gap_cm")
	f.heading("As it will be")
	f.said(func() string {
		if f.b.shown == nil {
			return words("Nothing is worked out yet.")
		}
		r, u := f.b.shown.Reckoning, f.b.plan().ShowUnits
		return words("Finished: %s × %s\nOff the loom: %s × %s\nEnds per cm: %.2f\nPicks per cm: %.2f\nMass: %.0f g/m²",
			length(r.FinishedWidthCM, u), length(r.FinishedLengthCM, u), length(r.OffLoomWidthCM, u), length(r.OffLoomLengthCM, u),
			r.EndsPerCMFinished, r.PicksPerCMFinished, r.MassGPerM2)
	})
}

// weave adds the choice of weave, and the draft of one's own.
func (f *form) weave() {
	weave := f.plain("cloth.weave", "Weave", "")
	if len(f.b.plan().Cloth.Draft) > 0 {
		weave.label = "Name of the weave"
	} else {
		for _, w := range cloth.Weaves() {
			weave.options = append(weave.options, option{w.Name, w.Name})
		}
	}
	f.put(weave)
	f.field("cloth.draft")
	f.note("Another weave is given by its draft, pick by pick: XX.., .XX., ..XX, X..X. X is the warp over the weft. Empty again: one of the list.")
}

// found sets the counts and the weave of a cloth that has been published.
func (f *form) found() {
	spec := fieldSpec{path: "cloth published", label: "As in a find", try: func(string) error { return nil }}
	spec.options = []option{{"", "choose one"}}
	for _, c := range cloth.PublishedCloths() {
		spec.options = append(spec.options, option{c.Name, c.Name})
	}
	spec.get = func() string { return "" }
	spec.set = func(text string) error {
		for _, c := range cloth.PublishedCloths() {
			if c.Name == text {
				return f.b.do("counts of "+c.Name, func(p *plan.Plan) error {
					p.Cloth.Weave, p.Cloth.Draft = c.Weave, nil
					p.Cloth.FinishedEndsPerCM, p.Cloth.FinishedPicksPerCM = c.EndsPerCM, c.PicksPerCM
					return nil
				})
			}
		}
		return nil
	}
	f.put(spec)
	var sources []string
	for _, c := range cloth.PublishedCloths() {
		sources = append(sources, fmt.Sprintf("%s: %g × %g %s (%s)", c.Name, c.EndsPerCM, c.PicksPerCM, c.Weave, c.Source))
	}
	f.note("A find is counted finished: the loom is set up opener, by what the cloth loses.\n" + strings.Join(sources, "\n"))
}

// fabricOf is the cloth finished, its threads at their true cover.
func fabricOf(b *bench) drawn {
	if b.shown == nil || b.shown.Reckoning.Setting == nil {
		return nil
	}
	r, p := b.shown.Reckoning, b.plan()
	ends, picks := picture.Finder(r.WarpStripes), picture.Finder(r.WeftStripes)
	thread := func(of func(int) string, usual cloth.Yarn) func(int) picture.Thread {
		looks := map[string]picture.Thread{}
		return func(i int) picture.Thread {
			name := of(i)
			if t, ok := looks[name]; ok {
				return t
			}
			t := picture.Thread{Colour: yarnColour(p, name), DiameterMM: 0.5}
			if y, ok := workedYarn(p, name); ok {
				t.DiameterMM, _ = y.DiameterMM()
			} else if usual.Tex > 0 {
				t.DiameterMM, _ = usual.DiameterMM()
			}
			looks[name] = t
			return t
		}
	}
	w := r.Setting.Weave
	repeatMM := 10 * float64(w.RepeatThreads) / r.EndsPerCMFinished
	return picture.Fabric{Draft: w.Draft, EndsPerCM: r.EndsPerCMFinished, PicksPerCM: r.PicksPerCMFinished,
		End: thread(ends, cloth.Yarn{}), Pick: thread(picks, cloth.Yarn{}), Ground: plainColour(theme.ColorNameInputBackground),
		WidthMM: math.Max(15, math.Min(60, 2.5*repeatMM))}
}

func fabricWords(b *bench) string {
	if b.shown == nil {
		return words("Nothing is worked out yet.")
	}
	s := b.shown.Reckoning.Setting
	if s == nil {
		return "Name a weave to see it, and how close it can be set."
	}
	for _, f := range s.Figures {
		if f.Key == "cloth_cover_finished" {
			return fmt.Sprintf("Finished, as it will be: the yarn covers %.0f %% of the surface, were it no thicker than it was spun.", 100*f.Value)
		}
	}
	return ""
}

// stripesOf is the whole width of a striped cloth; nil for a plain one.
func stripesOf(b *bench) drawn {
	if b.shown == nil {
		return nil
	}
	r, p := b.shown.Reckoning, b.plan()
	if len(r.WarpStripes) < 2 && len(r.WeftStripes) < 2 || r.EndsPerCMFinished <= 0 {
		return nil
	}
	share := 0.5
	if s := r.Setting; s != nil {
		up, all := 0, 0
		for _, row := range s.Weave.Draft {
			for _, m := range row {
				all++
				if m {
					up++
				}
			}
		}
		share = float64(up) / float64(all)
	}
	return picture.Stripes{Warp: r.WarpStripes, Weft: r.WeftStripes, EndsPerCM: r.EndsPerCMFinished, PicksPerCM: r.PicksPerCMFinished,
		Colour: func(y string) color.RGBA { return yarnColour(p, y) }, WarpShare: share, WidthCM: float64(r.Ends) / r.EndsPerCMFinished}
}

// settingWords is how close the cloth is set, against what the rules allow.
func settingWords(b *bench) string {
	if b.shown == nil || b.shown.Reckoning.Setting == nil {
		return "Name a weave and yarns to have the closest setts by the published rules."
	}
	r := b.shown.Reckoning
	lines := []string{fmt.Sprintf("On the loom: %.2f ends and %.2f picks per cm.", r.EndsPerCMOnLoom, r.PicksPerCMOnLoom), "Closest, ends and picks per cm:"}
	for _, l := range r.Setting.Limits {
		lines = append(lines, fmt.Sprintf("· %.1f and %.1f: %s", l.EndsPerCMOnLoom, l.PicksPerCMOnLoom, strings.TrimPrefix(l.Rule, "diameters and intersections, ")))
	}
	lines = append(lines, "Usual, of the closest by the warp's own rule:")
	for _, g := range r.Setting.Ranges {
		lines = append(lines, fmt.Sprintf("· %s: %.1f to %.1f ends", g.Use, g.EndsLow, g.EndsHigh))
	}
	return strings.Join(append(lines, plan.OpennessText(r)), "\n")
}
