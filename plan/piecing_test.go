package plan

import (
	"context"
	"math"
	"strings"
	"testing"

	"ellwand/garment"
)

func addSpec(p *Plan, s PieceSpec) { p.Pieces = append(p.Pieces, s) }

func TestGoresCutInTwoCountTheirSeam(t *testing.T) {
	whole := laid(t, Starter())
	p := Starter()
	addSpec(p, PieceSpec{Name: "side gore", Piecing: "yes"})
	r := laid(t, p)
	if len(r.Piecing) != 1 || !r.Piecing[0].Pieced || r.Piecing[0].Times != 2 {
		t.Fatalf("piecing is %+v", r.Piecing)
	}
	gore, _ := whole.Garment.Piece("side gore")
	long := gore.Outline.Bounds().Width()
	if d := r.Piecing[0]; math.Abs(d.SeamCM-long) > 1e-6 || d.HoursH <= 0 {
		t.Errorf("the seam is %g cm and %g h; the gore is %g cm long", d.SeamCM, d.HoursH, long)
	}
	if more := r.Hours.Total.Likely - whole.Hours.Total.Likely; r.ClothCM() >= whole.ClothCM() && more <= 0 {
		t.Errorf("%g h more for two seams more", more)
	}
	if faults := garment.Mismatch(r.Garment); len(faults) > 0 {
		t.Error(faults)
	}
	r.TryPiecing(context.Background(), Options{Seed: 1})
	if d := r.Piecing[0]; !d.Known || math.Abs(d.SavedCM-(whole.ClothCM()-r.ClothCM())) > 1e-6 {
		t.Errorf("it is said to save %g cm; whole it takes %g, in two %g", d.SavedCM, whole.ClothCM(), r.ClothCM())
	}
	if text := r.Text("cm"); !strings.Contains(text, "side gore is cut in two along it") || !strings.Contains(text, "side gore, pieced") {
		t.Error("the reckoning does not say the piecing and its seam")
	}
}

// A panel 100 × 80 cm on cloth 60 cm wide: two of 40 cm and two allowances each.
func TestPieceWiderThanTheClothIsPiecedOnlyWhereItMay(t *testing.T) {
	p := starterWith(t, "pieces:\n  - {name: panel, shape: rectangle, length_cm: 100, width_cm: 80}\n")
	if _, err := Work(context.Background(), p, Options{}); err == nil || !strings.Contains(err.Error(), "panel") {
		t.Errorf("the panel is too wide and may not be pieced, but: %v", err)
	}
	for _, word := range []string{"if_needed", "if_it_saves"} {
		p.Pieces[0].Piecing = word
		r := laid(t, p)
		if !r.Piecing[0].Pieced || !strings.Contains(r.Piecing[0].Why, "wider than the cloth") {
			t.Errorf("%s: %+v", word, r.Piecing)
		}
		// Its own edges are hems of 2.5 cm; the seam has 1.5 cm.
		if q := r.Pieces[len(r.Pieces)-1]; math.Abs(q.CutWidthCM-44) > 1e-6 || math.Abs(q.CutLengthCM-105) > 1e-6 {
			t.Errorf("%s is cut %g × %g; want 105 × 44", q.Piece.Name, q.CutLengthCM, q.CutWidthCM)
		}
		r.TryPiecing(context.Background(), Options{Seed: 1})
		if r.Piecing[0].Impossible == "" || r.Piecing[0].Known {
			t.Errorf("%s: %+v; whole it cannot be made", word, r.Piecing[0])
		}
	}
}

func TestPieceLongerThanAnyLengthIsCutAcross(t *testing.T) {
	p := Starter()
	p.Real.Lengths = []ClothLength{{Name: "first", LengthCM: 300}, {Name: "second", LengthCM: 300}, {Name: "third", LengthCM: 300}}
	addSpec(p, PieceSpec{Name: "sash", Shape: "rectangle", Dims: map[string]float64{"length_cm": 400, "width_cm": 10}, Piecing: "if_needed"})
	r := laid(t, p)
	if d := r.Piecing[0]; !d.Pieced || d.Line != "across" || math.Abs(d.SeamCM-10) > 1e-6 {
		t.Errorf("%+v; want it cut across, a seam of 10 cm", d)
	}
	if len(r.CannotBeMade) > 0 {
		t.Error(r.CannotBeMade)
	}
}

