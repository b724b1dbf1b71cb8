package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/geometry"
	"ellwand/layout"
)

// Unmakeable is a plan that is well written but of which not even a lay can be
// made, as one sentence.
type Unmakeable struct{ Text string }

func (u *Unmakeable) Error() string { return u.Text }

// PieceResult is one piece with its cut outline, in the piece's own frame:
// length along x, width along y.
type PieceResult struct {
	Piece                   garment.Piece
	Cut                     geometry.Polygon
	CutWidthCM, CutLengthCM float64
	CutAreaCM2              float64
}

// Copy says which piece, and which of its copies, an item of the lay is.
type Copy struct {
	Piece    int // index into Prepared.Pieces
	Number   int // from 1
	Mirrored bool
}

// Prepared is a plan ready to be laid. Copies[i] belongs to Problem.Items[i].
type Prepared struct {
	Garment  garment.Garment
	Pieces   []PieceResult
	Copies   []Copy
	Problem  layout.Problem
	Cautions []string
	Notes    []string
	LetGo    []string // IDs of items that cannot stay where the kept lay pins them

	Pieced []Pieced // the pieces that may be cut in two

	bound   *bounding
	whole   garment.Garment // before any piece is cut apart
	inStep  bool            // pieces are matched along the cloth: each length begins at a whole repeat
	warps   bool            // the lengths of cloth are those of several warps
	wanting int             // the length of cloth that is not there; -1 for none
	draws   *drawStore
}

// Prepare drafts the garment, applies the plan's own pieces and overrides, cuts
// every piece out with its allowances, and sets up the strip. A wrong value in
// the plan is a *Problem; pieces wider than the cloth are an *Unmakeable.
func Prepare(p *Plan) (*Prepared, error) {
	pr, err := prepareItems(p)
	if err != nil {
		return nil, err
	}
	planned := func() (float64, error) { return widthOf(p, pr) }
	if pr.Problem.WidthCM, err = p.Real.realWidth(planned); err != nil {
		return nil, err
	}
	if err := pr.tooWide(); err != nil {
		return nil, err
	}
	pr.oneSelvedge()
	if err := pr.layGround(p); err != nil {
		return nil, err
	}
	if err := pr.layWarps(p); err != nil {
		return nil, err
	}
	pr.pin(p.Lay)
	pr.bound = newBounding(pr.boundProblem())
	return pr, nil
}

// prepareItems is everything but the width and the pins.
func prepareItems(p *Plan) (*Prepared, error) {
	pr := &Prepared{draws: &drawStore{}}
	if err := pr.draft(p); err != nil {
		return nil, err
	}
	pr.whole = pr.Garment
	if err := pr.pieceApart(p); err != nil {
		return nil, err
	}
	for i, piece := range pr.Garment.Pieces {
		cut, err := garment.CutOutline(piece, p.Allowances)
		if err != nil {
			return nil, &Problem{Field: pieceField(piece.Name), Text: "cannot be cut out: " + err.Error(), Accepted: "a shape and allowances that leave a plain outline"}
		}
		if err := pr.within(piece.Name, piece.Copies, len(cut)); err != nil {
			return nil, err
		}
		box := cut.Bounds()
		pr.Pieces = append(pr.Pieces, PieceResult{piece, cut, box.Height(), box.Width(), cut.Area()})
		pr.addItems(p, i)
	}
	pr.Problem.GapCM = p.GapCM
	return pr, pr.tie(p)
}

// addItems is one item for each copy of piece i. On cloth with one right face
// half the copies of a mirrored piece are cut mirrored; where both faces are
// right, all are cut alike and turned over when sewn. Turning over on the strip
// would turn a nap the wrong way, so it is not done there.
func (pr *Prepared) addItems(p *Plan, i int) {
	piece := pr.Pieces[i].Piece
	for n := 1; n <= piece.Copies; n++ {
		c := Copy{i, n, piece.Mirrored && !p.TwoFaced && n > piece.Copies-piece.Copies/2}
		pr.Copies = append(pr.Copies, c)
		pr.Problem.Items = append(pr.Problem.Items, layout.Item{
			ID:       fmt.Sprintf("%s/%d", piece.Name, n),
			Outline:  pr.mirrored(c, pr.Pieces[i].Cut),
			TurnsDeg: Turns(piece.Grain, p.Nap),
			MayFlip:  p.TwoFaced && !p.Nap,
		})
	}
}

