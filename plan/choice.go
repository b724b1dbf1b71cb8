package plan

import "strings"

// Components are the parts of a making that a choice is usually written down
// for, in the order of the work.
func Components() []string {
	return []string{"fibre", "coat preparation", "spinning tool", "twist", "dye", "loom", "weave", "thread count", "cut", "seams", "finish"}
}

// KindsOfEvidence are plain words for what a choice may rest on; others serve as
// well. They are in no order of worth.
func KindsOfEvidence() []string {
	return []string{"a find", "a garment that was kept", "a picture", "a written account", "an experiment", "living practice", "common practice", "a guess"}
}

// EvidenceText is the evidence with its kind before it; "" for neither.
func (c Choice) EvidenceText() string {
	if c.Kind == "" || c.Evidence == "" {
		return c.Kind + c.Evidence
	}
	return c.Kind + ": " + c.Evidence
}

// ReferenceText is the reference with its page; "" for none.
func (c Choice) ReferenceText() string {
	if c.Page == "" {
		return c.Reference
	}
	return strings.TrimPrefix(strings.TrimSuffix(c.Reference, ".")+", page "+c.Page, ", ")
}
