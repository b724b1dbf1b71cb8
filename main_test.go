package main

import (
	"bytes"
	"context"
	"encoding/json"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ellwand/plan"
)

// ellwand runs a command line and gives its exit code and what it printed.
func ellwand(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	env := environment{out: &o, err: &e, now: func() time.Time { return time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC) },
		window: func(*plan.Plan, string, error) error { return nil }}
	code = run(context.Background(), args, env)
	return code, o.String(), e.String()
}

// planFile is the starter plan with one text replaced by another.
func planFile(t *testing.T, old, new string) string {
	t.Helper()
	data, err := os.ReadFile("assets/plans/ferrymans-tunic.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), old) {
		t.Fatalf("the starter plan has no %q", old)
	}
	path := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(path, []byte(strings.Replace(string(data), old, new, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestReckonPrintsTheAgreedJSON(t *testing.T) {
	code, out, errs := ellwand(t, "reckon", planFile(t, "", ""), "--json", "--seconds", "0")
	if code != exitDone {
		t.Fatalf("exit %d: %s", code, errs)
	}
	var got struct {
		Pieces  []map[string]any
		Lay     map[string]float64
		Cloth   map[string]float64
		Yarns   []map[string]any
		Fleeces []map[string]any
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"finished_width_cm", "finished_length_cm", "off_loom_width_cm", "off_loom_length_cm", "reed_width_cm", "dents", "ends", "woven_length_cm", "warp_length_cm", "picks"} {
		if got.Cloth[key] <= 0 {
			t.Errorf("cloth.%s is %v", key, got.Cloth[key])
		}
	}
	for _, key := range []string{"width_cm", "length_cm", "use_percent", "lower_bound_cm"} {
		if got.Lay[key] <= 0 {
			t.Errorf("lay.%s is %v", key, got.Lay[key])
		}
	}
	if len(got.Pieces) < 5 || len(got.Yarns) != 2 || len(got.Fleeces) != 1 {
		t.Errorf("%d pieces, %d yarns, %d fleeces", len(got.Pieces), len(got.Yarns), len(got.Fleeces))
	}
}

func TestLayIsKeptAndDrawn(t *testing.T) {
	file := planFile(t, "", "")
	if code, _, errs := ellwand(t, "lay", file, "--save", "--seconds", "0.2"); code != exitDone {
		t.Fatalf("lay: exit %d: %s", code, errs)
	}
	code, out, errs := ellwand(t, "check", file)
	if code != exitDone || !strings.Contains(out, "no overlap") {
		t.Fatalf("check: exit %d: %s%s", code, out, errs)
	}
	picture := filepath.Join(t.TempDir(), "cutting.png")
	if code, _, errs = ellwand(t, "draw", file, "-o", picture); code != exitDone {
		t.Fatalf("draw: exit %d: %s", code, errs)
	}
	f, err := os.Open(picture)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if c, err := png.DecodeConfig(f); err != nil || c.Width != 3000 {
		t.Errorf("the picture is %d wide, %v", c.Width, err)
	}
}

func TestLayWithoutRoomIsKeptAndSaidToBeOfNoUse(t *testing.T) {
	file := planFile(t, "", "real_cloth:\n  lengths: [{name: first, length_cm: 300}]\n")
	code, out, errs := ellwand(t, "lay", file, "--save", "--seconds", "0")
	if code != exitCannot || !strings.Contains(out, "kept as it is, but the plan cannot be made with it") || !strings.Contains(errs, "still wanting") {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	if text, err := os.ReadFile(file); err != nil || !strings.Contains(string(text), "placements:") {
		t.Errorf("nothing is kept: %v", err)
	}
}

func TestDrawWritesWhatTheEndingTells(t *testing.T) {
	file := planFile(t, "", "")
	if code, _, errs := ellwand(t, "lay", file, "--save", "--seconds", "0"); code != exitDone {
		t.Fatalf("lay: exit %d: %s", code, errs)
	}
	for ending, begins := range map[string]string{".svg": "<?xml", ".pdf": "%PDF-", ".csv": "piece,copy,number,"} {
		out := filepath.Join(t.TempDir(), "cutting"+ending)
		code, said, errs := ellwand(t, "draw", file, "-o", out)
		if code != exitDone || !strings.Contains(said, out) || strings.Contains(said, "note:") {
			t.Fatalf("%s: exit %d: %s%s", ending, code, said, errs)
		}
		data, err := os.ReadFile(out)
		if err != nil || !strings.HasPrefix(string(data), begins) {
			t.Errorf("%s begins %.20q, %v", ending, data, err)
		}
	}
}

// A diagram and a chalk list of two lays would spoil the cloth.
func TestDrawSaysWhenItsLayIsNotKept(t *testing.T) {
	file, out := planFile(t, "", ""), filepath.Join(t.TempDir(), "chalk.csv")
	if code, said, errs := ellwand(t, "draw", file, "-o", out, "--seconds", "0"); code != exitDone || !strings.Contains(said, "not kept in the plan") {
		t.Errorf("exit %d: %s%s", code, said, errs)
	}
	if code, _, errs := ellwand(t, "lay", file, "--save", "--seconds", "0"); code != exitDone {
		t.Fatalf("lay: exit %d: %s", code, errs)
	}
	if _, said, _ := ellwand(t, "draw", file, "-o", out, "--new-lay", "--seconds", "0"); !strings.Contains(said, "not kept in the plan") {
		t.Errorf("a new lay: %s", said)
	}
}

func TestShortFleeceExitsWithOneAndSaysHowMuch(t *testing.T) {
	code, _, errs := ellwand(t, "reckon", planFile(t, "raw_g: 3600", "raw_g: 500"), "--seconds", "0")
	if code != exitCannot || !strings.Contains(errs, "short by") {
		t.Errorf("exit %d: %s", code, errs)
	}
}

func TestPieceWiderThanTheClothExitsWithOne(t *testing.T) {
	for _, command := range [][]string{{"reckon"}, {"check"}, {"draw", "-o", filepath.Join(t.TempDir(), "x.png")}} {
		args := append([]string{command[0], planFile(t, "finished_width_cm: 64", "finished_width_cm: 40")}, command[1:]...)
		if code, _, errs := ellwand(t, args...); code != exitCannot || !strings.Contains(errs, "body") {
			t.Errorf("%s: exit %d: %s", command[0], code, errs)
		}
	}
}

func TestWidthsComeAsATable(t *testing.T) {
	code, out, errs := ellwand(t, "widths", planFile(t, "", ""), "--json", "--seconds", "0.5")
	if code != exitDone {
		t.Fatalf("exit %d: %s", code, errs)
	}
	var rows []plan.WidthRow
	if err := json.Unmarshal([]byte(out), &rows); err != nil || len(rows) < 5 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for i := 1; i < len(rows); i++ {
		if rows[i].WidthCM <= rows[i-1].WidthCM || rows[i].LengthCM > rows[i-1].LengthCM+1e-6 {
			t.Errorf("row %d: %g × %g after %g × %g", i+1, rows[i].WidthCM, rows[i].LengthCM, rows[i-1].WidthCM, rows[i-1].LengthCM)
		}
	}
}

func TestBadUseExitsWithTwoAndOneSentence(t *testing.T) {
	file := planFile(t, "", "")
	for _, args := range [][]string{
		{"drew", file}, {"draw"}, {"draw", file}, {"draw", file, "-o", "x.gif"}, {"draw", file, "-o", "x.pdf", "--dpi", "300"},
		{"draw", file, "-o", "x.pdf", "--paper", "a3"}, {"draw", file, "-o", "x.png", "--paper", "a4"}, {"lay", file}, {"reckon", "nowhere.yaml"},
		{"reckon", file, "--seconds", "-1"}, {"reckon", file, "--seconds", "NaN"}, {"reckon", file, file}, {"reckon", file, "--wat"},
		{"reckon", file, "--threads", "0"}, {"check", file, "--json"}, {"reckon", planFile(t, "take_up: 0.07", "take_up: lots")},
		{"reckon", t.TempDir()}, {"draw", file, "-o", filepath.Join(t.TempDir(), "no", "such", "x.png"), "--seconds", "0"},
	} {
		code, _, errs := ellwand(t, args...)
		if code != exitBadInput || strings.Count(strings.TrimSpace(errs), "\n") != 0 || errs == "" {
			t.Errorf("%q: exit %d: %s", args, code, errs)
		}
	}
}

func TestSeveralFaultsComeOneAtATimeAndAllFromCheck(t *testing.T) {
	file := planFile(t, "  - name: grey-warp\n    tex: 110\n    plies: 1", "  - name: grey-warp\n    tex: thick\n    plies: none")
	for command, sentences := range map[string]int{"reckon": 1, "widths": 1, "check": 2} {
		code, _, errs := ellwand(t, command, file)
		if code != exitBadInput || strings.Count(errs, "\n") != sentences || !strings.Contains(errs, "yarns[grey-warp].tex is \"thick\"") {
			t.Errorf("%s: exit %d, not %d sentences: %s", command, code, sentences, errs)
		}
	}
}

func TestOptionsAreRefusedInPlainWords(t *testing.T) {
	file := planFile(t, "", "")
	for _, c := range []struct {
		says string
		args []string
	}{
		{"--seconds is \"abc\"; accepted is a number", []string{"reckon", file, "--seconds", "abc"}},
		{"--seed is \"-1\"; accepted is a whole number", []string{"reckon", file, "--seed", "-1"}},
		{"--seconds stands without its value", []string{"reckon", file, "--seconds"}},
		{"--wat is not an option", []string{"reckon", file, "--wat"}},
		{"-o is not an option here; it goes with: draw", []string{"check", file, "-o", "x.png"}},
		{"nowhere.yaml: there is no such file", []string{"reckon", "nowhere.yaml"}},
		{"there is no folder /no/such", []string{"draw", file, "-o", "/no/such/x.png", "--seconds", "0"}},
	} {
		if code, _, errs := ellwand(t, c.args...); code != exitBadInput || !strings.Contains(errs, c.says) {
			t.Errorf("%q: exit %d, does not say %q: %s", c.args, code, c.says, errs)
		}
	}
}

func TestNoWidthThatFitsSaysWhatIsShort(t *testing.T) {
	for says, file := range map[string]string{
		"At the narrowest, 60.1 cm: ":                         planFile(t, "raw_g: 3600", "raw_g: 100"),
		"of grey-warp are needed, but 20 m are in hand":       planFile(t, "    tex: 110\n", "    tex: 110\n    in_hand_m: 20\n"),
		"the loom weaves no width at which every piece fits.": planFile(t, "max_reed_width_cm: 90", "max_reed_width_cm: 40"),
	} {
		code, _, errs := ellwand(t, "widths", file, "--seconds", "0")
		if code != exitCannot || !strings.Contains(errs, says) {
			t.Errorf("exit %d, does not say %q: %s", code, says, errs)
		}
	}
}
