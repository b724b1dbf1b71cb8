package plan_test

import (
	"context"
	"fmt"

	"ellwand/plan"
)

// A plan is worked out as a whole, and says what it is that cannot be met.
func ExampleWork() {
	p := plan.Starter()
	r, err := plan.Work(context.Background(), p, plan.Options{Seed: 1, Threads: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %d pieces on cloth %.0f cm wide\n", p.Title, len(r.Lay.Placements), r.Lay.WidthCM)
	// Output: Ferryman's tunic: 10 pieces on cloth 64 cm wide
}

// What is wrong in a plan is said with its line and what is accepted.
func ExampleParse() {
	_, err := plan.Parse([]byte("ellwand: 1\ncloth: {take_up: 7}\n"), "tunic.yaml")
	for _, p := range err.(plan.Problems) {
		if p.Field == "cloth.take_up" {
			fmt.Println(p)
		}
	}
	// Output: tunic.yaml:2: cloth.take_up is 7; accepted is a bare number from 0 to below 1.
}

// A field is set from what is typed, or says why not and stays as it was.
func ExampleSetField() {
	p := plan.Starter()
	fmt.Println(plan.SetField(p, "body.stature_cm", "168"), plan.GetField(p, "body.stature_cm"))
	fmt.Println(plan.SetField(p, "body.stature_cm", "tall") != nil, plan.GetField(p, "body.stature_cm"))
	// Output:
	// <nil> 168
	// true 168
}
