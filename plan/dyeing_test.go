package plan

import (
	"slices"
	"strings"
	"testing"
)

// dyedCloth: 100 ends × 1 m red warp of 100 tex = 10 g, dyed of grey yarn; 1000
// picks × 0.1 m green weft of 50 tex = 5 g, dyed yellow and then blue, of fibre
// of which half was dyed brown in the fleece: 2.5 g of yarn ÷ 0.9 = 2.7778 g
// prepared ÷ 0.8 combed = 3.4722 g dyed.
const dyedCloth = `ellwand: 1
cloth: {weave: tabby, warp: red, weft: green, finished_ends_per_cm: 10, finished_picks_per_cm: 10}
loom: {max_reed_width_cm: 100, waste_cm: 0, reeds_dents_per_10cm: [100]}
yarns:
  - {name: grey, tex: 100, in_hand_m: 150}
  - {name: fine, tex: 50, spin_loss: 0.1, blend: [{lot: ewe, coat: whole, share: 0.5}, {lot: brown, coat: whole, share: 0.5}]}
fleeces:
  - {name: ewe, raw_g: 100, scoured_yield: 0.5, comb_yield: {whole: 0.8}}
dyes:
  - {name: brown, stage: fleece, of: ewe, dyestuff: walnut hulls, dyestuff_percent: 200}
  - {name: red, of: grey, mordant: alum, mordant_percent: 15, dyestuff: madder, dyestuff_percent: 80, colour: madder}
  - {name: yellow, of: fine, mordant: alum, mordant_percent: 10, dyestuff: weld, dyestuff_percent: 100}
  - {name: green, of: yellow, dyestuff: woad, dyestuff_percent: 50, assistant: soda ash, assistant_percent: 5}
  - {name: rinse, stage: cloth, dyestuff: sumac, dyestuff_percent: 10}
`

func TestDyedLotsAreLotsOfTheirOwn(t *testing.T) {
	tree := reckonedJSON(t, dyedCloth+cutting)
	figureIs(t, tree, 10, 1e-6, "yarns", "red", "mass_g")
	figureIs(t, tree, 5, 1e-6, "yarns", "green", "mass_g")
	for _, d := range []struct {
		name, key string
		want      float64
	}{
		{"red", "fibre_g", 10}, {"red", "mordant_g", 1.5}, {"red", "dyestuff_g", 8},
		{"yellow", "fibre_g", 5}, {"yellow", "dyestuff_g", 5}, {"green", "fibre_g", 5}, {"green", "dyestuff_g", 2.5}, {"green", "assistant_g", 0.25},
		{"brown", "fibre_g", 2.5 / 0.9 / 0.8}, {"brown", "dyestuff_g", 2 * 2.5 / 0.9 / 0.8}, {"rinse", "fibre_g", 15}, {"rinse", "dyestuff_g", 1.5},
	} {
		figureIs(t, tree, d.want, 1e-5, "dyes", d.name, d.key)
	}
	// All of the fleece's fibre comes out of the one lot, dyed or not: 5 ÷ 0.9 ÷ 0.8 ÷ 0.5.
	figureIs(t, tree, 5/0.9/0.8/0.5, 0.001, "fleeces", "ewe", "raw_needed_g")
	said := strings.Join(stringsOf(at(t, tree, "cautions")), "\n")
	for _, words := range []string{"Dye pots scald", "Alum irritates", "Alkali burns"} {
		if !strings.Contains(said, words) {
			t.Errorf("no caution %q", words)
		}
	}
	if strings.Contains(said, "dichromate") || strings.Contains(said, "Tin salts") {
		t.Error("a caution for a mordant that is not used")
	}
	if tasks := strings.Join(stringsOfKey(at(t, tree, "hours", "tasks"), "name"), "\n"); !strings.Contains(tasks, "Spin green") {
		t.Errorf("the dyed yarn is not spun: %s", tasks)
	}
}

// 150 m of grey in hand dyed red do not reach for a warp of 200 m.
func TestDyedYarnComesOutOfTheYarnInHand(t *testing.T) {
	text := strings.Replace(dyedCloth, "waste_cm: 0", "waste_cm: 100", 1)
	tree := reckonedJSON(t, text+cutting)
	if said := stringsOf(at(t, tree, "cannot_be_made")); !slices.ContainsFunc(said, func(s string) bool {
		return strings.Contains(s, "200 m of grey, dyed and undyed together, are needed, but 150 m are in hand")
	}) {
		t.Errorf("cannot be made: %q", said)
	}
}

func TestMordantsHaveTheirCautions(t *testing.T) {
	p, err := Parse([]byte(dyedCloth+cutting), "ferry.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for mordant, words := range map[string]string{"potassium dichromate": "", "chrome": "very toxic", "tin": "corrosive", "stannous chloride": "corrosive",
		"copper sulphate": "water life", "iron": "child", "tinctured oak": ""} {
		d := p.Dyes[0]
		d.Mordant = mordant
		said := strings.Join(d.Cautions(), "\n")
		if !strings.Contains(said, words) || words == "" && strings.Contains(said, "corrosive") {
			t.Errorf("%s: %s", mordant, said)
		}
	}
}

func TestImpossibleDyesAreNamed(t *testing.T) {
	for old, c := range map[string]struct{ new, says string }{
		"name: red, of: grey":      {"name: red, of: gray", `dyes[red].of is "gray"`},
		"name: brown":              {"name: ewe", "dyes[ewe].name is given twice"},
		"name: green, of: yellow":  {"name: green, of: blue", "dyes[green].of"},
		"stage: cloth,":            {"stage: cloth, of: grey,", "what is dyed is the whole cloth"},
		"stage: fleece":            {"stage: sheep", "fleece, yarn or cloth"},
		"mordant_percent: 15":      {"mordant_g: 15", "dyes[red].mordant_g"},
		"warp: red":                {"warp: rad", "did you mean red?"},
		"{lot: brown, coat: whole": {"{lot: braun, coat: whole", "there is no fleece of that name"},
	} {
		if _, err := Parse([]byte(strings.Replace(dyedCloth, old, c.new, 1)+cutting), "ferry.yaml"); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: want %q, got %v", c.new, c.says, err)
		}
	}
}

func TestDyesAreKeptOnSaving(t *testing.T) {
	p, err := Parse([]byte(dyedCloth+cutting), "ferry.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := SetField(p, "dyes[red].dyestuff_percent", "90"); err != nil {
		t.Fatal(err)
	}
	out, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse(out, "again.yaml")
	if err != nil || len(again.Dyes) != 5 || again.Dyes[1].DyestuffPercent != 90 {
		t.Errorf("%v\n%s", err, out)
	}
}

func stringsOf(tree any) (out []string) {
	for _, v := range tree.([]any) {
		out = append(out, v.(string))
	}
	return out
}

func stringsOfKey(tree any, key string) (out []string) {
	for _, v := range tree.([]any) {
		out = append(out, v.(map[string]any)[key].(string))
	}
	return out
}
