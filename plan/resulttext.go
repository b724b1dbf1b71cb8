package plan

import (
	"fmt"
	"strconv"
	"strings"

	"ellwand/cloth"
)

const cmPerInch = 2.54

// shown is a length in the units of display.
func shown(cm float64, units string) float64 {
	if units == "inch" {
		return cm / cmPerInch
	}
	return cm
}

// lengthText is a length as a person reads it; in inches the cm stand beside,
// because the formulas are in cm.
func lengthText(cm float64, units string) string {
	if units == "inch" {
		return fmt.Sprintf("%s in (%s cm)", unsignedNought(cm/cmPerInch, 2), unsignedNought(cm, 1))
	}
	return unsignedNought(cm, 1) + " cm"
}

// unsignedNought is a number with so many decimals, and "0.0" for "-0.0".
func unsignedNought(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// Text is the printed reckoning: pieces, lay, every figure with what it comes
// from, yarn, fleece, cautions. units is "cm" or "inch", for display only.
func (r *Result) Text(units string) string {
	var b strings.Builder
	if r.plan.Title != "" {
		fmt.Fprintf(&b, "%s\n%s\n\n", r.plan.Title, strings.Repeat("=", len([]rune(r.plan.Title))))
	}
	r.writePieces(&b, units)
	r.writeLay(&b, units)
	r.writePiecing(&b, units)
	b.WriteString("Cloth\n")
	writeFigures(&b, r.Reckoning.Figures, units)
	r.writeSetting(&b, units)
	r.writeLoom(&b, units)
	r.writeYarns(&b, units)
	r.writeFleeces(&b, units)
	r.writeDyes(&b, units)
	r.writeSamples(&b)
	r.writeHours(&b)
	r.writeProgress(&b)
	r.writeSewing(&b, units)
	writeList(&b, "Cannot be made as it stands", shortfallTexts(r.CannotBeMade))
	writeList(&b, "Cautions", r.Cautions)
	writeList(&b, "Notes", r.Notes)
	return b.String()
}

func (r *Result) writePieces(b *strings.Builder, units string) {
	b.WriteString("Pieces, as cut\n")
	for _, p := range r.Pieces {
		fmt.Fprintf(b, "  %d × %s: %s long, %s wide, %.0f cm² each\n", p.Piece.Copies, p.Piece.Name,
			lengthText(p.CutLengthCM, units), lengthText(p.CutWidthCM, units), p.CutAreaCM2)
	}
	if len(r.Garment.Sizes) > 0 {
		b.WriteString("\nFinished sizes\n")
	}
	for _, s := range r.Garment.Sizes {
		fmt.Fprintf(b, "  %s: %s\n      from: %s\n", s.Label, lengthText(s.CM, units), s.From)
	}
	b.WriteString("\n")
}

func (r *Result) writeLay(b *strings.Builder, units string) {
	fmt.Fprintf(b, "Lay, finished cloth\n  %s wide, %s long, %.1f %% used\n", lengthText(r.Lay.WidthCM, units), lengthText(r.ClothCM(), units), r.UsePercent)
	fmt.Fprintf(b, "  %s\n", r.BoundText(units))
	r.writeLengths(b, units)
	for _, f := range r.Faults {
		fmt.Fprintf(b, "  Fault: %s.\n", f.Text)
	}
	b.WriteString("\n")
}

func writeFigures(b *strings.Builder, figures []cloth.Figure, units string) {
	for _, f := range figures {
		fmt.Fprintf(b, "  %s: %s\n", f.Label, figureText(f, units))
		if f.From != "" {
			fmt.Fprintf(b, "      from: %s\n", f.From)
		}
	}
}

// figureText is a figure's value with its unit, as exact as it is useful.
func figureText(f cloth.Figure, units string) string {
	if f.Unit == "cm" {
		return lengthText(f.Value, units)
	}
	return ValueText(f.Value, f.Unit)
}

// ValueText is a value with its unit, as exact as it is useful; a length is in cm.
func ValueText(v float64, unit string) string {
	switch unit {
	case "":
		return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.3f", v), "0"), ".")
	case "m", "g", "cm":
		return fmt.Sprintf("%.1f %s", v, unit)
	}
	return fmt.Sprintf("%.2f %s", v, unit)
}

func writeList(b *strings.Builder, head string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s\n", head)
	for _, l := range lines {
		fmt.Fprintf(b, "  - %s\n", l)
	}
}
