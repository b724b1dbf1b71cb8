package plan

import (
	"strings"
	"testing"
)

func TestCornersAreMovedAndEdgesNamed(t *testing.T) {
	p := planWith(t, ownBelt)
	points, edges, ok := p.Corners("loop")
	if !ok || len(points) != 4 || edges[1] != "top" {
		t.Fatalf("the loop's corners are %v, edges %v", points, edges)
	}
	points[2][0] += 3
	if err := p.SetCorners("loop", points, edges); err != nil {
		t.Fatal(err)
	}
	if err := p.RenameEdge("loop", 1, "slanted end"); err != nil {
		t.Fatal(err)
	}
	if p.Seams[1].ToEdges[0] != "slanted end" {
		t.Errorf("the seam is still at %v", p.Seams[1].ToEdges)
	}
	if err := p.RenamePiece("loop", "tab"); err != nil || p.Seams[1].ToPiece != "tab" {
		t.Errorf("%v; the seam goes to %s", err, p.Seams[1].ToPiece)
	}
	text, err := p.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse(text, "again.yaml")
	if err != nil {
		t.Fatal(err)
	}
	pr, err := Prepare(again)
	if err != nil {
		t.Fatal(err)
	}
	if all := strings.Join(pr.Cautions, "\n"); !strings.Contains(all, "slanted end of tab is 6.7 cm") { // √(6² + 3²)
		t.Errorf("cautions %q", all)
	}
}

func TestEdgesArePairedAndLostWithTheirPiece(t *testing.T) {
	p := planWith(t, ownBelt)
	name, err := p.Pair("belt", "lower", "belt", "upper", 1)
	if err != nil || name != "belt, lower to upper" {
		t.Fatalf("%q, %v", name, err)
	}
	if _, err := p.Pair("belt", "lower", "belt", "lower", 1); err == nil {
		t.Error("an edge is sewn to itself")
	}
	if err := p.RenameEdge("belt", 0, "upper"); err == nil || !strings.Contains(err.Error(), "already") {
		t.Errorf("two edges of one name: %v", err)
	}
	if err := p.SetCorners("belt", [][2]float64{{0, 0}, {90, 0}, {0, 6}}, []string{"lower", "right end", "left end"}); err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Seams {
		if s.Name == name {
			t.Error("a seam of an edge that is gone stays")
		}
	}
	p.DropSeamsOf("belt")
	if len(p.Seams) != 1 || p.Seams[0].Name != "left side" {
		t.Errorf("seams %+v", p.Seams)
	}
	if err := p.SetCorners("belt", [][2]float64{{0, 0}, {90, 0}, {0, 6}, {90, 6}}, []string{"a", "b", "c", "d"}); err == nil {
		t.Error("an outline that crosses itself is taken")
	}
}

// A belt that is matched, cut in two and laid is still so under another name.
func TestPieceRenamedStaysMatchedAndLaid(t *testing.T) {
	p := starterWith(t, "pieces:\n  - {name: belt, shape: rectangle, length_cm: 60, width_cm: 20, piecing: \"yes\"}\n  - {name: belt part 9, shape: rectangle, length_cm: 10, width_cm: 10}\n")
	p.RepeatCM = 12
	p.Matches = []MatchSpec{{Name: "bands", Pieces: []string{"belt part 1", "belt part 2", "sleeve"}, Direction: "along"}}
	p.KeepLay(laid(t, p))
	if err := p.RenamePiece("belt", "girdle"); err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(p.Matches[0].Pieces, ", "); got != "girdle part 1, girdle part 2, sleeve" {
		t.Errorf("matched are %s", got)
	}
	pr, err := Prepare(p)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := SavedLayFits(p, pr); !ok {
		t.Errorf("the lay does not serve any more: %v", p.Lay.Placements)
	}
}
