package garment

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ellwand/geometry"
	"pgregory.net/rapid"
)

// sound checks what every garment must be: seams complete and even, outlines
// simple with every edge named, marks inside their piece, cut outlines that
// hold the finished piece.
func sound(t interface{ Errorf(string, ...any) }, g Garment) {
	for _, f := range Mismatch(g) {
		t.Errorf("%s: %s", g.Draft, f.Text)
	}
	names := map[string]bool{}
	for _, p := range g.Pieces {
		if names[p.Name] || p.Copies < 1 {
			t.Errorf("%s: piece %q is there twice or cut %d times", g.Draft, p.Name, p.Copies)
		}
		names[p.Name] = true
		if err := geometry.Validate(p.Outline); err != nil {
			t.Errorf("%s, %s: %v", g.Draft, p.Name, err)
		}
		for _, e := range p.Edges {
			if e.Name == "" || e.Finish == "" {
				t.Errorf("%s, %s: an edge without name or finish", g.Draft, p.Name)
			}
		}
		for _, m := range p.Marks {
			for _, v := range m.Line {
				if geometry.Locate(p.Outline, v) == geometry.Outside {
					box := p.Outline.Bounds()
					t.Errorf("%s, %s: mark %q at (%.2f, %.2f) lies outside a piece of %v", g.Draft, p.Name, m.Name, v.X, v.Y, box)
				}
			}
		}
		cut, err := CutOutline(p, DefaultAllowances())
		if err != nil {
			t.Errorf("%s, %s: %v", g.Draft, p.Name, err)
		} else if cut.Area() < p.Outline.Area()-1e-6 {
			t.Errorf("%s, %s: the cut outline is smaller than the piece", g.Draft, p.Name)
		}
	}
}

// leastChecks is how many checks of fit a garment has at least.
func leastChecks(draft string) int {
	switch draft {
	case "bag", "apron":
		return 3
	}
	return 4
}

// On 300 real bodies every draft comes out, sews up and fits as it stands.
func TestDraftsFitRealBodies(t *testing.T) {
	t.Logf("every draft as it stands is tried on %d bodies", len(sampleBodies(t)))
	for _, b := range sampleBodies(t) {
		for _, d := range Drafts() {
			g, err := Draft(d.Key, b, nil)
			if err != nil {
				t.Errorf("%s: %v", b.Name, err)
				continue
			}
			sound(t, g)
			notes := FitNotes(g, b)
			if len(notes) < leastChecks(d.Key) {
				t.Errorf("%s: only %d checks of fit", d.Key, len(notes))
			}
			for _, n := range notes {
				if !n.OK {
					t.Errorf("%s, %s: %v", b.Name, d.Key, n)
				}
			}
		}
	}
}

// On 30 of them, spread evenly, every option of every draft fits besides.
func TestEveryOptionFitsRealBodies(t *testing.T) {
	bodies, tried, checks := 0, 0, 0
	for i, b := range sampleBodies(t) {
		if i%10 != 0 {
			continue
		}
		bodies++
		for _, d := range Drafts() {
			for _, params := range EveryOption(d, false) {
				g, err := Draft(d.Key, b, params)
				if err != nil {
					t.Errorf("%s: %v", b.Name, err)
					continue
				}
				tried++
				for _, n := range FitNotes(g, b) {
					checks++
					if !n.OK {
						t.Errorf("%s, %s %v: %v", b.Name, d.Key, params, n)
					}
				}
			}
		}
	}
	t.Logf("%d garments tried on %d bodies, %d checks of fit", tried, bodies, checks)
	if bodies != 30 || checks < 20000 {
		t.Errorf("%d bodies and %d checks", bodies, checks)
	}
}

// With any parameters in range a draft either says why not or sews up.
func TestDraftsSewUpOrSayWhyNot(t *testing.T) {
	for _, d := range Drafts() {
		t.Run(d.Key, func(t *testing.T) {
			made := 0
			rapid.Check(t, func(t *rapid.T) {
				b, params := drawBody(t), map[string]float64{}
				for _, p := range d.Params() {
					if !rapid.Bool().Draw(t, "set "+p.Key) {
						continue
					}
					if len(p.Choices) > 0 {
						params[p.Key] = rapid.SampledFrom(p.Choices).Draw(t, p.Key).Value
					} else {
						params[p.Key] = rapid.Float64Range(p.Min, p.Max).Draw(t, p.Key)
					}
				}
				g, err := Draft(d.Key, b, params)
				if err != nil {
					if s := err.Error(); !strings.HasPrefix(s, d.Key+": ") || strings.Contains(s, "%!") || strings.Contains(s, "\n") {
						t.Fatalf("error %q is no sentence about the %s", s, d.Key)
					}
					return
				}
				made++
				sound(t, g)
			})
			if made < 30 {
				t.Errorf("only %d garments came out", made)
			}
		})
	}
}

