package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/geometry"
	"ellwand/layout"
)

// MatchSpec asks that pieces lie at the same place in the repeat of the cloth's
// pattern, so that a band runs on from one to the next where they meet.
type MatchSpec struct {
	Name   string
	Pieces []string
	// Edges is one edge of each piece, of which the end towards the piece's own
	// beginning counts; empty: the pieces' beginnings themselves.
	Edges     []string
	Direction string // "along": bands across the cloth, in the weft; "across": stripes in the warp
}

func blankMatch() MatchSpec { return MatchSpec{Direction: "along"} }

func matchKeys(m *MatchSpec) []key {
	pieces, edges := textsKey("pieces", "Pieces", &m.Pieces), textsKey("edges", "An edge of each", &m.Edges)
	return []key{
		need(textKey("name", "Name", &m.Name)), need(pieces), edges,
		wordKey("direction", "The repeat runs", &m.Direction, "along", "across"),
	}
}

func (r *reader) match(n *yaml.Node, field string) MatchSpec {
	m := blankMatch()
	r.mapping(n, field, matchKeys(&m), nil)
	return m
}

func (p *Plan) fillMatches(root *yaml.Node) {
	fillList(root, "match", p.Matches, func(m *MatchSpec) string { return m.Name }, func(n *yaml.Node, m *MatchSpec) {
		def := blankMatch()
		putKeys(n, matchKeys(m), matchKeys(&def))
	})
}

func cloneMatches(list []MatchSpec) []MatchSpec {
	out := slices.Clone(list)
	for i := range out {
		out[i].Pieces, out[i].Edges = slices.Clone(out[i].Pieces), slices.Clone(out[i].Edges)
	}
	return out
}

// repeats is after how many cm of finished cloth its pattern repeats, along and
// across: as the plan says, or else by the order of picks and ends; 0 for none.
func (p *Plan) repeats() (alongCM, acrossCM float64) {
	of := func(saidCM float64, order []cloth.Stripe, perCM float64) float64 {
		threads := 0
		for _, s := range order {
			threads += s.Threads
		}
		if saidCM > 0 || len(order) < 2 || perCM <= 0 {
			return saidCM
		}
		return float64(threads) / perCM
	}
	return of(p.RepeatCM, p.Cloth.WeftOrder, p.Cloth.FinishedPicksPerCM), of(p.RepeatAcrossCM, p.Cloth.WarpOrder, p.Cloth.FinishedEndsPerCM)
}

// tie puts on the items that they are to lie on a selvedge, or in phase.
func (pr *Prepared) tie(p *Plan) error {
	if len(p.Real.Widths) == 0 {
		pr.tieSelvedges()
	}
	pr.Problem.RepeatCM, pr.Problem.RepeatAcrossCM = p.repeats()
	pr.Problem.MirrorCM, pr.Problem.MirrorAcrossCM = p.mirrors()
	ties := map[string]map[string]*tied{"along": {}, "across": {}}
	groups := 0
	for _, m := range p.Matches {
		if err := pr.checkMatch(m); err != nil {
			return err
		}
		if err := pr.tieMatch(m, ties[m.Direction], &groups); err != nil {
			return err
		}
		pr.Notes = append(pr.Notes, pr.matchNote(m))
	}
	for i := range pr.Problem.Items {
		pr.tieItem(i, ties)
		pr.inStep = pr.inStep || pr.Problem.Items[i].Along.Group != 0
	}
	return nil
}

// matchNote says what a match comes to, and which way its pieces may lie.
func (pr *Prepared) matchNote(m MatchSpec) string {
	repeat, mirror, from := pr.Problem.RepeatCM, pr.Problem.MirrorCM, "each first cut end"
	if m.Direction == "across" {
		repeat, mirror, from = pr.Problem.RepeatAcrossCM, pr.Problem.MirrorAcrossCM, "the left selvedge"
	}
	ways := "all one way, for the pattern is not the same both ways"
	if mirror != nil {
		ways = fmt.Sprintf("either way, for the pattern is the same both ways about %.2f cm from %s", *mirror, from)
	}
	return fmt.Sprintf("%s: %s lie at the same place in the repeat of %.2f cm %s the cloth, %s.", m.Name, strings.Join(m.Pieces, ", "), repeat, m.Direction, ways)
}

