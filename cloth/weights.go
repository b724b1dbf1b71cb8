package cloth

import (
	"fmt"
	"math"
)

// Weights are the weights of a warp-weighted loom, and how they are to hang.
type Weights struct {
	Count                int     // in hand; 0: not counted yet
	MassG                float64 // of one, the mean; 0: nothing is worked out
	LightestG, HeaviestG float64 // 0: all alike
	ThicknessCM          float64 // of one, along the row; 0: not measured
	Rows                 int     // that hang before and behind; 0: 2
	TensionG             float64 // wanted on each thread, in g of mass; 0: from ThreadsEach
	ThreadsEach          int     // on each weight; 0: by the rule, from the tension
}

// Hanging is a warp hung with weights.
type Hanging struct {
	ThreadsPerWeight       int
	TensionGPerThread      float64 // with so many threads on each
	TensionLowG            float64 // on the lightest weight
	TensionHighG           float64 // on the heaviest
	WeightsNeeded          int     // for all ends
	WeightsInHand          int
	RowWidthCM             float64 // of the weights needed, hung close; 0: no thickness
	RuleEndsPerCM          float64 // that these weights make by themselves, hung close
	RuleWeightsPerRow      int     // across the warp's width, hung close
	RuleWeights            int     // in all rows
	EndsHeld               int     // that the weights in hand hold
	WidthHeldCM            float64 // of those ends at the sett of the cloth
	TensionOfAllG          float64 // when all in hand share all ends
	ThreadsPerWeightOfAll  float64 // the same
	Figures                []Figure
	Remarks                []string
	rows                   int
	reedWidthCM, endsPerCM float64
}

func (h *Hanging) figure(key, label string, value float64, unit, from string, a ...any) {
	h.Figures = append(h.Figures, Figure{key, label, value, unit, fmt.Sprintf(from, a...) + " = " + num(value) + unitAfter(unit)})
}

func (h *Hanging) remark(format string, a ...any) {
	h.Remarks = append(h.Remarks, fmt.Sprintf(format, a...))
}

// hang works the weights out, when the loom has any. The mass of a weight sets
// how many threads it can hold, its thickness how wide a row hung close is, and
// both together the ends per cm: Mårtensson, Nosch and Andersson Strand, Oxford
// J. Archaeol. 28(4), 2009.
func (w *work) hang() {
	ws := w.in.Loom.Weights
	if w.in.Loom.Kind != WarpWeighted || ws.MassG <= 0 || ws.TensionG <= 0 && ws.ThreadsEach <= 0 {
		return
	}
	h := &Hanging{WeightsInHand: ws.Count, rows: ws.Rows, reedWidthCM: w.r.ReedWidthCM, endsPerCM: w.r.EndsPerCMOnLoom}
	if h.rows == 0 {
		h.rows = 2
	}
	w.r.Hanging = h
	if h.threads(ws); h.ThreadsPerWeight < 1 {
		h.remark("One thread at %s g is more than a weight of %s g can give: heavier weights or less tension.", num(ws.TensionG), num(ws.MassG))
		return
	}
	h.tension(ws)
	h.WeightsNeeded = whole(math.Ceil(float64(w.r.Ends) / float64(h.ThreadsPerWeight)))
	h.figure("weights_needed", "Weights for all ends", float64(h.WeightsNeeded), "", "%d ends ÷ %d threads on each, rounded up", w.r.Ends, h.ThreadsPerWeight)
	if ws.ThicknessCM > 0 {
		h.close(ws)
	}
	if ws.Count > 0 {
		h.inHand(ws, w.r.Ends)
	}
	if ws.HeaviestG > 0 && ws.LightestG > 0 && ws.HeaviestG > 1.2*ws.LightestG {
		h.remark("The heaviest weight is %.0f %% heavier than the lightest; in one row they are better within 10 to 20 %% (from memory): sort them by rows, or hang more threads on the heavier.", 100*(ws.HeaviestG/ws.LightestG-1))
	}
}

