package ui

import (
	"fmt"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/garment"
	"ellwand/geometry"
)

// edgeRef is a named edge of a piece.
type edgeRef struct{ piece, edge string }

// boardPiece is one piece on the board, with where its frame begins.
type boardPiece struct {
	piece garment.Piece
	own   bool
	at    geometry.Point // cm, of the piece's lower left corner on the board
}

// shapeBoard shows pieces side by side: a click picks a piece or an edge, the
// corners of an own piece are dragged. x of a piece runs to the right, y up.
type shapeBoard struct {
	widget.BaseWidget
	e       *shapeEditor
	pieces  []boardPiece
	wide    float64 // cm of the whole board
	high    float64
	held    int // the corner that is dragged, -1 for none
	started bool
	points  [][2]float64 // of the picked piece while a corner is dragged
}

func newShapeBoard(e *shapeEditor) *shapeBoard {
	b := &shapeBoard{e: e, held: -1}
	b.ExtendBaseWidget(b)
	return b
}

// arrange lays the pieces out in rows about twice as wide as high.
func (b *shapeBoard) arrange(pieces []boardPiece) {
	const gap = 6.0
	total := 0.0
	for _, p := range pieces {
		box := p.piece.Outline.Bounds()
		total += (box.Width() + gap) * (box.Height() + gap)
	}
	most := math.Sqrt(total) * 1.5
	x, y, row := 0.0, 0.0, 0.0
	b.wide, b.high = 1, 1
	for i := range pieces {
		box := pieces[i].piece.Outline.Bounds()
		if x > 0 && x+box.Width() > most {
			x, y, row = 0, y+row+gap, 0
		}
		pieces[i].at = geometry.Point{X: x - box.MinX, Y: y - box.MinY}
		x, row = x+box.Width()+gap, max(row, box.Height())
		b.wide, b.high = max(b.wide, x), max(b.high, y+row)
	}
	b.pieces = pieces
}

const boardEdge = 26

func (b *shapeBoard) scale() float64 {
	s := b.Size()
	return min(float64(s.Width-2*boardEdge)/b.wide, float64(s.Height-2*boardEdge)/b.high)
}

func (b *shapeBoard) pos(p boardPiece, x, y float64) fyne.Position {
	k := b.scale()
	return fyne.NewPos(boardEdge+float32((p.at.X+x)*k), b.Size().Height-boardEdge-float32((p.at.Y+y)*k))
}

// cm is the point of a piece's frame under a position.
func (b *shapeBoard) cm(p boardPiece, at fyne.Position) (x, y float64) {
	k := b.scale()
	return float64(at.X-boardEdge)/k - p.at.X, float64(b.Size().Height-boardEdge-at.Y)/k - p.at.Y
}

// corners are a piece's, as they are being dragged.
func (b *shapeBoard) corners(p boardPiece) [][2]float64 {
	if p.piece.Name == b.e.piece && b.points != nil {
		return b.points
	}
	var out [][2]float64
	for _, v := range p.piece.Outline {
		out = append(out, [2]float64{v.X, v.Y})
	}
	return out
}

func apart(a, b fyne.Position) float32 {
	return float32(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)))
}

// missBy is how many units a pointer may miss a corner or an edge by.
const missBy = 9

// cornerAt is the corner of the picked own piece under a position, -1 for none.
func (b *shapeBoard) cornerAt(at fyne.Position) int {
	points, _, ok := b.e.b.plan().Corners(b.e.piece)
	if !ok {
		return -1
	}
	for _, p := range b.pieces {
		if p.piece.Name != b.e.piece {
			continue
		}
		for i, c := range points {
			if apart(b.pos(p, c[0], c[1]), at) <= missBy {
				return i
			}
		}
	}
	return -1
}

// edgeAt is the edge nearest to a position; false when none is near.
func (b *shapeBoard) edgeAt(at fyne.Position) (edgeRef, bool) {
	best, found := float32(missBy), edgeRef{}
	for _, p := range b.pieces {
		n := len(p.piece.Outline)
		for i, e := range p.piece.Edges {
			u, v := p.piece.Outline[i], p.piece.Outline[(i+1)%n]
			d := toStretch(at, b.pos(p, u.X, u.Y), b.pos(p, v.X, v.Y))
			if d < best {
				best, found = d, edgeRef{p.piece.Name, e.Name}
			}
		}
	}
	return found, found.piece != ""
}

func toStretch(at, u, v fyne.Position) float32 {
	dx, dy := v.X-u.X, v.Y-u.Y
	t := float32(0)
	if l := dx*dx + dy*dy; l > 0 {
		t = max(0, min(1, ((at.X-u.X)*dx+(at.Y-u.Y)*dy)/l))
	}
	return apart(at, fyne.NewPos(u.X+t*dx, u.Y+t*dy))
}

