package garment

import (
	"fmt"
	"math"

	"ellwand/geometry"
)

// rectangularCloakInfo: a straight cloth round the shoulders.
func rectangularCloakInfo() DraftInfo {
	return DraftInfo{
		Key: "rectangular_cloak", Label: "Rectangular cloak",
		About: "A rectangle worn round the shoulders or pinned on one of them, its length along the warp going round the body; in one width of cloth or in several sewn edge to edge.",
		Needs: []Measure{BackNeckHeight, BustGirth, UpperArmGirth, KneeHeight, AcrossBack},
		Ease: []Param{
			lengthParam("lap_cm", "Lap in front", "added to the girth round chest and both arms", 25, 0, 120, commonPractice),
			lengthParam("hem_below_knee_cm", "Hem below the knee", "how far the lower edge hangs below the middle of the kneecap; negative is above it", 5, -60, 40, commonPractice),
		},
		Options: []Param{
			{"cloak_widths", "Widths of cloth", "lengths of cloth sewn edge to edge", "", 2, 1, 4, commonPractice, []Choice{{1, "one"}, {2, "two"}, {3, "three"}, {4, "four"}}},
			{"cloak_edges", "Upper and lower edge", "left as selvedges, or hemmed", "", 1, 0, 1, commonPractice, []Choice{{0, "selvedge"}, {1, "hemmed"}}},
		},
	}
}

// workRectangularCloak: round is chest and arms and a lap; down is from the nape
// to the hem. Worked: 98 + 4 × 33 ÷ π + 25 = 165.0; 151 − 49 + 5 = 107 cm.
func workRectangularCloak(w *worked) error {
	bust, arm, lap := w.cm(BustGirth), w.cm(UpperArmGirth), w.v["lap_cm"]
	neck, knee, below := w.cm(BackNeckHeight), w.cm(KneeHeight), w.v["hem_below_knee_cm"]
	long, down, n := shoulderedGirthCM(bust, arm)+lap, neck-knee+below, int(w.v["cloak_widths"])
	w.size("cloak_round_cm", "Cloak, round the body", long, "bust girth %g cm + 4 × upper arm girth %g cm ÷ π + %g cm lap", bust, arm, lap)
	w.size("cloak_length_cm", "Cloak, nape to lower edge", down, "back neck height %g cm − knee height %g cm + %g cm below it", neck, knee, below)
	if n > 1 {
		w.size("cloak_width_cm", "Each width of cloth", down/float64(n), "%.1f cm ÷ %d", down, n)
	}
	outer := FinishHem
	if w.v["cloak_edges"] == 0 {
		outer = FinishSelvedge
	}
	each := down / float64(n)
	if n == 1 {
		w.add(cloakWidth("cloak", 1, long, each, outer, outer))
		return nil
	}
	names := []string{"lower width"}
	w.add(cloakWidth("lower width", 1, long, each, outer, FinishSeam))
	if n > 2 {
		names = append(names, "middle width")
		w.add(cloakWidth("middle width", n-2, long, each, FinishSeam, FinishSeam))
	}
	names = append(names, "upper width")
	w.add(cloakWidth("upper width", 1, long, each, FinishSeam, outer))
	for i := 1; i < len(names); i++ {
		w.sew(names[i-1]+" to "+names[i], names[i-1], "upper edge", names[i], "lower edge", 1)
	}
	if n > 3 {
		w.sew("middle widths", "middle width", "upper edge", "middle width", "lower edge", n-3)
	}
	return nil
}

func cloakWidth(name string, copies int, long, wide float64, lower, upper Finish) Piece {
	points, edges := startAt(0, 0).
		to(long, 0, "lower edge", lower).
		to(long, wide, "right front", FinishHem).
		to(0, wide, "upper edge", upper).
		close("left front", FinishHem)
	return Piece{Name: name, Copies: copies, Grain: GrainWarp, Outline: points, Edges: edges}
}

