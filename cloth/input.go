package cloth

// Yarn is one yarn as it goes on the loom.
type Yarn struct {
	Name       string
	Tex        float64 // of the finished yarn, plies and ply take-up counted; as given, until Worked
	Size       Size    // of the finished yarn, instead of Tex
	Singles    Size    // of one of its singles, instead of Tex
	Plies      int
	PlyTakeUp  float64 // (singles' length − plied length) ÷ singles' length
	Twist      string  // "S" or "Z", of the finished yarn
	TwistPerCM float64 // turns, of the finished yarn; 0: not known
	// SinglesTwist and SinglesTwistPerCM are those of the singles of a plied yarn.
	SinglesTwist      string
	SinglesTwistPerCM float64
	Skein             Skein   // measured; goes before every planned size
	WrapsPerCM        float64 // measured; goes before the diameter rule
	DiameterRule      string  // key of a DiameterRule; "": the first
	DensityGPerCM3    float64 // of the fibre, for a round yarn; 0: wool's
	PackingShare      float64 // of the yarn that is fibre, for a round yarn; 0: the usual
	Colour            string  // a name of the palette or #rrggbb; "": undyed
	Grist             Figure  // where Tex comes from, once Worked
	DyedFrom          string  // the yarn it was before it was dyed; "": never another
	PlannedTex        float64 // what was planned, when a skein says otherwise; else 0
	Fleece            string  // name of the lot it is spun from; empty for bought yarn
	Coat              Coat
	Blend             []FibrePart // more fibres than one; empty: all of Fleece and Coat
	Regain            float64     // water ÷ dry fibre at which Tex holds; 0: as the lot's
	SpinLoss          float64     // fraction of prepared fibre lost in spinning and handling
	InHandM           float64     // metres already spun or bought; 0 for none
	HaveInHand        bool        // whether InHandM limits the warp
}

// Loom is what sets the limits of one warp.
type Loom struct {
	Name              string
	MaxReedWidthCM    float64
	WasteCM           float64 // loom waste for each warp put on
	WasteGiven        bool    // 0 is meant; else a waste of 0 is what is usual for the kind
	MaxWarpM          float64 // longest warp the beam takes; 0 for no limit
	ReedsDentsPer10CM []float64
	Kind              LoomKind
	Weights           Weights // of a warp-weighted loom
}

// Setting is the cloth wanted, finished, and what it loses on the way.
type Setting struct {
	Weave              string   // one of Weaves, or the name of the draft given
	Draft              []string // rows for ParseDraft; empty: as Weave names it
	FinishedWidthCM    float64  // 0: take the width of the lay
	FinishedEndsPerCM  float64
	FinishedPicksPerCM float64
	TakeUp             float64 // of the warp: (woven under tension − off loom) ÷ woven, also called contraction
	DrawIn             float64 // (reed width − off-loom width) ÷ reed width
	ShrinkLength       float64 // (off loom − finished) ÷ off loom
	ShrinkWidth        float64
	WeftCrimp          float64 // extra weft over the reed width, fraction
	WeftTurnCM         float64 // extra weft for the turn at the selvedge, each pick
	SelvedgeExtraEnds  int     // ends added by doubling at the two selvedges together
	DentOrder          []int   // ends in successive dents, repeating; empty: chosen from the reeds owned
	ReedDentsPer10CM   float64 // 0: chosen from the reeds owned
	SampleCM           float64 // woven for samples, each warp, under tension
	HeadingCM          float64 // headings, each warp, under tension
	ExtraDents         int     // woven wider than wanted, lest the cloth draws in more
	ExtraLengthCM      float64 // finished, woven beyond the lay, lest the cloth shrinks more
	// WarpOrder is repeated across the warp and WeftOrder along the cloth; empty:
	// all of the warp's or the weft's yarn.
	WarpOrder, WeftOrder []Stripe
	SelvedgeYarn         string // of the doubled and the own ends there; empty: the warp's
	SelvedgeEnds         int    // ends at each selvedge, of those in the dents, that are of SelvedgeYarn
	HeadingYarn          string // weft of headings and samples; empty: not counted
}

// Input is all that the chain of figures needs.
type Input struct {
	LayWidthCM, LayLengthCM float64 // finished cloth that the lay uses
	Setting                 Setting
	Loom                    Loom
	Warp, Weft              Yarn
	Others                  []Yarn // that the orders, the selvedges or the headings name besides
	Fleeces                 []Fleece
	// WarpsCM is the finished cloth that the lay takes of each warp, where the
	// pieces are laid on several; together LayLengthCM. Empty: laid as one.
	WarpsCM []float64
}

// YarnNeed is how much of one yarn the cloth takes.
type YarnNeed struct {
	Name         string
	Yarn         Yarn    // with its grist worked out
	LengthM      float64 // warp, weft and headings together
	MassG        float64
	Ends, Picks  int     // of the cloth
	WarpM, WeftM float64 // of the cloth's ends and picks
	HeadingM     float64 // weft of samples and headings, when the plan says its yarn
	Figures      []Figure
}

// Reckoning is the whole chain worked out.
type Reckoning struct {
	FinishedWidthCM, FinishedLengthCM     float64
	OffLoomWidthCM, OffLoomLengthCM       float64
	ReedWidthCM                           float64 // whole dents
	ReedDentsPer10CM                      float64
	DentOrder                             []int
	Dents, Ends                           int
	WovenLengthCM                         float64 // under tension, cloth for the lay only
	WarpLengthCM                          float64 // each end, all warps together
	Warps                                 int
	Picks                                 int
	EndsPerCMOnLoom, PicksPerCMOnLoom     float64
	EndsPerCMFinished, PicksPerCMFinished float64        // what they will really be
	MassGPerM2                            float64        // finished
	ClothG                                float64        // the whole cloth, as woven
	Figures                               []Figure       // every figure above in working order
	WarpStripes, WeftStripes              []Stripe       // the whole order, from the left selvedge and from the first pick
	Setting                               *SettingResult // nil when the weave is not known
	Sleys                                 []Sley         // the reeds there are, the one taken first
	Hanging                               *Hanging       // of a warp-weighted loom whose weights are known; else nil
	Yarns                                 []YarnNeed
	Fleeces                               []FleeceNeed
	Shortfalls                            []Shortfall // why the plan cannot be made as it stands
	Cautions                              []string
}

// Shortfall is a figure that cannot be met, in words.
type Shortfall struct {
	Key  string // the Figure or field at fault: "reed_width_cm", "fleece:grey"
	Text string
}
