package garment

import (
	"fmt"
	"math"
	"strings"

	"ellwand/geometry"
)

// hoodInfo: a rectangle folded behind the head, gores that widen it over the
// shoulders.
func hoodInfo() DraftInfo {
	return DraftInfo{
		Key: "hood", Label: "Hood with shoulder gores",
		About: "A rectangle folded behind the head and sewn over the crown and under the chin; gores in front and behind, or over the shoulders, widen its lower part to a cape.",
		Needs: []Measure{Stature, BackNeckHeight, HeadGirth, NeckGirth, BustGirth},
		Ease: []Param{
			lengthParam("head_ease_cm", "Ease round the head", "added to the head girth for the hood's width", 3, 0, 20, "from memory: 2 to 4 cm"),
			lengthParam("crown_ease_cm", "Ease over the crown", "added to stature less back neck height, for the part from the crown to the gores", 8, 2, 25, commonPractice),
			lengthParam("chin_seam_cm", "Seam under the chin", "from the gore, or from the hem without one in front, up to the face opening", 6, 2, 20, commonPractice),
			lengthParam("shoulder_ease_cm", "Ease over the shoulders", "added to the bust girth for the hem, straight across the gores", 30, 5, 90, commonPractice+"; near the Skjoldehamn hood, whose hem is about 138 cm"),
			lengthParam("cape_cm", "Depth of the cape", "from the head's part to the hem, with triangular gores; square ones make it as deep as their side", 30, 12, 70, commonPractice),
		},
		Options: []Param{
			{"gore_shape", "Shape of the gores", "squares set in by one corner, or triangles", "", 0, 0, 1, commonPractice, []Choice{{0, "square, on its corner"}, {1, "triangular"}}},
			yesNo("hood_in_one", "Hood in one", "one piece folded behind the head; otherwise two halves with a seam there, for narrow cloth", 1, commonPractice),
			{"gores_at", "Gores are set", "in front and behind, over both shoulders, or in all four places", "", 0, 0, 2, commonPractice, []Choice{{0, "front and back"}, {1, "shoulders"}, {2, "all four"}}},
		},
	}
}

// hood is the draft being worked out. The main piece has its hem at x = 0, the
// wearer's left front edge at y = 0 and the fold behind the head in its middle.
type hood struct {
	*worked
	wideCM, headCM  float64 // round the head; crown to the gores' upper end
	capeCM          float64 // the gores' upper end to the hem
	goreSideCM      float64
	goreWideCM      float64 // straight across the hem
	goreCount       int
	inFront, onSide bool
}

// workHood: Worked: head 57 + 3 = 60 round; hem 98 + 30 = 128, so two gores of
// 34 across, squares of 34 ÷ √2 = 24.04; crown to gore 176 − 151 + 8 = 33; in
// all 57.04 long; face opening 33 − 6 = 27.
func workHood(w *worked) error {
	h := &hood{worked: w, inFront: w.v["gores_at"] != 1, onSide: w.v["gores_at"] != 0, goreCount: 2}
	if h.inFront && h.onSide {
		h.goreCount = 4
	}
	if err := h.measure(); err != nil {
		return err
	}
	if h.v["hood_in_one"] == 1 {
		h.add(h.main())
	} else {
		h.addHalf()
	}
	return h.addGores()
}

