package plan

import (
	"fmt"
	"strings"

	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// unshownNotes name the names whose letters the font of pictures and prints
// lacks: it has those of Latin, Greek and Cyrillic writing.
func (p *Plan) unshownNotes() []string {
	names := []struct{ field, text string }{{"title", p.Title}, {"body.name", p.Body.Name}}
	for _, piece := range p.Pieces {
		names = append(names, struct{ field, text string }{pieceField(piece.Name) + ".name", piece.Name})
	}
	for _, y := range p.Yarns {
		names = append(names, struct{ field, text string }{"yarns[" + y.Name + "].name", y.Name})
	}
	for _, f := range p.Fleeces {
		names = append(names, struct{ field, text string }{"fleeces[" + f.Name + "].name", f.Name})
	}
	font, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil // the prints would fail too, and say so
	}
	var notes []string
	var buffer sfnt.Buffer
	for _, n := range names {
		lacks := strings.Map(func(r rune) rune {
			if at, err := font.GlyphIndex(&buffer, r); err != nil || at == 0 {
				return r
			}
			return -1
		}, n.text)
		if lacks != "" {
			notes = append(notes, fmt.Sprintf("%s has letters (%s) that the font of pictures and prints lacks; a box stands there for each, so a name in Latin, Greek or Cyrillic letters is safer.", n.field, shortened(lacks)))
		}
	}
	return notes
}
