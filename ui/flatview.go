package ui

import (
	"errors"
	"fmt"
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/layout/drawing"
	"ellwand/plan"
	"ellwand/prints"
)

// flatPixels is how wide the garment is drawn for the drawer, in pixels.
const flatPixels = 1500

// flatView is the garment drawn flat, from its own pieces and seams, with the
// order of sewing beside it.
type flatView struct {
	b      *bench
	of     *plan.Result // what is drawn
	dark   bool
	image  *canvas.Image
	order  *widget.Label
	export *widget.Button
	root   fyne.CanvasObject
}

func newFlatView(b *bench, export func()) *flatView {
	f := &flatView{b: b, image: &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleSmooth}}
	f.image.SetMinSize(fyne.NewSize(300, 120))
	f.order = widget.NewLabel("")
	f.order.Wrapping = fyne.TextWrapWord
	f.export = widget.NewButton(words("Export it…"), export)
	larger := widget.NewButton(words("Larger"), f.enlarge)
	side := container.NewBorder(container.NewHBox(larger, f.export), nil, nil, nil, container.NewVScroll(f.order))
	f.root = container.NewBorder(nil, nil, nil, container.New(&fixedWidth{390}, side), f.image)
	return f
}

// update draws what is shown now, beside the window.
func (f *flatView) update() {
	r, dark := f.b.shown, darkNow()
	if r == f.of && dark == f.dark {
		return
	}
	f.of, f.dark = r, dark
	if r == nil {
		f.order.SetText(words("Nothing is worked out yet."))
		return
	}
	f.order.SetText(sewingText(r, f.b.plan().ShowUnits))
	f.draw(r, flatPixels, func(img image.Image, err error) {
		if f.of != r {
			return
		}
		if err != nil {
			f.order.SetText("! " + sentence(err, ""))
			return
		}
		f.image.Image = img
		f.image.Refresh()
	})
}

// darkNow says whether the window's ground is dark.
func darkNow() bool {
	r, g, b, _ := theme.Color(theme.ColorNameBackground).RGBA()
	return r+g+b < 3*0x8000
}

// draw makes the picture beside the window and hands it back on the window's
// own goroutine.
func (f *flatView) draw(r *plan.Result, pixels int, done func(image.Image, error)) {
	sheet := r.FlatSheet("")
	dark := f.dark
	f.b.spawn(func() {
		img, err := drawing.FlatPicture(sheet, drawing.Options{PixelWidth: pixels, Dark: dark}, false)
		f.b.onWindow(func() { done(img, err) })
	})
}

// sewingText is the order of sewing as it stands beside the picture; the
// numbers in brackets are those of the picture's seams.
func sewingText(r *plan.Result, units string) string {
	var b strings.Builder
	for _, s := range r.FlatSheet("").Steps {
		fmt.Fprintf(&b, "%s\n", s.Head)
		for _, l := range s.Lines {
			fmt.Fprintf(&b, "    %s\n", l)
		}
	}
	return strings.TrimRight(b.String(), "\n")
}

// enlarge shows the picture in a window of its own.
func (f *flatView) enlarge() {
	r := f.b.shown
	if r == nil {
		return
	}
	w := fyne.CurrentApp().NewWindow(words("%s, laid flat", f.b.plan().Title))
	img := &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleSmooth, Image: f.image.Image}
	w.SetContent(img)
	w.Resize(fyne.NewSize(1100, 720))
	w.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) {
		if e.Name == fyne.KeyEscape {
			w.Close()
		}
	})
	w.Show()
	f.draw(r, 2400, func(p image.Image, err error) {
		if err == nil {
			img.Image = p
			img.Refresh()
		}
	})
}

// exportFlat asks where the garment laid flat goes.
func (v *window) exportFlat() {
	v.settle()
	if !v.b.current() {
		v.fault(errors.New(words("there is no garment to draw yet")))
		return
	}
	v.exportTo(export{kind: prints.Flat}.usual())
}
