package ui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2/dialog"

	"ellwand/garment"
	"ellwand/plan"
)

// wholeOf is the piece that a part is of, or the piece itself.
func wholeOf(p *plan.Plan, name string) string {
	for _, s := range p.Pieces {
		first, second := garment.PartNames(s.Name)
		if name == first || name == second {
			return s.Name
		}
	}
	return name
}

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
		{"piecing", "Cut in two", []option{{"", "never"}, {"if_needed", "where it must be"}, {"if_it_saves", "where it saves cloth"}, {"yes", "yes"}}},
		{"piecing_line", "Cut along or across it", []option{{"", "as serves"}, {"along", "along"}, {"across", "across"}}},
	} {
		path := "pieces[" + name + "]." + field.key
		f.put(fieldSpec{path: path, label: field.label, options: field.options,
			get: func() string {
				if v := plan.GetField(f.b.plan(), path); v != "no" {
					return v
				}
				return ""
			},
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
const piecingSeconds = 8

// whatPiecingSaves lays the plan with each piece whole and in two, and says
// what cloth that saves and what seam it costs.
func (v *window) whatPiecingSaves() {
	b := v.b
	b.stop()
	if !b.current() {
		v.fault(errNotLaid)
		return
	}
	if len(b.shown.Piecing) == 0 {
		dialog.ShowCustom(words("What does piecing save?"), words("Close"),
			newParagraph(words("No piece may be cut in two. Whether one may is said in the panel Pieces, once the piece is picked."), 520), v)
		return
	}
	r, of := *b.shown, b.plan()
	r.Piecing = append([]plan.Pieced(nil), r.Piecing...)
	v.say(words("Laying the pieces whole and in two …"), false)
	b.spawn(func() {
		r.TryPiecing(context.Background(), plan.Options{Seed: 1, Threads: threads(), Seconds: piecingSeconds})
		b.onWindow(func() {
			if b.plan() != of { // the plan has changed meanwhile: the answer is of another
				return
			}
			v.tellPicked()
			dialog.ShowCustom(words("What does piecing save?"), words("Close"), newParagraph(r.PiecingText(of.ShowUnits), 640), v)
		})
	})
}
