package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/cloth"
	"ellwand/plan"
)

// figureCell is one figure of the reckoning line: what it is, its value, and a
// sign with words when it cannot be met. A click opens where it comes from.
type figureCell struct {
	widget.BaseWidget
	caption, value string
	unmet          bool
	tapped, asked  func()
	hovered, keyed bool
}

// newFigureCell makes one that opens a panel when tapped, and says from what its
// figure comes when asked.
func newFigureCell(caption string, tapped, asked func()) *figureCell {
	c := &figureCell{caption: caption, value: "–", tapped: tapped, asked: asked}
	c.ExtendBaseWidget(c)
	return c
}

// askRoom is the room of the sign at the right that asks from what.
const askRoom = 24

// Tapped opens the panel, or at the sign on the right asks from what.
func (c *figureCell) Tapped(e *fyne.PointEvent) {
	if e.Position.X > c.Size().Width-askRoom {
		c.asked()
		return
	}
	c.tapped()
}

// FocusGained and FocusLost implement fyne.Focusable: a line round the figure
// shows that the keys go to it.
func (c *figureCell) FocusGained() { c.keyed = true; c.Refresh() }
func (c *figureCell) FocusLost()   { c.keyed = false; c.Refresh() }

// TypedRune asks from what the figure comes, on a question mark.
func (c *figureCell) TypedRune(r rune) {
	if r == '?' {
		c.asked()
	}
}

// TypedKey opens the panel that the figure comes from, on Enter or Space.
func (c *figureCell) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		c.tapped()
	}
}

// MouseIn, MouseMoved and MouseOut implement desktop.Hoverable.
func (c *figureCell) MouseIn(*desktop.MouseEvent)    { c.hovered = true; c.Refresh() }
func (c *figureCell) MouseMoved(*desktop.MouseEvent) {}
func (c *figureCell) MouseOut()                      { c.hovered = false; c.Refresh() }

// Cursor implements desktop.Cursorable.
func (c *figureCell) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (c *figureCell) say(value string, unmet bool) {
	c.value, c.unmet = value, unmet
	c.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (c *figureCell) CreateRenderer() fyne.WidgetRenderer {
	r := &figureRenderer{c: c, ground: canvas.NewRectangle(nil), caption: canvas.NewText("", nil), value: canvas.NewText("", nil), ask: canvas.NewText("?", nil)}
	r.ask.Alignment, r.ask.TextStyle.Bold = fyne.TextAlignCenter, true
	r.ground.CornerRadius = 3
	r.value.TextStyle.Bold = true
	r.Refresh()
	return r
}

type figureRenderer struct {
	c              *figureCell
	ground         *canvas.Rectangle
	caption, value *canvas.Text
	ask            *canvas.Text
}

func (r *figureRenderer) Refresh() {
	r.ask.TextSize, r.ask.Color = theme.TextSize(), theme.Color(theme.ColorNamePrimary)
	r.caption.Text, r.value.Text = r.c.caption, r.c.value
	r.caption.TextSize, r.value.TextSize = theme.CaptionTextSize(), theme.TextSize()+1
	r.caption.Color, r.value.Color = theme.Color(theme.ColorNamePlaceHolder), theme.Color(theme.ColorNameForeground)
	r.ground.FillColor, r.ground.StrokeWidth = theme.Color(theme.ColorNameHeaderBackground), 0
	if r.c.hovered {
		r.ground.FillColor = theme.Color(theme.ColorNameButton)
	}
	if r.c.unmet {
		red := theme.Color(theme.ColorNameError)
		r.caption.Text = words("! not enough: %s", r.c.caption)
		r.caption.Color, r.value.Color = red, red
		r.ground.StrokeColor, r.ground.StrokeWidth = red, 1.5
	}
	if r.c.keyed {
		r.ground.StrokeColor, r.ground.StrokeWidth = theme.Color(theme.ColorNamePrimary), 3
	}
	canvas.Refresh(r.c)
}

func (r *figureRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	h := r.caption.MinSize().Height
	r.caption.Move(fyne.NewPos(8, 3))
	r.caption.Resize(fyne.NewSize(size.Width-12, h))
	r.value.Move(fyne.NewPos(8, 3+h))
	r.value.Resize(fyne.NewSize(size.Width-12, r.value.MinSize().Height))
	r.ask.Move(fyne.NewPos(size.Width-askRoom, (size.Height-r.ask.MinSize().Height)/2))
	r.ask.Resize(fyne.NewSize(askRoom-4, r.ask.MinSize().Height))
}

func (r *figureRenderer) MinSize() fyne.Size {
	a, b := r.caption.MinSize(), r.value.MinSize()
	return fyne.NewSize(max(a.Width, b.Width)+12+askRoom, a.Height+b.Height+6)
}
func (r *figureRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.caption, r.value, r.ask}
}
func (r *figureRenderer) Destroy() {}

