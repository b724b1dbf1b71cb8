// Package cloth works out thread, weave, sett, loom, shrinkage, warp, weft and
// fleece. It knows nothing of polygons or garments. Units are in the names:
// cm, m, g, tex; losses are fractions of the earlier state.
package cloth

// Figure is one worked-out number that can be asked "from what?".
type Figure struct {
	Key   string // stable: "warp_length_cm"
	Label string // plain words: "Warp length, each end"
	Value float64
	Unit  string // "cm", "m", "g", "" for counts
	From  string // the formula with its numbers: "340.9 cm woven ÷ (1 − 0.08) + 65 cm loom waste = 435.5 cm"
}
