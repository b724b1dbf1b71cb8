package main

import (
	"bytes"
	"context"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ellwand/plan"
)

// layWhileChanged keeps a lay in a plan that another program changes meanwhile.
func layWhileChanged(t *testing.T, ask func(string) bool) (file string, code int, errs string) {
	t.Helper()
	file = planFile(t, "", "")
	p, stamp, err := plan.LoadStamped(file)
	if err != nil {
		t.Fatal(err)
	}
	p.Title = "Mine"
	if err := os.WriteFile(file, []byte("# theirs\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	var e bytes.Buffer
	env := environment{out: &e, err: &e, now: time.Now, ask: ask}
	job := func(context.Context, options, environment) error { return saveOver(p, file, stamp, env) }
	return file, runJob(context.Background(), options{job: job}, env), e.String()
}

func TestLayAsksBeforeItWritesOverAChangedPlan(t *testing.T) {
	asked := ""
	answer := func(yes bool) func(string) bool {
		return func(question string) bool { asked = question; return yes }
	}
	for name, c := range map[string]struct {
		ask         func(string) bool
		code        int
		says, holds string
	}{
		"nobody to ask": {nil, exitBadInput, "changed by another program", "# theirs"},
		"no":            {answer(false), exitBadInput, "nothing was saved", "# theirs"},
		"yes":           {answer(true), exitDone, "", "title: Mine"},
	} {
		file, code, errs := layWhileChanged(t, c.ask)
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if code != c.code || !strings.Contains(errs, c.says) || !strings.Contains(string(data), c.holds) {
			t.Errorf("%s: exit %d, %q; the file holds %.60q", name, code, errs, data)
		}
	}
	if !strings.Contains(asked, "Write over what is there?") {
		t.Errorf("it asks %q", asked)
	}
}

// TestProgramKilledWhileItKeepsALay kills the program itself.
func TestProgramKilledWhileItKeepsALay(t *testing.T) {
	const kills = 200
	folder := t.TempDir()
	bin, file := filepath.Join(folder, "ellwand"), filepath.Join(folder, "plan.yaml")
	if out, err := exec.Command("go", "build", "-o", bin, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	old, err := os.ReadFile("assets/plans/ferrymans-tunic.yaml")
	if err != nil {
		t.Fatal(err)
	}
	restore := func() {
		if err := os.WriteFile(file, old, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	args := []string{"lay", file, "--save", "--new-lay", "--seconds", "0", "--threads", "1"}
	restore()
	began := time.Now()
	if out, err := exec.Command(bin, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	takes := time.Since(began)
	laid, err := os.ReadFile(file)
	if err != nil || bytes.Equal(laid, old) {
		t.Fatalf("no lay was kept: %v", err)
	}
	r := rand.New(rand.NewPCG(2, 2))
	kept := 0
	for k := range kills {
		restore()
		c := exec.Command(bin, args...)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(r.Int64N(int64(takes) * 5 / 4)))
		c.Process.Kill() //nolint:errcheck // it may have ended
		c.Wait()         //nolint:errcheck // killed
		now, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case bytes.Equal(now, laid):
			kept++
		case !bytes.Equal(now, old):
			t.Fatalf("kill %d: the plan is neither the old one nor the new one:\n%.200s", k, now)
		}
		if before, err := os.ReadFile(file + "~"); err == nil && !bytes.Equal(before, old) && !bytes.Equal(before, laid) {
			t.Fatalf("kill %d: the previous version is not whole", k)
		}
	}
	t.Logf("%d kills within %v: the new plan is there %d times, the old one %d times", kills, takes*5/4, kept, kills-kept)
}