func (h *hood) measure() error {
	head, stature, neck := h.cm(HeadGirth), h.cm(Stature), h.cm(BackNeckHeight)
	h.wideCM = head + h.v["head_ease_cm"]
	h.headCM = stature - neck + h.v["crown_ease_cm"]
	hem := h.cm(BustGirth) + h.v["shoulder_ease_cm"]
	h.goreWideCM = (hem - h.wideCM) / float64(h.goreCount)
	if h.goreWideCM < 4 {
		return fmt.Errorf("each gore would be %.1f cm across; accepted is 4 cm or more, by a larger shoulder_ease_cm", h.goreWideCM)
	}
	face := h.headCM - h.v["chin_seam_cm"]
	if face < 14 {
		return fmt.Errorf("the face opening would be %.1f cm high; accepted is 14 cm or more, by a smaller chin_seam_cm or a larger crown_ease_cm", face)
	}
	h.goreSideCM = h.goreWideCM / math.Sqrt2
	capeFrom := fmt.Sprintf("gore %.1f cm across ÷ √2", h.goreWideCM)
	if h.v["gore_shape"] == 1 {
		h.goreSideCM = max(h.v["cape_cm"], 0.75*h.goreWideCM)
		capeFrom = "as wanted (cape_cm)"
		if h.goreSideCM > h.v["cape_cm"] {
			capeFrom = fmt.Sprintf("0.75 × gore %.1f cm across", h.goreWideCM)
			h.note("The cape is %.1f cm deep instead of %g cm, or its gores would be too blunt.", h.goreSideCM, h.v["cape_cm"])
		}
	}
	h.capeCM = h.goreSideCM
	h.size("hood_round_cm", "Hood, round the head", h.wideCM, "head girth %g cm + %g cm ease", head, h.v["head_ease_cm"])
	h.size("hood_head_cm", "Crown to the gores", h.headCM, "stature %g cm − back neck height %g cm + %g cm ease", stature, neck, h.v["crown_ease_cm"])
	h.size("hood_face_cm", "Face opening, height", face, "%.1f cm − seam under the chin %g cm", h.headCM, h.v["chin_seam_cm"])
	h.size("hood_gore_cm", "Gore, along its seam", h.goreSideCM, "%s", capeFrom)
	h.size("hood_length_cm", "Hood, crown to hem", h.headCM+h.capeCM, "%.1f cm + cape %.1f cm", h.headCM, h.capeCM)
	h.size("hood_hem_cm", "Hem, straight across the gores", hem, "bust girth %g cm + %g cm ease", h.cm(BustGirth), h.v["shoulder_ease_cm"])
	return nil
}

func (h *hood) main() Piece {
	length, wide := h.headCM+h.capeCM, h.wideCM
	gored := 0.0
	if h.inFront {
		gored = h.goreSideCM
	}
	chin := h.capeCM + h.v["chin_seam_cm"]
	points, edges := startAt(0, 0).
		to(gored, 0, "right gore seam", FinishSeam).
		to(chin, 0, "right chin seam", FinishSeam).
		to(length, 0, "right face edge", FinishHem).
		to(length, wide/2, "right crown", FinishSeam).
		to(length, wide, "left crown", FinishSeam).
		to(chin, wide, "left face edge", FinishHem).
		to(gored, wide, "left chin seam", FinishSeam).
		to(0, wide, "left gore seam", FinishSeam).
		close("hem", FinishHem)
	p := Piece{Name: "hood", Copies: 1, Grain: GrainFree, Outline: points, Edges: edges}
	for _, name := range h.slits() {
		p.Marks = append(p.Marks, h.slit(name))
	}
	p.Marks = append(p.Marks, Mark{"fold behind the head", MarkFold, []geometry.Point{{X: h.capeCM, Y: wide / 2}, {X: length, Y: wide / 2}}, false, ""})
	p.Note = fmt.Sprintf("Cut slits of %.1f cm for the gores; fold in the middle.", h.goreSideCM)
	h.sew("crown", "hood", "left crown", "hood", "right crown", 1)
	h.sew("chin", "hood", "left chin seam", "hood", "right chin seam", 1)
	return p
}

// addHalf: the wearer's right half with its front edge at y = 0; the left one is
// cut mirrored.
func (h *hood) addHalf() {
	length, wide, front := h.headCM+h.capeCM, h.wideCM/2, 0.0
	back := 0.0
	if h.inFront {
		front, back = h.goreSideCM, h.goreSideCM
	}
	chin := h.capeCM + h.v["chin_seam_cm"]
	points, edges := startAt(0, 0).
		to(front, 0, "front gore seam", FinishSeam).
		to(chin, 0, "chin seam", FinishSeam).
		to(length, 0, "face edge", FinishHem).
		to(length, wide, "crown", FinishSeam).
		to(back, wide, "back seam", FinishSeam).
		to(0, wide, "back gore seam", FinishSeam).
		close("hem", FinishHem)
	p := Piece{Name: "hood half", Copies: 2, Mirrored: true, Grain: GrainFree, Outline: points, Edges: edges}
	if h.onSide {
		line := []geometry.Point{{Y: wide / 2}, {X: h.goreSideCM, Y: wide / 2}}
		p.Marks = []Mark{{"shoulder gore slit", MarkCut, line, false, FinishSeam}}
		p.Note = fmt.Sprintf("Cut a slit of %.1f cm for the shoulder gore.", h.goreSideCM)
	}
	h.add(p)
	for _, edge := range []string{"crown", "chin seam", "back seam"} {
		h.sew(strings.TrimSuffix(edge, " seam"), p.Name, edge, p.Name, edge, 1)
	}
}

