package plan

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// TryPiecing finds out, for each piece that may be cut apart, how much cloth
// that saves: the plan is laid with the piece whole, or cut where it is whole
// now, for a share of the seconds each.
func (r *Result) TryPiecing(ctx context.Context, o Options) { r.tryPiecing(ctx, o, nil) }

// TryAllPiecing is TryPiecing, and tries in two, along and across, each piece of
// which the plan does not say whether it may be cut: Might is those that would
// save cloth, Unasked those that would save little or none. Nothing is cut that is
// not said to be.
func (r *Result) TryAllPiecing(ctx context.Context, o Options) {
	r.Might, r.Unasked, r.Untried = []Pieced{}, nil, nil
	r.tryPiecing(ctx, o, r.unasked())
}

// unasked is the pieces of which the plan does not say whether they may be cut.
func (r *Result) unasked() []string {
	var out []string
	for _, piece := range r.Pieces {
		name := piece.Piece.Name
		said := r.plan.WholeOf(name) != name || slices.ContainsFunc(r.plan.Pieces, func(s PieceSpec) bool {
			return s.Name == name && s.Piecing != ""
		})
		if !said {
			out = append(out, name)
		}
	}
	return out
}

func (r *Result) tryPiecing(ctx context.Context, o Options, unasked []string) {
	o.Seconds /= float64(len(r.Piecing) + 1 + 2*len(unasked))
	o.KeepLay, o.Found = false, nil
	// As it is now too it is searched for as long, lest luck counts as saving.
	as := r.plan.Clone()
	as.Lay = r.asPieced()
	now, err := Work(ctx, as, o)
	if err != nil || now.ClothCM() > r.ClothCM() {
		now = r
	}
	for k := range r.Piecing {
		d := &r.Piecing[k]
		word := piecingYes
		if d.Pieced {
			word = piecingNo
		}
		other, err := Work(ctx, r.withPiecing(d.Piece, word, ""), o)
		switch {
		case ctx.Err() != nil: // what was cut short is not to be compared
			r.Untried = append(r.Untried, d.Piece)
		case err != nil:
			d.Impossible = whyNotCut(err)
		case len(noRoom(other.Lengths)) > len(noRoom(r.Lengths)):
			d.Impossible = noRoom(other.Lengths)[0].Text
		case d.Pieced:
			d.saves(other, now)
		default:
			d.seamFrom(other)
			d.saves(now, other)
		}
	}
	for _, name := range unasked {
		r.tryUnasked(ctx, name, now, o)
	}
}

// tryUnasked tries one piece in two, along and across, and keeps the way that
// saves more cloth, or why it can be cut neither way.
func (r *Result) tryUnasked(ctx context.Context, name string, now *Result, o Options) {
	best, why := Pieced{SavedM2: math.Inf(-1)}, ""
	for _, line := range []string{"along", "across"} {
		other, err := Work(ctx, r.withPiecing(name, piecingYes, line), o)
		switch {
		case ctx.Err() != nil:
			r.Untried = append(r.Untried, name)
			return
		case err != nil:
			why = whyNotCut(err)
			continue
		case len(noRoom(other.Lengths)) > len(noRoom(r.Lengths)):
			why = noRoom(other.Lengths)[0].Text
			continue
		}
		d := Pieced{Piece: name}
		d.seamFrom(other)
		d.saves(now, other)
		if d.SavedM2 > best.SavedM2 {
			best = d
		}
	}
	switch enough := savesEnough * now.ClothCM() * now.Lay.WidthCM / 1e4; {
	case best.SavedM2 > enough:
		r.Might = append(r.Might, best)
	case best.Known:
		r.Unasked = append(r.Unasked, best)
	default:
		r.Unasked = append(r.Unasked, Pieced{Piece: name, Impossible: why})
	}
}

// whyNotCut is why a piece cannot be cut as was tried, without what the plan file
// would have to say instead: it does not say so.
func whyNotCut(err error) string {
	if at := (*Problem)(nil); errors.As(err, &at) && at.cause != nil {
		err = at.cause
	}
	return err.Error()
}

// withPiecing is the plan with one piece cut apart or not, and all others as
// they are now, to be laid anew.
func (r *Result) withPiecing(name, word, line string) *Plan {
	q := r.plan.Clone()
	q.Lay = nil
	for _, d := range r.Piecing {
		for j := range q.Pieces {
			if q.Pieces[j].Name == d.Piece {
				q.Pieces[j].Piecing = map[bool]string{true: piecingYes, false: piecingNo}[d.Pieced]
			}
		}
	}
	j := slices.IndexFunc(q.Pieces, func(s PieceSpec) bool { return s.Name == name })
	if j < 0 {
		q.Pieces, j = append(q.Pieces, PieceSpec{Name: name}), len(q.Pieces)
	}
	q.Pieces[j].Piecing = word
	if line != "" {
		q.Pieces[j].PiecingLine = line
	}
	return q
}

// seamFrom takes from a result in which the piece is cut what that costs.
func (d *Pieced) seamFrom(pieced *Result) {
	for _, e := range pieced.Piecing {
		if e.Piece == d.Piece {
			d.Parts, d.SeamCM, d.Times, d.HoursH, d.Line = e.Parts, e.SeamCM, e.Times, e.HoursH, e.Line
		}
	}
}

