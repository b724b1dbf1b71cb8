package cloth

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// FieldError is an input that no cloth can have.
type FieldError struct {
	Field    string
	Value    any // a number or a text
	Accepted string
}

func (e *FieldError) Error() string {
	if text, ok := e.Value.(string); ok {
		return fmt.Sprintf("%s is %q; accepted is %s", e.Field, text, e.Accepted)
	}
	return fmt.Sprintf("%s is %v; accepted is %s", e.Field, e.Value, e.Accepted)
}

// Validate refuses what the arithmetic cannot use; the error is a *FieldError.
func (in Input) Validate() error {
	s, l := in.Setting, in.Loom
	checks := []error{
		positive("the lay's width in cm", in.LayWidthCM), positive("the lay's length in cm", in.LayLengthCM),
		positive("finished ends per cm", s.FinishedEndsPerCM), positive("finished picks per cm", s.FinishedPicksPerCM),
		loss("take-up", s.TakeUp), loss("draw-in", s.DrawIn), loss("shrinkage in length", s.ShrinkLength),
		loss("shrinkage in width", s.ShrinkWidth), atLeast0("weft crimp", s.WeftCrimp), atLeast0("weft for a turn in cm", s.WeftTurnCM),
		atLeast0("samples in cm", s.SampleCM), atLeast0("headings in cm", s.HeadingCM), atLeast0("loom waste in cm", l.WasteCM),
		positive("the widest reed width in cm", l.MaxReedWidthCM), atLeast0("the longest warp in m", l.MaxWarpM),
		atLeast0("extra selvedge ends", float64(s.SelvedgeExtraEnds)),
		atLeast0("extra dents", float64(s.ExtraDents)), atLeast0("extra length in cm", s.ExtraLengthCM),
		in.validYarn("the warp yarn", in.Warp), in.validYarn("the weft yarn", in.Weft), in.validStripes(),
		atLeast0("the reed's dents per 10 cm", s.ReedDentsPer10CM), s.validDentOrder(),
	}
	for _, r := range l.ReedsDentsPer10CM {
		checks = append(checks, positive("a reed's dents per 10 cm", r))
	}
	checks = append(checks, l.validKind(s), l.Weights.validate())
	for _, y := range in.Others {
		checks = append(checks, in.validYarn("the yarn "+y.Name, y))
	}
	for _, f := range in.Fleeces {
		checks = append(checks, f.validate()...)
	}
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	return nil
}

// validKind refuses a kind not known, and a loom that needs a reed and has none.
func (l Loom) validKind(s Setting) error {
	info, ok := l.Kind.Info()
	if l.Kind != "" && !ok {
		return &FieldError{"the loom's kind", string(l.Kind), "a kind of loom known"}
	}
	if len(l.ReedsDentsPer10CM) == 0 && s.ReedDentsPer10CM == 0 && !info.Reedless {
		return &FieldError{"the number of the loom's reeds", 0, "at least one reed, in dents per 10 cm"}
	}
	return nil
}

// validYarn checks one yarn's size, losses and origin.
func (in Input) validYarn(which string, y Yarn) error {
	return cmp.Or(positive(which+"'s tex", y.Tex), loss(which+"'s spinning loss", y.SpinLoss), in.origin(which, y))
}

// origin checks where a yarn comes from: yarn in hand, lot and coat.
func (in Input) origin(which string, y Yarn) error {
	if y.HaveInHand {
		if err := atLeast0(which+"'s metres in hand", y.InHandM); err != nil {
			return err
		}
	}
	if y.Regain != 0 {
		if err := share(which+"'s regain", y.Regain); err != nil {
			return err
		}
	}
	return in.blend(which, y)
}

