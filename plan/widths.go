package plan

import (
	"encoding/json"
	"fmt"
)

// WidthRow is the cloth at one finished width that the loom can weave.
type WidthRow struct {
	WidthCM  float64 `json:"width_cm"`
	LengthCM float64 `json:"length_cm"`
	// LowerBoundCM is a length that no lay at this width can be below.
	LowerBoundCM float64 `json:"lower_bound_cm"`
	AreaCM2      float64 `json:"area_cm2"`
	UsePercent   float64 `json:"use_percent"`
	WarpM        float64 `json:"warp_m"`
	WeftM        float64 `json:"weft_m"`
	MassG        float64 `json:"mass_g"`        // of all yarn, with what is lost at the loom
	Warps        int     `json:"warps"`         // warps that the cloth takes
	Fits         bool    `json:"fits"`          // all pieces, within the warp and wool there are
	Why          string  `json:"why,omitempty"` // why it does not fit
	Searched     bool    `json:"searched"`      // whether more than a first lay was tried at this width
}

// OnlyFirst is how many widths the time did not reach: they were laid for a
// first time, or take the lay of narrower cloth, and may well go shorter.
func OnlyFirst(rows []WidthRow) int {
	n := 0
	for _, r := range rows {
		if !r.Searched {
			n++
		}
	}
	return n
}

// Narrowest is the row of least width that fits; false when none does.
func Narrowest(rows []WidthRow) (WidthRow, bool) {
	var best WidthRow
	found := false
	for _, r := range rows {
		if r.Fits && (!found || r.WidthCM < best.WidthCM) {
			best, found = r, true
		}
	}
	return best, found
}

// NoWidthFits says why the plan cannot be made at any of the widths, by what is
// wrong at the narrowest; units is "cm" or "inch", for display only.
func NoWidthFits(rows []WidthRow, units string) string {
	if len(rows) == 0 {
		return "the loom weaves no width at which every piece fits."
	}
	return fmt.Sprintf("it cannot be made at any width that the loom weaves. At the narrowest, %s: %s", lengthText(rows[0].WidthCM, units), rows[0].Why)
}

// WidthsJSON is the width table as a JSON list, never null.
func WidthsJSON(rows []WidthRow) ([]byte, error) {
	if rows == nil {
		rows = []WidthRow{}
	}
	return json.MarshalIndent(rows, "", "  ")
}
