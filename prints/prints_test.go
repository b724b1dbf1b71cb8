package prints_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"ellwand/assets"
	"ellwand/paper"
	"ellwand/paper/readback"
	"ellwand/plan"
	"ellwand/prints"
)

// worked is the starter plan with pairs of texts replaced, worked out.
func worked(t *testing.T, pairs ...string) *plan.Result {
	t.Helper()
	text := string(assets.StarterPlan())
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("the starter plan has no %q", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	p, err := plan.Parse([]byte(text), "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r, err := plan.Work(context.Background(), p, plan.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func pdf(t *testing.T, k prints.Kind, r *plan.Result, o prints.Options) []byte {
	t.Helper()
	o.Date = "2026-03-01"
	var buf bytes.Buffer
	if err := prints.Write(&buf, k, ".pdf", r, o); err != nil {
		t.Fatalf("%s: %v", k, err)
	}
	return buf.Bytes()
}

func pagesOf(t *testing.T, k prints.Kind, r *plan.Result, o prints.Options) []readback.Page {
	t.Helper()
	pages, err := readback.Pages(pdf(t, k, r, o))
	if err != nil || len(pages) == 0 {
		t.Fatalf("%s: %d pages, %v", k, len(pages), err)
	}
	return pages
}

func says(t *testing.T, p readback.Page, want ...string) {
	t.Helper()
	text := strings.ReplaceAll(p.Text(), "\n", " ")
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("%q is not on the page:\n%s", w, p.Text())
		}
	}
}

// clear reports writing that runs off its page or stands on other writing.
func clear(t *testing.T, name string, pages []readback.Page) {
	t.Helper()
	faults, err := readback.Crowded(pages)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range faults {
		t.Errorf("%s, %s", name, f)
	}
}

func TestOneCardForEachStageFromThePlansOwnFigures(t *testing.T) {
	r := worked(t)
	c := r.Reckoning
	pages := pagesOf(t, prints.Cards, r, prints.Options{})
	if len(pages) != 9 {
		t.Fatalf("%d pages; fleece, two yarns, warping, sleying, weaving, finishing, cutting and sewing are 9", len(pages))
	}
	says(t, pages[0], "Fibre", "Raw fleece can carry", "Scouring in hot water", "Wool combs", "Heated combs, pots and fires")
	says(t, pages[1], "Spinning: grey-warp", "90.91 m", "per cm", "25°", "turns per cm", "1 : 1")
	says(t, pages[3], "Warping", fmt.Sprintf("%d in ", c.Ends), fmt.Sprintf("%.2f m", c.WarpLengthCM/100))
	says(t, pages[4], "Sleying", "40 dents per 10 cm", "1-2-2", fmt.Sprint(c.Dents))
	says(t, pages[5], "Weaving", "5.86 per cm", "50 cm", "100 cm", "a cut across", "end of the cloth")
	says(t, pages[6], "Wet finishing", fmt.Sprintf("%.1f cm × %.0f cm", c.FinishedLengthCM, c.FinishedWidthCM), "45 cm along")
	says(t, pages[7], "Cutting", "Shears and knives", "neck facing")
	says(t, pages[8], "Sewing", "side gore", "hem")
	clear(t, "cards", pages)
}

// 13 bouts, and 10 + 497 + 11 ends in the dents, are the 518 of the reckoning.
func TestBoutsAndDentsHoldAllEnds(t *testing.T) {
	r := worked(t)
	pages := pagesOf(t, prints.Cards, r, prints.Options{Only: "sleying"})
	if len(pages) != 1 {
		t.Fatalf("%d pages", len(pages))
	}
	says(t, pages[0], "2-3-3-2 (selvedge)", "2-2-1, over and over", "497")
	warping := pagesOf(t, prints.Cards, r, prints.Options{Only: "warping"})[0]
	says(t, warping, "13", "38", "481", "518")
}

