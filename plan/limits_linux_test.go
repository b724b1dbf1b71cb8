package plan

import (
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"ellwand/assets"
)

// withPieces is the starter plan with pieces of its own in place of the draft.
func withPieces(pieces string) string {
	text := string(assets.StarterPlan())
	from, to := strings.Index(text, "\ngarment:"), strings.Index(text, "\nallowances:")
	return text[:from] + "\npieces:\n" + pieces + text[to:]
}

// ring is a regular polygon's corners, as a plan has them.
func ring(corners int, radiusCM float64) string {
	var points []string
	for k := range corners {
		at := 2 * math.Pi * float64(k) / float64(corners)
		points = append(points, fmt.Sprintf("[%.3f,%.3f]", 20+radiusCM*math.Cos(at), 20+radiusCM*math.Sin(at)))
	}
	return "[" + strings.Join(points, ",") + "]"
}

// rings is so many pieces, each of so many corners and copies.
func rings(pieces, corners, copies int) string {
	var b strings.Builder
	for k := range pieces {
		fmt.Fprintf(&b, "  - {name: p%d, shape: polygon, copies: %d, points: %s}\n", k, copies, ring(corners, 15))
	}
	return b.String()
}

// filled repeats a text up to the size that a plan may have.
func filled(before, repeated string) string {
	return before + strings.Repeat(repeated, (maxFileBytes-len(before))/len(repeated))
}

