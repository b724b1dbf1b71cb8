package layout_test

import (
	"fmt"

	"ellwand/geometry"
	"ellwand/layout"
)

// Two gores on a narrow strip lie head to tail.
func ExampleFirst() {
	gore, err := geometry.New([]geometry.Point{{X: 0, Y: 0}, {X: 80, Y: 10}, {X: 0, Y: 20}})
	if err != nil {
		fmt.Println(err)
		return
	}
	p := layout.Problem{WidthCM: 32, Items: []layout.Item{
		{ID: "gore/1", Outline: gore, TurnsDeg: []float64{0, 180}},
		{ID: "gore/2", Outline: gore, TurnsDeg: []float64{0, 180}},
	}}
	l, err := layout.First(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("sound:", layout.Check(p, l) == nil, "and not two gores long:", l.LengthCM < 160)
	// Output: sound: true and not two gores long: true
}
