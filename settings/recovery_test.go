package settings

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ellwand/plan"
)

func titled(title string) *plan.Plan {
	p := plan.Starter()
	p.Title = title
	return p
}

func leftovers(t *testing.T, f Folders) []*Leftover {
	t.Helper()
	all, err := f.Leftovers()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestUnsavedWorkIsFoundOnlyWhenItsProgramIsGone(t *testing.T) {
	f := testFolders(t)
	r, err := f.NewRecovery()
	if err != nil {
		t.Fatal(err)
	}
	was := plan.Stamp{There: true, Sum: [32]byte{1, 2, 3}}
	if err := r.Keep(r.Ask(), titled("Changed"), "/plans/tunic.yaml", was); err != nil {
		t.Fatal(err)
	}
	if l := leftovers(t, f); len(l) != 0 {
		t.Fatal("work of a living program is offered")
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	l := leftovers(t, f)
	if len(l) != 1 || l[0].Plan.Title != "Changed" || l[0].Path != "/plans/tunic.yaml" || l[0].Was != was || l[0].At.IsZero() {
		t.Fatalf("%+v", l)
	}
	if again := leftovers(t, f); len(again) != 0 {
		t.Error("two windows are offered the same work")
	}
	l[0].LetGo()
	if l = leftovers(t, f); len(l) != 1 {
		t.Fatal("what was left for later is lost")
	}
	text, err := l[0].Plan.Marshal()
	if err != nil || strings.Contains(string(text), originMark) {
		t.Errorf("the recovery's own line is in the plan: %v", err)
	}
	if err := l[0].Drop(); err != nil {
		t.Fatal(err)
	}
	if l = leftovers(t, f); len(l) != 0 {
		t.Error("what was given up is offered again")
	}
	if files, _ := os.ReadDir(f.recoveryFolder()); len(files) != 0 {
		t.Errorf("left lying about: %v", files)
	}
}

func TestWorkKeptInTheBackgroundDoesNotComeBackAfterASave(t *testing.T) {
	f := testFolders(t)
	r, err := f.NewRecovery()
	if err != nil {
		t.Fatal(err)
	}
	late := r.Ask()
	if err := r.Drop(); err != nil {
		t.Fatal(err)
	}
	if err := r.Keep(late, titled("Late"), "", plan.Stamp{}); err != nil {
		t.Fatal(err)
	}
	r.Close()
	if l := leftovers(t, f); len(l) != 0 {
		t.Error("saved work is offered as unsaved")
	}
}

func TestATornRecoveryFileIsNamedAndLeft(t *testing.T) {
	f := testFolders(t)
	r, err := f.NewRecovery()
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"", "title: x\n", originMark + "{}\n", originMark + "{]\nellwand: 1\n", originMark + `{"sum":"zz"}` + "\nellwand: 1\n"} {
		if err := os.WriteFile(r.file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		r.lock.Close()
		l, err := f.Leftovers()
		if len(l) != 0 || err == nil || !strings.Contains(err.Error(), r.file) {
			t.Errorf("%q: %v, %v", text, l, err)
		}
		if _, err := os.Stat(r.file); err != nil {
			t.Errorf("%q: it was taken away", text)
		}
	}
}

// TestKeepingWithoutEnd is the process that TestKilledWhileAutosaving starts.
func TestKeepingWithoutEnd(t *testing.T) {
	state := os.Getenv("ELLWAND_TEST_KEEPS_IN")
	if state == "" {
		t.Skip("run by TestKilledWhileAutosaving")
	}
	f := Folders{State: state}
	r, err := f.NewRecovery()
	if err != nil {
		t.Fatal(err)
	}
	one, two := titled("One"), titled("Two")
	two.Choices = append(two.Choices, plan.Choice{Component: "long", Why: strings.Repeat("so that it lasts ", 200)})
	for n := 0; ; n++ {
		for _, p := range []*plan.Plan{one, two} {
			if err := r.Keep(r.Ask(), p, "/plans/tunic.yaml", plan.Stamp{}); err != nil {
				fmt.Println("failed:", err)
				os.Exit(1)
			}
		}
		if n == 0 {
			fmt.Println("keeping")
		}
	}
}

func TestKilledWhileAutosaving(t *testing.T) {
	const kills = 200
	f := testFolders(t)
	r := rand.New(rand.NewPCG(3, 3))
	torn := 0
	for k := range kills {
		c := exec.Command(os.Args[0], "-test.run=^TestKeepingWithoutEnd$")
		c.Env = append(os.Environ(), "ELLWAND_TEST_KEEPS_IN="+f.State)
		out, err := c.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		if line, err := bufio.NewReader(out).ReadString('\n'); line != "keeping\n" {
			t.Fatalf("the process says %q, %v", line, err)
		}
		time.Sleep(time.Duration(r.IntN(10000)) * time.Microsecond)
		c.Process.Kill() //nolint:errcheck // it runs without end
		c.Wait()         //nolint:errcheck // killed
		l := leftovers(t, f)
		if len(l) != 1 || l[0].Plan.Title != "One" && l[0].Plan.Title != "Two" {
			t.Fatalf("kill %d: %d recovery files, or not a whole one", k, len(l))
		}
		if err := l[0].Drop(); err != nil {
			t.Fatal(err)
		}
		left, _ := filepath.Glob(filepath.Join(f.recoveryFolder(), ".ellwand-*"))
		for _, name := range left {
			torn++
			os.Remove(name)
		}
	}
	t.Logf("%d kills, %d of them while a file was being written", kills, torn)
}
