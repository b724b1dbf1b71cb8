package ui

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/widget"

	"ellwand/garment"
	"ellwand/plan"
)

// changeDraft takes another draft. Parameters and overrides of pieces that the
// new draft does not have are dropped; undo brings them back.
func changeDraft(draft string) func(*plan.Plan) error {
	return func(p *plan.Plan) error {
		if err := plan.SetField(p, "garment.draft", draft); err != nil {
			return err
		}
		known := map[string]bool{}
		for _, d := range garment.Drafts() {
			if d.Key == draft {
				for _, q := range d.Params() {
					known[q.Key] = true
				}
			}
		}
		maps.DeleteFunc(p.Params, func(key string, _ float64) bool { return !known[key] })
		p.Pieces = slices.DeleteFunc(p.Pieces, func(s plan.PieceSpec) bool { return s.Shape == "" })
		p.Seams = slices.DeleteFunc(p.Seams, func(s plan.SeamSpec) bool { return !s.Own(p) })
		p.NewDraft()
		if draft == "" && len(p.Pieces) == 0 {
			return p.AddPiece("own piece", 60, 40)
		}
		return nil
	}
}

// specOf is the plan's entry for a piece; nil when it stands as drafted.
func specOf(p *plan.Plan, name string) *plan.PieceSpec {
	for i := range p.Pieces {
		if p.Pieces[i].Name == name {
			return &p.Pieces[i]
		}
	}
	return nil
}

// override is specOf, made when there is none yet.
func override(p *plan.Plan, name string) *plan.PieceSpec {
	if specOf(p, name) == nil {
		p.Pieces = append(p.Pieces, plan.PieceSpec{Name: name})
	}
	s := specOf(p, name)
	if s.Finish == nil {
		s.Finish = map[string]garment.Finish{}
	}
	if s.AllowanceCM == nil {
		s.AllowanceCM = map[string]float64{}
	}
	return s
}

// pieceOf is the piece of the item picked.
func (b *bench) pieceOf() string {
	if i := strings.LastIndex(b.picked, "/"); i >= 0 {
		return b.picked[:i]
	}
	return ""
}

// piece is a piece as it was last worked out.
func (b *bench) piece(name string) (plan.PieceResult, bool) {
	if b.shown != nil {
		for _, p := range b.shown.Pieces {
			if p.Piece.Name == name {
				return p, true
			}
		}
	}
	return plan.PieceResult{}, false
}

func piecesShape(b *bench) string {
	shape := b.plan().Draft + "|" + b.pieceOf()
	for _, s := range b.plan().Pieces {
		shape += fmt.Sprintf("|%s:%s:%v", s.Name, s.Shape, s.Copies != nil && *s.Copies == 0)
	}
	if b.shown != nil {
		for _, p := range b.shown.Pieces {
			shape += "|" + p.Piece.Name
		}
	}
	return shape
}

func fillPieces(f *form) {
	if f.b.shown != nil {
		for _, p := range f.b.shown.Pieces {
			f.pieceRow(p.Piece.Name)
		}
	}
	for _, s := range f.b.plan().Pieces {
		if s.Copies != nil && *s.Copies == 0 {
			f.add(newHint(s.Name+": left out", panelWidth))
			f.button("Cut it again", func() error {
				return f.b.do("cut "+s.Name, func(p *plan.Plan) error { specOf(p, s.Name).Copies = nil; return nil })
			})
		}
	}
	f.gap(4)
	f.button("Add a piece of your own", f.addPiece)
	f.button("Shapes and seams of your own…", func() error { f.shapes(); return nil })
	if name := f.b.pieceOf(); name != "" {
		if p, ok := f.b.piece(name); ok {
			f.pieceDetail(p.Piece)
		}
	}
}

func (f *form) pieceRow(name string) {
	words := func() string {
		p, ok := f.b.piece(name)
		if !ok {
			return name
		}
		u := f.b.plan().ShowUnits
		return words("%d × %s, cut %s × %s", p.Piece.Copies, name, length(p.CutLengthCM, u), length(p.CutWidthCM, u))
	}
	button := widget.NewButton(words(), func() { f.b.pick(name + "/1") })
	button.Alignment = widget.ButtonAlignLeading
	if name == f.b.pieceOf() {
		button.Importance = widget.HighImportance
	}
	f.live = append(f.live, func() { button.SetText(words()) })
	f.add(button)
}

