package plan

import (
	"fmt"
	"slices"
	"strings"

	"ellwand/garment"
)

// Own shapes as an editor of corners and edges needs them. Every change leaves a
// polygon with a name for each edge.

// Corners are an own piece's corners and the name of the edge that begins at
// each; ok is false for a piece that is not the plan's own, or has no shape that
// can be made.
func (p *Plan) Corners(name string) (points [][2]float64, edges []string, ok bool) {
	s := specNamed(p, name)
	if s == nil || s.Shape == "" {
		return nil, nil, false
	}
	if s.Shape == "polygon" {
		points = slices.Clone(s.Points)
		if n := len(points); n > 1 && points[0] == points[n-1] {
			points = points[:n-1]
		}
		if edges = slices.Clone(s.EdgeNames); len(edges) == 0 {
			for i := range points {
				edges = append(edges, fmt.Sprintf("edge %d", i+1))
			}
		}
		return points, edges, len(points) == len(edges)
	}
	piece, err := ownPiece(*s)
	if err != nil {
		return nil, nil, false
	}
	for i, v := range piece.Outline {
		points, edges = append(points, [2]float64{v.X, v.Y}), append(edges, piece.Edges[i].Name)
	}
	return points, edges, true
}

// SetCorners gives an own piece another outline, in cm. Finishes, allowances and
// seams of edges whose names are gone go with them.
func (p *Plan) SetCorners(name string, points [][2]float64, edges []string) error {
	s := specNamed(p, name)
	if s == nil || s.Shape == "" {
		return fmt.Errorf("%q is no piece of the plan's own", name)
	}
	for i, e := range edges {
		if e = strings.TrimSpace(e); e == "" {
			return fmt.Errorf("an edge of %s has no name; accepted is a name for each", name)
		}
		edges[i] = e
	}
	if _, _, err := garment.FromPoints(points, edges...); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if s.Shape != "polygon" { // what the shape gave by itself is kept
		if piece, err := ownPiece(*s); err == nil {
			if s.Finish == nil {
				s.Finish = map[string]garment.Finish{}
			}
			for _, e := range piece.Edges {
				if _, ok := s.Finish[e.Name]; !ok && e.Finish != garment.FinishHem {
					s.Finish[e.Name] = e.Finish
				}
			}
		}
	}
	s.Shape, s.Dims, s.Points, s.EdgeNames = "polygon", map[string]float64{}, points, edges
	gone := func(edge string) bool { return !slices.Contains(edges, edge) }
	for e := range s.Finish {
		if gone(e) {
			delete(s.Finish, e)
		}
	}
	for e := range s.AllowanceCM {
		if gone(e) {
			delete(s.AllowanceCM, e)
		}
	}
	p.dropSeams(func(piece, edge string) bool { return piece == name && gone(edge) })
	return nil
}

// RenameEdge gives edge i of an own piece another name, in its seams too.
func (p *Plan) RenameEdge(piece string, i int, name string) error {
	points, edges, ok := p.Corners(piece)
	if !ok || i < 0 || i >= len(edges) {
		return fmt.Errorf("%s has no edge %d", piece, i+1)
	}
	name = strings.TrimSpace(name)
	if slices.Contains(edges, name) && edges[i] != name {
		return fmt.Errorf("%s has an edge %q already; accepted is a name of its own", piece, name)
	}
	old := edges[i]
	s := specNamed(p, piece)
	if f, ok := s.Finish[old]; ok {
		s.Finish[name] = f
	}
	if a, ok := s.AllowanceCM[old]; ok {
		s.AllowanceCM[name] = a
	}
	for k := range p.Seams {
		swap := func(in string, list []string) {
			for n := range list {
				if in == piece && list[n] == old {
					list[n] = name
				}
			}
		}
		swap(p.Seams[k].Piece, p.Seams[k].Edges)
		swap(p.Seams[k].ToPiece, p.Seams[k].ToEdges)
	}
	edges[i] = name
	return p.SetCorners(piece, points, edges)
}

// RenamePiece gives an own piece another name, in its seams, its matches and the
// kept lay too.
func (p *Plan) RenamePiece(old, name string) error {
	now := p.renaming(old, name)
	if err := SetField(p, "pieces["+old+"].name", name); err != nil {
		return err
	}
	for i := range p.Seams {
		p.Seams[i].Piece, p.Seams[i].ToPiece = now(p.Seams[i].Piece), now(p.Seams[i].ToPiece)
	}
	for _, m := range p.Matches {
		for k := range m.Pieces {
			m.Pieces[k] = now(m.Pieces[k])
		}
	}
	if p.Lay == nil {
		return nil
	}
	for i := range p.Lay.Placements {
		id := &p.Lay.Placements[i].ID
		if at := strings.LastIndex(*id, "/"); at >= 0 {
			*id = now((*id)[:at]) + (*id)[at:]
		}
	}
	return nil
}

// renaming gives pieces their names once old is called name; the parts that old is
// cut into are called after it.
func (p *Plan) renaming(old, name string) func(string) string {
	cut := slices.ContainsFunc(p.Pieces, func(s PieceSpec) bool { return s.Name == old && s.Piecing != "" && s.Piecing != piecingNo })
	return func(piece string) string {
		m := partNamed.FindStringSubmatch(piece)
		part := cut && m != nil && m[1] == old && specNamed(p, piece) == nil // not a piece that is called so
		if piece == old || part {
			return name + piece[len(old):]
		}
		return piece
	}
}

// Pair sews an edge of one piece to an edge of another, or of the same; it gives
// the seam's name.
func (p *Plan) Pair(piece, edge, toPiece, toEdge string, times int) (string, error) {
	if piece == toPiece && edge == toEdge && times < 2 {
		return "", fmt.Errorf("%s of %s cannot be sewn to itself; accepted are two edges", edge, piece)
	}
	stem := fmt.Sprintf("%s, %s to %s, %s", piece, edge, toPiece, toEdge)
	if piece == toPiece {
		stem = fmt.Sprintf("%s, %s to %s", piece, edge, toEdge)
	}
	name := stem
	for n := 2; slices.ContainsFunc(p.Seams, func(s SeamSpec) bool { return s.Name == name }); n++ {
		name = fmt.Sprintf("%s %d", stem, n)
	}
	p.Seams = append(p.Seams, SeamSpec{Name: name, Piece: piece, Edges: []string{edge}, ToPiece: toPiece, ToEdges: []string{toEdge}, Times: max(1, times)})
	return name, nil
}

// DropSeamsOf takes the plan's own seams of a piece away.
func (p *Plan) DropSeamsOf(piece string) {
	p.dropSeams(func(name, _ string) bool { return name == piece })
}

func (p *Plan) dropSeams(gone func(piece, edge string) bool) {
	p.Seams = slices.DeleteFunc(slices.Clone(p.Seams), func(s SeamSpec) bool {
		lost := func(piece string, edges []string) bool {
			return slices.ContainsFunc(edges, func(e string) bool { return gone(piece, e) })
		}
		return s.own() && (lost(s.Piece, s.Edges) || lost(s.ToPiece, s.ToEdges))
	})
}
