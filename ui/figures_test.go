package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"ellwand/plan"
)

func TestWidthIsPickedOnTheChartByMouseAndKeys(t *testing.T) {
	v, l := opened(t, "light")
	v.drawer.toggle(1)
	l.until("the width study", func() bool { return len(v.drawer.widths.rows) > 3 })
	c := v.drawer.widths.chart
	if !c.Visible() {
		t.Fatal("the chart is not what is shown first")
	}
	last := len(c.t.rows) - 1
	c.Tapped(&fyne.PointEvent{Position: c.point(c.frame(), last)})
	l.rest(v.b)
	if got, want := v.b.plan().Cloth.FinishedWidthCM, c.t.rows[last].WidthCM; math.Abs(got-want) > 1e-8 {
		t.Errorf("a click on the widest took %v cm; want %v", got, want)
	}
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if !strings.Contains(c.sentence(), length(c.t.rows[1].WidthCM, "cm")+" wide") || !strings.Contains(c.sentence(), "g of yarn with waste") {
		t.Errorf("of the second width it says %q", c.sentence())
	}
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	l.rest(v.b)
	if got, want := v.b.plan().Cloth.FinishedWidthCM, c.t.rows[1].WidthCM; math.Abs(got-want) > 1e-8 {
		t.Errorf("Enter took %v cm; want %v", got, want)
	}
	for _, m := range chartMeasures() {
		v.drawer.widths.showMeasure(m.name)
		for i, r := range c.t.rows {
			if y := c.measure.of(r, "cm"); !(y > 0) || c.point(c.frame(), i).Y > c.Size().Height {
				t.Errorf("%s: the point of %v cm stands for %v", m.name, r.WidthCM, y)
			}
		}
	}
}

func TestPointsThatDoNotFitHaveAnotherShape(t *testing.T) {
	v, _ := opened(t, "light")
	c := v.drawer.widths.chart
	c.Resize(fyne.NewSize(600, 200))
	objects := func(fits bool) int {
		c.t.rows = []plan.WidthRow{{WidthCM: 60, LengthCM: 400, AreaCM2: 24000, Fits: fits, Why: "too long"}, {WidthCM: 64, LengthCM: 390, AreaCM2: 24960, Fits: true}}
		c.draw()
		return len(c.objects)
	}
	if objects(true) == objects(false) {
		t.Error("a width that does not fit is marked by its colour alone")
	}
	c.at = 0
	if !strings.Contains(c.sentence(), "! too long") {
		t.Errorf("it says %q", c.sentence())
	}
}

func TestReckoningLineIsReachedByKeys(t *testing.T) {
	v, _ := opened(t, "light")
	v.Canvas().Focus(v.figures.warp)
	v.figures.warp.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := v.panels.all[v.panels.at].name; got != "Loom" {
		t.Errorf("Enter on the warp opened %s", got)
	}
	for _, c := range []*figureCell{v.figures.cloth, v.figures.warp, v.figures.yarn, v.figures.weft, v.figures.wool, v.figures.time} {
		v.drawer.root.Hide()
		v.drawer.figures.pointed = -1
		c.TypedRune('?')
		i := v.drawer.figures.pointed
		if !v.drawer.root.Visible() || i < 0 || v.drawer.figures.rows[i].From == "" {
			t.Errorf("%s does not say from what", c.caption)
		}
	}
}

func TestEveryFormulaStandsWithinTheDrawer(t *testing.T) {
	v, _ := opened(t, "light")
	v.drawer.toggle(1)
	v.drawer.toggle(0)
	f := v.drawer.figures
	if wide := f.wide + labelColumn + valueColumn + sourceColumn; wide > f.table.Size().Width || f.table.Size().Width < 300 {
		t.Errorf("the columns are %v wide, the drawer %v", wide, f.table.Size().Width)
	}
	sources := map[string]bool{}
	for i := range f.rows {
		sources[f.source(i)] = true
	}
	for _, want := range []string{"Cloth", "Loom", "Yarn", "Fleece", "Hours", "Garment"} {
		if !sources[want] {
			t.Errorf("no figure leads to the panel %s", want)
		}
	}
}
