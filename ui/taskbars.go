package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/hours"
)

// taskBars is the tasks one under the other: name, hours in figures, and a bar
// as long as the likely hours with a line under it from the fewest to the most.
type taskBars struct {
	widget.BaseWidget
	tasks []hours.Task
}

func newTaskBars() *taskBars {
	t := &taskBars{}
	t.ExtendBaseWidget(t)
	return t
}

func (t *taskBars) show(tasks []hours.Task) {
	t.tasks = tasks
	t.Refresh()
}

// hoursText is a task's hours: the likely ones, and the span if there is one.
func hoursText(r hours.Range) string {
	if r.Low == r.High {
		return fmt.Sprintf("%.1f h", r.Likely)
	}
	return fmt.Sprintf("%.1f h (%.1f–%.1f)", r.Likely, r.Low, r.High)
}

// CreateRenderer implements fyne.Widget.
func (t *taskBars) CreateRenderer() fyne.WidgetRenderer {
	r := &taskBarsRenderer{t: t}
	r.Refresh()
	return r
}

type taskBarsRenderer struct {
	t       *taskBars
	objects []fyne.CanvasObject
}

const (
	barHeight  = 7
	spanHeight = 2
	barGap     = 7
)

func textSize() float32 { return theme.CaptionTextSize() + 1 }

// nameLines is a task's name, broken where its hours would stand in its way.
func nameLines(task hours.Task) []string {
	value := fyne.MeasureText(hoursText(task.Hours), textSize(), fyne.TextStyle{}).Width
	return broken(task.Name, panelWidth-value-10, textSize(), fyne.TextStyle{})
}

func lineHeight() float32 { return fyne.MeasureText("Éy", textSize(), fyne.TextStyle{}).Height }

func (r *taskBarsRenderer) MinSize() fyne.Size {
	height := float32(0)
	for _, task := range r.t.tasks {
		height += float32(len(nameLines(task)))*lineHeight() + barHeight + spanHeight + 1 + barGap
	}
	return fyne.NewSize(panelWidth, height)
}

// Refresh draws all anew: there are seldom more than twenty tasks.
func (r *taskBarsRenderer) Refresh() {
	r.objects = nil
	most := 0.0
	for _, task := range r.t.tasks {
		most = max(most, task.Hours.High)
	}
	y := float32(0)
	for _, task := range r.t.tasks {
		y = r.row(y, task, most)
	}
	canvas.Refresh(r.t)
}

func (r *taskBarsRenderer) text(line string, x, y float32) *canvas.Text {
	t := canvas.NewText(line, theme.Color(theme.ColorNameForeground))
	t.TextSize = textSize()
	t.Move(fyne.NewPos(x, y))
	t.Resize(t.MinSize())
	r.objects = append(r.objects, t)
	return t
}

func (r *taskBarsRenderer) box(colour fyne.ThemeColorName, x, y, wide, high float32) {
	b := canvas.NewRectangle(theme.Color(colour))
	b.Move(fyne.NewPos(x, y))
	b.Resize(fyne.NewSize(wide, high))
	r.objects = append(r.objects, b)
}

// row draws one task at y and says where the next begins.
func (r *taskBarsRenderer) row(y float32, task hours.Task, most float64) float32 {
	value := r.text(hoursText(task.Hours), 0, y)
	value.Move(fyne.NewPos(panelWidth-value.MinSize().Width, y))
	for _, line := range nameLines(task) {
		r.text(line, 0, y)
		y += lineHeight()
	}
	at := func(h float64) float32 { return float32(h / most * panelWidth) }
	r.box(theme.ColorNameButton, 0, y, panelWidth, barHeight)
	r.box(theme.ColorNamePrimary, 0, y, max(1, at(task.Hours.Likely)), barHeight)
	if task.Hours.Low < task.Hours.High {
		from, to := at(task.Hours.Low), at(task.Hours.High)
		r.box(theme.ColorNameForeground, from, y+barHeight+1, max(1, to-from), spanHeight)
	}
	return y + barHeight + spanHeight + 1 + barGap
}

func (r *taskBarsRenderer) Layout(fyne.Size)             {}
func (r *taskBarsRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *taskBarsRenderer) Destroy()                     {}
