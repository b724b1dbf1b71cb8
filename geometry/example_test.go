package geometry_test

import (
	"fmt"

	"ellwand/geometry"
)

// A belt of 150 × 8 cm with 1 cm for the seams all round.
func ExampleCutOutline() {
	belt, err := geometry.New([]geometry.Point{{X: 0, Y: 0}, {X: 150, Y: 0}, {X: 150, Y: 8}, {X: 0, Y: 8}})
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := geometry.CutOutline(belt, []float64{1, 1, 1, 1}, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	box := cut.Bounds()
	fmt.Printf("%.0f × %.0f cm\n", box.Width(), box.Height())
	// Output: 152 × 10 cm
}

// Pieces that share an edge touch, and do not overlap.
func ExampleOverlap() {
	a, err := geometry.New([]geometry.Point{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 10}, {X: 0, Y: 10}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(geometry.Overlap(a, a.Translate(10, 0)), geometry.Overlap(a, a.Translate(9.999, 0)))
	// Output: false true
}
