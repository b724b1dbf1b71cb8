package plan

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Problem is one thing wrong with a plan, as one sentence: where it is, what
// stands there, and what is accepted. File is empty and Line 0 when the plan
// did not come from a file.
type Problem struct {
	File     string
	Line     int
	Field    string // as written in the file: "cloth.take_up"
	Text     string // what stands there: `is "lots"`
	Accepted string // what may stand there; may be empty

	newer bool  // it is the version of a program after this one
	cause error // what Text tells of, where that is an error of its own; else nil
}

func (p *Problem) Error() string {
	var b strings.Builder
	switch {
	case p.File != "" && p.Line > 0:
		fmt.Fprintf(&b, "%s:%d: ", p.File, p.Line)
	case p.File != "":
		fmt.Fprintf(&b, "%s: ", p.File)
	case p.Line > 0:
		fmt.Fprintf(&b, "line %d: ", p.Line)
	}
	if p.Field != "" {
		b.WriteString(onOneLine(p.Field) + " ")
	}
	b.WriteString(p.Text)
	if p.Accepted != "" {
		b.WriteString("; accepted is " + p.Accepted)
	}
	if strings.HasSuffix(b.String(), "?") {
		return b.String()
	}
	return b.String() + "."
}

// onOneLine is a name from a file, safe to print: a control character in it
// would break the sentence or colour the terminal.
func onOneLine(name string) string {
	if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return strconv.Quote(name)
	}
	return name
}

// Problems is everything wrong with a plan, in the order of the file.
type Problems []*Problem

func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.As find a single *Problem.
func (ps Problems) Unwrap() []error {
	all := make([]error, len(ps))
	for i, p := range ps {
		all[i] = p
	}
	return all
}

// nearest is the known name fewest letters away from the one given, or "" when
// none is near enough to be a slip of the pen (a third of its letters, or 2, and
// never all of them). A known name that only goes on (its unit was left off)
// is the nearest of all.
func nearest(name string, known []string) string {
	if name == "" {
		return ""
	}
	for _, k := range known {
		if strings.HasPrefix(k, strings.ToLower(name)+"_") {
			return k
		}
	}
	letters := len([]rune(name))
	best, least := "", min(max(2, letters/3)+1, letters)
	for _, k := range known {
		d := lettersApart(name, k)
		if d < least || d == least && best != "" && !lettersOf(name, best) && lettersOf(name, k) {
			best, least = k, d
		}
	}
	return best
}

// lettersOf says whether a name's letters all stand in a word in that order: a
// letter left out is likelier than a wrong one.
func lettersOf(name, word string) bool {
	left := []rune(strings.ToLower(name))
	for _, r := range word {
		if len(left) > 0 && left[0] == r {
			left = left[1:]
		}
	}
	return len(left) == 0
}

// lettersApart is the Levenshtein distance in letters.
func lettersApart(a, b string) int {
	from, to := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, r := range from {
		diagonal := row[0]
		row[0] = i + 1
		for j, s := range to {
			cost := diagonal
			if r != s {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(to)]
}
