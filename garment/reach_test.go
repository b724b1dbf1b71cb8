package garment

import (
	"math"
	"strings"
	"testing"
)

// Worked by hand. Shoulders 15, neck base 43.3, arm 35.7 cm: see overShouldersCM.
func TestLoopOverShouldersByHand(t *testing.T) {
	if got := overShouldersCM(15, 43.3, 35.7); math.Abs(got-100.55) > 0.05 {
		t.Errorf("%.2f cm, want 100.55", got)
	}
}

// A body too narrow for the shoulders is made wider, and said to be.
func TestBodyGoesOverBroadShoulders(t *testing.T) {
	b := handBody()
	b.CM[BustGirth], b.CM[WaistGirth], b.CM[HipGirth], b.CM[ShoulderLength], b.CM[ArmLength] = 90, 70, 85, 20, 59
	for _, draft := range []string{"tunic", "overdress"} {
		g, err := Draft(draft, b, map[string]float64{"body_ease_cm": 2})
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := g.SizeCM("chest_cm"); math.Abs(got-overShouldersCM(20, 42, 33)) > 1e-9 || !strings.Contains(strings.Join(g.Notes, " "), "over the shoulders") {
			t.Errorf("%s: %.1f cm round, notes %q", draft, got, g.Notes)
		}
	}
}

// Worked by hand. A shift of 118 cm round, its hem 25 cm above the floor. A step at
// height h takes 2 × 0.45 × 176 × (84 − h) ÷ 84 cm and the calf, 38 cm, below the
// knee at 49 cm, then the thigh, 59 cm: at 25 + 17 = 42 cm 117.2 cm, one lower 119.1.
func TestSidesStayOpenForAStep(t *testing.T) {
	g := draftOf(t, "shift", map[string]float64{"side_gores": 0})
	sizesAre(t, g, map[string]float64{"vent_cm": 17, "vent_girth_cm": 118})
	body, _ := g.Piece("body")
	for _, e := range EdgeFinishes(body) {
		if e.Name == "left front vent" && (e.Finish != FinishHem || math.Abs(e.CM-17) > 1e-9) {
			t.Errorf("the open side is %v", e)
		}
	}
	if cm := EdgeLengthsCM(body)["right back vent"]; math.Abs(cm-17) > 1e-9 {
		t.Errorf("the right side behind is open for %g cm", cm)
	}
	if g := draftOf(t, "overdress", map[string]float64{"side_gores": 0, "centre_gores": 2}); g.Pieces[0].Name == "" {
		t.Error("no overdress")
	}
}

// Side gores too narrow for a step are made wider, in half cm, and said to be.
func TestGoresAreWideEnoughForAStep(t *testing.T) {
	g := draftOf(t, "shift", map[string]float64{"side_gores": 2, "side_gore_width_cm": 5})
	hem, _ := g.SizeCM("hem_girth_cm")
	need := 2*0.45*176*(84-25)/84.0 + 38
	if hem < need || hem > need+1 || !strings.Contains(strings.Join(g.Notes, " "), "lets a step through") {
		t.Errorf("hem %.1f cm, a step needs %.1f; notes %q", hem, need, g.Notes)
	}
}

// A sleeve too short for an arm raised is made longer.
func TestSleeveReachesARaisedArm(t *testing.T) {
	b := handBody()
	b.CM[ArmLength], b.CM[ScyeDepth] = 70, 14
	g, err := Draft("coat", b, map[string]float64{"body_ease_cm": 30})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.Join(g.Notes, " "), "so that an arm can be raised") {
		t.Errorf("notes %q", g.Notes)
	}
	for _, n := range FitNotes(g, b) {
		if n.Key == "arm raised" && !n.OK {
			t.Error(n)
		}
	}
}