func TestNoteOnAPieceCutApartIsSaidOnceOfTheWhole(t *testing.T) {
	p := Starter()
	addSpec(p, PieceSpec{Name: "sleeve", Piecing: "yes"})
	r := laid(t, p)
	sleeve, _ := laid(t, Starter()).Garment.Piece("sleeve")
	var said []string
	for _, note := range r.Sheet("").Notes {
		if strings.HasPrefix(note, "sleeve") {
			said = append(said, note)
		}
	}
	if len(said) != 1 || said[0] != "sleeve: "+sleeve.Note {
		t.Errorf("of the sleeve is noted %q; want %q once", said, "sleeve: "+sleeve.Note)
	}
}

func TestWhatIsKeptStaysPieced(t *testing.T) {
	p := Starter()
	addSpec(p, PieceSpec{Name: "side gore", Piecing: "if_it_saves"})
	r := laid(t, p)
	p.KeepLay(r)
	again, err := Work(context.Background(), p, Options{Seed: 9, KeepLay: true})
	if err != nil || again.Piecing[0].Pieced != r.Piecing[0].Pieced || again.ClothCM() > r.ClothCM()+0.001 {
		t.Errorf("%+v (%v); it was %+v", again.Piecing, err, r.Piecing)
	}
}

func TestPieceWithAMarkAcrossTheLineIsNotCut(t *testing.T) {
	data, err := Starter().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	_, err = Parse(append(data, "pieces:\n  - {name: neck facing, piecing: \"yes\"}\n"...), "plan.yaml")
	if err == nil || !strings.Contains(err.Error(), "pieces[neck facing].piecing cannot be done") || !strings.Contains(err.Error(), "neck opening") {
		t.Errorf("error is %v", err)
	}
}

// Cloth 40 cm wide: the body of the tunic, 60 as cut, is cut in three, for in two
// the line would meet the neck; a curtain of 155 as cut in five (four would be
// 42 or 40.5 and more with their seams).
func TestPiecesFarWiderThanTheClothAreCutInAsFewPartsAsFit(t *testing.T) {
	p := starterWith(t, "pieces:\n  - {name: body, piecing: if_needed}\n  - {name: sleeve, piecing: if_needed}\n  - {name: curtain, shape: rectangle, length_cm: 200, width_cm: 150, piecing: if_needed}\n")
	p.Cloth.FinishedWidthCM = 40
	r := laid(t, p)
	want := map[string]Pieced{"body": {Parts: 3, SeamCM: 451.6}, "sleeve": {Parts: 2}, "curtain": {Parts: 5, SeamCM: 800}}
	for _, d := range r.Piecing {
		if w := want[d.Piece]; d.Parts != w.Parts || w.SeamCM > 0 && math.Abs(d.SeamCM-w.SeamCM) > 0.1 {
			t.Errorf("%s in %d parts, %g cm of seam; want %d, %g", d.Piece, d.Parts, d.SeamCM, w.Parts, w.SeamCM)
		}
	}
	for _, q := range r.Pieces {
		if q.CutWidthCM > 40+1e-6 {
			t.Errorf("%s is %g cm wide", q.Piece.Name, q.CutWidthCM)
		}
	}
	if faults := garment.Mismatch(r.Garment); len(faults) > 0 {
		t.Error(faults)
	}
	if s := r.Sewing()[0]; !strings.Contains(s.What, "Join the parts") || len(s.Lines) != 7 {
		t.Errorf("the first step is %+v; want the 7 piecing seams", s)
	}
	// Laid flat it is the garment, not its parts beside each other.
	if views := r.Flat().Views; len(views) != 3 || views[0].Name != "front" {
		t.Errorf("%d views laid flat", len(views))
	}
	p.Pieces[2].PiecingParts = 4
	if _, err := Work(context.Background(), p, Options{}); err == nil || !strings.Contains(err.Error(), "curtain part") {
		t.Errorf("four parts of the curtain are too wide, but: %v", err)
	}
	if got := p.WholeOf("curtain part 3"); got != "curtain" {
		t.Errorf("a part of the curtain is of %q", got)
	}
}

