package drawing

import "image/color"

// Colours are those of undyed and plant-dyed wool, on paper.
type Colours struct {
	Paper, Ink, Faint  color.RGBA // ground, lines and writing, quiet writing
	Waste, Hatch       color.RGBA // cloth that no piece covers
	Madder, Weld, Woad color.RGBA
	Walnut, Bare, Moor color.RGBA // dark, light and grey undyed wool
	Fault, OnPieceInk  color.RGBA
	PieceFills         []color.RGBA
}

func rgb(v uint32) color.RGBA { return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255} }

// Palette is the colours on light or dark ground. Writing on every ground has
// a contrast of at least 4.5 (WCAG 2.2 AA), which the tests work out.
func Palette(dark bool) Colours {
	if dark {
		c := Colours{Paper: rgb(0x1f1c19), Ink: rgb(0xf2ece1), Faint: rgb(0xbdb3a4), Waste: rgb(0x2d2925), Hatch: rgb(0x5a5148),
			Madder: rgb(0x6b2f26), Weld: rgb(0x5c4f1e), Woad: rgb(0x2b445c), Walnut: rgb(0x4c3626), Bare: rgb(0x57504a), Moor: rgb(0x3f4644),
			Fault: rgb(0xff9d8a), OnPieceInk: rgb(0xf7f2e9)}
		c.PieceFills = []color.RGBA{c.Bare, c.Woad, c.Weld, c.Walnut, c.Moor, c.Madder}
		return c
	}
	c := Colours{Paper: rgb(0xfbf8f2), Ink: rgb(0x2a241e), Faint: rgb(0x655b50), Waste: rgb(0xefe8da), Hatch: rgb(0xbfb29c),
		Madder: rgb(0xe3a48f), Weld: rgb(0xe8d48a), Woad: rgb(0xa9c3d6), Walnut: rgb(0xcbb090), Bare: rgb(0xe2d9ca), Moor: rgb(0xc3cbc4),
		Fault: rgb(0xa3201a), OnPieceInk: rgb(0x2a241e)}
	c.PieceFills = []color.RGBA{c.Bare, c.Woad, c.Weld, c.Walnut, c.Moor, c.Madder}
	return c
}
