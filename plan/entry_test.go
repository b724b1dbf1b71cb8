package plan

import (
	"fmt"
	"slices"
	"testing"

	"ellwand/assets"
)

// entryPaths are fields of every kind: number, fraction, whole number, list,
// word, date, rate, yarn count, text of one line and of several.
func entryPaths() []string {
	return []string{"body.stature_cm", "cloth.take_up", "cloth.dent_order", "yarns[grey-warp].tex", "yarns[grey-warp].twist",
		"yarns[grey-warp].in_hand_m", "loom.reeds_dents_per_10cm", "garment.options.side_gores", "garment.draft", "cloth.nap",
		"hours.start", "hours.rates.spindle_m_per_h", "choices[loom].why", "body.name", "title", "fleeces[grey wether].raw_g"}
}

// FuzzFieldEntry types any text into any field: it is taken, and the plan can
// still be saved and opened, or it is refused and nothing has changed.
func FuzzFieldEntry(f *testing.F) {
	for i, text := range []string{"176", "0,07", "1e308", ".nan", "-.inf", "0x10", "1_000", "[1, 2]", "[[1]]", "*a", "&a [*a]", "!!int 3", "{a: 1}",
		"~", "", " ", "176 cm", "69 in", "5'9\"", "1/2", "38, 46, 55", "2026-02-30", "|\n a", "\x00", "א", "=1+1", "<<: *a", "? a", "- 1", "9999999999999999999999", "0.1e-400"} {
		f.Add(i, text)
	}
	f.Fuzz(func(t *testing.T, at int, text string) {
		paths := entryPaths()
		path := paths[(at%len(paths)+len(paths))%len(paths)]
		p, err := Parse(assets.StarterPlan(), "starter")
		if err != nil {
			t.Fatal(err)
		}
		before, err := p.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		wrong := SetField(p, path, text)
		after, err := p.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if wrong != nil && !slices.Equal(before, after) {
			t.Errorf("%s refuses %q, yet the plan has changed", path, text)
		}
		if wrong != nil || p.Validate() != nil {
			return
		}
		again, err := Parse(after, "again")
		if err != nil {
			t.Fatalf("%s takes %q, and the plan does not open again: %v", path, text, err)
		}
		if got, want := GetField(again, path), GetField(p, path); got != want {
			t.Errorf("%s is %q, read back as %q", path, want, got)
		}
	})
}

func TestEveryFieldOfTheFuzzTargetIsOne(t *testing.T) {
	for _, path := range entryPaths() {
		if _, ok := Field(Starter(), path); !ok {
			t.Error(fmt.Sprint(path, " is no field of the starter plan"))
		}
	}
}
