package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2/lang"
)

// words is a text of the window in the user's language: every text that is
// shown goes through it, so that all of them can be translated in one place.
// The English text, with its verbs as for fmt.Sprintf, is the key.
func words(text string, args ...any) string {
	if text == "" {
		return ""
	}
	if strings.Contains(text, "{{") {
		return text // a name from the plan; the catalogue would take it for a template
	}
	said := lang.L(text)
	if len(args) == 0 {
		return said
	}
	return fmt.Sprintf(said, args...)
}

// translated is words for several texts.
func translated(texts ...string) []string {
	for i, t := range texts {
		texts[i] = words(t)
	}
	return texts
}
