package plan

import (
	"fmt"
	"strings"

	"ellwand/cloth"
)

// warpText and weftText are the yarns of the cloth for the cutting diagram.
func (r *Result) warpText() string {
	yarns := r.threads(func(n cloth.YarnNeed) int { return n.Ends }, "ends")
	return fmt.Sprintf("%s, %d ends × %.2f m", yarns, r.Reckoning.Ends, r.Reckoning.WarpLengthCM/100)
}

func (r *Result) weftText() string {
	yarns := r.threads(func(n cloth.YarnNeed) int { return n.Picks }, "picks")
	return fmt.Sprintf("%s, %d picks, %.1f per cm finished", yarns, r.Reckoning.Picks, r.Reckoning.PicksPerCMFinished)
}

// threads names the yarns that n counts, with how many of each when they are several.
func (r *Result) threads(n func(cloth.YarnNeed) int, word string) string {
	var parts []string
	count := 0
	for _, y := range r.Reckoning.Yarns {
		if n(y) > 0 {
			count++
		}
	}
	for _, y := range r.Reckoning.Yarns {
		if n(y) == 0 {
			continue
		}
		text := fmt.Sprintf("%s %.4g tex %s", y.Name, y.Yarn.Tex, y.Yarn.Twist)
		if count > 1 {
			text += fmt.Sprintf(" (%d %s)", n(y), word)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " + ")
}

// CountsText is a yarn in every count, one to a line.
func CountsText(y cloth.Yarn) []string {
	var lines []string
	for _, s := range cloth.SizeSystems() {
		text := fmt.Sprintf("%s: %s", s.Label, significant(y.CountIn(s.Key)))
		if s.Key == cloth.WrapsPerCM || s.Key == cloth.WrapsPerInch {
			text += ", by " + ruleLabel(y)
		}
		lines = append(lines, text)
	}
	return lines
}

func ruleLabel(y cloth.Yarn) string {
	r, _ := cloth.DiameterRuleByKey(y.DiameterRule)
	return r.Label
}

// significant writes a number with four significant digits, never as a power.
func significant(v float64) string {
	switch {
	case v >= 1000:
		return fmt.Sprintf("%.0f", v)
	case v >= 100:
		return fmt.Sprintf("%.1f", v)
	case v >= 10:
		return fmt.Sprintf("%.2f", v)
	case v >= 1:
		return fmt.Sprintf("%.3f", v)
	}
	return fmt.Sprintf("%.4f", v)
}

// TwistText is a yarn's plies, twist and angle in words.
func TwistText(y cloth.Yarn) []string {
	mm, from := y.DiameterMM()
	lines := []string{fmt.Sprintf("%.3f mm thick: %s", mm, from)}
	twist := func(which, way string, perCM, diameterMM, tex float64) {
		if perCM > 0 {
			lines = append(lines, fmt.Sprintf("%s: %s, %s turns per cm, surface fibres at %.1f°, %.1f turns per cm × √tex",
				which, way, significant(perCM), cloth.TwistAngleDeg(diameterMM, perCM), cloth.TexTwistMultiplier(perCM, tex)))
		}
	}
	if y.Plies > 1 {
		one := cloth.Yarn{Tex: y.SinglesTex(), DiameterRule: y.DiameterRule, DensityGPerCM3: y.DensityGPerCM3, PackingShare: y.PackingShare}
		oneMM, _ := one.DiameterMM()
		lines = append(lines, fmt.Sprintf("%d plies of %s tex, %.3f mm thick; the plied yarn is %.3g %% shorter", y.Plies, significant(one.Tex), oneMM, 100*y.PlyTakeUp))
		twist("Singles", y.SinglesTwist, y.SinglesTwistPerCM, oneMM, one.Tex)
		twist("Plied", y.Twist, y.TwistPerCM, mm, y.Tex)
		return lines
	}
	twist("Twist", y.Twist, y.TwistPerCM, mm, y.Tex)
	return lines
}

func (r *Result) writeYarns(b *strings.Builder, units string) {
	for _, n := range r.Reckoning.Yarns {
		fmt.Fprintf(b, "\nYarn %s: %.0f m, %.0f g\n", n.Name, n.LengthM, n.MassG)
		writeFigures(b, n.Figures, units)
		if n.Yarn.Plies > 1 {
			fmt.Fprintf(b, "  Singles to spin: %.1f m\n      from: %.1f m ÷ (1 − %g ply take-up) × %d plies\n", n.Yarn.SinglesM(n.LengthM), n.LengthM, n.Yarn.PlyTakeUp, n.Yarn.Plies)
		}
		for _, l := range TwistText(n.Yarn) {
			fmt.Fprintf(b, "  %s\n", l)
		}
		b.WriteString("  This yarn in every count:\n")
		for _, l := range CountsText(n.Yarn) {
			fmt.Fprintf(b, "    %s\n", l)
		}
		b.WriteString("  Diameter by each rule:\n")
		for _, d := range n.Yarn.Diameters() {
			fmt.Fprintf(b, "    %.3f mm, %.2f wraps per cm: %s (%s)\n", d.DiameterMM, d.WrapsPerCM, d.Rule.Label, d.Rule.Source)
		}
	}
}

// writeSetting is how close the cloth is set against how close it could be.
func (r *Result) writeSetting(b *strings.Builder, units string) {
	s := r.Reckoning.Setting
	if s == nil {
		return
	}
	fmt.Fprintf(b, "\nSetting: %s\n  On the loom %.2f ends and %.2f picks per cm. Closest, by each rule:\n", s.Weave.Name, r.Reckoning.EndsPerCMOnLoom, r.Reckoning.PicksPerCMOnLoom)
	for _, l := range s.Limits {
		fmt.Fprintf(b, "    %.2f ends and %.2f picks per cm: %s (%s)\n", l.EndsPerCMOnLoom, l.PicksPerCMOnLoom, l.Rule, l.Source)
	}
	b.WriteString("  Usual, of the closest:\n")
	for _, g := range s.Ranges {
		fmt.Fprintf(b, "    %s: %.2f to %.2f ends and %.2f to %.2f picks per cm (%s)\n", g.Use, g.EndsLow, g.EndsHigh, g.PicksLow, g.PicksHigh, g.Source)
	}
	fmt.Fprintf(b, "  %s\n", OpennessText(r.Reckoning))
	writeFigures(b, s.Figures, units)
}

// writeLoom is how the loom is set up: reeds, order of the yarns, weights.
func (r *Result) writeLoom(b *strings.Builder, units string) {
	c := r.Reckoning
	b.WriteString("\nLoom\n")
	if kind := r.plan.Loom.Kind; kind != "" {
		info, _ := kind.Info()
		fmt.Fprintf(b, "  %s: %s\n", kind, info.About)
	}
	for _, l := range SleysText(c) {
		fmt.Fprintf(b, "  %s\n", l)
	}
	fmt.Fprintf(b, "  Ends from the left selvedge: %s\n", shortOrder(c.WarpStripes))
	fmt.Fprintf(b, "  Picks from the first: %s\n", shortOrder(c.WeftStripes))
	if h := c.Hanging; h != nil {
		b.WriteString("  Weights\n")
		writeFigures(b, h.Figures, units)
		for _, l := range h.Remarks {
			fmt.Fprintf(b, "  - %s\n", l)
		}
	}
}

// SleysText is the best of each reed, the one taken first.
func SleysText(c cloth.Reckoning) []string {
	var lines []string
	for i, k := range c.Sleys {
		text := fmt.Sprintf("Reed of %g dents per 10 cm, %s to the dent: %.2f ends per cm, %.2f finished, %+.1f %%", k.ReedDentsPer10CM, cloth.OrderText(k.DentOrder), k.EndsPerCMOnLoom, k.EndsPerCMFinished, k.OffPercent)
		if i == 0 {
			text += " (taken)"
		}
		lines = append(lines, text)
	}
	return lines
}

// shortOrder is an order in words, cut off where it gets long.
func shortOrder(order []cloth.Stripe) string {
	const most = 24
	if len(order) <= most {
		return cloth.StripesText(order)
	}
	return fmt.Sprintf("%s, and so on, %d changes in all", cloth.StripesText(order[:most]), len(order)-1)
}

// OpennessText says between which of the usual setts the cloth lies.
func OpennessText(c cloth.Reckoning) string {
	s := c.Setting
	if s == nil || len(s.Ranges) == 0 {
		return ""
	}
	of := 0.0
	for _, f := range s.Figures {
		if f.Key == "ends_of_closest" {
			of = f.Value
		}
	}
	softest := s.Ranges[len(s.Ranges)-1]
	switch {
	case of > 1:
		return fmt.Sprintf("The ends are at %.0f %% of the closest: they will not lie beside each other.", 100*of)
	case of > s.Ranges[0].High:
		return fmt.Sprintf("The ends are at %.0f %% of the closest: closer than %s.", 100*of, s.Ranges[0].Use)
	case of < softest.Low:
		return fmt.Sprintf("The ends are at %.0f %% of the closest: opener than a %s. It may slip and ravel where it is cut, unless it is fulled well; finer spacing or thicker yarn closes it.", 100*of, softest.Use)
	}
	for _, g := range s.Ranges {
		if of >= g.Low {
			return fmt.Sprintf("The ends are at %.0f %% of the closest: as for %s.", 100*of, g.Use)
		}
	}
	return ""
}
