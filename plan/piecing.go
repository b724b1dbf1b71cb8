package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/hours"
	"ellwand/layout"
)

// Words of pieces[…].piecing.
const (
	piecingNo       = "no"
	piecingIfNeeded = "if_needed"
	piecingIfSaves  = "if_it_saves"
	piecingYes      = "yes"
)

// savesEnough is the share of the cloth from which piecing counts as saving it.
const savesEnough = 0.01

func piecingKeys(s *PieceSpec) []key {
	words := wordKey("piecing", "Cut apart and seamed", &s.Piecing, "", piecingNo, piecingIfNeeded, piecingIfSaves, piecingYes)
	words.accepted = oneOf(words.choices[1:])
	line := wordKey("piecing_line", "Cut along it or across", &s.PiecingLine, "", "along", "across")
	line.accepted = oneOf(line.choices[1:])
	return []key{words, line,
		integerKey("piecing_parts", "Into how many parts (0: as few as serve)", &s.PiecingParts, 0, mostParts),
		numberKey("piecing_share", "In two, cut at this share of it (0: halfway)", "", &s.PiecingShare, bounds{min: 0, max: 0.95})}
}

// Pieced is a piece that may be cut apart: whether it is, and what that saves
// and costs.
type Pieced struct {
	Piece  string
	Pieced bool
	Parts  int     // how many it is cut into, or would be; 0 where that is not known
	Line   string  // "along" its length or "across" it
	Why    string  // why it is cut apart; or that it is not
	SeamCM float64 // all piecing seams of one copy
	Times  int     // copies
	HoursH float64 // of all these seams, likely
	// SavedCM is how much shorter the cloth is than with the piece whole, as far
	// as both were searched; Known is false while that was not tried.
	SavedCM    float64
	SavedM2    float64
	SavedG     float64 // of yarn, spun
	SavedH     float64 // likely hours less in all, the seams sewn counted in; below 0: more
	Known      bool
	Impossible string // why it cannot be made with the piece whole; "" where it can
}

// pieceApart cuts apart what the plan lets be cut apart, and is to be.
func (pr *Prepared) pieceApart(p *Plan) error {
	decided := p.decidePiecing()
	for _, s := range p.Pieces {
		i := slices.IndexFunc(pr.Garment.Pieces, func(g garment.Piece) bool { return g.Name == s.Name })
		if i < 0 || s.Piecing == "" || s.Piecing == piecingNo {
			continue
		}
		piece := pr.Garment.Pieces[i]
		why, line := p.whyPiece(s, piece, decided[s.Name])
		if (s.PiecingLine != "" || s.PiecingParts > 0) && line == bothWays {
			pr.Cautions = append(pr.Cautions, fmt.Sprintf("%s is too wide and too long for the cloth: it is cut along and across once its piecing_line and piecing_parts are left out.", s.Name))
			line = "along"
		}
		if s.PiecingLine != "" {
			line = s.PiecingLine
		}
		one := Pieced{Piece: s.Name, Line: line, Why: why.text, Pieced: why.text != "", Times: max(1, piece.Copies)}
		if one.Why == "" {
			one.Why = "not needed"
			if s.Piecing == piecingIfSaves {
				one.Why = fmt.Sprintf("would not save %.0f %% of the cloth", savesEnough*100)
			}
			pr.Pieced = append(pr.Pieced, one)
			continue
		}
		g, err := p.cutApart(pr.Garment, s, piece, line, why.needed)
		if err != nil {
			return &Problem{Field: pieceField(s.Name) + ".piecing", Text: "cannot be done: " + err.Error(), Accepted: "another piecing_line, piecing_parts or piecing_share, or piecing: no", cause: err}
		}
		pr.Garment = g
		one.Parts, one.SeamCM = piecedInto(g, s.Name)
		pr.Pieced = append(pr.Pieced, one)
	}
	return nil
}

// whyPieced is why a piece is to be cut apart, "" where it is not; needed says
// that it cannot be laid whole.
type whyPieced struct {
	text   string
	needed bool
}

// whyPiece is why a piece is to be cut apart, and the line that serves: what is
// too wide is cut along the warp, what is too long across.
func (p *Plan) whyPiece(s PieceSpec, piece garment.Piece, saves bool) (why whyPieced, line string) {
	along, across := "along", "across"
	if piece.Grain == garment.GrainWeft {
		along, across = across, along
	}
	if wide, long, err := p.needs(piece); err == nil {
		mostWide, mostLong := p.clothThere()
		tooWide := fmt.Sprintf("%.1f cm across, wider than the cloth of %.1f cm", wide, mostWide)
		tooLong := fmt.Sprintf("%.1f cm along, longer than any length of cloth there is, %.1f cm", long, mostLong)
		switch {
		case wide > mostWide+1e-6 && long > mostLong+1e-6:
			return whyPieced{tooWide + ", and " + tooLong, true}, bothWays
		case wide > mostWide+1e-6:
			return whyPieced{tooWide, true}, along
		case long > mostLong+1e-6:
			return whyPieced{tooLong, true}, across
		}
	}
	switch {
	case s.Piecing == piecingYes:
		return whyPieced{"as the plan says", false}, along
	case s.Piecing == piecingIfSaves && saves:
		return whyPieced{"it saves cloth", false}, along
	}
	return whyPieced{}, along
}

