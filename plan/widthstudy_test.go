package plan

import (
	"context"
	"strings"
	"testing"
)

func TestWidthsFromTheNarrowestToTheLoom(t *testing.T) {
	p := ferryman("tunic")
	p.Cloth.FinishedWidthCM = 0
	last := 0
	rows, err := Widths(context.Background(), p, Options{Seconds: 0}, func(done, all int) {
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

func TestShortWarpNeedsAWiderCloth(t *testing.T) {
	p := ferryman("tunic")
	rows, err := Widths(context.Background(), p, Options{}, nil)
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
	short, err := Widths(context.Background(), p, Options{}, nil)
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

func TestNoWidthTakesAPieceWiderThanTheLoom(t *testing.T) {
	p := planks()
	p.Loom.MaxReedWidthCM = 15
	rows, err := Widths(context.Background(), p, Options{}, nil)
	if err != nil || rows == nil || len(rows) != 0 || !strings.Contains(WidthsText(rows, "cm"), "no width") {
		t.Errorf("%v, %v", rows, err)
	}
}

func TestStoppedStudyGivesWhatItHas(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	rows, err := Widths(ctx, planks(), Options{}, func(done, _ int) {
		if done == 3 {
			stop()
		}
	})
	if err == nil || len(rows) != 3 {
		t.Errorf("%d rows, %v", len(rows), err)
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
