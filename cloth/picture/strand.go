package picture

import (
	"image"
	"image/color"
	"math"
)

// Strand is a length of yarn to scale, its fibres lying at the twist's angle.
type Strand struct {
	Colour     color.RGBA
	Ground     color.RGBA
	Ink        color.RGBA
	DiameterMM float64
	AngleDeg   float64 // of the surface fibres to the length; 0 when not known
	S          bool    // S twist: fibres slant as the middle of an S
	WidthMM    float64 // of the yarn that the picture's width shows
}

// Draw is the yarn on so many pixels, a scale of millimetres under it.
func (s Strand) Draw(widthPx, heightPx int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, widthPx, heightPx))
	if widthPx <= 0 || heightPx <= 0 {
		return img
	}
	pxPerMM := float64(widthPx) / s.WidthMM
	scale := heightPx / 4
	middle, half := float64(heightPx-scale)/2, s.DiameterMM*pxPerMM/2
	for y := range heightPx {
		for x := range widthPx {
			img.SetRGBA(x, y, s.at(float64(x), float64(y), middle, half))
		}
	}
	s.ruler(img, pxPerMM, heightPx-scale)
	return img
}

// at is the colour of a pixel. On the yarn's near side fibres wind round a
// cylinder: at height h from the middle they are asin(h) round it.
func (s Strand) at(x, y, middle, half float64) color.RGBA {
	h := (y + 0.5 - middle) / half
	if math.Abs(h) >= 1 {
		return s.Ground
	}
	light := 0.5 + 0.5*math.Sqrt(1-h*h)
	if s.AngleDeg > 0 {
		slant := math.Asin(h) * half / math.Tan(s.AngleDeg*math.Pi/180)
		if !s.S {
			slant = -slant
		}
		fibre := math.Max(4, half/2) // between the fibres drawn, in pixels
		if math.Mod(math.Mod(x-slant, fibre)+fibre, fibre) < fibre*0.3 {
			light *= 0.72
		}
	}
	return color.RGBA{byte(float64(s.Colour.R) * light), byte(float64(s.Colour.G) * light), byte(float64(s.Colour.B) * light), 255}
}

// ruler is a line with a tick for every millimetre, a longer one for every fifth.
func (s Strand) ruler(img *image.RGBA, pxPerMM float64, top int) {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	for x := range w {
		img.SetRGBA(x, top, s.Ink)
	}
	for mm := 0; float64(mm)*pxPerMM < float64(w); mm++ {
		tick := (h - top) / 2
		if mm%5 == 0 {
			tick = h - top - 1
		}
		for y := range tick {
			img.SetRGBA(int(float64(mm)*pxPerMM), top+y, s.Ink)
		}
	}
}

// Reed is a few dents of a reed seen from before, the ends that each holds
// between its wires.
type Reed struct {
	DentOrder         []int
	DentMM, EndMM     float64 // width of a dent, thickness of an end
	Wire, End, Ground color.RGBA
	Dents             int // that the picture's width shows
	EndColour         func(i int) color.RGBA
}

// Draw is the reed on so many pixels.
func (r Reed) Draw(widthPx, heightPx int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, widthPx, heightPx))
	if widthPx <= 0 || heightPx <= 0 || r.Dents < 1 || len(r.DentOrder) == 0 {
		return img
	}
	fill(img, img.Bounds(), r.Ground)
	dent := float64(widthPx) / float64(r.Dents)
	rim := max(2, heightPx/10)
	end := 0
	for d := range r.Dents {
		x := float64(d) * dent
		fill(img, image.Rect(int(x), rim, int(x)+max(1, int(dent/8)), heightPx-rim), r.Wire)
		n := r.DentOrder[d%len(r.DentOrder)]
		thick := math.Max(1, math.Min(r.EndMM/r.DentMM*dent, dent*0.8/math.Max(1, float64(n))))
		for k := range n {
			at := x + dent/8 + (dent*7/8)*(float64(k)+0.5)/float64(n)
			fill(img, image.Rect(int(at-thick/2), 0, int(math.Ceil(at+thick/2)), heightPx), r.EndColour(end))
			end++
		}
	}
	fill(img, image.Rect(0, 0, widthPx, rim), r.Wire)
	fill(img, image.Rect(0, heightPx-rim, widthPx, heightPx), r.Wire)
	return img
}

func fill(img *image.RGBA, area image.Rectangle, c color.RGBA) {
	area = area.Intersect(img.Bounds())
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			img.SetRGBA(x, y, c)
		}
	}
}

// Hung is a row of loom weights seen from before, threads fanning to each.
type Hung struct {
	Weights       int
	RowMM, WarpMM float64 // width of the row hung close, and of the warp above it
	Clay, Thread  color.RGBA
	Ground        color.RGBA
}

// Draw is the row on so many pixels: the wider of row and warp fills the width.
func (h Hung) Draw(widthPx, heightPx int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, widthPx, heightPx))
	if widthPx <= 0 || heightPx <= 0 || h.Weights < 1 {
		return img
	}
	fill(img, img.Bounds(), h.Ground)
	px := float64(widthPx) / math.Max(h.RowMM, h.WarpMM)
	left := func(mm float64) float64 { return (float64(widthPx) - mm*px) / 2 }
	top := heightPx - int(math.Max(6, math.Min(float64(heightPx)/2, h.RowMM*px/float64(h.Weights)*1.2)))
	for i := range h.Weights {
		at := func(mm float64, k float64) float64 { return left(mm) + mm*px*k/float64(h.Weights) }
		for t := range 5 {
			from, to := at(h.WarpMM, float64(i)+(float64(t)+0.5)/5), at(h.RowMM, float64(i)+0.5)
			for y := range top {
				x := from + (to-from)*float64(y)/float64(top)
				img.SetRGBA(int(x), y, h.Thread)
			}
		}
		a, b := at(h.RowMM, float64(i)), at(h.RowMM, float64(i)+1)
		gap := math.Max(0.5, (b-a)*0.06)
		fill(img, image.Rect(int(math.Ceil(a+gap)), top, max(int(a+gap)+1, int(b-gap)), heightPx), h.Clay)
	}
	return img
}