// A piece of which nothing is said is tried, one that may never be cut is not,
// and nothing is cut unasked.
func TestPiecingThatWouldSaveIsFoundUnasked(t *testing.T) {
	text := "pieces:\n  - {name: plate, shape: rectangle, length_cm: 100, width_cm: 50, copies: 3}\n"
	p := starterWith(t, text)
	p.Draft, p.Params = "", nil
	p.Cloth.FinishedWidthCM = 88 // whole, 55 as cut, one goes side by side; halves of 29, three
	r := laid(t, p)
	r.TryAllPiecing(context.Background(), Options{Seed: 1})
	if len(r.Might) != 1 || r.Might[0].Piece != "plate" || r.Might[0].SavedCM < 80 || r.Might[0].SavedG <= 0 || r.Might[0].SeamCM != 100 {
		t.Fatalf("might is %+v, none by %v", r.Might, r.Unasked)
	}
	if text := r.PiecingText("cm"); !strings.Contains(text, "plate could be cut in two along it; seam 3 × 100.0 cm") || !strings.Contains(text, "g of yarn") {
		t.Error(text)
	}
	if err := r.Might[0].CutApart(p); err != nil || p.Pieces[0].Piecing != "yes" || p.Pieces[0].PiecingLine != "along" {
		t.Errorf("%v: %+v", err, p.Pieces[0])
	}
	p.Pieces[0].Piecing, p.Pieces[0].PiecingLine = "", ""
	p.Cloth.FinishedWidthCM = 55 // whole they fill it
	r = laid(t, p)
	r.TryAllPiecing(context.Background(), Options{Seed: 1})
	if len(r.Might) > 0 || len(r.Unasked) != 1 || !r.Unasked[0].Known || r.Unasked[0].SeamCM == 0 {
		t.Errorf("where nothing is saved, might is %+v and unasked %+v", r.Might, r.Unasked)
	}
	if text := r.PiecingText("cm"); !strings.Contains(text, "would not save 1 % of the cloth:") || !strings.Contains(text, "    plate, ") || !strings.Contains(text, "no cloth is saved") {
		t.Error(text)
	}
	p.Pieces[0].Piecing = "no"
	r = laid(t, p)
	if r.TryAllPiecing(context.Background(), Options{Seed: 1}); len(r.Might)+len(r.Unasked) > 0 {
		t.Errorf("tried though it may never be cut: %+v, %v", r.Might, r.Unasked)
	}
}

// Stopped, it says which pieces it has not tried, and nothing of what they save.
func TestPiecingStoppedSaysWhatWasNotTried(t *testing.T) {
	p := starterWith(t, "pieces:\n  - {name: sleeve, piecing: if_it_saves}\n")
	r := laid(t, p)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r.TryAllPiecing(ctx, Options{Seed: 1})
	if len(r.Might)+len(r.Unasked) > 0 || strings.Join(r.Untried, ", ") != "sleeve, body, underarm gusset, side gore, centre gore, neck facing" {
		t.Errorf("might %v, unasked %v, untried %v", r.Might, r.Unasked, r.Untried)
	}
	if d := r.Piecing[0]; d.Known || d.Impossible != "" {
		t.Errorf("of what was not tried it says %+v", d)
	}
	if text := r.PiecingText("cm"); !strings.Contains(text, "  Stopped before these were tried: sleeve, body, ") {
		t.Error(text)
	}
}

func TestPieceThatCannotBeCutIsSaidToBeSo(t *testing.T) {
	r := laid(t, Starter())
	r.TryAllPiecing(context.Background(), Options{Seed: 1})
	text := r.PiecingText("cm")
	if want := "  These cannot be cut in two:\n" + `    body: piece "body" cannot be cut there: the line meets its "neck opening"` + "\n"; !strings.Contains(text, want) {
		t.Errorf("expected is %q in\n%s", want, text)
	}
}

