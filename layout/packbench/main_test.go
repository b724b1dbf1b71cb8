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
	code := run([]string{"--seconds", "0.2", "--seed", "3", "--seeds", "2", "--out", dir, "--results", dir, "../testdata/fu.json", "../testdata/c1p1.json"}, &out, &errs)
	if code != 0 {
		t.Fatalf("exit %d: %s", code, errs.String())
	}
	if n := strings.Count(out.String(), "\n"); n != 7 || !strings.Contains(out.String(), "92.41%") || !strings.Contains(out.String(), "1 optimal") {
		t.Errorf("table:\n%s", out.String())
	}
	kept, err := filepath.Glob(filepath.Join(dir, "*-0.2s.txt"))
	if err != nil || len(kept) != 1 {
		t.Fatalf("results in %v, error %v", kept, err)
	}
	if raw, err := os.ReadFile(kept[0]); err != nil || !strings.HasSuffix(string(raw), out.String()) || !strings.Contains(string(raw), "2 seeds from 3") {
		t.Errorf("results file, error %v:\n%s", err, raw)
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
	for _, args := range [][]string{{}, {"--seconds", "x", "a"}, {"nowhere.json"}, {bad}, {"--threads", "0", bad}, {"--seeds", "0", bad}} {
		var out, errs bytes.Buffer
		if code := run(args, &out, &errs); code != 2 || errs.Len() == 0 || out.Len() > 0 {
			t.Errorf("%v: exit %d, said %q", args, code, errs.String())
		}
	}
}
