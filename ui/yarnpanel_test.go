package ui

import (
	"math"
	"testing"

	"ellwand/cloth"
	"ellwand/plan"
)

// Nm 9 is 111.11 tex: shown in another count, or as its singles, it is the same yarn.
func TestAnotherCountIsTheSameYarn(t *testing.T) {
	y := cloth.Yarn{Name: "a", Size: cloth.Size{System: "nm", Count: 9}, Plies: 2, PlyTakeUp: 0.04}
	want, err := y.Worked()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range cloth.SizeSystems() {
		for _, singles := range []bool{true, false} {
			if err := resize(&y, singles, s.Key); err != nil {
				t.Fatal(err)
			}
			if of, now := sizeOfYarn(y); of != singles || now.System != s.Key {
				t.Fatalf("%s, of singles %v: shown as %v of singles %v", s.Key, singles, now, of)
			}
			if got, _ := y.Worked(); math.Abs(got.Tex-want.Tex) > 1e-4*want.Tex {
				t.Fatalf("%s, of singles %v: %g tex, want %g", s.Key, singles, got.Tex, want.Tex)
			}
		}
	}
}

func TestRenamedYarnIsRenamedInOrdersAndDyes(t *testing.T) {
	p := plan.Starter()
	warp := p.WarpYarn
	p.Cloth.WarpOrder = []cloth.Stripe{{Yarn: warp, Threads: 3}}
	p.Dyes = []cloth.Dye{{Name: "red", Stage: cloth.DyeYarn, Of: warp}}
	if err := renameYarn(warp, "river grey")(p); err != nil {
		t.Fatal(err)
	}
	if p.WarpYarn != "river grey" || p.Cloth.WarpOrder[0].Yarn != "river grey" || p.Dyes[0].Of != "river grey" {
		t.Errorf("%s, %v, %v", p.WarpYarn, p.Cloth.WarpOrder, p.Dyes)
	}
	p.WeftYarn = "red"
	if err := renameDye("red", "madder red")(p); err != nil || p.WeftYarn != "madder red" {
		t.Errorf("%v, weft %s", err, p.WeftYarn)
	}
	if err := dyeStage("madder red", cloth.DyeFleece)(p); err != nil || p.Dyes[0].Of != p.Fleeces[0].Name {
		t.Errorf("%v, dyed of %s", err, p.Dyes[0].Of)
	}
}
