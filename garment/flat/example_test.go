package flat_test

import (
	"fmt"

	"ellwand/garment"
	"ellwand/garment/flat"
)

// A tunic laid flat, from its pieces and seams alone.
func ExampleLay() {
	body := garment.Body{Table: "men", CM: map[garment.Measure]float64{garment.Stature: 176, "bust_girth_cm": 98}}
	tunic, err := garment.Draft("tunic", body, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, view := range flat.Lay(tunic).Views {
		fmt.Printf("%s: %d parts\n", view.Name, len(view.Parts))
	}
	// Output:
	// front: 9 parts
	// back: 9 parts
}
