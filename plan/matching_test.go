package plan

import (
	"context"
	"math"
	"strings"
	"testing"

	"ellwand/cloth"
	"ellwand/layout"
)

func laid(t *testing.T, p *Plan) *Result {
	t.Helper()
	r, err := Work(context.Background(), p, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Faults) > 0 {
		t.Fatal(r.Faults)
	}
	return r
}

// finishedEnds is the least place along the strip that each copy's finished
// outline reaches.
func finishedEnds(r *Result, piece string) []float64 {
	var out []float64
	for i, c := range r.Prepared.Copies {
		if p := r.Prepared.Pieces[c.Piece].Piece; p.Name == piece {
			out = append(out, r.Prepared.Place(i, p.Outline, r.Lay.Placements[i]).Bounds().MinX)
		}
	}
	return out
}

func TestMatchedPiecesBeginAtOnePlaceInTheRepeat(t *testing.T) {
	p := Starter()
	p.RepeatCM = 12
	p.Matches = []MatchSpec{{Name: "side bands", Pieces: []string{"body", "side gore"}, Direction: "along"},
		{Name: "all round", Pieces: []string{"side gore", "centre gore"}, Direction: "along"}}
	r := laid(t, p)
	ends := append(finishedEnds(r, "body"), append(finishedEnds(r, "side gore"), finishedEnds(r, "centre gore")...)...)
	if len(ends) != 5 {
		t.Fatalf("%d pieces; want 5", len(ends))
	}
	for _, x := range ends[1:] {
		if off := math.Remainder(x-ends[0], 12); math.Abs(off) > 0.0021 {
			t.Errorf("a gore begins at %g cm, the body at %g: %g cm off the repeat", x, ends[0], off)
		}
	}
	if !strings.Contains(strings.Join(r.Notes, "\n"), "body, side gore lie at the same place in the repeat of 12.00 cm along the cloth") {
		t.Error("the match is not said")
	}
}

func TestRepeatComesFromTheOrderOfPicks(t *testing.T) {
	p := Starter()
	p.Cloth.WeftOrder = []cloth.Stripe{{Yarn: "grey-weft", Threads: 20}, {Yarn: "grey-warp", Threads: 8}}
	if along, across := p.repeats(); along != 4 || across != 0 { // 28 picks at 7 per cm
		t.Errorf("repeats after %g along and %g across; want 4 and none", along, across)
	}
}

func TestMatchWithoutRepeatOrOfUnknownPiecesIsRefused(t *testing.T) {
	for _, c := range []struct{ match, says string }{
		{"{name: a, pieces: [body, sleeve]}", "cloth.repeat_cm"},
		{"{name: a, pieces: [body, sleeve], direction: across}", "cloth.repeat_across_cm"},
		{"{name: a, pieces: [bodey]}", `did you mean "body"`},
		{"{name: a, pieces: [body], edges: [hem, cuff]}", "2 edges for 1 pieces"},
		{"{name: a, pieces: [sleeve], edges: [cuf]}", `did you mean "cuff"`},
	} {
		p := starterWith(t, "")
		if !strings.Contains(c.says, "repeat") {
			p.RepeatCM = 5
		}
		data, err := p.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Parse(append(data, "match:\n  - "+c.match+"\n"...), "plan.yaml"); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.match, err, c.says)
		}
	}
}

const bandAndStrip = `pieces:
  - {name: band, shape: rectangle, length_cm: 60, width_cm: 10, copies: 2, edges: {left side: {finish: selvedge}}}
  - {name: strip, shape: rectangle, length_cm: 90, width_cm: 8, grain: warp, edges: {left side: {finish: selvedge}, right side: {finish: selvedge}}}
`

func TestPiecesThatWantASelvedgeGetOne(t *testing.T) {
	p := starterWith(t, bandAndStrip)
	r := laid(t, p)
	for i, it := range r.Prepared.Problem.Items {
		name := r.Prepared.Pieces[r.Prepared.Copies[i].Piece].Piece.Name
		if name != "band" && name != "strip" {
			continue
		}
		if it.Selvedge == 0 {
			t.Fatalf("%s is not tied to a selvedge", it.ID)
		}
		b := layout.Placed(it, r.Lay.Placements[i]).Bounds()
		if b.MinY > 0.002 && b.MaxY < r.Lay.WidthCM-0.002 {
			t.Errorf("%s lies from %g to %g across on cloth of %g cm", it.ID, b.MinY, b.MaxY, r.Lay.WidthCM)
		}
	}
	if !strings.Contains(strings.Join(r.Cautions, "\n"), "strip is to have selvedges on both sides") {
		t.Errorf("that one side of the strip must be hemmed is not said: %q", r.Cautions)
	}
	// Moved off the selvedge by hand, the fault is said.
	p.KeepLay(r)
	for i := range p.Lay.Placements {
		if p.Lay.Placements[i].ID == "band/1" {
			p.Lay.Placements[i].Y = 20
		}
	}
	if faults := strings.Join(p.LayFaults(r), "\n"); !strings.Contains(faults, `piece "band/1" is to have an edge on a selvedge`) {
		t.Errorf("faults are %q", faults)
	}
}

func TestWidthStudyKeepsFlawsAndSelvedges(t *testing.T) {
	p := starterWith(t, bandAndStrip+"real_cloth:\n  flaws: [{name: broken pick, from_cm: 100, to_cm: 101}]\n")
	rows, err := Widths(context.Background(), p, nil, Options{Seed: 1}, nil)
	if err != nil || len(rows) < 5 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	p.Real = RealCloth{}
	clear, err := Widths(context.Background(), p, nil, Options{Seed: 1}, nil)
	if err != nil || clear[0].LengthCM >= rows[0].LengthCM {
		t.Errorf("%g cm with a flaw right across, %g without (%v)", rows[0].LengthCM, clear[0].LengthCM, err)
	}
}
