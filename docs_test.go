package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// exportedOf names what a declaration exports and whether a comment says what
// it is.
func exportedOf(d ast.Decl) map[string]bool {
	said := map[string]bool{}
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Name.IsExported() && (d.Recv == nil || receiverExported(d.Recv)) {
			said[d.Name.Name] = d.Doc != nil
		}
	case *ast.GenDecl:
		kind := "" // of the values so far, in a list of constants of one type
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				if s.Name.IsExported() {
					said[s.Name.Name] = d.Doc != nil || s.Doc != nil || s.Comment != nil
				}
			case *ast.ValueSpec:
				if name, ok := s.Type.(*ast.Ident); ok {
					kind = name.Name
				} else if len(s.Values) > 0 && s.Type == nil {
					kind = ""
				}
				for _, n := range s.Names {
					if n.IsExported() {
						// The comment of an exported type speaks for its values.
						said[n.Name] = d.Doc != nil || s.Doc != nil || s.Comment != nil || ast.IsExported(kind)
					}
				}
			}
		}
	}
	return said
}

func receiverExported(r *ast.FieldList) bool {
	t := r.List[0].Type
	if star, ok := t.(*ast.StarExpr); ok {
		t = star.X
	}
	if index, ok := t.(*ast.IndexExpr); ok {
		t = index.X
	}
	name, ok := t.(*ast.Ident)
	return ok && name.IsExported()
}

// wellKnown are methods whose meaning their interface gives.
func wellKnown(name string) bool { return name == "Error" || name == "String" || name == "Unwrap" }

func TestEveryExportedNameAndPackageSaysWhatItIs(t *testing.T) {
	set := token.NewFileSet()
	names, packages := 0, map[string]bool{}
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(set, path, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		folder := filepath.Dir(path)
		packages[folder] = packages[folder] || f.Doc != nil
		for _, decl := range f.Decls {
			for name, said := range exportedOf(decl) {
				names++
				if !said && !wellKnown(name) {
					t.Errorf("%s: %s has no comment", set.Position(decl.Pos()), name)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for folder, said := range packages {
		if !said {
			t.Errorf("the package in %s has no comment", folder)
		}
	}
	if names < 200 || len(packages) < 10 {
		t.Errorf("only %d names in %d packages were looked at", names, len(packages))
	}
}

// part is what stands in DEVELOPERS.md under a heading.
func part(t *testing.T, heading string) string {
	t.Helper()
	data, err := os.ReadFile("DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(data), "\n"+heading+"\n")
	if !ok {
		t.Fatalf("DEVELOPERS.md has no heading %q", heading)
	}
	text, _, _ := strings.Cut(rest, "\n## ")
	return text
}

func TestTheMapHasAParagraphForEveryPackage(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}}", "./...").Output()
	if err != nil {
		t.Fatal(err)
	}
	table, paragraphs, _ := strings.Cut(part(t, "## The map"), "### A paragraph each")
	for _, path := range strings.Fields(string(out)) {
		folder, ok := strings.CutPrefix(path, "ellwand/")
		if !ok {
			folder = "main.go"
		}
		if !strings.Contains(table, "`"+folder+"`") && !strings.Contains(table, "`"+folder+"/`") {
			t.Errorf("the table of the map lacks %s", folder)
		}
		if name := strings.TrimSuffix(filepath.Base(folder), ".go"); !strings.Contains(paragraphs, "`"+name+"`") && !strings.Contains(paragraphs, "`"+folder+"`") {
			t.Errorf("no paragraph of the map speaks of %s", folder)
		}
	}
}

// What DEVELOPERS.md tells somebody to change must be there to be changed.
func TestWhatIsToBeAddedGoesWhereItSays(t *testing.T) {
	text := part(t, "## To add")
	for name, file := range map[string]string{
		"recipe": "garment/draft.go", "recipes()": "garment/draft.go", "DraftInfo": "garment/param.go",
		"cloth.Weaves": "cloth/weave.go", "drawing.ForFile": "layout/drawing/formats.go", "pen": "layout/drawing/pen.go",
		"prints.Kinds": "prints/prints.go", "Kind": "prints/prints.go", "upgrades()": "plan/version.go", "plan.Version": "plan/sections.go",
		"scripts/licences.sh": "scripts/licences.sh",
	} {
		if !strings.Contains(text, "`"+name+"`") {
			t.Errorf("it does not speak of %s", name)
		}
		source, err := os.ReadFile(file)
		if err != nil {
			t.Error(err)
			continue
		}
		own := strings.TrimSuffix(name[strings.LastIndexByte(name, '.')+1:], "()")
		if strings.HasSuffix(file, ".go") && !regexp.MustCompile(`(?m)^(func|type|const|var|\t) ?`+own+`\b`).Match(source) {
			t.Errorf("%s does not declare %s", file, own)
		}
	}
}

func TestEveryModuleAskedForHasItsReason(t *testing.T) {
	mod, err := os.ReadFile("go.mod")
	if err != nil {
		t.Fatal(err)
	}
	table := part(t, "## Libraries")
	direct, _, _ := strings.Cut(string(mod)[strings.Index(string(mod), "require (")+9:], ")")
	count := 0
	for _, line := range strings.Split(direct, "\n") {
		fields := strings.Fields(line)
		if len(fields) < 2 || strings.Contains(line, "// indirect") {
			continue
		}
		count++
		if !strings.Contains(table, "`"+fields[0]+"`") {
			t.Errorf("the table of libraries lacks %s", fields[0])
		}
	}
	if count < 5 {
		t.Errorf("only %d modules were looked for", count)
	}
}
