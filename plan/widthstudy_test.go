package plan

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ellwand/cloth"
)

func TestWidthsFromTheNarrowestToTheLoom(t *testing.T) {
	p := ferryman("tunic")
	p.Cloth.FinishedWidthCM = 0
	last := 0
	rows, err := Widths(context.Background(), p, nil, Options{Seconds: 0}, func(done, all int) {
		if done < last || done > all {
			t.Errorf("%d of %d done", done, all)
		}
		last = done
	})
	if err != nil || len(rows) == 0 || len(rows) > 2*maxWidths {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	if w := prepared(t, p).Problem.WidthCM; rows[0].WidthCM != w {
		t.Errorf("the narrowest is %g cm, want %g cm", rows[0].WidthCM, w)
	}
	for i, r := range rows {
		if i > 0 && (r.WidthCM <= rows[i-1].WidthCM || r.LengthCM > rows[i-1].LengthCM+1e-9) {
			t.Errorf("%g cm wide, %g cm long after %g × %g cm", r.WidthCM, r.LengthCM, rows[i-1].WidthCM, rows[i-1].LengthCM)
		}
		if r.Fits != (r.Why == "") || r.WarpM <= 0 || r.WeftM <= 0 || r.MassG <= 0 || r.UsePercent <= 0 || r.UsePercent > 100 {
			t.Errorf("row %+v", r)
		}
	}
}

func TestTooLittleWarpIsSaid(t *testing.T) {
	p := ferryman("tunic")
	rows, err := Widths(context.Background(), p, nil, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	// A warp in hand for a little less than the narrowest cloth takes.
	c, err := reckonCloth(p, rows[0].WidthCM, rows[0].LengthCM)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Shortfalls) > 0 {
		t.Fatalf("the plan is short to begin with: %v", c.Shortfalls)
	}
	for i := range p.Yarns {
		if p.Yarns[i].Name == p.WarpYarn {
			p.Yarns[i].HaveInHand, p.Yarns[i].InHandM = true, rows[0].WarpM*0.3
		}
	}
	short, err := Widths(context.Background(), p, nil, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if short[0].Fits || short[0].Why == "" {
		t.Error("a third of the warp is taken for enough")
	}
	if text := WidthsText(short, "cm"); !strings.Contains(text, "no: ") {
		t.Errorf("the table does not say why:\n%s", text)
	}
}

// The beam holds a warp for 4.2 m of finished cloth: 420 ÷ 0.88 ÷ 0.92 + 65 cm
// is 5.838 m. Narrower cloth would need to be longer than that.
func TestNarrowestWidthForOneWarpIsFoundToTheDent(t *testing.T) {
	p := ferryman("tunic")
	p.Loom.MaxWarpM, p.Loom.MaxReedWidthCM = 5.838, 130
	rows, err := Widths(context.Background(), p, nil, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	n, ok := Narrowest(rows)
	if !ok || n.LengthCM > 420.01 || rows[0].Fits || rows[0].LengthCM <= 420 {
		t.Fatalf("narrowest %+v, first %+v", n, rows[0])
	}
	all := cloth.WidthSteps(p.Cloth, p.Loom, rows[0].WidthCM)
	if len(all) <= maxWidths {
		t.Fatalf("only %d whole dents, nothing to thin", len(all))
	}
	i, at := slices.Index(all, n.WidthCM), slices.IndexFunc(rows, func(r WidthRow) bool { return r.WidthCM == n.WidthCM })
	if i < 1 || rows[at-1].WidthCM != all[i-1] || !strings.Contains(rows[at-1].Why, "One warp makes at most 420.0 cm") {
		t.Errorf("%g cm fits, but the dent below is not shown not to: %+v", n.WidthCM, rows[at-1])
	}
}

func TestNoWidthTakesAPieceWiderThanTheLoom(t *testing.T) {
	p := planks()
	p.Loom.MaxReedWidthCM = 15
	rows, err := Widths(context.Background(), p, nil, Options{}, nil)
	if err != nil || rows == nil || len(rows) != 0 || !strings.Contains(WidthsText(rows, "cm"), "no width") {
		t.Errorf("%v, %v", rows, err)
	}
}

func TestStoppedStudyGivesWhatItHas(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	rows, err := Widths(ctx, planks(), nil, Options{}, func(done, _ int) {
		if done == 3 {
			stop()
		}
	})
	if err == nil || len(rows) < 3 {
		t.Errorf("%d rows, %v", len(rows), err)
	}
}

// A lay that was searched for, 0.35 cm off the whole dents: with no time for the
// study it is the row at its width, and no wider cloth is longer.
func TestWidthStudyIsNeverLongerThanTheLayThereIs(t *testing.T) {
	p := ferryman("tunic")
	wide := cloth.WidthSteps(p.setting(), p.Loom, 0)
	p.Cloth.FinishedWidthCM = wide[len(wide)-8] + 0.35
	r, err := Work(context.Background(), p, Options{Seconds: 0.5, Seed: 1, Threads: 1})
	if err != nil {
		t.Fatal(err)
	}
	kept := p.Clone()
	kept.KeepLay(r)
	for name, study := range map[string]func() ([]WidthRow, error){
		"kept":  func() ([]WidthRow, error) { return Widths(context.Background(), kept, nil, Options{}, nil) },
		"shown": func() ([]WidthRow, error) { return Widths(context.Background(), p, r, Options{}, nil) },
	} {
		rows, err := study()
		if err != nil {
			t.Fatal(err)
		}
		at := slices.IndexFunc(rows, func(r WidthRow) bool { return r.WidthCM == p.Cloth.FinishedWidthCM })
		if at < 0 {
			t.Fatalf("%s: no row at the plan's %g cm", name, p.Cloth.FinishedWidthCM)
		}
		for _, row := range rows[at:] {
			if row.LengthCM > r.ClothCM()+1e-9 {
				t.Errorf("%s: %g cm wide it is %g cm long; the lay there is at %g cm is %g cm", name, row.WidthCM, row.LengthCM, r.Lay.WidthCM, r.ClothCM())
			}
		}
		for i := 1; i < len(rows); i++ {
			if rows[i].LengthCM > rows[i-1].LengthCM+1e-9 || rows[i].WidthCM <= rows[i-1].WidthCM {
				t.Errorf("%s: %g × %g cm after %g × %g cm", name, rows[i].WidthCM, rows[i].LengthCM, rows[i-1].WidthCM, rows[i-1].LengthCM)
			}
		}
	}
}

// A lay whose pieces lie too near each other for the gap there is now.
func TestWidthStudyLeavesALayThatServesNoMore(t *testing.T) {
	p := ferryman("tunic")
	r := laid(t, p)
	p.KeepLay(r)
	rows, err := Widths(context.Background(), p, r, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	p.GapCM += 3
	larger, err := Widths(context.Background(), p, r, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if last := len(larger) - 1; larger[last].AreaCM2 <= rows[len(rows)-1].AreaCM2 {
		t.Errorf("with a wider gap it takes no more cloth: %g and %g cm²", larger[last].AreaCM2, rows[len(rows)-1].AreaCM2)
	}
}

func TestWidthStudySaysHowManyWidthsItDidNotSearch(t *testing.T) {
	rows, err := Widths(context.Background(), ferryman("tunic"), nil, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	n := OnlyFirst(rows)
	if n == 0 || n > len(rows) {
		t.Fatalf("%d of %d widths were not searched in no time", n, len(rows))
	}
	says := fmt.Sprintf("%d of %d widths were only laid for a first time", n, len(rows))
	if text := WidthsText(rows, "cm"); !strings.Contains(text, says) {
		t.Errorf("the table does not say %q:\n%s", says, text)
	}
	for i := range rows {
		rows[i].Searched = true
	}
	if text := WidthsText(rows, "cm"); strings.Contains(text, "first time") {
		t.Errorf("all were searched, but:\n%s", text)
	}
}

func TestThinnedWidthsKeepBothEnds(t *testing.T) {
	for _, n := range []int{1, 59, 60, 61, 250} {
		got := thinned(n, 60)
		if len(got) != min(n, 60) || got[0] != 0 || got[len(got)-1] != n-1 {
			t.Errorf("%d widths: %v", n, got)
		}
	}
}
