package plan

import (
	"fmt"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// NamedColour is a colour of wool, undyed or dyed, by its name in a plan.
type NamedColour struct {
	Name string
	RGB  uint32 // 0xRRGGBB
}

// Colours are the colours that a yarn may be named by, the undyed ones first.
func Colours() []NamedColour {
	return []NamedColour{
		{"white", 0xefe7d6}, {"fawn", 0xc9ad86}, {"grey", 0x8f8b84}, {"brown", 0x6e4f38}, {"black", 0x35302c},
		{"madder", 0xb0472f}, {"rose", 0xd08a78}, {"weld", 0xd9b93b}, {"woad", 0x3f6a92}, {"pale woad", 0x8fb0c9},
		{"walnut", 0x5b3f2a}, {"green", 0x6b7a3a}, {"lichen purple", 0x7a4668},
	}
}

// ColourRGB is a colour by its name or as #rrggbb; false when it is neither.
func ColourRGB(text string) (uint32, bool) {
	for _, c := range Colours() {
		if c.Name == text {
			return c.RGB, true
		}
	}
	if digits, ok := strings.CutPrefix(text, "#"); ok && len(digits) == 6 {
		v, err := strconv.ParseUint(digits, 16, 32)
		return uint32(v), err == nil
	}
	return 0, false
}

// colourKey accepts a named colour, #rrggbb, or nothing.
func colourKey(name, label string, at *string) key {
	k := textKey(name, label, at)
	var names []string
	for _, c := range Colours() {
		names = append(names, c.Name)
	}
	k.accepted = fmt.Sprintf("%s, or #rrggbb in quotes", strings.Join(names, ", "))
	read := k.read
	k.read = func(n *yaml.Node) string {
		if _, ok := ColourRGB(n.Value); !ok && n.Value != "" {
			return said(n)
		}
		return read(n)
	}
	return k
}
