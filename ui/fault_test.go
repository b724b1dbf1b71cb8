package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"ellwand/cloth"
	"ellwand/plan"
)

// shownWords is all that the topmost dialog says, its lines joined.
func shownWords(v *window) string {
	var words []string
	top := v.Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	for _, o := range test.LaidOutObjects(top) {
		if p, ok := o.(*paragraph); ok {
			words = append(words, p.text)
		}
	}
	return strings.Join(words, "\n")
}

func TestPlanThatWillNotOpenIsNamedWithItsLine(t *testing.T) {
	v, _ := opened(t, "light")
	before := v.b.plan()
	path := filepath.Join(t.TempDir(), "torn.yaml")
	if err := os.WriteFile(path, []byte("ellwand: 1\ntitle: torn\nbodey: 3\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	v.load(path)
	if said := shownWords(v); !strings.Contains(said, path+":3: ") || !strings.Contains(said, "bodey") {
		t.Errorf("it says %q", said)
	}
	if v.b.plan() != before || v.b.path != "" {
		t.Error("the plan on the bench was given up for one that does not open")
	}
}

func TestManyFaultsFitTheWindow(t *testing.T) {
	var all plan.Problems
	for i := range 40 {
		all = append(all, &plan.Problem{File: "torn.yaml", Line: i + 1, Text: "is torn"})
	}
	lines := strings.Split(inFull(fmt.Errorf("not opened: %w", all)), "\n")
	if len(lines) != mostFaults+1 || lines[mostFaults] != "And 32 more." {
		t.Errorf("%d lines, the last %q", len(lines), lines[len(lines)-1])
	}
}

func TestLongPathIsBrokenWithinTheWidth(t *testing.T) {
	test.NewTempApp(t)
	path := "/home/" + strings.Repeat("ferrymanstunic", 12) + ".yaml"
	lines := broken("in "+path, 120, 13, fyne.TextStyle{})
	for _, l := range lines {
		if w := fyne.MeasureText(l, 13, fyne.TextStyle{}).Width; w > 120 {
			t.Errorf("%q is %v wide; the column 120", l, w)
		}
	}
	if got := strings.Join(lines[1:], ""); got != path {
		t.Errorf("the path reads %q", got)
	}
}

func TestWeavesAreChosenFromThoseKnown(t *testing.T) {
	v, l := opened(t, "light")
	v.panels.openNamed("Cloth")
	f := fieldAt(t, v, "cloth.weave")
	if f.choice == nil || len(f.choice.Options) != len(cloth.Weaves()) {
		t.Fatalf("the weaves to choose from are %v", f.choice)
	}
	f.choice.SetSelected("tabby")
	l.rest(v.b)
	if got := plan.GetField(v.b.plan(), "cloth.weave"); got != "tabby" {
		t.Errorf("the plan is woven in %q", got)
	}
	v.goBack()
	if f.choice.Selected != "2/2 twill" {
		t.Errorf("after undo the weave shown is %q", f.choice.Selected)
	}
}

func TestStripShowsThatTheKeysGoToIt(t *testing.T) {
	v, _ := opened(t, "light")
	if v.strip.focused.Visible() {
		t.Error("without the focus the strip looks as with it")
	}
	v.strip.focus()
	if !v.strip.focused.Visible() || v.strip.focused.StrokeWidth < 2 {
		t.Error("with the focus the strip looks as without")
	}
	v.Canvas().Unfocus()
	if v.strip.focused.Visible() {
		t.Error("when the focus has left, the strip looks as with it")
	}
}
