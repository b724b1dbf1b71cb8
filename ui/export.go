package ui

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"ellwand/paper"
	"ellwand/plan"
	"ellwand/prints"
)

// export is what is to be printed or exported, as chosen last.
type export struct {
	kind   prints.Kind
	ending string
	paper  paper.Size
	ratio  float64 // of a cutting diagram on pages; 0: all on one
	only   string  // the one stage or piece; "": all
}

// usual keeps the choice to what its kind can be.
func (e export) usual() export {
	info := prints.Of(e.kind)
	e.kind = info.Kind
	if !slices.Contains(info.Endings, e.ending) {
		e.ending = info.Endings[0]
	}
	if !info.Scaled || e.ending != ".pdf" {
		e.ratio = 0
	}
	return e
}

// endingWords says what kind of file an ending is.
func endingWords(ending string) string {
	return map[string]string{".pdf": words("pages to print (PDF)"), ".png": words("a picture (PNG)"), ".svg": words("a drawing (SVG)"), ".csv": words("a table (CSV)")}[ending]
}

// ratios are the scales offered; 0 is the largest at which all is on one page.
func ratios() []float64 { return []float64{0, 1, 2, 4, 5, 8, 10, 20} }

func ratioWords(r float64) string {
	if r == 0 {
		return words("all on one page")
	}
	return fmt.Sprintf("1 : %g", r)
}

// exportPlan asks what is to be exported, and how, and then where to.
func (v *window) exportPlan() {
	v.settle()
	v.b.stop()
	if !v.b.current() {
		v.fault(errors.New(words("there is no lay to draw yet")))
		return
	}
	f := newExportForm(v.exported.usual(), v.b.shown)
	d := dialog.NewCustomWithoutButtons(words("Export or print"), f.box, v)
	take := func() {
		v.exported = f.chosen()
		d.Hide()
		v.exportTo(v.exported)
	}
	ok := widget.NewButton(words("Choose the file…"), take)
	ok.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{widget.NewButton(words("Cancel"), d.Hide), ok})
	v.accept = take
	d.SetOnClosed(func() { v.accept = nil })
	d.Show()
}

// exportTo asks for the file.
func (v *window) exportTo(e export) {
	info := prints.Of(e.kind)
	name := v.fileName() + "-" + info.File + e.ending
	c := &chooser{title: words("Export: %s", words(info.Label)), action: words("Export"), endings: []string{e.ending}, saving: true,
		chosen: func(path string) { v.exportFile(path, e) }}
	c.ask(v, filepath.Join(v.folder(), name))
}

// exportFile writes the file beside the window, for it takes a moment.
func (v *window) exportFile(path string, e export) {
	r, date := v.b.shown, v.now().Format("2006-01-02")
	v.say(words("Writing %s …", path), false)
	v.b.spawn(func() {
		err := plan.WriteFile(path, func(w io.Writer) error {
			return prints.Write(w, e.kind, e.ending, r, prints.Options{Paper: e.paper, Ratio: e.ratio, Date: date, Only: e.only})
		})
		v.b.onWindow(func() {
			if err != nil {
				v.fault(fmt.Errorf(words("the %s cannot be written: %w"), strings.ToLower(prints.Of(e.kind).Label), err))
				return
			}
			v.say(words("%s: in %s.", words(prints.Of(e.kind).Label), path), false)
		})
	})
}

// exportForm is the questions: what, as which file, on which paper, how large.
type exportForm struct {
	box                              *fyne.Container
	kind, ending, paper, scale, only *widget.Select
	about                            *paragraph
	r                                *plan.Result
}

func newExportForm(e export, r *plan.Result) *exportForm {
	f := &exportForm{r: r, about: newParagraph("", 420)}
	var kinds, scales []string
	for _, k := range prints.Kinds() {
		kinds = append(kinds, words(k.Label))
	}
	for _, s := range ratios() {
		scales = append(scales, ratioWords(s))
	}
	f.paper = widget.NewSelect([]string{paper.A4.String(), paper.Letter.String()}, nil)
	f.scale = widget.NewSelect(scales, nil)
	f.only = widget.NewSelect(nil, nil)
	f.ending = widget.NewSelect(nil, func(string) { f.follow() })
	f.kind = widget.NewSelect(kinds, func(string) { f.kindChosen() })
	row := func(label string, o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewBorder(nil, nil, container.New(&fixedWidth{110}, widget.NewLabel(words(label))), nil, o)
	}
	f.box = container.NewVBox(row("What", f.kind), f.about, row("As", f.ending), row("Paper", f.paper), row("Scale", f.scale), row("Only", f.only))
	f.paper.SetSelected(e.paper.String())
	f.scale.SetSelected(ratioWords(e.ratio))
	f.kind.SetSelected(words(prints.Of(e.kind).Label))
	f.ending.SetSelected(endingWords(e.ending))
	if e.only != "" && slices.Contains(f.only.Options, e.only) {
		f.only.SetSelected(e.only)
	}
	return f
}

func (f *exportForm) info() prints.Info {
	return prints.Kinds()[max(0, f.kind.SelectedIndex())]
}

// kindChosen offers what the kind can be written as, and which parts it has.
func (f *exportForm) kindChosen() {
	info := f.info()
	f.about.say(words(info.About))
	var endings []string
	for _, e := range info.Endings {
		endings = append(endings, endingWords(e))
	}
	f.ending.SetOptions(endings)
	f.ending.SetSelectedIndex(0)
	all := []string{words("all of it")}
	switch info.Kind {
	case prints.Cards:
		all = append([]string{words("all stages")}, prints.Stages()...)
	case prints.FullSize:
		all = []string{words("all with a curve or a slant")}
		for _, p := range f.r.Pieces {
			all = append(all, p.Piece.Name)
		}
	}
	f.only.SetOptions(all)
	f.only.SetSelectedIndex(0)
	f.follow()
}

// follow shuts what says nothing for the file chosen.
func (f *exportForm) follow() {
	open := func(s *widget.Select, on bool) {
		if on {
			s.Enable()
		} else {
			s.Disable()
		}
	}
	pages := f.endingChosen() == ".pdf"
	open(f.ending, len(f.ending.Options) > 1)
	open(f.paper, pages)
	open(f.scale, pages && f.info().Scaled)
	open(f.only, len(f.only.Options) > 1)
}

func (f *exportForm) endingChosen() string {
	i := f.ending.SelectedIndex()
	if endings := f.info().Endings; i >= 0 && i < len(endings) {
		return endings[i]
	}
	return f.info().Endings[0]
}

func (f *exportForm) chosen() export {
	e := export{kind: f.info().Kind, ending: f.endingChosen()}
	e.paper, _ = paper.Named(f.paper.Selected)
	e.ratio = ratios()[max(0, f.scale.SelectedIndex())]
	if i := f.only.SelectedIndex(); i > 0 {
		e.only = f.only.Options[i]
	}
	return e.usual()
}
