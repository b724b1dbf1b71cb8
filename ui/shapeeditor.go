package ui

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/garment"
	"ellwand/plan"
)

// shapeEditor is where own shapes are made: corners dragged or typed, edges
// given a length and a direction, named, and sewn to each other by two clicks.
// All of it is a change of the plan that undo takes back.
type shapeEditor struct {
	v       *window
	b       *bench
	piece   string
	edge    edgeRef // picked
	first   edgeRef // of a pair, while the second is waited for
	sewing  bool
	board   *shapeBoard
	sew     *widget.Button
	rows    *fyne.Container
	shape   string // of the rows: they are made anew when it changes
	cells   []*cellEntry
	seams   *fyne.Container
	list    *fyne.Container // rows and seams
	pieces  []garment.Piece // of the whole plan
	all     *widget.Check   // drafted pieces are shown too
	message *paragraph
	root    fyne.CanvasObject
	dialog  *dialog.CustomDialog
}

// openShapes opens the editor on a piece of the plan's own, or on a new one.
func (v *window) openShapes() {
	v.settle()
	e := newShapeEditor(v)
	e.dialog = dialog.NewCustom(words("Own shapes and seams"), words("Done"), e.root, v)
	size := v.Canvas().Size()
	e.dialog.Resize(fyne.NewSize(size.Width-40, size.Height-50))
	e.dialog.Show()
	e.follow(v.Canvas().Overlays().Top())
}

// follow keeps the editor up to the plan for as long as it is open. Escape takes
// the dialog away without closing it, so it is looked for each time.
func (e *shapeEditor) follow(overlay fyne.CanvasObject) {
	var deaf func()
	deaf = e.b.onChange(func(t topic) {
		if !slices.Contains(e.v.Canvas().Overlays().List(), overlay) {
			deaf()
			return
		}
		if t != packChanged && t != boundChanged {
			e.show()
		}
	})
}

func newShapeEditor(v *window) *shapeEditor {
	e := &shapeEditor{v: v, b: v.b, rows: container.NewVBox(), seams: container.NewVBox(), message: newParagraph("", 1080)}
	e.board = newShapeBoard(e)
	e.piece = v.b.pieceOf()
	if s := specOf(v.b.plan(), e.piece); s == nil || s.Shape == "" {
		e.piece = ""
		for _, s := range v.b.plan().Pieces {
			if s.Shape != "" {
				e.piece = s.Name
			}
		}
	}
	e.sew = widget.NewButton(words("Sew two edges"), e.sewTwo)
	button := func(text string, do func()) fyne.CanvasObject { return widget.NewButton(words(text), do) }
	bar := container.NewHBox(button("New piece", e.addPiece), button("Add a corner", e.addCorner), button("Take the corner away", e.dropCorner), e.sew,
		button("Undo", func() { e.b.undo() }))
	e.list = container.NewVBox(e.rows, newGap(10), e.seams)
	e.all = widget.NewCheck(words("Drafted pieces too"), func(bool) { e.show() })
	bar.Add(e.all)
	side := container.New(&fixedWidth{520}, container.NewVScroll(e.list))
	e.root = container.NewBorder(container.NewVBox(bar, e.message), nil, nil, side, e.board)
	e.say(words("Drag a corner, or type at the right. A click on an edge picks it; to sew, press Sew two edges and click on both."), false)
	e.show()
	return e
}

func (e *shapeEditor) say(text string, wrong bool) {
	e.message.colour = theme.ColorNameForeground
	if wrong {
		e.message.colour, text = theme.ColorNameError, "! "+text
	}
	e.message.text = text
	e.message.Refresh()
}

func (e *shapeEditor) units() string { return e.b.plan().ShowUnits }

// try changes the plan; what cannot be is said and changes nothing.
func (e *shapeEditor) try(name string, change func(*plan.Plan) error) error {
	err := e.b.do(name, change)
	if err != nil {
		e.say(sentence(err, ""), true)
	} else {
		e.say("", false)
	}
	e.show()
	return err
}

// show brings everything up to the plan.
func (e *shapeEditor) show() {
	var own, drafted []boardPiece
	pr, err := plan.Prepare(e.b.plan())
	pieces := []garment.Piece{}
	if err == nil {
		pieces = pr.Garment.Pieces
	} else if e.b.shown != nil {
		pieces = e.b.shown.Garment.Pieces
	}
	e.pieces = pieces
	for _, p := range pieces {
		if s := specOf(e.b.plan(), p.Name); s != nil && s.Shape != "" {
			own = append(own, boardPiece{piece: p, own: true})
		} else {
			drafted = append(drafted, boardPiece{piece: p})
		}
	}
	if s := specOf(e.b.plan(), e.piece); s == nil {
		e.piece, e.edge = "", edgeRef{}
	}
	if e.all.Checked || len(own) == 0 {
		own = append(own, drafted...)
	}
	e.board.arrange(own)
	e.board.Refresh()
	e.showRows()
	e.showSeams()
	e.list.Refresh()
}