func (f *form) addPiece() error {
	name := freshName("own piece", func(n string) bool {
		_, cut := f.b.piece(n)
		return cut || specOf(f.b.plan(), n) != nil
	})
	if err := f.b.do("add a piece", func(p *plan.Plan) error { return p.AddPiece(name, 60, 20) }); err != nil {
		return err
	}
	f.b.pick(name + "/1")
	return nil
}

// freshName is a name that is not taken.
func freshName(stem string, taken func(string) bool) string {
	name := stem
	for n := 2; taken(name); n++ {
		name = fmt.Sprintf("%s %d", stem, n)
	}
	return name
}

func (f *form) pieceDetail(p garment.Piece) {
	f.heading(p.Name)
	switch whole := f.b.plan().WholeOf(p.Name); {
	case p.Note != "" && whole != p.Name:
		f.add(newHint(words("Of the whole %s: %s", whole, p.Note), panelWidth))
	case p.Note != "":
		f.note(p.Note)
	}
	spec := specOf(f.b.plan(), p.Name)
	own := spec != nil && spec.Shape != ""
	if own {
		f.ownPiece(p.Name, spec.Shape)
	}
	f.overridden(p.Name, "copies", "Copies", func(q garment.Piece) string { return strconv.Itoa(q.Copies) }, nil)
	f.overridden(p.Name, "grain", "Grain", func(q garment.Piece) string { return string(q.Grain) }, []option{
		{string(garment.GrainWarp), "along the warp"}, {string(garment.GrainWeft), "across the cloth"}, {string(garment.GrainFree), "either way"},
	})
	f.piecing(f.b.plan().WholeOf(p.Name))
	f.heading("Its edges")
	f.note("How each edge is finished, and the allowance outside it; empty: the usual one.")
	var seen []string
	for _, e := range p.Edges {
		if !slices.Contains(seen, e.Name) {
			seen = append(seen, e.Name)
			f.edge(p.Name, e.Name)
		}
	}
	switch {
	case own:
		f.button("Remove this piece", func() error { return f.dropSpec("remove "+p.Name, p.Name) })
	case spec != nil:
		f.button("Back to how it is drafted", func() error { return f.dropSpec("redraft "+p.Name, p.Name) })
	}
}

func (f *form) dropSpec(name, piece string) error {
	return f.b.do(name, func(p *plan.Plan) error {
		if s := specOf(p, piece); s != nil && s.Shape != "" {
			p.DropSeamsOf(piece)
		}
		p.Pieces = slices.DeleteFunc(p.Pieces, func(s plan.PieceSpec) bool { return s.Name == piece })
		return nil
	})
}

// ownPiece adds the fields that only a piece of one's own has.
func (f *form) ownPiece(name, shape string) {
	under := "pieces[" + name + "]."
	title := f.plain(under+"name", "Name", "")
	title.set = func(text string) error {
		return f.b.renamePiece(name, text)
	}
	f.put(title)
	if shape == "polygon" {
		f.button("Its corners and edges…", func() error { f.shapes(); return nil })
		return
	}
	form := f.plain(under+"shape", "Shape", "")
	for _, s := range garment.Shapes() {
		form.options = append(form.options, option{s.Key, s.Label})
	}
	form.set = func(key string) error {
		return f.b.do("shape of "+name, func(p *plan.Plan) error { p.DropSeamsOf(name); return reshape(specOf(p, name), key) })
	}
	f.put(form)
	for _, s := range garment.Shapes() {
		if s.Key == shape {
			for _, d := range s.Dims {
				f.put(f.plain(under+d, plainWords(d), "cm"))
			}
		}
	}
}

// renamePiece renames a piece of one's own, which stays picked. It is the same
// piece, so the lay that is shown stays too.
func (b *bench) renamePiece(old, name string) error {
	picked := b.picked
	err := b.do("rename "+old, func(p *plan.Plan) error {
		if b.current() {
			p.KeepLay(b.shown)
		}
		if err := p.RenamePiece(old, name); err != nil {
			return err
		}
		b.picked, b.also = name+"/1", nil
		return nil
	})
	if err != nil {
		b.picked = picked
	}
	return err
}

