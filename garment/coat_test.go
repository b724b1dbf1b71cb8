package garment

import (
	"math"
	"strings"
	"testing"
)

// Worked by hand. Body ½ × 98 + 14 = 63; fronts 31.5 + lap 4 = 35.5; length 151 −
// 49 + 5 = 107; gores from the waist at 46: 61 along the seam. Sleeve 89 − 31.5 =
// 57.5; top 33 + 18 = 51, cuff 21 + 6 = 27. Hem 126 + 8 + 4 × 25 + 25 = 259.
func TestCoatByHand(t *testing.T) {
	g := draftOf(t, "coat", nil)
	sizesAre(t, g, map[string]float64{"chest_cm": 126, "length_cm": 107, "side_gore_length_cm": 61, "sleeve_length_cm": 57.5, "sleeve_top_cm": 51, "cuff_cm": 27, "hem_girth_cm": 259})
	piecesAre(t, g, map[string]box{"front": {2, 107, 35.5}, "back": {2, 107, 31.5}, "sleeve": {2, 57.5, 51}, "underarm gusset": {2, 10, 10},
		"side half-gore": {4, 61, 25}, "centre gore": {1, math.Sqrt(61*61 - 12.5*12.5), 25}})
	if _, ok := g.SizeCM("head_passage_cm"); ok {
		t.Error("a coat that is open in front has a passage for the head")
	}
	front, _ := g.Piece("front")
	neck := EdgeLengthsCM(front)["neck"] - 4
	back, _ := g.Piece("back")
	if whole := 2*neck + 2*EdgeLengthsCM(back)["neck"]; math.Abs(whole-46) > 0.01 {
		t.Errorf("the neck without its laps measures %.3f cm, want 42 + 4", whole)
	}
	if l := EdgeLengthsCM(back); math.Abs(l["centre gore seam"]-61) > 1e-9 || math.Abs(l["centre back"]-(107-2-61)) > 1e-9 {
		t.Errorf("the seam down the back is %v", l)
	}
	whole := draftOf(t, "coat", map[string]float64{"back_seam": 0})
	if p, _ := whole.Piece("back"); p.Copies != 1 || math.Abs(p.Outline.Bounds().Height()-63) > 1e-9 {
		t.Errorf("a back without seam is %v", p.Outline.Bounds())
	}
	one := draftOf(t, "coat", map[string]float64{"body_in_one": 1})
	piecesAre(t, one, map[string]box{"body": {1, 214, 63}, "sleeve": {2, 57.5, 51}, "underarm gusset": {2, 10, 10},
		"side half-gore": {4, 61, 25}, "centre gore": {1, math.Sqrt(61*61 - 12.5*12.5), 25}})
	body, _ := one.Piece("body")
	found := false
	for _, m := range body.Marks {
		if m.Name == "front opening" {
			found = true
			top := 107 - m.Line[1].X
			if m.Line[0].X != 0 || top < 3 || top > 12 {
				t.Errorf("the front is cut from %.1f to %.1f cm below the shoulder", m.Line[0].X, top)
			}
		}
	}
	if !found || !strings.Contains(body.Note, "front open") {
		t.Error("the body in one is not cut open in front")
	}
}

// Worked by hand. Body ½ × 98 + 8 = 57, but 98 + 6 round the hips needs only 52;
// length 151 − 5 = 146; gores from the waist 100 along the seam; hem 114 + 4 × 30 +
// 2 × 25 = 284; sleeve 89 − 28.5 = 60.5, top 45, cuff 23.
func TestGownByHand(t *testing.T) {
	g := draftOf(t, "gown", nil)
	sizesAre(t, g, map[string]float64{"chest_cm": 114, "length_cm": 146, "side_gore_length_cm": 100, "hem_girth_cm": 284, "sleeve_length_cm": 60.5, "sleeve_top_cm": 45, "cuff_cm": 23})
	piecesAre(t, g, map[string]box{"body": {1, 292, 57}, "sleeve": {2, 60.5, 45}, "underarm gusset": {2, 10, 10},
		"side half-gore": {4, 100, 30}, "centre gore": {2, math.Sqrt(100*100 - 12.5*12.5), 25}, "neck facing": {1, 0, 0}}, "neck facing")
}

// The median woman's gown beside Herjolfsnes no. 60: panels 50 cm each, waist 110
// to 112 cm, armhole 66, neck 45 and a slit of 10 cm.
func TestMedianGownIsLikeHerjolfsnes(t *testing.T) {
	g, err := Draft("gown", middle("women"), nil)
	if err != nil {
		t.Fatal(err)
	}
	size := func(key string) float64 { v, _ := g.SizeCM(key); return v }
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"panel", size("chest_cm") / 2, 50},
		{"waist", size("chest_cm"), 111},
		{"armhole", 2 * size("armhole_depth_cm"), 66},
		{"neck", size("neck_opening_cm"), 45},
		{"neck with slit", size("head_passage_cm"), 65},
	} {
		if math.Abs(c.got-c.want) > 0.1*c.want {
			t.Errorf("%s %.1f cm, the survivor's %.0f", c.what, c.got, c.want)
		}
	}
}

