package cloth

import (
	"fmt"
	"math"
)

// Sample is a piece of trial cloth as it was measured in each of its states; 0
// where it was not. All lengths in cm, between the same two marks throughout or
// over the whole sample; the mass is of all that the finished length and width
// bound.
type Sample struct {
	Name                              string
	OnLoomLengthCM, OnLoomWidthCM     float64 // woven under tension; width in the reed
	OffLoomLengthCM, OffLoomWidthCM   float64 // relaxed, unwashed
	FinishedLengthCM, FinishedWidthCM float64 // after wet finishing
	MassG                             float64 // finished
}

// Loss is one of the four things a cloth loses on its way.
type Loss string

const (
	LossTakeUp       Loss = "take_up"
	LossDrawIn       Loss = "draw_in"
	LossShrinkLength Loss = "shrink_length"
	LossShrinkWidth  Loss = "shrink_width"
)

// Losses are all of them, in the order of the work.
func Losses() []Loss { return []Loss{LossTakeUp, LossDrawIn, LossShrinkLength, LossShrinkWidth} }

// states are the two sizes that a loss lies between.
func (s Sample) states(l Loss) (before, after float64) {
	switch l {
	case LossTakeUp:
		return s.OnLoomLengthCM, s.OffLoomLengthCM
	case LossDrawIn:
		return s.OnLoomWidthCM, s.OffLoomWidthCM
	case LossShrinkLength:
		return s.OffLoomLengthCM, s.FinishedLengthCM
	}
	return s.OffLoomWidthCM, s.FinishedWidthCM
}

// Loss is a loss as a fraction of the earlier state; false where the sample
// was not measured in both.
func (s Sample) Loss(l Loss) (float64, bool) {
	before, after := s.states(l)
	if !(before > 0) || !(after > 0) {
		return 0, false
	}
	return TakeUpOf(before, after), true
}

// MassGPerM2 is the finished sample's mass; false where it was not weighed or
// measured. Worked: 36 g of 30 × 50 cm: 240 g/m².
func (s Sample) MassGPerM2() (float64, bool) {
	area := s.FinishedLengthCM * s.FinishedWidthCM / 1e4
	if !(s.MassG > 0) || !(area > 0) {
		return 0, false
	}
	return s.MassG / area, true
}

// keptLength is finished ÷ woven length, all losses in one.
func (s Sample) keptLength() (float64, bool) { return kept2(s.OnLoomLengthCM, s.FinishedLengthCM) }

// keptWidth is finished width ÷ width in the reed.
func (s Sample) keptWidth() (float64, bool) { return kept2(s.OnLoomWidthCM, s.FinishedWidthCM) }

func kept2(before, after float64) (float64, bool) {
	if !(before > 0) || !(after > 0) {
		return 0, false
	}
	return after / before, true
}

// Validate refuses a sample that grew from one state to the next: it was
// measured wrongly, or its threads were not held.
func (s Sample) Validate() error {
	for _, d := range []struct {
		what                  string
		onLoom, off, finished float64
	}{{"length", s.OnLoomLengthCM, s.OffLoomLengthCM, s.FinishedLengthCM}, {"width", s.OnLoomWidthCM, s.OffLoomWidthCM, s.FinishedWidthCM}} {
		last, was := math.Inf(1), ""
		for _, state := range []struct {
			word string
			cm   float64
		}{{"on the loom", d.onLoom}, {"off the loom", d.off}, {"finished", d.finished}} {
			field := fmt.Sprintf("the %s of sample %s %s in cm", d.what, s.Name, state.word)
			if err := atLeast0(field, state.cm); err != nil {
				return err
			}
			if state.cm > last {
				return &FieldError{field, state.cm, fmt.Sprintf("at most %s, its %s %s", num(last), d.what, was)}
			}
			if state.cm > 0 {
				last, was = state.cm, state.word
			}
		}
	}
	return atLeast0("the mass of sample "+s.Name+" in g", s.MassG)
}

// Spread is what several measurements of one figure say together.
type Spread struct {
	N        int
	Mean, SD float64 // SD is of the samples, n − 1 below; 0 when N is below 2
}

func spreadOf(values []float64) Spread {
	s := Spread{N: len(values)}
	for _, v := range values {
		s.Mean += v / float64(s.N)
	}
	if s.N > 1 {
		sum := 0.0
		for _, v := range values {
			sum += (v - s.Mean) * (v - s.Mean)
		}
		s.SD = math.Sqrt(sum / float64(s.N-1))
	}
	return s
}

// LossSpread is the mean and the spread of one loss over the samples.
func LossSpread(samples []Sample, l Loss) Spread {
	return spreadOver(samples, func(s Sample) (float64, bool) { return s.Loss(l) })
}

// MassSpread is the mean and the spread of the samples' g/m².
func MassSpread(samples []Sample) Spread { return spreadOver(samples, Sample.MassGPerM2) }

func spreadOver(samples []Sample, figure func(Sample) (float64, bool)) Spread {
	var values []float64
	for _, s := range samples {
		if v, ok := figure(s); ok {
			values = append(values, v)
		}
	}
	return spreadOf(values)
}

// At is the place of a loss in the setting.
func (s *Setting) At(l Loss) *float64 {
	switch l {
	case LossTakeUp:
		return &s.TakeUp
	case LossDrawIn:
		return &s.DrawIn
	case LossShrinkLength:
		return &s.ShrinkLength
	}
	return &s.ShrinkWidth
}