// sewHalves sews the gores to the halves of a hood.
func (h *hood) sewHalves() {
	for _, side := range []string{"left", "right"} {
		if h.inFront {
			h.sew("front gore, "+side, "hood half", "front gore seam", "gore", side+" side", 1)
			h.sew("back gore, "+side, "hood half", "back gore seam", "gore", side+" side", 1)
		}
	}
	if h.onSide {
		left, right := Mark{Name: "shoulder gore slit"}.Lips()
		h.sew("shoulder gores, left", "hood half", left, "gore", "left side", 2)
		h.sew("shoulder gores, right", "hood half", right, "gore", "right side", 2)
	}
}

// slits are the places of the gores that are set into a slit.
func (h *hood) slits() []string {
	var out []string
	if h.inFront {
		out = append(out, "back")
	}
	if h.onSide {
		out = append(out, "left shoulder", "right shoulder")
	}
	return out
}

func (h *hood) slit(where string) Mark {
	y := map[string]float64{"back": 0.5, "left shoulder": 0.75, "right shoulder": 0.25}[where] * h.wideCM
	return Mark{where + " gore slit", MarkCut, []geometry.Point{{Y: y}, {X: h.goreSideCM, Y: y}}, false, FinishSeam}
}

// addGores: two sides of each go into the hood; its others are hem.
func (h *hood) addGores() error {
	gore, err := isosceles("gore", h.goreCount, h.goreSideCM, h.goreWideCM, "left side", "right side")
	if h.v["gore_shape"] == 0 {
		s := h.goreSideCM
		points, edges := startAt(0, 0).
			to(s, 0, "left hem", FinishHem).
			to(s, s, "left side", FinishSeam).
			to(0, s, "right side", FinishSeam).
			close("right hem", FinishHem)
		gore, err = Piece{Name: "gore", Copies: h.goreCount, Grain: GrainFree, Outline: points, Edges: edges,
			Note: "The corner between left and right side goes to the end of the slit."}, nil
	}
	if err != nil {
		return err
	}
	gore.Mirrored = false
	h.add(gore)
	if h.v["hood_in_one"] == 0 {
		h.sewHalves()
		return nil
	}
	if h.inFront {
		h.sew("front gore, left", "hood", "left gore seam", "gore", "left side", 1)
		h.sew("front gore, right", "hood", "right gore seam", "gore", "right side", 1)
	}
	for _, where := range h.slits() {
		left, right := h.slit(where).Lips()
		h.sew(where+" gore, left", "hood", left, "gore", "left side", 1)
		h.sew(where+" gore, right", "hood", right, "gore", "right side", 1)
	}
	return nil
}

// hood: the head goes through, the face shows, the hem lies on the shoulders.
func (f *fitter) hood() {
	round, head, ok := f.have("hood_round_cm", HeadGirth)
	if !ok {
		return
	}
	f.check("head through the hood", round, head+2, "hood below the chin", "head girth with room", "closed under the chin it is at least the head girth and 2 cm", "from memory: 2 to 4 cm")
	if s, b, ok := f.have("hood_round_cm", NeckGirth); ok {
		f.check("neck in the hood", s, b+4, "hood below the chin", "neck girth with room", "the hood is at least the neck girth and 4 cm", commonPractice)
	}
	if s, b, ok := f.have("hood_hem_cm", BustGirth); ok {
		f.check("shoulders in the hem", s, b+4, "hem straight across its gores", "bust girth with room", "the hem, which lies above the arms, is at least the bust girth and 4 cm", commonPractice)
	}
	stature, ok := f.b.CM[Stature]
	s, neck, ok2 := f.have("hood_head_cm", BackNeckHeight)
	if ok && ok2 {
		f.check("crown in the hood", s, stature-neck+2, "crown to the gores", "nape to crown with room", "the part above the gores is at least the stature less the back neck height, and 2 cm", commonPractice)
	}
	if s, ok := f.g.SizeCM("hood_face_cm"); ok {
		f.check("face in its opening", s, 0.3*head, "face opening", "face", "the opening is at least 0.3 times the head girth high", "from memory: a face is about that high from brow to chin")
	}
}