// mirrored is q, in the frame of its piece, in the frame of the item. The
// mirror keeps the piece's direction along the warp, so that a nap runs alike
// on both of a pair.
func (pr *Prepared) mirrored(c Copy, q geometry.Polygon) geometry.Polygon {
	switch {
	case !c.Mirrored:
		return q
	case pr.Pieces[c.Piece].Piece.Grain == garment.GrainWeft:
		return q.MirrorX()
	}
	return q.MirrorX().Turn(180)
}

// Place is points in the frame of item i's piece (a seam line, a mark, the cut
// outline) where the placement puts them on the strip. Mirroring reverses their
// order, so that an outline stays counter-clockwise.
func (pr *Prepared) Place(i int, points []geometry.Point, at layout.Placement) geometry.Polygon {
	q := pr.mirrored(pr.Copies[i], geometry.Polygon(points))
	return layout.Placed(layout.Item{Outline: q}, at)
}

// widthOf is the strip's width: as the plan wants, or else the narrowest in
// whole dents at which every piece fits, with its pins if they can stay, and
// all of them within the warp.
func widthOf(p *Plan, pr *Prepared) (float64, error) {
	if w := p.Cloth.FinishedWidthCM; w > 0 {
		return w, nil
	}
	least := layout.NarrowestCM(pr.Problem)
	pinned := pr.Problem
	pinned.Items = slices.Clone(pinned.Items)
	for i := range pinned.Items {
		pinned.Items[i].Pinned = p.Lay.pinOf(pinned.Items[i].ID)
	}
	for _, min := range []float64{layout.NarrowestCM(pinned), least} {
		if math.IsNaN(min) {
			continue
		}
		if steps := cloth.WidthSteps(p.setting(), p.Loom, min); len(steps) > 0 {
			return pr.withinTheWarp(p, steps), nil
		}
	}
	return 0, &Unmakeable{fmt.Sprintf("%s is %.1f cm across the cloth, and the loom weaves at most %.1f cm finished.",
		pr.widest(), least, widestWoven(p))}
}

// widestWoven is the widest finished cloth in whole dents that the loom weaves.
func widestWoven(p *Plan) float64 {
	steps := cloth.WidthSteps(p.setting(), p.Loom, 0)
	if len(steps) == 0 {
		return 0
	}
	return steps[len(steps)-1]
}

// widest is the name of the piece that needs the widest cloth.
func (pr *Prepared) widest() string {
	name, most := "", 0.0
	for i, it := range pr.Problem.Items {
		if w := layout.NarrowestCM(layout.Problem{Items: []layout.Item{it}}); w > most {
			name, most = pr.Pieces[pr.Copies[i].Piece].Piece.Name, w
		}
	}
	return "the piece " + name
}

// tooWide names the piece that does not fit the width.
func (pr *Prepared) tooWide() error {
	least := layout.NarrowestCM(pr.Problem)
	if least <= pr.Problem.WidthCM+4e-7 {
		return nil
	}
	return &Unmakeable{fmt.Sprintf("%s is %.1f cm across the cloth, and the cloth is %.1f cm wide.",
		pr.widest(), least, pr.Problem.WidthCM)}
}

// pin pins what the kept lay pins, as far as it can stay; what cannot is let go
// with a caution.
func (pr *Prepared) pin(lay *SavedLay) {
	for i := range pr.Problem.Items {
		it := &pr.Problem.Items[i]
		at := lay.pinOf(it.ID)
		if at == nil {
			continue
		}
		moved := pr.now(lay, *it, *at)
		it.Pinned = &moved
		if err := pr.Problem.Validate(); err != nil {
			it.Pinned = nil
			pr.LetGo = append(pr.LetGo, it.ID)
			pr.Cautions = append(pr.Cautions, fmt.Sprintf("%s was let go from where it was pinned: %v.", it.ID, err))
		}
	}
}

