package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/cloth"
	"ellwand/layout"
)

// breakCM is the room on the strip between two lengths of cloth.
const breakCM = 5

// stillWanting is the cloth beyond all that is in hand: pieces on it find no room.
const stillWanting = "cloth still wanting"

// realWidth is the strip's width where the real cloth says it: its widest
// place. planned is asked for the width of lengths that do not say theirs.
func (c RealCloth) realWidth(planned func() (float64, error)) (float64, error) {
	widest := 0.0
	lengths := c.inHand()
	if len(lengths) == 0 {
		return planned()
	}
	for _, l := range lengths {
		w, measured := l.WidthCM, false
		for _, m := range c.Widths {
			if c.first(m.On) == l.Name {
				w, measured = max(w, m.LeftCM+m.WidthCM), true
			}
		}
		if w == 0 && !measured {
			var err error
			if w, err = planned(); err != nil {
				return 0, err
			}
		}
		widest = max(widest, w)
	}
	return widest, nil
}

// inHand is the lengths of cloth there are; one without a name where only its
// width was measured; none where the cloth is still to be woven.
func (c RealCloth) inHand() []ClothLength {
	if len(c.Lengths) == 0 && len(c.Widths) > 0 {
		return []ClothLength{{}}
	}
	return c.Lengths
}

// layGround puts the lengths of cloth and the flaws on the strip.
func (pr *Prepared) layGround(p *Plan) error {
	pr.wanting = -1
	at := 0.0
	for _, l := range p.Real.inHand() {
		end := p.Real.endOf(l)
		to := math.Inf(1)
		if end > 0 {
			to = at + end
		}
		pr.Problem.Lengths = append(pr.Problem.Lengths, layout.Length{Name: l.Name, FromCM: at, ToCM: to, Sides: p.Real.sides(l, pr.Problem.WidthCM, p.Cloth.FinishedWidthCM)})
		at = pr.after(to)
	}
	if n := len(pr.Problem.Lengths); n > 0 && !math.IsInf(at, 1) {
		pr.wanting = n
		pr.Problem.Lengths = append(pr.Problem.Lengths, layout.Length{Name: stillWanting, FromCM: at, ToCM: math.Inf(1)})
	}
	if len(pr.Problem.Lengths) == 1 && len(pr.Problem.Lengths[0].Sides) == 0 {
		pr.Problem.Lengths = nil // one straight cloth without end is no other than planned
	}
	if err := pr.layFlaws(p); err != nil {
		return err
	}
	return pr.Problem.Validate()
}

// after is where on the strip the next length of cloth begins. Its first cut
// end lies at the same place in the pattern's repeat as the first one's, as the
// cloths are cut and as phases are reckoned on the strip.
func (pr *Prepared) after(endCM float64) float64 {
	at := endCM + breakCM
	if r := pr.Problem.RepeatCM; pr.inStep && r > 0 && !math.IsInf(at, 1) {
		at = toThousandth(math.Ceil(at/r) * r)
	}
	return at
}

// sides is the measured edges of a length, or straight ones where it is
// narrower than the strip.
func (c RealCloth) sides(l ClothLength, stripCM, plannedCM float64) []layout.Sides {
	var out []layout.Sides
	for _, m := range c.Widths {
		if c.first(m.On) == l.Name {
			out = append(out, layout.Sides{AtCM: m.AtCM, LeftCM: m.LeftCM, RightCM: m.LeftCM + m.WidthCM})
		}
	}
	wide := l.WidthCM
	if wide == 0 {
		wide = plannedCM
	}
	end := c.endOf(l)
	switch {
	case len(out) == 0 && (wide == 0 || wide >= stripCM):
		return nil
	case len(out) == 0:
		if end == 0 {
			end = layout.FarCM
		}
		return []layout.Sides{{RightCM: wide}, {AtCM: end, RightCM: wide}}
	}
	// Before the first place measured and after the last the width goes on.
	if out[0].AtCM > 0 {
		out = append([]layout.Sides{{LeftCM: out[0].LeftCM, RightCM: out[0].RightCM}}, out...)
	}
	if last := out[len(out)-1]; end > last.AtCM {
		last.AtCM = end
		out = append(out, last)
	}
	return out
}