// halfCircleCloakInfo: half a circle with the neck cut out of its middle.
func halfCircleCloakInfo() DraftInfo {
	return DraftInfo{
		Key: "half_circle_cloak", Label: "Half-circle cloak",
		About: "Half a circle whose straight edge falls down both sides of the front, the neck cut out of its middle. Whole, it needs cloth as wide as the cloak is long; otherwise it is pieced of widths of cloth, the seams along the warp.",
		Needs: []Measure{BackNeckHeight, BustGirth, UpperArmGirth, NeckBaseGirth, BackNeckToWaist, KneeHeight},
		Ease: []Param{
			lengthParam("hem_below_knee_cm", "Hem below the knee", "how far the hem hangs below the middle of the kneecap; negative is above it", 10, -60, 40, commonPractice),
			lengthParam("neck_ease_cm", "Ease of the neck", "added to the girth of the neck's base for the curve of the neck", 4, 0, 40, commonPractice),
			lengthParam("neck_turning_cm", "Turning of the neck", "allowance along the neck", 1, 0, 3, "common practice: 1 cm, a plain seam"),
		},
		Options: []Param{
			{"cloak_widths", "Widths of cloth", "whole, or pieced of widths of cloth", "", 3, 1, 6, commonPractice, []Choice{{1, "whole"}, {2, "two"}, {3, "three"}, {4, "four"}, {5, "five"}, {6, "six"}}},
			{"hem_finish", "Hem", "left raw on firm fulled cloth, or turned up", "", 1, 0, 1, "a published half-circle cloak leaves firm cloth raw", []Choice{{0, "raw"}, {1, "hemmed"}}},
		},
	}
}

// halfCircle is a half-circle cloak: centre of the circle at (radius, 0), the
// straight edge along y = 0, the wearer's right at x = 0.
type halfCircle struct {
	*worked
	radiusCM, neckRadiusCM, eachCM float64
	widths                         int
	hem                            Finish
}

// workHalfCircleCloak: the neck's half circle is the neck base and ease; the
// cloak's radius is the neck's and the length from nape to hem. Worked: neck
// 42 + 4 = 46 = π × 14.64; nape to hem 151 − 49 + 10 = 112; radius 126.64 cm.
func workHalfCircleCloak(w *worked) error {
	base, ease := w.cm(NeckBaseGirth), w.v["neck_ease_cm"]
	neck, knee, below := w.cm(BackNeckHeight), w.cm(KneeHeight), w.v["hem_below_knee_cm"]
	length := neck - knee + below
	c := &halfCircle{worked: w, neckRadiusCM: (base + ease) / math.Pi, widths: int(w.v["cloak_widths"]), hem: FinishHem}
	if w.v["hem_finish"] == 0 {
		c.hem = FinishRaw
	}
	c.radiusCM = c.neckRadiusCM + length
	c.eachCM = c.radiusCM / float64(c.widths)
	w.size("cloak_length_cm", "Cloak, nape to hem", length, "back neck height %g cm − knee height %g cm + %g cm below it", neck, knee, below)
	w.size("cloak_neck_cm", "Neck", base+ease, "neck base girth %g cm + %g cm ease", base, ease)
	w.size("cloak_neck_radius_cm", "Radius of the neck", c.neckRadiusCM, "neck %.1f cm ÷ π", base+ease)
	w.size("cloak_radius_cm", "Radius of the hem", c.radiusCM, "neck radius %.1f cm + length %.1f cm", c.neckRadiusCM, length)
	w.size("cloak_hem_cm", "Hem", math.Pi*c.radiusCM, "π × radius %.1f cm", c.radiusCM)
	for wanted := c.widths; c.widths > 1 && c.eachCM < c.neckRadiusCM+4; {
		c.widths--
		c.eachCM = c.radiusCM / float64(c.widths)
		if c.eachCM >= c.neckRadiusCM+4 {
			w.note("The cloak is pieced of %d widths instead of %d, which would be too narrow for the neck.", c.widths, wanted)
		}
	}
	if c.eachCM < c.neckRadiusCM+4 {
		return fmt.Errorf("the cloak would be %.1f cm from straight edge to hem, too short for a neck of radius %.1f cm; accepted is a lower hem", c.eachCM, c.neckRadiusCM)
	}
	for k := range c.widths {
		if err := c.addWidth(k); err != nil {
			return err
		}
	}
	for k := 1; k < c.widths; k++ {
		w.sew(c.name(k-1)+" to "+c.name(k), c.name(k-1), "outer seam", c.name(k), "inner seam", 1)
	}
	return nil
}

func (c *halfCircle) name(k int) string {
	if c.widths == 1 {
		return "cloak"
	}
	return fmt.Sprintf("width %d from the neck", k+1)
}

