package plan

import (
	"fmt"
	"math"
	"sync"

	"ellwand/cloth"
	"ellwand/layout"
)

// holding is the chance that the cloth still to be woven holds the lay; nil
// when the cloth is there already, or when it cannot be told.
func (p *Plan) holding(pr *Prepared, lay layout.Lay, r cloth.Reckoning) *cloth.Holding {
	if p.Log.Finished.Measured() || len(p.Real.inHand()) > 0 || p.Simulation.Trials < 1 || !(r.WovenLengthCM > 0) || !(r.ReedWidthCM > 0) {
		return nil
	}
	s := p.setting()
	in := cloth.HoldInputOf(r, s, p.Samples, acrossCM(pr, lay), r.FinishedLengthCM-s.ExtraLengthCM, p.Simulation.Spread)
	h := cloth.Hold(in, p.Simulation, pr.draws.of(cloth.DrawKeyOf(in, p.Simulation)))
	return &h
}

// drawStore keeps the draws last used: every lay of one plan has the same.
type drawStore struct {
	sync.Mutex
	key   cloth.DrawKey
	draws *cloth.Draws
}

func (s *drawStore) of(k cloth.DrawKey) *cloth.Draws {
	if s == nil {
		return cloth.NewDraws(k)
	}
	s.Lock()
	defer s.Unlock()
	if s.draws == nil || s.key != k {
		s.key, s.draws = k, cloth.NewDraws(k)
	}
	return s.draws
}

// acrossCM is how much of the cloth's width the pieces take.
func acrossCM(pr *Prepared, lay layout.Lay) float64 {
	least, most := math.Inf(1), 0.0
	for i, at := range lay.Placements {
		if i < len(pr.Problem.Items) {
			box := layout.Placed(pr.Problem.Items[i], at).Bounds()
			least, most = min(least, box.MinY), max(most, box.MaxY)
		}
	}
	if most <= least {
		return lay.WidthCM
	}
	return most - least
}

// sampleCautions says that the cloth may come out too small, and which losses
// rest on nothing.
func (p *Plan) sampleCautions(h *cloth.Holding) []string {
	if p.Log.Finished.Measured() || len(p.Real.inHand()) > 0 {
		return nil
	}
	var none []string
	for _, l := range cloth.Losses() {
		if !p.losesAsFixed(l) && cloth.LossSpread(p.Samples, l).N == 0 {
			none = append(none, string(l))
		}
	}
	var out []string
	if h != nil && h.BothChance < h.Chance && h.Reached {
		out = append(out, fmt.Sprintf("Cloth woven just to plan holds the lay in %.0f of 100 cloths, by what is known of its losses; %d dents and %.1f cm of finished length to spare (on the Cloth page; in a plan file cloth.extra_dents and cloth.extra_length_cm) make it %.4g of 100.", 100*h.BothChance, p.Cloth.ExtraDents+h.ExtraDents, p.Cloth.ExtraLengthCM+h.ExtraLengthCM, 100*h.Chance))
	}
	if len(none) == 0 {
		return out
	}
	return append(out, fmt.Sprintf("Neither the plan nor a sample gives %s; nothing is counted as lost there, and cloth does lose there: weave a sample.", listed(none)))
}

func listed(words []string) string {
	text := ""
	for i, w := range words {
		switch {
		case i > 0 && i == len(words)-1:
			text += " and "
		case i > 0:
			text += ", "
		}
		text += w
	}
	return text
}

// sampleSideCM is a sample's side, finished: ISO 3759 asks for specimens of at
// least 500 × 500 mm, with marks at least 350 mm apart and 50 mm from the edge
// (texfire.net, ISO 5077), and for three of them where possible.
const sampleSideCM = 50

// SampleToMake is a sample worth weaving, worked out as the cloth is.
type SampleToMake struct {
	FinishedWidthCM, FinishedLengthCM float64
	ReedWidthCM, WovenCM              float64
	WarpLengthCM                      float64 // each end, waste in it, when it has a warp of its own
	Dents, Ends, Picks                int
	YarnM, YarnG                      float64
	How                               []string
}

// sampleToMake is a sample of the plan's own cloth, as wide as the loom allows
// up to sampleSideCM.
func (p *Plan) sampleToMake() (SampleToMake, bool) {
	width := math.Min(sampleSideCM, cloth.MaxFinishedWidthCM(p.setting(), p.Loom))
	in, err := p.clothInput(width, sampleSideCM)
	if err != nil || !(width > 0) {
		return SampleToMake{}, false
	}
	in.Setting.FinishedWidthCM, in.Setting.SampleCM, in.Setting.HeadingCM, in.Setting.ExtraDents, in.Setting.ExtraLengthCM = width, 0, 0, 0, 0
	r, err := cloth.Reckon(in)
	if err != nil {
		return SampleToMake{}, false
	}
	out := SampleToMake{FinishedWidthCM: r.FinishedWidthCM, FinishedLengthCM: r.FinishedLengthCM, ReedWidthCM: r.ReedWidthCM, WovenCM: r.WovenLengthCM,
		WarpLengthCM: r.WarpLengthCM, Dents: r.Dents, Ends: r.Ends, Picks: r.Picks}
	for _, y := range r.Yarns {
		out.YarnM += y.LengthM
		out.YarnG += y.MassG
	}
	out.How = p.sampleSteps(out)
	return out, true
}

func (p *Plan) sampleSteps(s SampleToMake) []string {
	steps := []string{fmt.Sprintf("Weave %.1f cm under tension on %d ends, %.1f cm wide in the reed, in the yarns, weave and sett of the cloth: about %.0f × %.0f cm finished (ISO 3759 asks for 50 × 50 cm at least). It takes %d picks, and %.0f m of yarn, %.0f g, with the loom waste of a warp of its own.",
		s.WovenCM, s.Ends, s.ReedWidthCM, s.FinishedLengthCM, s.FinishedWidthCM, s.Picks, s.YarnM, s.YarnG)}
	switch have := p.Cloth.SampleCM; {
	case have >= s.WovenCM:
		steps = append(steps, fmt.Sprintf("The %.0f cm of samples on each warp of the plan are enough for it: weave it first, cut it off and finish it before the rest.", have))
	case have > 0:
		steps = append(steps, fmt.Sprintf("The %.0f cm of samples on each warp of the plan are %.0f cm too short for one; a shorter one tells less.", have, s.WovenCM-have))
	}
	return append(steps,
		"Under tension, before cutting off, sew in marks at least 35 cm apart each way and 5 cm or more from the edges, and measure between them; note the width in the reed.",
		"Cut it off, let it lie a day, measure between the same marks; wet finish it just as the cloth will be, dry it flat, measure again and weigh it.",
		"Enter the three sizes under samples. Three samples tell the spread far better than one (ISO 3759: three where possible).")
}
