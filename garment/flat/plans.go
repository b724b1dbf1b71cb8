package flat

import (
	"ellwand/garment"
)

// root is a piece that is put down first, and which way of it points up.
type root struct {
	piece string
	up    point  // in the piece's frame
	parts []half // what of it is seen, when its edges' names do not tell
	// origin is the point of the piece that goes to where all begins; level that
	// at which it lies.
	origin point
	level  int
}

// viewPlan is what a view begins with.
type viewPlan struct {
	name         string
	face, behind string // the words for what is seen and what is not, in names of pieces and edges
	roots        []root
	mirror       bool // seen from the wrong side
	lap          bool // fronts that lap: put down over the back, shoulder on shoulder
}

var (
	upX   = point{X: 1}
	downX = point{X: -1}
	upY   = point{Y: 1}
	downY = point{Y: -1}
)

// plans are the views of a garment.
func plans(g garment.Garment) []viewPlan {
	has := func(name string) bool { _, ok := g.Piece(name); return ok }
	faces := func(front, back root) []viewPlan {
		return []viewPlan{{name: "front", face: "front", behind: "back", roots: []root{front}}, {name: "back", face: "back", behind: "front", roots: []root{back}}}
	}
	sides := func(r root) []viewPlan {
		// A half is drafted as the wearer's right one; the left one is its mirror image.
		return []viewPlan{{name: "left side", face: "left", behind: "right", roots: []root{r}, mirror: !has("hood")}, {name: "right side", face: "right", behind: "left", roots: []root{r}}}
	}
	spreadOut := func(r root) []viewPlan {
		return []viewPlan{{name: "right side, spread out", roots: []root{r}}, {name: "wrong side, spread out", roots: []root{r}, mirror: true}}
	}
	switch {
	case has("body"):
		return faces(root{piece: "body", up: upX}, root{piece: "body", up: downX})
	case has("front panel"):
		return faces(root{piece: "front panel", up: upX}, root{piece: "back panel", up: upX})
	case has("front") && has("back"):
		v := faces(root{piece: "front", up: upX}, root{piece: "back", up: upX})
		if p, _ := g.Piece("front"); p.Copies == 2 && !selfSewn(g, "front") {
			v[0].lap, v[0].roots = true, []root{{piece: "back", up: upX}}
		}
		return v
	case has("leg"):
		return faces(root{piece: "leg", up: downX}, root{piece: "leg", up: downX})
	case has("leg front"):
		return faces(root{piece: "leg front", up: downX}, root{piece: "leg back", up: downX})
	case has("hood"):
		return sides(root{piece: "hood", up: upX})
	case has("hood half"):
		return sides(root{piece: "hood half", up: upX})
	case g.Draft == "coif" && has("side"):
		return sides(root{piece: "side", up: upX})
	case has("width 1 from the neck"):
		return spreadOut(root{piece: "width 1 from the neck", up: downY})
	case g.Draft == "half_circle_cloak" && has("cloak"):
		return spreadOut(root{piece: "cloak", up: downY})
	case has("lower width"):
		return spreadOut(root{piece: "lower width", up: upY})
	case has("cloak"):
		return spreadOut(root{piece: "cloak", up: upY})
	case has("wrap"):
		return spreadOut(root{piece: "wrap", up: upY})
	case has("lower wrap"):
		return spreadOut(root{piece: "lower wrap", up: upY})
	case has("bag"):
		return bagPlans(g)
	case g.Draft == "apron" && has("panel"):
		r := []root{{piece: "panel", up: upX}}
		return []viewPlan{{name: "front", roots: r}, {name: "back", roots: r, mirror: true}}
	}
	return nil
}

// selfSewn says whether a piece is sewn to its own mirror image down the middle.
func selfSewn(g garment.Garment, name string) bool {
	for _, s := range g.Seams {
		if s.A.Piece == name && s.B.Piece == name && middleSeam(s) {
			return true
		}
	}
	return false
}

// middleSeam says whether a seam joins a piece to its mirror image, side by side.
func middleSeam(s garment.Seam) bool {
	return s.A.Piece == s.B.Piece && len(s.A.Edges) == 1 && len(s.B.Edges) == 1 && s.A.Edges[0] == s.B.Edges[0] &&
		(hasWord(s.Name, "centre") || hasWord(s.Name, "rise"))
}

// bagPlans: the front and the back of the folded length are the stretches of its
// sides that are called so.
func bagPlans(g garment.Garment) []viewPlan {
	p, _ := g.Piece("bag")
	stretch := func(name string) (low, high float64, ok bool) {
		line, ok := edgeLine(p, "left "+name)
		if !ok {
			return 0, 0, false
		}
		return min(line[0].X, line[len(line)-1].X), max(line[0].X, line[len(line)-1].X), true
	}
	_, end, ok := stretch("front")
	begin, top, ok2 := stretch("back")
	if !ok || !ok2 {
		return nil
	}
	front := []root{{piece: "bag", up: downX, parts: []half{{point{X: end}, downX}}}}
	if _, far, ok := stretch("flap"); ok && far > top { // it comes over the mouth
		front = append(front, root{piece: "bag", up: downX, parts: []half{{point{X: top}, upX}}, origin: point{X: top}, level: 1})
	}
	back := root{piece: "bag", up: upX, parts: []half{{point{X: begin}, upX}, {point{X: top}, downX}}}
	return []viewPlan{{name: "front", face: "front", behind: "back", roots: front}, {name: "back", face: "back", behind: "front", roots: []root{back}}}
}
