//go:build e2e

package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestWindowNewPlanToPages goes from New to printed pages with keys alone: a
// title, two measurements, the rest estimated.
func TestWindowNewPlanToPages(t *testing.T) {
	s := seated(t)
	s.key("ctrl+n")
	time.Sleep(time.Second)
	s.do("type", "--delay", "30", "Weir tunic")
	s.key("Tab", "Tab", "Tab", "Tab")
	s.do("type", "--delay", "30", "168")
	s.key("Tab")
	s.do("type", "--delay", "30", "97")
	s.key("Return")
	s.until("the new plan", func() bool {
		return strings.Contains(s.do("getwindowname", s.id), "Weir tunic")
	})
	time.Sleep(3 * time.Second) // it is being laid
	s.key("ctrl+e")
	time.Sleep(time.Second)
	s.key("Return")
	time.Sleep(time.Second)
	path := filepath.Join(filepath.Dir(s.path), "weir.pdf")
	s.key("ctrl+a")
	s.do("type", "--delay", "10", path)
	s.key("Return")
	s.until("the pages", func() bool { _, err := os.Stat(path); return err == nil })
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("it begins %.10q, %v", data, err)
	}
}