// With its defaults a draft comes out for any plausible body.
func TestDefaultsServeAnyBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		for _, d := range Drafts() {
			g, err := Draft(d.Key, b, nil)
			if err != nil {
				t.Fatal(err)
			}
			sound(t, g)
		}
	})
}

// Every option, one at a time, on the median man and woman.
func TestEveryOptionSewsUp(t *testing.T) {
	for _, d := range Drafts() {
		for _, p := range d.Options {
			for _, c := range p.Choices {
				for _, table := range []string{"women", "men"} {
					g, err := Draft(d.Key, middle(table), map[string]float64{p.Key: c.Value})
					if err != nil {
						t.Errorf("%s with %s = %g: %v", d.Key, p.Key, c.Value, err)
						continue
					}
					sound(t, g)
				}
			}
		}
	}
}

// No parameter is idle: another value gives another garment.
func TestEveryParameterCounts(t *testing.T) {
	for _, d := range Drafts() {
		for _, p := range d.Params() {
			params := map[string]float64{}
			switch p.Key {
			case "hip_ease_cm":
				if d.Key != "trousers" {
					params["body_ease_cm"] = 2
				}
			case "centre_gore_width_cm":
				params["centre_gores"] = 1
			case "no_gusset_extra_cm":
				params["underarm_gusset"] = 0
			}
			if p.Key == "pointed_gusset_wide_cm" {
				params["underarm_gusset"] = 2
			}
			if p.Key == "cape_cm" {
				params["gore_shape"] = 1
			}
			if d.Key == "apron" && len(p.Choices) == 0 {
				params["apron_gores"], params["bib"] = 1, 1
			}
			before, err := Draft(d.Key, middle("men"), params)
			if err != nil {
				t.Fatal(err)
			}
			params[p.Key] = p.Default + (p.Max-p.Default)/8
			if len(p.Choices) > 0 {
				params[p.Key] = p.Choices[0].Value
				if p.Default == params[p.Key] {
					params[p.Key] = p.Choices[1].Value
				}
			}
			after, err := Draft(d.Key, middle("men"), params)
			if err != nil {
				t.Errorf("%s with %v: %v", d.Key, params, err)
			} else if reflect.DeepEqual(before.Pieces, after.Pieces) {
				t.Errorf("%s: %s = %g changes nothing", d.Key, p.Key, params[p.Key])
			}
		}
	}
}

func TestSameInputSameGarment(t *testing.T) {
	for _, d := range Drafts() {
		a, _ := Draft(d.Key, middle("women"), nil)
		b, _ := Draft(d.Key, middle("women"), nil)
		if !reflect.DeepEqual(a, b) {
			t.Errorf("%s differs from itself", d.Key)
		}
	}
}

func TestBadDraftsAreSentences(t *testing.T) {
	body := middle("men")
	bare := Body{CM: map[Measure]float64{HipGirth: 100}}
	wrong := middle("men")
	wrong.CM[BustGirth] = 980
	for _, c := range []struct {
		draft  string
		body   Body
		params map[string]float64
		want   string
	}{
		{"tunik", body, nil, `there is no draft "tunik" (did you mean "tunic"?)`},
		{"tunic", body, map[string]float64{"body_eese_cm": 3}, `the tunic has no parameter "body_eese_cm" (did you mean "body_ease_cm"?)`},
		{"tunic", body, map[string]float64{"body_ease_cm": 300}, "body_ease_cm is 300 cm; accepted is 2 to 45 cm"},
		{"tunic", body, map[string]float64{"body_ease_cm": math.NaN()}, "body_ease_cm is NaN cm; accepted is 2 to 45 cm"},
		{"tunic", body, map[string]float64{"side_gores": 3}, "side_gores is 3; accepted is 0 (none), 2 (one a side, isosceles) and 4"},
		{"tunic", bare, nil, "the tunic needs stature_cm"},
		{"tunic", wrong, nil, "did you mean 98 cm"},
		{"shift", body, map[string]float64{"sleeve_extra_cm": -60}, "the sleeve would be"},
	} {
		if _, err := Draft(c.draft, c.body, c.params); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %v: %v; want %s", c.draft, c.params, err, c.want)
		}
	}
}

