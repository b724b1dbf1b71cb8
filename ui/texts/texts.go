// Package texts holds every text of the window in one place, a file for each
// language: the English text as it stands in the source, and what is said for it.
// To translate the window, copy said/en.json to the language's own name, de.json say,
// and change what stands to the right; nothing else need be touched.
package texts

import "embed"

// Files are the texts, named by language.
//
//go:embed said/*.json
var Files embed.FS
