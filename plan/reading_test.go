package plan

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"ellwand/assets"
)

// broken edits the starter plan: the first text is replaced by the second.
var broken = []struct {
	name, old, new string
	field          string // that the sentence must name
	line           string // text of the line it must point at; "" for any
	says           string
}{
	{"unknown key", "take_up:", "takeup:", "cloth.takeup", "takeup:", "take_up"},
	{"unknown top key", "loom:\n", "lom:\n", "lom", "lom:", "loom"},
	{"key far from any", "title:", "zzzzzzzzzzzz:", "zzzzzzzzzzzz", "zzzzzzzzzzzz", "accepted is"},
	{"unit in the key", "stature_cm:", "stature_mm:", "body.stature_mm", "stature_mm", "stature_cm"},
	{"unit in the value", "stature_cm: 176", "stature_cm: 176 cm", "body.stature_cm", "176 cm", "bare number"},
	{"inches in the value", "stature_cm: 176", "stature_cm: 69in", "body.stature_cm", "69in", "bare number"},
	{"comma for a point", "tex: 110", "tex: 110,5", "yarns[grey-warp].tex", "110,5", "bare number"},
	{"word for a number", "take_up: 0.07", "take_up: lots", "cloth.take_up", "lots", "fraction|from 0 to below 1"},
	{"percent for a fraction", "take_up: 0.07", "take_up: 7", "cloth.take_up", "take_up: 7", "below 1"},
	{"loss of everything", "shrink_width: 0.1", "shrink_width: 1", "cloth.shrink_width", "shrink_width: 1", "below 1"},
	{"negative loss", "draw_in: 0.07", "draw_in: -0.1", "cloth.draw_in", "-0.1", "from 0"},
	{"not a number", "tex: 110", "tex: .nan", "yarns[grey-warp].tex", ".nan", "bare number"},
	{"infinite", "tex: 110", "tex: .inf", "yarns[grey-warp].tex", ".inf", "bare number"},
	{"1e308", "raw_g: 3600", "raw_g: 1e308", "fleeces[grey wether].raw_g", "1e308", "to 1000000"},
	{"negative mass", "raw_g: 3600", "raw_g: -5", "fleeces[grey wether].raw_g", "-5", "from 0"},
	{"no grist", "tex: 110", "tex: 0", "yarns[grey-warp].tex", "tex: 0", "above 0"},
	{"empty value", "tex: 110", "tex:", "yarns[grey-warp].tex", "tex:", "is empty"},
	{"missing grist", "    tex: 110\n", "", "yarns[grey-warp].tex", "grey-warp", "is missing"},
	{"missing warp", "  warp: grey-warp\n", "", "cloth.warp", "", "is missing"},
	{"missing loom width", "  max_reed_width_cm: 90\n", "", "loom.max_reed_width_cm", "", "is missing"},
	{"unknown yarn", "warp: grey-warp", "warp: gray-warp", "cloth.warp", "gray-warp", "grey-warp"},
	{"unknown fleece", "lot: grey wether, coat: outer", "lot: gray wether, coat: outer", "yarns[grey-warp].fibre.lot", "gray wether", "grey wether"},
	{"unknown coat", "coat: outer", "coat: outside", "yarns[grey-warp].fibre.coat", "outside", "outer, inner, whole, line or tow"},
	{"unknown weave", "weave: 2/2 twill", "weave: 2/3 twill", "cloth.weave", "2/3 twill", "2/2 twill"},
	{"unknown draft", "draft: tunic", "draft: tunik", "garment.draft", "tunik", "tunic"},
	{"unknown option", "side_gores: 2", "side_goars: 2", "garment.options.side_goars", "side_goars", "side_gores"},
	{"option out of its choices", "side_gores: 2", "side_gores: 3", "garment.options.side_gores", "side_gores: 3", "4"},
	{"ease too large", "body_ease_cm: 8", "body_ease_cm: 800", "garment.ease.body_ease_cm", "800", "45"},
	{"ease among options", "side_gores: 2", "body_ease_cm: 8", "garment.options.body_ease_cm", "options|body_ease", "not a key here"},
	{"giant", "stature_cm: 176", "stature_cm: 1760", "body.stature_cm", "1760", "235"},
	{"stature in metres", "stature_cm: 176", "stature_cm: 1.76", "body.stature_cm", "1.76", "115"},
	{"impossible body", "hand_girth_cm: 21.5", "hand_girth_cm: 13\n  wrist_girth_cm: 25", "body.wrist_girth_cm", "wrist", "below"},
	{"wrong units word", "show_units: cm", "show_units: feet", "show_units", "feet", "cm or inch"},
	{"twist neither way", "twist: Z", "twist: X", "yarns[grey-warp].twist", "X", "Z or S"},
	{"half a ply", "plies: 1", "plies: 1.5", "yarns[grey-warp].plies", "1.5", "whole number"},
	{"nap maybe", "nap: false", "nap: sometimes", "cloth.nap", "sometimes", "true or false"},
	{"reeds not a list", "[30, 40, 50, 60]", "40", "loom.reeds_dents_per_10cm", "reeds", "list"},
	{"reed of no dents", "[30, 40, 50, 60]", "[30, 0]", "loom.reeds_dents_per_10cm", "reeds", "above 0"},
	{"list for a mapping", "  gap_cm: 0\n", "  - gap_cm: 0\n", "cutting", "gap_cm", "list of keys and values"},
	{"text for a list", "choices:\n", "choices: none\nignored:\n", "choices", "none", "list"},
	{"version missing", "ellwand: 1\n", "", "ellwand", "", "is missing"},
	{"version newer", "ellwand: 1", "ellwand: 2", "ellwand", "ellwand: 2", "newer"},
	{"version a word", "ellwand: 1", "ellwand: one", "ellwand", "one", "version 1"},
	{"key twice", "take_up: 0.07", "take_up: 0.07\n  take_up: 0.08", "cloth.take_up", "0.08", "twice"},
	{"two yarns of a name", "name: grey-weft", "name: grey-warp", "yarns[grey-warp].name", "", "twice"},
	{"a tab", "  take_up:", "\ttake_up:", "the file", "", "YAML"},
	{"a control character", "name: ferryman", "name: \"ferry\\x07man\"", "body.name", "ferry", "text"},
	{"a long name", "name: ferryman", "name: " + strings.Repeat("a", 10000), "body.name", "", "at most 200"},
	{"an alias", "warp: grey-warp", "warp: &w grey-warp", "cloth.warp", "grey-warp", "anchor"},
	{"gap too wide", "gap_cm: 0", "gap_cm: 99", "cutting.gap_cm", "99", "to 10"},
	{"own piece without a shape's size", "choices:", "pieces:\n  - {name: belt, shape: rectangle, width_cm: 8}\nchoices:", "pieces[belt]", "belt", "length_cm"},
	{"override of no piece", "choices:", "pieces:\n  - {name: hat, copies: 2}\nchoices:", "pieces[hat]", "hat", ""},
	{"negative copies", "choices:", "pieces:\n  - {name: belt, shape: rectangle, width_cm: 8, length_cm: 150, copies: -1}\nchoices:", "pieces[belt].copies", "belt", "whole number"},
	{"a million copies", "choices:", "pieces:\n  - {name: belt, shape: rectangle, width_cm: 8, length_cm: 150, copies: 1000000}\nchoices:", "pieces[belt].copies", "belt", "to 200"},
	{"crossing polygon", "choices:", "pieces:\n  - name: bag\n    shape: polygon\n    points: [[0, 0], [10, 10], [10, 0], [0, 10]]\nchoices:", "pieces[bag]", "", "meets the edge"},
	{"unknown key of hours", "budget_h: 320", "budget: 320", "hours.budget", "budget: 320", "budget_h"},
	{"budget in words", "budget_h: 320", "budget_h: a winter", "hours.budget_h", "a winter", "bare number"},
	{"more hours than a week has", "per_week_h: 6", "per_week_h: 600", "hours.per_week_h", "600", "to 168"},
	{"start on no day", "\"2026-03-01\"", "2026-02-30", "hours.start", "2026-02-30", "year-month-day"},
	{"start by the month", "\"2026-03-01\"", "March", "hours.start", "March", "year-month-day"},
	{"nothing but rest", "rest_share: 0.1", "rest_share: 1", "hours.rest_share", "rest_share: 1", "to 0.9"},
	{"unknown loom to weave on", "weaving: frame", "weaving: fram", "hours.weaving", "fram", "frame"},
	{"three times felled", "fell_passes: 1", "fell_passes: 3", "hours.fell_passes", "fell_passes: 3", "from 0 to 2"},
	{"share above the whole", "spindle: 0.6", "spindle: 60", "hours.shares.spindle", "spindle: 60", "to 1"},
	{"unknown share", "    spindle: 0.6", "    spindel: 0.6", "hours.shares.spindel", "spindel", "spindle"},
	{"unknown rate", "frame_cm_per_h: 9", "frame_cm_per_hour: 9", "hours.rates.frame_cm_per_hour", "frame_cm_per_hour", "frame_cm_per_h"},
	{"rate of nothing", "frame_cm_per_h: 9", "frame_cm_per_h: 0", "hours.rates.frame_cm_per_h", "frame_cm_per_h: 0", "above 0"},
	{"two rates", "[38, 46, 55]", "[38, 55]", "hours.rates.spindle_m_per_h", "spindle_m_per_h", "slow, usual, quick"},
	{"rates back to front", "[38, 46, 55]", "[55, 46, 38]", "hours.rates.spindle_m_per_h", "spindle_m_per_h", "slow, usual, quick"},
	{"two choices of one component", "choices:\n", "choices:\n  - component: loom\n", "choices[loom].component", "loom", "twice"},
	{"placement of no place", "choices:", "lay:\n  width_cm: 60\n  length_cm: 400\n  placements:\n    - {id: x/1, x_cm: here, y_cm: 0}\nchoices:", "lay.placements[1].x_cm", "here", "bare number"},
}

