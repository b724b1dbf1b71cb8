package plan

import (
	"errors"
	"strings"
	"testing"
)

func TestBrokenFilesAreNamedByLineAndField(t *testing.T) {
	for name, c := range map[string]struct {
		text, field string
		line        int
	}{
		"empty":         {"", "the file", 1},
		"too large":     {strings.Repeat("#", maxFileBytes+1), "the file", 1},
		"zero byte":     {"ellwand: 1\na: \x00", "the file", 2},
		"not UTF-8":     {"a: \xff", "the file", 1},
		"tab":           {"a:\n\tb: 1\n", "the file", 2},
		"two documents": {"a: 1\n---\nb: 1\n", "the file", 2},
		"a list":        {"- 1\n", "the file", 1},
		"one word":      {"tunic\n", "the file", 1},
		"twice":         {"cloth:\n  nap: true\n  nap: false\n", "cloth.nap", 3},
		"anchor":        {"body: &b {name: x}\n", "body", 1},
		"alias":         {"yarns:\n  - a\nbody: *b\n", "the file", 3},
		"word as key":   {"body:\n  [1]: x\n", "body", 2},
		"too deep":      {"a: " + strings.Repeat("[", 30) + strings.Repeat("]", 30), "the file", 1},
	} {
		_, err := parseSource([]byte(c.text), "ferry.yaml")
		var p *Problem
		if !errors.As(err, &p) || p.Field != c.field || p.Line != c.line || p.File != "ferry.yaml" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzReadingNeverPanics(f *testing.F) {
	f.Add([]byte("ellwand: 1\nbody: {name: ferryman}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if root, err := parseSource(data, "f"); (root == nil) == (err == nil) {
			t.Fatal("neither a plan nor an error, or both")
		}
	})
}
