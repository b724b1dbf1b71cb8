package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

// Whatever is shown, the parts fill the window from top to bottom, none over
// another, and no tab of the drawer asks for more height than another.
func TestPartsFillTheWindow(t *testing.T) {
	v, _ := opened(t, "light")
	for _, size := range []fyne.Size{{Width: 1240, Height: 730}, {Width: 1900, Height: 1010}} {
		v.Resize(size)
		least := v.Content().MinSize().Height
		seen := map[float32]bool{}
		for _, tab := range []int{3, 0, 3, 1, 3, 3, 0} {
			v.drawer.toggle(tab)
			if got := v.Content().MinSize().Height; v.drawer.root.Visible() && got != least {
				t.Errorf("with tab %d the window is at least %g high, else %g", tab, got, least)
			}
			below := float32(0)
			for _, o := range []fyne.CanvasObject{v.parts.top, v.parts.panels, v.parts.line, v.parts.drawer} {
				if !o.Visible() {
					continue
				}
				if y := o.Position().Y; y < below {
					t.Errorf("at %v with tab %d a part starts at %g, over one that ends at %g", size, tab, y, below)
				}
				below = o.Position().Y + o.Size().Height
			}
			if below != v.body.Size().Height {
				t.Errorf("at %v with tab %d the parts end at %g of %g", size, tab, below, v.body.Size().Height)
			}
			if v.drawer.root.Visible() {
				seen[v.drawer.root.Size().Height] = true
			}
		}
		if !seen[drawerHeight] {
			t.Errorf("at %v the drawer is never %d high: %v", size, drawerHeight, seen)
		}
		if size.Height > 1000 && !seen[flatHeight] {
			t.Errorf("at %v the garment laid flat has less room than it wants: %v", size, seen)
		}
	}
}

// A sentence over the window takes its room from the strip, in the same step.
func TestWhatIsSaidTakesRoomFromTheStrip(t *testing.T) {
	v, _ := opened(t, "light")
	v.Resize(fyne.NewSize(1240, 730))
	was := v.parts.panels.Position().Y
	v.next.away[v.next.at] = true
	v.next.show()
	v.next.relay()
	if now := v.parts.panels.Position().Y; now >= was {
		t.Errorf("the panels start at %g, before at %g", now, was)
	}
}

// A screen of 1280 × 800 dots, with everything 1.3 times as large, holds the
// drawer under the sentence that is said of a newer plan.
func TestSmallScreenHoldsTheDrawer(t *testing.T) {
	v, _ := opened(t, "light")
	const titleBar, menu = 22, 34
	wide, high := float32(1280/1.3), float32((800-titleBar)/1.3-menu)
	v.Resize(fyne.NewSize(wide, high))
	v.next.away[v.next.at] = true
	v.next.show()
	v.notice.text.SetText("! Read-only: this plan is version 9 and comes from a newer Ellwand; this one knows version 1, so it is shown to be looked at, and is neither changed nor saved. Its figures may lack what a newer Ellwand would reckon.")
	v.notice.root.Show()
	v.relay()
	for tab := range 4 {
		if !v.drawer.root.Visible() || v.drawer.tabs.SelectedIndex() != tab {
			v.drawer.toggle(tab)
		}
		if least := v.parts.MinSize(nil).Height; least > high {
			t.Errorf("with tab %d the parts need %g, and there is room for %g", tab, least, high)
		}
	}
}
