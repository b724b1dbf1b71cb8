package plan

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ellwand/assets"
)

// draftPlan is the starter plan as version 0 would have it.
func draftPlan() string {
	text := string(assets.StarterPlan())
	text = strings.Replace(text, "ellwand: 1\n", "ellwand: 0 # my first\n", 1)
	text = strings.Replace(text, "show_units: cm", "units: inch", 1)
	return strings.Replace(text, "cutting:\n  gap_cm: 0\n", "gap_cm: 0.3 # for my shears\n", 1)
}

func written(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "tunic.yaml")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func contents(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestAnOlderPlanIsUpgradedAndItsOriginalKept(t *testing.T) {
	if len(upgrades()) != Version {
		t.Fatalf("%d steps lead to version %d", len(upgrades()), Version)
	}
	old := draftPlan()
	path := written(t, old)
	p, stamp, err := LoadStamped(path)
	if err != nil {
		t.Fatal(err)
	}
	if p.UpgradedFrom() != 0 || p.ShowUnits != "inch" || p.GapCM != 0.3 {
		t.Fatalf("from version %d: units %s, gap %v", p.UpgradedFrom(), p.ShowUnits, p.GapCM)
	}
	if contents(t, path) != old {
		t.Error("opening changed the file")
	}
	p.Title = "Second"
	if stamp, err = p.SaveOver(path, stamp); err != nil {
		t.Fatal(err)
	}
	p.Title = "Third"
	if _, err = p.SaveOver(path, stamp); err != nil {
		t.Fatal(err)
	}
	if contents(t, path+".v0~") != old {
		t.Error("the original was not kept as it was")
	}
	text := contents(t, path)
	for _, want := range []string{"ellwand: 1 # my first", "show_units: inch", "cutting:\n  gap_cm: 0.3 # for my shears"} {
		if !strings.Contains(text, want) {
			t.Errorf("the upgraded file has no %q:\n%.400s", want, text)
		}
	}
	if p, err := Load(path); err != nil || p.UpgradedFrom() != Version {
		t.Errorf("upgraded once more: %v", err)
	}
}

func TestOriginalsOfSeveralPlansAreAllKept(t *testing.T) {
	path := written(t, draftPlan())
	for _, title := range []string{"one", "two"} {
		text := strings.Replace(draftPlan(), "title: ", "title: "+title+" ", 1)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		p, err := Load(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := p.Save(path); err != nil {
			t.Fatal(err)
		}
	}
	if !strings.Contains(contents(t, path+".v0~"), "title: one") || !strings.Contains(contents(t, path+".v0~2"), "title: two") {
		t.Error("an original was written over")
	}
}

func TestKeysOfBothVersionsAreNamedAsUsual(t *testing.T) {
	both := strings.Replace(draftPlan(), "gap_cm: 0.3", "cutting: {gap_cm: 1}\ngap_cm: 0.3", 1)
	if _, err := Parse([]byte(both), "t.yaml"); err == nil || !strings.Contains(err.Error(), "gap_cm") {
		t.Errorf("it says %v", err)
	}
}

func TestANewerPlanIsOpenedToLookAtOnly(t *testing.T) {
	text := strings.Replace(string(assets.StarterPlan()), "ellwand: 1", "ellwand: 2", 1)
	text = strings.Replace(text, "  take_up:", "  lustre: 3\n  take_up:", 1) + "moon: {phase: full}\n"
	path := written(t, text)
	if _, err := Load(path); err == nil || !strings.Contains(err.Error(), "newer program") {
		t.Fatalf("a command reads it: %v", err)
	}
	p, stamp, err := LoadToLook(path)
	if err != nil {
		t.Fatal(err)
	}
	if p.Newer == nil || p.Title == "" || !slices.ContainsFunc(p.Newer.Unread, func(s string) bool { return strings.HasPrefix(s, "cloth.lustre (line ") }) ||
		!strings.Contains(p.Newer.Error(), "moon") || !strings.Contains(p.Newer.Error(), "version 2") {
		t.Fatalf("it says %v", p.Newer)
	}
	for _, to := range []string{path, path + ".other.yaml"} {
		_, err = p.Clone().SaveOver(to, stamp)
		if newer, ok := errors.AsType[*NewerVersion](err); !ok || newer.Version != "2" {
			t.Errorf("saving to %s: %v", to, err)
		}
		if err := p.Save(to); err == nil {
			t.Errorf("%s was saved", to)
		}
	}
	if contents(t, path) != text {
		t.Error("the file was changed")
	}
}

func TestANewerPlanThatCannotBeShownSaysWhy(t *testing.T) {
	path := written(t, "ellwand: 3\ncloak: of another kind\n")
	_, _, err := LoadToLook(path)
	if err == nil || !strings.Contains(err.Error(), "newer Ellwand") || strings.Contains(err.Error(), "\n") {
		t.Errorf("it says %v", err)
	}
}