// reckoningLine is always in sight: what the lay takes and what the cloth needs.
type reckoningLine struct {
	b                                   *bench
	cloth, warp, yarn, weft, wool, time *figureCell
	trouble                             *widget.Label
	cells                               *fyne.Container
	root                                fyne.CanvasObject
}

func newReckoningLine(b *bench, open func(panel string), ask func(key string)) *reckoningLine {
	cell := func(caption, panel, key string) *figureCell {
		return newFigureCell(words(caption), func() { open(panel) }, func() { ask(key) })
	}
	l := &reckoningLine{b: b,
		cloth: cell("finished cloth", "Cloth", "finished_length_cm"),
		warp:  cell("ends × warp length", "Loom", "warp_length_cm"),
		yarn:  cell("warp yarn", "Yarn", "warp_m"),
		weft:  cell("weft yarn", "Yarn", "weft_m"),
		wool:  cell("raw fleece, needed of in hand", "Fleece", "raw_needed_g"),
		time:  cell("hours, likely", "Hours", "hours_likely_h"),
	}
	l.trouble = widget.NewLabel("")
	l.trouble.Wrapping = fyne.TextWrapWord
	l.cells = container.New(&spread{gap: 6}, l.cloth, l.warp, l.yarn, l.weft, l.wool, l.time)
	l.root = container.NewVBox(l.trouble, container.NewHScroll(container.NewPadded(l.cells)))
	b.onChange(func(t topic) {
		switch t {
		case resultChanged, planChanged:
			l.update()
		case boundChanged:
			l.tellTrouble()
		}
	})
	return l
}

func (l *reckoningLine) update() {
	l.tellTrouble()
	defer l.cells.Refresh() // a figure that has grown takes its room from the others
	r := l.b.shown
	if r == nil {
		for _, c := range []*figureCell{l.cloth, l.warp, l.yarn, l.weft, l.wool, l.time} {
			c.say("–", false)
		}
		return
	}
	short := map[string]bool{}
	for _, s := range r.CannotBeMade {
		short[strings.SplitN(s.Key, ":", 2)[0]] = true
		short[s.Key] = true
	}
	u, c := l.b.plan().ShowUnits, r.Reckoning
	l.cloth.say(words("%s × %s, %.1f %% used", length(c.FinishedWidthCM, u), length(c.FinishedLengthCM, u), r.UsePercent),
		short["finished_width_cm"] || short["finished_length_cm"])
	warps := ""
	if c.Warps > 1 {
		warps = words(" in %d warps", c.Warps)
	}
	l.warp.say(fmt.Sprintf("%d × %.2f m%s", c.Ends, c.WarpLengthCM/100, warps),
		short["warp_length_cm"] || short["reed_width_cm"])
	l.yarns(r, short)
	l.fleeces(r, short)
	l.hours(r)
}

