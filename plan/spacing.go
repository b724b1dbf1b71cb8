package plan

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// spacing is which keys at the top of a plan file stand after an empty line,
// counting the comment above a key with it. YAML's reader forgets empty lines;
// a file kept by hand would lose its paragraphs on the first saving.
type spacing map[string]bool

// spacingOf looks at the lines above each key of the root.
func spacingOf(root *yaml.Node, data []byte) spacing {
	lines := strings.Split(string(data), "\n")
	s := spacing{}
	for i := 0; i < len(root.Content); i += 2 {
		key := root.Content[i]
		if above := paragraphTop(lines, key.Line-1) - 1; above >= 0 && above < len(lines) && strings.TrimSpace(lines[above]) == "" {
			s[key.Value] = true
		}
	}
	return s
}

// paragraphTop is the index of the first of the comment lines right above line i.
func paragraphTop(lines []string, i int) int {
	for i > 0 && i <= len(lines) && strings.HasPrefix(lines[i-1], "#") {
		i--
	}
	return i
}

// restore puts the empty lines back into the text of a plan file. Keys that
// are new, those not in old, stand apart when any of the others does.
func (s spacing) restore(text string, old *yaml.Node) string {
	if len(s) == 0 || old == nil {
		return text
	}
	lines := strings.Split(text, "\n")
	before := map[int]bool{}
	if n := strings.Count(old.HeadComment, "\n") + 1; old.HeadComment != "" && n < len(lines) && lines[n] != "" {
		before[n] = true // YAML joins the note at the top to what follows
	}
	for i, line := range lines {
		name, _, isKey := strings.Cut(line, ":")
		if !isKey || i == 0 || strings.ContainsAny(line[:1], " #-\"'") {
			continue
		}
		if top := paragraphTop(lines, i); (s[name] || child(old, name) == nil) && top > 0 && lines[top-1] != "" {
			before[top] = true
		}
	}
	var out []string
	for i, line := range lines {
		if before[i] {
			out = append(out, "")
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}
