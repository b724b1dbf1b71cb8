package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
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
