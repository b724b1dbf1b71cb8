package plan

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ellwand/cloth"
)

// cutting is a plan of one rectangle, for what stands in front of it.
const cutting = `
pieces:
  - {name: strip, shape: rectangle, width_cm: 10, length_cm: 100, edges: {}}
allowances: {seam_cm: 0, hem_cm: 0, selvedge_edge_cm: 0}
`

// plainCloth is a cloth of yarn a both ways, set at 10 per cm, of which nothing is lost.
const plainCloth = `ellwand: 1
cloth: {weave: tabby, warp: a, weft: a, finished_ends_per_cm: 10, finished_picks_per_cm: 10}
loom: {max_reed_width_cm: 100, waste_cm: 0, reeds_dents_per_10cm: [100]}
yarns:
`

// reckonedJSON is what `ellwand reckon --json` prints of a plan, as a tree.
func reckonedJSON(t *testing.T, text string) map[string]any {
	t.Helper()
	file := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	p, err := Load(file)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Work(t.Context(), p, Options{Threads: 1})
	if err != nil {
		t.Fatal(err)
	}
	data, err := r.JSON()
	if err != nil {
		t.Fatal(err)
	}
	var tree map[string]any
	if err := json.Unmarshal(data, &tree); err != nil {
		t.Fatal(err)
	}
	return tree
}

// at follows keys and, for lists, names of items; it fails when there is none.
func at(t *testing.T, tree any, path ...string) any {
	t.Helper()
	for _, key := range path {
		var next any
		switch v := tree.(type) {
		case map[string]any:
			next = v[key]
		case []any:
			for _, item := range v {
				if m, ok := item.(map[string]any); ok && (m["name"] == key || m["rule"] == key || m["use"] == key) {
					next = item
				}
			}
		}
		if next == nil {
			t.Fatalf("no %s of %v in the figures", key, path)
		}
		tree = next
	}
	return tree
}

func figureIs(t *testing.T, tree any, want, tolerance float64, path ...string) {
	t.Helper()
	got, ok := at(t, tree, path...).(float64)
	if !ok || math.Abs(got-want) > tolerance {
		t.Errorf("%s is %v, want %g ± %g", strings.Join(path, "."), at(t, tree, path...), want, tolerance)
	}
}

// Constants of textilecalculations.com (different yarn count system); results derived.
func TestYarnGivenInAnyCountIsReckonedInEvery(t *testing.T) {
	for _, c := range []struct {
		yarn  string
		path  string
		value float64
		room  float64
	}{
		{"singles: {cotton: 8}, plies: 2", "tex", 147.636, 0.07},
		{"singles: {cotton: 8}, plies: 2", "nm", 6.773, 0.003},
		{"singles: {cotton: 8}, plies: 2", "denier", 1328.7, 0.7},
		{"singles: {cotton: 8}, plies: 2", "yd_per_lb", 3360, 0.01},
		{"singles: {worsted: 16}, plies: 2", "tex", 110.73, 0.05},
		{"size: {cotton: 30}", "tex", 19.68, 0.03},
		{"size: {run: 2}", "tex", 155.02, 0.01},
		{"size: {cut: 12}", "tex", 137.79, 0.01},
		{"singles: {linen: 40}, plies: 2", "tex", 82.68, 0.01},
		{"singles: {nm: 8}, plies: 2", "yd_per_lb", 1984.2, 0.1},
		{"size: {m_per_100g: 400}", "nm", 4, 1e-6},
		{"size: {wraps_per_inch: 67.3}", "worsted", 9.99, 0.01}, // Teal 1995: 67 wraps, worsted 10s
		{"singles: {tex: 50}, plies: 2, ply_take_up: 0.05", "tex", 100 / 0.95, 1e-4},
	} {
		tree := reckonedJSON(t, plainCloth+"  - {name: a, "+c.yarn+"}\n"+cutting)
		figureIs(t, tree, c.value, c.room, "yarns", "a", "counts", c.path)
	}
}

// 50 g at 18.25 % weigh 48.20 g at 14 % (stage.langyarns.com, ball weight). A
// skein of 100 m: 482 tex, and the cloth is reckoned with it, not with the 470
// planned: 100 ends × 1 m and 1000 picks × 0.1 m, 200 m = 96.4 g.
func TestMeasuredSkeinGoesBeforeThePlannedSize(t *testing.T) {
	tree := reckonedJSON(t, plainCloth+"  - {name: a, tex: 470, skein: {length_m: 100, mass_g: 50, regain: 0.1825, standard_regain: 0.14}}\n"+cutting)
	figureIs(t, tree, 48.20, 0.01, "yarns", "a", "skein", "mass_at_standard_g")
	figureIs(t, tree, 482.0, 0.1, "yarns", "a", "tex")
	figureIs(t, tree, 96.4, 0.02, "yarns", "a", "mass_g")
	if from := at(t, tree, "yarns", "a", "tex_from").(string); !strings.Contains(from, "470 tex was planned, so it is 2.6 % coarser") {
		t.Errorf("from %q", from)
	}
	// 12.0 % of water is a regain of 13.64 % (ASTM D2118); dry fibre is what it was.
	tree = reckonedJSON(t, plainCloth+"  - {name: a, skein: {length_m: 100, mass_g: 10, moisture_content: 0.12}}\n"+cutting)
	figureIs(t, tree, 0.1364, 0.0002, "yarns", "a", "skein", "regain")
	figureIs(t, tree, 10/1.136364*1.1825*10, 0.01, "yarns", "a", "tex")
	tree = reckonedJSON(t, plainCloth+"  - {name: a, tex: 100, skein: {length_m: 10}}\n"+cutting)
	if said := strings.Join(stringsOf(at(t, tree, "notes")), "\n"); !strings.Contains(said, "skein of a has no mass, so it is not used") {
		t.Errorf("notes %q", said)
	}
	// At 65 % humidity wool holds 14 to 15 % (docslides.com, IWTO-33).
	tree = reckonedJSON(t, plainCloth+"  - {name: a, skein: {length_m: 100, mass_g: 10, humidity_percent: 65}}\n"+cutting)
	figureIs(t, tree, 0.145, 0.005, "yarns", "a", "skein", "regain")
}

