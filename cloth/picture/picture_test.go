package picture

import (
	"image"
	"image/color"
	"math"
	"testing"

	"ellwand/cloth"
)

var (
	red   = color.RGBA{200, 0, 0, 255}
	blue  = color.RGBA{0, 0, 200, 255}
	white = color.RGBA{255, 255, 255, 255}
)

func square(t *testing.T, weave string, perCM, diameterMM float64) (Fabric, cloth.Weave) {
	t.Helper()
	w, ok := cloth.WeaveByName(weave)
	if !ok {
		t.Fatalf("no weave %s", weave)
	}
	return Fabric{Draft: w.Draft, EndsPerCM: perCM, PicksPerCM: perCM, Ground: white, WidthMM: 80 / perCM * 10 / 10,
		End:  func(int) Thread { return Thread{red, diameterMM} },
		Pick: func(int) Thread { return Thread{blue, diameterMM} }}, w
}

func share(img *image.RGBA, is func(color.RGBA) bool) float64 {
	n, all := 0, 0
	for i := 0; i < len(img.Pix); i += 4 {
		all++
		if is(color.RGBA{img.Pix[i], img.Pix[i+1], img.Pix[i+2], 255}) {
			n++
		}
	}
	return float64(n) / float64(all)
}

// 8 threads of 0.5 mm to the cm both ways: each covers 0.4, together 0.64; bare 0.36.
func TestBareGroundIsWhatTheThreadsDoNotCover(t *testing.T) {
	f, _ := square(t, "tabby", 8, 0.5)
	img := f.Draw(400, 400)
	bare := share(img, func(c color.RGBA) bool { return c == white })
	if want := 1 - cloth.ClothCover(0.4, 0.4); math.Abs(bare-want) > 0.03 {
		t.Errorf("bare is %.3f, want %.3f", bare, want)
	}
}

// Where threads touch, the warp shows as much as the draft has it over: half in
// tabby, two thirds in a 2/1 twill.
func TestWarpShowsAsTheDraftHasIt(t *testing.T) {
	for weave, want := range map[string]float64{"tabby": 0.5, "2/1 twill": 2.0 / 3, "1/3 twill": 0.25} {
		f, w := square(t, weave, 10, 1)
		f.WidthMM = float64(w.RepeatThreads*w.RepeatPicks) * 1 // whole repeats
		img := f.Draw(240, 240)
		if warp := share(img, func(c color.RGBA) bool { return c.R > c.B }); math.Abs(warp-want) > 0.02 {
			t.Errorf("%s: the warp shows %.3f, want %.3f", weave, warp, want)
		}
	}
}

func TestStripesLieWhereTheEndsLie(t *testing.T) {
	s := Stripes{Warp: []cloth.Stripe{{Yarn: "red", Threads: 30}, {Yarn: "blue", Threads: 10}}, Weft: []cloth.Stripe{{Yarn: "red", Threads: 1000}},
		EndsPerCM: 4, PicksPerCM: 4, WarpShare: 1, WidthCM: 10,
		Colour: func(y string) color.RGBA { return map[string]color.RGBA{"red": red, "blue": blue}[y] }}
	img := s.Draw(100, 10)
	if img.RGBAAt(74, 5) != red || img.RGBAAt(76, 5) != blue {
		t.Errorf("at 7.4 cm %v and at 7.6 cm %v; want red and blue", img.RGBAAt(74, 5), img.RGBAAt(76, 5))
	}
	s.WarpShare = 0.5
	if c := s.Draw(100, 10).RGBAAt(90, 5); c.R != 100 || c.B != 100 {
		t.Errorf("blue warp under red weft is %v", c)
	}
}

// 0.5 mm at 20 pixels to the mm is 10 pixels thick; Z fibres rise to the right.
func TestStrandIsToScale(t *testing.T) {
	s := Strand{Colour: red, Ground: white, Ink: color.RGBA{A: 255}, DiameterMM: 0.5, WidthMM: 10}
	img := s.Draw(200, 40)
	thick := 0
	for y := range 30 {
		if img.RGBAAt(3, y) != white {
			thick++
		}
	}
	if thick != 10 {
		t.Errorf("the yarn is %d pixels thick, want 10", thick)
	}
	lean := func(s Strand) (sum int) {
		s.AngleDeg, s.DiameterMM = 30, 1
		img := s.Draw(200, 80)
		for x := 40; x < 160; x++ { // the darkest pixels a row up lie to the right for Z
			for d := 1; d < 4; d++ {
				if a, b := img.RGBAAt(x, 31), img.RGBAAt(x+d, 28); a.R < 150 && b.R < 150 {
					sum++
				}
				if a, b := img.RGBAAt(x, 31), img.RGBAAt(x-d, 28); a.R < 150 && b.R < 150 {
					sum--
				}
			}
		}
		return sum
	}
	z, sTwist := lean(s), lean(Strand{Colour: red, Ground: white, DiameterMM: 0.5, WidthMM: 10, S: true})
	if z <= 0 || sTwist >= 0 {
		t.Errorf("Z leans %d, S leans %d; want right and left", z, sTwist)
	}
}

func TestReedShowsItsOrder(t *testing.T) {
	r := Reed{DentOrder: []int{1, 2}, DentMM: 2, EndMM: 0.4, Wire: blue, Ground: white, Dents: 4, EndColour: func(int) color.RGBA { return red }}
	img := r.Draw(160, 40)
	runs, in := 0, false
	for x := range 160 {
		on := img.RGBAAt(x, 20) == red
		if on && !in {
			runs++
		}
		in = on
	}
	if runs != 6 {
		t.Errorf("%d ends in 4 dents of 1-2, want 6", runs)
	}
}

func TestRowOfWeightsSplaysWhenItIsWiderThanTheWarp(t *testing.T) {
	h := Hung{Weights: 4, RowMM: 200, WarpMM: 100, Clay: red, Thread: blue, Ground: white}
	img := h.Draw(200, 80)
	first := func(y int, c color.RGBA) int {
		for x := range 200 {
			if img.RGBAAt(x, y) == c {
				return x
			}
		}
		return -1
	}
	if top, bottom := first(0, blue), first(79, red); top < 45 || bottom > 5 {
		t.Errorf("the warp begins at %d and the row at %d; want about 50 and 1", top, bottom)
	}
}

func TestNothingIsDrawnOnNoPixels(t *testing.T) {
	f, _ := square(t, "tabby", 8, 0.5)
	for _, img := range []*image.RGBA{f.Draw(0, 10), Stripes{}.Draw(10, 0), Strand{}.Draw(0, 0), Reed{}.Draw(9, 9), Hung{}.Draw(9, 9)} {
		if img == nil {
			t.Error("no picture")
		}
	}
}