func (h *Hanging) threads(ws Weights) {
	if ws.ThreadsEach > 0 {
		h.ThreadsPerWeight = ws.ThreadsEach
		h.figure("threads_per_weight", "Threads on each weight", float64(ws.ThreadsEach), "", "as the plan says")
		return
	}
	h.ThreadsPerWeight = ThreadsPerWeight(ws.MassG, ws.TensionG)
	h.figure("threads_per_weight", "Threads on each weight", float64(h.ThreadsPerWeight), "", "%s g a weight ÷ %s g a thread, rounded down", num(ws.MassG), num(ws.TensionG))
}

func (h *Hanging) tension(ws Weights) {
	n := float64(h.ThreadsPerWeight)
	h.TensionGPerThread = ws.MassG / n
	h.figure("tension_g_per_thread", "Tension on each thread", h.TensionGPerThread, "g", "%s g a weight ÷ %d threads", num(ws.MassG), h.ThreadsPerWeight)
	h.TensionLowG, h.TensionHighG = h.TensionGPerThread, h.TensionGPerThread
	if ws.LightestG > 0 {
		h.TensionLowG = ws.LightestG / n
		h.figure("tension_low_g_per_thread", "Tension on the lightest weight", h.TensionLowG, "g", "%s g ÷ %d threads", num(ws.LightestG), h.ThreadsPerWeight)
	}
	if ws.HeaviestG > 0 {
		h.TensionHighG = ws.HeaviestG / n
		h.figure("tension_high_g_per_thread", "Tension on the heaviest weight", h.TensionHighG, "g", "%s g ÷ %d threads", num(ws.HeaviestG), h.ThreadsPerWeight)
	}
	if n < 10 || n > 30 {
		h.remark("%d threads on a weight is outside the 10 to 30 that hang comfortably (from memory).", h.ThreadsPerWeight)
	}
}

// close is what the weights make when they hang one beside the other.
func (h *Hanging) close(ws Weights) {
	h.RuleEndsPerCM = float64(h.rows*h.ThreadsPerWeight) / ws.ThicknessCM
	h.figure("rule_ends_per_cm", "Ends per cm that these weights make, hung close", h.RuleEndsPerCM, "ends per cm", "%d rows × %d threads ÷ %s cm thick", h.rows, h.ThreadsPerWeight, num(ws.ThicknessCM))
	h.RuleWeightsPerRow = whole(math.Ceil(h.reedWidthCM/ws.ThicknessCM - 1e-9))
	h.figure("rule_weights_per_row", "Weights in a row across the warp, hung close", float64(h.RuleWeightsPerRow), "", "%s cm of warp ÷ %s cm thick, rounded up", num(h.reedWidthCM), num(ws.ThicknessCM))
	h.RuleWeights = h.rows * h.RuleWeightsPerRow
	h.figure("rule_weights", "Weights in all rows, hung close", float64(h.RuleWeights), "", "%d rows × %d", h.rows, h.RuleWeightsPerRow)
	inRow := whole(math.Ceil(float64(h.WeightsNeeded) / float64(h.rows)))
	h.RowWidthCM = float64(inRow) * ws.ThicknessCM
	h.figure("row_width_cm", "Width of a row of the weights needed", h.RowWidthCM, "cm", "%d weights in a row × %s cm thick", inRow, num(ws.ThicknessCM))
	switch off := h.RowWidthCM/h.reedWidthCM - 1; {
	case off > 0.1:
		h.remark("A row of the weights is %s cm wide and the warp %s cm: the outer threads splay out and the sheds stick. Thinner weights, more threads on each or more rows bring it in.", num(h.RowWidthCM), num(h.reedWidthCM))
	case off < -0.1:
		h.remark("A row of the weights is only %s cm wide and the warp %s cm: hung close they would draw it in, so hang them %s cm apart, middle to middle.", num(h.RowWidthCM), num(h.reedWidthCM), num(h.reedWidthCM/float64(inRow)))
	default:
		h.remark("A row of the weights is %s cm wide and the warp %s cm: the threads hang straight.", num(h.RowWidthCM), num(h.reedWidthCM))
	}
}

