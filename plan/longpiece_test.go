package plan

import (
	"context"
	"strings"
	"testing"
)

func TestPieceLongerThanOneWarpCannotBeMade(t *testing.T) {
	p := Starter()
	p.Loom.MaxWarpM = 3 // (300 − 100) cm × 0.93 × 0.9 = 167.4 cm finished; the body is longer
	r, err := Work(context.Background(), p, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.CannotBeMade) != 1 || !strings.Contains(r.CannotBeMade[0].Text, "body") || !strings.Contains(r.CannotBeMade[0].Text, "167.4 cm") {
		t.Errorf("%v", r.CannotBeMade)
	}
	p.Loom.MaxWarpM = 4.5 // 293 cm finished a warp: the body fits, though the whole lay does not
	if r, err = Work(context.Background(), p, Options{Seed: 1}); err != nil || len(r.CannotBeMade) != 0 || r.Reckoning.Warps < 2 {
		t.Errorf("%v, %v", r.CannotBeMade, err)
	}
}
