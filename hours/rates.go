package hours

// Range is a figure of which only this much is known. For a rate Low is the
// slow worker and High the quick one; for hours Low is the fewest and High the
// most.
type Range struct{ Low, Likely, High float64 }

// One is a range that is known exactly: a rate one has timed oneself.
func One(v float64) Range { return Range{v, v, v} }

func (r Range) plus(o Range) Range {
	return Range{r.Low + o.Low, r.Likely + o.Likely, r.High + o.High}
}

func (r Range) times(f float64) Range { return Range{r.Low * f, r.Likely * f, r.High * f} }

// Rate is how fast one kind of work goes. Key carries the unit and stands for
// it in a plan file: "spindle_m_per_h".
type Rate struct {
	Key, Label, Unit string
	Range
	Source string // who says so, or "from memory", or "your own timing"
}

// Keys of the rates.
const (
	RateSort          = "sort_g_per_h"
	RateScour         = "scour_g_per_h"
	RateComb          = "comb_g_per_h"
	RateCard          = "card_g_per_h"
	RateSpindle       = "spindle_m_per_h"
	RateWheel         = "wheel_m_per_h"
	RateDye           = "dye_g_per_h"
	RateWind          = "wind_ends_per_h"
	RateBeam          = "beam_m_per_h"
	RateThread        = "thread_ends_per_h"
	RateSley          = "sley_ends_per_h"
	RateFrame         = "frame_cm_per_h"
	RateTreadle       = "treadle_picks_per_min"
	RatePit           = "pit_m2_per_h"
	RateWarpWeighted  = "warp_weighted_m2_per_h"
	RateFinish        = "finish_m2_per_h"
	RateCut           = "cut_m_per_h"
	RateRunningStitch = "running_stitches_per_min"
	RateBackstitch    = "backstitch_m_per_h"
	RateFell          = "fell_m_per_h"
	RateHem           = "hem_m_per_h"
	RateMachine       = "machine_stitches_per_min"
)

// viborg is what the making of the Viborg linen shirt gives.
const viborg = "derived from Ejstrud et al., From Flax to Linen, Ribe 2011"

// gramsInAFleece is the middle of 1.8 to 3.2 kg, a year's Icelandic fleece
// (ravensresticelandics.com, laughinglambfibers.com); hours for sorting are
// published by the fleece.
const gramsInAFleece = 2500

// Rates are the published rates, in the order of the work. Everything here is
// experiment or claim, not law. Where a published figure is a span, its middle
// is taken. What one has timed oneself is better than any of it.
func Rates() []Rate {
	return []Rate{
		{RateSort, "Skirting and sorting, raw fleece", "g per h", Range{gramsInAFleece / 3.0, gramsInAFleece / 1.5, gramsInAFleece},
			"1, 1.5 and 3 h for a fleece, taken as 2.5 kg: 1.2 h in a petticoat log, muzzleloadingforum.com, the rest from memory; fleeces of 1.8 to 3.2 kg, ravensresticelandics.com"},
		{RateScour, "Scouring by hand, skirted fleece", "g per h", Range{1000.0 / 5, 1000.0 / 3, 1000.0 / 2}, "2, 3 and 5 h per kg, from memory"},
		{RateComb, "Combing by hand", "g per h", Range{40, 60, 227},
			"10 to 15 g in 15 min, snugfibreknits.com; ½ lb an hour, gansey.blogspot.com 2011/12"},
		{RateCard, "Carding by hand", "g per h", Range{40, 100, 120},
			"106 g an hour (16 min an ounce), 222.arcn.sites.carleton.edu; the rest from memory"},
		{RateSpindle, "Spinning by spindle, singles", "m per h", Range{20, 38, 70},
			"20 with preparation, vikingar.historiska.se on sail making; 38, of flax, " + viborg + "; 60 to 80 from memory"},
		{RateWheel, "Spinning by wheel, singles", "m per h", Range{100, 240, 460},
			"180 to 300 and 410 to 510, one spinner on a modified wheel, gansey.blogspot.com 2014/02; 100 as there and 111 in a petticoat log, muzzleloadingforum.com"},
		{RateDye, "Dyeing, mordant and dye bath tended", "g per h", Range{40, 80, 160}, "from memory"},
		{RateWind, "Winding the warp", "ends per h", Range{40, 80, 150}, "from memory, for ends of 4 to 8 m"},
		{RateBeam, "Beaming, metres of all ends together", "m per h", One(832 * 11 / 1.25),
			"832 ends of 11 m in 1.25 h, laurasloom.blogspot.com 2009/07; one figure, and no span is known"},
		{RateThread, "Threading heddles", "ends per h", Range{60, 120, 250}, "from memory"},
		{RateSley, "Sleying", "ends per h", Range{150, 300, 500}, "from memory"},
		{RateFrame, "Weaving on a frame, length under tension", "cm per h", Range{5, 15, 30},
			"from memory; a beginner's coarse cloth grew 6, 222.arcn.sites.carleton.edu"},
		{RateTreadle, "Weaving on a treadle loom", "picks per min", Range{10, 18, 48},
			"18 at 30 in wide and 48 on narrow cloth, secondwindjewelry.com; 10 from memory"},
		{RatePit, "Weaving on a pit loom, finished cloth", "m² per h", One(0.70),
			"1 yd of 30 in cloth an hour, experienced, en.wikisource.org, The Wheel of Fortune; one figure, and no span is known"},
		{RateWarpWeighted, "Weaving on a warp-weighted loom, finished cloth", "m² per h", Range{0.1 * 0.67 / 8, viborgClothM2 / 107, viborgClothM2 / 107},
			"107 h for 2.242 m² of 22 × 12 per cm, " + viborg + "; sailcloth 10 cm a day at 67 cm, counted as 8 h, wonderouswoolerie.blogspot.com 2010/10; nothing quicker is known"},
		{RateFinish, "Washing and fulling by hand, finished cloth", "m² per h", Range{0.2, 0.4, 0.8}, "from memory, at the work only, not while it dries"},
		{RateCut, "Chalking and cutting out, length of the cut", "m per h", Range{5, 10, 20}, "from memory"},
		{RateRunningStitch, "Running stitch by hand", "stitches per min", Range{10, 20, 30},
			"20, lifeatasewingcentre.blogspot.com 2012/09; 10 and 30 from memory"},
		{RateBackstitch, "Backstitch", "m per h", Range{1, 1.75, 3}, "from memory"},
		{RateFell, "Felling allowances", "m per h", Range{1, 2, 3}, "from memory"},
		{RateHem, "Hemming", "m per h", Range{1, 2, 3}, "from memory"},
		{RateMachine, "Sewing by machine", "stitches per min", Range{750, 750, 1000},
			"750, lifeatasewingcentre.blogspot.com 2012/09, 1000 from memory: the machine's speed, pinning and turning not counted"},
	}
}

// viborgClothM2 is the shirt's cloth, 2.36 m × 0.95 m.
const viborgClothM2 = 2.36 * 0.95

// published is the published rate of a key; false for a key that is none.
func published(key string) (Rate, bool) {
	for _, r := range Rates() {
		if r.Key == key {
			return r, true
		}
	}
	return Rate{}, false
}
