package drawing

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"path/filepath"
	"strings"
)

// FlatPicture draws the sheet as a picture, with the list of sewing or without.
func FlatPicture(s FlatSheet, o Options, list bool) (image.Image, error) {
	f, err := newFlatPlate(s, o, list)
	if err != nil {
		return nil, err
	}
	p := newPicturePen(int(f.px), int(f.height), f.face)
	f.paint(p)
	return p.image(), nil
}

// FlatPNG, FlatSVG and FlatPDF write a garment drawn flat. Same sheet and
// options, same bytes.
func FlatPNG(w io.Writer, s FlatSheet, o Options) error {
	img, err := FlatPicture(s, o, true)
	if err != nil {
		return err
	}
	if err := png.Encode(w, img); err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	return nil
}

// FlatSVG writes a scalable drawing.
func FlatSVG(w io.Writer, s FlatSheet, o Options) error {
	f, err := newFlatPlate(s, o, true)
	if err != nil {
		return err
	}
	return writeSVG(w, f.diagram, f.heading(), o, f.paint)
}

// FlatPDF writes pages at a round scale that each states.
func FlatPDF(w io.Writer, s FlatSheet, o Options) error {
	f, err := newFlatPlate(s, o, true)
	if err != nil {
		return err
	}
	f.c.Paper = color.RGBA{255, 255, 255, 255}
	return writePages(w, f.diagram, f.heading(), o, f.paint)
}

// FlatForFile is what writes the kind of file that the name's ending tells.
func FlatForFile(name string) (func(io.Writer, FlatSheet, Options) error, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".png":
		return FlatPNG, nil
	case ".svg":
		return FlatSVG, nil
	case ".pdf":
		return FlatPDF, nil
	}
	return nil, fmt.Errorf("the file is named %q; accepted for a garment drawn flat is a name ending in .png, .svg, .pdf", name)
}
