package paper_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ellwand/geometry"
	"ellwand/paper"
	"ellwand/paper/readback"
)

type tester interface {
	Helper()
	Fatal(...any)
	Errorf(string, ...any)
}

// printed is what a document's pages show.
func printed(t tester, on paper.Size, make func(d *paper.Doc)) []readback.Page {
	t.Helper()
	pages, err := readback.Pages(written(t, on, make))
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

func written(t tester, on paper.Size, make func(d *paper.Doc)) []byte {
	t.Helper()
	d := paper.New(paper.Options{Paper: on, Title: "Ferryman's tunic", Date: "2026-03-01"})
	make(d)
	var buf bytes.Buffer
	if err := d.Write(&buf); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// standsClear reports writing that leaves the page or stands on other writing.
func standsClear(t tester, pages []readback.Page) {
	t.Helper()
	faults, err := readback.Crowded(pages)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range faults {
		t.Errorf("%s", f)
	}
}

func blocks() []paper.Block {
	return []paper.Block{
		paper.Heading("Ends by bout"), paper.Text("Wind each bout at one tension.\nThen tie its cross."),
		paper.Facts{{Label: "Length of each end", Value: "6.36 m", From: "cloth, samples and loom waste"}, {Label: "Ends", Value: "518"}},
		paper.Table{Head: []string{"bout", "ends", "yarn"}, Figures: []bool{true, true}, Rows: [][]string{{"1", "40", "grey-warp"}, {"2", "38", strings.Repeat("a yarn with a long name ", 6)}}},
		paper.Steps{"Spin a skein.", strings.Repeat("Weigh it and measure it. ", 8)},
		paper.Caution("Hot water scalds: gloves."), paper.Note("from memory"),
		paper.Entries{Title: "loom", Rows: []paper.Entry{{Label: "Known", Text: "two beams"}, {Label: "Why", Text: strings.Repeat("it stands where visitors can see it ", 5)}}},
		paper.Listed{Line: "Warp yarn: 3297 m", From: "518 ends × 636 cm ÷ 100"},
	}
}

func TestCardStaysOnOnePageWithAllItSays(t *testing.T) {
	for _, on := range []paper.Size{paper.A4, paper.Letter} {
		pages := printed(t, on, func(d *paper.Doc) {
			d.Flow([]paper.Sheet{{Title: "Warping", Under: "grey-warp", OnePage: true, Blocks: append(blocks(), blocks()...)}})
		})
		if len(pages) != 1 {
			t.Fatalf("%d pages", len(pages))
		}
		standsClear(t, pages)
		for _, want := range []string{"Warping", "6.36 m", "bout", "gloves", "page 1 of 1", "2026-03-01", "3297 m"} {
			if !strings.Contains(pages[0].Text(), want) {
				t.Errorf("%s: the page does not say %q", on, want)
			}
		}
	}
}

func TestLongListGoesOnWithItsHead(t *testing.T) {
	table := paper.Table{Head: []string{"", "piece"}, Figures: []bool{true}}
	for i := range 200 {
		table.Rows = append(table.Rows, []string{fmt.Sprint(i + 1), "tab"})
	}
	pages := printed(t, paper.A4, func(d *paper.Doc) {
		d.Flow([]paper.Sheet{{Title: "Chalk list", Blocks: []paper.Block{table}}})
	})
	if len(pages) < 3 {
		t.Fatalf("%d pages", len(pages))
	}
	standsClear(t, pages)
	rows := 0
	for _, p := range pages {
		if strings.Count(p.Text(), "piece") != 1 {
			t.Error("a page has no head over its rows")
		}
		rows += strings.Count(p.Text(), "tab")
	}
	if rows != 200 {
		t.Errorf("%d rows of 200", rows)
	}
}

func TestAnyWritingStandsClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringOfN(rapid.RuneFrom([]rune("abcé ×½—\tWm·")), 0, 90, -1)
		row := rapid.SliceOfN(word, 3, 3)
		s := paper.Sheet{Title: word.Draw(t, "title"), Under: word.Draw(t, "under"), OnePage: rapid.Bool().Draw(t, "one page"), Blocks: []paper.Block{
			paper.Facts{{Label: word.Draw(t, "label"), Value: word.Draw(t, "value"), From: word.Draw(t, "from")}},
			paper.Table{Head: row.Draw(t, "head"), Rows: rapid.SliceOfN(row, 0, 30).Draw(t, "rows"), Figures: []bool{rapid.Bool().Draw(t, "figures")}},
			paper.Entries{Title: word.Draw(t, "entry"), Rows: []paper.Entry{{Label: word.Draw(t, "name"), Text: word.Draw(t, "text")}}},
			paper.Caution(word.Draw(t, "caution")), paper.Steps{word.Draw(t, "step")},
		}}
		standsClear(t, printed(t, paper.Letter, func(d *paper.Doc) { d.Flow([]paper.Sheet{s}) }))
	})
}

