package plan

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/layout"
)

// Kept is the lay kept in a plan, laid again on the cloth as it really is with
// as few pieces moved as were found, and those as little.
type Kept struct {
	Plan   *Plan // with the real cloth it is laid on, and this lay
	Result *Result
	Moves  []Move
	Stay   []string // the pieces that stay, by item ID
	Fits   bool     // everything lies within the cloth there is
}

// Move is one piece that moves.
type Move struct {
	ID       string
	Why      string // what is wrong where it lay; "" when it only makes room
	AlongCM  float64
	AcrossCM float64
	Turned   bool
	On       string // the length of cloth that it moves to; "" where the cloth is all one
	ToCM     [2]float64
}

// errNothingKept is said when there is no lay that could be kept.
var errNothingKept = errors.New("the plan keeps no lay yet; `ellwand lay PLAN --save` works one out and keeps it")

// KeepNear answers "what must move?": the plan's lay on the cloth as it really
// is, by real_cloth or else by the finished cloth in the log. No longer than
// the cloth there is; where that has no end, no longer than the lay was, or
// than the shortest found on the cloth as it is. Takes o.Seconds at most.
func KeepNear(ctx context.Context, p *Plan, o Options) (*Kept, error) {
	p = p.Clone()
	p.takeFinishedCloth()
	pr, err := Prepare(p)
	if err != nil {
		return nil, err
	}
	was, faults := p.savedLay(pr)
	if len(faults) > 0 {
		return nil, &Unmakeable{strings.Join(faults, " ")}
	}
	if len(was.Placements) == 0 {
		return nil, errNothingKept
	}
	ctx, cancel := context.WithTimeout(ctx, seconds(max(o.Seconds, 1)))
	defer cancel()
	limit, err := keepLimit(ctx, p, pr, was, o)
	if err != nil {
		return nil, err
	}
	kept, err := layout.Keep(ctx, pr.Problem, was, limit, layout.Settings{Seed: o.Seed, Threads: o.Threads})
	if err != nil {
		return nil, &Unmakeable{"the pieces cannot be laid: " + err.Error() + "."}
	}
	r, err := ReckonLay(p, pr, kept.Lay)
	if err != nil {
		return nil, err
	}
	out := &Kept{Plan: p, Result: r, Fits: kept.Fits}
	out.tell(was, kept)
	p.KeepLay(r)
	return out, nil
}

// takeFinishedCloth takes the finished cloth of the log for the real cloth,
// where that names no lengths and no widths.
func (p *Plan) takeFinishedCloth() {
	if f := p.Log.Finished; f.Measured() && len(p.Real.inHand()) == 0 {
		p.Real.Lengths = []ClothLength{{Name: "finished cloth", LengthCM: f.LengthCM, WidthCM: f.WidthCM}}
		for i := range p.Real.Flaws {
			p.Real.Flaws[i].On = ""
		}
	}
}

// keepLimit is how far along the strip pieces may lie.
func keepLimit(ctx context.Context, p *Plan, pr *Prepared, was layout.Lay, o Options) (float64, error) {
	if pr.wanting > 0 {
		return pr.Problem.Lengths[pr.wanting-1].ToCM, nil
	}
	if pr.warps {
		return math.Inf(1), nil
	}
	long := was.LengthCM
	// Without what lies wrong the lay may be much shorter than it must be.
	if layout.Check(pr.Problem, was) == nil {
		return long, nil
	}
	first, err := layout.First(pr.Problem)
	if err != nil {
		return 0, &Unmakeable{"the pieces cannot be laid: " + err.Error() + "."}
	}
	if first.LengthCM <= long {
		return long, nil
	}
	half, cancel := context.WithTimeout(ctx, seconds(max(o.Seconds, 1)/3))
	defer cancel()
	l, err := layout.Improve(half, pr.Problem, first, layout.Settings{Seed: o.Seed, Threads: o.Threads}, nil)
	if err != nil {
		return 0, fmt.Errorf("the pieces cannot be laid: %w", err)
	}
	return max(long, l.LengthCM), nil
}

func (k *Kept) tell(was layout.Lay, kept layout.Kept) {
	pr := k.Result.Prepared
	why := map[int]string{}
	for _, f := range kept.Must {
		why[f.ItemA] = f.Text
	}
	for i, it := range pr.Problem.Items {
		if !slices.Contains(kept.Moved, i) {
			k.Stay = append(k.Stay, it.ID)
			continue
		}
		a, b := layout.Placed(it, was.Placements[i]).Bounds(), layout.Placed(it, kept.Lay.Placements[i]).Bounds()
		m := Move{ID: it.ID, Why: why[i], AlongCM: b.MinX - a.MinX, AcrossCM: b.MinY - a.MinY, ToCM: [2]float64{b.MinX, b.MinY},
			Turned: was.Placements[i].TurnDeg != kept.Lay.Placements[i].TurnDeg || was.Placements[i].Flip != kept.Lay.Placements[i].Flip}
		if n := pr.Problem.LengthOf(b.MinX); len(pr.Problem.Lengths) > 0 {
			m.On = pr.Problem.Lengths[n].Name
			m.ToCM[0] -= pr.Problem.Lengths[n].FromCM
		}
		k.Moves = append(k.Moves, m)
	}
}

// Text says which pieces move, why and where to, and which stay.
func (k *Kept) Text(units string) string {
	var b strings.Builder
	n := len(k.Moves) + len(k.Stay)
	if len(k.Moves) == 0 {
		fmt.Fprintf(&b, "No piece must move: all %d stay where they lie.\n", n)
		return b.String()
	}
	must := 0
	for _, m := range k.Moves {
		if m.Why != "" {
			must++
		}
	}
	fmt.Fprintf(&b, "%d of %d pieces move: %d must, %d make room. %d stay.\n", len(k.Moves), n, must, len(k.Moves)-must, len(k.Stay))
	for _, m := range k.Moves {
		fmt.Fprintf(&b, "  %s\n", m.text(units))
	}
	if len(k.Stay) > 0 {
		fmt.Fprintf(&b, "  stay: %s\n", strings.Join(k.Stay, ", "))
	}
	switch {
	case k.Fits:
	case k.Result.Prepared.wanting > 0:
		b.WriteString("Not everything finds room on the cloth there is.\n")
	default:
		fmt.Fprintf(&b, "The lay becomes longer: %s of cloth.\n", lengthText(k.Result.ClothCM(), units))
	}
	return b.String()
}

func (m Move) text(units string) string {
	why := m.Why
	if why == "" {
		why = "makes room"
	}
	on := ""
	if m.On != "" {
		on = " on " + m.On
	}
	turned := ""
	if m.Turned {
		turned = ", turned"
	}
	return fmt.Sprintf("%s: %s; moves to %s along, %s across%s (by %s and %s)%s", m.ID, why,
		lengthText(m.ToCM[0], units), lengthText(m.ToCM[1], units), on, lengthText(m.AlongCM, units), lengthText(m.AcrossCM, units), turned)
}
