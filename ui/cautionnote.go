package ui

import (
	"ellwand/cautions"
)

// caution is the reminder for a stage of the work, where the work stands.
func (f *form) caution(s cautions.Stage) {
	f.note("! " + words("Caution.") + " " + words(cautions.Of(s)))
}
