package drawing

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
)

// Endings are those of the files that a sheet can be written to.
func Endings() []string { return []string{".png", ".svg", ".pdf", ".csv"} }

// ForFile is what writes the kind of file that the name's ending tells: a
// picture, a drawing, pages or the chalk list.
func ForFile(name string) (func(io.Writer, Sheet, Options) error, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".png":
		return PNG, nil
	case ".svg":
		return SVG, nil
	case ".pdf":
		return PDF, nil
	case ".csv":
		return func(w io.Writer, s Sheet, _ Options) error { return ChalkCSV(w, s) }, nil
	}
	return nil, fmt.Errorf("the file is named %q; accepted is a name ending in %s", name, strings.Join(Endings(), ", "))
}
