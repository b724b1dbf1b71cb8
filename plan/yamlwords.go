package plan

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// yamlSlips puts the YAML reader's complaints into words for someone who writes
// a plan by hand: what is wrong, and what may stand there.
var yamlSlips = []struct{ said, text, accepted string }{
	{"mapping values are not allowed", "a colon where no key can be", "a text with a colon in quotation marks, and keys of one list under one another"},
	{"mapping keys are not allowed", "a question mark where no key can be", "a text that begins with one in quotation marks"},
	{"block sequence entries are not allowed", "a dash where no list can begin", "each entry of a list on a line of its own"},
	{"did not find expected ',' or ']'", "a list in [ ] that is not closed, or lacks a comma", "entries with commas between them, and a ] at the end"},
	{"did not find expected ',' or '}'", "keys in { } that are not closed, or lack a comma", "`{key: value, key: value}`"},
	{"could not find expected ':'", "a key without its colon", "`key: value`"},
	{"did not find expected key", "something that is no key, or not indented like the keys before it", "`key: value`, with keys of one list under one another"},
	{"did not find expected '-' indicator", "something that is no entry of the list it stands in", "entries that each begin with a dash, under one another"},
	{"did not find expected node content", "a comma or a closing bracket where a value should be", "a value between commas, and brackets that match"},
	{"found unexpected end of stream", "a quotation mark that is not closed", "a quotation mark at either end of a text"},
	{"found unexpected document indicator", "a quotation mark that is not closed before the line ---", "a quotation mark at either end of a text"},
	{"found unknown escape character", "a backslash before a letter that it means nothing with", `a backslash doubled (\\), or a text in single quotation marks`},
	{"found invalid Unicode character escape code", "a code after a backslash that stands for no letter", "the letter itself"},
	{"did not find expected hexdecimal number", "a code after a backslash that stands for no letter", "the letter itself"},
	{"control characters are not allowed", "a control character", "letters, spaces and line ends"},
	{"tab character", "a tab where spaces should be", "YAML indented with spaces, not tabs"},
	{"found incompatible YAML document", "a %YAML line", "a plan without one, beginning with `ellwand: 1`"},
	{"found unknown directive name", "a line that begins with %", "a plan without one; a text that begins with % in quotation marks"},
	{"undefined tag handle", "a mark that begins with !, which is not known here", "the value alone; a text that begins with ! in quotation marks"},
	{"did not find the expected '>'", "a mark that begins with !, which is not known here", "the value alone; a text that begins with ! in quotation marks"},
	{"did not find expected tag URI", "a mark that begins with !, which is not known here", "the value alone; a text that begins with ! in quotation marks"},
	{"did not find expected alphabetic or numeric character", "an & or * without a name", "a text that begins with & or * in quotation marks"},
	{"did not find expected <document start>", "something after the line ... that ended the plan", "one plan in a file"},
	{"did not find expected comment or line break", "something on the line of a | or > that begins a longer text", "the longer text on the lines below, indented"},
	{"indentation indicator", "a 0 after a | or > that begins a longer text", "the | or > alone, the text on the lines below, indented"},
}

// yamlProblem puts the reader's own complaint into our sentence.
func yamlProblem(err error, data []byte, name string) error {
	text, line := strings.TrimPrefix(err.Error(), "yaml: "), 0
	if m := regexp.MustCompile(`^line (\d+): `).FindStringSubmatch(text); m != nil {
		line, _ = strconv.Atoi(m[1])
		text = text[len(m[0]):]
	}
	p := &Problem{File: name, Field: "the file", Line: line}
	if strings.Contains(text, "exceeded max depth") {
		p.Line = max(line, lineOfDepth(data), 1)
		p.Text, p.Accepted = tooDeep()
		return p
	}
	if before, _, ok := bytes.Cut(data, []byte("\n...")); ok && strings.Contains(text, "<document start>") {
		p.Line = bytes.Count(before, []byte("\n")) + 2
	} else if at := lineThatBreaks(data); at > 0 {
		p.Line = at
	}
	p.Line = max(p.Line, 1)
	if strings.HasPrefix(text, "unknown anchor") {
		p.Text, p.Accepted = aliasUsed()
		return p
	}
	what, accepted := yamlSlip(text, lineAt(data, p.Line))
	p.Text, p.Accepted = "is not valid YAML: "+what, accepted
	return p
}

func yamlSlip(said, line string) (text, accepted string) {
	if strings.Contains(said, "cannot start any token") {
		value := strings.TrimLeft(line, " ")
		if strings.HasPrefix(value, "\t") || strings.Contains(line, ":\t") {
			return "a tab where spaces should be", "YAML indented with spaces, not tabs"
		}
		return "a value that begins with @, ` or %", "such a text in quotation marks"
	}
	for _, slip := range yamlSlips {
		if strings.Contains(said, slip.said) {
			return slip.text, slip.accepted
		}
	}
	said = strings.TrimSuffix(strings.ReplaceAll(said, "\n", " "), ".")
	return onOneLine(said), "YAML indented with spaces, not tabs"
}

func tooDeep() (text, accepted string) {
	return "is nested too deep", fmt.Sprintf("at most %d levels", maxDepth)
}

func aliasUsed() (text, accepted string) {
	return "uses an anchor or an alias", "the value itself, written out"
}

// lineAt is one line of a text, from 1.
func lineAt(data []byte, line int) string {
	for range line - 1 {
		_, rest, ok := bytes.Cut(data, []byte("\n"))
		if !ok {
			return ""
		}
		data = rest
	}
	text, _, _ := bytes.Cut(data, []byte("\n"))
	return string(text)
}

// lineOfDepth is about where a text that is nested beyond all reading goes too
// deep: the first line with more opening brackets or dashes than levels.
func lineOfDepth(data []byte) int {
	for i, line := range bytes.Split(data, []byte("\n")) {
		if bytes.Count(line, []byte("["))+bytes.Count(line, []byte("{"))+bytes.Count(line, []byte("- ")) > maxDepth {
			return i + 1
		}
	}
	return 0
}

// lineThatBreaks is the line from which on the text is no YAML any more, 0 when
// it is too long to look for. The reader itself names the line where the whole
// block began, which may be the top of the file.
func lineThatBreaks(data []byte) int {
	const mostBytes, mostLines = 32 << 10, 600
	lines := bytes.SplitAfter(data, []byte("\n"))
	if len(data) > mostBytes || len(lines) > mostLines {
		return 0
	}
	end := len(data)
	for i := len(lines) - 1; i >= 0; i-- {
		end -= len(lines[i])
		var n yaml.Node
		if yaml.Unmarshal(data[:end], &n) == nil {
			return i + 1
		}
	}
	return 0
}

// notText says what a file holds that is no text in UTF-8, "" for nothing.
func notText(data []byte) string {
	for _, mark := range []string{"\xff\xfe", "\xfe\xff"} {
		if bytes.HasPrefix(data, []byte(mark)) {
			return "is text in UTF-16 or UTF-32"
		}
	}
	if nulls := bytes.Count(data, []byte{0}); nulls > 0 {
		// Every other byte is nought in Latin letters of two bytes each.
		if nulls > len(data)/3 {
			return "is text in UTF-16 or UTF-32, or no text"
		}
		return "is not plain text: it holds a byte that is nought"
	}
	if !utf8.Valid(data) {
		return "is not plain text in UTF-8"
	}
	return ""
}