// The threads side by side on the card are as thick as the yarn.
func TestWrapsOnTheCardAreTrueToScale(t *testing.T) {
	r := worked(t)
	p := pagesOf(t, prints.Cards, r, prints.Options{Only: "spinning"})[0]
	want := 10 / 23.79 / 10 // cm: 23.79 wraps in a cm
	n := 0
	for _, l := range p.Lines {
		if b := l.Bounds(); len(l) == 4 && math.Abs(b.Width()-want) < 0.003 && math.Abs(b.Height()-1.2) < 0.003 {
			n++
		}
	}
	if n < 70 || n > 73 {
		t.Errorf("%d threads of %.4f cm side by side over 3 cm; want 71 or 72", n, want)
	}
}

func TestChoicesCardShowsAllAndAddsNothingUp(t *testing.T) {
	r := worked(t, "    kind_of_evidence: common practice\n    evidence: the two-beam loom in many lands\n", "    kind_of_evidence: a picture\n    evidence: carved on a font\n    reference: a county's survey of fonts\n    page: \"112\"\n")
	p := pagesOf(t, prints.Choices, r, prints.Options{})[0]
	says(t, p, "Ferryman's tunic", "loom", "a picture: carved on a font", "a county's survey of fonts, page 112", "an upright two-beam loom")
	for _, never := range []string{"total", "score", "rank", "%"} {
		if strings.Contains(strings.ToLower(p.Text()), never) {
			t.Errorf("the card speaks of %q", never)
		}
	}
}

func TestChalkListHasEveryPieceInOrderAndItsCorners(t *testing.T) {
	r := worked(t)
	p := pagesOf(t, prints.Chalk, r, prints.Options{})[0]
	says(t, p, "Chalk list", "underarm gusset 2 of 2", "a rectangle", "corners to chalk")
	var table bytes.Buffer
	if err := prints.Write(&table, prints.Chalk, ".csv", r, prints.Options{}); err != nil || strings.Count(table.String(), "\r\n") != 11 {
		t.Errorf("%v:\n%s", err, table.String())
	}
}

// Where the left edge of the real cloth was measured, the list says which line is
// chalked from.
func TestChalkListSaysWhereTheLeftEdgeLies(t *testing.T) {
	says(t, pagesOf(t, prints.Chalk, worked(t), prints.Options{})[0], "across from the left selvedge.")
	r := worked(t, "\nloom:", "\nreal_cloth:\n    widths:\n      - {at_cm: 0, width_cm: 64}\n      - {at_cm: 310, width_cm: 63, left_cm: 0.5}\n\nloom:")
	says(t, pagesOf(t, prints.Chalk, r, prints.Options{})[0], "across from a straight line at the left, which the edge of the cloth lies in from by 0 at 0, 0.5 at 310 along the cloth.")
}

func TestReckoningOnPaperSaysWhatTheCommandSays(t *testing.T) {
	r := worked(t)
	said := ""
	for _, p := range pagesOf(t, prints.Reckoning, r, prints.Options{}) {
		said += p.Text() + " "
	}
	said = strings.Join(strings.Fields(said), " ")
	for _, line := range strings.Split(r.Text("cm"), "\n") {
		line = strings.Join(strings.Fields(line), " ")
		if strings.Trim(line, "=") != "" && len(line) < 90 && !strings.Contains(said, line) {
			t.Errorf("%q is not on the pages", line)
		}
	}
}

// A gore's cut outline is on the paper at its own size.
func TestFullSizePiecesAreFullSize(t *testing.T) {
	r := worked(t)
	for _, on := range []paper.Size{paper.A4, paper.Letter} {
		pages := pagesOf(t, prints.FullSize, r, prints.Options{Paper: on, Only: "side gore"})
		for _, piece := range r.Pieces {
			if piece.Piece.Name != "side gore" {
				continue
			}
			found := 0
			for _, p := range pages[1:] {
				for _, l := range p.Lines {
					b := l.Bounds()
					if math.Abs(b.Width()-piece.CutWidthCM) < 0.01 && math.Abs(b.Height()-piece.CutLengthCM) < 0.01 {
						found++
						break
					}
				}
			}
			if found == 0 || found != len(pages)-1 {
				t.Errorf("%s: the gore, %.1f × %.1f cm, is full size on %d of %d sheets", on, piece.CutWidthCM, piece.CutLengthCM, found, len(pages)-1)
			}
		}
	}
	if err := prints.Write(&bytes.Buffer{}, prints.FullSize, ".pdf", r, prints.Options{Only: "belt"}); err == nil || !strings.Contains(err.Error(), "side gore") {
		t.Errorf("an unknown piece: %v", err)
	}
}

