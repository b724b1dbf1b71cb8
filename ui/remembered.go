package ui

import (
	"slices"

	"ellwand/layout"
	"ellwand/plan"
)

// mostHeld bounds what the results held for undo and redo take, in bytes.
const mostHeld = 24 << 20

// remembered is what the states of a history looked like. Of every state the lay
// is held, which is small and cannot be found again in no time; the figures,
// which can, only of the last few. What undo and redo no longer reach is let go.
type remembered struct {
	lays    map[*plan.Plan]layout.Lay
	results []seen // the last ones, the latest at the end
	most    int    // bytes of all of them
}

// seen is a state with its result.
type seen struct {
	plan   *plan.Plan
	result *plan.Result
}

func newRemembered() *remembered {
	return &remembered{lays: map[*plan.Plan]layout.Lay{}, most: mostHeld}
}

// keep remembers a state's result.
func (m *remembered) keep(p *plan.Plan, r *plan.Result, h *plan.History) {
	m.lays[p] = r.Lay
	m.results = slices.DeleteFunc(m.results, func(k seen) bool { return k.plan == p })
	m.results = append(m.results, seen{p, r})
	const spare = 50 // the history is gone through once in so many steps
	if len(m.lays) > h.Len()+spare {
		m.forget(h)
	}
	bytes := 0
	for i := len(m.results) - 1; i >= 0; i-- {
		bytes += bytesOf(m.results[i].result)
		if bytes > m.most && i < len(m.results)-2 {
			m.results = slices.Delete(m.results, 0, i+1)
			break
		}
	}
}

// forget lets go of what the history holds no more.
func (m *remembered) forget(h *plan.History) {
	held := map[*plan.Plan]bool{}
	for p := range h.Plans() {
		held[p] = true
	}
	for p := range m.lays {
		if !held[p] {
			delete(m.lays, p)
		}
	}
	m.results = slices.DeleteFunc(m.results, func(k seen) bool { return !held[k.plan] })
}

// bytesOf is about what a result takes: its pieces, of which there are outlines in
// several forms, and the simulated cloths.
func bytesOf(r *plan.Result) int {
	const corner, trial = 400, 28
	n := 0
	for _, it := range r.Prepared.Problem.Items {
		n += len(it.Outline) * corner
	}
	return n + r.Plan().Simulation.Trials*trial
}

// result is what a state looked like, reckoned anew where only its lay is held.
func (m *remembered) result(p *plan.Plan) (*plan.Result, bool) {
	for _, k := range m.results {
		if k.plan == p {
			return k.result, true
		}
	}
	lay, ok := m.lays[p]
	if !ok {
		return nil, false
	}
	pr, err := plan.Prepare(p)
	if err != nil {
		return nil, false
	}
	r, err := plan.ReckonLay(p, pr, lay)
	return r, err == nil
}
