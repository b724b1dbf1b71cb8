package plan

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"ellwand/garment"
	"ellwand/layout"
	"ellwand/layout/instance"
)

var updateLays = flag.Bool("update-garments", false, "write the garments that the packer is tried on anew")

// garmentSize is a body and whether the draft's options are set so that the
// garment has most pieces.
type garmentSize struct {
	name          string
	stature, bust float64
	many          bool
}

func garmentSizes() []garmentSize {
	return []garmentSize{{"small", 156, 84, false}, {"middle", 170, 96, false}, {"large", 186, 122, false}, {"many", 170, 96, true}}
}

// garmentItems is a draft's pieces on such a body.
func garmentItems(t *testing.T, d garment.DraftInfo, s garmentSize) layout.Problem {
	t.Helper()
	p, err := NewPlan(d.Key, d.Key, garment.Body{CM: map[garment.Measure]float64{garment.Stature: s.stature, garment.BustGirth: s.bust}})
	if err != nil {
		t.Fatal(err)
	}
	tried := []map[string]float64{nil}
	if s.many {
		tried = garment.EveryOption(d, true)
	}
	var most layout.Problem
	for _, params := range tried {
		p.Params = params
		if pr, err := prepareItems(p); err == nil && len(pr.Problem.Items) > len(most.Items) {
			most = pr.Problem
		}
	}
	return most
}

// garmentInstance is the pieces of a draft as the packer's comparisons read
// them: at 65 cm of finished cloth, or as wide as the widest piece needs.
func garmentInstance(t *testing.T, d garment.DraftInfo, s garmentSize) []byte {
	t.Helper()
	problem := garmentItems(t, d, s)
	type item struct {
		ID      string       `json:"id"`
		Turns   []float64    `json:"rotations_deg"`
		Polygon [][2]float64 `json:"polygon"`
	}
	f := struct {
		Name   string  `json:"name"`
		Source string  `json:"source"`
		Width  float64 `json:"strip_width"`
		Flip   bool    `json:"flip"`
		Items  []item  `json:"items"`
	}{
		Name:   d.Key + "-" + s.name,
		Source: fmt.Sprintf("our draft of that name on a body of %g cm stature and %g cm bust girth, cut with usual allowances", s.stature, s.bust),
		Width:  math.Max(65, math.Ceil(layout.NarrowestCM(problem)*10)/10),
	}
	for _, it := range problem.Items {
		f.Flip = it.MayFlip
		one := item{ID: it.ID, Turns: it.TurnsDeg}
		for _, v := range it.Outline {
			one.Polygon = append(one.Polygon, [2]float64{v.X, v.Y})
		}
		f.Items = append(f.Items, one)
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	if err := e.Encode(f); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// The garments that the packer is tried on are kept as they were drafted once,
// so that its results compare; their pieces are those of the drafts still.
func TestGarmentsForThePackerAreThoseOfTheDrafts(t *testing.T) {
	for _, d := range garment.Drafts() {
		for _, s := range garmentSizes() {
			path := filepath.Join("..", "layout", "testdata", "garments", d.Key+"-"+s.name+".json")
			if *updateLays {
				if err := os.WriteFile(path, garmentInstance(t, d, s), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			f, err := os.Open(path)
			if err != nil {
				t.Fatal(err)
			}
			kept, err := instance.Read(f)
			f.Close()
			if err != nil {
				t.Fatal(err)
			}
			if now := len(garmentItems(t, d, s).Items); now != len(kept.Problem.Items) {
				t.Errorf("%s has %d pieces, the draft %d; go test ./plan -run GarmentsForThePacker -update-garments writes it anew", path, len(kept.Problem.Items), now)
			}
		}
	}
}
