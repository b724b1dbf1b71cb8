package plan

import (
	"errors"
	"strings"
	"testing"

	"ellwand/assets"
)

// handEdited are slips of a hand-edited plan: the first text is replaced by the
// second, and the first sentence said must hold the third, at the line that
// holds the fourth.
var handEdited = []struct{ name, old, new, says, line string }{
	{"leading nought", "stature_cm: 176", "stature_cm: 0176", "body.stature_cm is 0176; accepted is a bare number", "0176"},
	{"octal", "stature_cm: 176", "stature_cm: 0o176", "body.stature_cm is 0o176", "0o176"},
	{"hexadecimal", "tex: 110", "tex: 0x6E", "yarns[grey-warp].tex is 0x6E", "0x6E"},
	{"underscore in a number", "stature_cm: 176", "stature_cm: 1_76", "body.stature_cm is 1_76", "1_76"},
	{"minutes for a number", "stature_cm: 176", "stature_cm: 1:76", "body.stature_cm is", "1:76"},
	{"vulgar fraction", "stature_cm: 176", "stature_cm: 175 1/2", "body.stature_cm is", "1/2"},
	{"a date", "stature_cm: 176", "stature_cm: 2020-01-01", "body.stature_cm is 2020-01-01", "2020-01-01"},
	{"binary for a title", "title: Ferryman's tunic", "title: !!binary AAAA", "title is marked !!binary", "!!binary"},
	{"unit left off", "stature_cm: 176", "stature: 176", "did you mean stature_cm?", "stature: 176"},
	{"unit left off in a lay", "choices:", "lay:\n  width_cm: 64\n  length_cm: 3\n  placements: [{id: body/1, x: 0, y_cm: 0}]\nchoices:", "did you mean x_cm?", "x: 0"},
	{"required key in another unit", "finished_ends_per_cm: 8", "finished_ends_per_inch: 20", "accepted is finished_ends_per_cm", "per_inch"},
	{"fleece in kg", "raw_g: 3600", "raw_kg: 3.6", "accepted is raw_g", "raw_kg"},
	{"draft left out", "  draft: tunic\n", "", "garment.draft is missing", "  ease:"},
	{"quote not closed", "title: Ferryman's tunic", "title: \"Ferryman", "not valid YAML", "title:"},
	{"brace not closed", "coat: outer}", "coat: outer", "not valid YAML", "coat: outer"},
	{"indented by three", "  ease:\n", "   ease:\n", "not valid YAML", "   ease:"},
	{"no reeds", "[30, 40, 50, 60]", "[]", "loom.reeds_dents_per_10cm is missing or an empty list", "reeds"},
	{"coat the fleece has none of", "outer_share: 0.45", "outer_share: 0", "spun from its outer coat", "outer_share"},
	{"other coat the fleece has none of", "outer_share: 0.45", "outer_share: 1", "spun from its inner coat", "outer_share"},
	{"a word that is no survey", "table: men", "table: dogs", "accepted is women or men", "table"},
	{"drafted piece given a size", "choices:", "pieces:\n  - {name: sleeve, width_cm: 5}\nchoices:", "pieces[sleeve].width_cm is given without a shape", "sleeve"},
	{"rectangle with corners", "choices:", "pieces:\n  - {name: belt, shape: rectangle, width_cm: 5, length_cm: 9, points: [[0, 0], [1, 0], [1, 1]]}\nchoices:", "pieces[belt].points belong to `shape: polygon`", "belt"},
	{"polygon with a width", "choices:", "pieces:\n  - {name: belt, shape: polygon, width_cm: 5, points: [[0, 0], [1, 0], [1, 1]]}\nchoices:", "pieces[belt].width_cm does not belong to a polygon", "belt"},
	{"corner of three numbers", "choices:", "pieces:\n  - {name: belt, shape: polygon, points: [[0, 0, 1], [1, 0], [1, 1]]}\nchoices:", "each [x, y] in cm", "belt"},
	{"edge of another piece", "choices:", "pieces:\n  - {name: belt, shape: rectangle, width_cm: 5, length_cm: 9, edges: {hemm: {finish: hem}}}\nchoices:", "names an edge that this piece does not have", "belt"},
	{"edge as a word", "choices:", "pieces:\n  - {name: belt, shape: rectangle, width_cm: 5, length_cm: 9, edges: {base: hem}}\nchoices:", "is \"hem\"", "belt"},
	{"piece as a word", "choices:", "pieces:\n  - belt\nchoices:", "pieces[1] is \"belt\"", "- belt"},
	{"a list as key", "loom:\n", "? [a, b]\n: c\nloom:\n", "the file has a key that is not a plain word", "[a, b]"},
	{"a terminal's colour in a key", "loom:\n", "\"\\e[31mred\": 1\nloom:\n", "holds a control character (“�[31mred”)", "red"},
	{"a line break in a key", "loom:\n", "\"a\\nb\": 1\nloom:\n", "holds a control character (“a�b”)", `a\nb`},
	{"version between two", "ellwand: 1", "ellwand: 1.5", "ellwand is 1.5; accepted is version 1", "1.5"},
	{"yarns by name", "yarns:\n", "yarns: {}\nother:\n", "yarns is a list of keys and values", "yarns"},
	{"dents of half an end", "  nap: false", "  dent_order: [1, 1.5]\n  nap: false", "no whole number", "dent_order"},
	{"combing yield as a number", "    comb_yield:\n      outer: 0.75\n      inner: 0.9\n", "    comb_yield: 0.75\n", "comb_yield is 0.75", "comb_yield"},
	{"a merge", "loom:\n", "loom:\n  <<: {name: x}\n", "loom uses the merge key `<<`, which takes values from elsewhere; accepted is each key with its value, written out", "<<"},
	{"a merge of nothing known", "loom:\n", "loom:\n  <<: *other\n", "uses an anchor or an alias; accepted is the value itself", "<<"},
	{"a tab before a key", "  draft: tunic", "\tdraft: tunic", "a tab where spaces should be; accepted is YAML indented with spaces", "draft"},
	{"an @ before a text", "title: Ferryman's tunic", "title: @ferry", "begins with @, ` or %; accepted is such a text in quotation marks", "@ferry"},
	{"two colons", "title: Ferryman's tunic", "title: Tunic: the ferryman's", "a colon where no key can be", "Tunic:"},
	{"a key without its colon", "title: Ferryman's tunic\n", "title: Ferryman's tunic\nfor summer\n\n", "the file is not valid YAML: a key without its colon", "for summer"},
	{"a comma too many", "[30, 40, 50, 60]", "[30, , 50, 60]", "a comma or a closing bracket where a value should be", "[30"},
	{"a list not closed", "[30, 40, 50, 60]", "[30, 40, 50, 60", "a list in [ ] that is not closed, or lacks a comma", "[30"},
	{"a backslash in a text", "title: Ferryman's tunic", `title: "C:\plans"`, "a backslash before a letter that it means nothing with", "plans"},
	{"a YAML line", "ellwand: 1", "%YAML 1.2\n---\nellwand: 1", "a %YAML line", "%YAML"},
	{"more after the end", "choices:", "...\nchoices:", "something after the line ... that ended the plan", "..."},
}

