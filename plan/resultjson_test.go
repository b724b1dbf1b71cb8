package plan

import (
	"encoding/json"
	"strings"
	"testing"
)

// What the printed reckoning answers to "from what?", the JSON answers too.
func TestJSONHoldsEveryFigureOfThePrintedReckoning(t *testing.T) {
	r := worked(t, starterWith(t, ""), Options{})
	data, err := r.JSON()
	if err != nil {
		t.Fatal(err)
	}
	var formulas []string
	var gather func(any)
	gather = func(v any) {
		switch v := v.(type) {
		case []any:
			for _, x := range v {
				gather(x)
			}
		case map[string]any:
			if from, ok := v["from"].(string); ok {
				formulas = append(formulas, from)
			}
			for _, x := range v {
				gather(x)
			}
		}
	}
	var whole any
	if err := json.Unmarshal(data, &whole); err != nil {
		t.Fatal(err)
	}
	gather(whole)
	all := strings.Join(formulas, "\n")
	for line := range strings.SplitSeq(r.Text("cm"), "\n") {
		if from, ok := strings.CutPrefix(strings.TrimSpace(line), "from: "); ok && !strings.Contains(all, from) {
			t.Errorf("the JSON has no %q", from)
		}
	}
}
