package garment_test

import (
	"fmt"

	"ellwand/garment"
)

// A tunic for a body of which little was measured: the rest is estimated, and
// every two edges that are sewn together come out equally long.
func ExampleDraft() {
	body := garment.Body{Table: "men", CM: map[garment.Measure]float64{garment.Stature: 176, "bust_girth_cm": 98}}
	tunic, err := garment.Draft("tunic", body, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range tunic.Pieces {
		fmt.Println(p.Copies, "×", p.Name)
	}
	fmt.Println(len(garment.Mismatch(tunic)), "seams that do not meet")
	// Output:
	// 1 × body
	// 2 × sleeve
	// 2 × underarm gusset
	// 2 × side gore
	// 2 × centre gore
	// 1 × neck facing
	// 0 seams that do not meet
}

// A piece's outline as it is cut, with the usual allowances.
func ExampleCutOutline() {
	outline, edges, err := garment.FromShape("rectangle", map[string]float64{"width_cm": 8, "length_cm": 150})
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := garment.CutOutline(garment.Piece{Name: "belt", Outline: outline, Edges: edges}, garment.DefaultAllowances())
	if err != nil {
		fmt.Println(err)
		return
	}
	box := cut.Bounds()
	fmt.Printf("%.1f × %.1f cm\n", box.Width(), box.Height())
	// Output: 155.0 × 13.0 cm
}