// edgeShape is a number of an edge or its corner: where it is shown and how it
// is set.
type edgeNumber struct {
	head string
	get  func(points [][2]float64, i int) float64
	set  func(points [][2]float64, i int, v float64)
	cm   bool
}

// edgeNumbers are what can be typed of an edge from corner i to the next: its
// length and direction, which move the corner at its end, and the corner where
// it begins.
func edgeNumbers() []edgeNumber {
	end := func(p [][2]float64, i int) int { return (i + 1) % len(p) }
	long := func(p [][2]float64, i int) float64 {
		j := end(p, i)
		return math.Hypot(p[j][0]-p[i][0], p[j][1]-p[i][1])
	}
	way := func(p [][2]float64, i int) float64 {
		j := end(p, i)
		return math.Atan2(p[j][1]-p[i][1], p[j][0]-p[i][0])
	}
	put := func(p [][2]float64, i int, l, a float64) {
		s, c := math.Sincos(a)
		p[end(p, i)] = [2]float64{p[i][0] + l*c, p[i][1] + l*s}
	}
	return []edgeNumber{
		{"length", long, func(p [][2]float64, i int, v float64) { put(p, i, v, way(p, i)) }, true},
		{"direction °", func(p [][2]float64, i int) float64 { return way(p, i) * 180 / math.Pi },
			func(p [][2]float64, i int, v float64) { put(p, i, long(p, i), v*math.Pi/180) }, false},
		{"from: along", func(p [][2]float64, i int) float64 { return p[i][0] }, func(p [][2]float64, i int, v float64) { p[i][0] = v }, true},
		{"across", func(p [][2]float64, i int) float64 { return p[i][1] }, func(p [][2]float64, i int, v float64) { p[i][1] = v }, true},
	}
}