func TestSlipsOfAHandEditedPlanAreSaidFirst(t *testing.T) {
	source := string(assets.StarterPlan())
	for _, h := range handEdited {
		if !strings.Contains(source, h.old) {
			t.Fatalf("the starter plan has no %q", h.old)
		}
		text := strings.Replace(source, h.old, h.new, 1)
		_, err := Parse([]byte(text), "ferry.yaml")
		var p *Problem
		if !errors.As(err, &p) {
			t.Errorf("%s: %v", h.name, err)
			continue
		}
		lines := strings.Split(text, "\n")
		if !strings.Contains(p.Error(), h.says) || strings.Contains(p.Error(), "\n") {
			t.Errorf("%s: does not say %q: %s", h.name, h.says, p)
		}
		if p.Line < 1 || p.Line > len(lines) || !strings.Contains(lines[p.Line-1], h.line) {
			t.Errorf("%s: points at line %d, which has no %q: %s", h.name, p.Line, h.line, p)
		}
	}
}

func TestPlanWithoutYarnsSaysWhereToListThem(t *testing.T) {
	source := string(assets.StarterPlan())
	from, to := strings.Index(source, "yarns:\n"), strings.Index(source, "# One lot")
	_, err := Parse([]byte(source[:from]+source[to:]), "ferry.yaml")
	if err == nil || !strings.Contains(err.Error(), "the plan has no yarn; accepted is the name of a yarn listed under yarns") {
		t.Error(err)
	}
}