// A yoke with a deep notch can be cut along, between its arms, but not across both.
func TestPieceThatCanBeCutOneWayOnlyIsTriedThatWay(t *testing.T) {
	text := "pieces:\n  - {name: yoke, shape: polygon, copies: 3, points: [[0, 0], [100, 0], [100, 20], [20, 20], [20, 40], [100, 40], [100, 60], [0, 60]]}\n"
	p := starterWith(t, text)
	p.Draft, p.Params = "", nil
	p.Cloth.FinishedWidthCM = 88
	r := laid(t, p)
	r.TryAllPiecing(context.Background(), Options{Seed: 1})
	tried := append(r.Might, r.Unasked...)
	if len(tried) != 1 || !tried[0].Known || tried[0].Line != "along" || tried[0].Impossible != "" {
		t.Errorf("tried was %+v", tried)
	}
	if text := r.PiecingText("cm"); strings.Contains(text, "cannot be made") {
		t.Errorf("it can be cut along, yet %s", text)
	}
}

// An awning of 405 by 105 cm as cut, on lengths of 310 by 64 cm: two rows of two
// parts, with 400 cm of seam along it and twice 50 cm across.
func TestPieceTooWideAndTooLongIsCutBothWays(t *testing.T) {
	p := Starter()
	for _, name := range []string{"first", "second", "third", "fourth", "fifth"} {
		p.Real.Lengths = append(p.Real.Lengths, ClothLength{Name: name, LengthCM: 310})
	}
	addSpec(p, PieceSpec{Name: "awning", Shape: "rectangle", Dims: map[string]float64{"length_cm": 400, "width_cm": 100}, Piecing: "if_needed"})
	r := laid(t, p)
	if d := r.Piecing[0]; !d.Pieced || d.Parts != 4 || d.Line != "along and across" || math.Abs(d.SeamCM-500) > 1e-6 {
		t.Errorf("%+v; want 4 parts and a seam of 500 cm", d)
	}
	for _, s := range r.CannotBeMade {
		if strings.Contains(s.Text, "room") {
			t.Error(s.Text)
		}
	}
	area := 0.0
	for _, q := range r.Pieces {
		if strings.HasPrefix(q.Piece.Name, "awning") {
			area += q.Piece.Outline.Area()
		}
	}
	if math.Abs(area-400*100) > 1e-6 {
		t.Errorf("the parts have %g cm² in all; want 40,000", area)
	}
	if faults := garment.Mismatch(r.Garment); len(faults) > 0 {
		t.Error(faults)
	}
	seen := map[string]bool{}
	for _, s := range r.Garment.Seams {
		if seen[s.Name] {
			t.Errorf("two seams are called %s", s.Name)
		}
		seen[s.Name] = true
	}
	// Rows are made up before they are joined: else the long seam would be in the way.
	last := r.Garment.Seams[len(r.Garment.Seams)-2:]
	if last[0].Name != "awning, pieced (1)" || last[1].Name != "awning, pieced (2)" {
		t.Errorf("sewn last are %s and %s", last[0].Name, last[1].Name)
	}
	whole := garment.WithJoins(r.Prepared.whole, r.Garment)
	awning, _ := whole.Piece("awning")
	joined := 0.0
	for _, m := range awning.Marks {
		joined += math.Hypot(m.Line[1].X-m.Line[0].X, m.Line[1].Y-m.Line[0].Y)
	}
	if math.Abs(joined-500) > 1e-6 {
		t.Errorf("laid flat it shows %g cm of joins; want 500", joined)
	}
	// The plan says one line: then that is kept to, and what it costs is said.
	p.Pieces[len(p.Pieces)-1].PiecingLine = "along"
	r = laid(t, p)
	if all := strings.Join(r.Cautions, "\n"); r.Piecing[0].Parts != 2 || !strings.Contains(all, "awning is too wide and too long for the cloth") {
		t.Errorf("%+v; cautions %s", r.Piecing[0], all)
	}
}
