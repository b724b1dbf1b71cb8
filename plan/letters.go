package plan

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/bidi"
)

// wrongLetter says what is wrong with the letters of a text, "" for nothing. A
// text is refused when it could not be drawn as it is meant: control characters
// and signs that turn the direction of writing around, and scripts written from
// right to left, which neither the window nor the prints can set.
func wrongLetter(text string, severalLines bool) string {
	for _, r := range text {
		switch {
		case severalLines && (r == '\n' || r == '\t'):
		case unicode.IsControl(r), r == '\u2028', r == '\u2029', r == '\ufeff', unicode.In(r, unicode.Noncharacter_Code_Point):
			return "holds a control character"
		default:
			switch p, _ := bidi.LookupRune(r); p.Class() {
			case bidi.R, bidi.AL, bidi.AN:
				return "holds letters written from right to left, which cannot be shown right here"
			case bidi.LRO, bidi.RLO, bidi.LRE, bidi.RLE, bidi.PDF, bidi.LRI, bidi.RLI, bidi.FSI, bidi.PDI:
				return "holds a sign that turns the direction of writing around"
			}
			if r == '\u200e' || r == '\u200f' || r == '\u061c' {
				return "holds a sign that turns the direction of writing around"
			}
		}
	}
	return ""
}

// quotedWrong is a text quoted after what is wrong with it, so that it can be found.
func quotedWrong(wrong, value string) string {
	// Quoted letter by letter: what turns the writing around must not do so here.
	var b strings.Builder
	for _, r := range shortened(value) {
		if wrongLetter(string(r), false) != "" {
			b.WriteRune('\ufffd')
			continue
		}
		b.WriteRune(r)
	}
	return wrong + " (“" + b.String() + "”)"
}
