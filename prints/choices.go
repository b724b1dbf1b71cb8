package prints

import (
	"ellwand/paper"
	"ellwand/plan"
)

// choiceSheets are the record of choices as a card to show beside the garment.
// Each component stands alone; nothing is added up.
func choiceSheets(r *plan.Result) []paper.Sheet {
	s := paper.Sheet{Title: title(r), Under: "What is known of each part of the making, on what evidence, what was done, and why. Each part stands alone."}
	for _, c := range r.Plan().Choices {
		s.Blocks = append(s.Blocks, choice(c))
	}
	if len(r.Plan().Choices) == 0 {
		s.Blocks = append(s.Blocks, paper.Text("No choice is written down in this plan."))
	}
	return []paper.Sheet{s}
}

// choice is one component. What is not written down is said to be so: an empty
// place is an answer too.
func choice(c plan.Choice) paper.Block {
	said := func(text string) string {
		if text == "" {
			return "not written down"
		}
		return text
	}
	rows := []paper.Entry{{Label: "Known", Text: said(c.Known)}, {Label: "Evidence", Text: said(c.EvidenceText())}}
	if c.Reference != "" {
		rows = append(rows, paper.Entry{Label: "Reference", Text: c.ReferenceText()})
	}
	rows = append(rows, paper.Entry{Label: "Done", Text: said(c.Done)}, paper.Entry{Label: "Why", Text: said(c.Why)})
	return paper.Entries{Title: c.Component, Rows: rows}
}
