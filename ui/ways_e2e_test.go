//go:build e2e

package ui

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"ellwand/plan"
)

// clickStrip gives the strip the keys without picking a piece.
func (s *seat) clickStrip() {
	s.t.Helper()
	s.point(s.spot(s.twin.strip).AddXY(14, 8))
	s.do("click", "1")
	time.Sleep(300 * time.Millisecond)
}

// fileDialog types a path into the chooser that keys have opened.
func (s *seat) fileDialog(keys, path string) {
	s.t.Helper()
	s.key(keys)
	time.Sleep(600 * time.Millisecond)
	s.key("ctrl+a")
	s.do("type", "--delay", "15", "--", path)
	s.key("Return")
	time.Sleep(600 * time.Millisecond)
}

// TestWindowFromDraftToPages goes the main way through: a body measure makes the
// draft anew, it is packed, all pieces are carried off and brought back, the plan
// is saved, another opened, and the pages exported.
func TestWindowFromDraftToPages(t *testing.T) {
	s := seated(t)
	first := s.saved("the plan as it was", func(p *plan.Plan) bool { return p.Lay != nil })

	s.enter("body.stature_cm", "182")
	drafted := s.saved("the draft for a taller body", func(p *plan.Plan) bool {
		return plan.GetField(p, "body.stature_cm") == "182" && p.Lay != nil && p.Lay.LengthCM != first.Lay.LengthCM
	})
	s.clickStrip()
	s.key("ctrl+l")
	time.Sleep(1500 * time.Millisecond)
	s.key("ctrl+period")
	packed := s.saved("the packed lay", func(p *plan.Plan) bool { return p.Lay != nil })
	if packed.Lay.LengthCM > drafted.Lay.LengthCM+1e-6 {
		t.Errorf("packing made it longer: %v cm, was %v", packed.Lay.LengthCM, drafted.Lay.LengthCM)
	}

	const id = "body/1"
	x0, _ := lies(t, packed, id)
	s.clickStrip()
	s.key("ctrl+a", "shift+Right", "shift+Right")
	s.saved("all pieces moved by two cm", func(p *plan.Plan) bool {
		x, _ := lies(t, p, id)
		return math.Abs(x-x0-2) < 0.01
	})
	s.key("ctrl+z", "ctrl+z")
	s.saved("the pieces back", func(p *plan.Plan) bool { x, _ := lies(t, p, id); return math.Abs(x-x0) < 1e-6 })

	other := filepath.Join(filepath.Dir(s.path), "other.yaml")
	s.fileDialog("ctrl+shift+s", other)
	s.until("the copy", func() bool { _, err := os.Stat(other); return err == nil })
	s.fileDialog("ctrl+o", s.path)
	time.Sleep(500 * time.Millisecond)
	s.enter("body.stature_cm", "170")
	s.saved("the first plan, opened again", func(p *plan.Plan) bool { return plan.GetField(p, "body.stature_cm") == "170" })
	if p, err := plan.Load(other); err != nil || plan.GetField(p, "body.stature_cm") != "182" {
		t.Errorf("the copy holds a stature of %s, %v", plan.GetField(p, "body.stature_cm"), err)
	}

	s.key("ctrl+e")
	time.Sleep(600 * time.Millisecond)
	s.key("Return")
	time.Sleep(600 * time.Millisecond)
	s.key("Return")
	pages := strings.TrimSuffix(s.path, ".yaml") + "-cutting.pdf"
	s.until("the pages", func() bool { _, err := os.Stat(pages); return err == nil })
	s.key("ctrl+q")
	s.until("the end", func() bool {
		select {
		case err := <-s.ended:
			s.ended <- err
			return true
		default:
			return false
		}
	})
}

// TestWindowPiecesAreBandedFlawedAndTyped picks pieces with a band, marks a flaw
// by mouse, and types an exact place.
func TestWindowPiecesAreBandedFlawedAndTyped(t *testing.T) {
	s := seated(t)
	before := s.saved("the plan as it was", func(p *plan.Plan) bool { return p.Lay != nil })
	corner := s.spot(s.twin.strip)
	size := s.twin.strip.Size()
	s.pull(corner.AddXY(14, 34), corner.AddXY(size.Width-3, size.Height-28))
	s.key("p")
	s.saved("all pieces pinned", func(p *plan.Plan) bool {
		for _, at := range p.Lay.Placements {
			if !at.Pinned {
				return false
			}
		}
		return true
	})
	s.key("ctrl+z")
	i := find(t, s.twin.b, "neck facing/1")
	middle := s.twin.strip.onView(s.middle(i)).Add(corner)
	s.point(middle)
	s.do("click", "1")
	time.Sleep(300 * time.Millisecond)
	s.click(s.twin.place.along)
	s.key("ctrl+a")
	s.do("type", "--delay", "30", "--", "600")
	s.key("Return")
	s.saved("the place typed", func(p *plan.Plan) bool {
		x, _ := lies(t, p, "neck facing/1")
		x0, _ := lies(t, before, "neck facing/1")
		return x > x0+50
	})
	s.key("ctrl+z")
	s.clickStrip()
	s.key("m")
	s.pull(middle.SubtractXY(9, 9), middle.AddXY(9, 9))
	s.saved("the flaw drawn", func(p *plan.Plan) bool { return len(p.Real.Flaws) == 1 })
	s.key("ctrl+z")
	s.saved("the flaw taken back", func(p *plan.Plan) bool { return len(p.Real.Flaws) == 0 })
}

// pull drags the pointer with the left button held.
func (s *seat) pull(from, to fyne.Position) {
	s.t.Helper()
	s.point(from)
	s.do("mousedown", "1")
	for n := float32(1); n <= 8; n++ {
		s.point(fyne.NewPos(from.X+(to.X-from.X)*n/8, from.Y+(to.Y-from.Y)*n/8))
	}
	s.do("mouseup", "1")
	time.Sleep(400 * time.Millisecond)
}
