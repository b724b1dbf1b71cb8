// Package drawing draws a cutting diagram: the strip of cloth with its
// selvedges and rulers, every piece with its cut and seam line, what a person
// chalks it by, and a table of the pieces. It knows places and names, nothing
// of garments or yarn.
package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ellwand/geometry"
	"ellwand/paper"
)

// Unit is what lengths are labelled in; places are always given in cm.
type Unit int

const (
	Centimetres Unit = iota
	Inches
)

// Piece is one piece where it lies, in strip coordinates (cm): x along the
// warp from the first cut end, y across from the left selvedge.
type Piece struct {
	Name         string
	Copy, Copies int
	Cut, Seam    geometry.Polygon
	Marks        [][]geometry.Point // cuts and folds inside the piece
	GrainDeg     float64            // the way the piece's own length points along the warp: 0 or 180
	TurnDeg      float64            // how far it is turned from the way it was drafted
	TurnedOver   bool               // its back is up
	Number       int                // its place in the order of cutting
	Pinned       bool
	Fault        bool // it lies where it may not
}

// Sheet is all that a diagram shows.
type Sheet struct {
	Title                         string
	WidthCM, LengthCM, UsePercent float64
	Warp, Weft, Date              string
	Notes                         []string
	Unit                          Unit
	Pieces                        []Piece
	Flaws                         []geometry.Polygon
	FlawNames                     []string           // in the order of Flaws
	NoCloth                       []geometry.Polygon // parts of the strip beyond the cloth's measured edges
	Lengths                       []Length           // lengths of cloth; none: all one
	ClothCM                       float64            // of all lengths together; 0: LengthCM
}

// Options are the picture's size and colours; zero values are 3000 px and 300
// dpi. Paper is that of the PDF. Ratio is how many cm of cloth one cm of a PDF's
// paper shows, on as many sheets as that takes; 0 brings the cloth onto one.
type Options struct {
	PixelWidth int
	DPI        float64
	Dark       bool
	Paper      paper.Size
	Ratio      float64
}

func (o Options) settled() (Options, error) {
	if o.PixelWidth == 0 {
		o.PixelWidth = 3000
	}
	if o.DPI == 0 {
		o.DPI = 300
	}
	if o.PixelWidth < 600 || o.PixelWidth > 12000 {
		return o, fmt.Errorf("the picture is %d px wide; accepted is 600 to 12000 px", o.PixelWidth)
	}
	if !(o.Ratio == 0 || o.Ratio >= 1 && o.Ratio <= 100) {
		return o, fmt.Errorf("the scale is 1 : %v; accepted is 1 : 1 to 1 : 100", o.Ratio)
	}
	if !(o.DPI >= 30 && o.DPI <= 2400) {
		return o, fmt.Errorf("the resolution is %v dpi; accepted is 30 to 2400", o.DPI)
	}
	return o, nil
}

// maxPieces is the most pieces that one sheet shows.
const maxPieces = 5000

func (s Sheet) validate() error {
	if !(s.WidthCM > 0 && s.WidthCM <= 1000) || !(s.LengthCM > 0 && s.LengthCM <= 1e6) {
		return fmt.Errorf("the cloth is %v × %v cm; accepted is more than 0 to 1000 cm wide and 1000000 cm long", s.WidthCM, s.LengthCM)
	}
	if len(s.Pieces) > maxPieces {
		return fmt.Errorf("there are %d pieces to draw; accepted is at most %d", len(s.Pieces), maxPieces)
	}
	if math.IsNaN(s.UsePercent) || math.Abs(s.UsePercent) > 1e6 {
		return fmt.Errorf("the cloth used is %v %%; accepted is a number of per cent", s.UsePercent)
	}
	for _, p := range s.Pieces {
		if len(p.Cut) < 3 {
			return fmt.Errorf("piece %q has no cut line to draw", p.Name)
		}
		for _, line := range append([][]geometry.Point{p.Cut, p.Seam}, p.Marks...) {
			if err := drawable(line); err != nil {
				return fmt.Errorf("piece %q %w", p.Name, err)
			}
		}
	}
	for _, q := range s.NoCloth {
		if err := drawable(q); err != nil {
			return fmt.Errorf("the cloth's edge %w", err)
		}
	}
	for i, f := range s.Flaws {
		if err := drawable(f); err != nil {
			return fmt.Errorf("flaw %d %w", i+1, err)
		}
	}
	return nil
}

func drawable(line []geometry.Point) error {
	for _, v := range line {
		if math.IsNaN(v.X+v.Y) || math.Abs(v.X) > 1e6 || math.Abs(v.Y) > 1e6 {
			return fmt.Errorf("lies at (%v, %v) cm; accepted is a place on the cloth", v.X, v.Y)
		}
	}
	return nil
}

// length writes a length in the sheet's unit, with the unit.
func (s Sheet) length(cm float64) string { return s.bare(cm) + " " + s.unitName() }

// bare writes a length in the sheet's unit: cm to a tenth, inches to a hundredth.
func (s Sheet) bare(cm float64) string {
	v, places := cm, 1
	if s.Unit == Inches {
		v, places = cm/2.54, 2
	}
	t := strings.TrimRight(strconv.FormatFloat(v, 'f', places, 64), "0")
	t = strings.TrimSuffix(t, ".")
	if t == "-0" {
		return "0"
	}
	return t
}

func (s Sheet) unitWord() string {
	if s.Unit == Inches {
		return "inches"
	}
	return "cm"
}

func (s Sheet) unitName() string {
	if s.Unit == Inches {
		return "in"
	}
	return "cm"
}

// Title is the piece's name, and of several alike which it is, "sleeve 2"; long
// says of how many. A name that ends in a figure has a comma after it.
func (p Piece) Title(long bool) string {
	if p.Copies <= 1 {
		return p.Name
	}
	which := fmt.Sprintf(" %d", p.Copy)
	if long {
		which += fmt.Sprintf(" of %d", p.Copies)
	}
	if last := p.Name[max(0, len(p.Name)-1):]; last >= "0" && last <= "9" {
		which = "," + which
	}
	return p.Name + which
}

// title is the long title, safe to draw.
func (p Piece) title() string { return paper.Clean(p.Title(true)) }

// state says in words that the piece is pinned or faulty.
func (p Piece) state() string {
	out := ""
	if p.Pinned {
		out = " (pinned)"
	}
	if p.Fault {
		out += " ! fault"
	}
	return out
}