// tied is a piece's group and the place in its own copies' frames that is to be
// in phase, as cm along (or across) from the frame's origin once turned.
type tied struct {
	group int
	atCM  float64
	ref   geometry.Point // the place in the piece's frame that was asked for first
}

func (pr *Prepared) checkMatch(m MatchSpec) error {
	field := fmt.Sprintf("match[%s]", m.Name)
	if len(m.Pieces) < 1 {
		return &Problem{Field: field + ".pieces", Text: "is empty", Accepted: "at least one piece, whose copies are then matched"}
	}
	if len(m.Edges) > 0 && len(m.Edges) != len(m.Pieces) {
		return &Problem{Field: field + ".edges", Text: fmt.Sprintf("names %d edges for %d pieces", len(m.Edges), len(m.Pieces)), Accepted: "one edge for each piece, in the same order, or none"}
	}
	if m.Direction == "along" && pr.Problem.RepeatCM == 0 {
		return &Problem{Field: field, Text: "asks for one place in the repeat along the cloth, but the cloth has none", Accepted: "cloth.repeat_cm, or a cloth.weft_order of several yarns"}
	}
	if m.Direction == "across" && pr.Problem.RepeatAcrossCM == 0 {
		return &Problem{Field: field, Text: "asks for one place in the repeat across the cloth, but the cloth has none", Accepted: "cloth.repeat_across_cm, or a cloth.warp_order of several yarns"}
	}
	return nil
}

// tieMatch ties a match's pieces to each other, and groups that thereby meet.
func (pr *Prepared) tieMatch(m MatchSpec, ties map[string]*tied, groups *int) error {
	repeat := pr.Problem.RepeatCM
	if m.Direction == "across" {
		repeat = pr.Problem.RepeatAcrossCM
	}
	var first *tied
	firstAt := 0.0
	for k, name := range m.Pieces {
		i := slices.IndexFunc(pr.Pieces, func(r PieceResult) bool { return r.Piece.Name == name })
		if i < 0 {
			return pr.noSuchPiece(fmt.Sprintf("match[%s].pieces", m.Name), name)
		}
		ref, err := pr.matchPlace(m, k, i)
		if err != nil {
			return err
		}
		at := pr.coordinate(i, ref, m.Direction)
		t := ties[name]
		switch {
		case t == nil && first == nil:
			*groups++
			t = &tied{*groups, at, ref}
		case t == nil:
			t = &tied{first.group, first.atCM + at - firstAt, ref}
		case first != nil && t.group != first.group:
			was, shift := t.group, first.atCM+at-firstAt-t.atCM
			for _, o := range ties {
				if o.group == was {
					o.group, o.atCM = first.group, o.atCM+shift
				}
			}
		case first != nil && math.Abs(math.Remainder(first.atCM+at-firstAt-t.atCM, repeat)) > 0.002:
			return &Problem{Field: fmt.Sprintf("match[%s]", m.Name), Text: fmt.Sprintf("asks of %s what other matches forbid", name), Accepted: "matches that agree with each other"}
		}
		ties[name] = t
		if first == nil {
			first, firstAt = t, at
		}
	}
	return nil
}

// fixedTurn is the turn in which a match is reckoned. Turned otherwise, bands
// meet along the whole of an edge only where the pattern is the same both ways.
func fixedTurn(g garment.Grain) float64 {
	if g == garment.GrainWeft {
		return 90
	}
	return 0
}

// coordinate is how far a place of piece i lies along or across from the
// frame's origin, turned as matched pieces are.
func (pr *Prepared) coordinate(i int, at geometry.Point, direction string) float64 {
	return turnedCoordinate(at, fixedTurn(pr.Pieces[i].Piece.Grain), direction)
}