// saves compares the plan with the piece whole and cut.
func (d *Pieced) saves(whole, pieced *Result) {
	d.Known = true
	d.SavedCM = whole.ClothCM() - pieced.ClothCM()
	d.SavedM2 = (whole.ClothCM()*whole.Lay.WidthCM - pieced.ClothCM()*pieced.Lay.WidthCM) / 1e4
	d.SavedG = whole.yarnG() - pieced.yarnG()
	d.SavedH = whole.Hours.Total.Likely - pieced.Hours.Total.Likely
}

// yarnG is the mass of all yarn.
func (r *Result) yarnG() float64 {
	sum := 0.0
	for _, y := range r.Reckoning.Yarns {
		sum += y.MassG
	}
	return sum
}

// asPieced is the result's lay as it would be kept, so that what is cut apart
// stays so; nothing is pinned by it that is not now.
func (r *Result) asPieced() *SavedLay {
	p := &Plan{}
	p.KeepLay(r)
	return p.Lay
}

func (d Pieced) note() string {
	return fmt.Sprintf("%s is cut %s %s it and seamed (%s): %d × %.1f cm of seam, about %.1f h.", d.Piece, d.inParts(), d.Line, d.Why, d.Times, d.SeamCM, d.HoursH)
}

// inParts is "in two", "in 3 parts".
func (d Pieced) inParts() string {
	if d.Parts <= 2 {
		return "in two"
	}
	return fmt.Sprintf("in %d parts", d.Parts)
}

// PiecingText says of each piece that may be cut apart what that saves and what
// it costs, and what might be saved that was not asked for.
func (r *Result) PiecingText(units string) string {
	var b strings.Builder
	for _, d := range r.Piecing {
		fmt.Fprintf(&b, "  %s\n", d.Text(units))
	}
	for _, d := range r.Might {
		fmt.Fprintf(&b, "  %s could be cut %s %s it%s%s\n", d.Piece, d.inParts(), d.Line, d.seamText(units), d.savedText(units))
	}
	listed := func(head string, known bool, line func(Pieced) string) {
		for _, d := range r.Unasked {
			if d.Known == known {
				b.WriteString(head + "    " + line(d) + "\n")
				head = ""
			}
		}
	}
	listed(fmt.Sprintf("  Cut in two, these would not save %.0f %% of the cloth:\n", savesEnough*100), true, func(d Pieced) string {
		return d.Piece + ", " + d.Line + " it" + d.seamText(units) + d.savedText(units)
	})
	listed("  These cannot be cut in two:\n", false, func(d Pieced) string { return d.Piece + ": " + d.Impossible })
	if len(r.Untried) > 0 {
		fmt.Fprintf(&b, "  Stopped before these were tried: %s.\n", strings.Join(r.Untried, ", "))
	}
	return b.String()
}

// Text is one sentence: whether it is cut apart and why, the seam and what it saves.
func (d Pieced) Text(units string) string {
	is := "is whole"
	if d.Pieced {
		is = "is cut " + d.inParts() + " " + d.Line + " it"
	}
	return fmt.Sprintf("%s %s: %s%s%s", d.Piece, is, d.Why, d.seamText(units), d.savedText(units))
}

func (d Pieced) seamText(units string) string {
	if d.SeamCM == 0 {
		return ""
	}
	return fmt.Sprintf("; seam %d × %s, about %.1f h", d.Times, lengthText(d.SeamCM, units), d.HoursH)
}

// savedText is what the cutting saves, or would save.
func (d Pieced) savedText(units string) string {
	switch {
	case d.Impossible != "" && d.Pieced:
		return "; whole it cannot be made: " + d.Impossible
	case d.Impossible != "":
		return "; cut apart it cannot be made: " + d.Impossible
	case !d.Known:
		return ""
	case d.SavedCM < 0.05 && d.SavedM2 < 0.0005:
		text := "; no cloth is saved"
		if d.SavedCM < -0.05 {
			text += fmt.Sprintf(", it takes %s more", lengthText(-d.SavedCM, units))
		}
		return text
	}
	text := "; saves "
	if d.SavedCM >= 0.05 {
		text += lengthText(d.SavedCM, units) + " of cloth, "
	}
	text += fmt.Sprintf("%.2f m²", d.SavedM2)
	if d.SavedCM < 0.05 {
		text += " of cloth, which is then narrower"
	}
	text += fmt.Sprintf(", %.0f g of yarn", d.SavedG)
	if seam := d.SeamCM * float64(d.Times) / 100; seam > 0 && d.SavedCM >= 0.05 {
		text += fmt.Sprintf(" (%.1f cm of cloth for each m of seam)", d.SavedCM/seam)
	}
	switch {
	case d.SavedH >= 0.05:
		text += fmt.Sprintf("; with the seam sewn, %.1f h less in all", d.SavedH)
	case d.SavedH <= -0.05:
		text += fmt.Sprintf("; with the seam sewn, %.1f h more in all", -d.SavedH)
	}
	return text
}

// CutApart lets a piece be cut as a suggestion says.
func (d Pieced) CutApart(p *Plan) error {
	if !slices.ContainsFunc(p.Pieces, func(s PieceSpec) bool { return s.Name == d.Piece }) {
		p.Pieces = append(p.Pieces, PieceSpec{Name: d.Piece})
	}
	if err := SetField(p, pieceField(d.Piece)+".piecing", piecingYes); err != nil {
		return err
	}
	return SetField(p, pieceField(d.Piece)+".piecing_line", d.Line)
}
