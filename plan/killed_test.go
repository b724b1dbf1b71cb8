package plan

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
)

// kills is how often a process is killed while it does nothing but save.
const kills = 200

// TestSavingWithoutEnd is not a test of its own: it is the process that
// TestKilledWhileSaving starts, saving two plans in turn until it is killed.
func TestSavingWithoutEnd(t *testing.T) {
	path := os.Getenv("ELLWAND_TEST_SAVES_TO")
	if path == "" {
		t.Skip("run by TestKilledWhileSaving")
	}
	one, two := savedInTurn()
	fmt.Println("saving")
	for {
		for _, p := range []*Plan{one, two} {
			if err := p.Save(path); err != nil {
				fmt.Println("failed:", err)
				os.Exit(1)
			}
		}
	}
}

// savedInTurn is a short and a long plan, so that half of one is seen in the other.
func savedInTurn() (short, long *Plan) {
	short, long = Starter(), Starter()
	short.Title = "Short"
	long.Title = "Long"
	for i := range 60 {
		long.Choices = append(long.Choices, Choice{Component: fmt.Sprintf("part %d", i), Why: strings.Repeat("so that it lasts ", 60)})
	}
	return short, long
}

// killedAfter starts a process, waits for its first line and kills it a while later.
func killedAfter(t *testing.T, c *exec.Cmd, wait time.Duration) {
	t.Helper()
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || line != "saving\n" {
		t.Fatalf("the process says %q, %v", line, err)
	}
	time.Sleep(wait)
	c.Process.Kill() //nolint:errcheck // it runs without end
	c.Wait()         //nolint:errcheck // killed
}

func TestKilledWhileSaving(t *testing.T) {
	path := filepath.Join(t.TempDir(), "tunic.yaml")
	short, long := savedInTurn()
	whole := map[string]bool{}
	for _, p := range []*Plan{short, long} {
		data, err := p.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		whole[string(data)] = true
	}
	if err := short.Save(path); err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 1))
	torn := 0 // temporary files: the kill came while one was being written
	for k := range kills {
		c := exec.Command(os.Args[0], "-test.run=^TestSavingWithoutEnd$")
		c.Env = append(os.Environ(), "ELLWAND_TEST_SAVES_TO="+path)
		killedAfter(t, c, time.Duration(r.IntN(20000))*time.Microsecond)
		if !whole[contents(t, path)] {
			t.Fatalf("kill %d: the plan is neither the old one nor the new one", k)
		}
		if _, err := os.Stat(path + "~"); err == nil && !whole[contents(t, path+"~")] {
			t.Fatalf("kill %d: the previous version is not whole", k)
		}
		if _, err := Load(path); err != nil {
			t.Fatalf("kill %d: %v", k, err)
		}
		left, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".ellwand-*"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range left {
			torn++
			os.Remove(name)
		}
	}
	t.Logf("%d kills, %d of them while a file was being written", kills, torn)
	least := kills / 10
	if raceDetector {
		least = kills / 50 // much less of a save's time is spent on the file
	}
	if torn < least {
		t.Errorf("only %d of %d kills came within a save", torn, kills)
	}
}