func TestEachBrokenPlanIsNamedInOneSentence(t *testing.T) {
	source := string(assets.StarterPlan())
	for _, b := range broken {
		t.Run(b.name, func(t *testing.T) {
			if !strings.Contains(source, b.old) {
				t.Fatalf("the starter plan has no %q", b.old)
			}
			text := strings.Replace(source, b.old, b.new, 1)
			_, err := Parse([]byte(text), "ferry.yaml")
			if err == nil {
				t.Fatal("accepted")
			}
			var p *Problem
			if !errors.As(err, &p) {
				t.Fatalf("%T is no Problem: %v", err, err)
			}
			first := strings.SplitN(err.Error(), "\n", 2)[0]
			if !strings.HasPrefix(first, "ferry.yaml:") || !strings.HasSuffix(first, ".") && !strings.HasSuffix(first, "?") || p.Line == 0 {
				t.Errorf("no file, line or full stop: %s", first)
			}
			if !strings.Contains(err.Error(), b.field) {
				t.Errorf("field %s is not named: %s", b.field, err)
			}
			if !anyIn(err.Error(), b.says) {
				t.Errorf("does not say %q: %s", b.says, err)
			}
			lines := strings.Split(text, "\n")
			if b.line != "" && (p.Line > len(lines) || !anyIn(lines[p.Line-1], b.line)) {
				t.Errorf("points at line %d (%q), which has no %q", p.Line, lines[min(p.Line, len(lines))-1], b.line)
			}
			if len(err.Error()) > 1500 {
				t.Errorf("%d letters are no sentence", len(err.Error()))
			}
		})
	}
	t.Logf("%d kinds of broken plan", len(broken))
}

