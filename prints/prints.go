// Package prints is all that is put on paper from a plan worked out: the
// cutting diagram, full-size pieces, the chalk list, work cards for each stage,
// the reckoning and the choices card. It knows what stands on each; how pages
// are made is paper's, and the figures are plan's.
package prints

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"ellwand/layout/drawing"
	"ellwand/paper"
	"ellwand/plan"
)

// Kind is one of the things printed.
type Kind string

const (
	Diagram   Kind = "diagram"
	Flat      Kind = "flat"
	FullSize  Kind = "full size"
	Chalk     Kind = "chalk list"
	Cards     Kind = "work cards"
	Reckoning Kind = "reckoning"
	Choices   Kind = "choices"
)

// Info is what a person is told of a kind.
type Info struct {
	Kind    Kind
	Label   string // "Work cards"
	About   string
	Endings []string // of the files it can be written to; the first is the usual one
	Scaled  bool     // the pages may be at a scale asked for
	File    string   // what is added to the plan's name: "cards"
}

// Kinds are all of them.
func Kinds() []Info {
	return []Info{
		{Diagram, "Cutting diagram", "The cloth with every piece on it, and the table to chalk it by.", []string{".pdf", ".png", ".svg"}, true, "cutting"},
		{Flat, "Garment laid flat", "Front and back from its own pieces, seams numbered, and the order of sewing.", []string{".pdf", ".png", ".svg"}, false, "flat"},
		{FullSize, "Full-size pieces", "Pieces with a curve or a slant, 1 : 1, on sheets to glue together.", []string{".pdf"}, false, "full-size"},
		{Chalk, "Chalk list", "Distances along the selvedge and across, in the order of cutting.", []string{".pdf", ".csv"}, false, "chalk"},
		{Cards, "Work cards", "One page to hang beside the work for each stage, from fleece to sewing.", []string{".pdf"}, false, "cards"},
		{Reckoning, "Reckoning", "Every figure of the plan, and from what.", []string{".pdf"}, false, "reckoning"},
		{Choices, "Choices card", "What is known of each part, on what evidence, what is done and why, to show beside the garment.", []string{".pdf"}, false, "choices"},
	}
}

// Of is the kind's description.
func Of(k Kind) Info {
	all := Kinds()
	return all[max(0, slices.IndexFunc(all, func(i Info) bool { return i.Kind == k }))]
}

// Options are how it is printed. Ratio is how many cm of cloth one cm of paper
// shows, on as many pages as that takes; 0 brings the cloth onto one page. Only
// is the piece or the stage that is wanted, "" for all.
type Options struct {
	Paper paper.Size
	Ratio float64
	DPI   float64
	Date  string // as it stands on the pages: "2026-03-01"
	Only  string
}

// Write writes a kind to a file of that ending: ".pdf".
func Write(w io.Writer, k Kind, ending string, r *plan.Result, o Options) error {
	info := Of(k)
	if !slices.Contains(info.Endings, ending) {
		return fmt.Errorf("the %s cannot be written to a file ending in %q; accepted is %s", strings.ToLower(info.Label), ending, strings.Join(info.Endings, ", "))
	}
	switch k {
	case Diagram:
		return writeDiagram(w, ending, r, o)
	case Flat:
		write, err := drawing.FlatForFile("x" + ending)
		if err != nil {
			return err
		}
		return write(w, r.FlatSheet(o.Date), drawing.Options{DPI: o.DPI, Paper: o.Paper})
	case Chalk:
		if ending == ".csv" {
			return drawing.ChalkCSV(w, r.Sheet(o.Date))
		}
		return flow(w, r, o, chalkSheets(r, o))
	case FullSize:
		return writeFullSize(w, r, o)
	case Cards:
		sheets, err := cardSheets(r, o)
		if err != nil {
			return err
		}
		return flow(w, r, o, sheets)
	case Reckoning:
		return flow(w, r, o, reckoningSheets(r))
	default:
		return flow(w, r, o, choiceSheets(r))
	}
}

// Ending is that of a file name, in small letters.
func Ending(name string) string { return strings.ToLower(filepath.Ext(name)) }

func writeDiagram(w io.Writer, ending string, r *plan.Result, o Options) error {
	write, err := drawing.ForFile("x" + ending)
	if err != nil {
		return err
	}
	return write(w, r.Sheet(o.Date), drawing.Options{DPI: o.DPI, Paper: o.Paper, Ratio: o.Ratio})
}

// flow prints sheets of writing.
func flow(w io.Writer, r *plan.Result, o Options, sheets []paper.Sheet) error {
	d := paper.New(paper.Options{Paper: o.Paper, Title: title(r), Date: o.Date})
	d.Flow(sheets)
	return d.Write(w)
}

// wrongs are what stands in the way of the plan as it is, to stand first on what
// is worked by.
func wrongs(r *plan.Result) []paper.Block {
	var out []paper.Block
	for _, c := range r.CannotBeMade {
		out = append(out, paper.Caution("As it stands this cannot be made: "+c.Text))
	}
	for _, f := range r.Faults {
		out = append(out, paper.Caution("The lay has a fault: "+f.Text+"."))
	}
	return out
}

func title(r *plan.Result) string {
	if t := r.Plan().Title; t != "" {
		return t
	}
	return "Plan without a title"
}
