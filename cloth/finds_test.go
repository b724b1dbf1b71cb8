package cloth

import "testing"

// The hood of Skjoldehamn has 9.4 ends per cm (catetown.wordpress.com 2016/04,
// after Løvlid 2009); woven to shrink by 15 % (mjcsr.com, skoldharbor-hood), it
// is set at 7.99.
func TestFindsAreFinishedCounts(t *testing.T) {
	for _, c := range PublishedCloths() {
		if _, ok := WeaveByName(c.Weave); !ok || c.Source == "" || c.EndsPerCM < c.PicksPerCM || c.PicksPerCM < 4 {
			t.Errorf("%+v", c)
		}
	}
	hood := PublishedCloths()[0]
	near(t, "sett for the hood", Setting{FinishedEndsPerCM: hood.EndsPerCM, ShrinkWidth: 0.15}.OnLoomEndsPerCM(), 7.99, 0.01)
}
