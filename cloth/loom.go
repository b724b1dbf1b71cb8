package cloth

// LoomKind is how a loom is built.
type LoomKind string

const (
	Counterbalance LoomKind = "counterbalance"
	FloorLoom      LoomKind = "floor"
	RigidFrame     LoomKind = "rigid frame" // the reed is a rigid heddle
	TwoBeam        LoomKind = "upright two-beam"
	WarpWeighted   LoomKind = "warp-weighted"
)

// LoomKindInfo is what is usual for a kind of loom.
type LoomKindInfo struct {
	Kind        LoomKind
	About       string
	WasteCM     float64 // loom waste of one warp, taken when the plan gives none
	WasteSource string
	Reedless    bool // may be without a reed: the ends are spaced by a starting border or by hand
}

// LoomKinds are the kinds known. Wastes: 36 in allowed (allfiberarts.com,
// calculate yarn) and real (365caws, 2011); 7 in tied on and 10 in tail on one
// small loom (therogueweaver.com, 2025/8/22); the rest as they say.
func LoomKinds() []LoomKindInfo {
	return []LoomKindInfo{
		{Counterbalance, "treadles, shafts hung in pairs over pulleys or rollers, cloth and warp beam", 36 * cmPerInch, "36 in, allfiberarts.com, calculate yarn", false},
		{FloorLoom, "treadles, shafts that rise or fall each by itself, cloth and warp beam", 36 * cmPerInch, "36 in, allfiberarts.com, calculate yarn", false},
		{RigidFrame, "a rigid heddle that is shed and reed at once: one end, or two as one, in each slot and eye", 17 * cmPerInch, "7 in tied on and 10 in tail, therogueweaver.com, 2025/8/22", false},
		{TwoBeam, "the warp upright between two beams, sheds by leashes", 60, "common practice", true},
		{WarpWeighted, "the warp hangs from a beam and weights keep it taut", 60, "30 to 60 cm, from memory; the careful end", true},
	}
}

// Info is what is usual for the kind; false for a kind not known.
func (k LoomKind) Info() (LoomKindInfo, bool) {
	for _, i := range LoomKinds() {
		if i.Kind == k {
			return i, true
		}
	}
	return LoomKindInfo{}, false
}

// LoomWasteCM is the waste of one warp: as given, or else usual for the kind;
// from is where the usual one is said, "" for one given.
func (l Loom) LoomWasteCM() (wasteCM float64, from string) {
	info, known := l.Kind.Info()
	if l.WasteCM > 0 || l.WasteGiven || !known {
		return l.WasteCM, ""
	}
	return info.WasteCM, info.WasteSource
}
