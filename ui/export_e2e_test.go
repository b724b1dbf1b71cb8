//go:build e2e

package ui

import (
	"os"
	"strings"
	"testing"
	"time"

	"ellwand/plan"
)

// TestWindowExportsThePages writes the cutting diagram with keys alone.
func TestWindowExportsThePages(t *testing.T) {
	s := seated(t)
	s.key("ctrl+e")
	time.Sleep(500 * time.Millisecond)
	s.key("Return")
	time.Sleep(500 * time.Millisecond)
	s.key("Return")
	path := strings.TrimSuffix(s.path, ".yaml") + "-cutting.pdf"
	s.until("the pages", func() bool { _, err := os.Stat(path); return err == nil })
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("it begins %.10q, %v", data, err)
	}
}

// TestWindowPieceIsPinnedAndTurned works on a piece with the buttons and keys.
func TestWindowPieceIsPinnedAndTurned(t *testing.T) {
	s := seated(t)
	i := find(t, s.twin.b, "neck facing/1")
	was := s.twin.b.shown.Lay.Placements[i]
	s.point(s.twin.strip.onView(s.middle(i)).Add(s.spot(s.twin.strip)))
	s.do("click", "1")
	time.Sleep(300 * time.Millisecond)
	s.key("r")
	entry := func(p *plan.Plan) plan.SavedPlacement {
		for _, at := range p.Lay.Placements {
			if at.ID == "neck facing/1" {
				return at
			}
		}
		t.Fatal("the saved plan does not place the neck facing")
		return plan.SavedPlacement{}
	}
	s.saved("the piece turned", func(p *plan.Plan) bool { return entry(p).TurnDeg != was.TurnDeg })
	s.key("p")
	s.saved("the piece pinned", func(p *plan.Plan) bool { return entry(p).Pinned })
	s.key("p", "ctrl+z", "ctrl+z", "ctrl+z")
	s.saved("the piece as it was", func(p *plan.Plan) bool { e := entry(p); return !e.Pinned && e.TurnDeg == was.TurnDeg })
}