func anyIn(text, alternatives string) bool {
	for _, a := range strings.Split(alternatives, "|") {
		if strings.Contains(text, a) {
			return true
		}
	}
	return false
}

func TestStarterPlanIsSound(t *testing.T) {
	if err := Starter().Validate(); err != nil {
		t.Fatal(err)
	}
}

func TestSavingKeepsCommentsAndOrder(t *testing.T) {
	source := string(assets.StarterPlan())
	p, err := Parse([]byte(source), "ferry.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := SetField(p, "cloth.take_up", "0.09"); err != nil {
		t.Fatal(err)
	}
	data, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(source, "\n") {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") && !strings.Contains(string(data), line) {
			t.Errorf("comment lost: %s", line)
		}
	}
	if !strings.Contains(string(data), "take_up: 0.09") {
		t.Error("the new take-up is not in the file")
	}
	if i, j := strings.Index(string(data), "loom:"), strings.Index(string(data), "yarns:"); i > j {
		t.Error("the order of keys changed")
	}
	again, err := Parse(data, "ferry.yaml")
	if err != nil {
		t.Fatal(err)
	}
	again.root, p.root, again.stamp, p.stamp = nil, nil, Stamp{}, Stamp{}
	if !reflect.DeepEqual(again, p) {
		t.Errorf("read back as\n%+v\nwant\n%+v", again, p)
	}
}

