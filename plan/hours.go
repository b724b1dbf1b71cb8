package plan

import (
	"fmt"
	"math"
	"slices"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/hours"
)

// reckonHours works the hours out from what the cloth and the garment ask for.
func (p *Plan) reckonHours(pr *Prepared, r cloth.Reckoning) (hours.Reckoning, error) {
	h, err := hours.Reckon(p.workToDo(pr, r), p.Hours)
	if err != nil {
		return h, fmt.Errorf("the hours cannot be worked out: %w", err)
	}
	return h, nil
}

// workToDo is every quantity that takes time.
func (p *Plan) workToDo(pr *Prepared, r cloth.Reckoning) hours.Work {
	w := hours.Work{
		Lots: p.lotsToWork(r), Yarns: p.yarnsToSpin(r),
		Seams: seamsToSew(pr.Garment, p.Pieces), Hems: hemsToSew(pr.Garment),
		CutM: cutM(pr), Baths: p.baths(r),
	}
	extra := (p.Cloth.SampleCM + p.Cloth.HeadingCM) * float64(r.Warps)
	w.Web = hours.Web{
		Ends: r.Ends, Warps: r.Warps, WarpLengthCM: r.WarpLengthCM,
		Picks:   r.Picks + int(math.Ceil(extra*r.PicksPerCMOnLoom-1e-6)),
		WovenCM: r.WovenLengthCM + extra,
	}
	if r.WovenLengthCM > 0 {
		w.Web.FinishedM2 = r.FinishedWidthCM * r.FinishedLengthCM / 1e4 * w.Web.WovenCM / r.WovenLengthCM
	}
	return w
}

// baths are the dyeings that something is dyed in.
func (p *Plan) baths(r cloth.Reckoning) []hours.Bath {
	before := map[cloth.DyeStage]hours.Stage{cloth.DyeFleece: hours.StagePreparation, cloth.DyeYarn: hours.StageDressing, cloth.DyeCloth: hours.StageFinishing}
	var out []hours.Bath
	for _, d := range p.reckonDyes(r) {
		out = append(out, hours.Bath{Name: d.Name, Before: before[d.Stage], FibreG: d.FibreG})
	}
	return out
}

// cutM is the length of all cut outlines and of the cuts inside the pieces, in m.
func cutM(pr *Prepared) float64 {
	cm := 0.0
	for _, p := range pr.Pieces {
		one := 0.0
		for i := range p.Cut {
			one += p.Cut.EdgeLength(i)
		}
		lengths := garment.EdgeLengthsCM(p.Piece)
		for _, m := range p.Piece.Marks {
			if m.Kind != garment.MarkCut {
				continue
			}
			name := m.Name
			if !m.Closed {
				name, _ = m.Lips()
			}
			one += lengths[name]
		}
		cm += one * float64(p.Piece.Copies)
	}
	return cm / 100
}

// toSpin says whether a yarn is still to be made: not bought, not in hand.
func toSpin(y cloth.Yarn) bool { return len(y.Parts()) > 0 && !y.HaveInHand }

// preparedG is the prepared fibre of one part of a yarn, as the reckoning has it.
func preparedG(r cloth.Reckoning, y cloth.Yarn, part cloth.FibrePart) float64 {
	for _, f := range r.Fleeces {
		if f.Name == part.Lot {
			return figureValue(f.Figures, cloth.PreparedKey(y, part))
		}
	}
	return 0
}

func figureValue(figures []cloth.Figure, key string) float64 {
	for _, f := range figures {
		if f.Key == key {
			return f.Value
		}
	}
	return 0
}

func (p *Plan) yarnsToSpin(r cloth.Reckoning) []hours.Yarn {
	var out []hours.Yarn
	for _, need := range r.Yarns {
		for _, y := range p.dyedYarns() {
			if y.Name == need.Name && toSpin(y) {
				out = append(out, p.yarnParts(r, y, need.LengthM)...)
			}
		}
	}
	return out
}

// yarnParts is a yarn as the hours know it: its fibres are prepared each by
// itself, and it is spun once.
func (p *Plan) yarnParts(r cloth.Reckoning, y cloth.Yarn, lengthM float64) []hours.Yarn {
	var out []hours.Yarn
	for i, part := range y.Parts() {
		h := hours.Yarn{Name: y.Name, Of: y.DyedFrom, Coat: hours.Coat(part.Coat), PreparedG: preparedG(r, y, part), LengthM: lengthM, Plies: y.Plies, SinglesM: y.SinglesM(lengthM)}
		if p.kindOf(part.Lot) != cloth.LotFleece {
			h.PreparedG = 0 // hackled, or bought ready to spin
		}
		if i > 0 {
			h.Name, h.LengthM, h.SinglesM = y.Name+", "+part.Lot, 0, 0
		}
		out = append(out, h)
	}
	return out
}

