package geometry

import (
	"encoding/binary"
	"math"
	"testing"
)

// cornersOf takes the bytes for corners, two of one polygon's to begin with the
// number of corners. Most numbers are small and whole, so that corners meet; the
// rest are any that there are.
func cornersOf(raw []byte) (a, b []Point) {
	if len(raw) == 0 {
		return nil, nil
	}
	first := int(raw[0]%12) + 3
	raw = raw[1:]
	next := func() (float64, bool) {
		switch {
		case len(raw) > 8 && raw[0] == 0xff:
			v := math.Float64frombits(binary.LittleEndian.Uint64(raw[1:]))
			raw = raw[9:]
			return v, true
		case len(raw) > 0 && raw[0] != 0xff:
			v := float64(raw[0]%64) / 2
			raw = raw[1:]
			return v, true
		}
		return 0, false
	}
	for {
		x, ok := next()
		if !ok {
			return a, b
		}
		y, ok := next()
		if !ok {
			return a, b
		}
		if len(a) < first {
			a = append(a, Point{x, y})
		} else {
			b = append(b, Point{x, y})
		}
		if len(b) > 40 {
			return a, b
		}
	}
}

// FuzzPolygons makes two polygons of any bytes: what New accepts, everything
// else takes; Overlap is the same both ways, and what contains overlaps.
func FuzzPolygons(f *testing.F) {
	f.Add([]byte{1, 0, 0, 20, 0, 20, 20, 0, 20, 20, 0, 40, 0, 40, 20})
	f.Add([]byte{0, 0, 0, 20, 0, 10, 30, 5, 5, 10, 5, 7, 10})
	f.Add(append([]byte{0, 0, 0, 20, 0, 0xff}, make([]byte, 40)...))
	f.Fuzz(func(t *testing.T, raw []byte) {
		ca, cb := cornersOf(raw)
		a, errA := New(ca)
		b, errB := New(cb)
		Overlap(Polygon(ca), Polygon(cb)) // never panics, whatever they are
		if errA != nil || errB != nil {
			return
		}
		over := Overlap(a, b)
		if Overlap(b, a) != over {
			t.Errorf("%v and %v overlap only one way round", a, b)
		}
		if Contains(a, b) && !over {
			t.Errorf("%v contains %v, which it does not overlap", a, b)
		}
		if !Overlap(a, a) || !Contains(a, a) {
			t.Errorf("%v does not overlap itself", a)
		}
		for _, cm := range []float64{0, 0.5, 2} {
			cut, err := CutOutline(a, allowances(len(a), cm), 2)
			if err == nil && Validate(cut) != nil {
				t.Errorf("the cut outline of %v at %v cm is no polygon: %v", a, cm, cut)
			}
		}
	})
}

func allowances(edges int, cm float64) []float64 {
	all := make([]float64, edges)
	for i := range all {
		all[i] = cm
	}
	return all
}
