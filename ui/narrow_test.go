package ui

import "testing"

// TestWindowFitsASmallScreenWithLargeText: at a text scale of 1.5 a screen of
// 1280 × 800 is 853 × 533 of the window's units, less a title bar; the drawer may
// be shut.
func TestWindowFitsASmallScreenWithLargeText(t *testing.T) {
	v, _ := opened(t, "light")
	if m := v.Content().MinSize(); m.Width > 853 {
		t.Errorf("the window is at least %v wide", m.Width)
	}
	v.drawer.root.Hide()
	if m := v.Content().MinSize(); m.Height > 533-50 {
		t.Errorf("with the drawer shut it is at least %v high", m.Height)
	}
}
