package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"ellwand/cloth"
	"ellwand/plan"
)

// drawn is something that can be drawn on so many pixels.
type drawn interface {
	Draw(widthPx, heightPx int) *image.RGBA
}

// picture adds a picture that follows the plan and its result; of gives what is
// to be drawn, nil for nothing.
func (f *form) picture(height float32, of func() drawn) {
	now := of()
	raster := canvas.NewRaster(func(w, h int) image.Image {
		if now == nil {
			return image.NewRGBA(image.Rect(0, 0, w, h))
		}
		return now.Draw(w, h)
	})
	raster.SetMinSize(fyne.NewSize(panelWidth, height))
	show := func() {
		if now == nil {
			raster.Hide()
		} else {
			raster.Show()
		}
	}
	show()
	f.live = append(f.live, func() {
		was := now != nil
		now = of()
		show()
		if was != (now != nil) {
			f.box.Refresh()
		}
		canvas.Refresh(raster)
	})
	f.add(raster)
}

// plainColour is a theme colour without its kind.
func plainColour(name fyne.ThemeColorName) color.RGBA {
	r, g, b, _ := theme.Color(name).RGBA()
	return color.RGBA{byte(r >> 8), byte(g >> 8), byte(b >> 8), 255}
}

// yarnColour is a yarn's colour: its own, or an undyed one by its place among
// the plan's yarns, so that two yarns without a colour are told apart.
func yarnColour(p *plan.Plan, name string) color.RGBA {
	all := p.AllYarns()
	for i, y := range all {
		if y.Name != name {
			continue
		}
		rgb, ok := plan.ColourRGB(y.Colour)
		if !ok {
			undyed := []string{"grey", "fawn", "white", "brown", "black"}
			rgb, _ = plan.ColourRGB(undyed[i%len(undyed)])
		}
		return color.RGBA{byte(rgb >> 16), byte(rgb >> 8), byte(rgb), 255}
	}
	return color.RGBA{143, 139, 132, 255}
}

// workedYarn is a yarn of the plan with its grist worked out; false when it
// cannot be.
func workedYarn(p *plan.Plan, name string) (cloth.Yarn, bool) {
	for _, y := range p.AllYarns() {
		if y.Name == name {
			worked, err := y.Worked()
			return worked, err == nil && worked.Tex > 0
		}
	}
	return cloth.Yarn{}, false
}