func TestPlanWithoutAFileIsWrittenWhole(t *testing.T) {
	p := Starter()
	p.root = nil
	copies := 2
	p.Pieces = []PieceSpec{{Name: "belt", Shape: "rectangle", Copies: &copies, Dims: map[string]float64{"length_cm": 150, "width_cm": 8}}}
	p.Lay = &SavedLay{WidthCM: 64, LengthCM: 300, Placements: []SavedPlacement{{ID: "belt/1", Pinned: true}}}
	data, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse(data, "again.yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	second, err := again.Marshal()
	if err != nil || string(second) != string(data) {
		t.Errorf("written twice, it differs: %v\n%s\n%s", err, data, second)
	}
}

func TestSavingKeepsOnePreviousVersion(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ferry.yaml")
	if err := os.WriteFile(path, assets.StarterPlan(), 0o600); err != nil {
		t.Fatal(err)
	}
	p, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := SetField(p, "title", "Tunic, wider"); err != nil {
		t.Fatal(err)
	}
	if err := p.Save(path); err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile(path + "~")
	if err != nil || string(old) != string(assets.StarterPlan()) {
		t.Errorf("the previous version is not kept: %v", err)
	}
	if again, err := Load(path); err != nil || again.Title != "Tunic, wider" {
		t.Errorf("saved plan reads as %v, %v", again, err)
	}
}

func TestFormFieldsAcceptWhatTheFileAccepts(t *testing.T) {
	p := Starter()
	good := map[string]string{"body.stature_cm": "181.5", "yarns[grey-warp].tex": "95", "garment.ease.body_ease_cm": "12",
		"loom.reeds_dents_per_10cm": "40, 50", "cloth.nap": "true", "fleeces[grey wether].comb_yield.inner": "0.8", "body.waist_girth_cm": "", "cloth.dent_order": "1, 2",
		"hours.start": "2026-04-12", "hours.rates.spindle_m_per_h": "20, 30, 40", "hours.rates.wheel_m_per_h": "150", "hours.rates.frame_cm_per_h": "", "hours.shares.spindle": "0.5", "hours.weaving": "treadle", "choices[loom].why": "it was there"}
	for path, text := range good {
		if err := SetField(p, path, text); err != nil {
			t.Errorf("%s: %v", path, err)
		} else if got := GetField(p, path); got != text {
			t.Errorf("%s is %q, want %q", path, got, text)
		}
	}
	for path, text := range map[string]string{"body.stature_cm": "tall", "yarns[grey-warp].tex": "", "cloth.take_up": "7", "loom.reeds_dents_per_10cm": "a, b", "no.such": "1", "cloth.draw_in": "0,1", "hours.start": "soon", "hours.rates.spindle_m_per_h": "40, 20", "choices[loom].component": "a\nb"} {
		before := fmt.Sprint(p)
		if err := SetField(p, path, text); err == nil {
			t.Errorf("%s accepted %q", path, text)
		}
		if fmt.Sprint(p) != before {
			t.Errorf("%s changed the plan although %q is refused", path, text)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add(string(assets.StarterPlan()))
	for _, b := range broken[:12] {
		f.Add(strings.Replace(string(assets.StarterPlan()), b.old, b.new, 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := Parse([]byte(text), "f.yaml")
		if err != nil {
			return
		}
		data, err := p.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Parse(data, "f.yaml"); err != nil {
			t.Errorf("what was saved does not open: %v\n%s", err, data)
		}
	})
}
