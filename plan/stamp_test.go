package plan

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
)

func TestAFileChangedMeanwhileIsNotWrittenOver(t *testing.T) {
	starter := Starter()
	path := filepath.Join(t.TempDir(), "tunic.yaml")
	if err := starter.Save(path); err != nil {
		t.Fatal(err)
	}
	p, stamp, err := LoadStamped(path)
	if err != nil {
		t.Fatal(err)
	}
	p.Title = "Mine"
	theirs := contents(t, path) + "# theirs\n"
	if err := os.WriteFile(path, []byte(theirs), 0o644); err != nil {
		t.Fatal(err)
	}
	_, err = p.SaveOver(path, stamp)
	if c, ok := errors.AsType[*Changed](err); !ok || c.Gone || c.Path != path {
		t.Fatalf("saving over it: %v", err)
	}
	if contents(t, path) != theirs {
		t.Error("theirs was written over")
	}
	if _, err := os.Stat(path + "~"); err == nil {
		t.Error("a save that did not happen wrote a previous version")
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	_, err = p.SaveOver(path, stamp)
	if c, ok := errors.AsType[*Changed](err); !ok || !c.Gone {
		t.Errorf("saving over a file taken away: %v", err)
	}
	if stamp, err = p.SaveOver(path, Stamp{}); err != nil {
		t.Fatalf("as a new file: %v", err)
	}
	p.Title = "Mine again"
	if _, err = p.SaveOver(path, stamp); err != nil {
		t.Errorf("over one's own: %v", err)
	}
}

func TestAFileThatAppearedIsNotWrittenOver(t *testing.T) {
	path := written(t, "someone else's")
	_, err := Starter().SaveOver(path, Stamp{})
	if _, ok := errors.AsType[*Changed](err); !ok || contents(t, path) != "someone else's" {
		t.Errorf("saving as a new file: %v", err)
	}
}

func TestWhatAKilledSaveLeftIsSweptLater(t *testing.T) {
	path := filepath.Join(t.TempDir(), "[a]*tunic.yaml")
	folder := filepath.Dir(path)
	stale, err := os.CreateTemp(folder, tempPattern(path))
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := os.CreateTemp(folder, tempPattern(path))
	if err != nil {
		t.Fatal(err)
	}
	long := time.Now().Add(-2 * staleAfter)
	if err := os.Chtimes(stale.Name(), long, long); err != nil {
		t.Fatal(err)
	}
	if err := Starter().Save(path); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(stale.Name()); err == nil {
		t.Error("an old temporary file is still there")
	}
	if _, err := os.Stat(fresh.Name()); err != nil {
		t.Error("one that another program may be writing was taken away")
	}
}