// yarns shows warp and weft apart, also when one yarn serves for both.
func (l *reckoningLine) yarns(r *plan.Result, short map[string]bool) {
	say := func(c *figureCell, use string, of func(cloth.YarnNeed) float64) {
		var names []string
		var m, g float64
		unmet := false
		for _, y := range r.Reckoning.Yarns {
			if of(y) <= 0 {
				continue
			}
			names = append(names, y.Name)
			m, g = m+of(y), g+of(y)*y.Yarn.Tex/1000
			unmet = unmet || short["yarn:"+y.Yarn.Root()]
		}
		c.caption = words(use) + ": " + strings.Join(names, ", ")
		if len(names) > 2 {
			c.caption = words(use) + ": " + words("%d yarns", len(names))
		}
		c.say(fmt.Sprintf("%.0f m, %.0f g", m, g), unmet)
	}
	say(l.yarn, "warp", func(y cloth.YarnNeed) float64 { return y.WarpM })
	say(l.weft, "weft", func(y cloth.YarnNeed) float64 { return y.WeftM + y.HeadingM })
}

func (l *reckoningLine) fleeces(r *plan.Result, short map[string]bool) {
	if len(r.Reckoning.Fleeces) == 0 {
		l.wool.say(words("none: the yarn is bought"), false)
		return
	}
	var parts []string
	lacking := false
	for _, f := range r.Reckoning.Fleeces {
		need := r.RawNeededG(f)
		lacking = lacking || need > f.RawNeededG && need > f.RawHaveG
		text := words("%.0f of %.0f g", need, f.RawHaveG)
		if len(r.Reckoning.Fleeces) > 1 {
			text = f.Name + " " + text
		}
		parts = append(parts, text)
	}
	l.wool.say(strings.Join(parts, " · "), short["fleece"] || lacking)
}

// hours are the likely ones, against the budget if there is one.
func (l *reckoningLine) hours(r *plan.Result) {
	likely, budget := r.LikelyH(), r.Hours.BudgetH
	if budget == 0 {
		l.time.caption = words("hours, likely")
		l.time.say(fmt.Sprintf("%.0f h", likely), false)
		return
	}
	l.time.caption = words("hours, likely of budget")
	l.time.say(words("%.0f of %.0f h", likely, budget), likely > budget)
}

// tellTrouble says in full sentences why the plan cannot be made as it stands,
// or that it can. The line is always there, so that nothing above it moves when
// a piece is laid wrong.
func (l *reckoningLine) tellTrouble() {
	text, importance := l.troubles(), widget.DangerImportance
	switch {
	case text != "":
	case l.b.current():
		text, importance = words("The plan can be made as it stands.")+" "+boundSentence(l.b.shown, l.b.plan().ShowUnits), widget.SuccessImportance
	default:
		text, importance = words("The plan is being worked out."), widget.MediumImportance
	}
	if l.trouble.Text == text {
		return
	}
	l.trouble.Importance = importance
	l.trouble.SetText(text)
	l.root.Refresh()
}

// troubles are the sentences of what stands in the way; "" for nothing.
func (l *reckoningLine) troubles() string {
	var lines []string
	if l.b.trouble != nil {
		lines = append(lines, "! "+sentence(l.b.trouble, ""))
	} else if l.b.shown != nil {
		for _, s := range l.b.shown.CannotBeMade {
			lines = append(lines, "! "+s.Text)
		}
		if n := len(l.b.shown.Faults); n > 0 {
			text := l.b.shown.Faults[0].Text
			if n > 1 {
				text += words(", and %d more", n-1)
			}
			if ids := l.b.shown.Prepared.LetGo; len(ids) > 0 {
				text += words("; let go from where it was pinned: %s", strings.Join(ids, ", "))
			}
			lines = append(lines, words("! The lay cannot be cut: %s. Pack lays anew; Lay, What must move?, keeps what can stay.", text))
		}
	}
	return strings.Join(lines, "  ")
}

// spread lays objects side by side; what room is left over is shared out.
type spread struct{ gap float32 }

func (s *spread) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	spare := max(0, size.Width-s.MinSize(objects).Width) / float32(max(1, len(objects)))
	x := float32(0)
	for _, o := range objects {
		w := o.MinSize().Width + spare
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w, size.Height))
		x += w + s.gap
	}
}

func (s *spread) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := fyne.NewSize(-s.gap, 0)
	for _, o := range objects {
		m := o.MinSize()
		size.Width += m.Width + s.gap
		size.Height = max(size.Height, m.Height)
	}
	return size
}
