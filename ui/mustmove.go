package ui

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"ellwand/geometry"
	"ellwand/layout/drawing"
	"ellwand/plan"
)

// moveSeconds is how long is looked for the fewest pieces to move.
const moveSeconds = 8

// mustMove asks which pieces must move for the lay to lie on the cloth as it
// really is, and moves them if the answer is taken.
func (v *window) mustMove() {
	b := v.b
	b.stop()
	p := b.plan().Clone()
	if b.current() {
		p.KeepLay(b.shown)
	}
	var k *plan.Kept
	var err error
	v.ask(moveSeconds, func(ctx context.Context) {
		k, err = plan.KeepNear(ctx, p, plan.Options{Seed: 1, Threads: threads(), Seconds: moveSeconds})
	}, func(stopped bool) {
		switch {
		case err != nil && stopped:
			v.say(words("Stopped before it was known what must move."), false)
		case err != nil:
			v.fault(err)
		default:
			v.askToMove(k)
		}
	})
	v.say(words("Looking for the fewest pieces that must move …"), false)
}

func (v *window) askToMove(k *plan.Kept) {
	said := newParagraph(k.Text(v.b.plan().ShowUnits), 640)
	text := container.NewVScroll(container.NewVBox(v.movesView(k), said))
	text.SetMinSize(fyne.NewSize(700, min(340, text.Content.MinSize().Height)))
	if len(k.Moves) == 0 {
		dialog.ShowCustom(words("What must move?"), words("Close"), text, v)
		return
	}
	dialog.ShowCustomConfirm(words("What must move?"), words("Move them"), words("Leave them"), text, func(yes bool) {
		if !yes {
			return
		}
		if err := v.b.keepNear(k); err != nil {
			v.fault(err)
		}
	}, v)
}

// movesView is the new lay, with the old places of what moves dashed and an arrow
// from each to the new one.
func (v *window) movesView(k *plan.Kept) fyne.CanvasObject {
	view := newLayView(v.b, k.Result, k.Result.Lay.LengthCM)
	if !v.b.current() {
		return view
	}
	was := map[string]drawing.Piece{}
	for i, p := range v.b.shown.Sheet("").Pieces {
		was[v.b.shown.Prepared.Problem.Items[i].ID] = p
		view.lengthCM = max(view.lengthCM, p.Cut.Bounds().MaxX)
	}
	is := k.Result.Sheet("").Pieces
	for i, it := range k.Result.Prepared.Problem.Items {
		old, ok := was[it.ID]
		if !ok || !slices.ContainsFunc(k.Moves, func(m plan.Move) bool { return m.ID == it.ID }) {
			continue
		}
		view.marked[i] = true
		view.over = append(view.over, old)
		view.arrows = append(view.arrows, [2]geometry.Point{old.Cut.Centroid(), is[i].Cut.Centroid()})
	}
	return view
}

// keepNear takes the lay that was kept near, with the cloth it lies on.
func (b *bench) keepNear(k *plan.Kept) error {
	b.stop()
	err := b.history.Do("move what must move", func(p *plan.Plan) error {
		p.Real, p.Lay = k.Plan.Real, k.Plan.Lay
		return nil
	})
	if err != nil {
		return err
	}
	b.show(k.Result, nil)
	b.tell(planChanged)
	return nil
}
