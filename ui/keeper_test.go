package ui

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"ellwand/assets"
	"ellwand/plan"
	"ellwand/settings"
)

// keeping is a window that keeps things in folders of its own.
func keeping(t *testing.T, f settings.Folders) (*window, *loop) {
	t.Helper()
	v, l := opened(t, "light")
	v.keepIn(f, time.Millisecond)
	t.Cleanup(v.keeper.close)
	return v, l
}

func ownFolders(t *testing.T) settings.Folders {
	return settings.Folders{Config: filepath.Join(t.TempDir(), "c"), State: filepath.Join(t.TempDir(), "s")}
}

// press taps the button of the topmost dialog that says so.
func press(t *testing.T, v *window, text string) {
	t.Helper()
	top := v.Canvas().Overlays().Top()
	if top == nil {
		t.Fatalf("nothing is asked; wanted is a button %q", text)
	}
	for _, o := range test.LaidOutObjects(top) {
		if b, ok := o.(*widget.Button); ok && b.Text == text {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("there is no button %q; it says %q", text, shownWords(v))
}

// savedPlan puts the starter plan in a file and opens it in the window.
func savedPlan(t *testing.T, v *window, l *loop) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "tunic.yaml")
	if err := plan.Starter().Save(path); err != nil {
		t.Fatal(err)
	}
	v.load(path)
	l.rest(v.b)
	return path
}

func retitle(t *testing.T, v *window, title string) {
	t.Helper()
	if err := v.b.set("title", "title", title); err != nil {
		t.Fatal(err)
	}
}