// Worsted 10s with 10 turns to the inch (Teal 1995): 25°, 37 turns per cm × √tex.
func TestTwistAngleOfTheTealHandout(t *testing.T) {
	tree := reckonedJSON(t, plainCloth+"  - {name: a, size: {worsted: 10}, twist_per_cm: 3.937}\n"+cutting)
	figureIs(t, tree, 25.0, 0.2, "yarns", "a", "twist_angle_deg")
	figureIs(t, tree, 10, 0.01, "yarns", "a", "twist_per_inch")
	figureIs(t, tree, 37, 0.2, "yarns", "a", "tex_twist_multiplier")
}

// Ashenhurst, 3360 yd/lb: faena.medievaltextiles.org, ash. Brierley, 60 tex: GATE
// 2006, Q66. Cover of 20 tex at 28 per cm: scribd 455076497, its misprint put
// right. Crimp of 8 per cm in 100 tex: F. T. Peirce 1937.
func TestSettingOfPublishedExamples(t *testing.T) {
	set := func(weave, sett, yarn string) any {
		text := strings.NewReplacer("weave: tabby", "weave: "+weave, "_per_cm: 10", "_per_cm: "+sett).Replace(plainCloth)
		return at(t, reckonedJSON(t, text+"  - {name: a, "+yarn+"}\n"+cutting), "setting")
	}
	const ashenhurst = "diameters and intersections, Ashenhurst, worsted and firm yarns, k 0.90"
	figureIs(t, set("tabby", "10", "size: {yd_per_lb: 3360}"), 26.08, 0.08, "limits", ashenhurst, "ends_per_inch")
	figureIs(t, set("2/2 twill", "10", "size: {yd_per_lb: 3360}"), 34.78, 0.1, "limits", ashenhurst, "ends_per_inch")
	figureIs(t, set("2/2 twill", "10", "tex: 60"), 58.1/2.54, 0.1, "brierley_ends_per_cm")
	fine := set("tabby", "28", "tex: 20")
	figureIs(t, fine, 12.52, 0.02, "warp_si_cover_on_loom")
	figureIs(t, fine, 13.09, 0.02, "weft_peirce_cover_on_loom")
	square := set("tabby", "8", "tex: 100")
	figureIs(t, square, 0.0502, 0.0002, "peirce_warp_crimp")
	figureIs(t, square, 0.0464, 0.0002, "peirce_exact_crimp")
	figureIs(t, square, 168.0, 0.1, "peirce_mass_g_per_m2")
}

// The flax report of Ribe (issuu maritimearchaeology.dk, 70 and 71).
func TestRibeLoomFromAPlan(t *testing.T) {
	text := strings.NewReplacer("_per_cm: 10", "_per_cm: 22", "max_reed_width_cm: 100, waste_cm: 0, reeds_dents_per_10cm: [100]",
		"kind: warp-weighted, max_reed_width_cm: 120, weights: 116, weight_g: 350, weight_lightest_g: 300, weight_heaviest_g: 400, threads_per_weight: 20").Replace(plainCloth)
	tree := reckonedJSON(t, text+"  - {name: a, tex: 30}\n"+cutting)
	figureIs(t, tree, 2320, 0, "loom", "weights", "ends_held")
	figureIs(t, tree, 105.5, 0.1, "loom", "weights", "width_held_cm")
	figureIs(t, tree, 15, 1e-6, "loom", "weights", "tension_low_g_per_thread")
	figureIs(t, tree, 20, 1e-6, "loom", "weights", "tension_high_g_per_thread")
	figureIs(t, tree, 160, 1e-6, "cloth", "warp_length_cm") // 60 cm of waste, usual for the kind
}

