package plan

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"ellwand/assets"
)

var update = flag.Bool("update", false, "write the schema anew")

const schemaFile = "../assets/plan.schema.json"

func TestSchemaInTheFolderIsTheOneTheCodeMakes(t *testing.T) {
	made, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(schemaFile, made, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(schemaFile)
	if err != nil || !bytes.Equal(made, kept) {
		t.Errorf("%s is not what the code makes (%v); `go test ./plan -run Schema -update` writes it anew", schemaFile, err)
	}
}

// The schema accepts the starter plan, and refuses most of what the loader
// refuses: what hangs together across keys only the loader can tell.
func TestSchemaAgreesWithTheLoader(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	accepts := func(text []byte) bool {
		var v any
		if yaml.Unmarshal(text, &v) != nil {
			return false
		}
		return schema.Validate(v) == nil
	}
	if !accepts(assets.StarterPlan()) {
		t.Error("the schema refuses the starter plan")
	}
	refused := 0
	for _, b := range broken {
		if !accepts(bytes.Replace(assets.StarterPlan(), []byte(b.old), []byte(b.new), 1)) {
			refused++
		}
	}
	t.Logf("the schema refuses %d of %d broken plans", refused, len(broken))
	if refused < len(broken)/2 {
		t.Errorf("the schema refuses only %d of %d broken plans", refused, len(broken))
	}
}
