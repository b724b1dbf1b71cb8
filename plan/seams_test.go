package plan

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"ellwand/assets"
)

const ownBelt = `pieces:
  - {name: belt, shape: polygon, points: [[0, 0], [90, 0], [90, 6], [0, 6]], edge_names: [lower, right end, upper, left end]}
  - {name: loop, shape: rectangle, length_cm: 9, width_cm: 6}
seams:
  - {name: left side, shows: true}
  - {name: belt to loop, piece: belt, edges: [right end], to_piece: loop, to_edges: [top]}
choices:`

func planWith(t *testing.T, text string) *Plan {
	t.Helper()
	p, err := Parse(bytes.Replace(assets.StarterPlan(), []byte("choices:"), []byte(text), 1), "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestOwnSeamsAreSewnAndKept(t *testing.T) {
	p := planWith(t, ownBelt)
	pr, err := Prepare(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range pr.Cautions {
		if strings.Contains(c, "belt to loop") {
			t.Errorf("a seam of 6 cm to 6 cm is said not to match: %s", c)
		}
	}
	var own, shows bool
	for _, s := range pr.Garment.Seams {
		own = own || s.Own && s.Name == "belt to loop"
		shows = shows || s.Shows && s.Name == "left side"
	}
	if !own || !shows {
		t.Errorf("own seam %v, seam that shows %v", own, shows)
	}
	text, err := p.Marshal()
	if err != nil || !strings.Contains(string(text), "edge_names: [lower, right end, upper, left end]") {
		t.Errorf("saving loses the names (%v):\n%s", err, text)
	}
	again, err := Parse(text, "again.yaml")
	if err != nil || len(again.Seams) != 2 || !again.Seams[0].Shows || again.Seams[1].ToEdges[0] != "top" {
		t.Errorf("read again: %v, %+v", err, again)
	}
}

// Seams whose sides differ are told, with both lengths.
func TestSeamsThatDisagreeAreTold(t *testing.T) {
	p := planWith(t, strings.Replace(ownBelt, "to_edges: [top]", "to_edges: [left side]", 1))
	pr, err := Prepare(p)
	if err != nil {
		t.Fatal(err)
	}
	if all := strings.Join(pr.Cautions, "\n"); !strings.Contains(all, "belt is 6.0 cm and left side of loop is 9.0 cm; 3.0 cm are to be eased") {
		t.Errorf("cautions %q", all)
	}
}

// A seam that a changed option has done away with is said and passed over.
func TestSeamThatIsNoLongerThereIsPassedOver(t *testing.T) {
	p := planWith(t, strings.Replace(ownBelt, "name: left side", "name: left sidee", 1))
	pr, err := Prepare(p)
	if err != nil {
		t.Fatal(err)
	}
	if all := strings.Join(pr.Cautions, "\n"); !strings.Contains(all, `did you mean "left side"?`) {
		t.Errorf("cautions %q", all)
	}
	p.ShowSeam("underarm", true)
	p.ShowSeam("left sidee", false)
	if len(p.Seams) != 2 || p.Seams[1].Name != "underarm" {
		t.Errorf("seams %+v", p.Seams)
	}
}

func TestSeamsOfNothingAreRefused(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"to_piece: loop", "to_piece: lop", `did you mean "loop"?`},
		{"[right end]", "[right ent]", `names "right ent"`},
		{"to_edges: [top]", "to_edges: []", "names no edge"},
		{"edge_names: [lower,", "edge_names: [", "a name for each"},
	} {
		_, err := Parse(bytes.Replace(assets.StarterPlan(), []byte("choices:"), []byte(strings.Replace(ownBelt, c.old, c.new, 1)), 1), "plan.yaml")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want %s", c.new, err, c.want)
		}
	}
}

// A seam that shows is never sewn by machine: 0.5 of what does not show is.
func TestSeamsThatShowAreSewnByHand(t *testing.T) {
	share := func(text string) (hand, machine float64) {
		p := planWith(t, text)
		p.Hours.MachineShare = 1
		r, err := Work(t.Context(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, task := range r.Hours.Tasks {
			switch task.Key {
			case "join":
				hand = task.Quantity
			case "join:machine":
				machine = task.Quantity
			}
		}
		return hand, machine
	}
	_, all := share("choices:")
	hand, machine := share("seams:\n  - {name: underarm, shows: true}\nchoices:")
	if hand <= 0 || math.Abs(hand+machine-all) > 1e-9 {
		t.Errorf("by hand %g m, by machine %g m, together not %g m", hand, machine, all)
	}
}

// A default is marked in the file until it is set or confirmed.
func TestDefaultsStayMarkedUntilConfirmed(t *testing.T) {
	p := planWith(t, "unconfirmed: [cloth.take_up, loom.waste_cm, cloth.draw_in]\nchoices:")
	if err := SetField(p, "cloth.take_up", "0.08"); err != nil {
		t.Fatal(err)
	}
	p.Confirm("loom.waste_cm")
	text, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse(text, "again.yaml")
	if err != nil || !again.IsDefault("cloth.draw_in") || again.IsDefault("cloth.take_up") || again.IsDefault("loom.waste_cm") {
		t.Errorf("%v: %v are marked", err, again.Unconfirmed)
	}
	again.Confirm()
	if text, _ := again.Marshal(); strings.Contains(string(text), "unconfirmed") {
		t.Error("the list stays when all is confirmed")
	}
}
