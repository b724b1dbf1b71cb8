package ui

import (
	"fmt"
	"image/color"
	"strings"

	"fyne.io/fyne/v2/theme"

	"ellwand/cloth"
	"ellwand/cloth/picture"
	"ellwand/plan"
)

// loomShape changes with the kind of loom: only one has weights.
func loomShape(b *bench) string { return string(b.plan().Loom.Kind) }

func fillLoom(f *form) {
	kind := f.plain("loom.kind", "Kind of loom", "")
	kind.options = []option{{"", "not said"}}
	for _, k := range cloth.LoomKinds() {
		kind.options = append(kind.options, option{string(k.Kind), string(k.Kind)})
	}
	f.field("loom.name")
	f.put(kind)
	info, known := f.b.plan().Loom.Kind.Info()
	if known {
		f.note(strings.ToUpper(info.About[:1]) + info.About[1:] + ".")
	}
	f.field("loom.max_reed_width_cm")
	waste := f.plain("loom.waste_cm", "Loom waste, each warp", "cm")
	waste.hint = func() string {
		if known {
			return fmt.Sprintf("%.0f", info.WasteCM)
		}
		return "0"
	}
	f.put(waste)
	if known {
		f.note(fmt.Sprintf("Left empty: %.0f cm (%s).", info.WasteCM, info.WasteSource))
	}
	f.field("loom.max_warp_m")
	f.field("loom.reeds_dents_per_10cm")
	f.note("Several reeds are written with commas between: 30, 40, 50. An upright or a warp-weighted loom may have none.")
	f.heading("On this loom")
	f.picture(64, func() drawn { return reedOf(f.b) })
	f.said(func() string { return loomWords(f.b) })
	if f.b.plan().Loom.Kind != cloth.WarpWeighted {
		return
	}
	f.heading("Weights")
	f.picture(90, func() drawn { return hungOf(f.b) })
	f.said(func() string { return weightWords(f.b) })
	for _, key := range []string{"weight_g", "tension_g_per_thread", "threads_per_weight", "weights", "weight_thickness_cm", "weight_rows", "weight_lightest_g", "weight_heaviest_g"} {
		f.field("loom." + key)
	}
	f.note("A weight's mass sets how many threads it holds, its thickness how wide a row is (Mårtensson, Nosch and Andersson Strand 2009). Measured on a copy at Ribe: 15 to 20 g on each linen thread.")
}

// loomWords is how the loom is set up for the cloth.
func loomWords(b *bench) string {
	if b.shown == nil {
		return words("Nothing is worked out yet.")
	}
	r, u := b.shown.Reckoning, b.plan().ShowUnits
	lines := plan.SleysText(r)
	if len(lines) == 0 {
		lines = []string{fmt.Sprintf("No reed: the ends are spaced by the starting border, %.2f per cm.", r.EndsPerCMOnLoom)}
	} else {
		lines = append(lines, fmt.Sprintf("Dents: %d", r.Dents))
	}
	return strings.Join(append(lines, fmt.Sprintf("Ends: %d\nWidth on the loom: %s\nWarp, each end: %.2f m\nWarps: %d", r.Ends, length(r.ReedWidthCM, u), r.WarpLengthCM/100, r.Warps)), "\n")
}

// reedOf is the reed as it is sleyed, a few repeats of its order.
func reedOf(b *bench) drawn {
	if b.shown == nil || len(b.shown.Reckoning.Sleys) == 0 {
		return nil
	}
	r, p := b.shown.Reckoning, b.plan()
	mm := 0.5
	if r.Setting != nil && r.Setting.WarpDiameterMM > 0 {
		mm = r.Setting.WarpDiameterMM
	}
	of := picture.Finder(r.WarpStripes)
	return picture.Reed{DentOrder: r.DentOrder, DentMM: 100 / r.ReedDentsPer10CM, EndMM: mm, Dents: 12,
		Wire: plainColour(theme.ColorNamePlaceHolder), Ground: plainColour(theme.ColorNameInputBackground),
		EndColour: func(i int) color.RGBA { return yarnColour(p, of(i)) }}
}

// hungOf is a row of the weights under the warp.
func hungOf(b *bench) drawn {
	if b.shown == nil || b.shown.Reckoning.Hanging == nil {
		return nil
	}
	r, w := b.shown.Reckoning, b.plan().Loom.Weights
	h := r.Hanging
	if h.RowWidthCM <= 0 || w.ThicknessCM <= 0 {
		return nil
	}
	return picture.Hung{Weights: int(h.RowWidthCM/w.ThicknessCM + 0.5), RowMM: h.RowWidthCM * 10, WarpMM: r.ReedWidthCM * 10,
		Clay: color.RGBA{160, 100, 70, 255}, Thread: plainColour(theme.ColorNamePlaceHolder), Ground: plainColour(theme.ColorNameInputBackground)}
}

// weightWords is what the weights in hand make of the warp.
func weightWords(b *bench) string {
	if b.shown == nil {
		return words("Nothing is worked out yet.")
	}
	h := b.shown.Reckoning.Hanging
	if h == nil {
		return "Say what a weight weighs, and either the tension wanted on a thread or the threads on a weight."
	}
	var lines []string
	for _, f := range h.Figures {
		lines = append(lines, f.Label+": "+figureValue(f, b.plan().ShowUnits))
	}
	return strings.Join(append(lines, h.Remarks...), "\n")
}