// plate is a circle and a diagonal on a plate larger than a page.
func plate() paper.Plate {
	return paper.Plate{Title: "gore", Scale: "full size", WideCM: 30, HighCM: 70, Draw: func(c *paper.Canvas) {
		c.Stroke(paper.Rect(1, 1, 28, 68), true, paper.Line{Width: 0.05, Colour: paper.Ink})
	}}
}

func TestPlateIsFullSizeAndHasASquareToMeasure(t *testing.T) {
	for _, on := range []paper.Size{paper.A4, paper.Letter} {
		pages := printed(t, on, func(d *paper.Doc) { d.Plate(plate()) })
		if !hasBox(pages[0], paper.CheckCM, paper.CheckCM) {
			t.Errorf("%s: no square of 10 × 10 cm on the first page", on)
		}
		for _, p := range pages[1:] {
			if !hasBox(p, 28, 68) {
				t.Errorf("%s: a sheet shows the plate at another size", on)
			}
		}
		standsClear(t, pages[1:])
	}
}

// hasBox says whether the page draws a rectangle of that size, to 1/20 mm.
func hasBox(p readback.Page, wide, high float64) bool {
	for _, l := range p.Lines {
		b := l.Bounds()
		if len(l) >= 4 && math.Abs(b.Width()-wide) < 0.005 && math.Abs(b.Height()-high) < 0.005 {
			return true
		}
	}
	return false
}

// The crosses of neighbours stand at the same places of the plate, so that
// sheets laid cross on cross join without a step.
func TestSheetsJoinCrossOnCross(t *testing.T) {
	pages := printed(t, paper.A4, func(d *paper.Doc) { d.Plate(plate()) })[1:]
	seen := map[[2]int]int{}
	for _, p := range pages {
		origin, ok := cornerOf(p, 28, 68)
		if !ok {
			t.Fatal("the plate is not there")
		}
		for _, l := range p.Lines { // a cross is two lines of 0.6 cm; one of them lies level
			if len(l) == 2 && math.Abs(l.Bounds().Width()-0.6) < 0.005 && l.Bounds().Height() < 0.005 {
				mid := l.Bounds()
				seen[[2]int{int(math.Round((mid.MinX + 0.3 - origin.X) * 20)), int(math.Round((mid.MinY - origin.Y) * 20))}]++
			}
		}
	}
	if len(seen) < 6 {
		t.Fatalf("%d crosses on %d sheets", len(seen), len(pages))
	}
	for at, n := range seen {
		if n < 2 {
			t.Errorf("the cross at %.2f, %.2f cm of the plate is on one sheet only", float64(at[0])/20, float64(at[1])/20)
		}
	}
}

func cornerOf(p readback.Page, wide, high float64) (geometry.Point, bool) {
	for _, l := range p.Lines {
		b := l.Bounds()
		if len(l) >= 4 && math.Abs(b.Width()-wide) < 0.005 && math.Abs(b.Height()-high) < 0.005 {
			return geometry.Point{X: b.MinX, Y: b.MinY}, true
		}
	}
	return geometry.Point{}, false
}

// Every part of a plate is on some sheet: laid together the sheets leave no gap.
func TestSheetsLeaveNoGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := paper.Plate{Title: "x", Scale: "full size", WideCM: rapid.Float64Range(1, 90).Draw(t, "wide"), HighCM: rapid.Float64Range(1, 90).Draw(t, "high")}
		x, y := rapid.Float64Range(0, 1).Draw(t, "x")*p.WideCM, rapid.Float64Range(0, 1).Draw(t, "y")*p.HighCM
		covered := false
		p.Draw = func(*paper.Canvas) {}
		p.Wanted = func(part geometry.Rect) bool {
			covered = covered || part.MinX <= x && x <= part.MaxX && part.MinY <= y && y <= part.MaxY
			return true
		}
		paper.New(paper.Options{Paper: paper.Letter}).Sheets(p)
		if !covered {
			t.Errorf("(%.1f, %.1f) is on no sheet", x, y)
		}
	})
}

func TestSameContentSameBytes(t *testing.T) {
	one := func() []byte {
		return written(t, paper.A4, func(d *paper.Doc) {
			d.Flow([]paper.Sheet{{Title: "Warping", Blocks: blocks()}})
			d.Plate(plate())
		})
	}
	if !bytes.Equal(one(), one()) {
		t.Error("two prints of the same content differ")
	}
}

func TestPaperIsNamed(t *testing.T) {
	if s, err := paper.Named("LETTER"); s != paper.Letter || err != nil {
		t.Errorf("%v, %v", s, err)
	}
	if _, err := paper.Named("a3"); err == nil || !strings.Contains(err.Error(), "a4 or letter") {
		t.Errorf("%v", err)
	}
}
