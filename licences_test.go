package main

import (
	"os/exec"
	"strings"
	"testing"

	"ellwand/assets"
)

func TestEveryModuleLinkedHasItsLicenceListed(t *testing.T) {
	for _, system := range []string{"linux", "windows"} {
		c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", ".")
		c.Env = append(c.Environ(), "GOOS="+system, "CGO_ENABLED=1")
		out, err := c.Output()
		if err != nil {
			t.Fatal(err)
		}
		modules := strings.Fields(strings.ReplaceAll(string(out), " ", "@"))
		if len(modules) < 100 {
			t.Fatalf("%s: only %d packages are linked", system, len(modules))
		}
		for _, m := range modules {
			if !strings.Contains(assets.Licences(), "\n"+strings.ReplaceAll(m, "@", " ")+" — ") {
				t.Errorf("%s: %s is linked but not listed; run scripts/licences.sh", system, m)
			}
		}
	}
	if out, err := exec.Command("scripts/licences.sh", "--check").CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	code, out, _ := ellwand(t, "--licences")
	if code != exitDone || out != assets.Licences() {
		t.Error("--licences does not print them")
	}
}