// pinOf is where the lay pins an item; nil where it does not.
func (l *SavedLay) pinOf(id string) *layout.Placement {
	if l == nil {
		return nil
	}
	for _, s := range l.Placements {
		if s.ID == id && s.Pinned {
			at := s.Placement
			return &at
		}
	}
	return nil
}

// draft works out the garment with the plan's own pieces, and its remarks.
func (pr *Prepared) draft(p *Plan) error {
	if p.Draft != "" {
		g, err := garment.Draft(p.Draft, p.Body, p.Params)
		if err != nil {
			return fmt.Errorf("the garment cannot be drafted: %w", err)
		}
		pr.Garment = g
		for _, n := range garment.FitNotes(g, p.Body) {
			if n.OK {
				pr.Notes = append(pr.Notes, n.String())
			} else {
				pr.Cautions = append(pr.Cautions, n.String())
			}
		}
		pr.Cautions = append(pr.Cautions, p.Body.Doubts()...)
	}
	pr.Notes = append(pr.Notes, pr.Garment.Notes...)
	pr.Garment.Pieces = slices.Clone(pr.Garment.Pieces)
	drafted := len(pr.Garment.Pieces)
	seen := map[string]bool{}
	for _, s := range p.Pieces {
		if s.Name == "" || seen[s.Name] {
			return &Problem{Field: pieceField(s.Name), Text: "has no name or one that is taken", Accepted: "a name that no other entry has"}
		}
		seen[s.Name] = true
		if err := pr.applySpec(s, drafted); err != nil {
			return err
		}
	}
	if err := pr.applySeams(p); err != nil {
		return err
	}
	pr.leaveOut()
	if len(pr.Garment.Pieces) == 0 {
		return &Problem{Field: "pieces", Text: "leave nothing to cut", Accepted: "a draft, or at least one piece with copies"}
	}
	return nil
}

// leaveOut drops pieces without copies and says what loses its partner.
func (pr *Prepared) leaveOut() {
	g := &pr.Garment
	for _, piece := range g.Pieces {
		if piece.Copies > 0 {
			continue
		}
		var lone []string
		var seams []garment.Seam
		for _, s := range g.Seams {
			switch {
			case s.A.Piece != piece.Name && s.B.Piece != piece.Name:
				seams = append(seams, s)
			case s.A.Piece != s.B.Piece:
				lone = append(lone, s.Name)
			}
		}
		g.Seams = seams
		if len(lone) > 0 {
			pr.Notes = append(pr.Notes, fmt.Sprintf("%s is left out; these seams are then not sewn: %s.", piece.Name, strings.Join(lone, ", ")))
		}
	}
	g.Pieces = slices.DeleteFunc(g.Pieces, func(p garment.Piece) bool { return p.Copies == 0 })
}

// applySpec overrides one of the first `drafted` pieces, or adds a piece.
func (pr *Prepared) applySpec(s PieceSpec, drafted int) error {
	g := &pr.Garment
	i := slices.IndexFunc(g.Pieces[:drafted], func(p garment.Piece) bool { return p.Name == s.Name })
	own := i < 0
	switch {
	case own && s.Shape == "":
		return unknownPiece(s.Name, g.Pieces[:drafted])
	case !own && s.Shape != "":
		return &Problem{Field: pieceField(s.Name) + ".shape", Text: fmt.Sprintf("is %q, but the draft gives this piece its shape", s.Shape),
			Accepted: "no shape, or another name for a piece of your own"}
	}
	var piece garment.Piece
	if own {
		var err error
		if piece, err = ownPiece(s); err != nil {
			return err
		}
	} else {
		piece = g.Pieces[i]
		piece.Edges, piece.Marks = slices.Clone(piece.Edges), slices.Clone(piece.Marks)
	}
	if err := override(&piece, s); err != nil {
		return err
	}
	if own {
		g.Pieces = append(g.Pieces, piece)
	} else {
		g.Pieces[i] = piece
	}
	return nil
}

func unknownPiece(name string, drafted []garment.Piece) error {
	var names []string
	for _, p := range drafted {
		names = append(names, p.Name)
	}
	accepted := "a shape for a piece of your own"
	if len(names) > 0 {
		accepted += ", or the name of a drafted piece: " + strings.Join(names, ", ")
	}
	text := "has no shape, and no drafted piece is called so"
	if n := nearest(name, names); n != "" {
		text += fmt.Sprintf(" (did you mean %q?)", n)
	}
	return &Problem{Field: pieceField(name), Text: text, Accepted: accepted}
}

