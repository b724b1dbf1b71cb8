package garment

import (
	"errors"
	"fmt"
	"strings"

	"ellwand/geometry"
)

// recipe is a draft: its description and the function that works it out from a
// complete body and settled parameters.
type recipe struct {
	info DraftInfo
	work func(*worked) error
}

func recipes() []recipe {
	return []recipe{
		{tunicInfo(), workTunic},
		{shiftInfo(), workToHem},
		{gownInfo(), workToHem},
		{coatInfo(), workCoat},
		{overdressInfo(), workOverdress},
		{trousersInfo(), workTrousers},
		{hoodInfo(), workHood},
		{coifInfo(), workCoif},
		{rectangularCloakInfo(), workRectangularCloak},
		{halfCircleCloakInfo(), workHalfCircleCloak},
		{legWrapsInfo(), workLegWraps},
		{bagInfo(), workBag},
		{apronInfo(), workApron},
	}
}

// Drafts are all drafts, in the order in which they are offered.
func Drafts() []DraftInfo {
	var out []DraftInfo
	for _, r := range recipes() {
		out = append(out, r.info)
	}
	return out
}

func findRecipe(key string) (recipe, error) {
	var names []string
	for _, r := range recipes() {
		if r.info.Key == key {
			return r, nil
		}
		names = append(names, r.info.Key)
	}
	return recipe{}, fmt.Errorf("there is no draft %q%s", key, didYouMean(key, names))
}

// Need is the measurements a draft uses; nil for an unknown draft.
func Need(draft string) []Measure {
	r, err := findRecipe(draft)
	if err != nil {
		return nil
	}
	return append([]Measure(nil), r.info.Needs...)
}

// Draft works a garment out from a body and the draft's parameters; parameters
// not given keep their defaults. Measurements not given are estimated (see
// Body.Complete) and named in the garment's notes. The same input gives the
// same garment. An error is one sentence that names what is accepted.
func Draft(key string, b Body, params map[string]float64) (Garment, error) {
	r, err := findRecipe(key)
	if err != nil {
		return Garment{}, err
	}
	v, err := settle(r.info, params)
	if err != nil {
		return Garment{}, err
	}
	if errs := b.Check(); len(errs) > 0 {
		return Garment{}, errors.Join(errs...)
	}
	full, estimates := b.Complete()
	w := &worked{body: full, v: v, g: Garment{Draft: key}}
	if err := w.ready(r.info, estimates); err != nil {
		return Garment{}, err
	}
	if err := r.work(w); err != nil {
		return Garment{}, fmt.Errorf("%s: %w", key, err)
	}
	for _, p := range w.g.Pieces {
		if err := geometry.Validate(p.Outline); err != nil {
			return Garment{}, fmt.Errorf("%s: piece %q cannot be cut from these measurements: %w", key, p.Name, err)
		}
	}
	return w.g, nil
}

// worked is a draft being worked out.
type worked struct {
	body Body
	v    values
	g    Garment
}

// ready checks that all that is needed is there, and notes what was estimated.
func (w *worked) ready(d DraftInfo, estimates []Estimate) error {
	var missing []string
	needed := map[Measure]bool{}
	for _, m := range d.Needs {
		needed[m] = true
		if _, ok := w.body.CM[m]; !ok {
			missing = append(missing, string(m))
		}
	}
	if len(missing) > 0 {
		return fmt.Errorf("the %s needs %s; measure them, or give %s and %s so that they can be estimated",
			d.Key, list(missing), Stature, BustGirth)
	}
	for _, e := range estimates {
		if needed[e.Measure] {
			if err := CheckOne(e.Measure, e.CM); err != nil {
				return fmt.Errorf("%s cannot be estimated for this body, measure it: %w", e.Measure, err)
			}
			w.note("%s.", strings.TrimSuffix(e.String(), "."))
		}
	}
	if errs := w.body.Check(); len(errs) > 0 {
		return fmt.Errorf("the estimated measurements do not fit those given: %w", errors.Join(errs...))
	}
	return nil
}

func (w *worked) cm(m Measure) float64 { return w.body.CM[m] }

func (w *worked) note(format string, a ...any) {
	w.g.Notes = append(w.g.Notes, fmt.Sprintf(format, a...))
}

// size records a finished size; from is the formula with its numbers.
func (w *worked) size(key, label string, cm float64, from string, a ...any) {
	w.g.Sizes = append(w.g.Sizes, Size{key, label, cm, fmt.Sprintf(from, a...) + fmt.Sprintf(" = %.1f cm", cm)})
}

// SizeCM is a finished size by key; false when the garment has none such.
func (g Garment) SizeCM(key string) (float64, bool) {
	for _, s := range g.Sizes {
		if s.Key == key {
			return s.CM, true
		}
	}
	return 0, false
}

func (w *worked) add(p Piece) { w.g.Pieces = append(w.g.Pieces, p) }

// sew records a seam between two whole edges.
func (w *worked) sew(name, pieceA, edgeA, pieceB, edgeB string, times int) {
	w.sewPart(name, whole(pieceA, edgeA), whole(pieceB, edgeB), times)
}

func (w *worked) sewPart(name string, a, b Side, times int) {
	w.g.Seams = append(w.g.Seams, Seam{Name: name, A: a, B: b, Times: times})
}

func whole(piece string, edges ...string) Side { return Side{piece, edges, 0, 1} }

func part(piece, edge string, from, to float64) Side {
	return Side{piece, []string{edge}, from, to}
}

// outline is a piece's outline being walked counter-clockwise, each step with
// the name and finish of the edge it ends.
type outline struct {
	points geometry.Polygon
	edges  []Edge
}

func startAt(x, y float64) *outline {
	return &outline{points: geometry.Polygon{{X: x, Y: y}}}
}

// shortestEdgeCM is the length below which an edge is left out.
const shortestEdgeCM = 0.01

// to walks to (x, y) along a new edge; a step too short to sew is left out.
func (o *outline) to(x, y float64, name string, f Finish) *outline {
	last := o.points[len(o.points)-1]
	if distance(last, geometry.Point{X: x, Y: y}) < shortestEdgeCM {
		return o
	}
	o.points = append(o.points, geometry.Point{X: x, Y: y})
	o.edges = append(o.edges, Edge{Name: name, Finish: f})
	return o
}

// close ends the walk where it began.
func (o *outline) close(name string, f Finish) (geometry.Polygon, []Edge) {
	return o.points, append(o.edges, Edge{Name: name, Finish: f})
}
