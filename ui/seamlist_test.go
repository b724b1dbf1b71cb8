package ui

import (
	"strings"
	"testing"
)

// A seam is said to show on the Garment page, and the plan keeps it.
func TestSeamsThatShowAreChosen(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Garment")
	fieldAt(t, v, "seams[underarm].shows").commit("true")
	l.rest(v.b)
	text, err := v.b.plan().Marshal()
	if err != nil || !strings.Contains(string(text), "name: underarm") {
		t.Errorf("the plan does not keep it (%v)", err)
	}
	shows := false
	for _, s := range v.b.shown.Garment.Seams {
		shows = shows || s.Name == "underarm" && s.Shows
	}
	if !shows {
		t.Error("the seam does not show")
	}
	fieldAt(t, v, "seams[underarm].shows").commit("false")
	if len(v.b.plan().Seams) != 0 {
		t.Errorf("the entry stays: %v", v.b.plan().Seams)
	}
}

// Every check of fit stands on the Garment page with its rule.
func TestFitIsSaidOnTheGarmentPage(t *testing.T) {
	v, _ := opened(t, "light")
	v.panels.openNamed("Garment")
	said := ""
	for _, o := range v.panels.form.box.Objects {
		if p, ok := o.(*paragraph); ok {
			said += p.text + "\n"
		}
	}
	for _, check := range []string{"head through neck: fits", "shoulders through the body: fits", "arm raised: fits", "a step in the hem: fits", "hand through cuff: fits"} {
		if !strings.Contains(said, check) {
			t.Errorf("%q is not said", check)
		}
	}
}
