package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

func TestBackwardsAnswersAndKeepsOne(t *testing.T) {
	file := planFile(t, "raw_g: 3600", "raw_g: 2200")
	code, out, errs := ellwand(t, "backwards", file, "--json", "--seconds", "0")
	var got struct {
		Answers []struct {
			For   string
			Found bool
			Is    float64
			Set   []struct {
				Field string
				Is    float64
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &got); code != 0 || err != nil || len(got.Answers) != 3 || got.Answers[2].For != "sett" || !got.Answers[2].Found {
		t.Fatalf("exit %d, %v, %s\n%s", code, err, errs, out)
	}
	code, out, errs = ellwand(t, "backwards", file, "--for", "sett", "--save", "--seconds", "0")
	if code != 0 || !strings.Contains(out, "The closest sett of what is in hand") {
		t.Fatalf("exit %d, %s\n%s", code, errs, out)
	}
	kept, _ := os.ReadFile(file)
	if strings.Contains(string(kept), "finished_picks_per_cm: 7\n") || !strings.Contains(string(kept), "placements:") {
		t.Errorf("kept\n%s", kept)
	}
	if code, out, errs = ellwand(t, "reckon", file, "--seconds", "0"); code != 0 {
		t.Errorf("the answer kept cannot be made: exit %d, %s\n%s", code, errs, out)
	}
}

func TestBackwardsUseIsChecked(t *testing.T) {
	file := planFile(t, "", "")
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"backwards", file, "--save"}, "say which with --for"},
		{[]string{"backwards", file, "--for", "width"}, "accepted is length, hem or sett"},
		{[]string{"reckon", file, "--for", "hem"}, "goes with: backwards"},
	} {
		if code, _, errs := ellwand(t, c.args...); code != exitBadInput || !strings.Contains(errs, c.says) {
			t.Errorf("%v: exit %d, %s", c.args, code, errs)
		}
	}
}
