package plan

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// key is one key of the plan file, bound to the place in a plan that holds its
// value. Reading, saving, form fields and the schema all go by these.
type key struct {
	name     string // "take_up"
	label    string // for forms
	unit     string // "cm", "g", "tex" or ""
	kind     kind
	accepted string // for the sentence of a problem
	required bool
	min, max float64
	choices  []string
	// read takes the value; "" when it is accepted, else what is wrong with it.
	read func(n *yaml.Node) string
	// write gives the value; nil for none.
	write func() *yaml.Node
	// What a form shows, how what is typed there is read, and the schema, for
	// kinds that are none of the simple ones.
	shown func() string
	typed func(text string) *yaml.Node
	own   object
}

type kind string

const (
	kindNumber  kind = "number"
	kindInteger kind = "integer"
	kindText    kind = "text"
	kindYesNo   kind = "yes or no"
	kindNumbers kind = "list of numbers"
	kindRate    kind = "a number, or three"
	kindTexts   kind = "list of names"
	kindList    kind = "list" // with shown, typed and own
)

// bounds is what a number may be.
type bounds struct {
	min, max float64
	below    bool // max itself is not accepted
	above    bool // min itself is not accepted
}

func (b bounds) holds(v float64) bool {
	return !math.IsNaN(v) && v >= b.min && v <= b.max && !(b.below && v == b.max) && !(b.above && v == b.min)
}

func (b bounds) words(unit string) string {
	from, to := "from "+plain(b.min), "to "+plain(b.max)
	if b.above {
		from = "above " + plain(b.min)
	}
	if b.below {
		to = "to below " + plain(b.max)
	}
	return strings.TrimSpace("a bare number " + from + " " + to + " " + unit)
}

// plain writes a number with as many digits as it has, never as a power.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// fraction is a loss: a part of the earlier state, never all of it.
var fraction = bounds{min: 0, max: 1, below: true}

// yield is what is kept of the earlier state.
var yield = bounds{min: 0, max: 1, above: true}

// said is how a value that was not accepted is quoted, however long it is.
func said(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "is a list of keys and values"
	case yaml.SequenceNode:
		return "is a list"
	}
	if n.Tag == "!!null" || n.Value == "" {
		return "is empty"
	}
	v := shortened(n.Value)
	if n.Tag == "!!str" {
		return "is " + strconv.Quote(v)
	}
	return "is " + v
}

// shortened is the beginning of a text, enough to find it by.
func shortened(text string) string {
	v := []rune(text)
	if len(v) > 40 {
		v = append(v[:40], '…')
	}
	return string(v)
}

// number reads a bare finite number as people write it. YAML's other ways (0176
// and 0o176 for 126, 0x7E, 1_76) are refused: they would be read as what nobody
// meant.
func number(n *yaml.Node) (float64, bool) {
	if n.Kind != yaml.ScalarNode || n.Tag != "!!int" && n.Tag != "!!float" {
		return 0, false
	}
	digits := strings.TrimLeft(n.Value, "+-")
	if len(digits) > 1 && digits[0] == '0' && strings.ContainsAny(digits[1:2], "0123456789_xXoObB") || strings.Contains(digits, "_") {
		return 0, false
	}
	v, err := strconv.ParseFloat(n.Value, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, false
	}
	return v, true
}

func numberNode(v float64) *yaml.Node {
	tag := "!!float"
	if v == math.Trunc(v) {
		tag = "!!int"
	}
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: tag, Value: plain(v)}
}

func textNode(s string) *yaml.Node {
	n := &yaml.Node{}
	n.SetString(s)
	return n
}

func numberKey(name, label, unit string, at *float64, b bounds) key {
	k := key{name: name, label: label, unit: unit, kind: kindNumber, accepted: b.words(unit), min: b.min, max: b.max}
	k.read = func(n *yaml.Node) string {
		v, ok := number(n)
		if !ok || !b.holds(v) {
			return said(n)
		}
		*at = v
		return ""
	}
	k.write = func() *yaml.Node { return numberNode(*at) }
	return k
}

func integerKey(name, label string, at *int, least, most int) key {
	k := key{name: name, label: label, kind: kindInteger, min: float64(least), max: float64(most),
		accepted: fmt.Sprintf("a whole number from %d to %d", least, most)}
	k.read = func(n *yaml.Node) string {
		v, ok := number(n)
		if !ok || v != math.Trunc(v) || v < float64(least) || v > float64(most) {
			return said(n)
		}
		*at = int(v)
		return ""
	}
	k.write = func() *yaml.Node { return numberNode(float64(*at)) }
	return k
}

// maxNameRunes is the longest name that still fits on a picture.
const maxNameRunes = 200

