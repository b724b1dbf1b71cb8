package drawing

import (
	"bytes"
	"encoding/xml"
	"image/color"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"ellwand/geometry"
)

// plainFlat is a square of 60 cm, hemmed below and sewn to a smaller one.
func plainFlat() FlatSheet {
	box := func(x0, y0, x1, y1 float64) []geometry.Point {
		return []geometry.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}, {X: x0, Y: y0}}
	}
	return FlatSheet{Title: "Ferry bag", Date: "2026-03-01", Views: []FlatView{
		{Name: "front", Parts: []FlatPart{{Name: "body", Edges: []FlatLine{{StyleEdge, box(0, 0, 60, 60)}}}, {Name: "pocket", Edges: []FlatLine{{StyleSeam, box(20, 20, 40, 40)}}}},
			Seams: []FlatSeam{{Number: 1, Line: []geometry.Point{{X: 20, Y: 20}, {X: 40, Y: 20}}}}},
		{Name: "back", Parts: []FlatPart{{Name: "body", Edges: []FlatLine{{StyleEdge, box(0, 0, 60, 60)}}}}},
	}, Steps: []FlatStep{{Head: "1. Sew on the pocket: 60.0 cm", Lines: []string{"(1) pocket: 60.0 cm"}}}}
}

// The views stand at one scale, beside each other, and the scale bar is as long
// as it says.
func TestFlatViewsAreAtOneScale(t *testing.T) {
	f, err := newFlatPlate(plainFlat(), Options{}, true)
	if err != nil {
		t.Fatal(err)
	}
	ops := &kept{}
	f.paint(ops)
	var wide []float64
	for _, s := range ops.shapes {
		wide = append(wide, geometry.Polygon(s).Bounds().Width()/f.scale)
	}
	found := 0
	for _, w := range wide {
		if math.Abs(w-60) < 1e-6 || math.Abs(w-20) < 1e-6 {
			found++
		}
	}
	if found != 3 {
		t.Errorf("shapes are %.2f cm wide; want two of 60 and one of 20", wide)
	}
}

// kept keeps the shapes that are filled.
type kept struct{ shapes [][]geometry.Point }

func (k *kept) fill(s []geometry.Point, _ color.RGBA) { k.shapes = append(k.shapes, s) }
func (k *kept) stroke([]geometry.Point, stroke)       {}
func (k *kept) text(text)                             {}
func (k *kept) clip(box)                              {}
func (k *kept) unclip()                               {}

func TestFlatKindsOfFile(t *testing.T) {
	for _, name := range []string{"a.png", "a.SVG", "a.pdf"} {
		write, err := FlatForFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var one, two bytes.Buffer
		if err := write(&one, plainFlat(), Options{PixelWidth: 900}); err != nil {
			t.Fatal(err)
		}
		if err := write(&two, plainFlat(), Options{PixelWidth: 900}); err != nil || !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("%s is not the same twice (%v)", name, err)
		}
		switch {
		case strings.HasSuffix(name, "png"):
			if img, err := png.Decode(&one); err != nil || img.Bounds().Dx() != 900 {
				t.Errorf("%s: %v", name, err)
			}
		case strings.HasSuffix(name, "SVG"):
			d := xml.NewDecoder(&one)
			for {
				if _, err := d.Token(); err == io.EOF {
					break
				} else if err != nil {
					t.Fatal(err)
				}
			}
			if !strings.Contains(two.String(), ">pocket<") {
				t.Error("the drawing names no pocket")
			}
		default:
			if !bytes.HasPrefix(one.Bytes(), []byte("%PDF")) {
				t.Error("no PDF")
			}
		}
	}
	if _, err := FlatForFile("a.csv"); err == nil || !strings.Contains(err.Error(), ".png, .svg, .pdf") {
		t.Errorf("a.csv: %v", err)
	}
}

func TestNothingToDrawFlatIsSaid(t *testing.T) {
	if err := FlatPNG(io.Discard, FlatSheet{}, Options{}); err == nil || !strings.Contains(err.Error(), "no pieces") {
		t.Errorf("nothing: %v", err)
	}
	s := plainFlat()
	s.Views[0].Parts[0].Edges[0].Line[0].X = math.NaN()
	if err := FlatPNG(io.Discard, s, Options{}); err == nil || !strings.Contains(err.Error(), "body") {
		t.Errorf("a corner that is no place: %v", err)
	}
}
