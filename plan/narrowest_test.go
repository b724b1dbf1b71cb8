package plan

import (
	"context"
	"testing"

	"ellwand/cloth"
)

// The narrowest cloth for the pieces may be too long for the loom's warp; the
// width that is chosen then is the first at which one warp is enough.
func TestNarrowestWidthKeepsWithinTheWarp(t *testing.T) {
	p := Starter()
	p.Cloth.FinishedWidthCM = 0
	free, err := Work(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	woven := (free.Reckoning.WarpLengthCM - 30) / 100 // a warp 30 cm shorter than that takes
	p.Loom.MaxWarpM = woven
	held, err := Work(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if held.Lay.WidthCM <= free.Lay.WidthCM || held.Reckoning.Warps != 1 {
		t.Errorf("%.1f cm wide in %d warps; want wider than %.1f cm, in one warp", held.Lay.WidthCM, held.Reckoning.Warps, free.Lay.WidthCM)
	}
	in, err := p.clothInput(held.Lay.WidthCM, held.Lay.LengthCM)
	if err != nil {
		t.Fatal(err)
	}
	if limit := cloth.MaxFinishedLengthCM(in); held.Lay.LengthCM > limit {
		t.Errorf("%.1f cm long; one warp holds %.1f cm", held.Lay.LengthCM, limit)
	}
}
