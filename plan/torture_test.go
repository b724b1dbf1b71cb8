package plan

import (
	"bytes"
	"context"
	"fmt"
	"testing"

	"ellwand/assets"
)

// What people and programs put into samples, lots, blends and the log is either
// refused in words or worked out; nothing of it panics or gives no number.
func TestOddSamplesLotsAndLogsAreRefusedOrWorkedOut(t *testing.T) {
	for _, more := range []string{
		"samples: [null]", "samples: {}", "samples: [{name: a}]", "samples: [{name: a, on_loom_length_cm: 1e-9, finished_length_cm: 1e-9}]",
		"samples: [{name: a, on_loom_length_cm: 5000, finished_length_cm: 0.001, on_loom_width_cm: 500, finished_width_cm: 0.001}, {name: b, on_loom_length_cm: 50, finished_length_cm: 50}]",
		"simulation: {chance: 0.999, trials: 100, spread: 0.2, seed: 0}", "simulation: {chance: 0.5, spread: 0}", "simulation: {trials: 0}",
		"log: []", "log: {skeins: [null]}", "log: {skeins: [{}]}", "log: {skeins: [{yarn: grey-warp, length_m: 0.0001, mass_g: 1000000, hours: 100000}]}",
		"log: {skeins: [{yarn: grey-warp, length_m: 10000000, hours: 0.00001}]}", "log: {skeins: [{yarn: grey-warp, length_m: 10000000, mass_g: 0.0001}]}",
		"log: {woven: [{woven_cm: 100000, picks: 1}]}", "log: {woven: [{date: 2199-12-31, woven_cm: 1, hours: 99999}]}",
		"log: {worked: [{task: comb, hours: 0, quantity: 10000000}, {task: hem, hours: 100000, date: 1900-01-01}]}", "log: {worked: [{task: dig, hours: 1}]}",
		"log: {cloth_off_loom: {width_cm: 0.001, length_cm: 0.001}, cloth_finished: {width_cm: 500, length_cm: 100000, mass_g: 0.01}}",
		"log: {cloth_finished: {width_cm: 60}}",
	} {
		t.Run(more, func(t *testing.T) {
			p, err := Parse(append(bytes.Clone(assets.StarterPlan()), more+"\n"...), "plan.yaml")
			if err != nil {
				if len(err.Error()) < 20 {
					t.Errorf("refused with %q", err)
				}
				return
			}
			r, err := Work(context.Background(), p, Options{})
			if err != nil {
				t.Fatalf("read, but not worked out: %v", err)
			}
			data, err := r.JSON()
			if err != nil || bytes.Contains(data, []byte("NaN")) || bytes.Contains([]byte(r.Text("cm")), []byte("NaN")) || bytes.Contains([]byte(r.Text("inch")), []byte("Inf ")) {
				t.Errorf("%v, %d bytes", err, len(data))
			}
			saved, err := p.Marshal()
			if err == nil {
				_, err = Parse(saved, "again.yaml")
			}
			if err != nil {
				t.Errorf("saved, it is not read again: %v", err)
			}
		})
	}
	for i, lot := range []string{"kind: plant, plant: {hackled_yield: 1, tow_yield: 1}", "kind: prepared, raw_g: 0", "kind: wool", "outer_share: 1", "comb_noil: {outer: 1}", "regain: 1"} {
		text := fmt.Sprintf("ellwand: 1\npieces: [{name: a, shape: rectangle, length_cm: 50, width_cm: 20}]\ncloth: {warp: y, weft: y, finished_ends_per_cm: 5, finished_picks_per_cm: 5}\nloom: {max_reed_width_cm: 80, reeds_dents_per_10cm: [50]}\nyarns: [{name: y, tex: 100, blend: [{lot: l, share: 1}]}]\nfleeces: [{name: l, raw_g: 100, %s}]\n", lot)
		p, err := Parse([]byte(text), "plan.yaml")
		if err != nil {
			continue
		}
		if r, err := Work(context.Background(), p, Options{}); err != nil {
			t.Errorf("lot %d is read, but not worked out: %v", i, err)
		} else if _, err := r.JSON(); err != nil {
			t.Errorf("lot %d: %v", i, err)
		}
	}
}
