package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/hours"
	"ellwand/plan"
)

// budgetBar is the forecast against the hours there are: the likely hours as a
// bar parted by stages of the work, under it a line from the fewest to the most,
// and across both a line where the budget ends.
type budgetBar struct {
	widget.BaseWidget
	h hours.Reckoning
}

func newBudgetBar() *budgetBar {
	b := &budgetBar{}
	b.ExtendBaseWidget(b)
	return b
}

func (b *budgetBar) show(h hours.Reckoning) {
	b.h = h
	b.Refresh()
}

// stageHours are the likely hours of the stages, in the order of the work.
type stageHours struct {
	name string
	h    float64
}

func stagesOf(tasks []hours.Task) []stageHours {
	stage := map[string]string{"sort": "fibre", "scour": "fibre", "comb": "fibre", "card": "fibre", "spin": "spinning", "ply": "spinning", "dye": "dyeing",
		"wind": "loom", "beam": "loom", "thread": "loom", "sley": "loom", "hang": "loom", "weave": "weaving", "finish": "finishing", "cut": "cutting",
		"worked": "worked so far", "join": "sewing", "fell": "sewing", "hem": "sewing", "rest": "rest"}
	var out []stageHours
	for _, t := range tasks {
		kind, _, _ := strings.Cut(t.Key, ":")
		name := stage[kind]
		if name == "" {
			name = "other"
		}
		if last := len(out) - 1; last >= 0 && out[last].name == name {
			out[last].h += t.Hours.Likely
		} else {
			out = append(out, stageHours{name, t.Hours.Likely})
		}
	}
	return out
}

// forecastOf is the hours to be drawn: as planned, or once there is a log what is
// worked and what remains at the rates really worked.
func forecastOf(r *plan.Result) hours.Reckoning {
	h := r.Hours
	if r.Progress == nil {
		return h
	}
	g := r.Progress.Hours
	h.Total = g.Total
	worked := g.Total.Likely - g.Remaining.Likely
	h.Tasks = []hours.Task{{Key: "worked", Hours: hours.One(worked)}}
	left := g.Remaining.Likely
	for _, t := range g.Tasks {
		h.Tasks = append(h.Tasks, hours.Task{Key: t.Key, Hours: t.Remaining})
		left -= t.Remaining.Likely
	}
	h.Tasks = append(h.Tasks, hours.Task{Key: "rest", Hours: hours.One(max(0, left))})
	return h
}

// CreateRenderer implements fyne.Widget.
func (b *budgetBar) CreateRenderer() fyne.WidgetRenderer {
	r := &budgetBarRenderer{b: b}
	r.Refresh()
	return r
}

type budgetBarRenderer struct {
	b       *budgetBar
	objects []fyne.CanvasObject
	high    float32
}

func (r *budgetBarRenderer) MinSize() fyne.Size           { return fyne.NewSize(panelWidth, r.high) }
func (r *budgetBarRenderer) Layout(fyne.Size)             {}
func (r *budgetBarRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *budgetBarRenderer) Destroy()                     {}

func (r *budgetBarRenderer) box(colour fyne.ThemeColorName, x, y, wide, high float32) {
	b := canvas.NewRectangle(theme.Color(colour))
	b.Move(fyne.NewPos(x, y))
	b.Resize(fyne.NewSize(wide, high))
	r.objects = append(r.objects, b)
}

// overlap says whether two texts stand in each other's way along the line.
func overlap(a, b *canvas.Text) bool {
	return a.Position().X < b.Position().X+b.Size().Width+6 && b.Position().X < a.Position().X+a.Size().Width+6
}

func (r *budgetBarRenderer) text(line string, x, y float32) *canvas.Text {
	t := canvas.NewText(line, theme.Color(theme.ColorNameForeground))
	t.TextSize = textSize()
	wide := t.MinSize().Width
	t.Move(fyne.NewPos(max(0, min(x, panelWidth-wide)), y))
	t.Resize(t.MinSize())
	r.objects = append(r.objects, t)
	return t
}

// Refresh draws all anew: there are a dozen things in it.
func (r *budgetBarRenderer) Refresh() {
	r.objects, r.high = nil, 0
	h := r.b.h
	most := max(h.Total.High, h.LimitH) * 1.02
	if most <= 0 {
		canvas.Refresh(r.b)
		return
	}
	at := func(hours float64) float32 { return float32(hours / most * panelWidth) }
	line := lineHeight()
	top := line + 3
	if h.LimitH > 0 {
		r.text(words("there are %.0f h", h.LimitH), at(h.LimitH)-30, 0)
	}
	const bar, span = 18, 3
	r.box(theme.ColorNameButton, 0, top, panelWidth, bar)
	x := 0.0
	for i, s := range stagesOf(h.Tasks) {
		colour := theme.ColorNamePrimary
		if i%2 == 1 {
			colour = theme.ColorNameFocus
		}
		r.box(colour, at(x), top, max(1, at(s.h)-1), bar)
		x += s.h
	}
	r.box(theme.ColorNameForeground, at(h.Total.Low), top+bar+2, max(1, at(h.Total.High-h.Total.Low)), span)
	if h.LimitH > 0 {
		r.box(theme.ColorNameForeground, at(h.LimitH)-1, top-3, 3, bar+span+8)
	}
	y := top + bar + span + 8
	low := r.text(words("%.0f h", h.Total.Low), at(h.Total.Low)-12, y)
	high := r.text(words("%.0f h", h.Total.High), at(h.Total.High)-16, y)
	likely := r.text(words("likely %.0f h", h.Total.Likely), at(h.Total.Likely)-28, y)
	if overlap(likely, low) || overlap(likely, high) {
		y += line
		likely.Move(fyne.NewPos(likely.Position().X, y))
	}
	if overlap(low, high) { // the span is too short for both
		high.Move(fyne.NewPos(min(low.Position().X+low.Size().Width+6, panelWidth-high.Size().Width), high.Position().Y))
	}
	r.high = y + line + 2
	canvas.Refresh(r.b)
}

// stagesText says in words what the bar's parts are, from the left.
func stagesText(tasks []hours.Task) string {
	var parts []string
	for _, s := range stagesOf(tasks) {
		if s.h < 0.05 {
			continue
		}
		parts = append(parts, fmt.Sprintf("%s %.0f", words(s.name), s.h))
	}
	return words("In hours, from the left:") + " " + strings.Join(parts, ", ") + "."
}
