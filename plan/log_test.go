package plan

import (
	"bytes"
	"strings"
	"testing"

	"ellwand/assets"
)

const ferrymansLog = `
log:
  skeins:
    # the first, on the new spindle
    - {date: "2026-03-07", yarn: grey-warp, length_m: 240, mass_g: 27.6, hours: 6, tool: spindle}
    - {yarn: grey-weft, length_m: 100, mass_g: 15}
  woven:
    - {date: 2026-05-02, woven_cm: 40, picks: 230, hours: 5}
  worked:
    - {task: sort, of: grey wether, hours: 2, done: true}
  cloth_off_loom: {width_cm: 70, length_cm: 500}
  cloth_finished: {width_cm: 63, length_cm: 450, mass_g: 900}
`

func starterWith(t *testing.T, more string) *Plan {
	t.Helper()
	p, err := Parse(append(bytes.Clone(assets.StarterPlan()), more...), "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestLogIsReadAndSavedWithItsComments(t *testing.T) {
	p := starterWith(t, ferrymansLog)
	if s := p.Log.Skeins[0]; s != (Skein{"2026-03-07", "grey-warp", 240, 27.6, 6, "spindle"}) {
		t.Errorf("first skein is %+v", s)
	}
	if p.Log.Finished != (MeasuredCloth{63, 450, 900}) || !p.Log.Worked[0].Done {
		t.Errorf("log is %+v", p.Log)
	}
	if err := SetField(p, "log.skeins[2].mass_g", "14.5"); err != nil {
		t.Fatal(err)
	}
	p.Log.Skeins = append(p.Log.Skeins, Skein{Yarn: "grey-weft", LengthM: 120})
	data, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	for _, kept := range []string{"# the first, on the new spindle\n    - {date: \"2026-03-07\"", "mass_g: 14.5", "{yarn: grey-weft, length_m: 120}", "cloth_finished: {width_cm: 63"} {
		if !bytes.Contains(data, []byte(kept)) {
			t.Errorf("saved without %q:\n%s", kept, data[bytes.Index(data, []byte("log:")):])
		}
	}
	again, err := Parse(data, "plan.yaml")
	if err != nil || len(again.Log.Skeins) != 3 || again.Log.Skeins[1].MassG != 14.5 {
		t.Errorf("read again: %v, %+v", err, again)
	}
	p.Log.Skeins = p.Log.Skeins[1:]
	data, _ = p.Marshal()
	if bytes.Contains(data, []byte("the new spindle")) || !bytes.Contains(data, []byte("mass_g: 14.5")) {
		t.Errorf("the first skein is not gone, or another with it:\n%s", data[bytes.Index(data, []byte("log:")):])
	}
}

func TestLogOfUnknownYarnIsRefusedWithItsLine(t *testing.T) {
	_, err := Parse(append(bytes.Clone(assets.StarterPlan()), strings.Replace(ferrymansLog, "yarn: grey-weft", "yarn: gray", 1)...), "plan.yaml")
	if err == nil || !strings.Contains(err.Error(), "log.skeins[2].yarn") {
		t.Errorf("error is %v", err)
	}
	if line := strings.Count(string(assets.StarterPlan())+ferrymansLog[:strings.Index(ferrymansLog, "{yarn: grey-weft")], "\n") + 1; err != nil && !strings.Contains(err.Error(), ":"+itoa(line)) {
		t.Errorf("error %v does not name line %d", err, line)
	}
}

func itoa(n int) string { return plain(float64(n)) }

func TestBlendAndPlantLotAreReadAndSaved(t *testing.T) {
	text := strings.Replace(string(assets.StarterPlan()), "    fibre: {lot: grey wether, coat: inner}", "    blend:\n      - {lot: grey wether, coat: inner, share: 0.7} # soft\n      - {lot: flax, coat: tow, share: 0.3}", 1)
	text = strings.Replace(text, "fleeces:\n", "fleeces:\n  - name: flax\n    kind: plant\n    raw_g: 20000\n    plant: {rippled_yield: 0.5}\n", 1)
	p, err := Parse([]byte(text), "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if f := p.Fleeces[0]; f.RippledYield != 0.5 || f.ScutchedYield != 0.17 {
		t.Errorf("flax is %+v", f)
	}
	if err := SetField(p, "yarns[grey-weft].blend[2].coat", "line"); err != nil {
		t.Fatal(err)
	}
	data, err := p.Marshal()
	if err != nil || !bytes.Contains(data, []byte("share: 0.7} # soft")) || !bytes.Contains(data, []byte("coat: line, share: 0.3")) {
		t.Errorf("saved as (%v)\n%s", err, data)
	}
	for old, says := range map[string]string{
		"share: 0.3": "shares of 0.95 together", "coat: tow": "accepted is line or tow", "lot: flax, coat": "no fleece of that name",
	} {
		bad := strings.Replace(text, old, map[string]string{"share: 0.3": "share: 0.25", "coat: tow": "coat: outer", "lot: flax, coat": "lot: hemp, coat"}[old], 1)
		if _, err := Parse([]byte(bad), "plan.yaml"); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", old, err)
		}
	}
}
