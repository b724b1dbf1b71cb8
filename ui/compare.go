package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"ellwand/layout"
	"ellwand/plan"
)

// keepAs keeps the lay that is shown under a letter, to be compared later.
func (v *window) keepAs(letter string) {
	if !v.b.current() {
		v.say(words("There is no lay to keep yet."), true)
		return
	}
	if v.b.kept == nil {
		v.b.kept = map[string]*plan.Result{}
	}
	v.b.kept[letter] = v.b.shown
	v.say(words("This lay is kept as %s, until the program is closed.", letter), false)
}

// compare shows two lays, one above the other or one over the other, with what
// each of them takes, to choose one. B is the present lay where none is kept.
func (v *window) compare() {
	a, b, nameB := v.b.kept["A"], v.b.kept["B"], "B"
	if b == nil {
		b, nameB = v.b.shown, words("as it is now")
	}
	if a == nil || b == nil {
		v.say(words("Keep a lay first: Lay, Keep this lay as A."), true)
		return
	}
	long := max(a.Lay.LengthCM, b.Lay.LengthCM)
	first, second := newLayView(v.b, a, long), newLayView(v.b, b, long)
	overlay := widget.NewCheck(words("Draw the outlines of the one over the other"), func(on bool) {
		first.over, second.over = nil, nil
		if on {
			first.over, second.over = b.Sheet("").Pieces, a.Sheet("").Pieces
		}
		first.Refresh()
		second.Refresh()
	})
	head := func(text string) *widget.Label {
		l := widget.NewLabel(text)
		l.TextStyle.Bold = true
		return l
	}
	rows := container.NewGridWithColumns(3, widget.NewLabel(""), head("A"), head(nameB))
	for _, f := range comparedFigures(a, b, v.b.plan().ShowUnits) {
		for _, text := range f {
			rows.Add(widget.NewLabel(text))
		}
	}
	lays := container.NewVBox(head("A"), first, head(nameB), second, overlay)
	body := container.NewVScroll(container.NewVBox(lays, rows))
	d := dialog.NewCustomWithoutButtons(words("Compare two lays"), body, v)
	take := func(name string, r *plan.Result) *widget.Button {
		return widget.NewButton(words("Take %s", name), func() {
			d.Hide()
			if err := v.b.takeLay(name, r); err != nil {
				v.fault(err)
			}
		})
	}
	buttons := []fyne.CanvasObject{take("A", a)}
	if nameB == "B" {
		buttons = append(buttons, take("B", b))
	}
	d.SetButtons(append(buttons, widget.NewButton(words("Close"), d.Hide)))
	size := v.Canvas().Size()
	d.Resize(fyne.NewSize(min(1000, size.Width-40), min(620, size.Height-40)))
	d.Show()
}

// comparedFigures are the figures that two lays differ by, each with its label:
// each stands alone, and none is added to another.
func comparedFigures(a, b *plan.Result, units string) [][3]string {
	of := func(r *plan.Result) []string {
		c := r.Reckoning
		var yarn, wool []string
		for _, y := range c.Yarns {
			yarn = append(yarn, fmt.Sprintf("%s %.0f m, %.0f g", y.Name, y.LengthM, y.MassG))
		}
		for _, f := range c.Fleeces {
			wool = append(wool, fmt.Sprintf("%s %.0f g", f.Name, f.RawNeededG))
		}
		faults := words("none")
		if n := len(r.Faults); n > 0 {
			faults = fmt.Sprintf("! %d", n)
		}
		return []string{
			length(r.Lay.WidthCM, units), length(r.Lay.LengthCM, units), fmt.Sprintf("%.1f %%", r.UsePercent),
			fmt.Sprintf("%.2f m²", r.Lay.WidthCM*r.Lay.LengthCM/1e4), fmt.Sprintf("%d × %.2f m", c.Ends, c.WarpLengthCM/100),
			strings.Join(yarn, "; "), strings.Join(wool, "; "), fmt.Sprintf("%.0f h", r.Hours.Total.Likely), faults,
		}
	}
	labels := []string{words("Width"), words("Length"), words("Used"), words("Finished cloth"), words("Ends × warp length"),
		words("Yarn with waste"), words("Raw fleece"), words("Hours, likely"), words("Pieces that lie wrong")}
	var out [][3]string
	left, right := of(a), of(b)
	for i, label := range labels {
		out = append(out, [3]string{label, left[i], right[i]})
	}
	return out
}

// takeLay puts a lay that was kept in place of the present one, with the width
// it is for, as one step of the history.
func (b *bench) takeLay(name string, r *plan.Result) error {
	b.stop()
	if b.shown == nil || !slices.EqualFunc(b.shown.Prepared.Problem.Items, r.Prepared.Problem.Items, samePiece) {
		return errors.New(words("the pieces have changed since lay %s was kept; it does not serve any more", name))
	}
	wide := r.Lay.WidthCM != b.shown.Lay.WidthCM
	err := b.history.Do("take lay "+name, func(p *plan.Plan) error {
		if wide {
			p.Cloth.FinishedWidthCM = r.Lay.WidthCM
		}
		p.KeepLay(r)
		return nil
	})
	if err != nil {
		return err
	}
	return b.showKept()
}

// samePiece says whether two items are cut alike; where they are pinned may
// differ.
func samePiece(x, y layout.Item) bool {
	return x.ID == y.ID && x.MayFlip == y.MayFlip && slices.Equal(x.TurnsDeg, y.TurnsDeg) && slices.Equal(x.Outline, y.Outline)
}
