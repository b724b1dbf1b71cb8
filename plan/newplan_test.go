package plan

import (
	"slices"
	"strings"
	"testing"

	"ellwand/garment"
)

func askedBody(draft string, stature, bust float64) garment.Body {
	b := garment.Body{CM: map[garment.Measure]float64{garment.Stature: stature, garment.BustGirth: bust}}
	full, _ := b.Complete()
	for _, m := range AskedFirst(draft) {
		b.CM[m] = full.CM[m]
	}
	return b
}

// From a garment and eight measurements every draft is laid and can be made as it
// stands, for a slight and for a large body; all else is marked as a default.
func TestNewPlanIsLaidAtOnce(t *testing.T) {
	for _, d := range garment.Drafts() {
		for _, size := range [][2]float64{{150, 80}, {168, 96}, {196, 132}} {
			b := askedBody(d.Key, size[0], size[1])
			if len(b.CM) != NewMeasures {
				t.Fatalf("%s asks for %d measurements", d.Key, len(b.CM))
			}
			p, err := NewPlan("Ferry warden's "+d.Key, d.Key, b)
			if err != nil {
				t.Errorf("%s for %v: %v", d.Key, size, err)
				continue
			}
			r, err := Work(t.Context(), p, Options{})
			if err != nil {
				t.Errorf("%s for %v: %v", d.Key, size, err)
				continue
			}
			if len(r.CannotBeMade) > 0 {
				t.Errorf("%s for %v cannot be made: %v", d.Key, size, r.CannotBeMade)
			}
			for _, path := range p.Unconfirmed {
				if _, ok := Field(p, path); !ok {
					t.Errorf("%s: %s is marked and is no field", d.Key, path)
				}
			}
			if len(p.Unconfirmed) < 20 || !p.IsDefault("loom.max_reed_width_cm") || !p.IsDefault("cloth.take_up") {
				t.Errorf("%s: only %d defaults are marked", d.Key, len(p.Unconfirmed))
			}
		}
	}
}

// What is marked survives saving; measurements asked for are not marked.
func TestNewPlanKeepsItsMarks(t *testing.T) {
	p, err := NewPlan("", "trousers", askedBody("trousers", 172, 100))
	if err != nil {
		t.Fatal(err)
	}
	text, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse(text, "new.yaml")
	if err != nil || !slices.Equal(again.Unconfirmed, p.Unconfirmed) || again.Title != "New plan" {
		t.Errorf("%v: %v, was %v", err, again.Unconfirmed, p.Unconfirmed)
	}
	for _, path := range p.Unconfirmed {
		if strings.HasPrefix(path, "body.") {
			t.Errorf("%s is marked as a default", path)
		}
	}
	if !strings.Contains(string(text), "unconfirmed:\n") {
		t.Error("the marks are not one to a line")
	}
}

func TestNewPlanNeedsStatureAndBust(t *testing.T) {
	for _, m := range []garment.Measure{garment.Stature, garment.BustGirth} {
		b := askedBody("tunic", 170, 95)
		delete(b.CM, m)
		if _, err := NewPlan("x", "tunic", b); err == nil || !strings.Contains(err.Error(), string(m)) {
			t.Errorf("without %s: %v", m, err)
		}
	}
	b := askedBody("tunic", 170, 95)
	b.CM[garment.HeadGirth] = 560
	if _, err := NewPlan("x", "tunic", b); err == nil || !strings.Contains(err.Error(), "head_girth_cm") {
		t.Errorf("a head of 560 cm: %v", err)
	}
}
