// Package cautions holds the reminders that stand beside each part of the work.
// They say whose advice comes first and replace none of it.
package cautions

// Stage is a part of the work.
type Stage string

// The stages, in the order of the work.
const (
	RawFleece    Stage = "raw fleece"
	Scouring     Stage = "scouring"
	Combing      Stage = "combing"
	Carding      Stage = "carding"
	HeatedCombs  Stage = "heated combs"
	LongWork     Stage = "long work"
	WarpWeighted Stage = "warp-weighted loom"
	Finishing    Stage = "wet finishing"
	Cutting      Stage = "cutting"
)

// Of is the reminder for a stage. Whom each defers to: makers' instructions;
// HSE manual handling, COSHH, dust and textile sheets; HSE on common zoonoses in
// agriculture; HSE HSG60 on upper limb disorders; fire service guidance.
func Of(s Stage) string {
	switch s {
	case RawFleece:
		return "Raw fleece can carry disease and dust: wash hands, damp the dust down, wear a mask, and keep it from anyone pregnant; follow your health authority's advice on diseases from animals."
	case Scouring:
		return "Scouring in hot water scalds, and alkali burns: gloves, no heavy lifts alone; follow local rules and the washing agent's safety data sheet."
	case Combing:
		return "Wool combs have long sharp tines: clamp the holder, guard the tines or turn them away, keep them from children; follow the maker's instructions."
	case Carding:
		return "Carding raises dust: air the room, wear a mask where it hangs in the air; your health and safety authority's advice on dust comes first."
	case HeatedCombs:
		return "Heated combs, pots and fires burn, and their fumes kill in a closed room: air it, keep water by; the fire service's advice comes first."
	case LongWork:
		return "Spinning, weaving and sewing repeat one movement for hours: pace it, vary it, rest, and stop on pain; local guidance on upper limb disorders comes first."
	case WarpWeighted:
		return "A warp-weighted loom can fall and its weights swing: fasten the beam, hang no weight where a foot or a child can be; follow the builder's instructions."
	case Finishing:
		return "Hot water scalds and wet cloth is heavy: gloves, no heavy lifts alone; local advice on lifting comes first."
	case Cutting:
		return "Shears and knives: cut away from yourself and guard the blades; follow the maker's instructions."
	}
	return ""
}
