package cloth

import (
	"fmt"
	"math"
)

// Simulation says how the chance that the cloth will hold the lay is worked out.
type Simulation struct {
	Chance float64 // wanted
	Seed   int
	Trials int
	Spread float64 // usual standard deviation of one weaver's cloths from each other, ÷ size
}

// DefaultSimulation wants 19 cloths of 20 to hold their lay. That one weaver's
// cloths differ by 1.5 % in each direction is from memory.
func DefaultSimulation() Simulation {
	return Simulation{Chance: 0.95, Seed: 1, Trials: 20000, Spread: 0.015}
}

// usualWeight is how many samples the usual spread is taken to be worth when
// it is pooled with the spread of the samples.
const usualWeight = 4

// Kept is what is known of one direction of a cloth not yet woven: finished ÷
// on the loom is e^(Centre + Scale × t), with t a Student variate of DF degrees
// (0: normal).
type Kept struct {
	Centre  float64 // ln of finished ÷ on the loom, from the plan's losses
	Scale   float64
	DF      int
	Samples int
	Rule    string // which rule gave Scale and DF
}

// KeptOf is what n samples say of a cloth to come. With none, the spread is
// that of published cloths; with one, the usual spread; with several, theirs
// pooled with the usual spread, which counts as usualWeight samples' worth:
//
//	s² = (4·usual² + (n − 1)·sample²) ÷ (4 + n − 1),  scale = s·√(1 + 1/n)
//
// with Student's t of 4 + n − 1 degrees, the centre being the plan's own losses.
func KeptOf(centre float64, lnKept []float64, usualSpread float64, guess Guess) Kept {
	n := len(lnKept)
	k := Kept{Centre: centre, Samples: n}
	if n == 0 {
		k.Scale = math.Hypot(guess.SD, usualSpread)
		k.Rule = fmt.Sprintf("no sample: %s; with the usual spread %s of one weaver's cloths (from memory) %s in all", guess.Words, num(usualSpread), num(k.Scale))
		return k
	}
	sd := spreadOf(lnKept).SD
	k.DF = usualWeight + n - 1
	s := math.Sqrt((usualWeight*usualSpread*usualSpread + float64(n-1)*sd*sd) / float64(k.DF))
	k.Scale = s * math.Sqrt(1+1/float64(n))
	if n == 1 {
		k.Rule = fmt.Sprintf("one sample tells no spread: the usual one %s (from memory) × √(1 + 1) = %s, Student's t of %d degrees", num(usualSpread), num(k.Scale), k.DF)
	} else {
		k.Rule = fmt.Sprintf("spread of %d samples %s pooled with the usual %s (from memory), which counts as %d samples: √((%d × %s² + %d × %s²) ÷ %d) × √(1 + 1/%d) = %s, Student's t of %d degrees",
			n, num(sd), num(usualSpread), usualWeight, usualWeight, num(usualSpread), n-1, num(sd), k.DF, n, num(k.Scale), k.DF)
	}
	return k
}

// Guess is how far losses that no sample has shown may be wrong: SD is of ln
// (finished ÷ on the loom).
type Guess struct {
	SD    float64
	Words string
}

// guessed takes published ranges as two standard deviations either way.
func guessed(shrink float64, loomWord string, loomLow, loomHigh, washedLow, washedHigh float64) Guess {
	low, high, source := 0.10, 0.25, "fulled cloth shrinks 10 to 25 % (seslisozluk.net, foulage)"
	if shrink < 0.08 {
		low, high, source = washedLow, washedHigh, fmt.Sprintf("washed cloth shrinks %s to %s %% (from memory)", num(100*washedLow), num(100*washedHigh))
	}
	half := func(low, high float64) float64 { return (high - low) / 4 / (1 - (low+high)/2) }
	sd := math.Hypot(half(low, high), half(loomLow, loomHigh))
	return Guess{sd, fmt.Sprintf("%s and %s is %s to %s %% (from memory), each range two standard deviations either way: %s", source, loomWord, num(100*loomLow), num(100*loomHigh), num(sd))}
}

// GuessLength is how unsure the length is without a sample.
func GuessLength(s Setting) Guess { return guessed(s.ShrinkLength, "take-up", 0.04, 0.10, 0.02, 0.06) }

// GuessWidth is how unsure the width is without a sample.
func GuessWidth(s Setting) Guess { return guessed(s.ShrinkWidth, "draw-in", 0.05, 0.10, 0.04, 0.08) }

// Holding is the chance that the cloth woven to plan holds the lay, and what
// more would bring the chance to the one wanted.
type Holding struct {
	Simulation
	NeedWidthCM, NeedLengthCM float64 // of the lay, finished
	Width, Length             Kept
	ReedWidthCM, WovenCM      float64 // as planned
	WidthChance, LengthChance float64
	BothChance                float64
	ExtraDents                int
	ExtraWidthCM              float64 // what the dents should finish at
	ExtraLengthCM             float64 // finished
	ExtraWovenCM              float64 // the same under tension
	ChanceThen                float64
	Reached                   bool // false: no cloth ten times as large would do
}

