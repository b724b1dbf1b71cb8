package instance

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ellwand/layout"
)

func TestInstancesAreReadAndLaid(t *testing.T) {
	files, err := filepath.Glob("../testdata/*.json")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d instances, error %v", len(files), err)
	}
	for _, name := range files {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		in, err := Read(bytes.NewReader(raw))
		if err != nil || in.Source == "" {
			t.Errorf("%s: source %q, error %v", name, in.Source, err)
			continue
		}
		l, err := layout.First(in.Problem)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if err := layout.Check(in.Problem, l); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		var out bytes.Buffer
		if err := in.Write(&out, l); err != nil {
			t.Fatal(err)
		}
		var back struct {
			Length     float64
			Placements []struct {
				ID   string
				X, Y float64
			}
		}
		if err := json.Unmarshal(out.Bytes(), &back); err != nil || back.Length != l.LengthCM || len(back.Placements) != len(in.Problem.Items) {
			t.Errorf("%s: written length %g, %d placements, error %v", name, back.Length, len(back.Placements), err)
		}
	}
}

func TestBadInstancesAreRefusedInASentence(t *testing.T) {
	for text, want := range map[string]string{
		`{`: "accepted form",
		`{"strip_width": 0, "items": [{"id": 1, "w": 1, "h": 1}]}`: "width is 0",
		`{"strip_width": 5}`: "0 pieces",
		`{"strip_width": 5, "items": [{"id": "a", "w": 1}]}`:                                   "item 1",
		`{"strip_width": 5, "items": [{"id": "a", "w": 1, "h": 6}]}`:                           "does not fit",
		`{"strip_width": 5, "items": [{"id": "a", "demand": -1, "w": 1, "h": 1}]}`:             "demand is -1",
		`{"strip_width": 5, "items": [{"id": "a", "demand": 9999999999, "w": 1, "h": 1}]}`:     "demand is 9999999999",
		`{"strip_width": 5, "items": [{"id": [], "w": 1, "h": 1}]}`:                            "id is []",
		`{"strip_width": 9, "items": [{"id": "a", "polygon": [[0,0],[1,1],[1,0],[0,1]]}]}`:     "must not cross",
		`{"strip_width": 9, "items": [{"id": "a", "rotations_deg": [], "w": 1, "h": 1}]}`:      "no allowed turn",
		`{"strip_width": 9, "items": [{"id": "a", "polygon": [[0,0],[1,0],[1,1e300],[0,1]]}]}`: "corner 3",
	} {
		if _, err := Read(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want one with %q", text, err, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"strip_width": 5, "rotations_deg": [0, 90], "items": [{"id": 7, "demand": 2, "w": 1, "h": 2}]}`))
	f.Add([]byte(`{"strip_width": 9, "items": [{"id": "a", "polygon": [[0,0],[1,0],[0,1]]}], "flip": true}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		in, err := Read(bytes.NewReader(raw))
		if err != nil {
			return
		}
		if err := in.Problem.Validate(); err != nil {
			t.Errorf("read, yet %v", err)
		}
		if layout.LowerBound(in.Problem) < 0 {
			t.Error("bound below 0")
		}
	})
}