func TestDiagramAtAScaleAskedForIsAtThatScale(t *testing.T) {
	r := worked(t)
	pages := pagesOf(t, prints.Diagram, r, prints.Options{Ratio: 5})
	says(t, pages[0], "Scale 1 : 5")
	for n, p := range pages[1:] {
		found := false
		for _, l := range p.Lines {
			b := l.Bounds()
			found = found || math.Abs(b.Width()-r.Lay.LengthCM/5) < 0.02 && math.Abs(b.Height()-r.Lay.WidthCM/5) < 0.02
		}
		if !found {
			t.Errorf("sheet %d does not show the cloth at 1 : 5", n+1)
		}
	}
}

// Long names, inches and many pieces: nothing leaves the page or is written over.
func TestAnyPlanPrintsClear(t *testing.T) {
	many := "\npieces:\n"
	for i := range 24 {
		many += fmt.Sprintf("  - {name: \"a patch for the pocket of the left sleeve, number %d\", shape: right_gore, length_cm: 12, base_cm: 6}\n", i+1)
	}
	long := strings.Repeat("long-grey-warp-of-the-old-wether-", 3)
	for name, pairs := range map[string][]string{
		"plain":      nil,
		"inches":     {"show_units: cm", "show_units: inch"},
		"long names": {"warp: grey-warp", "warp: " + long, "name: grey-warp", "name: " + long, "title: Ferryman's tunic", "title: " + strings.Repeat("A ferryman's tunic for the summer days ", 4)},
		"many":       {"\nallowances:", many + "\nallowances:"},
		"wide":       {"draft: tunic", "draft: half_circle_cloak", "  ease:\n    body_ease_cm: 8\n", "", "  options:\n    side_gores: 2\n    centre_gores: 2\n", ""},
	} {
		r := worked(t, pairs...)
		for _, k := range prints.Kinds() {
			for _, on := range []paper.Size{paper.A4, paper.Letter} {
				if k.Kind == prints.Diagram || k.Kind == prints.Flat || on == paper.Letter && name != "many" && name != "inches" {
					continue // the drawings have tests of their own
				}
				pages := pagesOf(t, k.Kind, r, prints.Options{Paper: on})
				if k.Kind == prints.FullSize {
					pages = pages[:1] // on the sheets a name runs on from one to the next
				}
				clear(t, fmt.Sprintf("%s, %s on %s", name, k.Label, on), pages)
			}
		}
	}
}

func TestPrintsAreTheSameEachTime(t *testing.T) {
	r := worked(t)
	for _, k := range prints.Kinds() {
		if !bytes.Equal(pdf(t, k.Kind, r, prints.Options{}), pdf(t, k.Kind, r, prints.Options{})) {
			t.Errorf("two prints of the %s differ", k.Label)
		}
	}
}

// Another program finds the same writing.
func TestPagesAreReadByAnotherProgram(t *testing.T) {
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("no pdftotext on this machine")
	}
	file := filepath.Join(t.TempDir(), "cards.pdf")
	if err := plan.WriteFile(file, func(w io.Writer) error {
		_, err := w.Write(pdf(t, prints.Cards, worked(t), prints.Options{}))
		return err
	}); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, "-layout", file, "-").Output()
	if err != nil || strings.Count(string(out), "\f") != 9 || !strings.Contains(string(out), "90.91 m") {
		t.Errorf("%v, %d pages:\n%s", err, strings.Count(string(out), "\f"), out)
	}
}

func TestUnknownStageIsNamedWithThoseThereAre(t *testing.T) {
	err := prints.Write(&bytes.Buffer{}, prints.Cards, ".pdf", worked(t), prints.Options{Only: "knitting"})
	if err == nil || !strings.Contains(err.Error(), "weaving") {
		t.Errorf("%v", err)
	}
}

