package ui

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2/lang"

	"ellwand/garment"
	"ellwand/hours"
	"ellwand/ui/texts"
)

var updateTexts = flag.Bool("update-texts", false, "write the catalogue of the window's texts anew")

// mostLoose is how many texts may lag behind, so that a new one does not wait for
// the catalogue.
const mostLoose = 120

const catalogue = "texts/said/en.json"

// sayers are the window's own functions that translate what they are given: by
// name, and which arguments are texts.
func sayers() map[string][]int {
	return map[string][]int{"words": {0}, "translated": {0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, "stepWords": {0}, "heading": {0}, "note": {0}, "button": {0},
		"newTipButton": {1}, "withPicked": {0}, "with": {0}, "plain": {1}, "real": {0}, "cell": {0}, "piece": {0}, "b": {0}, "leaving": {0}}
}

// sayingFields are fields of the window's own types that are translated when they
// are shown; sayingTypes, literals whose strings all are.
func sayingFields() []string { return []string{"text", "label", "title", "action", "about"} }
func sayingTypes() []string  { return []string{"panel", "orderMenu", "option", "measure"} }

// showers are the tool kit's functions that show a text as it is.
var showers = regexp.MustCompile(`^(widget\.New(Label|Button|Check|Hyperlink|RadioGroup|Card|AccordionItem|FormItem)\w*|dialog\.(Show|New)\w+|canvas\.NewText|fyne\.NewMenu(Item)?|container\.NewTabItem\w*|\w+(\.\w+)*\.(SetText|SetPlaceHolder|SetTitle))$`)

var letters = regexp.MustCompile(`\pL{2}`)

// textsOf collects the texts of the window's source, and those that are shown
// past the catalogue.
func textsOf(t *testing.T, folder string) (said map[string]bool, loose []string) {
	t.Helper()
	said = map[string]bool{}
	files, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil || len(files) < 20 {
		t.Fatalf("%d source files, %v", len(files), err)
	}
	set := token.NewFileSet()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		constants := map[string]string{}
		ast.Inspect(file, func(n ast.Node) bool {
			if v, ok := n.(*ast.ValueSpec); ok && len(v.Names) == 1 && len(v.Values) == 1 {
				if text, ok := literal(v.Values[0]); ok {
					constants[v.Names[0].Name] = text
				}
			}
			return true
		})
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				collectCall(n, set, constants, said, &loose)
			case *ast.CompositeLit:
				collectLiteral(n, said)
			}
			return true
		})
	}
	return said, loose
}

func collectCall(n *ast.CallExpr, set *token.FileSet, constants map[string]string, said map[string]bool, loose *[]string) {
	full := exprName(n.Fun)
	short := full[strings.LastIndex(full, ".")+1:]
	for _, i := range sayers()[short] {
		if i < len(n.Args) {
			if text, ok := literal(n.Args[i]); ok && letters.MatchString(text) {
				said[text] = true
			} else if id, ok := n.Args[i].(*ast.Ident); ok && letters.MatchString(constants[id.Name]) {
				said[constants[id.Name]] = true
			}
		}
	}
	if !showers.MatchString(full) {
		return
	}
	for _, a := range n.Args {
		if text, ok := literal(a); ok && letters.MatchString(text) {
			*loose = append(*loose, fmt.Sprintf("%s: %s shows %q past the catalogue", set.Position(n.Pos()), full, text))
		}
	}
}

func collectLiteral(n *ast.CompositeLit, said map[string]bool) {
	kind := ""
	if id, ok := n.Type.(*ast.Ident); ok {
		kind = id.Name
	}
	for _, e := range n.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if key, isName := kv.Key.(*ast.Ident); isName && slices.Contains(sayingFields(), key.Name) {
				if text, ok := literal(kv.Value); ok && letters.MatchString(text) {
					said[text] = true
				}
			}
			continue
		}
		inner, nested := e.(*ast.CompositeLit)
		if text, ok := literal(e); ok && slices.Contains(sayingTypes(), kind) && letters.MatchString(text) {
			said[text] = true
		} else if nested && inner.Type == nil { // the elements of a list of such
			if list, ok := n.Type.(*ast.ArrayType); ok && slices.Contains(sayingTypes(), exprName(list.Elt)) {
				for _, x := range inner.Elts {
					if text, ok := literal(x); ok && letters.MatchString(text) {
						said[text] = true
					}
				}
			}
		}
	}
}