// addWidth makes the k-th width from the straight edge. Seen from behind, right
// side out, x = 0 is at the wearer's right.
func (c *halfCircle) addWidth(k int) error {
	r, low, high := c.radiusCM, float64(k)*c.eachCM, float64(k+1)*c.eachCM
	from, to := math.Asin(low/r)*180/math.Pi, math.Asin(min(1, high/r))*180/math.Pi
	half := math.Sqrt(max(0, r*r-low*low))
	o := startAt(r-half, low)
	if k == 0 {
		if err := c.walkNeck(o); err != nil {
			return err
		}
	} else {
		o.to(r+half, low, "inner seam", FinishSeam)
	}
	if k == c.widths-1 {
		if err := o.arc(geometry.Point{X: r}, r, from, 180-from, "hem", c.hem, true); err != nil {
			return err
		}
	} else {
		if err := o.arc(geometry.Point{X: r}, r, from, to, "left hem", c.hem, false); err != nil {
			return err
		}
		top := math.Sqrt(max(0, r*r-high*high))
		o.to(r-top, high, "outer seam", FinishSeam)
		if err := o.arc(geometry.Point{X: r}, r, 180-to, 180-from, "right hem", c.hem, true); err != nil {
			return err
		}
	}
	points := o.points[:len(o.points)-1]
	c.add(Piece{Name: c.name(k), Copies: 1, Grain: GrainWarp, Outline: points, Edges: c.turnedNeck(o.edges)})
	return nil
}

// walkNeck goes along the straight edge and round the neck to the other end.
func (c *halfCircle) walkNeck(o *outline) error {
	r, n := c.radiusCM, c.neckRadiusCM
	o.to(r-n, 0, "right front", FinishHem)
	if err := o.arc(geometry.Point{X: r}, n, 180, 0, "neck", FinishHem, false); err != nil {
		return err
	}
	o.to(2*r, 0, "left front", FinishHem)
	return nil
}

func (c *halfCircle) turnedNeck(edges []Edge) []Edge {
	turning := c.v["neck_turning_cm"]
	for i := range edges {
		if edges[i].Name == "neck" {
			edges[i].AllowanceCM = &turning
		}
	}
	return edges
}

// arc walks along an arc about a centre, from and to in degrees; back says that
// its end is the outline's first point, which is then repeated as its last.
func (o *outline) arc(centre geometry.Point, radius, from, to float64, name string, f Finish, back bool) error {
	// A small curve is cut finer, so that its chords do not show.
	pts, err := geometry.Arc(centre, radius, from, to, max(0.002, min(ArcToleranceCM, radius/1000)))
	if err != nil {
		return err
	}
	for i, p := range pts[1:] {
		if back && i == len(pts)-2 {
			p = o.points[0]
		}
		o.to(p.X, p.Y, name, f)
	}
	return nil
}

// cloak: it goes round, and does not drag.
func (f *fitter) cloak() {
	length, neck, ok := f.have("cloak_length_cm", BackNeckHeight)
	bust, ok2 := f.b.CM[BustGirth]
	arm, ok3 := f.b.CM[UpperArmGirth]
	if !ok || !ok2 || !ok3 {
		return
	}
	f.check("cloak clear of the floor", neck, length+2, "back neck height", "cloak's length and 2 cm", "the hem hangs 2 cm or more above the floor", commonPractice)
	round := shoulderedGirthCM(bust, arm)
	if s, found := f.g.SizeCM("cloak_round_cm"); found {
		f.check("cloak round chest and arms", s, round, "cloak", "chest with both arms", "the cloak goes round the bust girth and four thicknesses of an arm", "geometry of a tape round three bodies")
	}
	if s, b, found := f.have("cloak_round_cm", AcrossBack); found {
		f.check("cloak over both shoulders", s, 3*b, "cloak", "three times across the back", "the cloak covers the back and both fronts", commonPractice)
	}
	if s, b, found := f.have("cloak_length_cm", BackNeckToWaist); found {
		f.check("cloak over the waist", s, b, "cloak's length", "nape to waist", "the cloak reaches the waist at least", commonPractice)
	}
	if s, b, found := f.have("cloak_neck_cm", NeckBaseGirth); found {
		f.check("neck in the cloak", s, b, "cloak's neck", "neck base girth", "the curve of the neck is at least the neck's base", commonPractice)
	}
	radius, waist, found := f.have("cloak_neck_radius_cm", BackNeckToWaist)
	if found {
		f.check("half circle round chest and arms", math.Pi*(radius+waist), round, "half circle at the waist's height", "chest with both arms",
			"π times the neck's radius and the length from nape to waist is at least the bust girth and four thicknesses of an arm", "geometry of a half circle")
	}
}
