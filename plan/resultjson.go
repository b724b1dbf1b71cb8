package plan

import (
	"bytes"
	"encoding/json"
	"math"

	"ellwand/cloth"
)

// The figures of a result as JSON. Keys are part of the command line: they may
// be added to, never renamed.
type resultJSON struct {
	Pieces       []pieceJSON  `json:"pieces"`
	Lay          layJSON      `json:"lay"`
	Lengths      []lengthJSON `json:"lengths"`
	Flaws        []string     `json:"flaws"`
	Piecing      []piecedJSON `json:"piecing"`
	Cloth        clothJSON    `json:"cloth"`
	Yarns        []yarnJSON   `json:"yarns"`
	Fleeces      []fleeceJSON `json:"fleeces"`
	Hours        hoursJSON    `json:"hours"`
	Sewing       []stepJSON   `json:"sewing"`
	Samples      samplesJSON  `json:"samples"`
	Log          *logJSON     `json:"log,omitempty"`
	Holding      *holdingJSON `json:"holding,omitempty"`
	Cautions     []string     `json:"cautions"`
	CannotBeMade []string     `json:"cannot_be_made"`
	Notes        []string     `json:"notes"`
	Reed         reedJSON     `json:"reed"`
	Figures      []figureJSON `json:"figures"`

	Setting map[string]any `json:"setting"` // its figures by their keys, limits and usual ranges
	Loom    loomJSON       `json:"loom"`
	Dyes    []dyeJSON      `json:"dyes"`
}

type pieceJSON struct {
	Name        string  `json:"name"`
	Copies      int     `json:"copies"`
	CutWidthCM  float64 `json:"cut_width_cm"`
	CutLengthCM float64 `json:"cut_length_cm"`
	CutAreaCM2  float64 `json:"cut_area_cm2"`
}

type layJSON struct {
	WidthCM      float64 `json:"width_cm"`
	LengthCM     float64 `json:"length_cm"`
	UsePercent   float64 `json:"use_percent"`
	LowerBoundCM float64 `json:"lower_bound_cm"`
}

type clothJSON struct {
	FinishedWidthCM  float64 `json:"finished_width_cm"`
	FinishedLengthCM float64 `json:"finished_length_cm"`
	OffLoomWidthCM   float64 `json:"off_loom_width_cm"`
	OffLoomLengthCM  float64 `json:"off_loom_length_cm"`
	ReedWidthCM      float64 `json:"reed_width_cm"`
	Dents            int     `json:"dents"`
	Ends             int     `json:"ends"`
	WovenLengthCM    float64 `json:"woven_length_cm"`
	WarpLengthCM     float64 `json:"warp_length_cm"`
	Picks            int     `json:"picks"`

	Warps              int     `json:"warps"`
	EndsPerCMOnLoom    float64 `json:"ends_per_cm_on_loom"`
	PicksPerCMOnLoom   float64 `json:"picks_per_cm_on_loom"`
	EndsPerCMFinished  float64 `json:"finished_ends_per_cm"`
	PicksPerCMFinished float64 `json:"finished_picks_per_cm"`
	MassGPerM2         float64 `json:"mass_g_per_m2"`
}

// JSON is the result's figures: lengths in cm and m, masses in g, rounded to a
// ten-thousandth. Lists are never null.
func (r *Result) JSON() ([]byte, error) {
	c := r.Reckoning
	out := resultJSON{
		Pieces:  []pieceJSON{},
		Lay:     layJSON{fourth(r.Lay.WidthCM), fourth(r.ClothCM()), fourth(r.UsePercent), fourth(r.LowerBoundCM())},
		Lengths: r.lengthsAsJSON(), Flaws: r.flawNames(), Piecing: r.piecingAsJSON(),
		Cloth: clothJSON{
			fourth(c.FinishedWidthCM), fourth(c.FinishedLengthCM), fourth(c.OffLoomWidthCM), fourth(c.OffLoomLengthCM),
			fourth(c.ReedWidthCM), c.Dents, c.Ends, fourth(c.WovenLengthCM), fourth(c.WarpLengthCM), c.Picks,
			c.Warps, fourth(c.EndsPerCMOnLoom), fourth(c.PicksPerCMOnLoom), fourth(c.EndsPerCMFinished), fourth(c.PicksPerCMFinished), fourth(c.MassGPerM2),
		},
		Yarns: []yarnJSON{}, Fleeces: []fleeceJSON{}, Hours: hoursAsJSON(r.Hours),
		Samples: r.plan.samplesAsJSON(), Log: r.Progress.asJSON(), Holding: holdingAsJSON(r.Holding), Sewing: r.sewingAsJSON(),
		Cautions:     append([]string{}, r.Cautions...),
		CannotBeMade: append([]string{}, shortfallTexts(r.CannotBeMade)...),
		Notes:        append([]string{}, r.Notes...),
		Reed:         reedJSON{fourth(c.ReedDentsPer10CM), append([]int{}, c.DentOrder...)},
		Figures:      r.figuresAsJSON(),
		Setting:      r.settingAsJSON(), Loom: r.loomAsJSON(), Dyes: r.dyesAsJSON(),
	}
	for _, p := range r.Pieces {
		out.Pieces = append(out.Pieces, pieceJSON{p.Piece.Name, p.Piece.Copies, fourth(p.CutWidthCM), fourth(p.CutLengthCM), fourth(p.CutAreaCM2)})
	}
	for _, y := range c.Yarns {
		out.Yarns = append(out.Yarns, yarnAsJSON(y))
	}
	out.Yarns = append(out.Yarns, r.otherYarnsJSON()...)
	for _, f := range c.Fleeces {
		out.Fleeces = append(out.Fleeces, fleeceAsJSON(f))
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(out); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func fourth(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// sixth keeps six digits of a small number, so that a count of a thousandth is
// as exact as one of a thousand.
func sixth(v float64) float64 {
	if v == 0 || math.Abs(v) >= 1 || math.IsNaN(v) {
		return math.Round(v*1e6) / 1e6
	}
	scale := math.Pow(10, 6-math.Floor(math.Log10(math.Abs(v))))
	return math.Round(v*scale) / scale
}

func shortfallTexts(all []cloth.Shortfall) []string {
	var out []string
	for _, s := range all {
		out = append(out, s.Text)
	}
	return out
}