func turnedCoordinate(at geometry.Point, turn float64, direction string) float64 {
	q := geometry.Polygon{at}.Turn(turn)[0]
	if direction == "across" {
		return q.Y
	}
	return q.X
}

// matchPlace is the place of the kth piece of a match, in its own frame: of the
// corners of its edge, or of the piece, the first along (or across) the cloth.
func (pr *Prepared) matchPlace(m MatchSpec, k, i int) (geometry.Point, error) {
	piece := pr.Pieces[i].Piece
	var corners []geometry.Point
	for j, v := range piece.Outline {
		if len(m.Edges) == 0 {
			corners = append(corners, v)
		} else if piece.Edges[j].Name == m.Edges[k] {
			corners = append(corners, v, piece.Outline[(j+1)%len(piece.Outline)])
		}
	}
	if len(corners) == 0 {
		return geometry.Point{}, unknownEdge(fmt.Sprintf("match[%s].edges", m.Name), &piece, m.Edges[k])
	}
	return slices.MinFunc(corners, func(a, b geometry.Point) int {
		d := pr.coordinate(i, a, m.Direction) - pr.coordinate(i, b, m.Direction)
		switch {
		case d < -1e-9:
			return -1
		case d > 1e-9:
			return 1
		}
		return 0
	}), nil
}

func (pr *Prepared) noSuchPiece(field, name string) error {
	var names []string
	for _, r := range pr.Pieces {
		names = append(names, r.Piece.Name)
	}
	text := fmt.Sprintf("names %q, which is none of the pieces", name)
	if n := nearest(name, names); n != "" {
		text += fmt.Sprintf(" (did you mean %q?)", n)
	}
	return &Problem{Field: field, Text: text, Accepted: oneOf(names)}
}

// tieItem ties one copy as its piece is tied. It may lie turned half round or
// over where it may otherwise, and the pattern runs rightly on it.
func (pr *Prepared) tieItem(i int, ties map[string]map[string]*tied) {
	it, c := &pr.Problem.Items[i], pr.Copies[i]
	piece := pr.Pieces[c.Piece].Piece
	turn := fixedTurn(piece.Grain)
	for direction, of := range ties {
		t := of[piece.Name]
		if t == nil {
			continue
		}
		it.TurnsDeg = slices.DeleteFunc(slices.Clone(it.TurnsDeg), func(t float64) bool { return math.Mod(t-turn+360, 180) != 0 })
		// A mirrored copy has its place elsewhere in its own frame.
		mirrored := pr.mirrored(c, geometry.Polygon{t.ref})[0]
		at := t.atCM + turnedCoordinate(mirrored, turn, direction) - turnedCoordinate(t.ref, turn, direction)
		match := layout.Match{Group: t.group, At: placeOf(at, turn, direction), Toward: placeOf(1, turn, direction)}
		if direction == "across" {
			it.Across = match
		} else {
			it.Along = match
		}
	}
}

// placeOf is a place whose coordinate, once turned, is at.
func placeOf(at, turn float64, direction string) geometry.Point {
	q := geometry.Point{X: at}
	if direction == "across" {
		q = geometry.Point{Y: at}
	}
	return geometry.Polygon{q}.Turn(-turn)[0]
}

// tieSelvedges ties pieces with edges finished as selvedges to the cloth's
// edges: a straight edge at the piece's side, of several at least one.
func (pr *Prepared) tieSelvedges() {
	sides := make([]layout.Side, len(pr.Pieces))
	for i, r := range pr.Pieces {
		var bent []string
		sides[i], bent = selvedgeSides(r)
		if len(bent) > 0 {
			pr.Cautions = append(pr.Cautions, fmt.Sprintf("%s cannot lie on a selvedge with the whole of %s, which is not one straight side of it; it is laid anywhere, and that edge must be hemmed.",
				r.Piece.Name, strings.Join(bent, ", ")))
		}
	}
	for i := range pr.Problem.Items {
		it, c := &pr.Problem.Items[i], pr.Copies[i]
		it.Selvedge = sides[c.Piece]
		if !c.Mirrored {
			continue
		}
		swap := map[layout.Side]layout.Side{layout.LowY: layout.HighY, layout.HighY: layout.LowY}
		if pr.Pieces[c.Piece].Piece.Grain == garment.GrainWeft {
			swap = map[layout.Side]layout.Side{layout.LowX: layout.HighX, layout.HighX: layout.LowX}
		}
		var now layout.Side
		for _, s := range []layout.Side{layout.LowX, layout.HighX, layout.LowY, layout.HighY} {
			if it.Selvedge&s != 0 {
				if to, ok := swap[s]; ok {
					s = to
				}
				now |= s
			}
		}
		it.Selvedge = now
	}
}

