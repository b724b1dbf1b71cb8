package ui

import (
	"math"
	"strconv"
)

// cmPerInch is exact by definition.
const cmPerInch = 2.54

// rulers are drawn along both selvedges, and one across the cloth at the left.
func (b *brush) rulers(x0, y0, x1, y1 float64) {
	unit, name := 1.0, "cm"
	if b.s.b.plan().ShowUnits == "inch" {
		unit, name = cmPerInch, "in"
	}
	band, w, h := float64(rulerBand)*b.px, float64(b.Width()), float64(b.Height())
	b.SetColor(b.c.raised)
	b.DrawRectangle(0, 0, w, band)
	b.DrawRectangle(0, h-band, w, band)
	b.DrawRectangle(0, band, float64(leftBand-stripEdge)*b.px, h-2*band)
	b.Fill()
	b.SetFontFace(b.s.face(11 * b.px))
	b.SetColor(b.c.text)
	b.SetLineWidth(b.px)
	_, wide := b.s.cloth()
	left := float64(leftBand-stripEdge) * b.px
	step := rulerStep(b.perCM*unit, 48*b.px)
	for _, s := range b.s.stretches() {
		for n := 0; float64(n)*step <= (s.ToCM-s.FromCM)/unit+1e-9; n++ {
			x, text := b.ox+(s.FromCM+float64(n)*step*unit)*b.perCM, plainNumber(float64(n)*step)
			if x < left || x > w {
				continue
			}
			b.DrawLine(x, band-6*b.px, x, band)
			b.DrawLine(x, h-band, x, h-band+6*b.px)
			half, _ := b.MeasureString(text)
			tx := min(x, w-half/2-2*b.px)
			b.DrawStringAnchored(text, tx, band-8*b.px, 0.5, 0)
			b.DrawStringAnchored(text, tx, h-band+8*b.px, 0.5, 1)
		}
	}
	step = rulerStep(b.perCM*unit, 30*b.px)
	for n := 0; float64(n)*step <= wide/unit+1e-9; n++ {
		y := b.oy + float64(n)*step*unit*b.perCM
		if y < band+6*b.px || y > h-band-6*b.px {
			continue
		}
		b.DrawLine(left-6*b.px, y, left, y)
		b.DrawStringAnchored(plainNumber(float64(n)*step), left-8*b.px, y, 1, 0.35)
	}
	b.Stroke()
	b.DrawStringAnchored(name, 6*b.px, band-8*b.px, 0, 0)
	b.DrawStringAnchored(name, 6*b.px, h-band+8*b.px, 0, 1)
}

// rulerStep is 1, 2 or 5 times a power of ten, such that figures stand at least
// `apart` pixels from each other.
func rulerStep(pxPerUnit, apart float64) float64 {
	least := apart / pxPerUnit
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= least {
			return m * power
		}
	}
	return 10 * power
}

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// length is a length in the units shown, to a millimetre.
func length(cm float64, units string) string {
	if units == "inch" {
		return strconv.FormatFloat(cm/cmPerInch, 'f', 2, 64) + " in"
	}
	return strconv.FormatFloat(math.Round(cm*10)/10+0, 'f', 1, 64) + " cm"
}