func recoveries(t *testing.T, f settings.Folders) int {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(f.State, "recovery", "*.plan.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return len(files)
}

func TestUnsavedWorkIsKeptAndOfferedAfterACrash(t *testing.T) {
	f := ownFolders(t)
	v, l := keeping(t, f)
	path := savedPlan(t, v, l)
	retitle(t, v, "Changed")
	l.until("a recovery file", func() bool { return recoveries(t, f) == 1 })
	v.keeper.close() // the program ends without a word

	w, m := keeping(t, f)
	w.offerLeftovers()
	if said := shownWords(w); !strings.Contains(said, "“Changed”") || !strings.Contains(said, path) {
		t.Fatalf("it says %q", said)
	}
	press(t, w, "Open it")
	m.rest(w.b)
	if w.b.plan().Title != "Changed" || w.b.path != path || !w.b.history.Dirty() {
		t.Errorf("taken up is %q of %q, unsaved %v", w.b.plan().Title, w.b.path, w.b.history.Dirty())
	}
	if recoveries(t, f) != 1 {
		t.Errorf("%d recovery files while the work is unsaved", recoveries(t, f))
	}
	w.savePlan()
	if p, err := plan.Load(path); err != nil || p.Title != "Changed" {
		t.Errorf("saved as %v, %v", p, err)
	}
	if recoveries(t, f) != 0 {
		t.Error("saved work is still in a recovery file")
	}
}

func TestUnsavedWorkCanBeThrownAwayOrLeftForLater(t *testing.T) {
	f := ownFolders(t)
	v, l := keeping(t, f)
	retitle(t, v, "Changed")
	l.until("a recovery file", func() bool { return recoveries(t, f) == 1 })
	v.keeper.close()
	w, _ := keeping(t, f)
	w.offerLeftovers()
	press(t, w, "Ask again later")
	if recoveries(t, f) != 1 || w.Canvas().Overlays().Top() != nil {
		t.Fatal("left for later it is lost, or still asked about")
	}
	w.offerLeftovers()
	press(t, w, "Throw it away")
	if recoveries(t, f) != 0 || w.b.plan().Title == "Changed" {
		t.Error("thrown away it is still there")
	}
}

func TestWorkGivenUpOrTakenBackLeavesNoRecoveryFile(t *testing.T) {
	f := ownFolders(t)
	v, l := keeping(t, f)
	path := savedPlan(t, v, l)
	retitle(t, v, "Changed")
	l.until("a recovery file", func() bool { return recoveries(t, f) == 1 })
	v.b.undo()
	if recoveries(t, f) != 0 {
		t.Error("after undo there is nothing unsaved, but a recovery file")
	}
	retitle(t, v, "Again")
	l.until("a recovery file", func() bool { return recoveries(t, f) == 1 })
	closed := false
	v.leaving("Close", func() { closed = true })
	press(t, v, "Close without saving")
	if !closed || recoveries(t, f) != 0 {
		t.Error("work given up is kept")
	}
	if text, err := os.ReadFile(path); err != nil || strings.Contains(string(text), "Again") {
		t.Errorf("the file was changed: %v", err)
	}
}

func TestAPlanChangedByAnotherProgramIsAskedAbout(t *testing.T) {
	v, l := opened(t, "light")
	path := savedPlan(t, v, l)
	theirs := func() {
		t.Helper()
		p, err := plan.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		p.Title = "Theirs"
		if err := p.Save(path); err != nil {
			t.Fatal(err)
		}
	}
	title := func() string {
		p, err := plan.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		return p.Title
	}
	retitle(t, v, "Mine")
	theirs()
	v.savePlan()
	if said := shownWords(v); !strings.Contains(said, "changed by another program") || title() != "Theirs" {
		t.Fatalf("it says %q; the file is %q", said, title())
	}
	press(t, v, "Cancel")
	if !v.b.history.Dirty() || title() != "Theirs" {
		t.Error("after Cancel something was saved")
	}
	v.savePlan()
	press(t, v, "Write over it")
	if v.b.history.Dirty() || title() != "Mine" {
		t.Errorf("the file is %q", title())
	}
	if p, err := plan.Parse([]byte(fileText(t, path+"~")), "before"); err != nil || p.Title != "Theirs" {
		t.Errorf("what was written over is not kept: %v", err)
	}
	theirs()
	retitle(t, v, "Mine again")
	v.savePlan()
	press(t, v, "Open what is there")
	l.rest(v.b)
	if v.b.plan().Title != "Theirs" || v.b.history.Dirty() {
		t.Errorf("opened is %q", v.b.plan().Title)
	}
	retitle(t, v, "Alone")
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	v.savePlan()
	press(t, v, "Save it again")
	if title() != "Alone" {
		t.Errorf("the file is %q", title())
	}
}

func fileText(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestAPlanOfANewerProgramIsOnlyLookedAt(t *testing.T) {
	v, l := opened(t, "light")
	text := strings.Replace(fileText(t, savedPlan(t, v, l)), "ellwand: 1", "ellwand: 7", 1)
	path := filepath.Join(t.TempDir(), "newer.yaml")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	v.load(path)
	l.rest(v.b)
	if !v.notice.root.Visible() || !strings.Contains(v.notice.text.Text, "version 7") {
		t.Errorf("the notice says %q", v.notice.text.Text)
	}
	if !strings.HasSuffix(v.Title(), " (read-only)") {
		t.Errorf("the title is %q", v.Title())
	}
	usable := func(want bool) {
		t.Helper()
		for _, button := range v.saving {
			if button.Disabled() == want {
				t.Errorf("the button %q can be used: %t", button.Text, !want)
			}
		}
		for _, item := range v.MainMenu().Items[0].Items {
			if strings.HasPrefix(item.Label, "Save") && item.Disabled == want {
				t.Errorf("the menu item %q can be used: %t", item.Label, !want)
			}
		}
	}
	usable(false)
	if err := v.b.set("title", "title", "Other"); err == nil {
		t.Error("it can be changed")
	}
	v.b.pick("sleeve/1")
	if err := v.b.turn(); err == nil {
		t.Error("its lay can be changed")
	}
	for _, save := range []func(){v.savePlan, v.savePlanAs} {
		save()
		if said := shownWords(v); !strings.Contains(said, "newer Ellwand") {
			t.Errorf("saving says %q", said)
		}
		press(t, v, "Close")
	}
	if fileText(t, path) != text {
		t.Error("the file was changed")
	}
	savedPlan(t, v, l)
	if v.notice.root.Visible() {
		t.Error("the notice stays for another plan")
	}
	usable(true)
	if strings.Contains(v.Title(), "read-only") {
		t.Errorf("the title of another plan is %q", v.Title())
	}
}

func TestAnOlderPlanSaysThatItsOriginalIsKept(t *testing.T) {
	v, l := opened(t, "light")
	text := strings.Replace(fileText(t, savedPlan(t, v, l)), "ellwand: 1", "ellwand: 0", 1)
	path := filepath.Join(t.TempDir(), "older.yaml")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	v.load(path)
	l.rest(v.b)
	if !strings.Contains(v.notice.text.Text, "older.yaml.v0~") {
		t.Errorf("the notice says %q", v.notice.text.Text)
	}
	retitle(t, v, "Newer")
	v.savePlan()
	if fileText(t, path+".v0~") != text {
		t.Error("the original is not kept as it was")
	}
}

func TestRecentPlansAreInTheMenu(t *testing.T) {
	f := ownFolders(t)
	v, l := keeping(t, f)
	first := savedPlan(t, v, l)
	second := savedPlan(t, v, l)
	recent := func() []*fyne.MenuItem {
		for _, i := range v.MainMenu().Items[0].Items {
			if i.ChildMenu != nil && i.Label == "Open recent" {
				return i.ChildMenu.Items
			}
		}
		t.Fatal("the menu has no recent plans")
		return nil
	}
	items := recent()
	if len(items) != 4 || !strings.Contains(items[0].Label, filepath.Dir(second)) || !strings.Contains(items[1].Label, filepath.Dir(first)) {
		t.Fatalf("%d items, the first %q", len(items), items[0].Label)
	}
	items[1].Action()
	l.rest(v.b)
	if v.b.path != first {
		t.Errorf("opened is %q", v.b.path)
	}
	recent()[3].Action()
	if items = recent(); len(items) != 1 {
		t.Errorf("after forgetting there are %d", len(items))
	}
}

func TestAPlanDroppedOnTheWindowIsOpened(t *testing.T) {
	v, l := opened(t, "light")
	path := savedPlan(t, v, l)
	v.begin(plan.Starter(), "")
	l.rest(v.b)
	v.dropped([]fyne.URI{storage.NewFileURI(path)})
	l.rest(v.b)
	if v.b.path != path {
		t.Errorf("opened is %q; it says %q", v.b.path, shownWords(v))
	}
	elsewhere, err := storage.ParseURI("https://example.org/tunic.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for says, what := range map[string][]fyne.URI{
		"is a folder":    {storage.NewFileURI(filepath.Dir(path))},
		`ends in ".png"`: {storage.NewFileURI(path + ".png")},
		"one plan file":  {storage.NewFileURI(path), storage.NewFileURI(path)},
		"accepted":       {elsewhere},
	} {
		v.dropped(what)
		if said := shownWords(v); !strings.Contains(said, says) {
			t.Errorf("it says %q, not %q", said, says)
		}
		press(t, v, "Close")
	}
	retitle(t, v, "Changed")
	v.dropped([]fyne.URI{storage.NewFileURI(path)})
	press(t, v, "Cancel")
	if v.b.plan().Title != "Changed" {
		t.Error("unsaved work was given up unasked")
	}
}

func TestAboutNamesEveryPart(t *testing.T) {
	v, _ := opened(t, "light")
	v.version = "9.9"
	v.about()
	if said := shownWords(v); !strings.Contains(said, "Ellwand 9.9") || !strings.Contains(said, "MIT") {
		t.Errorf("it says %q", said)
	}
	objects := test.LaidOutObjects(v.Canvas().Overlays().Top())
	if len(objects) > 1000 {
		t.Errorf("it is made of %d objects", len(objects))
	}
	for _, o := range objects {
		l, ok := o.(*widget.List)
		if !ok {
			continue
		}
		var all strings.Builder
		for i := range l.Length() {
			line := l.CreateItem()
			l.UpdateItem(i, line)
			all.WriteString(line.(*canvas.Text).Text + " ")
		}
		same := func(text string) string { return strings.Join(strings.Fields(text), "") }
		if same(all.String()) != same(strings.ToValidUTF8(assets.Licences(), "©")) {
			t.Error("the licences are not all there, letter for letter")
		}
		return
	}
	t.Error("it lists no licences")
}

func TestWhatCannotBeKeptIsSaidOnceAndStopsNothing(t *testing.T) {
	blocked := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(blocked, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	v, l := keeping(t, settings.Folders{Config: blocked, State: filepath.Join(blocked, "below")})
	if !strings.Contains(v.status.Text, "cannot") {
		t.Errorf("it says %q", v.status.Text)
	}
	retitle(t, v, "Changed")
	l.rest(v.b)
	v.say("", false)
	v.keeper.wrong(errors.New("again"))
	if v.status.Text != "" {
		t.Errorf("said again: %q", v.status.Text)
	}
	path := savedPlan(t, v, l)
	retitle(t, v, "Saved all the same")
	v.savePlan()
	if !strings.Contains(fileText(t, path), "Saved all the same") {
		t.Error("the plan is not saved")
	}
}
