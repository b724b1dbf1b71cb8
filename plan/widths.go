package plan

import "encoding/json"

// WidthRow is the cloth at one finished width that the loom can weave.
type WidthRow struct {
	WidthCM    float64 `json:"width_cm"`
	LengthCM   float64 `json:"length_cm"`
	AreaCM2    float64 `json:"area_cm2"`
	UsePercent float64 `json:"use_percent"`
	WarpM      float64 `json:"warp_m"`
	WeftM      float64 `json:"weft_m"`
	MassG      float64 `json:"mass_g"`
	Fits       bool    `json:"fits"`          // all pieces, within the warp and wool there are
	Why        string  `json:"why,omitempty"` // why it does not fit
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

// WidthsJSON is the width table as a JSON list, never null.
func WidthsJSON(rows []WidthRow) ([]byte, error) {
	if rows == nil {
		rows = []WidthRow{}
	}
	return json.MarshalIndent(rows, "", "  ")
}