// lotsToWork is the raw wool for the yarns that are still to be spun. Of each
// coat's raw wool they take the share that they take of its prepared fibre;
// outer and inner coat come from the same wool.
func (p *Plan) lotsToWork(r cloth.Reckoning) []hours.Lot {
	var out []hours.Lot
	for _, need := range r.Fleeces {
		if need.Kind != cloth.LotFleece {
			continue
		}
		all, wanted := map[cloth.Coat]float64{}, map[cloth.Coat]float64{}
		for _, y := range p.dyedYarns() {
			for _, part := range y.Parts() {
				if part.Lot != need.Name {
					continue
				}
				g := preparedG(r, y, part)
				all[part.Coat] += g
				if toSpin(y) {
					wanted[part.Coat] += g
				}
			}
		}
		raw := func(c cloth.Coat) float64 {
			if all[c] == 0 {
				return 0
			}
			return figureValue(need.Figures, "raw_g:"+string(c)) * wanted[c] / all[c]
		}
		lot := hours.Lot{Name: need.Name, RawG: min(1e12, max(raw(cloth.CoatOuter), raw(cloth.CoatInner))+raw(cloth.CoatWhole))}
		for _, f := range p.Fleeces {
			if f.Name == need.Name {
				lot.SkirtingLoss = f.SkirtingLoss
			}
		}
		out = append(out, lot)
	}
	return out
}

// finishes is how each edge of a piece is finished, its marks' edges too.
func finishes(piece garment.Piece) map[string]garment.Finish {
	out := map[string]garment.Finish{}
	for _, m := range piece.Marks {
		if m.Kind == garment.MarkCut && !m.Closed {
			left, right := m.Lips()
			out[left], out[right] = m.Finish, m.Finish
		} else if m.Kind != garment.MarkFold {
			out[m.Name] = m.Finish
		}
	}
	for _, e := range piece.Edges {
		out[e.Name] = e.Finish
	}
	return out
}

// seamsToSew is the garment's seams, without those of which an edge is now
// finished otherwise, and the seam edges of own pieces that no seam names, two
// to a seam.
func seamsToSew(g garment.Garment, specs []PieceSpec) []hours.Length {
	var out []hours.Length
	for _, s := range g.Seams {
		cm, err := garment.SideLengthCM(g, s.A)
		if err == nil && sewn(g, s.A) && sewn(g, s.B) {
			out = append(out, hours.Length{Name: s.Name, CM: cm, Times: s.Times, Shows: s.Shows})
		}
	}
	for _, s := range specs {
		piece, ok := g.Piece(s.Name)
		if s.Shape == "" || !ok {
			continue
		}
		total := 0.0
		how := finishes(piece)
		lengths := garment.EdgeLengthsCM(piece)
		for _, name := range sortedKeys(lengths) {
			if how[name] == garment.FinishSeam && !paired(g, piece.Name, name) {
				total += lengths[name]
			}
		}
		if total > 0 {
			out = append(out, hours.Length{Name: s.Name + ", half of its seam edges", CM: total / 2, Times: piece.Copies})
		}
	}
	return out
}

func sewn(g garment.Garment, side garment.Side) bool {
	piece, ok := g.Piece(side.Piece)
	how := finishes(piece)
	for _, name := range side.Edges {
		ok = ok && how[name] == garment.FinishSeam
	}
	return ok
}

// paired says whether an edge is named by a seam.
func paired(g garment.Garment, piece, edge string) bool {
	for _, s := range g.Seams {
		for _, side := range []garment.Side{s.A, s.B} {
			if side.Piece == piece && slices.Contains(side.Edges, edge) {
				return true
			}
		}
	}
	return false
}

// hemsToSew is every edge that is turned up, faced or bound; a facing and a
// binding are sewn twice along.
func hemsToSew(g garment.Garment) []hours.Length {
	var out []hours.Length
	for _, piece := range g.Pieces {
		how, lengths := finishes(piece), garment.EdgeLengthsCM(piece)
		for _, name := range sortedKeys(lengths) {
			switch how[name] {
			case garment.FinishHem:
				out = append(out, hours.Length{Name: piece.Name + " " + name, CM: lengths[name], Times: piece.Copies})
			case garment.FinishFaced, garment.FinishBound:
				out = append(out, hours.Length{Name: piece.Name + " " + name + ", twice along", CM: 2 * lengths[name], Times: piece.Copies})
			}
		}
	}
	return out
}
