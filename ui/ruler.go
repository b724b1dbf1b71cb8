package ui

import (
	"image"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"github.com/fogleman/gg"

	"ellwand/layout/drawing"
)

// cmPerInch is exact by definition.
const cmPerInch = 2.54

// The rulers: along both selvedges, and one across the cloth at the left.
const (
	rulerTop = iota
	rulerFoot
	rulerLeft
)

func (s *strip) newRuler(side int) *canvas.Raster {
	return canvas.NewRaster(func(w, h int) image.Image { return s.drawRuler(side, w, h) })
}

func (s *strip) layRulers(size fyne.Size) {
	s.rulers[rulerTop].Resize(fyne.NewSize(size.Width, rulerBand))
	s.rulers[rulerFoot].Move(fyne.NewPos(0, size.Height-rulerBand))
	s.rulers[rulerFoot].Resize(fyne.NewSize(size.Width, rulerBand))
	s.rulers[rulerLeft].Move(fyne.NewPos(0, rulerBand))
	s.rulers[rulerLeft].Resize(fyne.NewSize(leftBand-stripEdge, max(1, size.Height-2*rulerBand)))
}

// drawRuler draws one ruler at the pixels of the screen.
func (s *strip) drawRuler(side, w, h int) image.Image {
	g := gg.NewContext(max(1, w), max(1, h))
	c, px := colours(), s.px()
	g.SetColor(c.raised)
	g.Clear()
	unit, name := 1.0, "cm"
	if s.b.plan().ShowUnits == "inch" {
		unit, name = cmPerInch, "in"
	}
	g.SetFontFace(s.ink.face(theme.DefaultTextFont().Content(), 11*px))
	g.SetColor(c.text)
	g.SetLineWidth(px)
	long, wide := s.cloth()
	perUnit := float64(s.zoom) * px * unit
	if side == rulerLeft {
		top := float64(s.origin.Y-rulerBand) * px
		step := rulerStep(perUnit, 30*px)
		for n := 0; float64(n)*step <= wide/unit+1e-9; n++ {
			if y := top + float64(n)*step*perUnit; y > 6*px && y < float64(h)-6*px {
				g.DrawLine(float64(w)-6*px, y, float64(w), y)
				g.DrawStringAnchored(plainNumber(float64(n)*step), float64(w)-8*px, y, 1, 0.35)
			}
		}
		g.Stroke()
		return g.Image()
	}
	edge, text, anchor := float64(h), float64(h)-8*px, 0.0 // the ruler's lines start at the cloth
	if side == rulerFoot {
		edge, text, anchor = 0, 8*px, 1
	}
	left := float64(leftBand-stripEdge) * px
	step := rulerStep(perUnit, 48*px)
	half := func(figure string) float64 { w, _ := g.MeasureString(figure); return w / 2 }
	zero := func(cm float64) float64 { return (float64(s.origin.X) + cm*float64(s.zoom)) * px }
	for _, m := range marksAlong(stretches(s.sheet, long), zero, unit, step, left, float64(w), px, half) {
		g.DrawLine(m.x, edge, m.x, math.Abs(edge-6*px))
		g.DrawStringAnchored(m.figure, min(m.x, float64(w)-half(m.figure)-2*px), text, 0.5, anchor)
	}
	g.Stroke()
	g.DrawStringAnchored(name, 6*px, text, 0, anchor)
	return g.Image()
}

// rulerMark is one line of a ruler and the figure at it, "" for none.
type rulerMark struct {
	x      float64
	figure string
}

// marksAlong are the marks on lengths of cloth, each measured from its own cut
// end, between two places on the picture. What would run into the nought of the
// next length is left out.
func marksAlong(all []drawing.Length, at func(cm float64) float64, unit, step, from, to, px float64, half func(string) float64) []rulerMark {
	var out []rulerMark
	for k, l := range all {
		apart := at(l.FromCM+step*unit) - at(l.FromCM)
		for n := max(0, math.Ceil((from-at(l.FromCM))/apart)); n*step <= (l.ToCM-l.FromCM)/unit+1e-9; n++ {
			m := rulerMark{at(l.FromCM) + n*apart, plainNumber(n * step)}
			if m.x > to {
				break
			}
			if k+1 < len(all) && m.x+half(m.figure)+half("0")+6*px > at(all[k+1].FromCM) {
				m.figure = ""
			}
			out = append(out, m)
		}
	}
	return out
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
