package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ellwand/layout"
)

// SavedLayFits is the lay kept in the plan, when it still places every piece
// there is, and no other, without a fault.
func SavedLayFits(p *Plan, pr *Prepared) (layout.Lay, bool) {
	lay, faults := p.savedLay(pr)
	if len(faults) > 0 || len(lay.Placements) == 0 || layout.Check(pr.Problem, lay) != nil {
		return layout.Lay{}, false
	}
	return lay, true
}

// LayAsLeft is the lay kept in the plan, faults and all, when it places every
// piece there is and no other.
func LayAsLeft(p *Plan, pr *Prepared) (layout.Lay, bool) {
	lay, faults := p.savedLay(pr)
	if len(faults) > 0 || len(lay.Placements) == 0 {
		return layout.Lay{}, false
	}
	lay.LengthCM = layout.ReachCM(pr.Problem, lay.Placements)
	return lay, true
}

// LayFaults is what is wrong with the lay kept in the plan, in sentences; nil
// when it is sound or there is none.
func (p *Plan) LayFaults(r *Result) []string {
	lay, faults := p.savedLay(r.Prepared)
	if len(lay.Placements) == 0 {
		return faults
	}
	for _, f := range layout.Faults(r.Prepared.Problem, lay) {
		faults = append(faults, "In the lay that is kept, "+f.Text+".")
	}
	return faults
}

// KeepLay puts the result's lay into the plan, its places written to 0.001 cm;
// pieces that were pinned stay so.
func (p *Plan) KeepLay(r *Result) {
	lay := asWritten(r.Prepared.Problem, r.Lay)
	kept := &SavedLay{WidthCM: lay.WidthCM, LengthCM: lay.LengthCM, StartsCM: r.Prepared.startsFor(lay)}
	for i, at := range lay.Placements {
		it := r.Prepared.Problem.Items[i]
		kept.Placements = append(kept.Placements, SavedPlacement{ID: it.ID, Placement: at, Pinned: it.Pinned != nil})
	}
	p.Lay = kept
}

// asWritten is a lay with its places rounded to 0.001 cm, and its length rounded
// up. One that would then have a fault that it has not is left as it is.
func asWritten(p layout.Problem, lay layout.Lay) layout.Lay {
	loose := p
	loose.Items = slices.Clone(p.Items)
	for i := range loose.Items {
		loose.Items[i].Pinned = nil
	}
	out := layout.Lay{WidthCM: lay.WidthCM, LengthCM: math.Ceil(lay.LengthCM*1000-1e-4) / 1000}
	for _, at := range lay.Placements {
		at.X, at.Y = toThousandth(at.X), toThousandth(at.Y)
		out.Placements = append(out.Placements, at)
	}
	if len(layout.Faults(loose, out)) > len(layout.Faults(loose, lay)) {
		return lay
	}
	return out
}

// savedLay is the plan's lay in the order of the items, on cloth of the present
// width; or, without placements, why it does not belong to these pieces.
func (p *Plan) savedLay(pr *Prepared) (layout.Lay, []string) {
	if p.Lay == nil || len(p.Lay.Placements) == 0 {
		return layout.Lay{}, nil
	}
	lay := layout.Lay{WidthCM: pr.Problem.WidthCM, LengthCM: p.Lay.LengthCM}
	var missing, extra, twice []string
	at := map[string]layout.Placement{}
	for _, s := range p.Lay.Placements {
		if _, ok := at[s.ID]; ok {
			twice = append(twice, s.ID)
		}
		at[s.ID] = s.Placement
	}
	known := map[string]bool{}
	for _, it := range pr.Problem.Items {
		known[it.ID] = true
		pl, ok := at[it.ID]
		if !ok {
			missing = append(missing, it.ID)
		}
		lay.Placements = append(lay.Placements, pr.now(p.Lay, it, pl))
	}
	for _, id := range sortedKeys(at) {
		if !known[id] {
			extra = append(extra, id)
		}
	}
	var faults []string
	for _, f := range []struct {
		ids  []string
		text string
	}{
		{missing, "The lay that is kept does not place %s."},
		{extra, "The lay that is kept places %s, which the plan does not have."},
		{twice, "The lay that is kept places %s more than once."},
	} {
		if len(f.ids) > 0 {
			faults = append(faults, fmt.Sprintf(f.text, strings.Join(slices.Compact(f.ids), ", ")))
		}
	}
	if len(faults) > 0 {
		return layout.Lay{}, faults
	}
	if lay.LengthCM <= 0 || len(pr.Problem.Lengths) > 0 {
		lay.LengthCM = layout.ReachCM(pr.Problem, lay.Placements)
	}
	return lay, nil
}
