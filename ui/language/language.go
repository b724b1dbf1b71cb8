// Package language gives the process a language that the window's tool kit can
// read. The tool kit logs an error at start when the locale is C or POSIX, as
// it is on servers and in bare containers, and reads the locale while packages
// are being initialised: by the rules of the language this package, importing
// nothing but os and sorting before the tool kit's, is initialised first.
package language

import "os"

func init() {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		switch v := os.Getenv(name); v {
		case "":
			continue
		case "C", "POSIX", "C.UTF-8", "C.utf8":
			os.Setenv(name, "en_GB.UTF-8")
			return
		default:
			return
		}
	}
	os.Setenv("LANG", "en_GB.UTF-8")
}
