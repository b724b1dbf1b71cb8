package layout_test

import (
	"context"
	"math"
	"os"
	"testing"
	"time"

	"ellwand/layout"
	"ellwand/layout/instance"
)

// Sheets cut up without waste by Hopper and Turton (EJOR 128, 2001) and Burke,
// Kendall and Whitwell (Operations Research 52, 2004): the sheet is the best lay.
func TestSheetsCutUpAreFoundAgain(t *testing.T) {
	for _, name := range []string{"c1p1", "c2p1", "c3p1", "burke_n2"} {
		f, err := os.Open("testdata/" + name + ".json")
		if err != nil {
			t.Fatal(err)
		}
		in, err := instance.Read(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second) // most take a tenth of a second
		l, err := layout.Improve(ctx, in.Problem, layout.Lay{}, layout.Settings{Seed: 1}, nil)
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		if err := layout.Check(in.Problem, l); err != nil {
			t.Fatal(err)
		}
		if math.Abs(l.LengthCM-in.BestLength) > 1e-6 {
			t.Errorf("%s: %g long, the sheet is %g", name, l.LengthCM, in.BestLength)
		}
	}
}