// needs is the least width and length of cloth that a piece takes, cut out.
func (p *Plan) needs(piece garment.Piece) (wideCM, longCM float64, err error) {
	cut, err := garment.CutOutline(piece, p.Allowances)
	if err != nil {
		return 0, 0, err
	}
	it := layout.Item{Outline: cut, TurnsDeg: Turns(piece.Grain, p.Nap)}
	return layout.NarrowestCM(layout.Problem{Items: []layout.Item{it}}), least(it), nil
}

// clothThere is the widest and the longest that any piece can be: of the real
// cloth, else of the loom.
func (p *Plan) clothThere() (wideCM, longCM float64) {
	wideCM, _ = p.Real.realWidth(func() (float64, error) {
		if w := p.Cloth.FinishedWidthCM; w > 0 {
			return w, nil
		}
		return widestWoven(p), nil
	})
	if lengths := p.Real.inHand(); len(lengths) > 0 {
		for _, l := range lengths {
			end := p.Real.endOf(l)
			if end == 0 {
				return wideCM, math.Inf(1)
			}
			longCM = max(longCM, end)
		}
		return wideCM, longCM
	}
	if p.Loom.MaxWarpM == 0 {
		return wideCM, math.Inf(1)
	}
	return wideCM, cloth.MaxFinishedLengthCM(cloth.Input{Setting: p.setting(), Loom: p.Loom})
}

// decidePiecing says of the pieces that are cut in two only if it saves cloth
// whether it does: as the kept lay has them, else by the first lays with and
// without, one piece after the other.
func (p *Plan) decidePiecing() map[string]bool {
	decided := map[string]bool{}
	for i, s := range p.Pieces {
		if s.Piecing != piecingIfSaves {
			continue
		}
		if pieced, kept := p.keptPieced(s.Name); kept {
			decided[s.Name] = pieced
			continue
		}
		with := func(word string) float64 {
			q := p.Clone()
			q.Lay = nil
			for j := range q.Pieces {
				t := &q.Pieces[j]
				switch {
				case j == i:
					t.Piecing = word
				case t.Piecing == piecingIfSaves && j < i && decided[t.Name]:
					t.Piecing = piecingYes
				case t.Piecing == piecingIfSaves:
					t.Piecing = piecingNo
				}
			}
			pr, err := Prepare(q)
			if err != nil {
				return math.Inf(1)
			}
			lay, err := FirstLay(pr)
			if err != nil {
				return math.Inf(1)
			}
			return layout.ClothCM(pr.Problem, lay) * pr.Problem.WidthCM
		}
		decided[s.Name] = with(piecingYes) < with(piecingNo)*(1-savesEnough)
	}
	return decided
}

// keptPieced says whether the kept lay has the piece in two parts, and whether
// it has it at all.
func (p *Plan) keptPieced(name string) (pieced, kept bool) {
	if p.Lay == nil {
		return false, false
	}
	part := garment.PartName(name, 1)
	for _, s := range p.Lay.Placements {
		switch {
		case strings.HasPrefix(s.ID, part+"/"):
			return true, true
		case strings.HasPrefix(s.ID, name+"/"):
			kept = true
		}
	}
	return false, kept
}

// piecedHours is what the piecing seams take, of all the hours.
func (p *Plan) piecedHours(r *Result) {
	r.Piecing = slices.Clone(r.Prepared.Pieced)
	work := p.workToDo(r.Prepared, r.Reckoning)
	for k := range r.Piecing {
		d := &r.Piecing[k]
		if !d.Pieced {
			continue
		}
		less := work
		less.Seams = slices.DeleteFunc(slices.Clone(work.Seams), func(l hours.Length) bool { return isPiecingSeam(l.Name, d.Piece) })
		if h, err := hours.Reckon(less, p.Hours); err == nil {
			d.HoursH = r.Hours.Total.Likely - h.Total.Likely
		}
		r.Notes = append(r.Notes, d.note())
	}
}

func (r *Result) writePiecing(b *strings.Builder, units string) {
	if len(r.Piecing) > 0 {
		fmt.Fprintf(b, "Cut apart and seamed\n%s\n", r.PiecingText(units))
	}
}

type piecedJSON struct {
	Piece      string   `json:"piece"`
	Pieced     bool     `json:"pieced"`
	Parts      int      `json:"parts"`
	Line       string   `json:"line"`
	Why        string   `json:"why"`
	SeamCM     float64  `json:"seam_cm"`
	Times      int      `json:"times"`
	HoursH     float64  `json:"hours_h"`
	SavedCM    *float64 `json:"saved_cm"` // null while not tried, or not possible otherwise
	SavedM2    *float64 `json:"saved_m2"`
	SavedG     *float64 `json:"saved_yarn_g"`
	SavedH     *float64 `json:"saved_h"` // in all, the seams counted in
	Impossible string   `json:"impossible"`
}

func (r *Result) piecingAsJSON() []piecedJSON {
	out := []piecedJSON{}
	for _, d := range r.Piecing {
		j := piecedJSON{Piece: d.Piece, Pieced: d.Pieced, Parts: d.Parts, Line: d.Line, Why: d.Why, SeamCM: fourth(d.SeamCM), Times: d.Times, HoursH: fourth(d.HoursH), Impossible: d.Impossible}
		if d.Known {
			cm, m2, g, h := fourth(d.SavedCM), fourth(d.SavedM2), fourth(d.SavedG), fourth(d.SavedH)
			j.SavedCM, j.SavedM2, j.SavedG, j.SavedH = &cm, &m2, &g, &h
		}
		out = append(out, j)
	}
	return out
}
