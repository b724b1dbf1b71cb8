package plan

import (
	"context"
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
	words := wordKey("piecing", "Cut in two", &s.Piecing, "", piecingNo, piecingIfNeeded, piecingIfSaves, piecingYes)
	words.accepted = oneOf(words.choices[1:])
	line := wordKey("piecing_line", "Cut in two along or across", &s.PiecingLine, "", "along", "across")
	line.accepted = oneOf(line.choices[1:])
	return []key{words, line,
		numberKey("piecing_share", "Cut at this share of it (0: halfway)", "", &s.PiecingShare, bounds{min: 0, max: 0.95})}
}

// Pieced is a piece that may be cut in two: whether it is, and what that saves
// and costs.
type Pieced struct {
	Piece  string
	Pieced bool
	Line   string  // "along" its length or "across" it
	Why    string  // why it is cut in two; or that it is not
	SeamCM float64 // one seam
	Times  int
	HoursH float64 // of all these seams, likely
	// SavedCM is how much shorter the cloth is than with the piece whole, as far
	// as both were searched; Known is false while that was not tried.
	SavedCM    float64
	SavedM2    float64
	Known      bool
	Impossible string // why it cannot be made with the piece whole; "" where it can
}

// pieceInTwo cuts in two what the plan lets be cut in two, and is to be.
func (pr *Prepared) pieceInTwo(p *Plan) error {
	decided := p.decidePiecing()
	for _, s := range p.Pieces {
		i := slices.IndexFunc(pr.Garment.Pieces, func(g garment.Piece) bool { return g.Name == s.Name })
		if i < 0 || s.Piecing == "" || s.Piecing == piecingNo {
			continue
		}
		piece := pr.Garment.Pieces[i]
		why, line := p.whyPiece(s, piece, decided[s.Name])
		if s.PiecingLine != "" {
			line = s.PiecingLine
		}
		one := Pieced{Piece: s.Name, Line: line, Why: why, Pieced: why != "", Times: max(1, piece.Copies)}
		if one.Why == "" {
			one.Why = "not needed"
			if s.Piecing == piecingIfSaves {
				one.Why = fmt.Sprintf("would not save %.0f %% of the cloth", savesEnough*100)
			}
			pr.Pieced = append(pr.Pieced, one)
			continue
		}
		share := s.PiecingShare
		if share == 0 {
			share = 0.5
		}
		b := piece.Outline.Bounds()
		at := b.MinX + share*b.Width()
		if line == "along" {
			at = b.MinY + share*b.Height()
		}
		g, err := garment.PieceInTwo(pr.Garment, s.Name, line == "along", at)
		if err != nil {
			return &Problem{Field: pieceField(s.Name) + ".piecing", Text: "cannot be done: " + err.Error(), Accepted: "another piecing_line or piecing_share, or piecing: no"}
		}
		pr.Garment = g
		first, _ := garment.PartNames(s.Name)
		part, _ := g.Piece(first)
		one.SeamCM = garment.EdgeLengthsCM(part)[garment.PiecingEdge]
		pr.Pieced = append(pr.Pieced, one)
	}
	return nil
}

// whyPiece is why a piece is to be cut in two, "" where it is not, and the line
// that serves: what is too wide is cut along the warp, what is too long across.
func (p *Plan) whyPiece(s PieceSpec, piece garment.Piece, saves bool) (why, line string) {
	along, across := "along", "across"
	if piece.Grain == garment.GrainWeft {
		along, across = across, along
	}
	if cut, err := garment.CutOutline(piece, p.Allowances); err == nil {
		it := layout.Item{Outline: cut, TurnsDeg: Turns(piece.Grain, p.Nap)}
		wide, long := p.clothThere()
		if w := layout.NarrowestCM(layout.Problem{Items: []layout.Item{it}}); w > wide+1e-6 {
			return fmt.Sprintf("%.1f cm across, wider than the cloth of %.1f cm", w, wide), along
		}
		if l := least(it); l > long+1e-6 {
			return fmt.Sprintf("%.1f cm along, longer than any length of cloth there is, %.1f cm", l, long), across
		}
	}
	switch {
	case s.Piecing == piecingYes:
		return "as the plan says", along
	case s.Piecing == piecingIfSaves && saves:
		return "it saves cloth", along
	}
	return "", along
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
	part, _ := garment.PartNames(name)
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
		less.Seams = slices.DeleteFunc(slices.Clone(work.Seams), func(l hours.Length) bool { return l.Name == garment.PiecingSeam(d.Piece) })
		if h, err := hours.Reckon(less, p.Hours); err == nil {
			d.HoursH = r.Hours.Total.Likely - h.Total.Likely
		}
		r.Notes = append(r.Notes, d.note())
	}
}

func (d Pieced) note() string {
	return fmt.Sprintf("%s is cut in two %s it and seamed (%s): %d × %.1f cm of seam, about %.1f h.", d.Piece, d.Line, d.Why, d.Times, d.SeamCM, d.HoursH)
}