func TestWhatIsTooMuchIsSaidInASentence(t *testing.T) {
	laughs := "a: &a [lol, lol, lol, lol, lol, lol, lol, lol, lol]\n"
	for c := 'b'; c <= 'i'; c++ {
		laughs += fmt.Sprintf("%c: &%c [%s]\n", c, c, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*%c, ", c-1), 9), ", "))
	}
	rectangles := func(n int) string {
		var b strings.Builder
		for k := range n {
			fmt.Fprintf(&b, "  - {name: p%d, shape: rectangle, width_cm: 5, length_cm: 7}\n", k)
		}
		return b.String()
	}
	starter := string(assets.StarterPlan())
	named := func(name string) string {
		return strings.Replace(starter, "name: ferryman", "name: \""+name+"\"", 1)
	}
	for name, c := range map[string]struct{ text, says string }{
		"a file too large":             {starter + strings.Repeat("# more\n", maxFileBytes/6), "larger than 1 MiB; accepted is a plan of at most 1 MiB"},
		"billion laughs":               {"ellwand: 1\n" + laughs, "uses an anchor or an alias"},
		"brackets without end":         {filled("", "["), "is nested too deep; accepted is at most 20 levels"},
		"braces without end":           {filled("", "{"), "is nested too deep; accepted is at most 20 levels"},
		"dashes without end":           {filled("", "- "), "is nested too deep; accepted is at most 20 levels"},
		"nested too deep":              {"ellwand: 1\na: " + strings.Repeat("[", maxDepth+5) + strings.Repeat("]", maxDepth+5), "nested too deep; accepted is at most 20 levels"},
		"too many values":              {"a: [" + strings.Repeat("1,", 250_000) + "]", "holds more than 200000 values"},
		"comments and nothing":         {filled("", "#\n"), "the file is empty"},
		"documents without end":        {filled("", "---\n"), "more than one document"},
		"too many pieces":              {withPieces(rectangles(6000)), "pieces holds 6000 entries; accepted is a list of at most 5000 entries"},
		"a million pieces":             {withPieces(strings.Replace(rectangles(1), "width_cm", "copies: 1000000, width_cm", 1)), "copies is 1000000; accepted is a whole number from 0 to 200"},
		"copies of many":               {withPieces(strings.ReplaceAll(rectangles(30), "width_cm", "copies: 200, width_cm")), "makes 5200 pieces to lay with those before it; accepted is at most 5000 in all"},
		"negative copies":              {withPieces(strings.Replace(rectangles(1), "width_cm", "copies: -1, width_cm", 1)), "copies is -1"},
		"too many corners":             {withPieces("  - {name: p, shape: polygon, points: " + ring(2001, 500) + "}\n"), "points holds 2001 corners; accepted is a list of at most 2000 corners"},
		"too many corners written out": {withPieces(rings(14, 1900, 1)), "points brings the corners written out in all pieces to 26600; accepted is at most 25000 in one plan"},
		"too many corners in all":      {withPieces(rings(20, 600, 10)), "at most 100000 in all, copies counted"},
		"a corner at 1e308":            {withPieces("  - {name: p, shape: polygon, points: [[0, 0], [1e308, 0], [0, 1]]}\n"), "accepted is a list of at most 2000 corners"},
		"a corner that is NaN":         {withPieces("  - {name: p, shape: polygon, points: [[0, 0], [.nan, 0], [0, 1]]}\n"), "accepted is a list of at most 2000 corners"},
		"a name of 10 kB":              {named(strings.Repeat("n", 10_000)), "body.name has 10000 letters; accepted is text of at most 200 letters"},
		"a key of 10 kB":               {starter + "? " + strings.Repeat("k", 10_000) + "\n: 1\n", "has a key of 10000 letters; accepted is a key of at most 200 letters"},
		"a control character":          {named(`ferry\x1b[31mman`), "holds a control character (“ferry�[31mman”)"},
		"a C1 control character":       {named(`ferry\x9bman`), "holds a control character"},
		"a line separator":             {named(`ferry\u2028man`), "holds a control character"},
		"writing turned around":        {named("ferry\u202eman"), "turns the direction of writing around"},
		"isolated writing":             {named("ferry\u2067man"), "turns the direction of writing around"},
		"Hebrew letters":               {named("\u05d0\u05d1"), "from right to left, which cannot be shown right here"},
		"text in UTF-16":               {"\xff\xfee\x00l\x00", "is text in UTF-16 or UTF-32; accepted is YAML in UTF-8"},
		"UTF-16 without a mark":        {"e\x00l\x00l\x00", "is text in UTF-16 or UTF-32, or no text"},
		"a byte that is nought":        {starter + "# \x00\n", "is not plain text: it holds a byte that is nought"},
		"Latin letters of one byte":    {named("\xe9"), "is not plain text in UTF-8"},
		"a version of 1e308":           {strings.Replace(starter, "ellwand: 1\n", "ellwand: 1e308\n", 1), "ellwand is 1e308; accepted is version 1."},
		"a program as a mark":          {strings.Replace(starter, "name: ferryman", "name: !!python/object:os.system ls", 1), "body.name is marked !!python/object:os.system; accepted is the value alone"},
		"aliases without end":          {"a: [&x 1, " + strings.Repeat("*x, ", 100_000) + "1]", "uses an anchor or an alias"},
		"Arabic letters":               {named("\u0627\u0628"), "from right to left"},
		"a control character as a key": {starter + "\"\\e[2J\": 1\n", "has a key that holds a control character"},
	} {
		_, err := Parse([]byte(c.text), "ferry.yaml")
		if err == nil {
			t.Errorf("%s: accepted", name)
			continue
		}
		first, _, _ := strings.Cut(err.Error(), "\n")
		if !strings.Contains(first, c.says) || !strings.HasPrefix(first, "ferry.yaml:") || len(first) > 2000 {
			t.Errorf("%s: it says %.300q", name, first)
		}
	}
}

func TestNoMoreProblemsAreNamedThanCanBeRead(t *testing.T) {
	var b strings.Builder
	b.WriteString("ellwand: 1\n")
	for k := range 30_000 {
		fmt.Fprintf(&b, "k%d: 1\n", k)
	}
	_, err := Parse([]byte(b.String()), "ferry.yaml")
	if ps, ok := errors.AsType[Problems](err); !ok || len(ps) != maxProblems {
		t.Errorf("%d problems are named", len(ps))
	}
}

func TestNamesThatLookLikeSomethingElseAreNames(t *testing.T) {
	for _, name := range []string{"=1+1", "@SUM(1)", "<b>belt</b>", "../../etc/passwd", "{{.}}", "%s%n", "$(reboot)", "‘belt’ – Gürtel № 1", "пояс"} {
		text := withPieces("  - {name: '" + name + "', shape: rectangle, width_cm: 8, length_cm: 150}\n")
		p, err := Parse([]byte(text), "ferry.yaml")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		data, err := p.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if again, err := Parse(data, "again.yaml"); err != nil || again.Pieces[0].Name != name {
			t.Errorf("%s comes back as %v, %v", name, again, err)
		}
	}
}

// worst are the accepted files that cost most: as many corners as there may be,
// as many pieces, and as much text.
func worst() map[string]string {
	var texts, small strings.Builder
	for k := range 4900 {
		fmt.Fprintf(&texts, "  - {component: c%d, known: %s, why: %s}\n", k, strings.Repeat("x", 80), strings.Repeat("y", 70))
	}
	for k := range 5000 {
		fmt.Fprintf(&small, "  - {name: p%d, shape: rectangle, width_cm: 5, length_cm: 7}\n", k)
	}
	text := string(assets.StarterPlan())
	return map[string]string{
		"corners":          withPieces(rings(13, 1900, 4)),
		"pieces":           withPieces(small.String()),
		"corners and text": strings.Replace(withPieces(rings(13, 1900, 4)), "\nchoices:", "\nchoices:\n"+firstLines(texts.String(), 2450), 1),
		"text":             text[:strings.Index(text, "\nchoices:")] + "\nchoices:\n" + texts.String(),
	}
}

func firstLines(text string, n int) string {
	return strings.Join(strings.SplitAfter(text, "\n")[:n], "")
}

// TestOpeningTheWorst is the process that TestMemoryOfTheWorstFiles measures.
func TestOpeningTheWorst(t *testing.T) {
	path := os.Getenv("ELLWAND_TEST_OPENS")
	if path == "" {
		t.Skip("run by TestMemoryOfTheWorstFiles")
	}
	p, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Marshal(); err != nil {
		t.Fatal(err)
	}
}

func TestMemoryOfTheWorstFiles(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector takes more memory than the plan")
	}
	const most = 400 << 10 // kB; DEVELOPERS.md states what was measured
	for name, text := range worst() {
		path := filepath.Join(t.TempDir(), "worst.yaml")
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		c := exec.Command(os.Args[0], "-test.run=^TestOpeningTheWorst$")
		c.Env = append(os.Environ(), "ELLWAND_TEST_OPENS="+path)
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%.500s", name, err, out)
		}
		peak := c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss
		t.Logf("%s, %d kB: at most %d MB when opened and written again", name, len(text)>>10, peak>>10)
		if peak > most {
			t.Errorf("%s: opening takes %d kB of memory, more than %d", name, peak, most)
		}
	}
}