// selvedgeSides is the sides of a piece that are finished as selvedges, and the
// names of such edges that are no straight side along the warp.
func selvedgeSides(r PieceResult) (sides layout.Side, bent []string) {
	p, cut := r.Piece, r.Cut.Bounds()
	for j, e := range p.Edges {
		if e.Finish != garment.FinishSelvedge {
			continue
		}
		// The cut line of the edge is the side when the cut outline has it there.
		var side layout.Side
		for s, on := range map[layout.Side]func(v geometry.Point) bool{
			layout.LowY:  func(v geometry.Point) bool { return math.Abs(v.Y-cut.MinY) < 1e-6 },
			layout.HighY: func(v geometry.Point) bool { return math.Abs(v.Y-cut.MaxY) < 1e-6 },
			layout.LowX:  func(v geometry.Point) bool { return math.Abs(v.X-cut.MinX) < 1e-6 },
			layout.HighX: func(v geometry.Point) bool { return math.Abs(v.X-cut.MaxX) < 1e-6 },
		} {
			if cutAlong(r.Cut, on) && facing(p.Outline, j) == s && alongWarp(s, p.Grain) {
				side = s
			}
		}
		if side == 0 && !slices.Contains(bent, e.Name) {
			bent = append(bent, e.Name)
		}
		sides |= side
	}
	return sides, bent
}

// alongWarp says whether a side can run along the warp as the piece may lie.
func alongWarp(s layout.Side, g garment.Grain) bool {
	along := s == layout.LowY || s == layout.HighY
	return g == garment.GrainFree || along == (g != garment.GrainWeft)
}

// cutAlong says whether the cut outline has an edge whose both ends are on a side.
func cutAlong(q geometry.Polygon, on func(geometry.Point) bool) bool {
	for j, v := range q {
		if on(v) && on(q[(j+1)%len(q)]) {
			return true
		}
	}
	return false
}

// facing is the side that a straight edge of a counter-clockwise outline faces;
// 0 for one that runs askew.
func facing(q geometry.Polygon, j int) layout.Side {
	a, b := q[j], q[(j+1)%len(q)]
	switch dx, dy := b.X-a.X, b.Y-a.Y; {
	case math.Abs(dy) < 1e-9 && dx > 0:
		return layout.LowY
	case math.Abs(dy) < 1e-9 && dx < 0:
		return layout.HighY
	case math.Abs(dx) < 1e-9 && dy > 0:
		return layout.HighX
	case math.Abs(dx) < 1e-9 && dy < 0:
		return layout.LowX
	}
	return 0
}

// oneSelvedge cautions of pieces with selvedges on both sides that the cloth is
// wider than: only one of them lies on one.
func (pr *Prepared) oneSelvedge() {
	said := map[int]bool{}
	for i, it := range pr.Problem.Items {
		r := pr.Pieces[pr.Copies[i].Piece]
		both := it.Selvedge&(layout.LowY|layout.HighY) == layout.LowY|layout.HighY && r.CutWidthCM < pr.Problem.WidthCM-0.5
		if piece := pr.Copies[i].Piece; both && !said[piece] {
			said[piece] = true
			pr.Cautions = append(pr.Cautions, fmt.Sprintf("%s is to have selvedges on both sides, but is %.1f cm wide on cloth of %.1f cm: one side lies on a selvedge, the other must be hemmed.",
				r.Piece.Name, r.CutWidthCM, pr.Problem.WidthCM))
		}
	}
}
