package layout

import "context"

// handOn tries lay l of the width at place n on those beyond it, step by step,
// until that makes none of two shorter.
func (st *widthStudy) handOn(ctx context.Context, n, step int, l Lay, found lookedAt) {
	for k, fails := n+step, 0; k >= 0 && k < len(st.order) && fails < 2 && ctx.Err() == nil; k += step {
		known := st.lays[st.order[k]]
		if len(known.Placements) == 0 {
			return
		}
		w := st.searchAt(ctx, k, known, st.s.MaxSteps)
		w.start(l)
		found.tried[k] = true
		if now := w.best.get(); now.LengthCM < known.LengthCM-exactCM {
			found.lays[k], l, fails = now, now, 0
		} else {
			fails++
		}
	}
}

// start drives a lay of another width apart on this one: on as much cloth as it
// took, or on more where that fails, but less than what is known.
func (s *search) start(l Lay) {
	most := s.best.length() * (1 - crowdShrink)
	least := min(most, max(s.floor, l.LengthCM*l.WidthCM/s.m.p.WidthCM))
	all := s.m.bodiesOf(l)
	for _, i := range s.sep.loose {
		b := all[i]
		all[i] = s.m.body(b.form, b.x, b.y+(b.box.MinY+b.box.MaxY)/2*(s.m.p.WidthCM/l.WidthCM-1))
	}
	for _, share := range []float64{0, 0.3, 0.7} {
		if share > 0 && most-least < crowdShrink*most || s.done() || !s.clock.tick() ||
			s.crowd(all, l.LengthCM, least+share*(most-least)) {
			return
		}
	}
}

const (
	crowdShrink   = 0.004 // of the length, at a time
	crowdPatience = 60
	crowdTimes    = 12
)

// crowd drives bodies that lie on so much cloth apart on another length, and
// then on less and less; false when already the first does not come apart.
func (s *search) crowd(all []body, from, length float64) bool {
	all = append([]body(nil), all...)
	for _, i := range s.sep.loose {
		b := all[i]
		all[i] = s.m.body(b.form, b.x+(b.box.MinX+b.box.MaxX)/2*(length/from-1), b.y)
	}
	s.sep.load(all, length)
	for k := range crowdTimes {
		if ok, _ := s.sep.separate(1, crowdPatience); !ok || !s.take() {
			return k > 0
		}
		if s.done() || !s.clock.tick() {
			return true
		}
		s.cut(s.target(s.best.length(), crowdShrink))
	}
	return true
}

// narrowed is the model for a narrower cloth, sharing what pairs keep apart.
// It serves problems in which nothing but the width hangs on the width.
func (m *model) narrowed(ctx context.Context, widthCM float64) *model {
	n := &model{ctx: ctx, p: m.p, forms: m.forms, turned: m.turned, flaws: m.flaws, area: m.area, spread: m.spread,
		slack: m.slack, pairs: m.pairs, fieldCells: m.fieldCells}
	n.p.WidthCM = widthCM
	for i, fs := range m.ofItem {
		var fit []int32
		for _, f := range fs {
			if m.p.Items[i].Pinned != nil || m.forms[f].box.Height() <= widthCM+fitCM {
				fit = append(fit, f)
			}
		}
		n.ofItem = append(n.ofItem, fit)
	}
	return n
}
