// Package instance reads packing instances and writes lays in the JSON forms
// that the packing comparisons use. It knows nothing of how a lay is found.
package instance

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"ellwand/geometry"
	"ellwand/layout"
)

// MaxBytes is the largest instance file read.
const MaxBytes = 16 << 20

// Instance is a strip and its items. Lengths are the instance's own units and
// are taken for cm.
type Instance struct {
	Name       string
	Source     string
	BestLength float64 // known optimum, 0 when unknown
	Problem    layout.Problem
}

// ID is an item's name, which a file may also write as a number.
type ID string

// UnmarshalJSON takes a string or a number.
func (id *ID) UnmarshalJSON(b []byte) error {
	var s string
	if json.Unmarshal(b, &s) == nil {
		*id = ID(s)
		return nil
	}
	var n json.Number
	if err := json.Unmarshal(b, &n); err != nil {
		return fmt.Errorf("an item's id is %s; accepted are a text or a number", b)
	}
	*id = ID(n.String())
	return nil
}

type file struct {
	Name       string    `json:"name"`
	Source     string    `json:"source"`
	Width      float64   `json:"strip_width"`
	Turns      []float64 `json:"rotations_deg"`
	Flip       bool      `json:"flip"`
	BestLength float64   `json:"best_length"`
	Items      []item    `json:"items"`
}

type item struct {
	ID      ID           `json:"id"`
	Demand  *int         `json:"demand"`
	Turns   []float64    `json:"rotations_deg"`
	Polygon [][2]float64 `json:"polygon"`
	W       float64      `json:"w"` // along the strip
	H       float64      `json:"h"` // across it
}

// Read reads an instance and checks that it can be laid.
func Read(r io.Reader) (Instance, error) {
	raw, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return Instance{}, fmt.Errorf("the instance cannot be read: %w", err)
	}
	if len(raw) > MaxBytes {
		return Instance{}, fmt.Errorf("the instance is larger than %d bytes", MaxBytes)
	}
	var f file
	if err := json.Unmarshal(raw, &f); err != nil {
		return Instance{}, fmt.Errorf("the instance is not of the accepted form: %w", err)
	}
	in := Instance{Name: f.Name, Source: f.Source, BestLength: f.BestLength}
	in.Problem.WidthCM = f.Width
	for k, it := range f.Items {
		if err := in.add(f, it, k); err != nil {
			return Instance{}, err
		}
	}
	return in, in.Problem.Validate()
}

func (in *Instance) add(f file, it item, k int) error {
	pts := make([]geometry.Point, len(it.Polygon))
	for i, v := range it.Polygon {
		pts[i] = geometry.Point{X: v[0], Y: v[1]}
	}
	if len(pts) == 0 {
		pts = []geometry.Point{{X: 0, Y: 0}, {X: it.W, Y: 0}, {X: it.W, Y: it.H}, {X: 0, Y: it.H}}
	}
	q, err := geometry.New(withoutRepeats(pts))
	if err != nil {
		return fmt.Errorf("item %d (%q): %w", k+1, it.ID, err)
	}
	demand := 1
	if it.Demand != nil {
		demand = *it.Demand
	}
	if demand < 0 || len(in.Problem.Items)+demand > layout.MaxItems {
		return fmt.Errorf("item %d (%q): its demand is %d; accepted are 0 and more, and %d items in all", k+1, it.ID, demand, layout.MaxItems)
	}
	turns := it.Turns
	if turns == nil {
		turns = f.Turns
	}
	if turns == nil {
		turns = []float64{0}
	}
	for range demand {
		in.Problem.Items = append(in.Problem.Items, layout.Item{ID: string(it.ID), Outline: q, TurnsDeg: turns, MayFlip: f.Flip})
	}
	return nil
}

// withoutRepeats drops corners given twice in a row, as some files have them.
func withoutRepeats(pts []geometry.Point) []geometry.Point {
	var out []geometry.Point
	for _, v := range pts {
		if n := len(out); n == 0 || math.Hypot(v.X-out[n-1].X, v.Y-out[n-1].Y) > 1e-12 {
			out = append(out, v)
		}
	}
	return out
}

type placementJSON struct {
	ID   string  `json:"id"`
	Turn float64 `json:"rotation_deg"`
	Flip bool    `json:"flip"`
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
}

// Write writes a lay of the instance.
func (in Instance) Write(w io.Writer, l layout.Lay) error {
	out := struct {
		Name       string          `json:"name"`
		Length     float64         `json:"length"`
		Placements []placementJSON `json:"placements"`
	}{in.Name, l.LengthCM, []placementJSON{}}
	for i, pl := range l.Placements {
		out.Placements = append(out.Placements, placementJSON{in.Problem.Items[i].ID, pl.TurnDeg, pl.Flip, pl.X, pl.Y})
	}
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	return e.Encode(out)
}