// A dyed weft has a card that weighs it out, with the cautions of its mordant.
func TestDyeingHasItsCardWithItsCautions(t *testing.T) {
	r := worked(t, "weft: grey-weft", "weft: red-weft", "\nfleeces:", "\ndyes:\n  - {name: red-weft, stage: yarn, of: grey-weft, mordant: alum, mordant_percent: 12, dyestuff: madder, dyestuff_percent: 60}\nfleeces:")
	pages := pagesOf(t, prints.Cards, r, prints.Options{Only: "dyeing"})
	if len(pages) != 1 {
		t.Fatalf("%d pages", len(pages))
	}
	d := r.Dyes[0]
	says(t, pages[0], "Dyeing: red-weft", fmt.Sprintf("%.0f g of fibre", d.FibreG), "g alum", "12 % of the weight", "safety data sheet", "Dye pots scald")
	says(t, pagesOf(t, prints.Cards, r, prints.Options{Only: "weaving"})[0], "Weft of red-weft")
}

// On a warp-weighted loom without a reed the ends are spaced and the weights hung.
func TestWeightsAreHungFromACard(t *testing.T) {
	r := worked(t, "name: two-beam upright", "name: leaning loom\n  kind: warp-weighted\n  weights: 60\n  weight_g: 300\n  weight_thickness_cm: 2.5\n  tension_g_per_thread: 20", "reeds_dents_per_10cm: [30, 40, 50, 60]", "reeds_dents_per_10cm: []", "weaving: frame", "weaving: warp-weighted")
	text := ""
	pages := pagesOf(t, prints.Cards, r, prints.Options{})
	for _, p := range pages {
		text += p.Text() + "\n"
	}
	for _, want := range []string{"Spacing the ends", "Hanging the weights", "fasten the beam"} {
		if !strings.Contains(strings.ReplaceAll(text, "\n", " "), want) {
			t.Errorf("no card says %q", want)
		}
	}
	clear(t, "warp-weighted", pages)
}

// Nobody works by a card of a plan that cannot be made without reading so first.
func TestPlanThatCannotBeMadeSaysSoOnWhatIsPrinted(t *testing.T) {
	r := worked(t, "raw_g: 3600", "raw_g: 500")
	for _, k := range []prints.Kind{prints.Cards, prints.Chalk} {
		says(t, pagesOf(t, k, r, prints.Options{})[0], "As it stands this cannot be made", "short by")
	}
}

// Two lengths of cloth, of which much is left over: what is printed says how much
// the lay takes, not how far the two reach one behind the other, and the ruler's
// figures at the end of one stand apart from the nought of the next.
func TestPrintsOnSeveralLengthsSayTheClothThatIsTaken(t *testing.T) {
	r := worked(t, "\nloom:\n", "\nreal_cloth:\n  lengths:\n    - {name: first, length_cm: 310}\n    - {name: second, length_cm: 300}\n\nloom:\n")
	taken := fmt.Sprintf("%.1f cm", r.ClothCM())
	if r.ClothCM() > r.Lay.LengthCM-10 {
		t.Fatalf("of %g cm the lay takes %g: nothing is left over", r.Lay.LengthCM, r.ClothCM())
	}
	says(t, pagesOf(t, prints.Chalk, r, prints.Options{})[0], "cloth "+taken)
	says(t, pagesOf(t, prints.Cards, r, prints.Options{Only: "cutting"})[0], taken+" ×")
	says(t, pagesOf(t, prints.Diagram, r, prints.Options{Ratio: 5})[0], strings.Replace(taken, ".0 cm", " cm", 1)+" long")
	face, err := readback.Face()
	if err != nil {
		t.Fatal(err)
	}
	figures := 0
	page := pagesOf(t, prints.Diagram, r, prints.Options{})[0]
	for _, a := range page.Said {
		for _, b := range page.Said {
			numbers := strings.Trim(a.Text+b.Text, "0123456789") == ""
			if !numbers || math.Abs(a.At.Y-b.At.Y) > 0.01 || b.At.X <= a.At.X {
				continue
			}
			figures++
			if gap := b.At.X - a.At.X - a.WidthCM(face); gap < 0.5*a.SizeCM {
				t.Errorf("%s and %s are %.2f cm apart, in letters of %.2f cm", a.Text, b.Text, gap, a.SizeCM)
			}
		}
	}
	if figures == 0 {
		t.Error("there are no figures on the ruler")
	}
}
