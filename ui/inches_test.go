package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2/theme"

	"ellwand/garment"
)

func TestNumbersAsOnAnInchTape(t *testing.T) {
	for text, want := range map[string]float64{"63.75": 63.75, "63,75": 63.75, "63 3/4": 63.75, `36 1/2"`: 36.5, "7/8": 0.875, " 5 ": 5, "-3": -3} {
		if v, ok := readNumber(text); !ok || math.Abs(v-want) > 1e-12 {
			t.Errorf("%q is read as %v, %v", text, v, ok)
		}
	}
	for _, text := range []string{"", "three", "63 3/0", "1 2 3/4", "3/4 5", "3/-4", "NaN", "Inf", "74cm", "63-3/4"} {
		if v, ok := readNumber(text); ok {
			t.Errorf("%q is read as %v", text, v)
		}
	}
}

func TestLengthsOfAPlanInInchesAreTypedInInches(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Body")
	f := v.panels.form
	var stature *field
	for _, fl := range f.fields {
		if fl.spec.path == "body.stature_cm" {
			stature = fl
		}
	}
	if stature == nil {
		t.Fatal("the Body page has no stature")
	}
	if stature.unit.text != "cm" || stature.entry.Text != "176" {
		t.Fatalf("stature stands as %s %s", stature.entry.Text, stature.unit.text)
	}
	if err := v.b.set("show_units", "units", "inch"); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	if stature.unit.text != "in" || stature.entry.Text != "69.291" {
		t.Errorf("in inches stature stands as %s %s", stature.entry.Text, stature.unit.text)
	}
	stature.commit("69.291")
	if cm := v.b.plan().Body.CM[garment.Stature]; cm != 176 {
		t.Errorf("leaving the field alone changed stature to %v cm", cm)
	}
	stature.commit("63 3/4")
	l.rest(v.b)
	if cm := v.b.plan().Body.CM[garment.Stature]; cm != 161.925 {
		t.Errorf("63 3/4 in is taken as %v cm", cm)
	}
	if stature.entry.Text != "63.75" {
		t.Errorf("63 3/4 stands as %s", stature.entry.Text)
	}
	if err := stature.spec.try("600"); err == nil {
		t.Error("a stature of 600 in is taken")
	} else {
		t.Log(sentence(err, "body.stature_cm"))
	}
}

func TestFiguresThatGrowKeepTheirRoom(t *testing.T) {
	v, l := opened(t, "light")
	if err := v.b.set("show_units", "units", "inch"); err != nil {
		t.Fatal(err)
	}
	l.rest(v.b)
	v.figures.cloth.say("22.66 in × 232.15 in, 90.4 % used, and more", false)
	v.figures.update()
	for _, c := range []*figureCell{v.figures.cloth, v.figures.warp, v.figures.yarn, v.figures.weft, v.figures.wool, v.figures.time} {
		if c.Size().Width < c.MinSize().Width {
			t.Errorf("%s: %s has %v of %v", c.caption, c.value, c.Size().Width, c.MinSize().Width)
		}
	}
}

func TestLongWordsUnderTheStripAreReadWhole(t *testing.T) {
	v, _ := opened(t, "light")
	before := v.strip.Size()
	v.say("Keep a lay first: Lay, Keep this lay as A, and the same again for B.", true)
	if v.strip.Size() != before {
		t.Errorf("the strip of %v became %v", before, v.strip.Size())
	}
	lines, letters := v.status.lines(250)
	if len(lines) != 2 || letters != theme.CaptionTextSize() {
		t.Errorf("%q in letters of %v", lines, letters)
	}
	if lines, letters := (&statusLine{Text: "Saved"}).lines(250); len(lines) != 1 || letters != theme.TextSize() {
		t.Errorf("a short word is said as %q in letters of %v", lines, letters)
	}
}