// Tapped implements fyne.Tappable.
func (b *shapeBoard) Tapped(e *fyne.PointEvent) {
	if edge, ok := b.edgeAt(e.Position); ok {
		b.e.clicked(edge)
		return
	}
	for _, p := range b.pieces {
		x, y := b.cm(p, e.Position)
		if geometry.Locate(p.piece.Outline, geometry.Point{X: x, Y: y}) != geometry.Outside {
			b.e.pickPiece(p.piece.Name)
			return
		}
	}
}

// Dragged implements fyne.Draggable.
func (b *shapeBoard) Dragged(e *fyne.DragEvent) {
	if !b.started {
		b.started = true
		b.held = b.cornerAt(fyne.NewPos(e.Position.X-e.Dragged.DX, e.Position.Y-e.Dragged.DY))
		b.points, _, _ = b.e.b.plan().Corners(b.e.piece)
	}
	if b.held < 0 {
		return
	}
	for _, p := range b.pieces {
		if p.piece.Name == b.e.piece {
			x, y := b.cm(p, e.Position)
			b.points[b.held] = [2]float64{math.Round(x*2) / 2, math.Round(y*2) / 2} // half cm, as chalk is drawn
		}
	}
	b.e.dragging(b.points)
	b.Refresh()
}

// DragEnd implements fyne.Draggable.
func (b *shapeBoard) DragEnd() {
	held, points := b.held, b.points
	b.held, b.points, b.started = -1, nil, false
	if held >= 0 {
		b.e.moved(points)
	}
	b.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (b *shapeBoard) CreateRenderer() fyne.WidgetRenderer {
	return &boardRenderer{b: b, ground: canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))}
}

type boardRenderer struct {
	b       *shapeBoard
	ground  *canvas.Rectangle
	objects []fyne.CanvasObject
}

func (r *boardRenderer) MinSize() fyne.Size { return fyne.NewSize(360, 300) }
func (r *boardRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.draw()
}
func (r *boardRenderer) Refresh()                     { r.draw(); canvas.Refresh(r.b) }
func (r *boardRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *boardRenderer) Destroy()                     {}

// draw makes the lines, handles and words anew.
func (r *boardRenderer) draw() {
	r.ground.FillColor = theme.Color(theme.ColorNameInputBackground)
	r.objects = []fyne.CanvasObject{r.ground}
	for _, p := range r.b.pieces {
		r.piece(p)
	}
}

func (r *boardRenderer) piece(p boardPiece) {
	b, picked := r.b, p.piece.Name == r.b.e.piece
	points := b.corners(p)
	ink := theme.Color(theme.ColorNameForeground)
	if !p.own {
		ink = theme.Color(theme.ColorNamePlaceHolder)
	}
	var middle fyne.Position
	for i, c := range points {
		d := points[(i+1)%len(points)]
		u, v := b.pos(p, c[0], c[1]), b.pos(p, d[0], d[1])
		name := ""
		if i < len(p.piece.Edges) {
			name = p.piece.Edges[i].Name
		}
		ref := edgeRef{p.piece.Name, name}
		colour, width := ink, float32(1.5)
		if ref == b.e.edge || ref == b.e.first {
			colour, width = theme.Color(theme.ColorNamePrimary), 5
		} else if b.e.sewnEdge(ref) {
			width = 3.5
		}
		r.line(u, v, colour, width)
		middle = middle.Add(fyne.NewPos(u.X/float32(len(points)), u.Y/float32(len(points))))
		if picked && len(points) <= 24 {
			long := math.Hypot(d[0]-c[0], d[1]-c[1])
			r.word(fmt.Sprintf("%s %s", name, length(long, b.e.units())), fyne.NewPos((u.X+v.X)/2+4, (u.Y+v.Y)/2-16), theme.CaptionTextSize(), ink)
		}
	}
	if picked && p.own && len(points) <= 60 {
		for _, c := range points {
			r.handle(b.pos(p, c[0], c[1]))
		}
	}
	if !picked {
		r.word(p.piece.Name, fyne.NewPos(middle.X-20, middle.Y-8), theme.CaptionTextSize(), ink)
	}
}

func (r *boardRenderer) line(u, v fyne.Position, c color.Color, width float32) {
	l := canvas.NewLine(c)
	l.StrokeWidth, l.Position1, l.Position2 = width, u, v
	r.objects = append(r.objects, l)
}

func (r *boardRenderer) handle(at fyne.Position) {
	h := canvas.NewRectangle(theme.Color(theme.ColorNamePrimary))
	h.Resize(fyne.NewSize(9, 9))
	h.Move(fyne.NewPos(at.X-4.5, at.Y-4.5))
	r.objects = append(r.objects, h)
}

func (r *boardRenderer) word(text string, at fyne.Position, size float32, c color.Color) {
	t := canvas.NewText(text, c)
	t.TextSize = size
	t.Move(at)
	r.objects = append(r.objects, t)
}
