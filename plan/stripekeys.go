package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"ellwand/cloth"
)

// maxStripeThreads is the most ends or picks of one turn of an order.
const maxStripeThreads = 100000

// stripesKey is an order of yarns in ends or picks: in the file a list of
// {yarn: grey, ends: 20}, in a form "20 grey, 4 red".
func stripesKey(name, label, threads string, at *[]cloth.Stripe) key {
	k := key{name: name, label: label, kind: kindList,
		accepted: fmt.Sprintf("a list of at most %d turns such as {yarn: grey, %s: 20}, typed as 20 grey, 4 red", maxList, threads)}
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" {
			*at = nil
			return ""
		}
		if n.Kind != yaml.SequenceNode || len(n.Content) > maxList {
			return said(n)
		}
		var list []cloth.Stripe
		for _, item := range n.Content {
			s, wrong := readStripe(item, threads)
			if wrong != "" {
				return wrong
			}
			list = append(list, s)
		}
		*at = list
		return ""
	}
	k.write = func() *yaml.Node { return stripesNode(*at, threads) }
	k.shown = func() string { return cloth.StripesText(*at) }
	k.typed = func(text string) *yaml.Node { return typedStripes(text, threads) }
	k.own = object{"type": []string{"array", "null"}, "maxItems": maxList, "items": object{"type": "object", "additionalProperties": false,
		"required": []string{"yarn", threads}, "properties": object{
			"yarn":  object{"type": []string{"string", "number", "boolean"}},
			threads: object{"type": "integer", "minimum": 1, "maximum": maxStripeThreads}}}}
	return k
}

func readStripe(n *yaml.Node, threads string) (cloth.Stripe, string) {
	if n.Kind != yaml.MappingNode {
		return cloth.Stripe{}, "holds a turn that " + said(n)
	}
	var s cloth.Stripe
	name := textKey("yarn", "", &s.Yarn)
	count := integerKey(threads, "", &s.Threads, 1, maxStripeThreads)
	for i := 0; i+1 < len(n.Content); i += 2 {
		at, value := n.Content[i].Value, n.Content[i+1]
		wrong := ""
		switch at {
		case "yarn":
			wrong = name.read(value)
		case threads:
			wrong = count.read(value)
		default:
			return s, fmt.Sprintf("holds the key %q, which is neither yarn nor %s", at, threads)
		}
		if wrong != "" {
			return s, fmt.Sprintf("holds a turn whose %s %s", at, wrong)
		}
	}
	if s.Yarn == "" || s.Threads == 0 {
		return s, "holds a turn without yarn or " + threads
	}
	return s, ""
}

func stripesNode(list []cloth.Stripe, threads string) *yaml.Node {
	if len(list) == 0 {
		return nil
	}
	n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle}
	for _, s := range list {
		n.Content = append(n.Content, &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Style: yaml.FlowStyle,
			Content: []*yaml.Node{textNode("yarn"), textNode(s.Yarn), textNode(threads), numberNode(float64(s.Threads))}})
	}
	return n
}

// typedStripes is "20 grey, 4 red" as it would stand in the file. What cannot be
// read so is handed on as text, for read to refuse.
func typedStripes(text, threads string) *yaml.Node {
	if text == "" {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null"}
	}
	var list []cloth.Stripe
	for _, part := range strings.Split(text, ",") {
		count, yarn, ok := strings.Cut(strings.TrimSpace(part), " ")
		n, err := strconv.ParseFloat(count, 64)
		if !ok || err != nil || n != math.Trunc(n) || math.Abs(n) > 1e9 {
			return textNode(text)
		}
		list = append(list, cloth.Stripe{Yarn: strings.TrimSpace(yarn), Threads: int(n)})
	}
	return stripesNode(list, threads)
}

// rowsKey is a weave's draft: one text for each pick, the first pick first.
func rowsKey(name, label string, at *[]string) key {
	k := key{name: name, label: label, kind: kindList,
		accepted: fmt.Sprintf("a list of at most %d rows of one length, a mark for each end: X where the warp lies over the weft, . where under; typed as X..X, XX..", cloth.MaxDraft)}
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" {
			*at = nil
			return ""
		}
		if n.Kind != yaml.SequenceNode {
			return said(n)
		}
		var rows []string
		for _, item := range n.Content {
			if item.Kind != yaml.ScalarNode {
				return "holds a row that " + said(item)
			}
			rows = append(rows, item.Value)
		}
		if _, err := cloth.ParseDraft(rows); len(rows) > 0 && err != nil {
			return err.Error()
		}
		*at = rows
		return ""
	}
	k.write = func() *yaml.Node {
		if len(*at) == 0 {
			return nil
		}
		n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle}
		for _, row := range *at {
			n.Content = append(n.Content, textNode(row))
		}
		return n
	}
	k.shown = func() string { return strings.Join(*at, ", ") }
	k.typed = func(text string) *yaml.Node {
		if text == "" {
			return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null"}
		}
		n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
		for _, row := range strings.Split(text, ",") {
			n.Content = append(n.Content, textNode(strings.TrimSpace(row)))
		}
		return n
	}
	k.own = object{"type": []string{"array", "null"}, "maxItems": cloth.MaxDraft, "items": object{"type": []string{"string", "number"}}}
	return k
}
