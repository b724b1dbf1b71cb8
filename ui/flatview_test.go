package ui

import (
	"strings"
	"testing"
)

// The tab shows the garment drawn flat and the order of sewing, and draws anew
// only when what is shown has changed.
func TestGarmentIsShownFlat(t *testing.T) {
	v, l := opened(t, "light")
	v.drawer.toggle(3)
	l.until("the garment laid flat", func() bool { return v.drawer.flat.image.Image != nil })
	f := v.drawer.flat
	if f.image.Image == nil {
		t.Fatal("nothing is drawn")
	}
	if b := f.image.Image.Bounds(); b.Dx() != flatPixels || b.Dy() < 200 {
		t.Errorf("the picture is %v", b)
	}
	if s := f.order.Text; !strings.Contains(s, "neck to facing: 47.0 cm") || !strings.Contains(s, "Turn up the hems") {
		t.Errorf("the order of sewing is %q", s)
	}
	was := f.image.Image
	v.drawer.update()
	if f.image.Image != was {
		t.Error("the same garment is drawn twice")
	}
	if err := v.b.set("garment.options.centre_gores", "centre gores", "0"); err != nil {
		t.Fatal(err)
	}
	l.until("the garment laid flat", func() bool { return f.image.Image != was })
	if f.image.Image == was || strings.Contains(f.order.Text, "centre front gore") {
		t.Error("without centre gores the drawing is the same")
	}
}
