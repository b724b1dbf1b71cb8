package ui

import "ellwand/plan"

// seekBound works the bound of what is shown out beside the window, one at a time.
func (b *bench) seekBound() {
	r := b.shown
	if r == nil || b.bounding {
		return
	}
	if _, whole := r.BoundSoFarCM(); whole {
		return
	}
	b.bounding = true
	b.spawn(func() {
		r.LowerBoundCM()
		b.onWindow(func() {
			b.bounding = false
			if b.shown == r {
				b.tell(boundChanged)
			} else {
				b.seekBound()
			}
		})
	})
}

// boundSentence says below what length no lay can be, as far as that is known by
// now, or that this one is proved as short as can be.
func boundSentence(r *plan.Result, units string) string {
	low, whole := r.BoundSoFarCM()
	if whole && r.ProvedShortest() {
		return words("This lay is proved: no lay at this width can be shorter.")
	}
	return words("No lay at this width can be shorter than %s.", length(low, units))
}
