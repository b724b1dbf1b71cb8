package plan

import (
	"strings"
	"testing"
)

// Three lengths in hand, of which the second alone holds all: the others are left
// whole. Without it, the first and the third are both needed.
func TestTheFewestLengthsAreTaken(t *testing.T) {
	p := starterWith(t, "real_cloth:\n  lengths: [{name: short, length_cm: 240}, {name: long, length_cm: 520}, {name: longer, length_cm: 900}, {name: middling, length_cm: 300}]\n")
	r := laid(t, p)
	on := func(r *Result) []string {
		var names []string
		for _, u := range r.Lengths {
			if u.UsedCM > 0 {
				names = append(names, u.Name)
			}
		}
		return names
	}
	if got := strings.Join(on(r), ", "); got != "long" {
		t.Errorf("laid on %s; want the one that holds all and has the least cloth", got)
	}
	if text := r.Text("cm"); !strings.Contains(text, "Left whole: short, 240.0 cm; longer, 900.0 cm; middling, 300.0 cm") {
		t.Error("what is left whole is not said")
	}
	p.Real.Lengths = []ClothLength{p.Real.Lengths[0], {Name: "scrap", LengthCM: 100}, p.Real.Lengths[3], p.Real.Lengths[3]}
	p.Real.Lengths[3].Name = "another"
	two := laid(t, p)
	if got := on(two); len(got) != 2 || len(two.CannotBeMade) > 0 {
		t.Errorf("laid on %v (%v); two of them hold all", got, two.CannotBeMade)
	}
	if !Shorter(r, two) || Shorter(two, r) {
		t.Error("a lay on one length does not count as better than one on two")
	}
	// What is kept stays where it is kept, and the plan opens with it.
	p.KeepLay(two)
	if _, faults := p.savedLay(two.Prepared); len(faults) > 0 {
		t.Error(faults)
	}
}
