package plan

import "testing"

// laidFirst is a plan with its first lay reckoned.
func laidFirst(t *testing.T, p *Plan) *Result {
	t.Helper()
	r, err := Work(t.Context(), p, Options{Seed: 1, Threads: 1})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestBoundIsWorkedOutWhenAskedForAndTakenOver(t *testing.T) {
	r := laidFirst(t, Starter())
	some, whole := r.BoundSoFarCM()
	if whole || some <= 0 {
		t.Fatalf("before anybody asked, the bound is %g cm, whole: %v", some, whole)
	}
	low := r.LowerBoundCM()
	if low < some || low > r.ClothCM() {
		t.Errorf("the bound is %g cm; quickly told it was %g, and the lay takes %g", low, some, r.ClothCM())
	}
	if cm, whole := r.BoundSoFarCM(); cm != low || !whole {
		t.Errorf("once worked out it is %g cm, whole: %v; expected is %g", cm, whole, low)
	}

	again := laidFirst(t, Starter())
	again.TakeBound(r)
	if cm, whole := again.BoundSoFarCM(); cm != low || !whole {
		t.Errorf("of the same pieces on the same cloth %g cm is taken over, whole: %v", cm, whole)
	}
	wider := Starter()
	wider.Cloth.FinishedWidthCM += 3
	other := laidFirst(t, wider)
	other.TakeBound(r)
	if _, whole := other.BoundSoFarCM(); whole {
		t.Error("the bound of another width is taken over")
	}
}