// inHand is what happens with the weights there are.
func (h *Hanging) inHand(ws Weights, ends int) {
	h.EndsHeld = ws.Count * h.ThreadsPerWeight
	h.figure("ends_held", "Ends that the weights in hand hold", float64(h.EndsHeld), "", "%d weights × %d threads", ws.Count, h.ThreadsPerWeight)
	h.WidthHeldCM = float64(h.EndsHeld) / h.endsPerCM
	h.figure("width_held_cm", "Width of those ends at the cloth's sett", h.WidthHeldCM, "cm", "%d ends ÷ %s ends per cm", h.EndsHeld, num(h.endsPerCM))
	h.ThreadsPerWeightOfAll = float64(ends) / float64(ws.Count)
	h.TensionOfAllG = ws.MassG * float64(ws.Count) / float64(ends)
	h.figure("tension_of_all_g_per_thread", "Tension if all weights in hand share all ends", h.TensionOfAllG, "g", "%d weights × %s g ÷ %d ends", ws.Count, num(ws.MassG), ends)
	if lack := h.WeightsNeeded - ws.Count; lack > 0 {
		h.remark("%d weights are needed and %d are in hand: %d too few. With those in hand %.1f threads hang on each and the tension falls to %s g a thread, or only %s cm of warp can be hung.",
			h.WeightsNeeded, ws.Count, lack, h.ThreadsPerWeightOfAll, num(h.TensionOfAllG), num(h.WidthHeldCM))
		return
	}
	h.remark("%d weights are needed of %d in hand.", h.WeightsNeeded, ws.Count)
}

// validate refuses weights that are none.
func (ws Weights) validate() error {
	for _, err := range []error{
		atLeast0("the number of weights", float64(ws.Count)), atLeast0("a weight's mass in g", ws.MassG), atLeast0("the lightest weight in g", ws.LightestG),
		atLeast0("the heaviest weight in g", ws.HeaviestG), atLeast0("a weight's thickness in cm", ws.ThicknessCM), atLeast0("the rows of weights", float64(ws.Rows)),
		atLeast0("the tension in g a thread", ws.TensionG), atLeast0("the threads on each weight", float64(ws.ThreadsEach)),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// WeightedWarp is a set of loom weights on a warp-weighted loom.
type WeightedWarp struct {
	Ends           int
	TensionG       float64 // on each thread
	ThreadsPerEach int
}

// HangWeights is what that many weights of one mass, with so many threads each,
// make of a warp: the rule that mass sets the threads a weight can hold is of
// Mårtensson, Nosch and Andersson Strand, Oxford J. Archaeol. 28(4), 2009.
func HangWeights(weights int, massG float64, threadsPerWeight int) WeightedWarp {
	return WeightedWarp{Ends: weights * threadsPerWeight, TensionG: massG / float64(threadsPerWeight), ThreadsPerEach: threadsPerWeight}
}

// WeightRows is a warp hung with weights in rows, worked from one weight's size.
type WeightRows struct {
	EndsPerCM      float64
	WeightsPerRow  int
	Weights        int // in all rows
	ThreadsPerEach int
}

// HangRows is the warp that weights of one mass in g and one thickness in cm
// make across widthCM at a tension in g a thread: mass gives threads, thickness
// gives width. Tabby hangs in 2 rows, 2/2 twill in 2 or 4. The rule's source is
// that of HangWeights; the error is a *FieldError.
// Worked: 275 g, 18 g a thread, 2 cm thick, 2 rows, 60 cm: 15 per cm, 30 weights a row.
func HangRows(massG, tensionG, thicknessCM, widthCM float64, rows int) (WeightRows, error) {
	for _, err := range []error{positive("a weight's mass in g", massG), positive("the tension in g a thread", tensionG),
		positive("a weight's thickness in cm", thicknessCM), positive("the warp's width in cm", widthCM), positive("the rows of weights", float64(rows))} {
		if err != nil {
			return WeightRows{}, err
		}
	}
	threads, perRow := ThreadsPerWeight(massG, tensionG), whole(math.Ceil(widthCM/thicknessCM-1e-9))
	return WeightRows{EndsPerCM: float64(rows*threads) / thicknessCM, WeightsPerRow: perRow, Weights: rows * perRow, ThreadsPerEach: threads}, nil
}

// ThreadsPerWeight is the whole threads that a weight holds at a tension in g a thread.
func ThreadsPerWeight(massG, tensionG float64) int { return whole(math.Floor(massG/tensionG + 1e-9)) }
