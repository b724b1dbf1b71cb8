package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestATableLineAndALayForEachInstance(t *testing.T) {
	dir := t.TempDir()
	var out, errs bytes.Buffer
	code := run([]string{"--seconds", "0.2", "--seed", "3", "--out", dir, "../testdata/fu.json", "../testdata/c1p1.json"}, &out, &errs)
	if code != 0 {
		t.Fatalf("exit %d: %s", code, errs.String())
	}
	if n := strings.Count(out.String(), "\n"); n != 3 || !strings.Contains(out.String(), "92.41%") {
		t.Errorf("table:\n%s", out.String())
	}
	for _, name := range []string{"fu.json", "c1p1.json"} {
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			t.Error(err)
		}
	}
}

func TestBadUseExitsTwo(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.json")
	if err := os.WriteFile(bad, []byte(`{"strip_width": -1}`), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{}, {"--seconds", "x", "a"}, {"nowhere.json"}, {bad}, {"--threads", "0", bad}} {
		var out, errs bytes.Buffer
		if code := run(args, &out, &errs); code != 2 || errs.Len() == 0 || out.Len() > 0 {
			t.Errorf("%v: exit %d, said %q", args, code, errs.String())
		}
	}
}