// TryPiecing finds out, for each piece that may be cut in two, how much cloth
// it saves: the plan is laid with the piece whole, or in two where it is whole
// now, for a share of the seconds each.
func (r *Result) TryPiecing(ctx context.Context, o Options) {
	n := len(r.Piecing) + 1
	// As it is now too it is searched for as long, lest luck counts as saving.
	as := r.plan.Clone()
	as.Lay = r.asPieced()
	now, err := Work(ctx, as, Options{Seed: o.Seed, Threads: o.Threads, Seconds: o.Seconds / float64(n)})
	if err != nil || now.ClothCM() > r.ClothCM() {
		now = r
	}
	for k := range r.Piecing {
		d := &r.Piecing[k]
		q := r.plan.Clone()
		q.Lay = nil
		for j := range q.Pieces {
			s := &q.Pieces[j]
			switch was := slices.IndexFunc(r.Piecing, func(e Pieced) bool { return e.Piece == s.Name }); {
			case was < 0:
			case s.Name == d.Piece && !d.Pieced, s.Name != d.Piece && r.Piecing[was].Pieced:
				s.Piecing = piecingYes
			default:
				s.Piecing = piecingNo
			}
		}
		other, err := Work(ctx, q, Options{Seed: o.Seed, Threads: o.Threads, Seconds: o.Seconds / float64(n)})
		switch {
		case err != nil:
			d.Impossible = err.Error()
		case len(noRoom(other.Lengths)) > len(noRoom(r.Lengths)):
			d.Impossible = noRoom(other.Lengths)[0].Text
		default:
			whole, pieced := other, now
			if !d.Pieced {
				whole, pieced = now, other
			}
			d.Known = true
			d.SavedCM = whole.ClothCM() - pieced.ClothCM()
			d.SavedM2 = (whole.ClothCM()*whole.Lay.WidthCM - pieced.ClothCM()*pieced.Lay.WidthCM) / 1e4
			if !d.Pieced {
				for _, e := range other.Piecing {
					if e.Piece == d.Piece {
						d.SeamCM, d.HoursH, d.Line = e.SeamCM, e.HoursH, e.Line
					}
				}
			}
		}
	}
}

// asPieced is the result's lay as it would be kept, so that what is cut in two
// stays so; nothing is pinned by it that is not now.
func (r *Result) asPieced() *SavedLay {
	p := &Plan{}
	p.KeepLay(r)
	return p.Lay
}

// PiecingText says of each piece that may be cut in two what that saves and
// what it costs.
func (r *Result) PiecingText(units string) string {
	var b strings.Builder
	for _, d := range r.Piecing {
		fmt.Fprintf(&b, "  %s\n", d.Text(units))
	}
	return b.String()
}

// Text is one sentence: whether it is cut in two and why, the seam and what it saves.
func (d Pieced) Text(units string) string {
	is := "is whole"
	if d.Pieced {
		is = "is cut in two " + d.Line + " it"
	}
	text := fmt.Sprintf("%s %s: %s", d.Piece, is, d.Why)
	if d.SeamCM > 0 {
		text += fmt.Sprintf("; seam %d × %s, about %.1f h", d.Times, lengthText(d.SeamCM, units), d.HoursH)
	}
	switch {
	case d.Impossible != "" && d.Pieced:
		text += "; whole it cannot be made: " + d.Impossible
	case d.Impossible != "":
		text += "; in two it cannot be made: " + d.Impossible
	case !d.Known:
	case d.SavedCM >= 0.05 || d.SavedM2 >= 0.0005:
		text += fmt.Sprintf("; saves %s of cloth, %.2f m²", lengthText(d.SavedCM, units), d.SavedM2)
		if d.SeamCM > 0 {
			text += fmt.Sprintf(": %.1f cm for each m of seam", d.SavedCM/(d.SeamCM*float64(d.Times)/100))
		}
	default:
		text += "; no cloth is saved"
		if d.SavedCM < -0.05 {
			text += fmt.Sprintf(", it takes %s more", lengthText(-d.SavedCM, units))
		}
	}
	return text
}

func (r *Result) writePiecing(b *strings.Builder, units string) {
	if len(r.Piecing) > 0 {
		fmt.Fprintf(b, "Cut in two and seamed\n%s\n", r.PiecingText(units))
	}
}

type piecedJSON struct {
	Piece      string   `json:"piece"`
	Pieced     bool     `json:"pieced"`
	Line       string   `json:"line"`
	Why        string   `json:"why"`
	SeamCM     float64  `json:"seam_cm"`
	Times      int      `json:"times"`
	HoursH     float64  `json:"hours_h"`
	SavedCM    *float64 `json:"saved_cm"` // null while not tried, or not possible otherwise
	SavedM2    *float64 `json:"saved_m2"`
	Impossible string   `json:"impossible"`
}

func (r *Result) piecingAsJSON() []piecedJSON {
	out := []piecedJSON{}
	for _, d := range r.Piecing {
		j := piecedJSON{d.Piece, d.Pieced, d.Line, d.Why, fourth(d.SeamCM), d.Times, fourth(d.HoursH), nil, nil, d.Impossible}
		if d.Known {
			cm, m2 := fourth(d.SavedCM), fourth(d.SavedM2)
			j.SavedCM, j.SavedM2 = &cm, &m2
		}
		out = append(out, j)
	}
	return out
}
