package cloth

// PublishedCloth is an excavated cloth of which the counts have been published,
// as found: finished, worn and buried.
type PublishedCloth struct {
	Name                  string
	Weave                 string
	EndsPerCM, PicksPerCM float64 // finished
	Spin                  string  // of warp and weft, "Z/S"; "" where not seen
	Source                string
}

// PublishedCloths are finds to start a cloth from. Their counts are of the
// finished cloth, so that a loom is set up opener than they are.
func PublishedCloths() []PublishedCloth {
	return []PublishedCloth{
		{"Skjoldehamn hood, about 1000", "2/2 twill", 9.4, 6.9, "Z/S", "Løvlid 2009, after catetown.wordpress.com 2016/04"},
		{"Heynes, Iceland, 10th or 11th century", "2/2 twill", 7, 5, "Z/S", "Árbók 1962, timarit.is/page/2051925"},
		{"Hedeby harbour, cap", "2/2 twill", 18, 8, "Z/S", "Hägg, after rosieandglenn.co.uk, HedebyCap"},
		{"Birka, grave Bj 597", "2/2 twill", 20, 12, "Z/Z", "Swedish historical museum, object 616363"},
		{"Birka worsted, the openest", "2/2 twill", 28, 14, "Z/Z", "Geijer 1938, quoted at forest.gen.nz, WARP"},
		{"Birka worsted, the closest", "2/2 twill", 46, 14, "Z/Z", "Geijer 1938, quoted at forest.gen.nz, WARP"},
		{"Viborg shirt, linen, 11th century", "tabby", 22, 12, "", "Ribe flax report, issuu maritimearchaeology.dk, 70 and 71"},
	}
}