// layFlaws puts the flaws where their lengths lie.
func (pr *Prepared) layFlaws(p *Plan) error {
	pr.Problem.Flaws = nil
	for _, f := range p.Real.Flaws {
		start, on := 0.0, p.Real.first(f.On)
		found := len(pr.Problem.Lengths) == 0 && (on == "" || on == "warp 1" || len(p.Real.Lengths) == 1)
		for k, l := range pr.Problem.Lengths {
			if l.Name == on || on == "" && k == 0 {
				start, found = l.FromCM, true
			}
		}
		if !found {
			continue // on a warp that is not needed
		}
		q, err := f.outline(pr.Problem.WidthCM)
		if err != nil {
			return &Problem{Field: fmt.Sprintf("real_cloth.flaws[%s]", f.Name), Text: "is no outline: " + err.Error()}
		}
		pr.Problem.Flaws = append(pr.Problem.Flaws, layout.Flaw{Name: f.Name, Outline: q.Translate(start, 0)})
	}
	return nil
}

// layWarps makes the cloth of each warp a length of its own where the pieces
// take more than the loom's warp holds: no piece can run across a warp's end.
// A piece longer than any warp leaves the cloth in one; the shortfall is said.
func (pr *Prepared) layWarps(p *Plan) error {
	if len(pr.Problem.Lengths) > 0 || len(p.Real.inHand()) > 0 || p.Loom.MaxWarpM == 0 {
		return nil
	}
	most := math.Floor(cloth.MaxFinishedLengthCM(cloth.Input{Setting: p.setting(), Loom: p.Loom})*1000+1e-6) / 1000
	if !(most > 0) || pr.longest() > most {
		return nil
	}
	need := layout.QuickBound(pr.Problem)
	if need < 0.4*most && !pr.keptBeyond(p.Lay, most) {
		return nil
	}
	first, err := layout.First(pr.Problem)
	if err != nil || first.LengthCM <= most && !pr.keptBeyond(p.Lay, most) {
		return nil
	}
	at := 0.0
	n := min(90, 2+int(2*max(first.LengthCM, need)/most))
	for k := range n {
		to := at + most
		if k == n-1 {
			to = math.Inf(1)
		}
		pr.Problem.Lengths = append(pr.Problem.Lengths, layout.Length{Name: fmt.Sprintf("warp %d", k+1), FromCM: at, ToCM: to})
		at = pr.after(to)
	}
	pr.warps = true
	if err := pr.layFlaws(p); err != nil {
		return err
	}
	return pr.Problem.Validate()
}

// keptBeyond says whether the lay kept in the plan reaches past a warp's end.
func (pr *Prepared) keptBeyond(l *SavedLay, most float64) bool {
	return l != nil && (len(l.StartsCM) > 1 || l.LengthCM > most+1e-6)
}

// longest is the greatest length along the warp that any piece must have.
func (pr *Prepared) longest() float64 {
	long := 0.0
	for _, it := range pr.Problem.Items {
		long = max(long, least(it))
	}
	return long
}

// least is a piece's least extent along the warp, over its turns.
func least(it layout.Item) float64 {
	short := math.Inf(1)
	for _, turn := range it.TurnsDeg {
		short = min(short, layout.Placed(it, layout.Placement{TurnDeg: turn}).Bounds().Width())
	}
	return short
}

// LengthUse is one length of cloth and what the lay takes of it.
type LengthUse struct {
	Name     string
	LengthCM float64 // 0 for cloth without end
	UsedCM   float64
	Pieces   []string // by item ID, in the order of the plan
	Wanting  bool     // it is not there: the pieces on it find no room
}

