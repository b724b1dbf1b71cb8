package ui

import (
	"slices"
	"strings"

	"ellwand/garment"
	"ellwand/plan"
)

// seamsThatShow adds a check for every seam of the garment: whether it shows.
func (f *form) seamsThatShow() {
	r := f.b.shown
	if r == nil || len(r.Garment.Seams) == 0 {
		return
	}
	f.heading(words("Seams that show"))
	f.note(words("A seam that shows is always joined by hand; of the others the share under Hours may be joined by machine. The order of sewing, under Laid flat, names those that show."))
	var seen []string
	for _, s := range r.Garment.Seams {
		if !slices.Contains(seen, s.Name) {
			seen = append(seen, s.Name)
			f.seamShows(s.Name)
		}
	}
}

func (f *form) seamShows(name string) {
	f.put(fieldSpec{path: "seams[" + name + "].shows", label: name, yesNo: true,
		get: func() string {
			for _, s := range f.b.plan().Seams {
				if s.Name == name && s.Shows {
					return "true"
				}
			}
			return "false"
		},
		set: func(text string) error {
			return f.b.do("whether "+name+" shows", func(p *plan.Plan) error { p.ShowSeam(name, text == "true"); return nil })
		}})
}

// seamNames changes when the garment's seams do.
func seamNames(b *bench) string {
	all := ""
	if b.shown != nil {
		for _, s := range b.shown.Garment.Seams {
			all += "|" + s.Name
		}
	}
	return all
}

// fitChecks says of every check of fit how it comes out, and its rule.
func (f *form) fitChecks() {
	f.heading(words("Does it fit?"))
	f.said(func() string {
		r := f.b.shown
		if r == nil || r.Garment.Draft == "" {
			return words("There is nothing to check: the pieces are your own.")
		}
		var lines []string
		for _, n := range garment.FitNotes(r.Garment, f.b.plan().Body) {
			line := n.String()
			if !n.OK {
				line = "! " + line
			}
			lines = append(lines, line)
		}
		return strings.Join(lines, "\n")
	})
}
