package hours

import (
	"fmt"
	"math"
)

// Coat is the part of a fleece that fibre is prepared from.
type Coat string

const (
	CoatOuter Coat = "outer"
	CoatInner Coat = "inner"
	CoatWhole Coat = "whole"
)

// Lot is raw wool to be sorted and scoured.
type Lot struct {
	Name         string
	RawG         float64
	SkirtingLoss float64 // fraction of raw
}

// Yarn is one yarn to be prepared and spun.
type Yarn struct {
	Name      string
	Of        string // the yarn of which a dyed one is; "" for one that is not
	Coat      Coat
	PreparedG float64 // fibre, combed or carded
	LengthM   float64 // of the finished yarn
	Plies     int
	SinglesM  float64 // of all its singles together; 0: LengthM × Plies
}

// singlesM is how much is spun before it is plied.
func (y Yarn) singlesM() float64 {
	if y.SinglesM > 0 {
		return y.SinglesM
	}
	return y.LengthM * float64(y.Plies)
}

// Bath is one dyeing: so much fibre in mordant and dye, before what it stands
// before in the order of the work.
type Bath struct {
	Name   string
	Before Stage
	FibreG float64
}

// Stage is a part of the work that a bath may stand before.
type Stage string

const (
	StagePreparation Stage = "preparation" // fibre, before it is combed or carded
	StageDressing    Stage = "dressing"    // yarn, before it goes on the loom
	StageFinishing   Stage = "finishing"   // cloth
)

// Web is the cloth as the loom sees it.
type Web struct {
	Ends, Warps  int
	WarpLengthCM float64 // each end, all warps together
	Picks        int     // cloth, samples and headings
	WovenCM      float64 // under tension: cloth, samples and headings
	FinishedM2   float64 // samples and headings as if they were finished too
}

// Length is something to be sewn.
type Length struct {
	Name  string
	CM    float64 // each time
	Times int
	Shows bool // of a seam: its stitches are seen, so it is never sewn by machine
}

// Work is what there is to do.
type Work struct {
	Lots  []Lot
	Yarns []Yarn
	Web   Web
	Seams []Length
	Hems  []Length
	Baths []Bath
	// CutM is all that is cut along, in m: the pieces' outlines and the cuts in
	// them.
	CutM float64
}

// Validate says which quantity no work can have.
func (w Work) Validate() error {
	var bad error
	check := func(what string, v float64) {
		if bad == nil && (math.IsNaN(v) || v < 0 || v > 1e12) {
			bad = fmt.Errorf("%s is %g; accepted is 0 or more", what, v)
		}
	}
	for _, l := range w.Lots {
		check("raw fleece of "+l.Name+" in g", l.RawG)
		if check("the skirting loss of "+l.Name, l.SkirtingLoss); bad == nil && l.SkirtingLoss >= 1 {
			bad = fmt.Errorf("the skirting loss of %s is %g; accepted is a fraction below 1", l.Name, l.SkirtingLoss)
		}
	}
	for _, y := range w.Yarns {
		check("prepared fibre of "+y.Name+" in g", y.PreparedG)
		check("the length of "+y.Name+" in m", y.LengthM)
		check("the singles of "+y.Name+" in m", y.SinglesM)
		if bad == nil && y.Plies < 1 {
			bad = fmt.Errorf("%s has %d plies; accepted is 1 or more", y.Name, y.Plies)
		}
	}
	for _, b := range w.Baths {
		check("fibre to be dyed "+b.Name+" in g", b.FibreG)
	}
	check("the number of ends", float64(w.Web.Ends))
	check("the number of warps", float64(w.Web.Warps))
	check("the warp length in cm", w.Web.WarpLengthCM)
	check("the number of picks", float64(w.Web.Picks))
	check("the woven length in cm", w.Web.WovenCM)
	check("the cloth in m²", w.Web.FinishedM2)
	check("what is cut along in m", w.CutM)
	for _, list := range [][]Length{w.Seams, w.Hems} {
		for _, l := range list {
			check("the length of "+l.Name+" in cm", l.CM)
			check("how often "+l.Name+" is sewn", float64(l.Times))
		}
	}
	return bad
}