// Stripes from the file: 100 ends as 20 a, 4 b; 1000 picks as 3 a, 1 c.
func TestStripesFromAPlan(t *testing.T) {
	text := strings.Replace(plainCloth, "weave: tabby,", "weave: tabby, warp_order: [{yarn: a, ends: 20}, {yarn: b, ends: 4}], weft_order: [{yarn: a, picks: 3}, {yarn: c, picks: 1}], selvedge_yarn: b, selvedge_ends: 2, heading_cm: 10, heading_yarn: c,", 1)
	tree := reckonedJSON(t, text+"  - {name: a, tex: 100}\n  - {name: b, tex: 100, colour: madder}\n  - {name: c, tex: 50}\n  - {name: spare, tex: 50}\n"+cutting)
	// 96 ends between the selvedges: four rounds of 24; 4 at the selvedges.
	figureIs(t, tree, 80, 0, "yarns", "a", "ends")
	figureIs(t, tree, 20, 0, "yarns", "b", "ends")
	figureIs(t, tree, 250, 0, "yarns", "c", "picks")
	figureIs(t, tree, 10, 1e-9, "yarns", "c", "heading_m")
	figureIs(t, tree, 35, 1e-9, "yarns", "c", "length_m")
	figureIs(t, tree, 0, 0, "yarns", "spare", "length_m")
	if first := at(t, tree, "loom", "warp_stripes").([]any)[0].(map[string]any); first["yarn"] != "b" || first["threads"] != 2.0 {
		t.Errorf("the left selvedge is %v, want 2 b", first)
	}
}

func TestPlanKeepsThreadKeysOnSaving(t *testing.T) {
	text := plainCloth + "  - name: a\n    singles: {nm: 18} # as spun\n    plies: 2\n    ply_take_up: 0.04\n    twist_per_cm: 2.5\n    skein: {length_m: 100, mass_g: 11.4, humidity_percent: 60}\n    colour: '#102030'\n" + cutting
	text = strings.Replace(text, "weave: tabby,", "weave: own, draft: [XX.., .XX., ..XX, X..X], warp_order: [{yarn: a, ends: 3}],", 1)
	p, err := Parse([]byte(text), "ferry.yaml")
	if err != nil {
		t.Fatal(err)
	}
	out, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"singles: {nm: 18} # as spun", "humidity_percent: 60", "draft: [XX.., .XX., ..XX, X..X]", "warp_order: [{yarn: a, ends: 3}]", "colour: '#102030'"} {
		if !strings.Contains(string(out), words) {
			t.Errorf("saved without %q:\n%s", words, out)
		}
	}
	if err := SetField(p, "cloth.warp_order", "20 a, 4 a"); err != nil || GetField(p, "cloth.warp_order") != "20 a, 4 a" {
		t.Errorf("typed order: %v, %q", err, GetField(p, "cloth.warp_order"))
	}
	p.Yarns[0].Size, p.Yarns[0].Singles = cloth.Size{System: "worsted", Count: 8}, cloth.Size{}
	out, _ = p.Marshal()
	if strings.Contains(string(out), "singles") || !strings.Contains(string(out), "worsted: 8") {
		t.Errorf("another size is saved as\n%s", out)
	}
	if _, err := Parse(out, "again.yaml"); err != nil {
		t.Error(err)
	}
}

func TestImpossibleThreadsAreNamed(t *testing.T) {
	yarn := func(words string) string { return plainCloth + "  - {name: a, " + words + "}\n" + cutting }
	cloth := func(words string) string {
		return strings.Replace(yarn("tex: 100"), "weave: tabby,", "weave: tabby, "+words+",", 1)
	}
	for text, says := range map[string]string{
		yarn("tex: 100, size: {nm: 9}"):        "yarns[a].size is given besides tex",
		yarn("size: {nm: 9, worsted: 8}"):      "worsted is given besides nm",
		yarn("size: {nmm: 9}"):                 "did you mean nm?",
		yarn("plies: 2"):                       "yarns[a].tex is missing",
		yarn("tex: 100, diameter_rule: guess"): "yarns[a].diameter_rule",
		yarn("tex: 100, colour: mauve"):        "yarns[a].colour",
		yarn("tex: 9, skein: {length_m: 1, mass_g: 1, regain: 0.1, humidity_percent: 60}"): "says twice how damp",
		cloth("draft: [XX, X.]"):                                                  "cloth.draft leaves the pick of row 1",
		cloth("draft: [X.X, .X]"):                                                 "has 2 marks in row 2 but 3 in the first",
		cloth("draft: [XQ]"):                                                      "has the mark 'Q' in row 1",
		cloth("warp_order: [{yarn: b, ends: 4}]"):                                 "cloth.warp_order names the yarn \"b\"",
		cloth("warp_order: [{yarn: a, ends: 0}]"):                                 "ends is 0",
		cloth("weft_order: [{yarn: a, ends: 4}]"):                                 "neither yarn nor picks",
		cloth("selvedge_yarn: b"):                                                 "cloth.selvedge_yarn",
		strings.Replace(yarn("tex: 9"), "loom: {", "loom: {kind: treadmill, ", 1): "loom.kind",
		strings.Replace(yarn("tex: 9"), "[100]", "[]", 1):                         "only an upright or a warp-weighted loom may be without",
	} {
		if _, err := Parse([]byte(text), "ferry.yaml"); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("want %q, got %v", says, err)
		}
	}
}
