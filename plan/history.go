package plan

import (
	"iter"
	"maps"
	"slices"
)

// Clone is a copy that shares nothing that can change with the plan.
func (p *Plan) Clone() *Plan {
	c := *p
	c.Body.CM = maps.Clone(p.Body.CM)
	c.Params = maps.Clone(p.Params)
	c.Pieces = slices.Clone(p.Pieces)
	for i := range c.Pieces {
		c.Pieces[i] = c.Pieces[i].clone()
	}
	c.Seams = slices.Clone(p.Seams)
	for i := range c.Seams {
		c.Seams[i].Edges, c.Seams[i].ToEdges = slices.Clone(c.Seams[i].Edges), slices.Clone(c.Seams[i].ToEdges)
	}
	c.Unconfirmed = slices.Clone(p.Unconfirmed)
	c.Cloth.DentOrder = slices.Clone(p.Cloth.DentOrder)
	c.Cloth.Draft = slices.Clone(p.Cloth.Draft)
	c.Cloth.WarpOrder = slices.Clone(p.Cloth.WarpOrder)
	c.Cloth.WeftOrder = slices.Clone(p.Cloth.WeftOrder)
	c.Loom.ReedsDentsPer10CM = slices.Clone(p.Loom.ReedsDentsPer10CM)
	c.Yarns = slices.Clone(p.Yarns)
	for i := range c.Yarns {
		c.Yarns[i].Blend = slices.Clone(c.Yarns[i].Blend)
	}
	c.Fleeces = slices.Clone(p.Fleeces)
	c.Dyes = slices.Clone(p.Dyes)
	c.Hours.Own = maps.Clone(p.Hours.Own)
	c.Hours.SpindleOf = maps.Clone(p.Hours.SpindleOf)
	c.Choices = slices.Clone(p.Choices)
	c.Log = p.Log.clone()
	c.cloneSamples(p)
	c.Real = p.Real.clone()
	c.Matches = cloneMatches(p.Matches)
	if p.Lay != nil {
		lay := *p.Lay
		lay.StartsCM = slices.Clone(p.Lay.StartsCM)
		lay.Placements = slices.Clone(p.Lay.Placements)
		c.Lay = &lay
	}
	return &c
}

func (s PieceSpec) clone() PieceSpec {
	s.Dims = maps.Clone(s.Dims)
	s.Points = slices.Clone(s.Points)
	s.EdgeNames = slices.Clone(s.EdgeNames)
	s.Finish = maps.Clone(s.Finish)
	s.AllowanceCM = maps.Clone(s.AllowanceCM)
	if s.Copies != nil {
		copies := *s.Copies
		s.Copies = &copies
	}
	return s
}

// Bounds of a history, so that it does not grow for as long as the window is
// open. The oldest steps go first; however large the plan, the last few stay.
const (
	mostSteps   = 1000
	mostBytes   = 64 << 20
	fewestSteps = 20
)

// History is a plan and the states that undo and redo can bring back: the last
// thousand, fewer of a very large plan. Check, when not nil, refuses a changed
// plan; a refused change leaves no trace.
type History struct {
	Check func(*Plan) error
	steps []step // steps[0] is the plan as opened, or the oldest that is still held
	at    int
	saved int // the step that is in the file; -1 when it can no longer be reached
}

type step struct {
	name  string // what was done to come here
	plan  *Plan
	bytes int // about what the plan holds
}

// NewHistory starts at a copy of p, which counts as saved.
func NewHistory(p *Plan) *History {
	p = p.Clone()
	return &History{steps: []step{{plan: p, bytes: p.heldBytes()}}}
}

// Len is how many states are held, the present one among them.
func (h *History) Len() int { return len(h.steps) }

// Plans are the states that are held, the oldest first.
func (h *History) Plans() iter.Seq[*Plan] {
	return func(yield func(*Plan) bool) {
		for _, s := range h.steps {
			if !yield(s.plan) {
				return
			}
		}
	}
}

// Current is the plan as it stands. It is the history's own: change it with Do.
func (h *History) Current() *Plan { return h.steps[h.at].plan }

// Do changes a copy of the plan and keeps it under the name, for example "turn
// the sleeve". On an error, from the change or the check, nothing has happened.
func (h *History) Do(name string, change func(*Plan) error) error {
	next := h.Current().Clone()
	if err := change(next); err != nil {
		return err
	}
	if h.Check != nil {
		if err := h.Check(next); err != nil {
			return err
		}
	}
	h.add(name, next)
	return nil
}

// KeepLay keeps the lay of a result of the plan as it stands, as a step under the
// name. Nothing is checked anew, for that takes long where there are many pieces:
// the plan has passed Check, and no lay is worked out that is not sound.
func (h *History) KeepLay(name string, r *Result) {
	next := h.Current().Clone()
	next.KeepLay(r)
	h.add(name, next)
}

func (h *History) add(name string, next *Plan) {
	if h.saved > h.at {
		h.saved = -1
	}
	h.steps = append(slices.Clip(h.steps[:h.at+1]), step{name, next, next.heldBytes()})
	h.at++
	h.forget()
}

// forget lets the oldest steps go where there are too many.
func (h *History) forget() {
	bytes, from := 0, 0
	for i := len(h.steps) - 1; i >= 0; i-- {
		bytes += h.steps[i].bytes
		if n := len(h.steps) - i; n > mostSteps || bytes > mostBytes && n > fewestSteps {
			from = i + 1
			break
		}
	}
	if from == 0 {
		return
	}
	h.steps = slices.Clone(h.steps[from:])
	h.steps[0].name = "" // what led to it is gone
	h.at -= from
	h.saved = max(-1, h.saved-from)
}

// Undo goes one step back and names what was undone.
func (h *History) Undo() (name string, ok bool) {
	if name = h.CanUndo(); h.at == 0 {
		return "", false
	}
	h.at--
	return name, true
}

// Redo goes one step forward again and names what was redone.
func (h *History) Redo() (name string, ok bool) {
	if name = h.CanRedo(); h.at == len(h.steps)-1 {
		return "", false
	}
	h.at++
	return name, true
}

// CanUndo names what Undo would undo, "" for nothing.
func (h *History) CanUndo() string { return h.steps[h.at].name }

// CanRedo names what Redo would redo, "" for nothing.
func (h *History) CanRedo() string {
	if h.at == len(h.steps)-1 {
		return ""
	}
	return h.steps[h.at+1].name
}

// Dirty says whether the plan differs from the one marked as saved.
func (h *History) Dirty() bool { return h.at != h.saved }

// MarkSaved says that the plan as it stands is in the file.
func (h *History) MarkSaved() { h.saved = h.at }

// MarkUnsaved says that no state of the plan is in the file.
func (h *History) MarkUnsaved() { h.saved = -1 }
