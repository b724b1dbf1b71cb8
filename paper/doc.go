package paper

import (
	"fmt"
	"image/color"
	"io"
	"strings"
	"time"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// Colours of writing and lines, alike on all that is printed.
var (
	Ink   = color.RGBA{0x2a, 0x24, 0x1e, 255}
	Faint = color.RGBA{0x65, 0x5b, 0x50, 255}
	Rule  = color.RGBA{0xbf, 0xb2, 0x9c, 255}
	Tint  = color.RGBA{0xf4, 0xef, 0xe5, 255}
	Alarm = color.RGBA{0xa3, 0x20, 0x1a, 255}
)

// Doc is a document being made, page by page.
type Doc struct {
	pdf   *fpdf.Fpdf
	paper Size
	title string
	date  string
}

// Options are what all pages of a document share. Date is "2026-03-01"; it
// stands in the foot of the pages and for the clock in the file, so that the
// same content gives the same bytes.
type Options struct {
	Paper Size
	Title string
	Date  string
}

// File is a PDF without pages, with the writing and marks that all that is printed
// shares; wide and high are of its usual page, in unit ("cm" or "pt"). date,
// "2026-03-01", stands for the clock: same content, same bytes.
func File(unit string, wide, high float64, title, date string) *fpdf.Fpdf {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: unit, Size: fpdf.SizeType{Wd: wide, Ht: high}})
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes("Go", "", goregular.TTF)
	pdf.AddUTF8FontFromBytes("Go", "B", gobold.TTF)
	pdf.SetTitle(title, true)
	pdf.SetCreator("Ellwand", true)
	pdf.SetLang("en")
	pdf.SetCatalogSort(true)
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		day = time.Unix(0, 0).UTC()
	}
	pdf.SetCreationDate(day)
	pdf.SetModificationDate(day)
	pdf.SetLineCapStyle("round")
	pdf.SetLineJoinStyle("round")
	return pdf
}

// New begins a document without pages.
func New(o Options) *Doc {
	wide, high := o.Paper.CM()
	pdf := File("cm", wide, high, Clean(o.Title), o.Date)
	return &Doc{pdf: pdf, paper: o.Paper, title: Clean(o.Title), date: Clean(o.Date)}
}

// Write writes the document.
func (d *Doc) Write(w io.Writer) error {
	if d.pdf.PageNo() == 0 {
		return fmt.Errorf("there is nothing to print")
	}
	if err := d.pdf.Output(w); err != nil {
		return fmt.Errorf("writing the pages: %w", err)
	}
	return nil
}

// addPage begins a page, upright or lying, and gives its size.
func (d *Doc) addPage(lying bool) (wide, high float64) {
	wide, high = d.paper.CM()
	if lying {
		wide, high = high, wide
	}
	d.pdf.AddPageFormat("P", fpdf.SizeType{Wd: wide, Ht: high})
	return wide, high
}

// Clean shows control characters and marks that turn the direction of writing
// as a dot, so that a name cannot disturb what stands around it.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r) {
			return '·'
		}
		return r
	}, s)
}

// InFont shows letters beyond the font's reach (no font of 16-bit codes has
// them) by the sign for an unknown letter.
func InFont(line string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, line)
}

const ptPerCM = 72 / 2.54

// font sets the letters that the next text is measured and written in.
func (d *Doc) font(size float64, bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	d.pdf.SetFont("Go", style, size)
}

// width is how wide a text is, in cm.
func (d *Doc) width(text string, size float64, bold bool) float64 {
	d.font(size, bold)
	return d.pdf.GetStringWidth(InFont(text))
}

// text writes one line with its upper left corner at (x, y).
func (d *Doc) text(text string, x, y, size float64, bold bool, c color.RGBA) {
	if text == "" {
		return
	}
	d.font(size, bold)
	d.pdf.SetTextColor(int(c.R), int(c.G), int(c.B))
	d.pdf.Text(x, y+ascent*size/ptPerCM, InFont(text))
}

// Of the font's size: how high letters stand over the line, and how far apart
// lines are.
const (
	ascent = 0.94
	pitch  = 1.30
)

// lineHigh is the height of a line of writing, in cm.
func lineHigh(size float64) float64 { return pitch * size / ptPerCM }

// wrap breaks a text into lines no wider than most cm: at blanks but not at
// no-break ones, else within a word. Line breaks in the text stay.
func (d *Doc) wrap(text string, size float64, bold bool, most float64) []string {
	var out []string
	for _, part := range strings.Split(strings.ReplaceAll(text, "\r", ""), "\n") {
		out = append(out, d.wrapLine(Clean(part), size, bold, most)...)
	}
	return out
}

func (d *Doc) wrapLine(text string, size float64, bold bool, most float64) []string {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\t' })
	if len(words) == 0 {
		return []string{""}
	}
	var out []string
	line := ""
	for len(words) > 0 {
		try := strings.TrimSpace(line + " " + words[0])
		switch {
		case d.width(try, size, bold) <= most:
			line, words = try, words[1:]
		case line != "":
			out, line = append(out, line), ""
		default: // one word longer than the line
			head := d.fitting(words[0], size, bold, most)
			out = append(out, string(head))
			words[0] = string([]rune(words[0])[len(head):])
		}
	}
	return append(out, line)
}

// fitting is the most letters of a word that fit, at least one.
func (d *Doc) fitting(word string, size float64, bold bool, most float64) []rune {
	r := []rune(word)
	low, high := 1, len(r)-1
	for low < high {
		mid := (low + high + 1) / 2
		if d.width(string(r[:mid]), size, bold) <= most {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return r[:low]
}

// shorten cuts a text to fit, with an ellipsis.
func (d *Doc) shorten(text string, size float64, bold bool, most float64) string {
	return Shorten(Clean(text), func(t string) bool { return d.width(t, size, bold) <= most })
}

// Shorten is a text, or as much of it before an ellipsis as fits.
func Shorten(text string, fits func(string) bool) string {
	if fits(text) {
		return text
	}
	r := []rune(text)
	low, high := 0, len(r)
	for low < high {
		mid := (low + high + 1) / 2
		if fits(string(r[:mid]) + "…") {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return strings.TrimRight(string(r[:low]), " ") + "…"
}