// reshape gives an own piece another shape; dimensions it has no value for yet
// are taken from those it had.
func reshape(s *plan.PieceSpec, key string) error {
	for _, shape := range garment.Shapes() {
		if shape.Key != key {
			continue
		}
		dims, most := map[string]float64{}, 20.0
		for _, v := range s.Dims {
			most = max(most, v)
		}
		for n, d := range shape.Dims {
			v, ok := s.Dims[d]
			if !ok {
				v = most / float64(n+1)
				if strings.Contains(d, "radius") {
					v /= 2
				}
			}
			dims[d] = v
		}
		s.Shape, s.Dims, s.Points, s.EdgeNames = key, dims, nil, nil
		s.Finish, s.AllowanceCM = nil, nil // the edges have other names now
		return nil
	}
	return fmt.Errorf(words("%q is no shape"), key)
}

// plainWords makes a label of a dimension's name: "neck_radius_cm", "Neck radius".
func plainWords(name string) string {
	words := strings.ReplaceAll(strings.TrimSuffix(name, "_cm"), "_", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

// overridden adds a field that shows the piece as worked out and writes an
// override.
func (f *form) overridden(name, key, label string, of func(garment.Piece) string, options []option) {
	path := "pieces[" + name + "]." + key
	set := func(p *plan.Plan, text string) error {
		override(p, name)
		return plan.SetField(p, path, text)
	}
	f.put(fieldSpec{path: path, label: label, options: options,
		get: func() string {
			if v := plan.GetField(f.b.plan(), path); v != "" {
				return v
			}
			q, _ := f.b.piece(name)
			return of(q.Piece)
		},
		try: func(text string) error { return set(f.b.plan().Clone(), text) },
		set: func(text string) error {
			return f.b.do(strings.ToLower(label)+" of "+name, func(p *plan.Plan) error { return set(p, text) })
		},
	})
}

func (f *form) edge(piece, edge string) {
	finish := fieldSpec{path: "pieces[" + piece + "].edges[" + edge + "].finish", label: plainWords(edge)}
	for _, v := range garment.Finishes() {
		finish.options = append(finish.options, option{string(v), string(v)})
	}
	find := func() (garment.Edge, bool) {
		q, _ := f.b.piece(piece)
		for _, e := range q.Piece.Edges {
			if e.Name == edge {
				return e, true
			}
		}
		return garment.Edge{}, false
	}
	finish.get = func() string {
		e, _ := find()
		return string(e.Finish)
	}
	finish.set = func(text string) error {
		return f.b.do("finish of "+edge, func(p *plan.Plan) error {
			override(p, piece).Finish[edge] = garment.Finish(text)
			return nil
		})
	}
	f.put(finish)
	room := fieldSpec{path: "pieces[" + piece + "].edges[" + edge + "].allowance_cm", label: "    allowance", unit: "cm"}
	room.hint = func() string { e, _ := find(); return usualAllowance(f.b.plan(), e.Finish) }
	room.get = func() string {
		if s := specOf(f.b.plan(), piece); s != nil {
			if v, ok := s.AllowanceCM[edge]; ok {
				return strconv.FormatFloat(v, 'f', -1, 64)
			}
		}
		return ""
	}
	room.try = func(text string) error { return setRoom(f.b.plan().Clone(), room.path, piece, edge, text) }
	room.set = func(text string) error {
		return f.b.do("allowance of "+edge, func(p *plan.Plan) error { return setRoom(p, room.path, piece, edge, text) })
	}
	f.put(room)
}

// setRoom sets the allowance of one edge, or with an empty text takes it away.
func setRoom(p *plan.Plan, path, piece, edge, text string) error {
	if text == "" {
		delete(override(p, piece).AllowanceCM, edge)
		return nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v >= 0 && v <= 20) {
		return &plan.Problem{Field: path, Text: "is " + strconv.Quote(text), Accepted: "a bare number from 0 to 20 cm"}
	}
	override(p, piece).AllowanceCM[edge] = v
	return nil
}

// usualAllowance is what an edge of that finish has when it says nothing.
func usualAllowance(p *plan.Plan, f garment.Finish) string {
	usual := map[garment.Finish]float64{garment.FinishSeam: p.Allowances.SeamCM, garment.FinishHem: p.Allowances.HemCM, garment.FinishFaced: p.Allowances.SeamCM,
		garment.FinishSelvedge: p.Allowances.SelvedgeEdgeCM}
	return strconv.FormatFloat(usual[f], 'f', -1, 64)
}