func textKey(name, label string, at *string) key {
	k := key{name: name, label: label, kind: kindText, accepted: fmt.Sprintf("text of at most %d letters on one line", maxNameRunes)}
	k.read = func(n *yaml.Node) string {
		if n.Kind != yaml.ScalarNode {
			return said(n)
		}
		if n.Tag == "!!null" {
			*at = ""
			return ""
		}
		if wrong := wrongLetter(n.Value, false); wrong != "" {
			return quotedWrong(wrong, n.Value)
		}
		if letters := utf8.RuneCountInString(n.Value); letters > maxNameRunes {
			return fmt.Sprintf("has %d letters", letters)
		}
		*at = n.Value
		return ""
	}
	k.write = func() *yaml.Node { return textNode(*at) }
	return k
}

// wordKey accepts one of some words, each in the plan as type T.
func wordKey[T ~string](name, label string, at *T, words ...T) key {
	text := string(*at)
	k := textKey(name, label, &text)
	var list []string
	for _, w := range words {
		list = append(list, string(w))
	}
	k.choices, k.accepted = list, oneOf(slices.DeleteFunc(slices.Clone(list), func(w string) bool { return w == "" }))
	k.read = func(n *yaml.Node) string {
		if n.Kind != yaml.ScalarNode || !slices.Contains(list, n.Value) {
			return said(n)
		}
		*at = T(n.Value)
		return ""
	}
	k.write = func() *yaml.Node { return textNode(string(*at)) }
	return k
}

func oneOf(list []string) string {
	switch len(list) {
	case 0:
		return "nothing: there is none yet"
	case 1:
		return list[0]
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}

func yesNoKey(name, label string, at *bool) key {
	k := key{name: name, label: label, kind: kindYesNo, accepted: "true or false"}
	k.read = func(n *yaml.Node) string {
		if n.Kind != yaml.ScalarNode || n.Tag != "!!bool" {
			return said(n)
		}
		*at = strings.EqualFold(n.Value, "true")
		return ""
	}
	k.write = func() *yaml.Node {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!bool", Value: strconv.FormatBool(*at)}
	}
	return k
}

// maxList is the most numbers a list of numbers may hold.
const maxList = 50

func numbersKey(name, label, unit string, at *[]float64, b bounds) key {
	k := key{name: name, label: label, unit: unit, kind: kindNumbers, min: b.min, max: b.max,
		accepted: fmt.Sprintf("a list of at most %d numbers in square brackets, each %s", maxList, b.words(unit))}
	k.read = func(n *yaml.Node) string {
		if n.Kind != yaml.SequenceNode || len(n.Content) > maxList {
			return said(n)
		}
		list := []float64{}
		for _, item := range n.Content {
			v, ok := number(item)
			if !ok || !b.holds(v) {
				return "holds a value that " + said(item)
			}
			list = append(list, v)
		}
		*at = list
		return ""
	}
	k.write = func() *yaml.Node {
		n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle}
		for _, v := range *at {
			n.Content = append(n.Content, numberNode(v))
		}
		return n
	}
	return k
}

func integersKey(name, label string, at *[]int, least, most int) key {
	floats := make([]float64, len(*at))
	for i, v := range *at {
		floats[i] = float64(v)
	}
	k := numbersKey(name, label, "", &floats, bounds{min: float64(least), max: float64(most)})
	readFloats := k.read
	k.read = func(n *yaml.Node) string {
		if wrong := readFloats(n); wrong != "" {
			return wrong
		}
		whole := make([]int, len(floats))
		for i, v := range floats {
			if v != math.Trunc(v) {
				return "holds " + plain(v) + ", which is no whole number"
			}
			whole[i] = int(v)
		}
		*at = whole
		return ""
	}
	k.write = func() *yaml.Node {
		n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle}
		for _, v := range *at {
			n.Content = append(n.Content, numberNode(float64(v)))
		}
		return n
	}
	return k
}

func need(k key) key {
	k.required = true
	return k
}

// longTextKey is textKey for a few sentences, on several lines if wanted.
func longTextKey(name, label string, at *string) key {
	const most = 4000
	k := textKey(name, label, at)
	k.accepted = fmt.Sprintf("text of at most %d letters", most)
	k.read = func(n *yaml.Node) string {
		if n.Kind != yaml.ScalarNode || len([]rune(n.Value)) > most {
			return said(n)
		}
		if wrong := wrongLetter(n.Value, true); wrong != "" {
			return quotedWrong(wrong, n.Value)
		}
		*at = n.Value
		return ""
	}
	return k
}

// mapKey is a number that is absent from a map when the file does not give it.
func mapKey[K comparable](name, label, unit string, least, most float64, in map[K]float64, at K) key {
	b := bounds{min: least, max: most}
	k := key{name: name, label: label, unit: unit, kind: kindNumber, accepted: b.words(unit), min: least, max: most}
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == "" {
			delete(in, at)
			return ""
		}
		v, ok := number(n)
		if !ok || !b.holds(v) {
			return said(n)
		}
		in[at] = v
		return ""
	}
	k.write = func() *yaml.Node {
		v, there := in[at]
		if !there {
			return nil
		}
		return numberNode(v)
	}
	return k
}
