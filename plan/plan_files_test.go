package plan

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
)

func TestProblemIsOneSentence(t *testing.T) {
	p := &Problem{File: "ferry.yaml", Line: 14, Field: "cloth.take_up", Text: `is "lots"`, Accepted: "a fraction from 0 to below 1"}
	want := `ferry.yaml:14: cloth.take_up is "lots"; accepted is a fraction from 0 to below 1.`
	if got := p.Error(); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	var one *Problem
	if !errors.As(error(Problems{p}), &one) || one != p {
		t.Error("a Problem is not found in Problems")
	}
}

func TestNearestNameOfASlip(t *testing.T) {
	known := []string{"take_up", "draw_in", "shrink_length"}
	for slip, want := range map[string]string{"takeup": "take_up", "shrink_lenght": "shrink_length", "colour": ""} {
		if got := nearest(slip, known); got != want {
			t.Errorf("nearest(%q) = %q, want %q", slip, got, want)
		}
	}
}

func TestFailedWriteLeavesTheOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ferry.yaml")
	put := func(text string, fail error) error {
		return WriteFile(path, func(w io.Writer) error {
			if _, err := io.WriteString(w, text); err != nil {
				return err
			}
			return fail
		})
	}
	if err := put("old", nil); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o600); err != nil {
		t.Fatal(err)
	}
	spoilt := errors.New("spoilt")
	if err := put("half", spoilt); !errors.Is(err, spoilt) {
		t.Fatalf("error is %v", err)
	}
	if data, _ := os.ReadFile(path); string(data) != "old" {
		t.Errorf("file holds %q", data)
	}
	if err := put("new", nil); err != nil {
		t.Fatal(err)
	}
	info, _ := os.Stat(path)
	left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".ellwand-*"))
	if info.Mode().Perm() != 0o600 || len(left) != 0 {
		t.Errorf("mode %v, left behind %v", info.Mode(), left)
	}
}

func TestNarrowestWidthThatFits(t *testing.T) {
	rows := []WidthRow{{WidthCM: 60}, {WidthCM: 70, Fits: true}, {WidthCM: 65, Fits: true}}
	if r, ok := Narrowest(rows); !ok || r.WidthCM != 65 {
		t.Errorf("got %v %v", r, ok)
	}
	if _, ok := Narrowest(rows[:1]); ok {
		t.Error("a width that does not fit was taken")
	}
}
