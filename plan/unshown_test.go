package plan

import (
	"context"
	"strings"
	"testing"
)

func TestNamesThatPrintsCannotShowAreNoted(t *testing.T) {
	for name, noted := range map[string]bool{
		"Ferryman's tunic": false, "Fährmann – œuvre № 1": false, "пояс": false, "χιτών": false,
		"船頭の上着": true, "tunic 👩": true, "a\u200db": true,
	} {
		p := Starter()
		p.Title = name
		r, err := Work(context.Background(), p, Options{Seed: 1, Threads: 1})
		if err != nil {
			t.Fatal(err)
		}
		said := strings.Contains(strings.Join(r.Notes, "\n"), "title has letters (")
		if said != noted {
			t.Errorf("%s: noted %t, want %t: %v", name, said, noted, r.Notes)
		}
	}
}
