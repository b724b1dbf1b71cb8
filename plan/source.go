package plan

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// What a plan file may be at most; a plan kept by hand stays far below.
const (
	maxFileBytes = 1 << 20
	maxDepth     = 20
	maxValues    = 200_000
)

// readSource reads a plan file's bytes, never more than a plan may have.
func readSource(path string) ([]byte, error) {
	// Looked at before it is opened: opening a pipe would wait for a writer.
	info, err := os.Stat(path)
	if err != nil {
		return nil, cannotOpen(path, err)
	}
	if !info.Mode().IsRegular() {
		return nil, &Problem{File: path, Text: "is not a file", Accepted: "a plan file in YAML"}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, cannotOpen(path, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxFileBytes+1))
	if err != nil {
		return nil, cannotOpen(path, err)
	}
	return data, nil
}

// openError is a plan file that cannot be opened, said plainly.
type openError struct {
	path string
	err  error
}

func cannotOpen(path string, err error) error { return &openError{path, err} }

func (e *openError) Error() string {
	switch {
	case errors.Is(e.err, fs.ErrNotExist):
		return fmt.Sprintf("%s: there is no such file; accepted is the name of a plan file.", e.path)
	case errors.Is(e.err, fs.ErrPermission):
		return fmt.Sprintf("%s: may not be read by you; accepted is a plan file that you have leave to read.", e.path)
	}
	var at *fs.PathError
	if errors.As(e.err, &at) {
		return fmt.Sprintf("%s: cannot be read (%v); accepted is a plan file.", e.path, at.Err)
	}
	return fmt.Sprintf("%s: cannot be read (%v); accepted is a plan file.", e.path, e.err)
}

func (e *openError) Unwrap() error { return e.err }

// parseSource turns the bytes into the one mapping that a plan is. Nothing in
// the text can make it read another file or grow beyond its own length.
func parseSource(data []byte, name string) (*yaml.Node, error) {
	whole := func(line int, text, accepted string) error {
		return &Problem{File: name, Line: line, Field: "the file", Text: text, Accepted: accepted}
	}
	if len(data) > maxFileBytes {
		return nil, whole(1, "is larger than 1 MiB", "a plan of at most 1 MiB")
	}
	if wrong := notText(data); wrong != "" {
		return nil, whole(lineOfBadText(data), wrong, "YAML in UTF-8")
	}
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var document, next yaml.Node
	if err := decoder.Decode(&document); errors.Is(err, io.EOF) {
		return nil, whole(1, "is empty", "a plan that begins with `ellwand: 1`")
	} else if err != nil {
		return nil, yamlProblem(err, data, name)
	}
	if err := decoder.Decode(&next); err == nil {
		return nil, whole(next.Line, "holds more than one document", "one plan in a file")
	} else if !errors.Is(err, io.EOF) {
		return nil, yamlProblem(err, data, name)
	}
	root := document.Content[0]
	// Comments at the very top and end belong to the document; they go with the plan.
	root.HeadComment = joinComments(document.HeadComment, root.HeadComment)
	root.FootComment = joinComments(root.FootComment, document.FootComment)
	if root.Kind != yaml.MappingNode {
		return nil, whole(root.Line, "is not a list of keys and values", "a plan that begins with `ellwand: 1`")
	}
	if n := valuesIn(root, maxValues); n > maxValues {
		return nil, whole(root.Line, fmt.Sprintf("holds more than %d values", maxValues), fmt.Sprintf("a plan of at most %d", maxValues))
	}
	if p := checkShape(root, "", 1); p != nil {
		p.File = name
		return nil, p
	}
	return root, nil
}

// valuesIn counts the values of a tree, no further than a little over most.
// Aliases are not followed: they are refused afterwards.
func valuesIn(n *yaml.Node, most int) int {
	count := 1
	for _, c := range n.Content {
		if count += valuesIn(c, most-count); count > most {
			break
		}
	}
	return count
}

func joinComments(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "\n\n" + b
}

// lineOfBadText is the line of the first byte that is not text.
func lineOfBadText(data []byte) int {
	line := 1
	for len(data) > 0 {
		r, size := utf8.DecodeRune(data)
		if r == 0 || r == utf8.RuneError && size == 1 {
			break
		}
		if r == '\n' {
			line++
		}
		data = data[size:]
	}
	return line
}

// checkShape refuses aliases, too deep nesting, and keys that are not plain
// text or stand twice.
func checkShape(n *yaml.Node, field string, depth int) *Problem {
	if n.Kind == yaml.AliasNode || n.Anchor != "" {
		text, accepted := aliasUsed()
		return &Problem{Line: n.Line, Field: field, Text: text, Accepted: accepted}
	}
	if depth > maxDepth {
		text, accepted := tooDeep()
		return &Problem{Line: n.Line, Field: "the file", Text: text, Accepted: accepted}
	}
	if n.Style&yaml.TaggedStyle != 0 && !slices.Contains([]string{"!!str", "!!int", "!!float", "!!bool", "!!null", "!!map", "!!seq"}, n.Tag) {
		return &Problem{Line: n.Line, Field: cmp.Or(field, "the file"), Text: "is marked " + onOneLine(shortened(n.Tag)), Accepted: "the value alone, without a mark"}
	}
	switch n.Kind {
	case yaml.MappingNode:
		return checkKeys(n, field, depth)
	case yaml.SequenceNode:
		for i, item := range n.Content {
			if p := checkShape(item, fmt.Sprintf("%s[%d]", field, i+1), depth+1); p != nil {
				return p
			}
		}
	}
	return nil
}

func checkKeys(n *yaml.Node, field string, depth int) *Problem {
	first := map[string]int{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if key.Style&yaml.TaggedStyle != 0 {
			return &Problem{Line: key.Line, Field: cmp.Or(field, "the file"), Text: "has a key marked " + onOneLine(shortened(key.Tag)), Accepted: "a plain word as key"}
		}
		if key.Tag == "!!merge" || key.Value == "<<" {
			return &Problem{Line: key.Line, Field: cmp.Or(field, "the file"), Text: "uses the merge key `<<`, which takes values from elsewhere", Accepted: "each key with its value, written out"}
		}
		if key.Kind != yaml.ScalarNode || key.Anchor != "" {
			return &Problem{Line: key.Line, Field: cmp.Or(field, "the file"), Text: "has a key that is not a plain word", Accepted: "a plain word as key"}
		}
		if wrong := wrongLetter(key.Value, false); wrong != "" {
			return &Problem{Line: key.Line, Field: cmp.Or(field, "the file"), Text: "has a key that " + quotedWrong(wrong, key.Value), Accepted: "a plain word as key"}
		}
		if n := utf8.RuneCountInString(key.Value); n > maxNameRunes {
			return &Problem{Line: key.Line, Field: cmp.Or(field, "the file"), Text: fmt.Sprintf("has a key of %d letters", n), Accepted: fmt.Sprintf("a key of at most %d letters", maxNameRunes)}
		}
		inner := strings.TrimPrefix(field+"."+key.Value, ".")
		if line, twice := first[key.Value]; twice {
			return &Problem{Line: key.Line, Field: inner, Text: fmt.Sprintf("stands twice, first in line %d", line), Accepted: "each key once"}
		}
		first[key.Value] = key.Line
		if p := checkShape(value, inner, depth+1); p != nil {
			return p
		}
	}
	return nil
}