// Worked by hand for a ferryman of invented size. Body: ½ × 98 + 12 = 61.
// Length: 151 − 49 + 10 = 112. Sleeve: 89 − 30.5 = 58.5; top 34 + 15 = 49; cuff
// 21 + 2 = 23. Gores from the waist at 47: 65 along the seam, 63.79 high
// (√(65² − 12.5²)); hem 122 + 100 = 222. Neck 42 + 4 = 46, with slit 70.
func TestFerrymansTunicByHand(t *testing.T) {
	b := Body{Table: "men", CM: map[Measure]float64{Stature: 176, BackNeckHeight: 151, KneeHeight: 49, BustGirth: 98,
		WaistGirth: 86, HipGirth: 97, NeckBaseGirth: 42, HeadGirth: 57, BackNeckToWaist: 47, ScyeDepth: 19,
		BackNeckToWrist: 89, UpperArmGirth: 34, HandGirth: 21, InsideLeg: 84, ThighGirth: 59, ShoulderLength: 15, ArmLength: 59}}
	g, err := Draft("tunic", b, map[string]float64{"body_ease_cm": 12})
	if err != nil {
		t.Fatal(err)
	}
	if len(g.Notes) != 0 {
		t.Errorf("notes %v, though all that is needed was measured", g.Notes)
	}
	for key, want := range map[string]float64{"chest_cm": 122, "length_cm": 112, "sleeve_length_cm": 58.5, "sleeve_top_cm": 49,
		"cuff_cm": 23, "side_gore_length_cm": 65, "centre_gore_length_cm": 65, "hem_girth_cm": 222, "neck_opening_cm": 46, "head_passage_cm": 70} {
		if got, ok := g.SizeCM(key); !ok || math.Abs(got-want) > 1e-9 {
			t.Errorf("%s is %g, want %g", key, got, want)
		}
	}
	for _, c := range []struct {
		piece        string
		copies       int
		length, wide float64
	}{{"body", 1, 224, 61}, {"sleeve", 2, 58.5, 49}, {"underarm gusset", 2, 10, 10}, {"side gore", 2, 63.787, 25}, {"centre gore", 2, 63.787, 25}} {
		p, ok := g.Piece(c.piece)
		box := p.Outline.Bounds()
		if !ok || p.Copies != c.copies || math.Abs(box.Width()-c.length) > 0.001 || math.Abs(box.Height()-c.wide) > 0.001 {
			t.Errorf("%s: %d of %.3f × %.3f cm, want %d of %g × %g", c.piece, p.Copies, box.Width(), box.Height(), c.copies, c.length, c.wide)
		}
	}
	body, _ := g.Piece("body")
	if l := EdgeLengthsCM(body)[neckOpening]; math.Abs(l-46) > 1e-6 {
		t.Errorf("the neck opening measures %g cm, want 46", l)
	}
}

// The median man's tunic beside surviving ones: Bocksten (about 1350: cloth of
// 230 cm over the shoulders, panel 58, hem 250, neck 82, sleeves 59.5 to 61 long,
// 53 to 55 wide at the top, 22 to 23 at the cuff), Moselund (1050-1155: length
// 124, hem 248, sleeve 53), Herjolfsnes no. 60 (panels 50, armhole 66, neck 45
// and a slit of 10). Sizes may lie a tenth outside what survives.
func TestMedianTunicIsLikeSurvivingOnes(t *testing.T) {
	g, err := Draft("tunic", middle("men"), nil)
	if err != nil {
		t.Fatal(err)
	}
	size := func(key string) float64 {
		v, ok := g.SizeCM(key)
		if !ok {
			t.Fatalf("no %s", key)
		}
		return v
	}
	for _, c := range []struct {
		what           string
		got, low, high float64
	}{
		{"length", size("length_cm"), 115, 124},
		{"panel", size("chest_cm") / 2, 50, 58},
		{"hem", size("hem_girth_cm"), 248, 250},
		{"neck with slit", size("head_passage_cm"), 65, 82},
		{"sleeve length", size("sleeve_length_cm"), 53, 61},
		{"sleeve top", size("sleeve_top_cm"), 53, 55},
		{"cuff", size("cuff_cm"), 22, 23},
		{"armhole with gusset", 2 * size("armhole_depth_cm"), 66, 66},
		{"half panel and sleeve", size("chest_cm")/4 + size("sleeve_length_cm"), 58.0/2 + 59.5, 58.0/2 + 61},
	} {
		if c.got < 0.9*c.low || c.got > 1.1*c.high {
			t.Errorf("%s %.1f cm; survivors have %g to %g cm", c.what, c.got, c.low, c.high)
		}
	}
}

