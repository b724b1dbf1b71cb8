package plan

import (
	"fmt"
	"slices"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/hours"
	"ellwand/layout"
)

// Result is a plan worked out with one lay.
type Result struct {
	Garment      garment.Garment
	Pieces       []PieceResult
	Prepared     *Prepared
	Lay          layout.Lay
	UsePercent   float64
	Reckoning    cloth.Reckoning
	Dyes         []cloth.DyeNeed
	Hours        hours.Reckoning
	Progress     *Progress      // nil while nothing is in the log
	Holding      *cloth.Holding // nil when the cloth is there already
	Cautions     []string
	Notes        []string
	CannotBeMade []cloth.Shortfall
	Piecing      []Pieced       // what may be cut apart, and what that saves
	Might        []Pieced       // what might, once that was tried, and would save cloth
	Unasked      []Pieced       // what might and would save little or none
	Untried      []string       // pieces for which there was no time
	Lengths      []LengthUse    // what lies on which length of cloth; nil when it is all one
	Faults       []layout.Fault // what is wrong with the lay; empty for one that Work gave

	plan *Plan
}

// Plan is what was worked out; it may not be changed.
func (r *Result) Plan() *Plan { return r.plan }

// ReckonLay works everything out for a lay, legal or not: Faults says what is
// wrong with it.
func ReckonLay(p *Plan, pr *Prepared, lay layout.Lay) (*Result, error) {
	uses := pr.lengthUses(lay)
	reckoning, err := p.reckonLengths(pr, lay, uses)
	if err != nil {
		return nil, err
	}
	work, err := p.reckonHours(pr, reckoning)
	if err != nil {
		return nil, err
	}
	dyes := p.reckonDyes(reckoning)
	hold := p.holding(pr, lay, reckoning)
	r := &Result{
		Garment: pr.Garment, Pieces: pr.Pieces, Prepared: pr,
		Lay:          lay,
		UsePercent:   layout.UsePercent(pr.Problem, lay),
		Reckoning:    reckoning,
		Dyes:         dyes,
		Hours:        work,
		Holding:      hold,
		Cautions:     slices.Concat(p.sampleCautions(hold), reckoning.Cautions, dyeCautions(dyes), work.Cautions, pr.Cautions),
		Notes:        slices.Concat(pr.Notes, p.unshownNotes(), p.plantNotes(reckoning), p.skeinNotes(), work.Notes),
		Lengths:      uses,
		CannotBeMade: slices.Concat(reckoning.Shortfalls, pr.longerThanAWarp(p, reckoning), noRoom(uses)),
		Faults:       layout.Faults(pr.Problem, lay),
		plan:         p,
	}
	p.piecedHours(r)
	if r.Progress, err = p.progress(pr, lay, r); err != nil {
		return nil, err
	}
	if r.Progress != nil {
		r.Cautions = slices.Concat(r.Progress.Warnings, r.Cautions)
	}
	return r, nil
}

// longerThanAWarp names the pieces that no single warp is long enough for, when
// the cloth takes several.
func (pr *Prepared) longerThanAWarp(p *Plan, r cloth.Reckoning) []cloth.Shortfall {
	if r.Warps < 2 {
		return nil
	}
	most := cloth.MaxFinishedLengthCM(cloth.Input{Setting: p.setting(), Loom: p.Loom})
	var out []cloth.Shortfall
	said := map[int]bool{}
	for i, it := range pr.Problem.Items {
		least := least(it)
		if piece := pr.Copies[i].Piece; least > most+1e-6 && !said[piece] {
			said[piece] = true
			out = append(out, cloth.Shortfall{Key: "warp_length_cm", Text: fmt.Sprintf("The piece %s takes %.1f cm along the warp, but one warp of this loom makes at most %.1f cm of finished cloth.",
				pr.Pieces[piece].Piece.Name, least, most)})
		}
	}
	return out
}

// reckonCloth is the chain of figures for a lay of the given finished size.
func reckonCloth(p *Plan, widthCM, lengthCM float64) (cloth.Reckoning, error) {
	in, err := p.clothInput(widthCM, lengthCM)
	if err != nil {
		return cloth.Reckoning{}, err
	}
	r, err := cloth.Reckon(in)
	if err != nil {
		return cloth.Reckoning{}, fmt.Errorf("the cloth cannot be worked out: %w", err)
	}
	return r, nil
}

// clothInput is what the chain of figures needs of the plan.
func (p *Plan) clothInput(widthCM, lengthCM float64) (cloth.Input, error) {
	warp, err := p.yarn("cloth.warp", p.WarpYarn)
	if err != nil {
		return cloth.Input{}, err
	}
	weft, err := p.yarn("cloth.weft", p.WeftYarn)
	if err != nil {
		return cloth.Input{}, err
	}
	others, err := p.otherYarns()
	if err != nil {
		return cloth.Input{}, err
	}
	return cloth.Input{
		LayWidthCM: widthCM, LayLengthCM: lengthCM,
		Setting: p.setting(), Loom: p.Loom, Warp: warp, Weft: weft, Others: others, Fleeces: p.Fleeces,
	}, nil
}

// yarn finds one of the plan's yarns by name.
func (p *Plan) yarn(field, name string) (cloth.Yarn, error) {
	var names []string
	for _, y := range p.dyedYarns() {
		if y.Name == name {
			return y, nil
		}
		names = append(names, y.Name)
	}
	if len(names) == 0 {
		return cloth.Yarn{}, &Problem{Field: "yarns", Text: "is empty", Accepted: "a yarn for the warp and one for the weft, or one for both"}
	}
	text := fmt.Sprintf("is %q, which is none of the plan's yarns", name)
	if n := nearest(name, names); n != "" {
		text += fmt.Sprintf(" (did you mean %q?)", n)
	}
	return cloth.Yarn{}, &Problem{Field: field, Text: text, Accepted: "the name of one of the yarns"}
}
