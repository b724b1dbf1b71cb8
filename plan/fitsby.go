package plan

import (
	"errors"
	"fmt"
	"maps"
	"strings"

	"ellwand/garment"
)

// Way is another way of cutting the garment: options set otherwise.
type Way struct {
	Params map[string]float64
	Words  string // "Seams down the middle: yes"
}

// FitsBy is the smallest change of the draft's options with which the pieces fit
// the loom, when as it stands one of them is too wide; false when no one or two
// options do it.
func (p *Plan) FitsBy() (Way, bool) {
	var u *Unmakeable
	if _, err := Prepare(p); !errors.As(err, &u) {
		return Way{}, false
	}
	d, ok := draftOf(p.Draft)
	if !ok {
		return Way{}, false
	}
	for _, pairs := range []bool{false, true} {
		for _, params := range garment.EveryOption(d, pairs) {
			q := p.Clone()
			if q.Params == nil {
				q.Params = map[string]float64{}
			}
			maps.Copy(q.Params, params)
			if maps.Equal(q.Params, p.Params) {
				continue
			}
			if _, err := Prepare(q); err == nil {
				return Way{params, wayWords(d, params)}, true
			}
		}
	}
	return Way{}, false
}

func wayWords(d garment.DraftInfo, params map[string]float64) string {
	var out []string
	for _, q := range d.Options {
		v, ok := params[q.Key]
		if !ok {
			continue
		}
		for _, c := range q.Choices {
			if c.Value == v {
				out = append(out, fmt.Sprintf("%s: %s", q.Label, c.Label))
			}
		}
	}
	return strings.Join(out, "; ")
}

// Take sets a way's options; they are then no longer defaults.
func (p *Plan) Take(w Way) error {
	for _, key := range sortedKeys(w.Params) {
		if err := SetField(p, "garment.options."+key, plain(w.Params[key])); err != nil {
			return err
		}
	}
	return nil
}
