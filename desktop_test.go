package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ellwand/plan"
)

// Opened by a double click, a plan that cannot be read must say so in the
// window; at a terminal it says so there, and no window opens.
func TestAPlanThatCannotBeOpenedIsSaidWhereItIsRead(t *testing.T) {
	t.Setenv("DISPLAY", ":0")
	torn := filepath.Join(t.TempDir(), "torn.yaml")
	if err := os.WriteFile(torn, []byte("ellwand: 1\nbodey: 3\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, unread := range []bool{false, true} {
		var errs bytes.Buffer
		opened, said := false, error(nil)
		env := environment{out: &errs, err: &errs, now: time.Now, unread: unread,
			window: func(p *plan.Plan, path string, wrong error) error {
				opened, said = true, wrong
				if path != "" || p.Validate() != nil {
					t.Errorf("the window works on %q", path)
				}
				return nil
			}}
		code := run(context.Background(), []string{torn}, env)
		if code != exitBadInput || !strings.Contains(errs.String(), "torn.yaml:2: bodey") {
			t.Errorf("unread %t: exit %d: %s", unread, code, &errs)
		}
		if opened != unread || unread && (said == nil || !strings.Contains(said.Error(), "torn.yaml:2: bodey")) {
			t.Errorf("unread %t: a window opens: %t; it says %v", unread, opened, said)
		}
	}
}
