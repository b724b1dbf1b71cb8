// Package picture draws thread and cloth: a weave at its true cover, stripes
// from selvedge to selvedge, a yarn with its twist, a reed with its ends. It
// knows colours and pixels and nothing of windows or files.
package picture

import (
	"image"
	"image/color"
	"math"

	"ellwand/cloth"
)

// Thread is how one end or pick looks.
type Thread struct {
	Colour     color.RGBA
	DiameterMM float64
}

// Fabric is a piece of cloth to be drawn. End and Pick give the threads by
// their numbers, from the left and from the first woven, which lies lowest.
type Fabric struct {
	Draft                 cloth.Draft
	EndsPerCM, PicksPerCM float64
	End, Pick             func(i int) Thread
	Ground                color.RGBA // seen where no thread lies
	WidthMM               float64    // of the cloth that the picture's width shows
}

// samples each way in a pixel, so that thin threads keep their width.
const samples = 2

// Draw is the cloth on so many pixels. Every thread is as thick, against its
// spacing, as it is in the cloth; where threads are thicker than their spacing
// they lie pressed to it.
func (f Fabric) Draw(widthPx, heightPx int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, widthPx, heightPx))
	if widthPx <= 0 || heightPx <= 0 || len(f.Draft) == 0 {
		return img
	}
	mmPerPx := f.WidthMM / float64(widthPx)
	for py := range heightPx {
		for px := range widthPx {
			var r, g, b float64
			for s := range samples * samples {
				x := (float64(px) + (float64(s%samples)+0.5)/samples) * mmPerPx
				y := (float64(heightPx-1-py) + (float64(s/samples)+0.5)/samples) * mmPerPx
				c := f.at(x, y)
				r, g, b = r+c[0], g+c[1], b+c[2]
			}
			n := float64(samples * samples)
			img.SetRGBA(px, py, color.RGBA{byte(r / n), byte(g / n), byte(b / n), 255})
		}
	}
	return img
}

// lie is where a place lies on one set of threads: which thread, how far along
// its spacing, and how far from its middle, as a part of its half width; above
// 1 is beside the thread.
type lie struct {
	index         int
	along, beside float64
	thread        Thread
}

func lieOn(mm, perCM float64, thread func(int) Thread) lie {
	pitch := 10 / perCM
	i := int(math.Floor(mm / pitch))
	t := thread(i)
	half := math.Min(t.DiameterMM, pitch) / 2
	along := mm/pitch - float64(i)
	return lie{i, along, math.Abs(along-0.5) * pitch / half, t}
}

// at is the colour of a place, x across and y along the cloth in mm.
func (f Fabric) at(x, y float64) [3]float64 {
	e, p := lieOn(x, f.EndsPerCM, f.End), lieOn(y, f.PicksPerCM, f.Pick)
	onEnd, onPick := e.beside < 1, p.beside < 1
	up := f.up(e.index, p.index)
	switch {
	case onEnd && (!onPick || up):
		return shade(e.thread.Colour, e.beside, f.dip(p.along, up, f.up(e.index, p.index-1), f.up(e.index, p.index+1)))
	case onPick:
		return shade(p.thread.Colour, p.beside, f.dip(e.along, !up, !f.up(e.index-1, p.index), !f.up(e.index+1, p.index)))
	}
	return [3]float64{float64(f.Ground.R), float64(f.Ground.G), float64(f.Ground.B)}
}

// up says whether the end lies over the pick.
func (f Fabric) up(end, pick int) bool {
	row := f.Draft[wrap(pick, len(f.Draft))]
	return row[wrap(end, len(row))]
}

func wrap(i, n int) int { return (i%n + n) % n }

// dip is the light on a thread along its spacing: less where it goes under, or
// comes from under, its neighbours.
func (f Fabric) dip(along float64, here, before, after bool) float64 {
	light := 1.0
	if !here {
		light = 0.62
	}
	const reach = 0.4
	if here && !before && along < reach {
		light -= 0.4 * (1 - along/reach)
	}
	if here && !after && along > 1-reach {
		light -= 0.4 * (1 - (1-along)/reach)
	}
	return light
}

// shade is a round thread's colour at a place beside its middle.
func shade(c color.RGBA, beside, light float64) [3]float64 {
	k := light * (0.55 + 0.45*math.Sqrt(math.Max(0, 1-beside*beside)))
	return [3]float64{float64(c.R) * k, float64(c.G) * k, float64(c.B) * k}
}