// Published rules: a generous surcote is half width 75 cm on a chest of 105
// (S. Thursfield, 2001: ease 45 cm in all); the side wedge of a Russian shirt is
// its length less half the sleeve's top less the gusset of 15 cm.
func TestPublishedRulesComeOut(t *testing.T) {
	b := middle("men")
	b.CM[BustGirth] = 105
	g, err := Draft("tunic", b, map[string]float64{"body_ease_cm": 22.5, "gores_from": 0, "gusset_side_cm": 15, "hem_below_knee_cm": 6})
	if err != nil {
		t.Fatal(err)
	}
	get := func(key string) float64 { v, _ := g.SizeCM(key); return v }
	if got := get("chest_cm") / 2; math.Abs(got-75) > 1e-9 {
		t.Errorf("half width %g cm, want 75", got)
	}
	if got, want := get("side_gore_length_cm"), get("length_cm")-get("sleeve_top_cm")/2-15; math.Abs(got-want) > 1e-9 {
		t.Errorf("wedge %g cm, want %g", got, want)
	}
}

// everyChoice is a draft's parameters with each choice of each option set alone,
// with the body in one and in two where there is the choice.
func everyChoice(d DraftInfo) []map[string]float64 {
	out := []map[string]float64{nil}
	for _, p := range d.Options {
		for _, c := range p.Choices {
			out = append(out, map[string]float64{p.Key: c.Value})
			if d.Options[0].Key == "body_in_one" && p.Key != "body_in_one" {
				out = append(out, map[string]float64{p.Key: c.Value, "body_in_one": 1 - d.Options[0].Default})
			}
		}
	}
	if slices.ContainsFunc(d.Options, func(p Param) bool { return p.Key == "middle_seams" }) {
		for _, shape := range []float64{neckRound, neckSlitAcross, neckSquare} {
			for _, facing := range []float64{0, 1} {
				out = append(out, map[string]float64{"middle_seams": 1, "neck_shape": shape, "neck_facing": facing})
			}
		}
	}
	return out
}

// Allowances that people use can be cut round every piece of every option.
func TestUsualAllowancesCanBeCut(t *testing.T) {
	for _, d := range Drafts() {
		for _, params := range everyChoice(d) {
			for _, table := range []string{"women", "men"} {
				g, err := Draft(d.Key, middle(table), params)
				if err != nil {
					t.Fatal(err)
				}
				for _, a := range []Allowances{{0, 0, 0, 0}, {0.5, 1, 0, 0}, {0.7, 2, 0.5, 1}, {1, 3, 0.8, 2}, {2, 5, 1, 2}, {3, 8, 1, 5}} {
					for _, p := range g.Pieces {
						if _, err := CutOutline(p, a); err != nil {
							t.Errorf("%s of the %s with %v: %v", p.Name, d.Key, a, err)
						}
					}
				}
			}
		}
	}
}

// A choice, like a default, lies within its parameter's own limits.
func TestChoicesLieWithinTheirLimits(t *testing.T) {
	for _, d := range Drafts() {
		for _, p := range d.Params() {
			if err := p.Check(p.Default); err != nil || p.Default < p.Min || p.Default > p.Max || p.Source == "" || p.Meaning == "" {
				t.Errorf("%s: %s has the default %g from %q: %v", d.Key, p.Key, p.Default, p.Source, err)
			}
			for _, c := range p.Choices {
				if c.Value < p.Min || c.Value > p.Max {
					t.Errorf("%s: %s may be %g, but its limits are %g and %g", d.Key, p.Key, c.Value, p.Min, p.Max)
				}
			}
		}
	}
}