// ownPiece is a piece of the plan's own: one copy, along the warp, unless told
// otherwise.
func ownPiece(s PieceSpec) (garment.Piece, error) {
	var outline geometry.Polygon
	var edges []garment.Edge
	var err error
	if s.Shape == "polygon" {
		outline, edges, err = garment.FromPoints(s.Points, s.EdgeNames...)
	} else {
		outline, edges, err = garment.FromShape(s.Shape, s.Dims)
	}
	if err != nil {
		return garment.Piece{}, &Problem{Field: pieceField(s.Name), Text: "has no usable shape: " + err.Error()}
	}
	return garment.Piece{Name: s.Name, Copies: 1, Grain: garment.GrainWarp, Outline: outline, Edges: edges}, nil
}

// maxCopies is far beyond any garment, and keeps a slip from filling the memory.
const maxCopies = 200

func override(piece *garment.Piece, s PieceSpec) error {
	field := pieceField(s.Name)
	if s.Copies != nil {
		if *s.Copies < 0 || *s.Copies > maxCopies {
			return &Problem{Field: field + ".copies", Text: fmt.Sprintf("is %d", *s.Copies), Accepted: fmt.Sprintf("0 to %d", maxCopies)}
		}
		piece.Copies = *s.Copies
	}
	switch s.Grain {
	case "":
	case garment.GrainWarp, garment.GrainWeft, garment.GrainFree:
		piece.Grain = s.Grain
	default:
		return &Problem{Field: field + ".grain", Text: fmt.Sprintf("is %q", s.Grain), Accepted: "warp, weft or free"}
	}
	for _, name := range sortedKeys(s.Finish) {
		if err := setFinish(piece, name, s.Finish[name]); err != nil {
			return err
		}
	}
	for _, name := range sortedKeys(s.AllowanceCM) {
		if err := setAllowance(piece, name, s.AllowanceCM[name]); err != nil {
			return err
		}
	}
	return nil
}

func setFinish(piece *garment.Piece, name string, f garment.Finish) error {
	field := fmt.Sprintf("%s.edges[%s].finish", pieceField(piece.Name), name)
	if !slices.Contains(garment.Finishes(), f) {
		return &Problem{Field: field, Text: fmt.Sprintf("is %q", f), Accepted: "seam, hem, facing, bound, selvedge, fold or raw"}
	}
	found := false
	for i := range piece.Edges {
		if piece.Edges[i].Name == name {
			piece.Edges[i].Finish, found = f, true
		}
	}
	for i := range piece.Marks {
		m := &piece.Marks[i]
		if m.Name == name && m.Kind != garment.MarkFold {
			m.Finish, found = f, true
		}
	}
	if !found {
		return unknownEdge(field, piece, name)
	}
	return nil
}

func setAllowance(piece *garment.Piece, name string, cm float64) error {
	field := fmt.Sprintf("%s.edges[%s].allowance_cm", pieceField(piece.Name), name)
	if !(cm >= 0 && cm <= 50) {
		return &Problem{Field: field, Text: fmt.Sprintf("is %g", cm), Accepted: "0 to 50 cm"}
	}
	found := false
	for i := range piece.Edges {
		if piece.Edges[i].Name == name {
			piece.Edges[i].AllowanceCM, found = &cm, true
		}
	}
	if !found {
		return unknownEdge(field, piece, name)
	}
	return nil
}

func unknownEdge(field string, piece *garment.Piece, name string) error {
	var names []string
	for _, e := range piece.Edges {
		if !slices.Contains(names, e.Name) {
			names = append(names, e.Name)
		}
	}
	text := "names an edge that this piece does not have"
	if n := nearest(name, names); n != "" {
		text += fmt.Sprintf(" (did you mean %q?)", n)
	}
	return &Problem{Field: field, Text: text, Accepted: strings.Join(names, ", ")}
}

func pieceField(name string) string { return "pieces[" + name + "]" }

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K {
	keys := make([]K, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