func literal(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(l.Value)
	return text, err == nil
}

func exprName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return exprName(e.X) + "." + e.Sel.Name
	}
	return "?"
}

// lentTexts are labels that other packages give and the window shows.
func lentTexts(said map[string]bool) {
	for _, m := range garment.Measures() {
		said[m.Label], said[m.Meaning] = true, true
	}
	for _, d := range garment.Drafts() {
		said[d.Label], said[d.About] = true, true
		for _, q := range d.Params() {
			said[q.Label], said[q.Meaning] = true, true
			for _, c := range q.Choices {
				said[c.Label] = true
			}
		}
	}
	for _, r := range hours.Rates() {
		said[r.Label+", "+r.Unit] = true
	}
	for _, word := range blanks() {
		said[word] = true
	}
	delete(said, "")
}

// keyLabels are the labels of the plan's fields, from where they are declared.
func keyLabels(t *testing.T, said map[string]bool) {
	t.Helper()
	files, err := filepath.Glob("../plan/*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if c, ok := n.(*ast.CallExpr); ok && strings.HasSuffix(exprName(c.Fun), "Key") && len(c.Args) > 2 {
				_, first := literal(c.Args[0])
				if text, second := literal(c.Args[1]); first && second && letters.MatchString(text) {
					said[text] = true
				}
			}
			return true
		})
	}
}

// TestEveryTextOfTheWindowIsInTheCatalogue walks the source of the window: no
// text is shown past `words`, and all that go through it stand in one file.
func TestEveryTextOfTheWindowIsInTheCatalogue(t *testing.T) {
	said, loose := textsOf(t, ".")
	for _, l := range loose {
		t.Logf("%s; put it through words(…)", l)
	}
	if len(loose) > mostLoose {
		t.Errorf("%d texts are shown past the catalogue", len(loose))
	}
	lentTexts(said)
	keyLabels(t, said)
	if len(said) < 300 {
		t.Errorf("only %d texts are found in the source", len(said))
	}
	if *updateTexts {
		writeCatalogue(t, said)
	}
	data, err := os.ReadFile(catalogue)
	if err != nil {
		t.Fatal(err)
	}
	have := map[string]string{}
	if err := json.Unmarshal(data, &have); err != nil {
		t.Fatal(err)
	}
	missing := 0
	for text := range said {
		if have[catalogueKey(text)] == "" {
			t.Logf("%q is not in %s", text, catalogue)
			missing++
		}
	}
	if missing > mostLoose {
		t.Errorf("%d texts are missing; write the catalogue anew with: go test ./ui -run Catalogue -update-texts", missing)
	}
	verbs := regexp.MustCompile(`%[-+# 0-9.]*[a-zA-Z]`)
	for key, text := range have {
		if !slices.Equal(verbs.FindAllString(key, -1), verbs.FindAllString(text, -1)) {
			t.Errorf("%q is said as %q, with other verbs", key, text)
		}
	}
}

// The tool kit must be able to read the catalogue: one word that it keeps for
// itself, as a key, and it reads none of it.
func TestCatalogueIsRead(t *testing.T) {
	if err := lang.AddTranslationsFS(texts.Files, "said"); err != nil {
		t.Error(err)
	}
	for _, text := range []string{"one", "two", "three", "Other"} {
		if got := words(text); got != text {
			t.Errorf("%q is said as %q", text, got)
		}
	}
}

// writeCatalogue keeps what is said for the texts that are still there.
func writeCatalogue(t *testing.T, said map[string]bool) {
	t.Helper()
	have := map[string]string{}
	if data, err := os.ReadFile(catalogue); err == nil {
		if err := json.Unmarshal(data, &have); err != nil {
			t.Fatal(err)
		}
	}
	out := map[string]string{}
	for text := range said {
		key := catalogueKey(text)
		out[key] = text
		if have[key] != "" {
			out[key] = have[key]
		}
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(out); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(catalogue, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}
