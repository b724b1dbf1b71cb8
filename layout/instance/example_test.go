package instance_test

import (
	"fmt"
	"strings"

	"ellwand/layout/instance"
)

// A strip 10 wide, and two items that may lie as they are or head to tail.
func ExampleRead() {
	in, err := instance.Read(strings.NewReader(`{"name": "two", "strip_width": 10, "rotations_deg": [0, 180], "items": [
		{"id": "gore", "demand": 2, "polygon": [[0, 0], [8, 2], [0, 4]]}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(in.Name, in.Problem.WidthCM, len(in.Problem.Items))
	// Output: two 10 2
}
