package ui

import (
	"errors"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// window is all of the window: what it works on and what it shows.
type window struct {
	fyne.Window
	b        *bench
	now      func() time.Time
	panels   *panelColumn
	strip    *strip
	place    *placeFields
	over     *overview
	drawer   *drawer
	figures  *reckoningLine
	status   *statusLine
	progress *widget.ProgressBar
	tips     *tipLayer
	notice   *notice
	next     *whatNext
	keeper   *keeper // nil: nothing is kept between runs
	version  string  // of the program, for About
	undo     *tipButton
	redo     *tipButton
	saving   []*widget.Button // of no use for a plan that is only looked at
	packOn   *widget.Button
	packOff  *widget.Button
	onPiece  []*widget.Button
	exported export        // what was exported last, and how
	accept   func()        // what Return does in the question that is open; nil: nothing
	named    []func() bool // bring a menu item's words up to date
	body     *fyne.Container
	parts    *benchLayout  // of the body
	ticking  chan struct{} // closed when the packing shown by the progress bar ends
}

func newWindow(w fyne.Window, b *bench, now func() time.Time) *window {
	v := &window{Window: w, b: b, now: now, tips: newTipLayer(), notice: newNotice()}
	v.status = newStatusLine()
	v.panels = newPanelColumn(b, v.fault)
	v.panels.shapes = v.openShapes
	v.next = newWhatNext(b, v.panels.openNamed)
	v.strip = newStrip(b, v.say)
	v.over = newOverview(v.strip)
	v.place = newPlaceFields(b, v.say)
	v.drawer = newDrawer(b, v.panels.openNamed, v.fault, v.exportFlat)
	v.figures = newReckoningLine(b, v.panels.openNamed, v.drawer.ask)
	middle := container.NewBorder(v.stripBar(), v.statusBar(), nil, nil, v.strip)
	v.parts = &benchLayout{
		top:    container.NewVBox(v.toolBar(), widget.NewSeparator(), v.notice.root, v.next.root),
		panels: v.panels.root, middle: middle,
		line:   container.NewVBox(widget.NewSeparator(), v.figures.root),
		drawer: v.drawer.root, wanted: v.drawer.wanted,
	}
	v.body = container.New(v.parts, v.parts.objects()...)
	v.drawer.relay, v.next.relay = v.relay, v.relay
	w.SetContent(container.NewStack(v.body, v.tips.root))
	w.SetPadded(false)
	w.SetMainMenu(v.menu())
	v.keys()
	w.SetCloseIntercept(func() { v.leaving("Close", w.Close) })
	w.SetOnDropped(func(_ fyne.Position, what []fyne.URI) { v.dropped(what) })
	b.onChange(v.changed)
	v.changed(planChanged)
	v.changed(packChanged)
	return v
}

// changed brings title, buttons and status up to date.
func (v *window) changed(t topic) {
	switch t {
	case planChanged:
		title := "Ellwand — " + v.b.plan().Title
		if !v.saveable() {
			title += words(" (read-only)")
		}
		if v.b.history.Dirty() {
			title += " *"
		}
		v.SetTitle(title)
		v.notice.show(v.b.plan(), v.b.path)
		v.next.show()
		v.keeper.changed()
		for _, button := range v.saving {
			able(button, v.saveable())
		}
		able(v.undo, v.b.history.CanUndo() != "")
		able(v.redo, v.b.history.CanRedo() != "")
		v.renameMenu()
	case packChanged:
		v.packing()
	}
	if t == resultChanged {
		v.next.show()
	}
	if t == pickChanged || t == resultChanged {
		v.tellPicked()
	}
	if t == planChanged || t == resultChanged {
		v.relay()
	}
}

// relay sets the parts of the window out anew. The tool kit does so by itself
// when a part asks for more or less room, but loses it where a second part
// changes within the same frame.
func (v *window) relay() {
	if size := v.body.Size(); size.Height > 0 {
		v.parts.Layout(v.body.Objects, size)
	}
}

// able makes a button usable or not.
func able(button fyne.Disableable, on bool) {
	if on {
		button.Enable()
	} else {
		button.Disable()
	}
}

// tellPicked says where the picked piece lies.
func (v *window) tellPicked() {
	i := v.b.item()
	for _, button := range v.onPiece {
		able(button, i >= 0)
	}
	if i < 0 {
		v.say(v.idle(), false)
		return
	}
	r, u := v.b.shown, v.b.plan().ShowUnits
	if items := v.b.chosen(); len(items) > 1 {
		box := boxOf(r, items)
		v.say(words("%d pieces picked, %s × %s together", len(items), length(box.Width(), u), length(box.Height(), u)), false)
		return
	}
	it, at := r.Prepared.Problem.Items[i], r.Lay.Placements[i]
	text := it.ID
	if at.Flip {
		text += words(", turned over")
	}
	if it.Pinned != nil {
		text += words(", pinned")
	}
	if faults := faultsOf(r, i, at); len(faults) > 0 {
		v.say(text+"  "+faultWords(r, i, faults), true)
		return
	}
	v.say(text, false)
}

// idle is said when nothing is picked.
func (v *window) idle() string {
	switch {
	case v.b.shown == nil && v.b.trouble != nil:
		return words("The pieces cannot be laid as they are.")
	case v.b.shown == nil:
		return words("The pieces are being laid.")
	case v.b.trouble != nil:
		return words("This is the last lay that could be made.")
	}
	return words("%d pieces, %s. Click on one to pick it.",
		len(v.b.shown.Lay.Placements), length(v.b.shown.ClothCM(), v.b.plan().ShowUnits))
}

// say puts a sentence on the line under the strip.
func (v *window) say(text string, wrong bool) {
	v.status.say(text, wrong)
}

// fault shows an error that belongs to no field.
func (v *window) fault(err error) {
	dialog.ShowCustom(words("This cannot be done"), words("Close"), newParagraph(inFull(err), 520), v)
}

// mostFaults is how many sentences a dialog has room for.
const mostFaults = 8

// inFull is an error with the file and the line that it is about, if it names
// any: a sentence to a line, as many as there is room for.
func inFull(err error) string {
	var p *plan.Problem
	if !errors.As(err, &p) || p.File == "" {
		text := sentence(err, "")
		if !strings.HasSuffix(text, ".") && !strings.HasSuffix(text, "?") {
			text += "."
		}
		return text
	}
	lines := strings.Split(err.Error(), "\n")
	if more := len(lines) - mostFaults; more > 0 {
		lines = append(lines[:mostFaults], words("And %d more.", more))
	}
	return strings.Join(lines, "\n")
}

// statusBar lies under the strip: all of the cloth, where the picked pieces lie,
// and a sentence.
func (v *window) statusBar() fyne.CanvasObject {
	return container.NewVBox(v.over, container.NewHScroll(container.NewBorder(nil, nil, v.place.root, nil, v.status)))
}

func (v *window) toolBar() fyne.CanvasObject {
	b := func(text string, icon fyne.Resource, f func()) *widget.Button {
		return widget.NewButtonWithIcon(words(text), icon, f)
	}
	step := func(verb string, keys fyne.Shortcut, name func() string) func() string {
		return func() string { return stepWords(verb, name()) + "  (" + keyName(keys) + ")" }
	}
	v.undo = newTipButton(v.tips, "Undo", theme.ContentUndoIcon(),
		step("Undo", &fyne.ShortcutUndo{}, func() string { return v.b.history.CanUndo() }), v.goBack)
	v.redo = newTipButton(v.tips, "Redo", theme.ContentRedoIcon(),
		step("Redo", &fyne.ShortcutRedo{}, func() string { return v.b.history.CanRedo() }), v.b.redo)
	save, saveAs := b("Save", theme.DocumentSaveIcon(), v.savePlan), b("Save as…", theme.DocumentSaveIcon(), v.savePlanAs)
	v.saving = []*widget.Button{save, saveAs}
	row := container.NewHBox(
		b("New", theme.DocumentCreateIcon(), v.newPlan),
		b("Open…", theme.FolderOpenIcon(), v.openPlan),
		save, saveAs,
		b("Export…", theme.DocumentPrintIcon(), v.exportPlan),
		widget.NewSeparator(), v.undo, v.redo, widget.NewSeparator(),
		widget.NewButton(words("From what?"), func() { v.drawer.toggle(0) }),
		widget.NewButton(words("Widths"), func() { v.drawer.toggle(1) }),
		widget.NewButton(words("Remarks"), func() { v.drawer.toggle(2) }),
		widget.NewButton(words("Laid flat"), func() { v.drawer.toggle(3) }),
	)
	return container.NewHScroll(container.NewPadded(row)) // on a narrow window
}

// stripBar is the buttons that work on the lay.
func (v *window) stripBar() fyne.CanvasObject {
	piece := func(text string, f func() error) *widget.Button {
		button := widget.NewButton(words(text), func() { v.strip.try(f); v.strip.focus() })
		v.onPiece = append(v.onPiece, button)
		return button
	}
	v.packOn = widget.NewButton(words("Pack"), v.b.pack)
	v.packOn.Importance = widget.HighImportance
	v.packOff = widget.NewButton(words("Stop"), v.b.halt)
	v.progress = newProgress()
	bar := container.New(&fixedWidth{130}, v.progress)
	left := container.NewHBox(v.packOn, v.packOff, bar)
	align := widget.NewButtonWithIcon(words("Align"), theme.MenuDropDownIcon(), nil)
	align.IconPlacement = widget.ButtonIconTrailingText
	align.OnTapped = func() { v.alignMenu(align) }
	v.onPiece = append(v.onPiece, align)
	pieces := container.NewHBox(piece("Turn", v.b.turn), piece("Flip", v.b.flip), piece("Pin", v.b.pin), align,
		widget.NewButton(words("Mark a flaw"), func() { v.strip.useTool(toolFlaw); v.strip.focus() }))
	zoom := container.NewHBox(
		widget.NewButton("−", func() { v.strip.zoomMiddle(1 / 1.25) }),
		widget.NewButton("+", func() { v.strip.zoomMiddle(1.25) }),
		widget.NewButton(words("Fit"), v.strip.fit))
	return container.NewHScroll(container.NewPadded(container.NewBorder(nil, nil, left, zoom, container.NewCenter(pieces))))
}

// packing shows how far a search is.
func (v *window) packing() {
	if v.ticking != nil {
		close(v.ticking)
		v.ticking = nil
	}
	work, isGoing := v.b.work()
	if !isGoing {
		v.packOn.Enable()
		v.packOff.Disable()
		v.progress.Hide()
		v.tellPicked()
		return
	}
	v.packOff.Enable()
	able(v.packOn, v.b.packing == nil || !v.b.packing.asked)
	v.progress.SetValue(work.share(v.now()))
	v.progress.Show()
	done := make(chan struct{})
	v.ticking = done
	v.b.spawn(func() {
		tick := time.NewTicker(200 * time.Millisecond)
		defer tick.Stop()
		for {
			select {
			case <-done:
				return
			case <-tick.C:
				v.b.onWindow(func() {
					if now, isGoing := v.b.work(); isGoing && now == work {
						v.progress.SetValue(now.share(v.now()))
					}
				})
			}
		}
	})
}

// typing is the form's entry that has the focus, if any.
func (v *window) typing() *fieldEntry {
	e, _ := v.Canvas().Focused().(*fieldEntry)
	return e
}

// settle puts what is being typed into the plan before something else is done.
func (v *window) settle() {
	if e := v.typing(); e != nil {
		e.field.commit(e.Text)
	}
}

// goBack takes back what is being typed, or else the last step.
func (v *window) goBack() {
	if e := v.typing(); e != nil && e.field.pending() {
		e.field.revert()
		return
	}
	v.b.undo()
}
