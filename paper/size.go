// Package paper makes pages to print: flowing text, tables and steps on one
// design, and drawings true to scale over as many pages as they take. It knows
// places on paper in cm and sizes of writing in points, nothing of what is
// printed. The same content gives the same bytes.
package paper

import (
	"fmt"
	"strings"
)

// Size is a size of page.
type Size int

const (
	A4     Size = iota // 210 × 297 mm, ISO 216
	Letter             // 8.5 × 11 in, ANSI/ASME Y14.1
)

func (s Size) String() string {
	if s == Letter {
		return "Letter"
	}
	return "A4"
}

// Named is the paper called "a4" or "letter", in capitals or not.
func Named(name string) (Size, error) {
	for _, s := range []Size{A4, Letter} {
		if strings.EqualFold(name, s.String()) {
			return s, nil
		}
	}
	return A4, fmt.Errorf("the paper is %q; accepted is a4 or letter", name)
}

// CM is the upright page in cm.
func (s Size) CM() (wide, high float64) {
	if s == Letter {
		return 8.5 * 2.54, 11 * 2.54
	}
	return 21, 29.7
}
