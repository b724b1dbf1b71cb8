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
	said := lang.X(catalogueKey(text), text)
	if len(args) == 0 {
		return said
	}
	return fmt.Sprintf(said, args...)
}

// catalogueKey is what a text stands under in the catalogue: itself, but for the
// few words that would make the catalogue's reader take the whole file for a
// single text with its plurals.
func catalogueKey(text string) string {
	switch strings.ToLower(text) {
	case "id", "description", "hash", "leftdelim", "rightdelim", "zero", "one", "two", "few", "many", "other", "translation":
		return "the word " + text
	}
	return text
}

// translated is words for several texts.
func translated(texts ...string) []string {
	for i, t := range texts {
		texts[i] = words(t)
	}
	return texts
}