// HoldInput is what the simulation needs of a cloth.
type HoldInput struct {
	NeedWidthCM, NeedLengthCM float64 // of the lay, finished
	ReedWidthCM, WovenCM      float64 // on the loom
	DentsPer10CM              float64
	Width, Length             Kept
}

// Hold weaves the cloth once for each of the draws, which must be those of the
// simulation and of the degrees of in, and counts. The same seed gives the same
// figures.
func Hold(in HoldInput, sim Simulation, d *Draws) Holding {
	h := Holding{Simulation: sim, NeedWidthCM: in.NeedWidthCM, NeedLengthCM: in.NeedLengthCM,
		Width: in.Width, Length: in.Length, ReedWidthCM: in.ReedWidthCM, WovenCM: in.WovenCM}
	both := func(reed, woven float64) (w, l, b float64) {
		return d.share(in.Width.least(in.NeedWidthCM, reed), in.Length.least(in.NeedLengthCM, woven))
	}
	h.WidthChance, h.LengthChance, h.BothChance = both(in.ReedWidthCM, in.WovenCM)
	h.extra(in, d)
	_, _, h.ChanceThen = both(in.ReedWidthCM+float64(h.ExtraDents)*10/in.DentsPer10CM, in.WovenCM+h.ExtraWovenCM)
	h.Reached = h.ChanceThen >= sim.Chance-1e-9
	return h
}

// least is the smallest variate at which have on the loom finishes at need.
func (k Kept) least(need, have float64) float64 {
	const hair = 1e-12
	room := math.Log(need/have) - k.Centre - hair
	if k.Scale <= 0 {
		return math.Inf(int(math.Copysign(1, room)))
	}
	return room / k.Scale
}

// onLoom is what must be on the loom for need, at a variate.
func (k Kept) onLoom(need, variate float64) float64 {
	return need * math.Exp(-k.Centre-k.Scale*variate)
}

// extra is the whole dents that bring the width alone to √chance, and then the
// least length that brings both together to the chance.
func (h *Holding) extra(in HoldInput, d *Draws) {
	if h.BothChance >= h.Chance {
		return
	}
	n := len(d.width)
	at := min(n, int(math.Ceil(math.Sqrt(h.Chance)*float64(n))))
	missing := math.Min(in.Width.onLoom(in.NeedWidthCM, d.sorted[n-at]), 10*in.ReedWidthCM) - in.ReedWidthCM
	h.ExtraDents = max(0, int(math.Ceil(missing*in.DentsPer10CM/10-1e-6)))
	h.ExtraWidthCM = float64(h.ExtraDents) * 10 / in.DentsPer10CM * math.Exp(in.Width.Centre)
	wide := in.Width.least(in.NeedWidthCM, in.ReedWidthCM+float64(h.ExtraDents)*10/in.DentsPer10CM)
	left, last := int(math.Ceil(h.Chance*float64(n)-1e-9)), 0.0
	for _, i := range d.byLength { // the least shrinking first
		if d.width[i] >= wide {
			last = d.length[i]
			if left--; left == 0 {
				break
			}
		}
	}
	h.ExtraWovenCM = math.Max(0, math.Min(in.Length.onLoom(in.NeedLengthCM, last), 10*in.WovenCM)-in.WovenCM)
	h.ExtraLengthCM = h.ExtraWovenCM * math.Exp(in.Length.Centre)
}

// HoldInputOf gathers what Hold needs of a cloth worked out. need is the size
// of the lay's pieces together, finished.
func HoldInputOf(r Reckoning, s Setting, samples []Sample, needWidthCM, needLengthCM, usualSpread float64) HoldInput {
	ln := func(figure func(Sample) (float64, bool)) (out []float64) {
		for _, sample := range samples {
			if v, ok := figure(sample); ok {
				out = append(out, math.Log(v))
			}
		}
		return out
	}
	return HoldInput{
		NeedWidthCM: needWidthCM, NeedLengthCM: needLengthCM,
		ReedWidthCM: r.ReedWidthCM, WovenCM: r.WovenLengthCM, DentsPer10CM: r.ReedDentsPer10CM,
		Width:  KeptOf(math.Log((1-s.DrawIn)*(1-s.ShrinkWidth)), ln(Sample.keptWidth), usualSpread, GuessWidth(s)),
		Length: KeptOf(math.Log((1-s.TakeUp)*(1-s.ShrinkLength)), ln(Sample.keptLength), usualSpread, GuessLength(s)),
	}
}
