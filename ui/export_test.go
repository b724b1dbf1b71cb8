package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"ellwand/paper"
	"ellwand/prints"
)

func TestEveryKindOfPrintIsWrittenFromTheWindow(t *testing.T) {
	v, l := opened(t, "light")
	for _, k := range prints.Kinds() {
		for _, ending := range k.Endings {
			path := filepath.Join(t.TempDir(), "x"+ending)
			v.exportFile(path, export{kind: k.Kind, ending: ending, paper: paper.Letter})
			l.until(k.Label+ending, func() bool {
				return strings.Contains(v.status.Text, path) && !strings.HasPrefix(v.status.Text, "Writing")
			})
			if info, err := os.Stat(path); err != nil || info.Size() < 300 {
				t.Errorf("%s as %s: %v, %v; %s", k.Label, ending, info, err, v.status.Text)
			}
		}
	}
}

// The questions follow what is asked for: no paper for a picture, no scale for
// cards, and a stage or a piece to choose where there are some.
func TestExportAsksOnlyWhatMatters(t *testing.T) {
	v, _ := opened(t, "light")
	f := newExportForm(export{}.usual(), v.b.shown)
	if e := f.chosen(); e.kind != prints.Diagram || e.ending != ".pdf" || e.ratio != 0 || f.paper.Disabled() || f.scale.Disabled() || !f.only.Disabled() {
		t.Errorf("at first: %+v", e)
	}
	f.scale.SetSelected("1 : 5")
	f.ending.SetSelected("a picture (PNG)")
	if e := f.chosen(); e.ending != ".png" || e.ratio != 0 || !f.paper.Disabled() || !f.scale.Disabled() {
		t.Errorf("a picture: %+v", e)
	}
	f.kind.SetSelected("Work cards")
	f.only.SetSelected("weaving")
	f.paper.SetSelected("Letter")
	if e := f.chosen(); e.kind != prints.Cards || e.only != "weaving" || e.paper != paper.Letter || !f.ending.Disabled() || !f.scale.Disabled() {
		t.Errorf("cards: %+v", e)
	}
	f.kind.SetSelected("Full-size pieces")
	f.only.SetSelected("side gore")
	if e := f.chosen(); e.kind != prints.FullSize || e.only != "side gore" {
		t.Errorf("full size: %+v", e)
	}
	g := newExportForm(f.chosen(), v.b.shown)
	if g.chosen() != f.chosen() {
		t.Errorf("asked again it offers %+v, not %+v", g.chosen(), f.chosen())
	}
}

func TestReturnTakesWhatTheExportOffers(t *testing.T) {
	v, _ := opened(t, "light")
	v.exportPlan()
	v.typed(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if v.accept != nil || v.Canvas().Overlays().Top() == nil {
		t.Error("Return does not go on to the file")
	}
}
