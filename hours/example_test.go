package hours_test

import (
	"fmt"

	"ellwand/hours"
)

// The tasks of sewing and cutting alone, at the usual rates.
func ExampleReckon() {
	r, err := hours.Reckon(hours.Work{CutM: 12, Seams: []hours.Length{{Name: "side", CM: 90, Times: 4}}, Hems: []hours.Length{{Name: "hem", CM: 220, Times: 1}}}, hours.DefaultSettings())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range r.Tasks {
		fmt.Println(t.Name)
	}
	// Output:
	// Chalk and cut out
	// Join the seams by running stitch
	// Fell the seams
	// Hem
	// Rest breaks
}
