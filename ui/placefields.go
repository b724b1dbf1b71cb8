package ui

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"ellwand/geometry"
	"ellwand/layout"
)

// placeFields says where the picked pieces lie, to be typed exactly: from the
// cut end, from the left selvedge, and how far one piece is turned.
type placeFields struct {
	b           *bench
	say         func(string, bool)
	along, from *placeEntry
	turn        *placeEntry
	unit        *widget.Label
	root        fyne.CanvasObject
}

// placeEntry takes what is typed on Enter and when it is left; Escape takes it
// back.
type placeEntry struct {
	widget.Entry
	shown string
	set   func(v float64) error
	say   func(string, bool)
}

func newPlaceEntry(say func(string, bool), set func(float64) error) *placeEntry {
	e := &placeEntry{set: set, say: say}
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.take() }
	return e
}

// FocusLost implements fyne.Focusable.
func (e *placeEntry) FocusLost() {
	e.Entry.FocusLost()
	e.take()
}

// TypedKey implements fyne.Focusable.
func (e *placeEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.SetText(e.shown)
		return
	}
	e.Entry.TypedKey(k)
}

// TypedShortcut implements fyne.Shortcutable: undo is the window's.
func (e *placeEntry) TypedShortcut(s fyne.Shortcut) {
	switch s.(type) {
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo:
		if c, ok := fyne.CurrentApp().Driver().CanvasForObject(e).(fyne.Shortcutable); ok {
			c.TypedShortcut(s)
		}
		return
	}
	e.Entry.TypedShortcut(s)
}

// take does what was typed, or says what is accepted.
func (e *placeEntry) take() {
	text := strings.TrimSpace(e.Text)
	if text == e.shown {
		return
	}
	v, ok := readNumber(text)
	var err error
	if !ok || math.Abs(v) > 1e5 {
		err = errors.New(words("%q is no place; accepted is a bare number, such as 12.5", text))
	} else {
		err = e.set(v)
	}
	if err != nil {
		e.SetText(e.shown)
		e.say(err.Error(), true)
	}
}

func (e *placeEntry) display(text string) {
	e.shown = text
	if e.Text != text {
		e.SetText(text)
	}
}

func newPlaceFields(b *bench, say func(string, bool)) *placeFields {
	f := &placeFields{b: b, say: say, unit: widget.NewLabel("")}
	put := func(along bool) func(float64) error {
		return func(v float64) error {
			at := boxOf(b.shown, b.chosen())
			p := geometry.Point{X: at.MinX, Y: at.MinY}
			if along {
				p.X = v * f.perUnit()
			} else {
				p.Y = v * f.perUnit()
			}
			return b.putAt(p)
		}
	}
	f.along, f.from = newPlaceEntry(say, put(true)), newPlaceEntry(say, put(false))
	f.turn = newPlaceEntry(say, b.turnTo)
	entry := func(e *placeEntry, wide float32) fyne.CanvasObject { return container.New(&fixedWidth{wide}, e) }
	f.root = container.NewHBox(
		widget.NewLabel(words("from the cut end")), entry(f.along, 72),
		widget.NewLabel(words("from the left")), entry(f.from, 64), f.unit,
		widget.NewLabel(words("turned")), entry(f.turn, 52), widget.NewLabel("°"))
	b.onChange(func(t topic) {
		if t != packChanged && t != boundChanged {
			f.update()
		}
	})
	f.update()
	return f
}

func (f *placeFields) perUnit() float64 {
	if f.b.plan().ShowUnits == "inch" {
		return cmPerInch
	}
	return 1
}

func (f *placeFields) update() {
	name := "cm"
	if f.perUnit() != 1 {
		name = "in"
	}
	if f.unit.Text != name {
		f.unit.SetText(name)
	}
	items := f.b.chosen()
	able(f.along, len(items) > 0)
	able(f.from, len(items) > 0)
	able(f.turn, len(items) == 1)
	if len(items) == 0 {
		f.along.display("")
		f.from.display("")
		f.turn.display("")
		return
	}
	at := boxOf(f.b.shown, items)
	number := func(v float64) string {
		return strconv.FormatFloat(math.Round(v/f.perUnit()*1000)/1000+0, 'f', -1, 64)
	}
	f.along.display(number(at.MinX))
	f.from.display(number(at.MinY))
	turned := ""
	if len(items) == 1 {
		turned = strconv.FormatFloat(f.b.shown.Lay.Placements[items[0]].TurnDeg, 'f', -1, 64)
	}
	f.turn.display(turned)
}

// turnsWords are the turns that a piece may take: "0°, 180°".
func turnsWords(it layout.Item) string {
	var parts []string
	for _, t := range it.TurnsDeg {
		parts = append(parts, strconv.FormatFloat(t, 'f', -1, 64)+"°")
	}
	return strings.Join(parts, ", ")
}
