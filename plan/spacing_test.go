package plan

import (
	"strings"
	"testing"

	"ellwand/assets"
)

func TestSavingAnUnchangedPlanChangesNothing(t *testing.T) {
	source := string(assets.StarterPlan())
	for name, text := range map[string]string{
		"the starter plan":   source,
		"without paragraphs": strings.ReplaceAll(source, "\n\n", "\n"),
		"a note at the end":  source + "\n# Woven from May to August.\n",
		"a note at the top":  "# Kept by the ferry.\n\n" + source,
		"an own piece": source + `
pieces:
  # sewn on last
  - name: sleeve
    edges: # both sleeves
      # turned up twice
      cuff: {finish: hem} # narrow
      head: {allowance_cm: 2, finish: seam} # wide
  - name: bag # from what is left
    shape: polygon
    points: # corners
      - [0, 0]
      - [20, 0] # base
      - [20, 30]
`,
	} {
		p, err := Parse([]byte(text), "ferry.yaml")
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		data, err := p.Marshal()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if string(data) != text {
			t.Errorf("%s: saved as\n%s\nwant\n%s", name, firstDifference(string(data), text), firstDifference(text, string(data)))
		}
	}
}

// firstDifference is three lines of a from the first in which it is not b.
func firstDifference(a, b string) string {
	as, bs := strings.Split(a, "\n"), strings.Split(b, "\n")
	i := 0
	for i < len(as) && i < len(bs) && as[i] == bs[i] {
		i++
	}
	return strings.Join(as[min(i, len(as)):min(i+3, len(as))], "\n")
}

func TestKeptLayStandsApartAndItsNotesStay(t *testing.T) {
	p := Starter()
	p.Lay = &SavedLay{WidthCM: 64, LengthCM: 300, Placements: []SavedPlacement{{ID: "body/1", Pinned: true}}}
	data, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), "\n\nlay:\n") {
		t.Errorf("no empty line above the lay:\n%s", data)
	}
	text := strings.Replace(string(data), "pinned: true}", "pinned: true} # round the stain", 1)
	if p, err = Parse([]byte(text), "ferry.yaml"); err != nil {
		t.Fatal(err)
	}
	p.Lay.Placements[0].X = 12
	if data, err = p.Marshal(); err != nil || !strings.Contains(string(data), "x_cm: 12, y_cm: 0, pinned: true} # round the stain") {
		t.Errorf("the note on a placement is lost: %v\n%s", err, data)
	}
}
