package plan

import "testing"

func TestLengthOfNothingHasNoSign(t *testing.T) {
	for _, c := range []struct {
		cm          float64
		units, want string
	}{
		{-0.04, "cm", "0.0 cm"}, {-0.06, "cm", "-0.1 cm"}, {-10, "cm", "-10.0 cm"},
		{-0.01, "inch", "0.00 in (0.0 cm)"}, {-0.04, "inch", "-0.02 in (0.0 cm)"}, {5.08, "inch", "2.00 in (5.1 cm)"},
	} {
		if got := lengthText(c.cm, c.units); got != c.want {
			t.Errorf("%g cm in %s is %q; want %q", c.cm, c.units, got, c.want)
		}
	}
}