// Worked by hand. A strip as wide as the cuff, 23 cm, and gores of (49 − 23) ÷ 2 =
// 13 cm: at the armhole they make 23 + 2 × 13 = 49 cm again.
func TestGoredSleeveByHand(t *testing.T) {
	b := handBody()
	b.CM[UpperArmGirth] = 34
	g, err := Draft("tunic", b, map[string]float64{"sleeve_shape": 2, "body_ease_cm": 12})
	if err != nil {
		t.Fatal(err)
	}
	sleeve, _ := g.Piece("sleeve")
	gore, ok := g.Piece(sleeveGore)
	lengths := EdgeLengthsCM(gore)
	if w := sleeve.Outline.Bounds().Height(); !ok || math.Abs(w-23) > 1e-9 || gore.Copies != 4 || math.Abs(lengths["top"]-13) > 1e-9 || math.Abs(lengths["gusset seam"]-10) > 1e-9 {
		t.Errorf("sleeve %.2f wide, %d gores with edges %v", w, gore.Copies, lengths)
	}
	if len(Mismatch(g)) != 0 {
		t.Error(Mismatch(g))
	}
}

// Worked by hand. Opening 42 + 4 = 46: a slit is 23 wide; a square is 2 × 0.19 × 46
// = 17.48 wide and 23 − 17.48 − 2 = 3.52 deep in front.
func TestNeckShapesByHand(t *testing.T) {
	for shape, want := range map[float64][2]float64{neckSlitAcross: {23, 0}, neckSquare: {17.48, 5.52}} {
		for _, one := range []float64{0, 1} {
			g := draftOf(t, "shift", map[string]float64{"neck_shape": shape, "body_in_one": one})
			p, _ := g.Piece("neck facing")
			low, high := p.Marks[0].Line[0], p.Marks[0].Line[0]
			for _, v := range p.Marks[0].Line {
				low.X, low.Y, high.X, high.Y = min(low.X, v.X), min(low.Y, v.Y), max(high.X, v.X), max(high.Y, v.Y)
			}
			if math.Abs(high.Y-low.Y-want[0]) > 1e-6 || math.Abs(high.X-low.X-want[1]) > 1e-6 {
				t.Errorf("shape %g: opening %.2f × %.2f cm, want %v", shape, high.Y-low.Y, high.X-low.X, want)
			}
			if l := EdgeLengthsCM(p)[neckOpening]; math.Abs(l-46) > 1e-6 {
				t.Errorf("shape %g: opening of %.2f cm, want 46", shape, l)
			}
		}
	}
}

// Worked by hand. Sides of 10 cm and 12 cm across: 2 × √(10² − 6²) = 16 cm long.
func TestPointedGussetByHand(t *testing.T) {
	g := draftOf(t, "shift", map[string]float64{"underarm_gusset": 2, "pointed_gusset_wide_cm": 12})
	p, _ := g.Piece("underarm gusset")
	if b := p.Outline.Bounds(); math.Abs(b.Width()-16) > 1e-9 || math.Abs(b.Height()-12) > 1e-9 {
		t.Errorf("the gusset is %.2f × %.2f cm, want 16 × 12", b.Width(), b.Height())
	}
	if _, err := Draft("shift", handBody(), map[string]float64{"underarm_gusset": 2, "pointed_gusset_wide_cm": 20}); err == nil || !strings.Contains(err.Error(), "pointed gusset") {
		t.Errorf("a gusset with nothing left of it: %v", err)
	}
}

// Worked by hand. Neck 30 + 4 = 34 and head 62 + 2 = 64: the slit has to be 15 cm,
// not 12; a neck wanted without slit keeps none.
func TestSlitLetsALargeHeadThrough(t *testing.T) {
	b := handBody()
	b.CM[NeckBaseGirth], b.CM[HeadGirth] = 30, 62
	for slit, want := range map[float64]float64{12: 64, 18: 70, 0: 34} {
		g, err := Draft("tunic", b, map[string]float64{"neck_slit_cm": slit})
		if err != nil {
			t.Fatal(err)
		}
		sizesAre(t, g, map[string]float64{"head_passage_cm": want})
		told := strings.Contains(strings.Join(g.Notes, " "), "15.0 cm long instead of 12 cm")
		if told != (slit == 12) {
			t.Errorf("slit %g cm: notes %q", slit, g.Notes)
		}
	}
}

// Worked by hand. The ferryman's body of 59 cm (½ × 98 + 10) in halves of 29.5;
// length 151 − 49 + 10 = 112; from the top of the gores, 66 up from the hem, the
// front is sewn up to the end of the slit.
func TestBodyInHalvesByHand(t *testing.T) {
	for _, facing := range []float64{0, 1} {
		g := draftOf(t, "tunic", map[string]float64{"middle_seams": 1, "neck_facing": facing})
		for _, face := range []string{"front", "back"} {
			p, ok := g.Piece(face)
			if b := p.Outline.Bounds(); !ok || p.Copies != 2 || math.Abs(b.Width()-112) > 1e-9 || math.Abs(b.Height()-29.5) > 1e-9 {
				t.Errorf("%s: %d of %.2f × %.2f cm, want 2 of 112 × 29.5", face, p.Copies, b.Width(), b.Height())
			}
			l := EdgeLengthsCM(p)
			if math.Abs(l["centre gore seam"]-66) > 1e-9 || face == "back" && math.Abs(l["centre back"]-(112-2-66)) > 1e-9 || face == "front" && math.Abs(l[neckSlit]-12) > 1e-9 {
				t.Errorf("%s: edges %v", face, l)
			}
		}
	}
}
