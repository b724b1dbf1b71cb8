package picture

import (
	"image"
	"image/color"
	"math"
	"sort"

	"ellwand/cloth"
)

// Stripes is a cloth seen from so far that threads melt into stripes.
type Stripes struct {
	Warp, Weft            []cloth.Stripe
	EndsPerCM, PicksPerCM float64
	Colour                func(yarn string) color.RGBA
	WarpShare             float64 // of the surface that the warp shows
	WidthCM               float64 // of the cloth that the picture's width shows
}

// threads finds the yarn of the thread by its number.
type threads struct {
	list []cloth.Stripe
	ends []int // the number after each stripe's last thread
}

func newThreads(list []cloth.Stripe) threads {
	t := threads{list: list}
	n := 0
	for _, s := range list {
		n += s.Threads
		t.ends = append(t.ends, n)
	}
	return t
}

// yarn is the yarn of thread i; "" past the last.
func (t threads) yarn(i int) string {
	k := sort.SearchInts(t.ends, i+1)
	if i < 0 || k == len(t.list) {
		return ""
	}
	return t.list[k].Yarn
}

// Finder finds the yarn of a thread by its number, "" for none.
func Finder(list []cloth.Stripe) func(i int) string { return newThreads(list).yarn }

// Draw is the cloth on so many pixels, the left selvedge to the left and the
// first pick lowest.
func (s Stripes) Draw(widthPx, heightPx int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, widthPx, heightPx))
	if widthPx <= 0 || heightPx <= 0 {
		return img
	}
	cmPerPx := s.WidthCM / float64(widthPx)
	columns := make([][3]float64, widthPx)
	warp, weft := newThreads(s.Warp), newThreads(s.Weft)
	for x := range columns {
		columns[x] = s.mean(warp, float64(x)*cmPerPx*s.EndsPerCM, float64(x+1)*cmPerPx*s.EndsPerCM)
	}
	for y := range heightPx {
		from := float64(heightPx-1-y) * cmPerPx * s.PicksPerCM
		row := s.mean(weft, from, from+cmPerPx*s.PicksPerCM)
		for x, c := range columns {
			k := s.WarpShare
			img.SetRGBA(x, y, color.RGBA{byte(k*c[0] + (1-k)*row[0]), byte(k*c[1] + (1-k)*row[1]), byte(k*c[2] + (1-k)*row[2]), 255})
		}
	}
	return img
}

// mean is the mean colour of the threads from one number to another, parts of
// threads counted as parts.
func (s Stripes) mean(t threads, from, to float64) [3]float64 {
	var sum [3]float64
	total := 0.0
	for i := int(from); float64(i) < to && i-int(from) < 400; i++ {
		part := math.Min(to, float64(i+1)) - math.Max(from, float64(i))
		yarn := t.yarn(i)
		if yarn == "" || part <= 0 {
			continue
		}
		c := s.Colour(yarn)
		sum[0], sum[1], sum[2] = sum[0]+part*float64(c.R), sum[1]+part*float64(c.G), sum[2]+part*float64(c.B)
		total += part
	}
	if total == 0 {
		return sum
	}
	return [3]float64{sum[0] / total, sum[1] / total, sum[2] / total}
}