// shownNumber is a number as the fields show it, to a hundredth.
func (e *shapeEditor) shownNumber(n edgeNumber, v float64) string {
	if n.cm && e.units() == "inch" {
		v /= 2.54
	}
	v = math.Round(v*100) / 100
	if v == 0 {
		v = 0 // no −0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// showRows is the table of the picked piece's edges.
func (e *shapeEditor) showRows() {
	points, edges, ok := e.b.plan().Corners(e.piece)
	shape := e.piece + fmt.Sprint(len(points), ok, e.units())
	if shape != e.shape {
		e.shape = shape
		e.makeRows(points, edges, ok)
	}
	for _, c := range e.cells {
		c.sync()
	}
}

func (e *shapeEditor) makeRows(points [][2]float64, edges []string, ok bool) {
	e.rows.RemoveAll()
	e.cells = nil
	if !ok {
		e.rows.Add(newHint(words("No piece of your own is picked. Press New piece, or click on one; drafted pieces, in grey, can only be sewn to."), 490))
		return
	}
	name := newCellEntry(func() string { return e.piece }, func(text string) error {
		old := e.piece
		e.piece = text
		if err := e.try("rename "+old, func(p *plan.Plan) error { return p.RenamePiece(old, text) }); err != nil {
			e.piece = old
			return err
		}
		return nil
	})
	e.cells = append(e.cells, name)
	e.rows.Add(container.NewBorder(nil, nil, container.New(&fixedWidth{70}, widget.NewLabel(words("Piece"))), nil, name))
	if len(points) > 60 {
		e.rows.Add(newHint(words("%d corners: too many to type; it is a curve.", len(points)), 490))
		return
	}
	unit := "cm"
	if e.units() == "inch" {
		unit = "in"
	}
	heads := container.New(&columns{}, newHint(words("edge"), 130))
	for _, n := range edgeNumbers() {
		head := words(n.head)
		if n.cm {
			head += ", " + unit
		}
		heads.Add(newHint(head, 84))
	}
	e.rows.Add(heads)
	for i := range edges {
		row := container.New(&columns{})
		add := func(c *cellEntry) { e.cells = append(e.cells, c); row.Add(c) }
		add(newCellEntry(func() string { _, names, _ := e.b.plan().Corners(e.piece); return names[i] },
			func(text string) error {
				return e.try("name an edge of "+e.piece, func(p *plan.Plan) error { return p.RenameEdge(e.piece, i, text) })
			}))
		for _, n := range edgeNumbers() {
			add(newCellEntry(func() string { p, _, _ := e.b.plan().Corners(e.piece); return e.shownNumber(n, n.get(p, i)) },
				func(text string) error { return e.typed(n, i, text) }))
		}
		e.rows.Add(row)
	}
}

// typed puts a number that was typed into the piece's outline.
func (e *shapeEditor) typed(n edgeNumber, i int, text string) error {
	v, ok := readNumber(text)
	if !ok || math.Abs(v) > 5000 {
		err := fmt.Errorf(words("%s is %q; accepted is a number"), words(n.head), text)
		e.say(sentence(err, ""), true)
		return err
	}
	if n.cm && e.units() == "inch" {
		v *= 2.54
	}
	return e.try("shape of "+e.piece, func(p *plan.Plan) error {
		points, edges, ok := p.Corners(e.piece)
		if !ok {
			return fmt.Errorf(words("%s has no corners"), e.piece)
		}
		n.set(points, i, v)
		return p.SetCorners(e.piece, points, edges)
	})
}

// dragging says where a corner is while it is dragged.
func (e *shapeEditor) dragging(points [][2]float64) {
	c := points[e.board.held]
	e.say(words("corner at %s along, %s across", length(c[0], e.units()), length(c[1], e.units())), false)
}

// moved takes the corners as they were dragged.
func (e *shapeEditor) moved(points [][2]float64) {
	_ = e.try("move a corner of "+e.piece, func(p *plan.Plan) error {
		_, edges, ok := p.Corners(e.piece)
		if !ok {
			return fmt.Errorf(words("%s has no corners"), e.piece)
		}
		return p.SetCorners(e.piece, points, edges)
	})
}

func (e *shapeEditor) pickPiece(name string) {
	e.piece, e.edge = name, edgeRef{}
	if s := specOf(e.b.plan(), name); s == nil || s.Shape == "" {
		e.piece = ""
		e.say(words("%s is drafted: its shape follows from the body. Its edges can be sewn to.", name), false)
	}
	e.show()
}

// clicked picks an edge, or takes it for a seam.
func (e *shapeEditor) clicked(ref edgeRef) {
	switch {
	case !e.sewing:
		e.edge = ref
		if s := specOf(e.b.plan(), ref.piece); s != nil && s.Shape != "" {
			e.piece = ref.piece
		}
		e.say(words("%s of %s: %s", ref.edge, ref.piece, e.lengthOf(ref)), false)
	case e.first == edgeRef{}:
		e.first = ref
		e.say(words("%s of %s, %s: now click on the edge it is sewn to.", ref.edge, ref.piece, e.lengthOf(ref)), false)
	default:
		e.pair(e.first, ref)
		return
	}
	e.show()
}

func (e *shapeEditor) pieceNamed(name string) (garment.Piece, bool) {
	for _, p := range e.pieces {
		if p.Name == name {
			return p, true
		}
	}
	return garment.Piece{}, false
}

func (e *shapeEditor) cmOf(ref edgeRef) float64 {
	p, _ := e.pieceNamed(ref.piece)
	return garment.EdgeLengthsCM(p)[ref.edge]
}

func (e *shapeEditor) lengthOf(ref edgeRef) string { return length(e.cmOf(ref), e.units()) }

// sewTwo waits for two clicks, or gives up waiting.
func (e *shapeEditor) sewTwo() {
	e.sewing = !e.sewing
	e.first = edgeRef{}
	e.sew.Importance = widget.MediumImportance
	text := words("No longer sewing.")
	if e.sewing {
		e.sew.Importance = widget.HighImportance
		text = words("Click on the first edge.")
	}
	e.sew.Refresh()
	e.say(text, false)
	e.show()
}

// pair sews two edges and says whether their lengths agree.
func (e *shapeEditor) pair(a, b edgeRef) {
	pa, _ := e.pieceNamed(a.piece)
	pb, _ := e.pieceNamed(b.piece)
	e.sewing, e.first = false, edgeRef{}
	e.sew.Importance = widget.MediumImportance
	e.sew.Refresh()
	first, second := e.cmOf(a), e.cmOf(b)
	err := e.try("sew "+a.edge+" to "+b.edge, func(p *plan.Plan) error {
		_, err := p.Pair(a.piece, a.edge, b.piece, b.edge, max(1, min(pa.Copies, pb.Copies)))
		return err
	})
	if err != nil {
		return
	}
	text := words("Sewn: %s and %s.", length(first, e.units()), length(second, e.units()))
	if gap := math.Abs(first - second); gap > garment.SeamToleranceCM {
		e.say(text+" "+words("They differ by %s.", length(gap, e.units())), true)
		return
	}
	e.say(text, false)
}

// sewnEdge says whether an edge is in one of the plan's own seams.
func (e *shapeEditor) sewnEdge(ref edgeRef) bool {
	for _, s := range e.b.plan().Seams {
		if s.Piece == ref.piece && slices.Contains(s.Edges, ref.edge) || s.ToPiece == ref.piece && slices.Contains(s.ToEdges, ref.edge) {
			return true
		}
	}
	return false
}

// showSeams lists the plan's own seams with both lengths.
func (e *shapeEditor) showSeams() {
	e.seams.RemoveAll()
	head := newParagraph(words("Seams of your own"), 490)
	head.style.Bold = true
	e.seams.Add(head)
	found := false
	for _, s := range e.b.plan().Seams {
		if s.Piece == "" {
			continue
		}
		found = true
		e.seams.Add(e.seamRow(s))
	}
	if !found {
		e.seams.Add(newHint(words("None yet."), 490))
	}
	e.seams.Refresh()
}

func (e *shapeEditor) seamRow(s plan.SeamSpec) fyne.CanvasObject {
	side := func(piece string, edges []string) float64 {
		sum := 0.0
		for _, edge := range edges {
			sum += e.cmOf(edgeRef{piece, edge})
		}
		return sum
	}
	a, b := side(s.Piece, s.Edges), side(s.ToPiece, s.ToEdges)
	text := newParagraph(fmt.Sprintf("%s: %s, %s", s.Name, length(a, e.units()), length(b, e.units())), 380)
	if gap := math.Abs(a - b); gap > garment.SeamToleranceCM {
		text.colour = theme.ColorNameError
		text.text = "! " + text.text + "; " + words("they differ by %s", length(gap, e.units()))
	}
	away := widget.NewButton(words("Undo this seam"), func() {
		_ = e.try("take the seam "+s.Name+" away", func(p *plan.Plan) error {
			p.Seams = slices.DeleteFunc(slices.Clone(p.Seams), func(o plan.SeamSpec) bool { return o.Name == s.Name })
			return nil
		})
	})
	away.Importance = widget.LowImportance
	return container.NewBorder(nil, nil, nil, away, text)
}

func (e *shapeEditor) addPiece() {
	name := freshName("own piece", func(n string) bool {
		_, cut := e.pieceNamed(n)
		return cut || specOf(e.b.plan(), n) != nil
	})
	if e.try("add a piece", func(p *plan.Plan) error { return p.AddPiece(name, 30, 20) }) == nil {
		e.piece = name
		e.b.pick(name + "/1")
		e.show()
	}
}

// cornerOf is the number of the edge picked, among the picked piece's.
func (e *shapeEditor) cornerOf(edges []string) int {
	return slices.Index(edges, e.edge.edge)
}

// addCorner halves the edge picked, or the longest.
func (e *shapeEditor) addCorner() {
	points, edges, ok := e.b.plan().Corners(e.piece)
	if !ok {
		e.say(words("No piece of your own is picked."), true)
		return
	}
	i := e.cornerOf(edges)
	if i < 0 {
		long := edgeNumbers()[0].get
		for k := range points {
			if i < 0 || long(points, k) > long(points, i) {
				i = k
			}
		}
	}
	j := (i + 1) % len(points)
	mid := [2]float64{(points[i][0] + points[j][0]) / 2, (points[i][1] + points[j][1]) / 2}
	name := freshName(edges[i]+" b", func(n string) bool { return slices.Contains(edges, n) })
	points, edges = slices.Insert(points, i+1, mid), slices.Insert(edges, i+1, name)
	// A corner on a straight line is none: it stands out by a hundredth of the edge.
	dx, dy := points[i+2-len(points)*((i+2)/len(points))][0]-points[i][0], points[i+2-len(points)*((i+2)/len(points))][1]-points[i][1]
	points[i+1][0] += dy * 0.02
	points[i+1][1] -= dx * 0.02
	_ = e.try("add a corner to "+e.piece, func(p *plan.Plan) error { return p.SetCorners(e.piece, points, edges) })
}

// dropCorner takes the corner at the end of the edge picked away.
func (e *shapeEditor) dropCorner() {
	points, edges, ok := e.b.plan().Corners(e.piece)
	i := e.cornerOf(edges)
	switch {
	case !ok || i < 0:
		e.say(words("Click on an edge first: the corner at its end is taken away."), true)
		return
	case len(points) < 4:
		e.say(words("A piece has three corners at least."), true)
		return
	}
	j := (i + 1) % len(points)
	points, edges = slices.Delete(points, j, j+1), slices.Delete(edges, j, j+1)
	_ = e.try("take a corner of "+e.piece+" away", func(p *plan.Plan) error { return p.SetCorners(e.piece, points, edges) })
}