// lengthUses is what the lay takes of each length, leaving out the warps and
// the wanting cloth on which nothing lies; nil where the cloth is all one.
func (pr *Prepared) lengthUses(lay layout.Lay) []LengthUse {
	if len(pr.Problem.Lengths) == 0 {
		return nil
	}
	uses := make([]LengthUse, len(pr.Problem.Lengths))
	for k, used := range layout.UsedCM(pr.Problem, lay) {
		l := pr.Problem.Lengths[k]
		uses[k] = LengthUse{Name: l.Name, UsedCM: used, Wanting: k == pr.wanting}
		if !math.IsInf(l.ToCM, 1) {
			uses[k].LengthCM = l.ToCM - l.FromCM
		}
	}
	for i, it := range pr.Problem.Items {
		k := pr.Problem.LengthOf(layout.Placed(it, lay.Placements[i]).Bounds().MinX)
		uses[k].Pieces = append(uses[k].Pieces, it.ID)
	}
	var out []LengthUse
	for k, u := range uses {
		if u.UsedCM > 0 || !pr.warps && k != pr.wanting {
			if u.Name == "" {
				u.Name = "the cloth"
			}
			out = append(out, u)
		}
	}
	return out
}

// noRoom says which pieces find no room on the cloth in hand.
func noRoom(uses []LengthUse) []cloth.Shortfall {
	var out []cloth.Shortfall
	for _, u := range uses {
		if u.Wanting {
			out = append(out, cloth.Shortfall{Key: "real_cloth", Text: fmt.Sprintf("No room is found on the cloth in hand for %s: %.1f cm of cloth are still wanting.",
				strings.Join(u.Pieces, ", "), u.UsedCM)})
		}
	}
	return out
}

// starts is where each length of cloth begins on the strip; nil when all is one.
func (pr *Prepared) starts() []float64 {
	var out []float64
	for _, l := range pr.Problem.Lengths {
		out = append(out, l.FromCM)
	}
	return out
}

// now is where a saved place lies on the strip today: what lies on a length
// goes with it when the lengths before it have become longer or shorter.
func (pr *Prepared) now(l *SavedLay, it layout.Item, at layout.Placement) layout.Placement {
	if l == nil {
		return at
	}
	was, k := 0.0, 0
	x := layout.Placed(it, at).Bounds().MinX
	for i, s := range l.StartsCM {
		if x >= s-0.0005 {
			was, k = s, i
		}
	}
	if k == 0 || k >= len(pr.Problem.Lengths) {
		return at
	}
	at.X = toThousandth(at.X + pr.Problem.Lengths[k].FromCM - was)
	return at
}

// toThousandth rounds to what three written decimals are read as.
func toThousandth(cm float64) float64 { return math.Round(cm*1000) / 1000 }

// startsFor is starts as far as the lay reaches.
func (pr *Prepared) startsFor(lay layout.Lay) []float64 {
	starts := pr.starts()
	for len(starts) > 0 && starts[len(starts)-1] >= lay.LengthCM {
		starts = starts[:len(starts)-1]
	}
	return starts
}

// boundProblem is the problem of which the lower bound is the least cloth in all
// at this width, whatever length it is on, and by how much that is less than it.
func (pr *Prepared) boundProblem() (p layout.Problem, lessCM float64) {
	p = pr.Problem
	p.Items = slices.Clone(p.Items)
	if len(p.Lengths) == 0 {
		return p, 0
	}
	// Laid end to end the lengths would be one, with a gap at each join.
	lessCM = float64(len(p.Lengths)-1) * p.GapCM
	p.Lengths, p.Flaws = nil, nil
	for i := range p.Items {
		p.Items[i].Pinned = nil
	}
	return p, lessCM
}

// reckonLengths is the chain of figures for a lay: on the cloth of several
// warps each is woven as long as its pieces reach.
func (p *Plan) reckonLengths(pr *Prepared, lay layout.Lay, uses []LengthUse) (cloth.Reckoning, error) {
	in, err := p.clothInput(lay.WidthCM, layout.ClothCM(pr.Problem, lay))
	if err != nil {
		return cloth.Reckoning{}, err
	}
	if w := p.Cloth.FinishedWidthCM; w > 0 && len(p.Real.inHand()) > 0 {
		in.LayWidthCM = min(in.LayWidthCM, w) // what was woven may have come out wider than planned
	}
	if pr.warps {
		for _, u := range uses {
			in.WarpsCM = append(in.WarpsCM, u.UsedCM)
		}
	}
	r, err := cloth.Reckon(in)
	if err != nil {
		return cloth.Reckoning{}, fmt.Errorf("the cloth cannot be worked out: %w", err)
	}
	return r, nil
}
