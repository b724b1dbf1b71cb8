package ui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// piecing adds whether a piece may be cut in two, and what that comes to.
func (f *form) piecing(name string) {
	set := func(p *plan.Plan, key, text string) error {
		override(p, name)
		return plan.SetField(p, "pieces["+name+"]."+key, text)
	}
	for _, field := range []struct {
		key, label string
		options    []option
	}{
		{"piecing", "Cut apart and seamed", []option{{"", "no"}, {"no", "never, nor tried"}, {"if_needed", "where it must be"}, {"if_it_saves", "where it saves cloth"}, {"yes", "yes"}}},
		{"piecing_line", "Cut along or across it", []option{{"", "as serves"}, {"along", "along"}, {"across", "across"}}},
		{"piecing_parts", "Parts (0: as few as serve)", nil},
		{"piecing_share", "In two, at this share (0: halfway)", nil},
	} {
		path := "pieces[" + name + "]." + field.key
		f.put(fieldSpec{path: path, label: field.label, options: field.options,
			get: func() string { return plan.GetField(f.b.plan(), path) },
			try: func(text string) error { return set(f.b.plan().Clone(), field.key, text) },
			set: func(text string) error {
				return f.b.do(strings.ToLower(field.label)+", "+name, func(p *plan.Plan) error { return set(p, field.key, text) })
			},
		})
	}
	f.said(func() string {
		if f.b.shown != nil {
			for _, d := range f.b.shown.Piecing {
				if d.Piece == name {
					return d.Text(f.b.plan().ShowUnits)
				}
			}
		}
		return ""
	})
}

// piecingSeconds is how long is looked for what piecing saves.
const piecingSeconds = 12

// whatPiecingSaves lays the plan with each piece whole and cut apart, also those
// of which the plan says nothing, and says what cloth that saves and what seam
// it costs.
func (v *window) whatPiecingSaves() {
	b := v.b
	b.stop()
	if !b.current() {
		v.fault(errNotLaid)
		return
	}
	r := *b.shown
	r.Piecing = append([]plan.Pieced(nil), r.Piecing...)
	v.ask(piecingSeconds, func(ctx context.Context) {
		r.TryAllPiecing(ctx, plan.Options{Seed: 1, Threads: threads(), Seconds: piecingSeconds})
	}, func(bool) { v.tellPiecing(&r) })
	v.say(words("Laying the pieces whole and cut apart …"), false)
}

// tellPiecing says what was found, with a button for each cut that would save
// cloth and that the plan does not ask for.
func (v *window) tellPiecing(r *plan.Result) {
	box := container.NewVBox(newParagraph(r.PiecingText(v.b.plan().ShowUnits), 640))
	if len(r.Piecing)+len(r.Might)+len(r.Unasked)+len(r.Untried) == 0 {
		box = container.NewVBox(newParagraph(words("No piece may be cut apart. Whether one may is said in the panel Pieces, once the piece is picked."), 640))
	}
	var d *dialog.CustomDialog
	for _, m := range r.Might {
		box.Add(container.NewHBox(widget.NewButton(words("Cut %s %s it", m.Piece, m.Line), func() {
			d.Hide()
			if err := v.b.do("cut "+m.Piece+" apart", m.CutApart); err != nil {
				v.fault(err)
			}
		})))
	}
	text := container.NewVScroll(box)
	text.SetMinSize(fyne.NewSize(700, 300))
	d = dialog.NewCustom(words("What does piecing save?"), words("Close"), text, v)
	d.Show()
}
