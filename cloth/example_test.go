package cloth_test

import (
	"fmt"

	"ellwand/cloth"
)

// A sample of 40 cm on the loom: 37 cm when cut off, 32 cm when washed.
func ExampleSampleLosses() {
	loom, shrink, err := cloth.SampleLosses(40, 37, 32)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% off the loom, %.1f %% in the wash\n", 100*loom, 100*shrink)
	// Losses divide: 32 cm finished ask for this much on the loom.
	fmt.Printf("%.1f cm\n", 32/(1-shrink)/(1-loom))
	// Output:
	// 7.5 % off the loom, 13.5 % in the wash
	// 40.0 cm
}

// The threads and the intersections of a twill's repeat, for its sett.
func ExampleWeaveByName() {
	w, ok := cloth.WeaveByName("2/2 twill")
	fmt.Println(ok, w.RepeatThreads, w.Intersections)
	// Output: true 4 2
}