// blend checks the fibres of a yarn: a lot that there is, a coat that it has,
// and shares that make one whole.
func (in Input) blend(which string, y Yarn) error {
	sum := 0.0
	for _, part := range y.Parts() {
		lot := in.lotOf(part)
		if lot.Name != part.Lot {
			return &FieldError{which + "'s fleece", part.Lot, "the name of a fleece given"}
		}
		if coats := lot.kind().Coats(); !slices.Contains(coats, part.Coat) {
			var words []string
			for _, c := range coats {
				words = append(words, string(c))
			}
			return &FieldError{which + "'s coat", string(part.Coat), "for " + lot.Name + " " + strings.Join(words, ", ")}
		}
		if err := share(which+"'s share of "+part.Lot, part.Share); err != nil {
			return err
		}
		sum += part.Share
	}
	if len(y.Parts()) > 0 && math.Abs(sum-1) > 1e-6 {
		return &FieldError{which + "'s shares of the blend together", sum, "1"}
	}
	return nil
}

// lotOf is the lot that a fibre comes from; an empty one for none.
func (in Input) lotOf(part FibrePart) Fleece {
	for _, f := range in.Fleeces {
		if f.Name == part.Lot {
			return f
		}
	}
	return Fleece{}
}

// validDentOrder refuses an order that leaves every dent empty or takes ends out.
func (s Setting) validDentOrder() error {
	sum := 0
	for _, n := range s.DentOrder {
		if n < 0 || n > 1000 {
			return &FieldError{"an end count of the dent order", n, "a whole number from 0 to 1000"}
		}
		sum += n
	}
	if len(s.DentOrder) > 0 && sum == 0 {
		return &FieldError{"the dent order", OrderText(s.DentOrder), "an order with an end in at least one dent"}
	}
	return nil
}

// Validate refuses a lot that no fibre can be; the error is a *FieldError.
func (f Fleece) Validate() error { return cmp.Or(f.validate()...) }

func (f Fleece) validate() []error {
	of := " of fleece " + f.Name
	raw := atLeast0("the raw mass in g"+of, f.RawG)
	switch f.kind() {
	case LotPrepared:
		return []error{raw, share("the regain"+of, f.Regain)}
	case LotPlant:
		return []error{
			raw, share("the regain"+of, f.Regain), kept("the rippled yield"+of, f.RippledYield), kept("the retted yield"+of, f.RettedYield),
			kept("the scutched yield"+of, f.ScutchedYield), kept("the hackled yield"+of, f.HackledYield), share("the tow's yield"+of, f.TowYield),
			together("line and tow"+of, f.HackledYield+f.TowYield),
		}
	case LotFleece:
		return []error{
			raw, share("the regain"+of, f.Regain), loss("the skirting loss"+of, f.SkirtingLoss),
			kept("the scoured yield"+of, f.ScouredYield), loss("the separation loss"+of, f.SeparationLoss),
			share("the outer share"+of, f.OuterShare), kept("the outer coat's yield"+of, f.OuterYield),
			kept("the inner coat's yield"+of, f.InnerYield), kept("the whole fleece's yield"+of, f.WholeYield),
			share("the outer coat's noil"+of, f.OuterNoil), share("the inner coat's noil"+of, f.InnerNoil), share("the whole fleece's noil"+of, f.WholeNoil),
			together("top and noil of the outer coat"+of, f.OuterYield+f.OuterNoil), together("top and noil of the inner coat"+of, f.InnerYield+f.InnerNoil),
			together("top and noil of the whole fleece"+of, f.WholeYield+f.WholeNoil),
		}
	}
	return []error{&FieldError{"the kind" + of, string(f.Kind), "fleece, plant or prepared"}}
}

// together refuses parts of a whole that are more than the whole.
func together(field string, sum float64) error {
	return within(field, sum, sum <= 1+1e-9, "at most 1 together")
}

func within(field string, v float64, ok bool, accepted string) error {
	if ok && !math.IsNaN(v) && !math.IsInf(v, 0) {
		return nil
	}
	return &FieldError{field, v, accepted}
}

func positive(field string, v float64) error { return within(field, v, v > 0, "a number above 0") }
func atLeast0(field string, v float64) error { return within(field, v, v >= 0, "0 or more") }
func loss(field string, v float64) error {
	return within(field, v, v >= 0 && v < 1, "a fraction from 0 to below 1")
}
func kept(field string, v float64) error {
	return within(field, v, v > 0 && v <= 1, "a fraction above 0 to 1")
}
func share(field string, v float64) error {
	return within(field, v, v >= 0 && v <= 1, "a fraction from 0 to 1")
}
