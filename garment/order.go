package garment

import (
	"fmt"
	"strings"
)

// Step is one step of sewing a garment up, with everything that is sewn in it.
type Step struct {
	Number int
	What   string // "Set the sleeves to the armholes, while all is flat"
	Lines  []StepLine
}

// StepLine is one seam, or one edge that is turned up, of a step.
type StepLine struct {
	Name  string  // of the seam, or "sleeve, cuff" for an edge
	CM    float64 // finished length, each time
	Times int
	Shows bool // the stitches are seen from the right side
	Hem   bool // an edge that is hemmed, faced or bound, not a seam
}

// TotalCM is all that is sewn in the step.
func (s Step) TotalCM() float64 {
	sum := 0.0
	for _, l := range s.Lines {
		sum += l.CM * float64(l.Times)
	}
	return sum
}

// role is what a seam is for in the order of sewing.
type role int

const (
	rolePieced role = iota
	roleWidths
	roleShoulders
	roleFacing
	roleFacingEdges
	roleSlitGores
	roleSleeveGores
	roleArmholes
	roleGussets
	roleSideGores
	roleOutsideLegs
	roleRises
	roleSeatGusset
	roleClosing
	roleBands
	roleBandEdges
	roleStrapEdges
	roleStraps
	roleOwn
	roleHems
	roleFaced
	roleBound
)

// steps are the words for each role, in the order of sewing: what can be sewn
// flat comes first, what closes the garment to a tube after it, hems last
// (common practice).
func stepWords() []string {
	return []string{
		rolePieced:      "Join the parts of pieces that are cut apart",
		roleWidths:      "Join widths and halves edge to edge",
		roleShoulders:   "Close the shoulders",
		roleFacing:      "Sew the facing round the neck, cut the neck out, turn the facing in",
		roleFacingEdges: "Fell the facing's outer edges down",
		roleSlitGores:   "Set the gores into their slits or openings, from the point down",
		roleSleeveGores: "Sew the sleeves' gores to their strips",
		roleArmholes:    "Sew the sleeves to the armholes, while all lies flat",
		roleGussets:     "Set the gussets under the arms",
		roleSideGores:   "Sew the side gores to front and back, from the hem up",
		roleOutsideLegs: "Close the legs outside",
		roleRises:       "Sew the legs together, front and back",
		roleSeatGusset:  "Set the gusset into the seat",
		roleClosing:     "Close what is left open along arms, sides, legs and crown",
		roleBands:       "Sew the bands on",
		roleBandEdges:   "Turn the bands' other edges in and fell them down",
		roleStrapEdges:  "Turn in the edges of straps, loops and bib",
		roleStraps:      "Sew on straps, loops and bib",
		roleOwn:         "Sew your own pieces' seams",
		roleHems:        "Turn up the hems",
		roleFaced:       "Face the edges that are faced",
		roleBound:       "Bind the edges that are bound",
	}
}

func seamRole(name string) role {
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(name, w) {
				return true
			}
		}
		return false
	}
	switch {
	case has(", " + piecedWord):
		return rolePieced
	case has("facing"):
		return roleFacing
	case has("strap", "loop", "bib"):
		return roleStraps
	case has("band"):
		return roleBands
	case has("armhole"):
		return roleArmholes
	case has("seat gusset"):
		return roleSeatGusset
	case has("gusset"):
		return roleGussets
	case has("half-gores", "underarm", "inside leg", "chin", "crown") || strings.HasSuffix(name, " side"):
		return roleClosing
	case strings.HasPrefix(name, "sleeve gore"):
		return roleSleeveGores
	case has("gore to"):
		return roleSideGores
	case has("gore"):
		return roleSlitGores
	case has("shoulder"):
		return roleShoulders
	case has("outside leg"):
		return roleOutsideLegs
	case has(" rise"):
		return roleRises
	case name == "back", has("centre ", " width", "middle widths", "to strip", "end to end"):
		return roleWidths
	}
	return roleOwn
}

// edgeRole is when an edge that is not sewn to another is finished.
func edgeRole(piece string, f Finish) (role, bool) {
	switch f {
	case FinishFaced:
		return roleFaced, true
	case FinishBound:
		return roleBound, true
	case FinishHem:
	default:
		return 0, false
	}
	switch {
	case strings.Contains(piece, "facing"):
		return roleFacingEdges, true
	case strings.Contains(piece, "band"):
		return roleBandEdges, true
	case strings.Contains(piece, "strap"), strings.Contains(piece, "loop"), piece == "bib":
		return roleStrapEdges, true
	}
	return roleHems, true
}

// SewingOrder is every seam and every edge that is turned up, in the order in
// which they are sewn, with finished lengths. Seams whose sides are not both
// finished as seams are left out; so is a seam of a piece that is not there.
func SewingOrder(g Garment) []Step {
	words := stepWords()
	lines := make([][]StepLine, len(words))
	for _, s := range g.Seams {
		cm, err := SideLengthCM(g, s.A)
		if err != nil || !sewnSide(g, s.A) || !sewnSide(g, s.B) {
			continue
		}
		r := seamRole(s.Name)
		if s.Own {
			r = roleOwn
		}
		lines[r] = append(lines[r], StepLine{s.Name, cm, s.Times, s.Shows, false})
	}
	for _, p := range g.Pieces {
		for _, e := range EdgeFinishes(p) {
			if r, ok := edgeRole(p.Name, e.Finish); ok && p.Copies > 0 {
				lines[r] = append(lines[r], StepLine{fmt.Sprintf("%s, %s", p.Name, e.Name), e.CM, p.Copies, true, true})
			}
		}
	}
	var out []Step
	for r, l := range lines {
		if len(l) > 0 {
			out = append(out, Step{len(out) + 1, words[r], l})
		}
	}
	return out
}

// NamedEdge is a whole named edge of a piece: a run of outline edges, or an
// edge that a mark makes.
type NamedEdge struct {
	Name   string
	Finish Finish
	CM     float64
}

// EdgeFinishes are a piece's named edges in the order in which its outline is
// walked, then those its marks make, each with its finish and length.
func EdgeFinishes(p Piece) []NamedEdge {
	lengths := EdgeLengthsCM(p)
	seen := map[string]bool{}
	var out []NamedEdge
	add := func(name string, f Finish) {
		if !seen[name] {
			seen[name] = true
			out = append(out, NamedEdge{name, f, lengths[name]})
		}
	}
	for _, e := range p.Edges {
		add(e.Name, e.Finish)
	}
	for _, m := range p.Marks {
		for _, name := range m.edgeNames() {
			add(name, m.Finish)
		}
	}
	return out
}

// sewnSide says whether every edge of a side is there and finished as a seam.
func sewnSide(g Garment, s Side) bool {
	p, ok := g.Piece(s.Piece)
	if !ok {
		return false
	}
	how := seamEdges(p)
	for _, name := range s.Edges {
		if !how[name] {
			return false
		}
	}
	return true
}
